//! Runs a command over many files on all cores and writes the answers in the
//! order of the arguments.

use std::path::{Path, PathBuf};

use serde_json::{Value, json};

use crate::session::Session;
use crate::store;
use crate::units::Unit;
use crate::words::{Figures, Language};

use super::Console;
use super::options::options;

options! {
    /// Options of commands that read many files.
    FilesOptions(files: Vec<PathBuf>) {
        json: Flag = "--json",
        /// Confidence of verdicts and plans; none for the session's own.
        confidence: Confidence = "--confidence",
    }
}

/// The answer about one file, or a sentence on why there is none.
pub(super) type Answer = Result<String, String>;

/// Answers about every file with `answer`. Answers itself whether none failed.
pub(super) fn over_files(
    options: &FilesOptions,
    console: &mut Console<'_>,
    answer: impl Fn(&str, &Session) -> Answer + Sync,
) -> bool {
    let language = console.language;
    let mut all_done = true;
    store::in_order(
        &options.files,
        |file| about(file, language, &answer),
        |index, (file, answer): (String, Answer)| {
            match answer {
                Ok(text) => {
                    if index > 0 && !options.json {
                        console.say("");
                    }
                    console.say(&text);
                }
                Err(sentence) => {
                    all_done = false;
                    if options.json {
                        console.say(&unread_line(&file, &sentence));
                    }
                    console.complain(&language.with_path(sentence, file));
                }
            }
            !console.is_deserted()
        },
    );
    all_done
}

/// The line about a file that was not read, and why.
pub(super) fn unread_line(file: &str, error: &str) -> String {
    json!({ "file": file, "error": error }).to_string()
}

/// An object without those of its optional parts that say nothing: a null or an
/// empty list.
pub(super) fn without_nothing(mut object: Value, optional: &[&str]) -> Value {
    if let Value::Object(parts) = &mut object {
        let says_nothing =
            |value: &Value| value.is_null() || value.as_array().is_some_and(Vec::is_empty);
        parts.retain(|part, value| !(optional.contains(&part.as_str()) && says_nothing(value)));
    }
    object
}

fn about(
    file: &Path,
    language: Language,
    answer: &impl Fn(&str, &Session) -> Answer,
) -> (String, Answer) {
    let name = file.to_string_lossy().into_owned();
    let answer = match store::open(file) {
        Ok(opened) => answer(&name, &opened.session),
        Err(problem) => Err(Figures::exact(language, Unit::Inch).why_not_opened(&problem)),
    };
    (name, answer)
}
