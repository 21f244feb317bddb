//! The visit's stages and steps.

pub mod gap;
pub mod noting;
pub mod path_bar;
pub mod signer;
pub mod stage;
pub mod stage_records;
pub mod steps;
pub mod way_on;
pub mod welcome;
