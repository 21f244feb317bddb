//! The passes side by side while they are on show.

use crate::session::Session;

/// The passing state of the view.
#[derive(Debug, Clone, PartialEq)]
pub struct SideView {
    /// The two passes that are compared.
    pub pair: (usize, usize),
    /// Whether all profiles are laid at the same level.
    pub level: bool,
}

impl SideView {
    /// As it opens: the last two passes compared.
    pub fn of(session: &Session) -> Self {
        let last = session.passes.len().saturating_sub(1);
        Self {
            pair: (last.saturating_sub(1), last),
            level: false,
        }
    }

    /// The two passes, the earlier first, as far as the session has them.
    pub fn earlier_and_later(&self, session: &Session) -> (usize, usize) {
        let last = session.passes.len().saturating_sub(1);
        let (one, other) = (self.pair.0.min(last), self.pair.1.min(last));
        (one.min(other), one.max(other))
    }
}
