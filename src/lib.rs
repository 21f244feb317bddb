//! Jawtrue brings a powered lacing press true: readings of a laced test piece
//! in, the jaw's profile and the whole-notch turns of the castle nuts out.
//!
//! The rooms stand in the order in which they may know each other: each may
//! use the ones above it in this list and none below (`tests/walls.rs` holds
//! them to it).

// What differs from machine to machine, or outlives a call: clippy.toml.
#![cfg_attr(
    not(test),
    warn(
        clippy::disallowed_macros,
        clippy::disallowed_methods,
        clippy::disallowed_types
    )
)]

// An empty line between any two, or they would be put in alphabetical order.
mod codec;

pub mod units;

pub mod stats;

pub mod press;

pub mod splice;

pub mod plan;

pub mod session;

pub mod practice;

pub mod shop;

pub mod store;

pub mod words;

pub mod report;

pub mod cli;

// What is only drawn may differ by a hair.
#[allow(clippy::disallowed_methods)]
pub mod window;
