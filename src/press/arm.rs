//! A frame arm with its tie rod and castle nut.

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::codec::is_usual;
use crate::units::TypedLength;

use super::NutLimits;

/// Which arm: 0 is A, the operator's leftmost.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct ArmIndex(pub usize);

impl ArmIndex {
    /// The arm's letter: A, B, C ... from the operator's left.
    pub fn letter(self) -> char {
        u8::try_from(self.0)
            .ok()
            .filter(|&index| index < 26)
            .map_or('?', |index| char::from(b'A' + index))
    }
}

impl fmt::Display for ArmIndex {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.letter())
    }
}

/// A frame arm with its tie rod and castle nut.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Arm {
    /// Distance of the arm's centre from the jaw's left end.
    pub position: TypedLength,
    /// Rise of the splice per notch out.
    pub notch_effect: TypedLength,
    /// Where the nut may stand, if the shop has set it down.
    #[serde(rename = "nut_limits", default, skip_serializing_if = "is_usual")]
    pub limits: Option<NutLimits>,
    /// What is left of the jaw opening here before the hook retainer no
    /// longer comes out easily; unknown until measured.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub opening_margin: Option<TypedLength>,
}

impl Arm {
    /// An arm of which nothing else is known yet.
    pub fn new(position: TypedLength, notch_effect: TypedLength) -> Self {
        Self {
            position,
            notch_effect,
            limits: None,
            opening_margin: None,
        }
    }
}
