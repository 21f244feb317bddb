//! What passes: the state of the view, which is neither saved nor undone.

use crate::press::Notches;

/// What the castle nuts show.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum Preview {
    /// The recommended turns, whatever they are.
    #[default]
    Recommended,
    /// Turns somebody chose.
    Chosen(Vec<Notches>),
}

/// The column on show where only one fits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Pane {
    /// Readings and passes.
    Readings,
    /// The picture, or the steps of a stage.
    #[default]
    Middle,
    /// How it stands and what to do.
    Plan,
}

/// The cell of the readings grid being edited.
#[derive(Debug, Clone, PartialEq)]
pub struct Editing {
    /// Pass index.
    pub pass: usize,
    /// Station index.
    pub station: usize,
    /// Repeat index.
    pub repeat: usize,
    /// What stands in the cell so far.
    pub text: String,
    /// Whether anything was typed since the cell was entered.
    pub touched: bool,
}

/// A dialog in front of everything.
#[derive(Debug, Clone, PartialEq)]
pub enum Dialog {
    /// Starting a session.
    New(Box<crate::window::views::forms::new_session::NewSessionForm>),
    /// Properties of press, stations, gauge and visit.
    Properties(Box<crate::window::views::forms::properties::Drafts>),
    /// The gauge.
    Gauge(Box<crate::window::views::forms::gauge::GaugeForm>),
    /// The gauge check.
    GaugeCheck,
    /// Striking a reading.
    Strike(Box<crate::window::views::entry::marks::StrikeForm>),
    /// Unsaved work would be lost by what comes next.
    UnsavedWork(super::action::Then),
    /// The file was changed by somebody else since it was opened.
    ChangedOnDisk,
    /// A file of that name exists.
    FileExists(std::path::PathBuf),
    /// A path typed by hand, where the desktop has no file dialog.
    TypePath(super::action::PathFor, String),
    /// Work kept aside before a crash.
    Leftovers,
    /// What a later start of the program offers.
    Welcome,
    /// Whether the press is made safe, before hands go in.
    MakeSafe(Box<crate::window::views::turning::make_safe::MadeSafeForm>),
    /// Leaving the turn card, and what was turned so far.
    StopTurning,
    /// Readings from a CSV file or pasted text.
    Import(Box<super::import_form::ImportForm>),
    /// A gauge over a serial port.
    GaugePort(Box<crate::window::views::forms::port_settings::PortForm>),
    /// Every figure behind the verdicts.
    WorkedOut,
    /// How to work with the program.
    Help,
    /// What the program is.
    About,
    /// Everything the program said since it was started.
    Messages,
}

/// The passing state of the window.
#[derive(Debug, Default)]
pub struct ViewState {
    /// The pass on show; none means the last.
    pub pass: Option<usize>,
    /// What the castle nuts show.
    pub preview: Preview,
    /// The cell being edited.
    pub editing: Option<Editing>,
    /// The cell that is to have the keyboard at the next frame.
    pub wants_focus: Option<(usize, usize)>,
    /// The keypad beside the readings.
    pub keypad: crate::window::views::entry::keypad::Keypad,
    /// The dialog in front.
    pub dialog: Option<Dialog>,
    /// The first repeat column on show, where they do not all fit.
    pub first_repeat: usize,
    /// Set when the nut last touched is to have the keyboard.
    pub nut_wants_focus: bool,
    /// Fields of the pass on show being typed in.
    pub pass_drafts: crate::window::views::forms::properties::Drafts,
    /// What was typed into a gauge check so far.
    pub gauge_check: super::gauge_check::GaugeCheck,
    /// What is being typed about the bare belt.
    pub belt: crate::window::views::forms::belt::BeltTyping,
    /// The nut last touched, for its words in a narrow window.
    pub nut: usize,
    /// Set when the plan is to have the keyboard.
    pub plan_wants_focus: bool,
    /// Frames for which a wish for the keyboard has not been granted.
    pub waited: u8,
    /// Whether only one column fits, and which is on show then.
    pub one_column: bool,
    /// See `one_column`.
    pub pane: Pane,
    /// Whether the bar along the top names the press.
    pub headed: bool,
    /// The stage of the visit on show.
    pub visit: crate::window::views::visit::stage::VisitView,
    /// Taking readings arm by arm, while that is on.
    pub guided: Option<super::guided::Guided>,
    /// Turns kept to be compared.
    pub what_if: crate::window::views::comparing::what_if::WhatIf,
    /// The turn card, on show or left to come back to.
    pub turn_card: Option<super::turn_card::TurnCard>,
    /// The crew's view, while it is on show.
    pub crew: Option<crate::window::views::picture::crew::CrewView>,
    /// Whether it is told how sure the verdict is.
    pub how_sure: bool,
    /// The passes side by side, while they are on show.
    pub side: Option<crate::window::views::comparing::side_by_side::SideView>,
}

impl ViewState {
    /// Whether the turn card fills the window.
    pub fn is_turning(&self) -> bool {
        self.turn_card.as_ref().is_some_and(|card| card.open)
    }

    /// Whether a cell for readings has the keyboard, so that a gauge may be
    /// typing into it.
    pub fn takes_readings(&self) -> bool {
        self.editing.is_some()
            || self.guided.is_some()
            || self.gauge_check.typing.is_going_on()
            || self.belt.is_going_on()
    }
}
