//! Section of the jaw and size of the rods in format 1 of session files.

use serde::{Deserialize, Serialize};

use crate::press::section::{Estimate, JawShape};
use crate::session::JawAndRods;

/// A value and its relative standard deviation.
#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
struct EstimateV1(f64, f64);

/// The shape of the jaw's section.
#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
enum JawShapeV1 {
    SecondMomentMm4(f64, f64),
    RectangleMm {
        width: EstimateV1,
        height: EstimateV1,
    },
}

/// Section and rods, every entry a value and its relative standard deviation.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::store) struct JawAndRodsV1 {
    jaw_modulus_gpa: EstimateV1,
    jaw_shape: JawShapeV1,
    rod_modulus_gpa: EstimateV1,
    rod_diameter_mm: EstimateV1,
    rod_length_mm: EstimateV1,
}

impl From<Estimate> for EstimateV1 {
    fn from(estimate: Estimate) -> Self {
        Self(estimate.value, estimate.relative_sd)
    }
}

impl From<EstimateV1> for Estimate {
    fn from(file: EstimateV1) -> Self {
        Self {
            value: file.0,
            relative_sd: file.1,
        }
    }
}

impl From<&JawAndRods> for JawAndRodsV1 {
    fn from(data: &JawAndRods) -> Self {
        Self {
            jaw_modulus_gpa: data.jaw_modulus_gpa.into(),
            jaw_shape: match data.jaw_shape {
                JawShape::SecondMomentMm4(moment) => {
                    JawShapeV1::SecondMomentMm4(moment.value, moment.relative_sd)
                }
                JawShape::Rectangle {
                    width_mm,
                    height_mm,
                } => JawShapeV1::RectangleMm {
                    width: width_mm.into(),
                    height: height_mm.into(),
                },
            },
            rod_modulus_gpa: data.rod_modulus_gpa.into(),
            rod_diameter_mm: data.rod_diameter_mm.into(),
            rod_length_mm: data.rod_length_mm.into(),
        }
    }
}

impl From<JawAndRodsV1> for JawAndRods {
    fn from(file: JawAndRodsV1) -> Self {
        Self {
            jaw_modulus_gpa: file.jaw_modulus_gpa.into(),
            jaw_shape: match file.jaw_shape {
                JawShapeV1::SecondMomentMm4(value, relative_sd) => {
                    JawShape::SecondMomentMm4(Estimate { value, relative_sd })
                }
                JawShapeV1::RectangleMm { width, height } => JawShape::Rectangle {
                    width_mm: width.into(),
                    height_mm: height.into(),
                },
            },
            rod_modulus_gpa: file.rod_modulus_gpa.into(),
            rod_diameter_mm: file.rod_diameter_mm.into(),
            rod_length_mm: file.rod_length_mm.into(),
        }
    }
}
