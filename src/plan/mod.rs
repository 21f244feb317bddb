//! What the passes teach and which turns to make.

mod draws;
mod normal;
mod range;

pub use draws::{Draws, NormalScores, Purpose};
pub use normal::{density, probability_below, quantile};
pub use range::{NormalValue, range_mean, range_probability};
