//! Every physical limit of what a user may enter, in one table.
//!
//! The table drives the check, the sentence the user reads and the ranges of
//! input fields; nothing else in the program repeats these numbers.

use crate::codec::MOST_LISTED;
use crate::units::Length;

use super::arm_positions::{MAX_ARMS, MIN_ARMS};

/// A quantity with a length that has limits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LengthQuantity {
    /// Length of the jaw.
    JawLength,
    /// Distance between neighbouring arms, and of stations from each other.
    ArmGap,
    /// Mean rise of the splice when every nut goes one notch out.
    NotchEffect,
    /// Movement of the nut itself per notch.
    NutTravel,
    /// One reading of a splice.
    Reading,
    /// Tolerance on the spread.
    Tolerance,
    /// Step of the gauge.
    GaugeStep,
    /// Stated limit of error of the gauge, either way.
    LimitOfError,
    /// A standard deviation: repeatability of the gauge, or scatter from
    /// lacing to lacing.
    Scatter,
    /// Thickness of the bare belt.
    BareBelt,
    /// What is left of the jaw opening at an arm.
    OpeningMargin,
    /// Target thickness of the splice.
    Target,
    /// Move of the common handle, either way.
    HandleMove,
    /// Gap between the jaws at one arm at full stroke, before anything is
    /// laced.
    CoarseGap,
}

/// A quantity that is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CountQuantity {
    /// Arms of a press.
    Arms,
    /// Stations between the arms.
    StationsBetween,
    /// Nut position in notches from flush.
    NutPosition,
    /// Repeats at one station in one pass.
    Repeats,
    /// Passes of one session.
    Passes,
    /// Steps a shop adds to a visit.
    OwnSteps,
    /// Earlier visits kept with a press.
    EarlierVisits,
    /// Changes of one pass after the next was laced.
    Corrections,
}

/// Smallest and largest accepted value, both inclusive.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bounds<T> {
    /// Smallest accepted value.
    pub least: T,
    /// Largest accepted value.
    pub most: T,
}

impl<T: PartialOrd + Copy> Bounds<T> {
    /// Whether `value` is accepted.
    pub fn hold(&self, value: T) -> bool {
        self.least <= value && value <= self.most
    }
}

/// A length outside the limits of its quantity.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LengthOutOfBounds {
    /// What was entered.
    pub quantity: LengthQuantity,
    /// The value found.
    pub found: Length,
}

/// A count outside the limits of its quantity.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CountOutOfBounds {
    /// What was entered.
    pub quantity: CountQuantity,
    /// The value found.
    pub found: i64,
}

const MICROMETRE: i64 = 1_000;
const MILLIMETRE: i64 = 1_000_000;

impl LengthQuantity {
    /// The limits of this quantity.
    ///
    /// They are wide: they keep slips of the keyboard and absurd files out,
    /// and are no statement about any machine.
    pub const fn bounds(self) -> Bounds<Length> {
        let (least, most) = match self {
            Self::JawLength => (50 * MILLIMETRE, 10_000 * MILLIMETRE),
            Self::ArmGap => (MILLIMETRE, 10_000 * MILLIMETRE),
            Self::NotchEffect | Self::NutTravel => (MICROMETRE, 5 * MILLIMETRE),
            Self::Reading | Self::Target => (100 * MICROMETRE, 500 * MILLIMETRE),
            Self::Tolerance => (MICROMETRE, 10 * MILLIMETRE),
            Self::GaugeStep => (100, MILLIMETRE),
            Self::LimitOfError | Self::Scatter => (0, MILLIMETRE),
            Self::BareBelt => (100 * MICROMETRE, 100 * MILLIMETRE),
            Self::OpeningMargin | Self::CoarseGap => (0, 100 * MILLIMETRE),
            Self::HandleMove => (-50 * MILLIMETRE, 50 * MILLIMETRE),
        };
        Bounds {
            least: Length::from_nm(least),
            most: Length::from_nm(most),
        }
    }

    /// Passes `found` on when it is within the limits.
    ///
    /// # Errors
    /// The quantity and the value when it is not.
    pub fn check(self, found: Length) -> Result<Length, LengthOutOfBounds> {
        if self.bounds().hold(found) {
            Ok(found)
        } else {
            Err(LengthOutOfBounds {
                quantity: self,
                found,
            })
        }
    }
}

impl CountQuantity {
    /// The limits of this quantity.
    pub const fn bounds(self) -> Bounds<i64> {
        let (least, most) = match self {
            Self::Arms => (MIN_ARMS as i64, MAX_ARMS as i64),
            Self::StationsBetween => (0, 28),
            Self::NutPosition => (-200, 200),
            Self::Repeats => (0, 1_000),
            Self::Passes => (0, 200),
            Self::OwnSteps => (0, 60),
            Self::EarlierVisits => (0, 30),
            // All readings there can be, cleared at one go.
            Self::Corrections => (0, 40_000),
        };
        Bounds { least, most }
    }

    /// Passes `found` on when it is within the limits.
    ///
    /// # Errors
    /// The quantity and the value when it is not.
    pub fn check(self, found: i64) -> Result<i64, CountOutOfBounds> {
        if self.bounds().hold(found) {
            Ok(found)
        } else {
            Err(CountOutOfBounds {
                quantity: self,
                found,
            })
        }
    }
}

// A longer list than a file may hold would be cut off in reading.
const _: () = assert!(CountQuantity::Repeats.bounds().most <= MOST_LISTED as i64);

/// Most notches one nut is turned for one re-lace where the press sets no
/// limit of its own.
pub const MOST_NOTCHES_PER_RELACE: i32 = 6;
