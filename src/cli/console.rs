//! Where text commands write, and in which language.

use std::io::{ErrorKind, Write};

use crate::words::Language;

/// Where a text command writes.
pub struct Console<'a> {
    /// Language of every sentence.
    pub language: Language,
    out: &'a mut dyn Write,
    err: &'a mut dyn Write,
    whole: bool,
}

impl<'a> Console<'a> {
    /// Writes answers to `out` and complaints to `err`.
    pub fn new(language: Language, out: &'a mut dyn Write, err: &'a mut dyn Write) -> Self {
        Self {
            language,
            out,
            err,
            whole: true,
        }
    }

    /// Writes a line, or several, of the answer.
    pub(super) fn say(&mut self, text: &str) {
        let written = writeln!(self.out, "{text}").and_then(|()| self.out.flush());
        match written {
            // Whoever read the answer has seen enough: nothing is amiss.
            Err(error) if error.kind() == ErrorKind::BrokenPipe => {}
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
        let _ = writeln!(self.err, "{sentence}");
    }

    /// Whether the whole answer was written, as far as anybody read it.
    pub(super) fn is_whole(&self) -> bool {
        self.whole
    }
}

/// The language that the system's settings ask for: the first of `LC_ALL`,
/// `LC_MESSAGES` and `LANG` that is set, as POSIX has it.
pub fn language_of_system(variable: impl Fn(&str) -> Option<String>) -> Language {
    ["LC_ALL", "LC_MESSAGES", "LANG"]
        .into_iter()
        .filter_map(variable)
        .find(|value| !value.is_empty())
        .map_or_else(Language::default, |locale| Language::from_locale(&locale))
}
