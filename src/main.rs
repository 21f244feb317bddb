//! Starts the window or a text command; nothing else.
fn main() {}
