//! A length together with the text it was typed as.

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
