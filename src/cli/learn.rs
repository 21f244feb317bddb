//! `learn`: writes what a session taught into a press file.

use std::path::{Path, PathBuf};

use crate::store;
use crate::units::Unit;
use crate::words::Figures;

use super::options::{OptionProblem, options};
use super::sentences::option_problem;
use super::{Console, Done};

options! {
    /// Options of `learn`.
    LearnOptions(file: Option<PathBuf>) {
        press: Text = "--press",
    }
}

/// Learns from the session.
pub(super) fn run(options: &LearnOptions, console: &mut Console<'_>) -> Done {
    let words = console.language;
    let problem = |problem| option_problem(words, &problem);
    let path = options.file.as_deref();
    let path = path.ok_or_else(|| problem(OptionProblem::NoFile))?;
    let press = options.press.as_deref().map(Path::new);
    let press = press.ok_or_else(|| problem(OptionProblem::Needed("--press")))?;
    let figures = Figures::exact(words, Unit::Inch);
    let opened = store::open(path).map_err(|problem| figures.open_problem(&problem, path))?;
    if store::holds_comments(press) {
        let sentence = words.comments_not_kept().to_owned();
        console.complain(&words.with_path(sentence, press.display()));
    }
    let lesson = store::teach(press, &opened.session)
        .map_err(|problem| figures.teach_problem(&problem, press))?;
    console.say(&words.with_path(words.lesson(lesson).to_owned(), press.display()));
    Ok(true)
}
