//! The upkeep page while it is on show.

use crate::shop::{Entry, Task, Whose};

/// What is being filled in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum UpkeepForm {
    /// Who did a task: what it was done on, and the task's key.
    Done(Whose, String),
    /// When each task that was never recorded was last done.
    Start(StartForm),
    /// Who takes a line of the log back.
    TakeBack(Entry),
    /// A task that is changed; a new one where it changes none.
    Task(TaskForm),
}

/// When tasks were last done, as it is typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StartForm {
    /// What they are done on.
    pub whose: Whose,
    /// The tasks by their keys, each with the day typed; empty to count from
    /// today.
    pub days: Vec<(String, String)>,
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
    /// Whether the shop set the interval itself.
    pub own: bool,
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

/// The passing state of the page.
#[derive(Debug, Default)]
pub struct UpkeepView {
    /// What is on show.
    pub part: UpkeepPart,
    /// The one press on show, by its name; all where none is chosen.
    pub press: Option<String>,
    /// What is being filled in.
    pub form: Option<UpkeepForm>,
    /// Set when its first field is to have the keyboard.
    pub wants_focus: bool,
    /// Who notes, as typed last.
    pub who: String,
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
