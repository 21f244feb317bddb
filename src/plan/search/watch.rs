//! How long the search may go on.

/// How a search ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum End {
    /// Everything was looked at.
    Complete,
    /// The node limit stopped it.
    Stopped,
    /// The best spread has shrunk so far that another basis would serve
    /// better.
    Outgrown,
    /// More turns are equally good than are worth listing.
    TooMany,
}

/// Counts nodes and says whether to go on.
pub(super) struct Watch {
    /// Nodes so far.
    pub nodes: u64,
    most: u64,
    /// Rounding broke a vertex: what was found stands, the proof does not.
    pub doubtful: bool,
}

impl Watch {
    pub fn new(most: u64) -> Self {
        Self {
            nodes: 0,
            most,
            doubtful: false,
        }
    }

    /// Counts a node; false once the search is to stop.
    pub fn another(&mut self) -> bool {
        let on = self.nodes < self.most;
        self.nodes += u64::from(on);
        on
    }
}
