//! What is being typed about the bare belt.

use super::sheet::Typing;

/// What is being typed into the belt's cells, and of which pass.
#[derive(Debug, Default)]
pub struct BeltTyping {
    pub pass: usize,
    pub cells: Typing,
}

impl BeltTyping {
    /// Whether a cell has the keyboard.
    pub fn is_going_on(&self) -> bool {
        self.cells.is_going_on()
    }
}
