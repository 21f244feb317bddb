//! Commands with a shortcut, in one table: a test finds shortcuts that clash.

use eframe::egui::{Key, KeyboardShortcut, Modifiers};

use crate::words::Language;

/// A command that can be given from anywhere.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Command {
    /// Start a session.
    New,
    /// Open a session.
    Open,
    /// Save it.
    Save,
    /// Save it under another name.
    SaveAs,
    /// Take the last change back.
    Undo,
    /// Do it again.
    Redo,
    /// Change between inch and millimetre.
    OtherUnit,
    /// Print the turn card.
    PrintCard,
    /// Print the report of the visit.
    PrintReport,
    /// Properties of press, stations, gauge and visit.
    Properties,
    /// The gauge.
    Gauge,
    /// Go to the readings.
    GoToReadings,
    /// Go to the nuts.
    GoToNuts,
    /// Go to the plan.
    GoToPlan,
    /// Show the recommended turns.
    ShowRecommended,
    /// Make the turns on show.
    GoAndTurn,
    /// Copy the plan as text.
    CopyPlan,
    /// The pass before.
    EarlierPass,
    /// The pass after.
    LaterPass,
    /// The stage before.
    EarlierStage,
    /// The stage after.
    LaterStage,
    /// Change between the picture and the steps of a stage.
    StepsOrPicture,
    /// Import readings from a file.
    Import,
    /// Take readings arm by arm.
    Guided,
    /// Show the passes side by side, or go back.
    SideBySide,
    /// Show the crew's view, or go back.
    CrewView,
    /// Keep the turns on show to compare.
    KeepPreview,
    /// Strike the reading that has the keyboard, or put it back.
    Strike,
    /// Larger.
    ZoomIn,
    /// Smaller.
    ZoomOut,
    /// Normal size.
    ZoomNormal,
    /// The shop: its presses and sessions.
    Shop,
    /// Practice.
    Practice,
    /// Help.
    Help,
    /// Everything the program said.
    Messages,
    /// Close the window.
    Quit,
}

const CTRL: Modifiers = Modifiers::COMMAND;
const CTRL_SHIFT: Modifiers = Modifiers {
    shift: true,
    ..Modifiers::COMMAND
};
const ALT: Modifiers = Modifiers::ALT;
const PLAIN: Modifiers = Modifiers::NONE;

/// Every command with its shortcut. Longer combinations stand before the
/// shorter ones they contain, since the first that fits is taken.
pub const COMMANDS: [(Command, Modifiers, Key); 37] = [
    (Command::SaveAs, CTRL_SHIFT, Key::S),
    (Command::Redo, CTRL_SHIFT, Key::Z),
    (Command::CopyPlan, CTRL_SHIFT, Key::C),
    (Command::PrintReport, CTRL_SHIFT, Key::P),
    (Command::New, CTRL, Key::N),
    (Command::Open, CTRL, Key::O),
    (Command::Save, CTRL, Key::S),
    (Command::Undo, CTRL, Key::Z),
    (Command::Redo, CTRL, Key::Y),
    (Command::OtherUnit, CTRL, Key::U),
    (Command::PrintCard, CTRL, Key::P),
    (Command::Properties, CTRL, Key::Comma),
    (Command::Gauge, CTRL, Key::G),
    (Command::GoToReadings, CTRL, Key::R),
    (Command::GoToNuts, CTRL, Key::T),
    (Command::GoToPlan, CTRL, Key::L),
    (Command::ShowRecommended, CTRL, Key::D),
    (Command::GoAndTurn, CTRL, Key::Enter),
    (Command::ZoomIn, CTRL, Key::Plus),
    (Command::ZoomOut, CTRL, Key::Minus),
    (Command::ZoomNormal, CTRL, Key::Num0),
    (Command::Messages, CTRL, Key::M),
    (Command::Quit, CTRL, Key::Q),
    (Command::EarlierPass, ALT, Key::PageUp),
    (Command::LaterPass, ALT, Key::PageDown),
    (Command::EarlierStage, CTRL, Key::PageUp),
    (Command::LaterStage, CTRL, Key::PageDown),
    (Command::StepsOrPicture, CTRL, Key::K),
    (Command::Import, CTRL, Key::I),
    (Command::Guided, PLAIN, Key::F2),
    (Command::SideBySide, CTRL, Key::B),
    (Command::KeepPreview, CTRL, Key::E),
    (Command::Strike, CTRL, Key::J),
    (Command::CrewView, PLAIN, Key::F11),
    (Command::Shop, PLAIN, Key::F7),
    (Command::Practice, PLAIN, Key::F9),
    (Command::Help, PLAIN, Key::F1),
];

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
        COMMANDS
            .iter()
            .find(|(command, _, _)| *command == self)
            .map(|&(_, modifiers, key)| KeyboardShortcut::new(modifiers, key))
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
        for (index, (command, modifiers, key)) in COMMANDS.iter().enumerate() {
            for (other, other_modifiers, other_key) in &COMMANDS[..index] {
                assert!(
                    (modifiers, key) != (other_modifiers, other_key),
                    "{command:?} and {other:?} share a shortcut"
                );
            }
        }
    }
}
