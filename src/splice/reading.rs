//! Readings of one station, every repeat kept as it was typed.

use crate::press::LengthQuantity;
use crate::units::{Sign, TypedLength, Unit};

use super::WhyDoubtful;

/// One measured thickness.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// The thickness, as typed.
    pub typed: TypedLength,
    /// Set when somebody took the reading out of the reckoning.
    pub struck: Option<Struck>,
    /// Set when somebody said that the reading is right although it was
    /// doubted.
    pub kept: Option<Kept>,
}

impl Reading {
    /// A reading that counts.
    pub fn new(typed: TypedLength) -> Self {
        Self {
            typed,
            struck: None,
            kept: None,
        }
    }
}

/// Who struck a reading and why.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Struck {
    /// Who struck it.
    pub by: String,
    /// Why.
    pub why: String,
}

/// Who kept a reading that was doubted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kept {
    /// Who says that it is right.
    pub by: String,
    /// Why it was doubted.
    pub doubt: WhyDoubtful,
}

/// One cell of the readings grid.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum Cell {
    /// Nothing entered.
    #[default]
    Empty,
    /// A thickness.
    Reading(Reading),
    /// Something that is no thickness, kept as it was typed until somebody
    /// mends it.
    Unreadable(String),
}

impl Cell {
    /// What a cell for a thickness within the limits of `quantity` holds after
    /// this text was typed into it.
    pub fn typed(quantity: LengthQuantity, text: &str, bare: Unit) -> Self {
        match (
            text.trim(),
            TypedLength::parse(text.trim(), bare, Sign::None),
        ) {
            ("", _) => Self::Empty,
            (_, Ok(typed)) if quantity.check(typed.length()).is_ok() => {
                Self::Reading(Reading::new(typed))
            }
            (text, _) => Self::Unreadable(text.to_owned()),
        }
    }

    /// The reading, struck or not.
    pub fn reading(&self) -> Option<&Reading> {
        match self {
            Self::Reading(reading) => Some(reading),
            Self::Empty | Self::Unreadable(_) => None,
        }
    }

    /// The reading, if it counts.
    pub fn counting(&self) -> Option<&Reading> {
        self.reading().filter(|reading| reading.struck.is_none())
    }

    /// Whether it holds something that is no thickness.
    pub fn is_unreadable(&self) -> bool {
        matches!(self, Self::Unreadable(_))
    }

    /// The text as typed; empty for an empty cell.
    pub fn text(&self) -> &str {
        match self {
            Self::Empty => "",
            Self::Reading(reading) => reading.typed.text(),
            Self::Unreadable(text) => text,
        }
    }
}
