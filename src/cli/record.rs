//! `record`: adds a pass to a session file.

use crate::press::LengthQuantity;
use crate::session::Session;
use crate::units::{Sign, TypedLength};
use crate::words::Figures;

use super::figures::figures_of;
use super::new_pass::PassOptions;
use super::options::{OptionProblem, options};
use super::sentences::option_problem;
use super::{Console, Done};

options! {
    /// Options of `record`.
    RecordOptions(to: PassOptions) {
        readings: Text = "--readings",
    }
}

/// Records the pass.
pub(super) fn run(options: &RecordOptions, console: &mut Console<'_>) -> Done {
    let words = console.language;
    let (path, opened) = options.to.open(console)?;
    let readings = options.readings.as_deref();
    let readings =
        readings.ok_or_else(|| option_problem(words, &OptionProblem::Needed("--readings")))?;
    let session = opened.session;
    let figures = figures_of(&session, words);
    let rows = rows(readings, &session, &figures)?;
    if rows.iter().all(Vec::is_empty) {
        return Err(words.cli_no_reading().to_owned());
    }
    options
        .to
        .add_pass(path, session, opened.fingerprint, rows, console)
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
