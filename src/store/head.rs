//! Reads the format number at the head of a file before anything else of it,
//! so that a file of a newer format is known for what it is.

/// What the head of a text says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Head {
    /// Nothing but blanks and comments.
    Empty,
    /// It begins like no session at all.
    OtherKind,
    /// It begins like a session but the format number is not where it belongs;
    /// the byte at which something else stands.
    NoFormat(usize),
    /// The format number; the largest number for one too long to hold.
    Format(u64),
}

/// Reads `(format: 1` off the head of a text, or the number after another word.
pub(super) fn read_head(text: &str, word: &str) -> Head {
    let rest = skip_blanks(text);
    if rest.is_empty() {
        return Head::Empty;
    }
    let Some(rest) = rest.strip_prefix('(') else {
        return Head::OtherKind;
    };
    let rest = skip_blanks(rest);
    let no_format = Head::NoFormat(text.len() - rest.len());
    let Some(rest) = rest.strip_prefix(word).map(skip_blanks) else {
        return no_format;
    };
    let Some(rest) = rest.strip_prefix(':').map(skip_blanks) else {
        return no_format;
    };
    let digits = rest
        .find(|c: char| !c.is_ascii_digit())
        .map_or(rest, |end| rest.get(..end).unwrap_or_default());
    if digits.is_empty() {
        return no_format;
    }
    Head::Format(digits.parse().unwrap_or(u64::MAX))
}

/// The word before the format number of a session file.
pub(super) const SESSION: &str = "format";
/// That of a press file.
pub(super) const PRESS: &str = "press_format";
/// That of a practice file.
pub(super) const PRACTICE: &str = "lesson_format";
/// That of a shop's upkeep.
pub(super) const UPKEEP: &str = "upkeep_format";

/// Which kind of this program's files stands where another was expected.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Instead {
    /// A session.
    Session,
    /// A press file.
    Press,
    /// A practice file.
    Practice,
    /// None of them.
    Other,
}

impl Instead {
    /// The kind of a file, by the head of its text.
    pub(super) fn of(text: &str) -> Self {
        if begins_as(text, PRESS) {
            Self::Press
        } else if begins_as(text, PRACTICE) {
            Self::Practice
        } else if matches!(read_head(text, SESSION), Head::Format(_)) {
            Self::Session
        } else {
            Self::Other
        }
    }
}

/// Whether a text begins as a file of a kind does, though the number may be
/// wrong.
fn begins_as(text: &str, word: &str) -> bool {
    let rest = skip_blanks(text);
    let rest = rest.strip_prefix('(').map_or(rest, skip_blanks);
    rest.starts_with(word)
}

/// What follows the blanks and comments at the head of a text.
fn skip_blanks(text: &str) -> &str {
    let mut rest = text;
    loop {
        let trimmed = rest.trim_start();
        rest = if let Some(comment) = trimmed.strip_prefix("//") {
            comment.split_once('\n').map_or("", |(_, after)| after)
        } else if let Some(comment) = trimmed.strip_prefix("/*") {
            comment.split_once("*/").map_or("", |(_, after)| after)
        } else {
            return trimmed;
        };
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_the_format_number() {
        for (text, head) in [
            ("", Head::Empty),
            (" \n\t// nothing\n", Head::Empty),
            ("(format: 1, x)", Head::Format(1)),
            ("// ours\n/* own */ (\n  format : 27", Head::Format(27)),
            ("(format: 99999999999999999999999)", Head::Format(u64::MAX)),
            ("(\n  unit: \"in\")", Head::NoFormat(4)),
            ("(format 1)", Head::NoFormat(1)),
            ("(format: one)", Head::NoFormat(1)),
            ("arm,reading", Head::OtherKind),
            ("{}", Head::OtherKind),
        ] {
            assert_eq!(read_head(text, "format"), head, "{text:?}");
        }
    }
}
