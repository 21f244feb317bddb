//! Exact lengths: whole nanometres, as people type them and as they are
//! printed. Knows nothing of the other rooms.

mod exact;
mod holds;
mod length;
mod listed;
mod parse;
mod print;
mod typed;

pub use exact::ExactLength;
pub(crate) use holds::holds;
pub use length::{Length, Unit};
pub(crate) use listed::listed;
pub use parse::{LengthProblem, Sign, parse_length};
pub use print::{
    Rounding, decimal_text, decimals_for_step, decimals_keeping_side, decimals_of_means,
    difference_text,
};
pub(crate) use typed::maybe_move;
pub use typed::{LengthFault, MaybeLength, TypedLength, TypedMove};
