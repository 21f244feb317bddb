//! `record`: adds a pass to a session file.

use std::path::Path;

use crate::press::LengthQuantity;
use crate::session::Session;
use crate::store;
use crate::units::{Sign, TypedLength, Unit};
use crate::words::Figures;

use super::Console;
use super::figures::figures_of;
use super::new_pass::{NewPass, add_pass};
use super::options::{OptionProblem, RecordOptions};
use super::sentences::option_problem;

/// Records the pass. Answers whether it was done.
pub(super) fn run(options: &RecordOptions, console: &mut Console<'_>) -> bool {
    match record(options, console) {
        Ok(()) => true,
        Err(sentence) => {
            console.complain(&sentence);
            false
        }
    }
}

fn record(options: &RecordOptions, console: &mut Console<'_>) -> Result<(), String> {
    let words = console.language;
    let option_problem = |problem: OptionProblem| option_problem(words, &problem);
    let path: &Path = options
        .file
        .as_deref()
        .ok_or_else(|| option_problem(OptionProblem::NoFile))?;
    let readings = options
        .readings
        .as_deref()
        .ok_or_else(|| option_problem(OptionProblem::Needed("--readings")))?;
    let opened = store::open(path)
        .map_err(|problem| Figures::exact(words, Unit::Inch).open_problem(&problem, path))?;
    if opened.comments {
        console.complain(&words.with_path(words.comments_not_kept().to_owned(), path.display()));
    }
    let session = opened.session;
    let figures = figures_of(&session, words);
    let rows = rows(readings, &session, &figures)?;
    if rows.iter().all(Vec::is_empty) {
        return Err(words.cli_no_reading().to_owned());
    }
    let pass = NewPass {
        rows,
        turned: options.turned.as_deref(),
        laced: options.laced.as_deref(),
        note: options.note.as_deref(),
    };
    add_pass(path, session, opened.fingerprint, pass, console)
}

/// The cells of the readings: commas part stations, blanks part repeats.
fn rows(found: &str, session: &Session, figures: &Figures) -> Result<Vec<Vec<String>>, String> {
    let words = figures.language;
    let rows: Vec<Vec<String>> = found
        .split(',')
        .map(|row| row.split_whitespace().map(str::to_owned).collect())
        .collect();
    let stations = session.stations.len();
    if rows.len() != stations {
        let names: Vec<String> = (0..stations)
            .map(|station| session.station_name(station))
            .collect();
        return Err(words.cli_wrong_stations(stations, names.join(", "), rows.len()));
    }
    for (station, row) in rows.iter().enumerate() {
        for (text, number) in row.iter().zip(1..) {
            let place = words.cli_reading_place(session.station_name(station), number);
            let typed = TypedLength::parse(text, session.unit, Sign::None)
                .map_err(|problem| words.length_problem(&place, &problem, session.unit))?;
            LengthQuantity::Reading
                .check(typed.length())
                .map_err(|problem| figures.reading_refused(&place, problem.found))?;
        }
    }
    Ok(rows)
}
