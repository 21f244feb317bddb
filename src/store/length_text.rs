//! Lengths in files: the very text that was typed, its unit included.

use serde::de::{Deserialize, Deserializer, Error};
use serde::ser::{Serialize, Serializer};

use crate::units::{LengthProblem, Sign, TypedLength, Unit};

/// A length in a file, such as `"0.2475 in"`.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct LengthText(pub TypedLength);

impl LengthText {
    /// Reads a text that must name its unit itself.
    pub fn parse(text: &str) -> Result<Self, LengthFault> {
        // A bare number would get a unit's mark appended.
        match TypedLength::parse(text, Unit::Inch, Sign::None) {
            Ok(typed) if typed.text() == text.trim() => Ok(Self(typed)),
            Ok(_) => Err(LengthFault::NoUnit),
            Err(problem) => Err(LengthFault::Unreadable(problem)),
        }
    }
}

/// What is wrong with a length in a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum LengthFault {
    /// It names no unit.
    NoUnit,
    /// It is no length.
    Unreadable(LengthProblem),
}

/// Marks the messages that carry an unreadable length through the reader,
/// which passes on nothing but text with its place.
const MARK: &str = "\u{1}length\u{1}";

/// The length text that a message of the reader complains of.
pub(super) fn complained_of(message: &str) -> Option<&str> {
    message.strip_prefix(MARK)
}

/// The error for a text that is no length.
pub(super) fn complaint<E: Error>(text: &str) -> E {
    E::custom(format_args!("{MARK}{text}"))
}

impl Serialize for LengthText {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.0.text())
    }
}

impl<'de> Deserialize<'de> for LengthText {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        Self::parse(&text).map_err(|_| complaint(&text))
    }
}
