//! Lengths in files: the very text that was typed, its unit included.

use serde::de::{Deserialize, Deserializer, Error};
use serde::ser::{Serialize, Serializer};

use crate::units::{LengthProblem, Sign, TypedLength, Unit};

/// A length in a file, such as `"0.2475 in"`.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct LengthText(pub TypedLength);

/// A move in a file, out or up positive, such as `"-0.002 in"`.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct MoveText(pub TypedLength);

impl LengthText {
    /// Reads a text that must name its unit itself.
    pub fn parse(text: &str) -> Result<Self, LengthFault> {
        parse(text, Sign::None).map(Self)
    }
}

fn parse(text: &str, sign: Sign) -> Result<TypedLength, LengthFault> {
    // A bare number would get a unit's mark appended.
    match TypedLength::parse(text, Unit::Inch, sign) {
        Ok(typed) if typed.text() == text.trim() => Ok(typed),
        Ok(_) => Err(LengthFault::NoUnit),
        Err(problem) => Err(LengthFault::Unreadable(problem)),
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

/// Marks the messages that carry an unreadable length or move through the
/// reader, which passes on nothing but text with its place.
const LENGTH_MARK: &str = "\u{1}length\u{1}";
const MOVE_MARK: &str = "\u{1}move\u{1}";

/// The text that a message of the reader complains of, and its fault.
pub(super) fn complained_of(message: &str) -> Option<(&str, LengthFault)> {
    [(LENGTH_MARK, Sign::None), (MOVE_MARK, Sign::Either)]
        .into_iter()
        .find_map(|(mark, sign)| {
            let found = message.strip_prefix(mark)?;
            parse(found, sign).err().map(|fault| (found, fault))
        })
}

/// The error for a text that is no length.
pub(super) fn complaint<E: Error>(text: &str) -> E {
    E::custom(format_args!("{LENGTH_MARK}{text}"))
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

impl Serialize for MoveText {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.0.text())
    }
}

impl<'de> Deserialize<'de> for MoveText {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        parse(&text, Sign::Either)
            .map(Self)
            .map_err(|_| D::Error::custom(format_args!("{MOVE_MARK}{text}")))
    }
}
