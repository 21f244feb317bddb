//! Readings in: the grid, arm by arm, the keypad, marks and import.

pub mod cells;
pub mod columns;
pub mod doubts;
pub mod grid;
pub mod guided;
mod guided_port;
mod guided_said;
mod guided_strip;
pub mod import;
pub mod keypad;
pub mod marks;
pub mod readings;
