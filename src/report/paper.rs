//! The paper, and how a session is set on it.

use crate::session::IsoDate;
use crate::units::Unit;
use crate::words::Figures;

/// A size of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Paper {
    /// US Letter, 8 1/2 by 11 inches (ANSI/ASME Y14.1, size A).
    #[default]
    Letter,
    /// A4, 210 by 297 mm (ISO 216).
    A4,
}

impl Paper {
    /// All sizes.
    pub const ALL: [Self; 2] = [Self::Letter, Self::A4];

    /// Its name, as it is typed.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Letter => "letter",
            Self::A4 => "A4",
        }
    }

    /// The paper of that name, however it is capitalised.
    pub fn named(name: &str) -> Option<Self> {
        let name = name.trim();
        Self::ALL
            .into_iter()
            .find(|paper| paper.name().eq_ignore_ascii_case(name))
    }

    /// The paper of the places where a unit is used.
    pub const fn usual(unit: Unit) -> Self {
        match unit {
            Unit::Inch => Self::Letter,
            Unit::Millimetre => Self::A4,
        }
    }

    /// Width and height in points.
    pub const fn size(self) -> (f32, f32) {
        match self {
            Self::Letter => (612.0, 792.0),
            Self::A4 => (210.0 / 25.4 * 72.0, 297.0 / 25.4 * 72.0),
        }
    }
}

/// How a session is set on paper.
#[derive(Debug, Clone)]
pub struct Setting {
    /// Language, unit and digits.
    pub figures: Figures,
    /// The paper.
    pub paper: Paper,
    /// The day on which it is printed, where it is known: a calibration may
    /// have run out by then.
    pub today: Option<IsoDate>,
    /// Whether it is practice on a simulated press: the pages say so.
    pub practice: bool,
    /// When it is printed, as the program writes it; empty where it is not to
    /// be said.
    pub printed: String,
}
