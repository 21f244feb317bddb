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

use super::piece::Piece;

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
        let rotation = self.rotation + other.rotation;
        if spring == 0.0 {
            return Self {
                spring,
                offset: 0.0,
                rotation,
            };
        }
        let apart = self.offset - other.offset;
        let share = other.spring / spring;
        Self {
            spring,
            offset: (self.spring * self.offset + other.spring * other.offset) / spring,
            rotation: rotation + self.spring * share * apart * apart,
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
    /// slope that goes with a unit deflection. `None` when nothing holds the
    /// slope.
    pub fn with_free_slope(&self) -> Option<(f64, f64)> {
        let lever = self.spring * self.offset;
        let turning = lever * self.offset + self.rotation;
        // Also refuses what is not a number.
        (turning > 0.0).then(|| (self.spring * (self.rotation / turning), -lever / turning))
    }

    /// The restraint of the left side as it is felt at the right end of a
    /// piece, and how the left end follows the right one.
    ///
    /// With S this matrix, F the flexibility of the piece, R the motion of
    /// its free left end and G the stiffness of its foundation (see
    /// [`Piece`]), the result is G + R^T (S^-1 + F)^-1 R, and the left end
    /// moves by (1 + F S)^-1 R.
    pub fn through(self, piece: &Piece) -> (Self, Carry) {
        // Series connection with the hinge and slider at the elastic centre.
        let hinge_share = 1.0 / (1.0 + self.rotation * piece.hinge);
        let lever = self.offset - piece.centre;
        let slack = piece.slider + piece.hinge * hinge_share * lever * lever;
        let slider_share = 1.0 / (1.0 + self.spring * slack);
        let spring = self.spring * slider_share;
        let offset = self.offset - lever * (self.rotation * piece.hinge * hinge_share);
        let rotation = self.rotation * hinge_share;

        // Motion at the spring and of the rotational spring, for the right
        // end's deflection and slope.
        let [free_deflection, free_slope] = piece.free;
        let at_spring = [
            free_deflection[0] + offset * free_slope[0],
            free_deflection[1] + offset * free_slope[1],
        ];
        let bending = piece.hinge * lever * spring;
        let mut carry = [[0.0; 2]; 2];
        for end in 0..2 {
            let slope = hinge_share * (free_slope[end] - bending * at_spring[end]);
            carry[0][end] = slider_share * at_spring[end] - self.offset * slope;
            carry[1][end] = slope;
        }

        let moved_spring =
            spring * at_spring[0] * at_spring[0] + rotation * free_slope[0] * free_slope[0];
        let moved = if moved_spring == 0.0 {
            Self {
                spring: 0.0,
                offset: 0.0,
                rotation: spring * at_spring[1] * at_spring[1]
                    + rotation * free_slope[1] * free_slope[1],
            }
        } else {
            let across =
                spring * at_spring[0] * at_spring[1] + rotation * free_slope[0] * free_slope[1];
            Self {
                spring: moved_spring,
                offset: across / moved_spring,
                rotation: rotation
                    * (spring / moved_spring)
                    * piece.determinant
                    * piece.determinant,
            }
        };
        (moved.with(piece.ground), carry)
    }
}
