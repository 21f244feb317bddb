//! `learn`: writes what a session taught into a press file.

use std::path::{Path, PathBuf};

use crate::store;
use crate::units::Unit;
use crate::words::Figures;

use super::Console;
use super::options::{Files, OptionProblem, Options, Slot};
use super::sentences::option_problem;

/// Options of `learn`.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct LearnOptions {
    file: Option<PathBuf>,
    press: Option<String>,
}

impl Options for LearnOptions {
    fn files(&mut self) -> Files<'_> {
        Files::One(&mut self.file)
    }

    fn slot(&mut self, option: &str) -> Option<Slot<'_>> {
        Some(match option {
            "--press" => Slot::Text(&mut self.press),
            _ => return None,
        })
    }
}

/// Learns from the session. Answers whether it was done.
pub(super) fn run(options: &LearnOptions, console: &mut Console<'_>) -> bool {
    let words = console.language;
    let (Some(session), Some(press)) = (&options.file, &options.press) else {
        let problem = match options.file {
            None => OptionProblem::NoFile,
            Some(_) => OptionProblem::Needed("--press"),
        };
        console.complain(&option_problem(words, &problem));
        return false;
    };
    match learn(session, Path::new(press), console) {
        Ok(said) => {
            console.say(&said);
            true
        }
        Err(sentence) => {
            console.complain(&sentence);
            false
        }
    }
}

fn learn(session: &Path, press: &Path, console: &Console<'_>) -> Result<String, String> {
    let words = console.language;
    let figures = Figures::exact(words, Unit::Inch);
    let session = store::open(session)
        .map_err(|problem| figures.open_problem(&problem, session))?
        .session;
    let lesson =
        store::teach(press, &session).map_err(|problem| figures.teach_problem(&problem, press))?;
    Ok(words.with_path(words.lesson(lesson).to_owned(), press.display()))
}
