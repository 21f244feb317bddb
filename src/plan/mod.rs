//! What the passes teach and which turns to make.

mod search;

pub use search::{
    EQUAL_SPREAD_NM, FARTHEST_TURN, LARGEST_NM, MOST_ARMS, SearchError, SearchProblem,
    SearchResult, SearchWorkspace, TurnBounds, smallest_spread, spread_after,
};
