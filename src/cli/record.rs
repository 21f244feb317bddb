//! `record`: adds a pass to a session file.

use std::path::Path;

use crate::press::LengthQuantity;
use crate::session::{Edit, Session};
use crate::store::{self, Expected};
use crate::units::{Sign, TypedLength, Unit};
use crate::words::Figures;

use super::Console;
use super::figures::figures_of;
use super::judge::verdict;
use super::options::{OptionProblem, RecordOptions, notches_per_arm};
use super::sentences::option_problem;
use super::table::outside_limits;

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
    let session = opened.session;
    let figures = figures_of(&session, words);
    let rows = rows(readings, &session, &figures)?;
    let turns = match &options.turned {
        Some(found) => {
            notches_per_arm("--turned", found, session.press.arms.len()).map_err(option_problem)?
        }
        None => Vec::new(),
    };
    let pass = session.passes.len();
    let note = options.note.as_ref().map(|note| Edit::SetPassText {
        pass,
        note: true,
        text: note.clone(),
    });
    let edits = [
        Edit::AddPass {
            turns,
            laced: options.laced.clone().unwrap_or_else(store::today),
        },
        Edit::Fill {
            pass,
            station: 0,
            repeat: 0,
            rows,
            bare: session.unit,
        },
    ];
    let recorded = edits
        .iter()
        .chain(&note)
        .try_fold(session, |session, edit| session.edited(edit))
        .map_err(|problem| figures.edit_problem(&problem))?;
    store::save(path, &recorded, Expected::Unchanged(opened.fingerprint))
        .map_err(|problem| figures.save_problem(&problem, path))?;
    console.say(&words.cli_recorded(pass + 1, path.display()));
    if let Ok(judged) = recorded.judged(pass) {
        console.say(&verdict(&recorded, &judged, &figures));
    }
    for (station, repeat, other) in recorded.slipped_units(pass) {
        let place = words.cli_reading_place(recorded.station_name(station), repeat + 1);
        let unit = words.unit_name(other.unit());
        console.complain(&words.looks_like_unit(place, unit));
    }
    outside_limits(&recorded, recorded.nuts_now(), console);
    Ok(())
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
