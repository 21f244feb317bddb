//! The keypad beside the readings.

use eframe::egui::Rect;

/// The keypad beside the readings grid.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Keypad {
    /// Whether it is on show.
    pub open: bool,
    /// Where it was drawn last: a press there does not take the keyboard away
    /// from the cell.
    pub place: Option<Rect>,
    /// Set when the button that shows it is to have the keyboard.
    pub wants_focus: bool,
}
