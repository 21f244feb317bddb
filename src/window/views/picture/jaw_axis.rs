//! Where along the screen the jaw lies.

/// Maps a place along the jaw to the screen; handed from the chart to the
/// nuts and the jaws, so that all three stand on the same axis.
#[derive(Debug, Clone, Copy)]
pub struct JawAxis {
    /// Left edge on the screen.
    pub left: f32,
    /// Right edge on the screen.
    pub right: f32,
    /// Jaw length in nanometres.
    pub length_nm: f64,
}

impl JawAxis {
    /// Where a place along the jaw (nm from its left end) is drawn.
    pub fn x(&self, position_nm: f64) -> f32 {
        let share = position_nm / self.length_nm.max(1.0);
        self.left + (self.right - self.left) * share as f32
    }

    /// Screen points per nanometre along the jaw.
    pub fn points_per_nm(&self) -> f64 {
        f64::from(self.right - self.left) / self.length_nm.max(1.0)
    }
}
