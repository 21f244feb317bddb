//! to be written
#[derive(Debug, Clone, Default)]
pub(super) struct Preference {}
