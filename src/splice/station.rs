//! The places along the jaw where readings are taken.

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::codec::as_text;
use crate::press::{ArmIndex, Press};
use crate::units::{Length, Rounding, Sign, TypedLength, Unit, decimal_text};

/// Where a station lies.
#[derive(Debug, Clone, PartialEq)]
pub enum StationPlace {
    /// At the centre of an arm, wherever that arm stands.
    Arm(ArmIndex),
    /// Somewhere else, this far from the jaw's left end.
    Between(TypedLength),
}

/// A place along the jaw where readings are taken.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Station {
    /// Where it lies.
    #[serde(rename = "at")]
    pub place: StationPlace,
    /// Whether its mean counts towards the spread.
    #[serde(default = "usually", skip_serializing_if = "Clone::clone")]
    pub counts: bool,
}

fn usually() -> bool {
    true
}

as_text!(
    StationPlace,
    Length,
    |place| place.file_text(),
    Self::from_file
);

impl StationPlace {
    /// The text that stands in files: an arm's letter, or the distance.
    pub fn file_text(&self) -> String {
        match self {
            Self::Arm(arm) => arm.to_string(),
            Self::Between(position) => position.text().to_owned(),
        }
    }

    fn from_file(text: &str) -> Option<Self> {
        if let [letter @ b'A'..=b'Z'] = text.as_bytes() {
            return Some(Self::Arm(ArmIndex(usize::from(letter - b'A'))));
        }
        let position = TypedLength::from_file(text, Sign::None);
        position.ok().map(Self::Between)
    }
}

impl Station {
    /// The counting station at an arm's centre.
    pub fn at_arm(arm: ArmIndex) -> Self {
        Self {
            place: StationPlace::Arm(arm),
            counts: true,
        }
    }

    /// Distance from the jaw's left end; zero for an arm the press does not
    /// have.
    pub fn position(&self, press: &Press) -> Length {
        match &self.place {
            StationPlace::Arm(arm) => press
                .arms
                .get(arm.0)
                .map_or(Length::ZERO, |arm| arm.position.length()),
            StationPlace::Between(position) => position.length(),
        }
    }

    /// The arm whose centre this is.
    pub fn arm(&self) -> Option<ArmIndex> {
        match self.place {
            StationPlace::Arm(arm) => Some(arm),
            StationPlace::Between(_) => None,
        }
    }

    /// The station's name; distances in `unit`.
    pub fn name(&self, press: &Press, unit: Unit) -> StationName {
        let position = self.position(press);
        if let Some(arm) = self.arm() {
            return StationName::Arm(arm);
        }
        let left = press
            .indexed_arms()
            .take_while(|(_, arm)| arm.position.length() <= position)
            .last();
        let (arm, from) = left.map_or(
            (ArmIndex(0), Self::at_arm(ArmIndex(0)).position(press)),
            |(index, arm)| (index, arm.position.length()),
        );
        StationName::Beside {
            arm,
            offset: position.minus(from),
            unit,
        }
    }
}

/// A station's name: an arm's letter, or the arm to its left and the distance
/// from it in the session's unit (`B+6`); left of arm A, `A-3`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StationName {
    /// At this arm.
    Arm(ArmIndex),
    /// Beside this arm by a signed distance.
    Beside {
        /// The nearest arm to the left, or A where there is none.
        arm: ArmIndex,
        /// Distance from it, rightward positive.
        offset: Length,
        /// The unit the distance is printed in.
        unit: Unit,
    },
}

impl fmt::Display for StationName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::Arm(arm) => arm.fmt(f),
            Self::Beside { arm, offset, unit } => {
                let sign = if offset < Length::ZERO { '-' } else { '+' };
                let distance = Length::from_nm(offset.nm().saturating_abs());
                let digits = decimal_text(distance, unit, 4, Rounding::Nearest);
                let digits = digits.trim_end_matches('0').trim_end_matches('.');
                write!(f, "{arm}{sign}{digits}")
            }
        }
    }
}
