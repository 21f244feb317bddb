//! The press: its arms, nuts and limits, the jaw as a beam, and how the
//! splice answers to a turned nut.

mod response;

pub use response::Response;
