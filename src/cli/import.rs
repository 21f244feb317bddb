//! `import`: adds a pass to a session file from a CSV file of readings.

use std::path::Path;

use crate::session::Session;
use crate::store::{self, CsvFound, CsvProblem, CsvReading, MOST_PROBLEMS};
use crate::words::Figures;

use super::figures::figures_of;
use super::new_pass::PassOptions;
use super::options::{OptionProblem, options};
use super::sentences::option_problem;
use super::{Console, Done};

options! {
    /// Options of `import`.
    ImportOptions(to: PassOptions) {
        /// The CSV file of readings.
        csv: Text = "--csv",
    }
}

/// Imports the pass.
pub(super) fn run(options: &ImportOptions, console: &mut Console<'_>) -> Done {
    let words = console.language;
    let (path, opened) = options.to.open(console)?;
    let csv = options.csv.as_deref().map(Path::new);
    let csv = csv.ok_or_else(|| option_problem(words, &OptionProblem::Needed("--csv")))?;
    let session = opened.session;
    let found = found_in(csv, &session, &figures_of(&session, words))?;
    let mut notes = words.csv_notes(&found);
    let rows = found.rows;
    let unread = session
        .stations
        .iter()
        .enumerate()
        .filter(|(station, _)| rows.get(*station).is_none_or(Vec::is_empty))
        .map(|(station, _)| session.station_name(station))
        .collect::<Vec<_>>();
    let done = options
        .to
        .add_pass(path, session, opened.fingerprint, rows, console)?;
    if !unread.is_empty() {
        notes.push(words.csv_not_read(unread.join(", ")));
    }
    for note in notes {
        console.complain(&note);
    }
    Ok(done)
}

/// What is in the file, or every place that is wrong, a line each.
fn found_in(csv: &Path, session: &Session, figures: &Figures) -> Result<CsvFound, String> {
    let words = figures.language;
    let text = store::read_readings_file(csv)
        .map_err(|problem| words.with_path(words.readings_file_problem(problem), csv.display()))?;
    let stations: Vec<String> = (0..session.stations.len())
        .map(|station| session.station_name(station))
        .collect();
    let reading = CsvReading {
        stations: &stations,
        bare: session.unit,
        columns: None,
        has_header: true,
    };
    let wrong = |sentences: Vec<String>| {
        let mut lines = vec![words.csv_nothing_imported(csv.display())];
        lines.extend(sentences);
        lines.join("\n")
    };
    let found = store::readings_from_csv(&text, &reading).map_err(|problem| {
        let mut sentences = figures.csv_sentences(&problem, session.unit);
        if matches!(&problem, CsvProblem::Cells(places) if places.len() == MOST_PROBLEMS) {
            sentences.push(words.csv_and_more().to_owned());
        }
        wrong(sentences)
    })?;
    if found.rows.iter().all(Vec::is_empty) {
        return Err(wrong(vec![words.csv_no_reading().to_owned()]));
    }
    Ok(found)
}
