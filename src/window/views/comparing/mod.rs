//! Passes and what-ifs beside each other.

pub mod passes;
pub mod profiles;
pub mod side_by_side;
pub mod side_chart;
pub mod side_compare;
pub mod side_table;
pub mod side_trace;
pub mod side_wall;
pub mod what_if;
