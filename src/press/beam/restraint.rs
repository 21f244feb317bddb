//! How one side of a beam holds the other at a cut.
//!
//! The stiffness of everything left (or right) of a place is a symmetric
//! 2 x 2 matrix on deflection and slope (w, t). It is kept as its L D L^T
//! factors, which are things one can picture: a spring at an offset from the
//! place, and a rotational spring,
//!
//! ```text
//! energy = 1/2 spring (w + offset t)^2 + 1/2 rotation t^2.
//! ```
//!
//! Sums, and passing a piece of beam, are then formed from positive terms
//! only. Nothing cancels, so an almost rigid piece (EI / h^3 far above any
//! rod) and an almost rigid rod lose no digits, where the assembled matrix
//! would swallow the smaller of the two.

/// The stiffness of one side at a cut, seen with positions growing to the
/// right.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Restraint {
    /// Force per deflection at the offset; not negative.
    pub spring: f64,
    /// Where the spring stands, right of the cut.
    pub offset: f64,
    /// Moment per slope; not negative.
    pub rotation: f64,
}

/// Deflection and slope (rows) at a piece's far end, as those at its near end
/// (columns) are given and nothing loads the far side.
pub(super) type Carry = [[f64; 2]; 2];

impl Restraint {
    /// The matrix product with (deflection, slope): force and moment needed
    /// to hold them.
    pub fn reaction(&self, deflection: f64, slope: f64) -> (f64, f64) {
        let force = self.spring * (deflection + self.offset * slope);
        (force, self.offset * force + self.rotation * slope)
    }

    /// The same side with left and right exchanged.
    pub fn mirrored(self) -> Self {
        Self {
            offset: -self.offset,
            ..self
        }
    }

    /// Both restraints together (the sum of the matrices).
    pub fn with(self, other: Self) -> Self {
        let spring = self.spring + other.spring;
        let apart = self.offset - other.offset;
        let share = over(other.spring, spring);
        Self {
            spring,
            offset: over(
                self.spring * self.offset + other.spring * other.offset,
                spring,
            ),
            rotation: self.rotation + other.rotation + self.spring * share * apart * apart,
        }
    }

    /// This restraint and a spring at the cut itself.
    pub fn with_spring(self, stiffness: f64) -> Self {
        self.with(Self {
            spring: stiffness,
            ..Self::default()
        })
    }

    /// Force per deflection at the cut when the slope there is free, and the
    /// slope that goes with a unit deflection; zero when nothing holds the
    /// slope.
    pub fn with_free_slope(&self) -> (f64, f64) {
        let lever = self.spring * self.offset;
        let turning = lever * self.offset + self.rotation;
        let stiffness = self.spring * over(self.rotation, turning);
        (stiffness, -over(lever, turning))
    }
}

/// `a` over `b`; zero unless `b` is positive.
pub(super) fn over(a: f64, b: f64) -> f64 {
    if b > 0.0 { a / b } else { 0.0 }
}
