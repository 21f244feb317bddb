//! Commands with a shortcut, in one table: a test finds shortcuts that clash.

use eframe::egui::{Context, Key, KeyboardShortcut, Modifiers};

use crate::words::Language;

/// A command that can be given from anywhere.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs, reason = "`words` says what each does")]
pub enum Command {
    New,
    Open,
    Save,
    SaveAs,
    Undo,
    Redo,
    OtherUnit,
    PrintCard,
    PrintReport,
    Properties,
    Gauge,
    GoToReadings,
    GoToNuts,
    GoToPlan,
    ShowRecommended,
    GoAndTurn,
    CopyPlan,
    EarlierPass,
    LaterPass,
    EarlierStage,
    LaterStage,
    StepsOrPicture,
    Import,
    Guided,
    SideBySide,
    CrewView,
    KeepPreview,
    Strike,
    ZoomIn,
    ZoomOut,
    ZoomNormal,
    Shop,
    Practice,
    Help,
    Messages,
    Quit,
}

const CTRL: Modifiers = Modifiers::COMMAND;
const CTRL_SHIFT: Modifiers = Modifiers {
    shift: true,
    ..Modifiers::COMMAND
};
const ALT: Modifiers = Modifiers::ALT;
const PLAIN: Modifiers = Modifiers::NONE;

/// A command with its shortcut.
pub type Shortcut = (Command, Modifiers, Key);

/// Every command with its shortcuts: of the work, of what is on show, of files;
/// the main ones first.
pub const COMMANDS: [&[Shortcut]; 3] = [WORK, VIEW, FILE];

const WORK: &[Shortcut] = &[
    (Command::GoToReadings, CTRL, Key::R),
    (Command::Guided, PLAIN, Key::F2),
    (Command::GoAndTurn, CTRL, Key::Enter),
    (Command::ShowRecommended, CTRL, Key::D),
    (Command::GoToPlan, CTRL, Key::L),
    (Command::GoToNuts, CTRL, Key::T),
    (Command::KeepPreview, CTRL, Key::E),
    (Command::Undo, CTRL, Key::Z),
    (Command::Redo, CTRL, Key::Y),
    (Command::Redo, CTRL_SHIFT, Key::Z),
    (Command::Strike, CTRL, Key::J),
    (Command::Gauge, CTRL, Key::G),
    (Command::Properties, CTRL, Key::Comma),
    (Command::Import, CTRL, Key::I),
    (Command::CopyPlan, CTRL_SHIFT, Key::C),
];

const VIEW: &[Shortcut] = &[
    (Command::Help, PLAIN, Key::F1),
    (Command::Shop, PLAIN, Key::F7),
    (Command::Practice, PLAIN, Key::F9),
    (Command::CrewView, PLAIN, Key::F11),
    (Command::SideBySide, CTRL, Key::B),
    (Command::StepsOrPicture, CTRL, Key::K),
    (Command::EarlierPass, ALT, Key::PageUp),
    (Command::LaterPass, ALT, Key::PageDown),
    (Command::EarlierStage, CTRL, Key::PageUp),
    (Command::LaterStage, CTRL, Key::PageDown),
    (Command::OtherUnit, CTRL, Key::U),
    (Command::ZoomIn, CTRL, Key::Plus),
    (Command::ZoomOut, CTRL, Key::Minus),
    (Command::ZoomNormal, CTRL, Key::Num0),
    (Command::Messages, CTRL, Key::M),
];

const FILE: &[Shortcut] = &[
    (Command::New, CTRL, Key::N),
    (Command::Open, CTRL, Key::O),
    (Command::Save, CTRL, Key::S),
    (Command::SaveAs, CTRL_SHIFT, Key::S),
    (Command::PrintCard, CTRL, Key::P),
    (Command::PrintReport, CTRL_SHIFT, Key::P),
    (Command::Quit, CTRL, Key::Q),
];

/// All of them, longer combinations before the shorter ones they contain: the
/// first that fits is taken.
pub fn longest_first() -> impl Iterator<Item = Shortcut> {
    let of = |shift: bool| {
        let all = COMMANDS.into_iter().flatten().copied();
        all.filter(move |(_, with, _)| with.shift == shift)
    };
    of(true).chain(of(false))
}

/// A shortcut as it stands on the keys.
pub fn written(ctx: &Context, words: Language, shortcut: &KeyboardShortcut) -> String {
    let names = [
        ("Comma", ","),
        ("Minus", "−"),
        ("Plus", "+"),
        ("PageUp", words.key_page_up()),
        ("PageDown", words.key_page_down()),
    ];
    let written = ctx.format_shortcut(shortcut);
    (names.into_iter()).fold(written, |text, (name, sign)| text.replace(name, sign))
}

impl Command {
    /// Whether it may be given while the turn card fills the window: nothing
    /// that changes what is behind it.
    pub fn beside_turn_card(self) -> bool {
        matches!(
            self,
            Self::Save
                | Self::PrintCard
                | Self::PrintReport
                | Self::OtherUnit
                | Self::ZoomIn
                | Self::ZoomOut
                | Self::ZoomNormal
                | Self::Help
                | Self::Messages
                | Self::Quit
        )
    }

    /// The command's first shortcut.
    pub fn shortcut(self) -> Option<KeyboardShortcut> {
        let mut all = COMMANDS.into_iter().flatten();
        let (_, modifiers, key) = all.find(|(command, _, _)| *command == self)?;
        Some(KeyboardShortcut::new(*modifiers, *key))
    }

    /// What it does, in words.
    pub fn words(self, language: Language) -> &'static str {
        match self {
            Self::New => language.command_new(),
            Self::Open => language.command_open(),
            Self::Save => language.command_save(),
            Self::SaveAs => language.command_save_as(),
            Self::Undo => language.command_undo(),
            Self::Redo => language.command_redo(),
            Self::OtherUnit => language.command_other_unit(),
            Self::PrintCard => language.command_print_card(),
            Self::PrintReport => language.command_print_report(),
            Self::Properties => language.command_properties(),
            Self::Gauge => language.command_gauge(),
            Self::GoToReadings => language.command_go_to_readings(),
            Self::GoToNuts => language.command_go_to_nuts(),
            Self::GoToPlan => language.command_go_to_plan(),
            Self::ShowRecommended => language.command_show_recommended(),
            Self::GoAndTurn => language.command_go_and_turn(),
            Self::CopyPlan => language.command_copy_plan(),
            Self::EarlierPass => language.command_earlier_pass(),
            Self::LaterPass => language.command_later_pass(),
            Self::EarlierStage => language.command_earlier_stage(),
            Self::LaterStage => language.command_later_stage(),
            Self::StepsOrPicture => language.command_steps_or_picture(),
            Self::Import => language.command_import(),
            Self::Guided => language.command_guided(),
            Self::SideBySide => language.command_side_by_side(),
            Self::CrewView => language.command_crew_view(),
            Self::KeepPreview => language.command_keep_preview(),
            Self::Strike => language.command_strike(),
            Self::ZoomIn => language.command_zoom_in(),
            Self::ZoomOut => language.command_zoom_out(),
            Self::ZoomNormal => language.command_zoom_normal(),
            Self::Shop => language.command_shop(),
            Self::Practice => language.command_practice(),
            Self::Help => language.command_help(),
            Self::Messages => language.command_messages(),
            Self::Quit => language.command_quit(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_commands_share_a_shortcut() {
        let all: Vec<Shortcut> = longest_first().collect();
        for (index, (command, modifiers, key)) in all.iter().enumerate() {
            for (other, other_modifiers, other_key) in &all[..index] {
                assert!(
                    (modifiers, key) != (other_modifiers, other_key),
                    "{command:?} and {other:?} share a shortcut"
                );
            }
        }
    }
}
