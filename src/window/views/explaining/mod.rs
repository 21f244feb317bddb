//! How things stand, what to do, and how that was worked out.

pub mod before_turns;
pub mod close_by;
pub mod headline;
pub mod help;
pub mod plan;
pub mod plan_row;
pub mod standing;
pub mod why;
pub mod worked_out;
