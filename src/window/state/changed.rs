//! The file was changed by somebody else since it was opened: what differs.

use std::time::SystemTime;

use crate::session::Difference;

/// What is told before either's work is put over the other's.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ChangedForm {
    /// What differs, theirs against one's own; none until it is worked out or
    /// where their file cannot be read.
    pub differences: Option<Vec<Difference>>,
    /// Who wrote the other, as it says.
    pub who: String,
    /// When the other was saved, where the disk says so.
    pub saved_at: Option<SystemTime>,
    /// The name that one's own would be saved under beside it.
    pub beside: Option<String>,
    /// Why their file cannot be read, as a sentence.
    pub unreadable: Option<String>,
}
