//! A figure with its standard uncertainty.

/// A figure with its standard uncertainty, both in nanometres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured {
    /// The figure.
    pub value_nm: f64,
    /// Its standard uncertainty.
    pub u_nm: f64,
}

/// Standard uncertainties a figure named beforehand must exceed to stand out
/// of its own uncertainty: the two-sided 95 % point of the normal
/// distribution.
pub const STANDS_OUT: f64 = 1.959_963_984_540_054;

impl Measured {
    /// The figure in standard uncertainties.
    pub fn z(&self) -> f64 {
        self.value_nm / self.u_nm
    }

    /// Whether the figure stands out of its own uncertainty.
    pub fn stands_out(&self) -> bool {
        self.z().abs() > STANDS_OUT
    }
}
