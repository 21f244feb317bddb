//! Readings in: the grid, arm by arm, the keypad, marks and import.

pub mod cells;
pub mod doubts;
pub mod guided;
pub mod import;
pub mod keypad;
pub mod marks;
pub mod readings;
pub mod sheet;
