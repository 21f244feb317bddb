//! A piece of beam between two nodes, solved exactly.
//!
//! On a piece of even rigidity EI and foundation k_f the deflection solves
//! EI w'''' + k_f w = 0. Its values at distance x follow from those at 0
//! (Krylov's method of initial parameters; Hetenyi, Beams on Elastic
//! Foundation, 1946) through four functions of q = k_f x^4 / EI,
//!
//! ```text
//! y_m(q) = sum_n (-q)^n / (4 n + m)!,    m = 0, 1, 2, 3.
//! ```
//!
//! At q = 0 they are 1, 1, 1/2, 1/6 and the deflection is Hermite's cubic, so
//! a piece is a Hermite element that needs no finer mesh on a foundation.
//! Pieces are cut so that q <= 4, where six terms reach the last digit.

use super::restraint::{Carry, Restraint, over};

/// Largest k_f h^4 / EI of one piece.
pub(super) const MAX_FOUNDATION_RATIO: f64 = 4.0;

/// What a cut through the beam shows, just right of a place.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct BeamState {
    /// Deflection w.
    pub deflection: f64,
    /// Slope w'.
    pub slope: f64,
    /// Shear -EI w''': the force, in the direction of w, with which the part
    /// on the right acts on the part on the left.
    pub shear: f64,
    /// Moment EI w''; positive where the curve is hollow towards +w.
    pub moment: f64,
}

impl BeamState {
    /// The state a distance `x` to the right, within one piece.
    pub(super) fn carried(self, x: f64, flexibility: f64, foundation: f64) -> Self {
        let ground = foundation * flexibility;
        let (x2, x3) = (x * x, x * x * x);
        let [y0, y1, y2, y3] = krylov(ground * x2 * x2);
        let (w, slope) = (self.deflection, self.slope);
        let (shear, moment) = (self.shear * flexibility, self.moment * flexibility);
        Self {
            deflection: w * y0 + slope * x * y1 - shear * x3 * y3 + moment * x2 * y2,
            slope: -w * ground * x3 * y3 + slope * y0 - shear * x2 * y2 + moment * x * y1,
            shear: foundation * (w * x * y1 + slope * x2 * y2 + moment * x3 * y3) + self.shear * y0,
            moment: -foundation * (w * x2 * y2 + slope * x3 * y3) - self.shear * x * y1
                + self.moment * y0,
        }
    }
}

/// Weights of deflection, slope, shear and moment in the deflection a
/// distance `x` to the right, within one piece.
pub(super) fn deflection_weights(x: f64, flexibility: f64, foundation: f64) -> [f64; 4] {
    let (x2, x3) = (x * x, x * x * x);
    let [y0, y1, y2, y3] = krylov(foundation * flexibility * x2 * x2);
    [y0, y1 * x, -flexibility * x3 * y3, flexibility * x2 * y2]
}

/// The functions y_0 to y_3 for 0 <= q <= [`MAX_FOUNDATION_RATIO`].
fn krylov(q: f64) -> [f64; 4] {
    /// 1 / (4 n + m)! for n = 0 to 5, one row per m.
    const COEFFICIENTS: [[f64; 6]; 4] = [
        [
            1.0,
            1.0 / 24.0,
            1.0 / 40_320.0,
            1.0 / 479_001_600.0,
            1.0 / 20_922_789_888_000.0,
            1.0 / 2_432_902_008_176_640_000.0,
        ],
        [
            1.0,
            1.0 / 120.0,
            1.0 / 362_880.0,
            1.0 / 6_227_020_800.0,
            1.0 / 355_687_428_096_000.0,
            1.0 / 51_090_942_171_709_440_000.0,
        ],
        [
            1.0 / 2.0,
            1.0 / 720.0,
            1.0 / 3_628_800.0,
            1.0 / 87_178_291_200.0,
            1.0 / 6_402_373_705_728_000.0,
            1.0 / 1_124_000_727_777_607_680_000.0,
        ],
        [
            1.0 / 6.0,
            1.0 / 5_040.0,
            1.0 / 39_916_800.0,
            1.0 / 1_307_674_368_000.0,
            1.0 / 121_645_100_408_832_000.0,
            1.0 / 25_852_016_738_884_976_640_000.0,
        ],
    ];
    COEFFICIENTS.map(|row| {
        let terms = row.iter().rev();
        terms.fold(0.0, |sum, term| term - q * sum)
    })
}

/// A piece as seen from its right end, with its left end cut free.
///
/// Its bending gives way like one hinge and one slider at the elastic centre
/// (in the middle, without a foundation), and the foundation under it holds
/// like one spring and one rotational spring there.
#[derive(Debug, Clone, Copy)]
pub(super) struct Piece {
    /// Distance of the elastic centre from either end.
    pub centre: f64,
    /// Rotation of the hinge per unit moment.
    pub hinge: f64,
    /// Displacement of the slider per unit force.
    pub slider: f64,
    /// Deflection and slope of the free left end (rows) as the right end is
    /// displaced and turned (columns).
    pub free: [[f64; 2]; 2],
    /// Determinant of `free`.
    pub determinant: f64,
    /// How the foundation holds the right end.
    pub ground: Restraint,
}

impl Piece {
    /// Solves a piece of `length` h, `flexibility` 1/EI and `foundation` k_f.
    ///
    /// With A = y0 y1 + q y2 y3, B = y1^2 - y0 y2, C = y1 y2 - y0 y3 and
    /// D = y0^2 + q y1 y3 (all of q = k_f h^4 / EI), Krylov's equations give
    ///
    /// ```text
    /// motion of the free left end       1 / D [[y0, -h y1], [q y3 / h, y0]]
    /// its flexibility               h / (EI D) [[h^2 C, -h B], [-h B, A]]
    /// foundation at the right end    k_f h / D [[A, -h B], [-h B, h^2 C]]
    /// ```
    ///
    /// and A C - B^2 = D (y2^2 - y1 y3). Centre, hinge and slider are the
    /// factors of the flexibility, `ground` those of the foundation. No
    /// difference formed comes near to cancelling for q <= 4.
    pub fn new(length: f64, flexibility: f64, foundation: f64) -> Self {
        let cube = length * length * length;
        let q = foundation * flexibility * cube * length;
        let [y0, y1, y2, y3] = krylov(q);
        let determinant = 1.0 / (y0 * y0 + q * y1 * y3);
        let turning = y0 * y1 + q * y2 * y3;
        let centre = (y1 * y1 - y0 * y2) * length / turning;
        let turning_share = turning * determinant;
        let shifting_share = (y2 * y2 - y1 * y3) / turning;
        Self {
            centre,
            hinge: flexibility * length * turning_share,
            slider: flexibility * cube * shifting_share,
            free: [
                [determinant * y0, -determinant * length * y1],
                [
                    determinant * foundation * flexibility * cube * y3,
                    determinant * y0,
                ],
            ],
            determinant,
            ground: Restraint {
                spring: foundation * length * turning_share,
                offset: -centre,
                rotation: foundation * cube * shifting_share,
            },
        }
    }
}

impl Restraint {
    /// The restraint of the left side as it is felt at the right end of a
    /// piece, and how the left end follows the right one.
    ///
    /// With S this matrix, F the flexibility of the piece, R the motion of
    /// its free left end and G the stiffness of its foundation (see
    /// [`Piece`]), the result is G + R^T (S^-1 + F)^-1 R, and the left end
    /// moves by (1 + F S)^-1 R.
    pub fn through(self, piece: &Piece) -> (Self, Carry) {
        // Series connection with the hinge and slider at the elastic centre.
        let one = 1.0;
        let hinge_share = one / (one + self.rotation * piece.hinge);
        let lever = self.offset - piece.centre;
        let slack = piece.slider + piece.hinge * hinge_share * lever * lever;
        let slider_share = one / (one + self.spring * slack);
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
        let across =
            spring * at_spring[0] * at_spring[1] + rotation * free_slope[0] * free_slope[1];
        let held = spring * at_spring[1] * at_spring[1] + rotation * free_slope[1] * free_slope[1];
        let share = over(spring, moved_spring);
        let moved = Self {
            spring: moved_spring,
            offset: over(across, moved_spring),
            rotation: if moved_spring == 0.0 {
                held
            } else {
                rotation * share * piece.determinant * piece.determinant
            },
        };
        (moved.with(piece.ground), carry)
    }
}
