//! How long the search may go on.

/// Nodes between two questions whether to stop.
const ASK_EVERY: u64 = 32;

/// How a search ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum End {
    /// Everything was looked at.
    Complete,
    /// The caller or the node limit stopped it.
    Stopped,
    /// The best spread has shrunk so far that another basis would serve
    /// better.
    Outgrown,
    /// More turns are equally good than are worth listing.
    TooMany,
}

/// Counts nodes and asks now and then whether to go on.
pub(super) struct Watch<'w> {
    /// Nodes so far.
    pub nodes: u64,
    most: u64,
    cancel: &'w dyn Fn() -> bool,
    /// The search was stopped before its end.
    pub stopped: bool,
    /// Rounding broke a vertex: what was found stands, the proof does not.
    pub doubtful: bool,
}

impl<'w> Watch<'w> {
    pub fn new(most: Option<u64>, cancel: &'w dyn Fn() -> bool) -> Self {
        Self {
            nodes: 0,
            most: most.unwrap_or(u64::MAX),
            cancel,
            stopped: false,
            doubtful: false,
        }
    }

    /// Counts a node; false once the search is to stop.
    pub fn another(&mut self) -> bool {
        if self.stopped {
            return false;
        }
        if self.nodes >= self.most || (self.nodes.is_multiple_of(ASK_EVERY) && (self.cancel)()) {
            self.stopped = true;
            return false;
        }
        self.nodes += 1;
        true
    }
}
