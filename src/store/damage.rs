//! What is wrong with a damaged file, and where.

use ron::error::{Error, SpannedError};

use crate::codec::Expected;
use crate::units::{LengthFault, LengthProblem, Sign, TypedLength};

/// A place in a text file, both counted from 1; columns count characters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TextPlace {
    /// The line.
    pub line: usize,
    /// The column.
    pub column: usize,
}

impl TextPlace {
    /// The place right after some text.
    pub(super) fn after(text: &str) -> Self {
        let line = text.matches('\n').count() + 1;
        let last = text.rsplit('\n').next().unwrap_or_default();
        Self {
            line,
            column: last.chars().count() + 1,
        }
    }

    /// The first place from here on at which something stands; this one where
    /// nothing follows.
    fn of_next_word(self, text: &str) -> Self {
        let mut skip = self.column.saturating_sub(1);
        for (line, number) in text.lines().zip(1..).skip(self.line.saturating_sub(1)) {
            let mut letters = line.chars().zip(1..).skip(skip);
            if let Some((_, column)) = letters.find(|(letter, _)| !letter.is_whitespace()) {
                return Self {
                    line: number,
                    column,
                };
            }
            skip = 0;
        }
        self
    }
}

/// What was found wrong at a place of a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Damage {
    /// The format number does not come first.
    NoFormat,
    /// The file ends in the middle.
    CutShort,
    /// More text follows the end of the session.
    TextAfterEnd,
    /// A field this version does not know; carries its name. A newer version
    /// may have written it.
    UnknownField(String),
    /// A field is missing; carries its name.
    MissingField(&'static str),
    /// A field stands twice; carries its name.
    RepeatedField(&'static str),
    /// A length that cannot be read: the text found and what is wrong with it.
    Length(String, LengthProblem),
    /// A length that names no unit; carries the text found.
    LengthWithoutUnit(String),
    /// A whole number was expected.
    Number,
    /// A text in quotes was expected.
    Text,
    /// A text holds a backslash that means nothing.
    Escape,
    /// `true` or `false` was expected.
    TrueOrFalse,
    /// `in` or `mm` was expected; carries the text found.
    Unit(String),
    /// A date was expected; carries the text found.
    Date(String),
    /// One of the names that the field may hold was expected; carries the text
    /// found. A newer version may have written it.
    Name(String),
    /// The name of a step or stage of the visit was expected; carries the text
    /// found. A newer version may have written it.
    Step(String),
    /// A comma was expected.
    Comma,
    /// A list in square brackets was expected.
    List,
    /// A group of fields in round brackets was expected.
    Fields,
    /// Brackets inside brackets without end.
    TooDeep,
    /// Anything else that does not follow the rules of the format.
    Syntax,
}

/// The place and kind of an error of the reader.
pub(super) fn damage(text: &str, error: SpannedError) -> (TextPlace, Damage) {
    let SpannedError { code, span } = error;
    // The reader sometimes stops before the blanks in front of the culprit.
    let place = TextPlace {
        line: span.start.line,
        column: span.start.col,
    }
    .of_next_word(text);
    let ended = TextPlace::after(text.trim_end());
    let at_end = (place.line, place.column) >= (ended.line, ended.column);
    let damage = match code {
        Error::NoSuchEnumVariant {
            found, expected, ..
        } if Expected::of(expected).is_some() => wrong_text(found, expected),
        Error::NoSuchStructField { found, .. } => Damage::UnknownField(found),
        Error::MissingStructField { field, .. } => Damage::MissingField(field),
        Error::DuplicateStructField { field, .. } => Damage::RepeatedField(field),
        Error::TrailingCharacters => Damage::TextAfterEnd,
        Error::ExceededRecursionLimit => Damage::TooDeep,
        Error::ExpectedStringEnd | Error::Eof => Damage::CutShort,
        _ if at_end => Damage::CutShort,
        Error::ExpectedInteger
        | Error::IntegerOutOfBounds
        | Error::InvalidIntegerDigit { .. }
        | Error::UnderscoreAtBeginning => Damage::Number,
        Error::ExpectedString => Damage::Text,
        Error::InvalidEscape(_) => Damage::Escape,
        Error::ExpectedBoolean => Damage::TrueOrFalse,
        Error::ExpectedComma | Error::ExpectedArrayEnd | Error::ExpectedStructLikeEnd => {
            Damage::Comma
        }
        Error::ExpectedArray => Damage::List,
        Error::ExpectedStructLike | Error::ExpectedNamedStructLike(_) => Damage::Fields,
        _ => Damage::Syntax,
    };
    (place, damage)
}

/// What is wrong with a text that was to be something else.
fn wrong_text(found: String, list: &[&str]) -> Damage {
    match Expected::of(list) {
        Some(Expected::Length) => wrong_length(found, Sign::None),
        Some(Expected::Move) => wrong_length(found, Sign::Either),
        Some(Expected::Unit) => Damage::Unit(found),
        Some(Expected::Date) => Damage::Date(found),
        Some(Expected::Name) => Damage::Name(found),
        Some(Expected::Step) => Damage::Step(found),
        None => Damage::Syntax,
    }
}

fn wrong_length(found: String, sign: Sign) -> Damage {
    match TypedLength::from_file(&found, sign) {
        Err(LengthFault::Unreadable(problem)) => Damage::Length(found, problem),
        Err(LengthFault::NoUnit) => Damage::LengthWithoutUnit(found),
        Ok(_) => Damage::Syntax,
    }
}
