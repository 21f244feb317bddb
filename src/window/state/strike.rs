//! Striking a reading: which, who and why.

/// A reading of a pass.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MarkedCell {
    /// Pass index.
    pub pass: usize,
    /// Station index.
    pub station: usize,
    /// Repeat index.
    pub repeat: usize,
}

/// Striking a reading: which, who and why.
#[derive(Debug, Clone, PartialEq)]
pub struct StrikeForm {
    pub place: MarkedCell,
    pub who: String,
    pub why: String,
    pub asked: bool,
}
