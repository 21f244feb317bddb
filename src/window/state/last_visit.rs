//! Where the work of the visit on show last stands, for the next start.

use crate::session::{Session, Stands};

/// What is said of it before it is opened.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LastVisit {
    /// The press; empty where it has no name.
    pub press: String,
    /// When the visit was.
    pub when: String,
    /// How many pieces were laced.
    pub passes: usize,
    /// How the last of them stands.
    pub stands: Stands,
    /// How many of its readings are in doubt.
    pub doubtful: usize,
    /// Whether the press stands as locked out, nothing laced since.
    pub locked_out: bool,
}

impl LastVisit {
    /// Of a session.
    pub fn of(session: &Session) -> Self {
        let gate = session.last_gate();
        Self {
            press: session.press.name.clone(),
            when: session.notes.when.clone(),
            passes: session.passes.len(),
            stands: gate.stands,
            doubtful: gate.doubtful.len(),
            locked_out: session.made_safe_now(),
        }
    }
}
