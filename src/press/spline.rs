//! The natural cubic spline through the arms: the profile of a press whose
//! nuts do not move one another.
//!
//! Between arms a profile must be drawn and stations must be predicted. The
//! curve that bends least through given values minimises the integral of
//! w''^2; it is the shape of a thin free-ended beam held at the arms, the
//! limit of the jaw on infinitely stiff rods. With M_i = w''(x_i) and
//! h_i = x_{i+1} - x_i it solves
//!
//! ```text
//! h_{i-1} M_{i-1} + 2 (h_{i-1} + h_i) M_i + h_i M_{i+1}
//!     = 6 [(y_{i+1} - y_i) / h_i - (y_i - y_{i-1}) / h_{i-1}],   M_0 = M_{n-1} = 0
//! ```
//!
//! (de Boor, A Practical Guide to Splines, ch. IV). The matrix is diagonally
//! dominant, so elimination without pivoting is stable for any spacing.
//! Beyond the outer arms nothing bends the beam: the curve goes on straight.
//! Two arms give the straight line.

use super::arm_positions::{ArmPositionsError, MAX_POSITION_NM, check_knots};
use crate::units::holds;
/// Largest value a curve may be drawn through, either sign: 1 km in
/// nanometres. It only keeps the arithmetic far from overflow.
pub const MAX_CURVE_VALUE: f64 = 1.0e12;

/// Why a spline cannot answer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SplineError {
    /// The arm positions are refused.
    Arms(ArmPositionsError),
    /// There is not exactly one value per arm.
    ValueCount,
    /// The value of this arm is not a number or beyond [`MAX_CURVE_VALUE`].
    ValueOutOfRange(usize),
}

holds! { SplineError { Arms(ArmPositionsError) } }

/// The natural spline on fixed arm positions, for any values at the arms.
///
/// The curve is linear in the values: `w(x) = sum_j weight_j(x) y_j`. At an
/// arm's own position the weights are exactly 1 for that arm and 0 for the
/// others, so whole nanometres stay whole.
#[derive(Debug, Clone, PartialEq)]
pub struct NaturalSpline {
    positions_nm: Vec<f64>,
    /// Bending h^2 w'' at arm i (row) for a unit value at arm j (column),
    /// where h is the distance between the outer arms: a pure number.
    bending: Vec<f64>,
}

impl NaturalSpline {
    /// Lays the spline on positions in nanometres, from the operator's left:
    /// two or more, of arms or of stations.
    ///
    /// # Errors
    /// [`SplineError::Arms`] when the positions are out of order, closer than
    /// [`MIN_ARM_SPACING_NM`](super::MIN_ARM_SPACING_NM) or no numbers.
    pub fn new(positions_nm: &[f64]) -> Result<Self, SplineError> {
        check_knots(positions_nm)?;
        Ok(Self {
            positions_nm: positions_nm.to_vec(),
            bending: unit_bending(positions_nm),
        })
    }

    /// Number of arms.
    pub fn arms(&self) -> usize {
        self.positions_nm.len()
    }

    /// What each arm's value counts for at position `x_nm`.
    ///
    /// Positions are taken at most [`MAX_POSITION_NM`] from the origin, and
    /// one that is not a number as the first arm's, so that every weight is
    /// finite.
    pub fn weights_at(&self, x_nm: f64) -> Vec<f64> {
        let at = self.locate(x_nm);
        (0..self.arms())
            .map(|arm| {
                at.value(
                    self.unit_value(at.left, arm),
                    self.unit_value(at.left + 1, arm),
                    self.bending_of(at.left, arm),
                    self.bending_of(at.left + 1, arm),
                )
            })
            .collect()
    }

    /// The curve through one value per arm (any unit; the curve has the same).
    ///
    /// # Errors
    /// [`SplineError::ValueCount`] or [`SplineError::ValueOutOfRange`].
    pub fn curve(&self, values: &[f64]) -> Result<SplineCurve<'_>, SplineError> {
        if values.len() != self.arms() {
            return Err(SplineError::ValueCount);
        }
        for (arm, &value) in values.iter().enumerate() {
            let in_range = value.abs() <= MAX_CURVE_VALUE;
            if !in_range {
                return Err(SplineError::ValueOutOfRange(arm));
            }
        }
        let bending = self
            .bending
            .chunks_exact(self.arms())
            .map(|row| row.iter().zip(values).map(|(b, y)| b * y).sum())
            .collect();
        Ok(SplineCurve {
            spline: self,
            values: values.to_vec(),
            bending,
        })
    }

    fn unit_value(&self, row: usize, arm: usize) -> f64 {
        if row == arm { 1.0 } else { 0.0 }
    }

    fn bending_of(&self, row: usize, arm: usize) -> f64 {
        self.bending[row * self.arms() + arm]
    }

    /// Finds the span of a position; beyond the outer arms the nearest one.
    fn locate(&self, x_nm: f64) -> Place {
        let last = self.arms() - 1;
        let (first_nm, last_nm) = (self.positions_nm[0], self.positions_nm[last]);
        let x_nm = if x_nm.is_nan() {
            first_nm
        } else {
            x_nm.clamp(-MAX_POSITION_NM, MAX_POSITION_NM)
        };
        // `last - 1` inner boundaries: an arm in the middle belongs to the
        // span on its right, the last arm to the last span.
        let left = self.positions_nm[1..last]
            .iter()
            .take_while(|&&arm_nm| arm_nm <= x_nm)
            .count();
        let (left_nm, right_nm) = (self.positions_nm[left], self.positions_nm[left + 1]);
        let span_nm = right_nm - left_nm;
        let inside_nm = x_nm.clamp(first_nm, last_nm);
        let share = (inside_nm - left_nm) / span_nm;
        let length_nm = last_nm - first_nm;
        Place {
            left,
            share,
            span: span_nm / length_nm,
            beyond: (x_nm - inside_nm) / length_nm,
        }
    }
}

/// A natural spline through given values.
#[derive(Debug, Clone, PartialEq)]
pub struct SplineCurve<'a> {
    spline: &'a NaturalSpline,
    values: Vec<f64>,
    bending: Vec<f64>,
}

impl SplineCurve<'_> {
    /// The curve at position `x_nm`; exactly the given value at an arm.
    /// Positions without sense are taken as in
    /// [`NaturalSpline::weights_at`].
    pub fn at(&self, x_nm: f64) -> f64 {
        let at = self.spline.locate(x_nm);
        at.value(
            self.values[at.left],
            self.values[at.left + 1],
            self.bending[at.left],
            self.bending[at.left + 1],
        )
    }
}

/// A position seen from its span: lengths in units of the distance between
/// the outer arms.
struct Place {
    /// The arm at the span's left end.
    left: usize,
    /// Share of the span passed, 0 to 1.
    share: f64,
    /// The span's length.
    span: f64,
    /// How far beyond the nearest outer arm, signed; 0 between the arms.
    beyond: f64,
}

impl Place {
    fn value(&self, left: f64, right: f64, bend_left: f64, bend_right: f64) -> f64 {
        let (a, b) = (1.0 - self.share, self.share);
        // Both brackets vanish exactly at the arms, which keeps whole
        // nanometres whole there.
        let sag = ((a * a * a - a) * bend_left + (b * b * b - b) * bend_right)
            * (self.span * self.span)
            / 6.0;
        let inside = a * left + b * right + sag;
        if self.beyond == 0.0 {
            inside
        } else {
            inside + self.beyond * self.unit_slope(left, right, bend_left, bend_right)
        }
    }

    fn unit_slope(&self, left: f64, right: f64, bend_left: f64, bend_right: f64) -> f64 {
        let (a, b) = (1.0 - self.share, self.share);
        (right - left) / self.span
            + ((1.0 - 3.0 * a * a) * bend_left + (3.0 * b * b - 1.0) * bend_right) * self.span / 6.0
    }
}

/// Solves the spline's equations for a unit value at each arm; the result is
/// [`NaturalSpline::bending`]. `positions_nm` has been checked.
fn unit_bending(positions_nm: &[f64]) -> Vec<f64> {
    let arms = positions_nm.len();
    let length_nm = positions_nm[arms - 1] - positions_nm[0];
    let spans: Vec<f64> = positions_nm
        .windows(2)
        .map(|pair| (pair[1] - pair[0]) / length_nm)
        .collect();
    let mut bending = vec![0.0; arms * arms];

    // Forward elimination of the inner rows, all right-hand sides at once;
    // the outer rows stay zero.
    let mut upper = vec![0.0; arms];
    for i in 1..arms - 1 {
        let (left, right) = (spans[i - 1], spans[i]);
        let pivot = 2.0 * (left + right) - left * upper[i - 1];
        upper[i] = right / pivot;
        for arm in 0..arms {
            let load = if arm + 1 == i {
                6.0 / left
            } else if arm == i {
                -6.0 / left - 6.0 / right
            } else if arm == i + 1 {
                6.0 / right
            } else {
                0.0
            };
            bending[i * arms + arm] = (load - left * bending[(i - 1) * arms + arm]) / pivot;
        }
    }
    for i in (1..arms - 1).rev() {
        for arm in 0..arms {
            bending[i * arms + arm] -= upper[i] * bending[(i + 1) * arms + arm];
        }
    }
    bending
}

#[cfg(test)]
mod tests {
    use super::*;

    const MM: f64 = 1.0e6;

    #[test]
    fn an_arms_own_station_answers_to_it_alone() {
        let positions_nm = [-7.0 * MM, 3.1 * MM, 1_234.567_8 * MM, 2_000.000_001 * MM];
        let spline = NaturalSpline::new(&positions_nm).expect("good positions");
        for (arm, &x_nm) in positions_nm.iter().enumerate() {
            let mut alone = vec![0.0; 4];
            alone[arm] = 1.0;
            assert_eq!(spline.weights_at(x_nm), alone);
        }
        let values = [6_350_001.0, 6_349_999.0, 6_350_007.0, -3.0];
        let curve = spline.curve(&values).expect("good values");
        for (&x_nm, &value) in positions_nm.iter().zip(&values) {
            assert_eq!(curve.at(x_nm), value);
        }
    }

    #[test]
    fn it_goes_on_straight_beyond_the_outer_arms() {
        let positions_nm = [0.0, 10.0 * MM, 25.0 * MM, 38.0 * MM];
        let spline = NaturalSpline::new(&positions_nm).expect("good positions");
        let curve = spline.curve(&[3.0, 1.0, 4.0, 1.0]).expect("good values");
        for (arm_nm, direction) in [(0.0, -1.0), (38.0 * MM, 1.0)] {
            let rise = |beyond_nm: f64| curve.at(arm_nm + direction * beyond_nm) - curve.at(arm_nm);
            // As steep beyond as just inside, where nothing bends either.
            assert!((rise(MM) + rise(-0.001 * MM) * 1e3).abs() < 1e-6);
            for times in [0.5, 2.0, 40.0] {
                assert!((rise(times * MM) - times * rise(MM)).abs() < 1e-12);
            }
        }
    }

    /// A curve that is drawn through more stations than a press has arms.
    #[test]
    fn lines_are_reproduced_through_any_number_of_places() {
        let positions_nm: Vec<f64> = (0..48).map(|i| f64::from(i * i + i) * MM).collect();
        let spline = NaturalSpline::new(&positions_nm).expect("good positions");
        let line = |x_nm: f64| 5.0 - 2.0 * x_nm / (3000.0 * MM);
        let values: Vec<f64> = positions_nm.iter().map(|&x_nm| line(x_nm)).collect();
        let straight = spline.curve(&values).expect("values in range");
        for step in -20..=340 {
            let x_nm = f64::from(step) * 10.0 * MM;
            let weights = spline.weights_at(x_nm);
            assert!((straight.at(x_nm) - line(x_nm)).abs() < 1e-9, "{step}");
            assert!((weights.iter().sum::<f64>() - 1.0).abs() < 1e-9);
        }
    }

    #[test]
    fn two_arms_give_the_straight_line() {
        let spline = NaturalSpline::new(&[100.0 * MM, 300.0 * MM]).expect("good positions");
        for (x_mm, expected) in [
            (100.0, [1.0, 0.0]),
            (150.0, [0.75, 0.25]),
            (300.0, [0.0, 1.0]),
            (400.0, [-0.5, 1.5]),
            (0.0, [1.5, -0.5]),
        ] {
            assert_eq!(spline.weights_at(x_mm * MM), expected, "{x_mm}");
        }
    }

    #[test]
    fn what_makes_no_sense_is_named_and_never_gives_nan() {
        use SplineError as E;
        let spline = NaturalSpline::new(&[0.0, MM, 5.0 * MM]).expect("good positions");
        assert_eq!(spline.curve(&[1.0]).err(), Some(E::ValueCount));
        assert_eq!(
            spline.curve(&[1.0, f64::INFINITY, 0.0]).err(),
            Some(E::ValueOutOfRange(1))
        );
        assert!(matches!(
            NaturalSpline::new(&[0.0]),
            Err(E::Arms(ArmPositionsError::Count(1)))
        ));
        for x_nm in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MAX] {
            assert!(spline.weights_at(x_nm).iter().all(|w| w.is_finite()));
        }
    }
}
