//! What the passes teach and which turns to make.

mod draws;
mod gaussian;
mod normal;
mod range;
mod search;

pub use draws::{Draws, NormalScores, Purpose};
pub use gaussian::{Gaussian, GaussianError, Observations, SparseRow, Surprise};
pub use normal::{density, probability_below, quantile};
pub use range::{NormalValue, range_mean, range_probability};
pub use search::{
    EQUAL_SPREAD_NM, FARTHEST_TURN, LARGEST_NM, MOST_ARMS, SearchError, SearchProblem,
    SearchResult, SearchWorkspace, TurnBounds, smallest_spread, spread_after,
};
