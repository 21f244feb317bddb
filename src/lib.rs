//! Jawtrue brings a powered lacing press true: readings of a laced test piece
//! in, the jaw's profile and the whole-notch turns of the castle nuts out.
//!
//! The rooms stand in the order in which they may know each other: each may
//! use the ones above it in this list and none below (`tests/walls.rs` holds
//! them to it).

pub mod cli;
pub mod plan;
pub mod practice;
pub mod press;
pub mod report;
pub mod session;
pub mod shop;
pub mod splice;
pub mod stats;
pub mod store;
pub mod units;
pub mod window;
pub mod words;
