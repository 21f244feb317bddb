//! `learn`: writes what a session taught into a press file.

use std::path::Path;

use crate::session::PressRecord;
use crate::store::{self, DiskProblem, Expected, OpenProblem};
use crate::units::Unit;
use crate::words::Figures;

use super::Console;
use super::options::{LearnOptions, OptionProblem};
use super::sentences::option_problem;

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
    let (mut record, expected) = match store::open_press(press) {
        Ok(opened) => (opened.record, Expected::Unchanged(opened.fingerprint)),
        Err(OpenProblem::Disk(DiskProblem::Missing)) => {
            let mut fresh = PressRecord::of(&session);
            fresh.visits.retain(|visit| visit.session != session.id);
            (fresh, Expected::Nothing)
        }
        Err(problem) => return Err(figures.open_problem(&problem, press)),
    };
    let lesson = record.learn(&session).map_err(|problem| {
        words.with_path(words.learn_problem(problem).to_owned(), press.display())
    })?;
    store::save_press(press, &record, expected)
        .map_err(|problem| figures.save_problem(&problem, press))?;
    Ok(words.with_path(words.lesson(lesson).to_owned(), press.display()))
}
