//! What section and rod data say about the jaw: kappa = k a^3 / EI.
//!
//! A shop rarely knows its jaw's rigidity. When drawings or a rule tell the jaw's
//! section and the rods' size, strength of materials gives
//!
//! ```text
//! k  = E_r A / l,  A = pi d^2 / 4          a rod pulled
//! I  = b h^3 / 12                          a rectangle bent over its height h
//! kappa = k a^3 / (E I)
//! ```
//!
//! (Timoshenko, Strength of Materials, parts on tension and on bending). What
//! this leaves out only softens the rods: threads, nut seats and the frame
//! give way too. How far is not known, so the median is left where it
//! is and a spread of ln kappa stays ([`MODEL_LOG_SD`]), together with that of
//! the data (GUM, JCGM 100:2008,
//! 5.1.6: relative variances of factors add, times their squared exponents).

use std::f64::consts::PI;
use std::ops::RangeInclusive;

use serde::{Deserialize, Serialize};

/// Standard deviation of ln kappa that stays when all data are exact: threads,
/// seats and frame. Assumed, no source.
pub const MODEL_LOG_SD: f64 = 0.3;

/// A quantity that [`kappa_from_data`] takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SectionQuantity {
    /// Young's modulus of the jaw, GPa.
    JawModulusGpa,
    /// Second moment of area of the jaw's section, mm^4.
    JawSecondMomentMm4,
    /// Width of a rectangular jaw section, mm.
    JawWidthMm,
    /// Height of a rectangular jaw section, along the rods, mm.
    JawHeightMm,
    /// Young's modulus of the rods, GPa.
    RodModulusGpa,
    /// Diameter of the rods, mm.
    RodDiameterMm,
    /// Free length of the rods, mm.
    RodLengthMm,
    /// Mean arm spacing, mm.
    ArmSpacingMm,
}

impl SectionQuantity {
    /// Values that can be meant; beyond them a unit or a digit is wrong.
    pub fn range(self) -> RangeInclusive<f64> {
        match self {
            // From plastics to tungsten carbide.
            Self::JawModulusGpa | Self::RodModulusGpa => 1.0..=700.0,
            // A bar 5 mm square has 52 mm^4; a box 1 m square of 50 mm plate 3e10.
            Self::JawSecondMomentMm4 => 10.0..=1.0e12,
            Self::JawWidthMm | Self::JawHeightMm => 3.0..=2_000.0,
            Self::RodDiameterMm => 2.0..=300.0,
            Self::RodLengthMm => 2.0..=10_000.0,
            Self::ArmSpacingMm => 1.0..=100_000.0,
        }
    }
}

/// Why section data are refused.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SectionError {
    /// A value is not in [`SectionQuantity::range`].
    OutOfRange {
        /// What it is.
        quantity: SectionQuantity,
        /// The value as given.
        value: f64,
    },
    /// A relative standard deviation is not from 0 to 1.
    RelativeSd {
        /// Whose it is.
        quantity: SectionQuantity,
        /// The value as given.
        relative_sd: f64,
    },
}

/// A measured or looked-up value with its relative standard deviation (0 when
/// it is taken as exact).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(from = "(f64, f64)", into = "(f64, f64)")]
pub struct Estimate {
    /// The value, in the unit of the quantity.
    pub value: f64,
    /// Standard deviation over the value, 0 to 1.
    pub relative_sd: f64,
}

impl From<(f64, f64)> for Estimate {
    fn from((value, relative_sd): (f64, f64)) -> Self {
        Self { value, relative_sd }
    }
}

impl From<Estimate> for (f64, f64) {
    fn from(estimate: Estimate) -> Self {
        (estimate.value, estimate.relative_sd)
    }
}

impl Estimate {
    /// A value taken as exact.
    pub fn exact(value: f64) -> Self {
        Self {
            value,
            relative_sd: 0.0,
        }
    }

    fn checked(self, quantity: SectionQuantity) -> Result<Self, SectionError> {
        let Self { value, relative_sd } = self;
        if !quantity.range().contains(&value) {
            return Err(SectionError::OutOfRange { quantity, value });
        }
        if !(0.0..=1.0).contains(&relative_sd) {
            return Err(SectionError::RelativeSd {
                quantity,
                relative_sd,
            });
        }
        Ok(self)
    }
}

/// The jaw's section.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(from = "JawShapeInFile", into = "JawShapeInFile")]
pub enum JawShape {
    /// Second moment of area I about the axis that pressing bends the jaw
    /// about, mm^4 (from the maker's tables).
    SecondMomentMm4(Estimate),
    /// A full rectangle.
    Rectangle {
        /// Width b, across the rods, mm.
        width_mm: Estimate,
        /// Height h, along the rods, mm.
        height_mm: Estimate,
    },
}

/// The section as it stands in a file: a moment and its relative standard
/// deviation side by side.
#[derive(Serialize, Deserialize)]
enum JawShapeInFile {
    SecondMomentMm4(f64, f64),
    RectangleMm { width: Estimate, height: Estimate },
}

impl From<JawShape> for JawShapeInFile {
    fn from(shape: JawShape) -> Self {
        match shape {
            JawShape::SecondMomentMm4(Estimate { value, relative_sd }) => {
                Self::SecondMomentMm4(value, relative_sd)
            }
            JawShape::Rectangle {
                width_mm: width,
                height_mm: height,
            } => Self::RectangleMm { width, height },
        }
    }
}

impl From<JawShapeInFile> for JawShape {
    fn from(file: JawShapeInFile) -> Self {
        match file {
            JawShapeInFile::SecondMomentMm4(value, relative_sd) => {
                Self::SecondMomentMm4(Estimate { value, relative_sd })
            }
            JawShapeInFile::RectangleMm { width, height } => Self::Rectangle {
                width_mm: width,
                height_mm: height,
            },
        }
    }
}

/// Section of the jaw and size of the rods, each with its relative standard
/// deviation. The distance of the arms is the press's own.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct JawAndRods {
    /// Young's modulus of the jaw, GPa (steel 200 to 210).
    pub jaw_modulus_gpa: Estimate,
    /// The jaw's section.
    pub jaw_shape: JawShape,
    /// Young's modulus of the rods, GPa.
    pub rod_modulus_gpa: Estimate,
    /// Diameter of the rods, mm; on threaded rods that of the tensile stress
    /// area is nearer to the truth than the outer one.
    pub rod_diameter_mm: Estimate,
    /// Length of rod that is stretched, from seat to seat, mm.
    pub rod_length_mm: Estimate,
}

/// kappa as a log-normal distribution.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KappaEstimate {
    /// Median of kappa.
    pub kappa: f64,
    /// Standard deviation of ln kappa.
    pub log_sd: f64,
}

/// Stiffness of a rod in N/mm: E A / l.
///
/// # Errors
/// [`SectionError`] when a value makes no sense.
pub fn rod_stiffness_n_per_mm(data: &JawAndRods) -> Result<Estimate, SectionError> {
    use SectionQuantity as Q;
    let modulus = data.rod_modulus_gpa.checked(Q::RodModulusGpa)?;
    let diameter = data.rod_diameter_mm.checked(Q::RodDiameterMm)?;
    let length = data.rod_length_mm.checked(Q::RodLengthMm)?;
    // 1 GPa = 1000 N/mm^2.
    Ok(product(
        1000.0 * PI / 4.0,
        &[(modulus, 1), (diameter, 2), (length, -1)],
    ))
}

/// Rigidity E I of the jaw in N mm^2.
///
/// # Errors
/// [`SectionError`] when a value makes no sense.
pub fn jaw_rigidity_n_mm2(data: &JawAndRods) -> Result<Estimate, SectionError> {
    use SectionQuantity as Q;
    let modulus = data.jaw_modulus_gpa.checked(Q::JawModulusGpa)?;
    match data.jaw_shape {
        JawShape::SecondMomentMm4(moment) => {
            let moment = moment.checked(Q::JawSecondMomentMm4)?;
            Ok(product(1000.0, &[(modulus, 1), (moment, 1)]))
        }
        JawShape::Rectangle {
            width_mm,
            height_mm,
        } => {
            let width = width_mm.checked(Q::JawWidthMm)?;
            let height = height_mm.checked(Q::JawHeightMm)?;
            Ok(product(
                1000.0 / 12.0,
                &[(modulus, 1), (width, 1), (height, 3)],
            ))
        }
    }
}

/// kappa from section and rod data and the mean distance of the arms, with
/// [`MODEL_LOG_SD`] added to the spread of the data.
///
/// # Errors
/// [`SectionError`] when a value makes no sense.
pub fn kappa_from_data(
    data: &JawAndRods,
    arm_spacing_mm: Estimate,
) -> Result<KappaEstimate, SectionError> {
    let spacing = arm_spacing_mm.checked(SectionQuantity::ArmSpacingMm)?;
    let rod = rod_stiffness_n_per_mm(data)?;
    let jaw = jaw_rigidity_n_mm2(data)?;
    let kappa = product(1.0, &[(rod, 1), (spacing, 3), (jaw, -1)]);
    let log_sd = (kappa.relative_sd * kappa.relative_sd + MODEL_LOG_SD * MODEL_LOG_SD).sqrt();
    Ok(KappaEstimate {
        kappa: kappa.value,
        log_sd,
    })
}

/// A product of independent factors raised to whole powers, and its relative
/// standard deviation.
fn product(constant: f64, factors: &[(Estimate, i32)]) -> Estimate {
    let mut value = constant;
    let mut variance = 0.0;
    for (factor, power) in factors {
        for _ in 0..power.unsigned_abs() {
            value = if *power > 0 {
                value * factor.value
            } else {
                value / factor.value
            };
        }
        let part = f64::from(*power) * factor.relative_sd;
        variance += part * part;
    }
    Estimate {
        value,
        relative_sd: variance.sqrt(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn spacing() -> Estimate {
        Estimate::exact(300.0)
    }

    fn steel() -> JawAndRods {
        JawAndRods {
            jaw_modulus_gpa: Estimate::exact(200.0),
            jaw_shape: JawShape::Rectangle {
                width_mm: Estimate::exact(60.0),
                height_mm: Estimate::exact(120.0),
            },
            rod_modulus_gpa: Estimate::exact(200.0),
            rod_diameter_mm: Estimate::exact(24.0),
            rod_length_mm: Estimate::exact(400.0),
        }
    }

    #[test]
    fn formulas_by_hand() {
        // A = 452.389 342 mm^2, k = 226 194.671 N/mm; I = 8.64e6 mm^4,
        // E I = 1.728e12 N mm^2; kappa = 226 194.671 * 2.7e7 / 1.728e12.
        let data = steel();
        let rod = rod_stiffness_n_per_mm(&data).expect("good data");
        assert!((rod.value - 226_194.671_058_465).abs() < 1e-6);
        let jaw = jaw_rigidity_n_mm2(&data).expect("good data");
        assert!((jaw.value - 1.728e12).abs() < 1.0);
        let kappa = kappa_from_data(&data, spacing()).expect("good data");
        assert!((kappa.kappa - 3.534_291_735_288_5).abs() < 1e-12);
        assert_eq!(kappa.log_sd, MODEL_LOG_SD);

        let by_moment = JawAndRods {
            jaw_shape: JawShape::SecondMomentMm4(Estimate::exact(8.64e6)),
            ..data
        };
        let same = kappa_from_data(&by_moment, spacing()).expect("good data");
        assert!((same.kappa / kappa.kappa - 1.0).abs() < 1e-15);
    }

    #[test]
    fn relative_variances_add_times_squared_exponents() {
        let off = |value| Estimate {
            value,
            relative_sd: 0.01,
        };
        let data = JawAndRods {
            jaw_modulus_gpa: off(200.0),
            jaw_shape: JawShape::Rectangle {
                width_mm: off(60.0),
                height_mm: off(120.0),
            },
            rod_modulus_gpa: off(200.0),
            rod_diameter_mm: off(24.0),
            rod_length_mm: off(400.0),
        };
        // Exponents -1, -1, -3, 1, 2, -1, 3: squares sum to 26.
        let kappa = kappa_from_data(&data, off(300.0)).expect("good data");
        let expected = (26.0e-4 + MODEL_LOG_SD * MODEL_LOG_SD).sqrt();
        assert!((kappa.log_sd - expected).abs() < 1e-15);
    }

    #[test]
    fn absurd_values_are_named() {
        let good = steel();
        for bad in [0.0, -24.0, 1.0e9, f64::NAN, f64::INFINITY] {
            let data = JawAndRods {
                rod_diameter_mm: Estimate::exact(bad),
                ..good
            };
            let Err(SectionError::OutOfRange { quantity, .. }) = kappa_from_data(&data, spacing())
            else {
                panic!("{bad} was taken");
            };
            assert_eq!(quantity, SectionQuantity::RodDiameterMm);
        }
        // Arms a hundred metres apart are taken, a hair more is not.
        for (mm, taken) in [(100_000.0, true), (100_000.1, false)] {
            let found = kappa_from_data(&good, Estimate::exact(mm));
            assert_eq!(found.is_ok(), taken, "{mm}");
        }
        let unsure = Estimate {
            value: 300.0,
            relative_sd: f64::NAN,
        };
        assert!(matches!(
            kappa_from_data(&good, unsure),
            Err(SectionError::RelativeSd {
                quantity: SectionQuantity::ArmSpacingMm,
                ..
            })
        ));
    }
}
