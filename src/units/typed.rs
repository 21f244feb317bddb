//! A length together with the text it was typed as.

use crate::codec::as_text;

use super::print::all_digits;
use super::{Length, LengthProblem, Rounding, Sign, Unit, decimal_text, parse_length};

/// A length and the very text it was typed as, its unit included.
///
/// The text is what the file keeps; the length is what everything else uses.
/// A bare number is given its unit's mark when it is read, so that the text
/// means the same wherever it is read again.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TypedLength {
    length: Length,
    text: String,
}

/// What is wrong with a length in a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LengthFault {
    /// It names no unit.
    NoUnit,
    /// It is no length.
    Unreadable(LengthProblem),
}

/// A length that may be left out, as files have it in lists with a place for
/// each: an empty text for none.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MaybeLength(pub Option<TypedLength>);

/// A length either way, as files have it: a move, out or up positive.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TypedMove(pub TypedLength);

as_text!(TypedLength, Length, |typed| typed.text(), |text| {
    Self::from_file(text, Sign::None).ok()
});

// A length that was never typed; a millimetre holds every nanometre.
as_text!(
    Length,
    Length,
    |length| TypedLength::from_length(*length, Unit::Millimetre).text(),
    |text| {
        let typed = TypedLength::from_file(text, Sign::None);
        typed.ok().map(|typed| typed.length())
    }
);

as_text!(
    MaybeLength,
    Length,
    |maybe| maybe.0.as_ref().map_or("", TypedLength::text),
    |text| match text {
        "" => Some(Self(None)),
        _ => TypedLength::from_file(text, Sign::None)
            .ok()
            .map(|typed| Self(Some(typed))),
    }
);

as_text!(TypedMove, Move, |typed| typed.0.text(), |text| {
    TypedLength::from_file(text, Sign::Either).ok().map(Self)
});

/// A field with a move that may be left out.
pub(crate) mod maybe_move {
    use serde::{Deserialize, Deserializer, Serialize, Serializer};

    use super::{TypedLength, TypedMove};

    pub(crate) fn serialize<S: Serializer>(
        value: &Option<TypedLength>,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        value.clone().map(TypedMove).serialize(serializer)
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<Option<TypedLength>, D::Error> {
        let read = Option::<TypedMove>::deserialize(deserializer)?;
        Ok(read.map(|typed| typed.0))
    }
}

impl TypedLength {
    /// Reads what a person typed; a bare number takes `bare`.
    ///
    /// # Errors
    /// What is wrong with the text; see [`LengthProblem`].
    pub fn parse(text: &str, bare: Unit, sign: Sign) -> Result<Self, LengthProblem> {
        let (length, marked) = parse_length(text, bare, sign)?;
        let text = text.trim();
        let text = if marked {
            text.to_owned()
        } else {
            format!("{text} {}", bare.mark())
        };
        Ok(Self { length, text })
    }

    /// Reads a text of a file, which must name its unit itself: a bare number
    /// would get a mark that nobody wrote.
    ///
    /// # Errors
    /// What is wrong with it.
    pub fn from_file(text: &str, sign: Sign) -> Result<Self, LengthFault> {
        match Self::parse(text, Unit::Inch, sign) {
            Ok(typed) if typed.text() == text.trim() => Ok(typed),
            Ok(_) => Err(LengthFault::NoUnit),
            Err(problem) => Err(LengthFault::Unreadable(problem)),
        }
    }

    /// A length the program made, written as a plain decimal of `unit` with
    /// every digit it needs; in millimetres where `unit` has no finite decimal
    /// for it, so that it reads back exactly.
    pub fn from_length(length: Length, unit: Unit) -> Self {
        let (digits, unit) = match all_digits(length, unit) {
            Some(digits) => (digits, unit),
            // Six decimals of a millimetre hold every nanometre.
            None => (
                decimal_text(length, Unit::Millimetre, 6, Rounding::Nearest),
                Unit::Millimetre,
            ),
        };
        Self {
            length,
            text: format!("{digits} {}", unit.mark()),
        }
    }

    /// The length.
    pub fn length(&self) -> Length {
        self.length
    }

    /// The text as typed, with its unit.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The unit the text stands in; thou and micrometres count with the inch
    /// and the millimetre they divide.
    pub fn unit(&self) -> Unit {
        let digits_end = self
            .text
            .rfind(|c: char| c.is_ascii_digit())
            .map_or(0, |at| at + 1);
        let mark = self.text.get(digits_end..).unwrap_or_default().trim();
        // Every metric mark ends in m and no inch mark does.
        if mark.ends_with('m') {
            Unit::Millimetre
        } else {
            Unit::Inch
        }
    }

    /// The same digits read in the other unit, for a reading typed in the
    /// wrong one; `None` when the text names its unit in a way that cannot
    /// simply be exchanged.
    pub fn read_as(&self, unit: Unit) -> Option<Self> {
        let bare = self
            .text
            .trim_end_matches(|c: char| !c.is_ascii_digit() && c != '.' && c != ',')
            .trim_end();
        Self::parse(bare, unit, Sign::Either).ok()
    }
}
