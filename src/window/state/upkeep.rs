//! The upkeep page while it is on show.

use std::collections::BTreeSet;

use crate::shop::{Entry, Task, Whose};

/// What is being filled in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum UpkeepForm {
    /// Whether a line of the log is to be taken back.
    TakeBack(Entry),
    /// A task that is changed; a new one where it changes none.
    Task(TaskForm),
}

/// A task as it is typed.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct TaskForm {
    /// The task that is changed.
    pub was: Option<Task>,
    /// What is to be done.
    pub words: String,
    /// The interval's number.
    pub number: String,
    /// Whether it is one of pieces, not days.
    pub pieces: bool,
    /// Whether the shop set the interval itself; of one press, whether it has one
    /// of its own.
    pub own: bool,
    /// The press whose interval it is, by its name; none for all of them.
    pub press: Option<String>,
}

/// What of the upkeep is on show.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum UpkeepPart {
    /// What is due.
    #[default]
    Due,
    /// The shop's tasks.
    Tasks,
    /// The log.
    Log,
}

/// Which lines of the log are on show.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum LogOf {
    /// All of them.
    #[default]
    Everything,
    /// What was noted by hand.
    Upkeep,
    /// Pieces that visits measured.
    Pieces,
}

/// The passing state of the page.
#[derive(Debug, Default)]
pub struct UpkeepView {
    /// What is on show.
    pub part: UpkeepPart,
    /// The one press on show, by its name; all where none is chosen.
    pub press: Option<String>,
    /// The one task on show, by its words; all where none is chosen.
    pub task: Option<String>,
    /// Which lines of the log are on show.
    pub log_of: LogOf,
    /// Tasks ticked as done, by what they are done on and their keys.
    pub ticked: BTreeSet<(Whose, String)>,
    /// What was noted last, while nothing was changed since.
    pub noted: Vec<Entry>,
    /// Whether every caution is on show.
    pub cautions: bool,
    /// The day on which they were done, as typed; today where it is none.
    pub day: Option<String>,
    /// What is being filled in.
    pub form: Option<UpkeepForm>,
    /// Set when its first field is to have the keyboard.
    pub wants_focus: bool,
    /// The press whose laced pieces are noted, where more than one is on show.
    pub laced_press: Option<String>,
    /// Pieces laced, as typed.
    pub laced: String,
    /// Whether something is being written: nothing is noted twice.
    pub keeping: bool,
}

impl UpkeepView {
    /// Opens a form.
    pub fn open(&mut self, form: UpkeepForm) {
        self.form = Some(form);
        self.wants_focus = true;
    }
}
