//! What passes: the state of the view, which is neither saved nor undone.

pub mod changed;
pub mod dialog;
pub mod gauge_check;
pub mod grid;
pub mod guided;
pub mod import_form;
pub mod properties;
pub mod shop;
pub mod turn_card;
pub mod upkeep;

mod crew;
mod drafts;
mod gauge_form;
mod keyboard;
mod keypad;
mod last_visit;
mod lesson;
mod made_safe;
mod new_session;
mod port_form;
mod practice_form;
mod side;
mod strike;
mod visit;
mod what_if;

use crate::practice::LessonTopic;
use crate::press::Notches;

pub use crew::{CrewStep, CrewView};
pub use dialog::Dialog;
pub use drafts::Drafts;
pub use gauge_form::GaugeForm;
pub use grid::{GridCell, PassTyping};
pub use keyboard::Keyboard;
pub use keypad::Keypad;
pub use last_visit::LastVisit;
pub use lesson::LessonView;
pub use made_safe::Before;
pub use new_session::{NewSessionForm, number, usual_text};
pub use port_form::PortForm;
pub use practice_form::{NoExercise, PracticeForm, PracticePage};
pub use properties::PropertiesForm;
pub use side::SideView;
pub use strike::{MarkedCell, StrikeForm};
pub use visit::VisitView;
pub use what_if::{KeptTurns, MOST_KEPT, WhatIf};

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

/// The passing state of the window.
#[derive(Debug, Default)]
pub struct ViewState {
    /// The pass on show; none means the last.
    pub pass: Option<usize>,
    /// What the castle nuts show.
    pub preview: Preview,
    /// What is being typed into the readings: stations by repeats.
    pub readings: PassTyping,
    /// The keypad beside the readings.
    pub keypad: Keypad,
    /// The dialog in front.
    pub dialog: Option<Dialog>,
    /// Where the keyboard comes back to.
    pub keyboard: Keyboard,
    /// The first repeat column on show, where they do not all fit.
    pub first_repeat: usize,
    /// Set when the nut last touched is to have the keyboard.
    pub nut_wants_focus: bool,
    /// Fields of the pass on show being typed in.
    pub pass_drafts: Drafts,
    /// What was typed into a gauge check so far.
    pub gauge_check: gauge_check::GaugeCheck,
    /// What is being typed about the bare belt.
    pub belt: PassTyping,
    /// The nut last touched.
    pub nut: Option<usize>,
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
    pub visit: VisitView,
    /// Who signs what is ticked: the name entered here for this visit, never
    /// one that stood in a file.
    pub signer: String,
    /// The visit on show last, once it was looked into.
    pub last_visit: Option<LastVisit>,
    /// Whether whoever turns nuts stands behind the press and sees its arms from
    /// the other side.
    pub stands_behind: bool,
    /// Taking readings arm by arm, while that is on.
    pub guided: Option<guided::Guided>,
    /// Turns kept to be compared.
    pub what_if: WhatIf,
    /// The turn card, on show or left to come back to.
    pub turn_card: Option<turn_card::TurnCard>,
    /// The serial ports there are, once somebody has looked.
    pub ports: Option<Vec<String>>,
    /// The crew's view, while it is on show.
    pub crew: Option<CrewView>,
    /// The lesson, while one is on show.
    pub lesson: Option<LessonView>,
    /// Lessons seen to their end since the program began.
    pub lessons_seen: Vec<LessonTopic>,
    /// Whether opening and rod load were asked for.
    pub care: bool,
    /// Whether more than the first ways to go on is on show.
    pub more: bool,
    /// Where the bar along the top names the press.
    pub heading: Option<eframe::egui::Rect>,
    /// The passes side by side, while they are on show.
    pub side: Option<SideView>,
    /// The shop.
    pub shop: shop::ShopView,
}

impl ViewState {
    /// Whether the turn card fills the window.
    pub fn is_turning(&self) -> bool {
        self.turn_card.as_ref().is_some_and(|card| card.open)
    }

    /// Gives a reading the keyboard at the next frame.
    pub fn ask_reading(&mut self, station: usize, repeat: usize) {
        self.readings.cells.go_to(GridCell {
            row: station,
            column: repeat,
        });
    }
}
