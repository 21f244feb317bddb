//! Where text commands write, and in which language.

use std::borrow::Cow;
use std::io::{ErrorKind, Write};

use crate::words::Language;

/// Where a text command writes.
pub struct Console<'a> {
    /// Language of every sentence.
    pub language: Language,
    out: &'a mut dyn Write,
    err: &'a mut dyn Write,
    whole: bool,
    deserted: bool,
}

impl<'a> Console<'a> {
    /// Writes answers to `out` and complaints to `err`.
    pub fn new(language: Language, out: &'a mut dyn Write, err: &'a mut dyn Write) -> Self {
        Self {
            language,
            out,
            err,
            whole: true,
            deserted: false,
        }
    }

    /// Writes a line, or several, of the answer.
    pub(super) fn say(&mut self, text: &str) {
        let text = shown(text);
        let written = writeln!(self.out, "{text}").and_then(|()| self.out.flush());
        match written {
            // Whoever read the answer has seen enough: nothing is amiss.
            Err(error) if error.kind() == ErrorKind::BrokenPipe => self.deserted = true,
            Err(error) => {
                if self.whole {
                    let why = self.language.disk_refusal(error.into());
                    self.complain(&self.language.cli_not_written(why));
                }
                self.whole = false;
            }
            Ok(()) => {}
        }
    }

    /// Writes a sentence about something that went wrong.
    pub(super) fn complain(&mut self, sentence: &str) {
        // There is nobody left to tell when this fails.
        let _ = writeln!(self.err, "{}", shown(sentence));
    }

    /// Whether whoever read the answer has gone: further lines reach nobody.
    pub(super) fn is_deserted(&self) -> bool {
        self.deserted
    }

    /// Whether the whole answer was written, as far as anybody read it.
    pub(super) fn is_whole(&self) -> bool {
        self.whole
    }
}

/// A blank that no line of the window is broken at; in a terminal, and for
/// whoever searches its text, one like all others.
const NO_BREAK: char = '\u{a0}';

/// A text with what a terminal would obey rather than show (control characters,
/// and those that turn the direction of writing) written out as `\u001b`, which
/// within JSON is the same character.
fn shown(text: &str) -> Cow<'_, str> {
    let obeyed = |c: char| {
        c.is_control() && !matches!(c, '\n' | '\t')
            || matches!(c, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
    };
    let other = |c: char| obeyed(c) || c == NO_BREAK;
    if !text.contains(other) {
        return Cow::Borrowed(text);
    }
    let mut shown = String::with_capacity(text.len() + 8);
    for c in text.chars() {
        if c == NO_BREAK {
            shown.push(' ');
        } else if obeyed(c) {
            shown.push_str(&format!("\\u{:04x}", u32::from(c)));
        } else {
            shown.push(c);
        }
    }
    Cow::Owned(shown)
}

#[cfg(test)]
mod tests {
    use super::shown;

    #[test]
    fn a_terminal_is_told_nothing_it_would_obey() {
        // ECMA-48: ESC and the C1 controls begin sequences; Unicode TR 9: U+202E
        // turns the direction of writing.
        assert_eq!(
            shown("Press \u{1b}[2J\u{9b}5m\u{202e}4"),
            "Press \\u001b[2J\\u009b5m\\u202e4"
        );
        assert_eq!(shown("añadir\n\t0.003″"), "añadir\n\t0.003″");
        let json = shown("{\"file\":\"\u{9b}\"}").into_owned();
        let read: serde_json::Value = serde_json::from_str(&json).unwrap();
        assert_eq!(read["file"], "\u{9b}");
    }
}
