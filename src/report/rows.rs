//! A session's readings as tidy rows, one a reading, for spreadsheets and
//! query engines: every row says all of itself, units stand in the names of
//! the columns.

use crate::press::{ArmIndex, Notches};
use crate::session::Session;
use crate::splice::Cell;
use crate::units::{Length, Rounding, TypedLength, Unit, decimal_text};

/// The columns, in order. What each holds is told in the README.
pub const COLUMNS: [&str; 31] = [
    "file",
    "session",
    "made_up",
    "press",
    "arms",
    "jaw_length_mm",
    "visit",
    "who",
    "belt",
    "hooks",
    "gauge",
    "gauge_step_mm",
    "tolerance_mm",
    "pass",
    "passes",
    "laced",
    "station",
    "station_mm",
    "station_counts",
    "arm",
    "nut_notches",
    "turned_notches",
    "reading",
    "typed",
    "thickness_mm",
    "thickness_in",
    "counts",
    "state",
    "doubtful",
    "remark",
    "pass_note",
];

/// What stands in a column.
#[derive(Debug, Clone, PartialEq)]
pub enum Field {
    /// Nothing is known.
    Nothing,
    /// Words.
    Text(String),
    /// A number, written out in decimals.
    Number(String),
    /// Yes or no.
    Yes(bool),
}

/// One row: a field for each of the [`COLUMNS`].
pub type ReadingRow = Vec<Field>;

/// Every reading of a session, struck and unreadable ones too. A session
/// without a reading has none. The file's name tells copies of one session
/// apart.
pub fn reading_rows(session: &Session, file: &str) -> Vec<ReadingRow> {
    let mut rows = Vec::new();
    for (number, pass) in session.passes.iter().enumerate() {
        let gate = session.gate(number);
        let turned = session.turns_before(number);
        for (station, cells) in pass.rows.iter().enumerate() {
            for (repeat, cell) in cells.iter().enumerate() {
                if matches!(cell, Cell::Empty) {
                    continue;
                }
                let doubtful = gate.doubt_at(station, repeat).is_some();
                let place = (number, station, repeat);
                let mut fields = vec![text(file)];
                fields.extend(row(session, place, cell, &turned, doubtful));
                rows.push(fields);
            }
        }
    }
    rows
}

fn row(
    session: &Session,
    (number, station, repeat): (usize, usize, usize),
    cell: &Cell,
    turned: &[Notches],
    doubtful: bool,
) -> ReadingRow {
    let notes = &session.notes;
    let at = session.stations.get(station);
    let arm = at.and_then(|at| at.arm());
    let pass = session.passes.get(number);
    let nuts = session.nuts_at(number);
    let [position, turn] = [
        arm.and_then(|arm| nuts.get(arm.0)).map(|nut| nut.0),
        arm.and_then(|arm| turned.get(arm.0)).map(|nut| nut.0),
    ]
    .map(|nut| nut.map_or(Field::Nothing, |nut| Field::Number(nut.to_string())));
    let reading = cell.reading();
    let thickness = |unit, decimals| {
        reading.map_or(Field::Nothing, |reading| {
            length_in(reading.typed.length(), unit, decimals)
        })
    };
    let (state, remark) = match cell {
        Cell::Empty => ("", String::new()),
        Cell::Unreadable(_) => ("unreadable", String::new()),
        Cell::Reading(reading) => match (&reading.struck, &reading.kept) {
            (Some(struck), _) => ("struck", struck.why.clone()),
            (None, Some(_)) => ("kept", String::new()),
            (None, None) => ("read", String::new()),
        },
    };
    let counts = at.is_some_and(|at| at.counts) && cell.counting().is_some();
    let station_mm = at.map_or(Field::Nothing, |at| mm(at.position(&session.press)));
    vec![
        text(&session.id),
        Field::Yes(session.invented),
        text(&session.press.name),
        whole(session.press.arms.len()),
        typed_mm(&session.press.jaw_length),
        text(&notes.when),
        text(&notes.who),
        text(&notes.belt),
        text(&notes.hooks),
        text(&session.gauge.name),
        typed_mm(&session.gauge.step),
        typed_mm(&session.tolerance),
        whole(number + 1),
        whole(session.passes.len()),
        text(pass.map_or("", |pass| &pass.laced)),
        text(&session.station_name(station)),
        station_mm,
        Field::Yes(at.is_some_and(|at| at.counts)),
        arm.map_or(Field::Nothing, |arm: ArmIndex| text(&arm.to_string())),
        position,
        turn,
        whole(repeat + 1),
        text(reading.map_or(cell.text(), |reading| reading.typed.text())),
        thickness(Unit::Millimetre, 6),
        thickness(Unit::Inch, 8),
        Field::Yes(counts),
        text(state),
        Field::Yes(doubtful),
        text(&remark),
        text(pass.map_or("", |pass| &pass.note)),
    ]
}

fn text(text: &str) -> Field {
    match text {
        "" => Field::Nothing,
        text => Field::Text(text.to_owned()),
    }
}

fn whole(number: usize) -> Field {
    Field::Number(number.to_string())
}

fn typed_mm(typed: &TypedLength) -> Field {
    mm(typed.length())
}

/// Six decimals of a millimetre are whole nanometres: exact.
fn mm(length: Length) -> Field {
    length_in(length, Unit::Millimetre, 6)
}

fn length_in(length: Length, unit: Unit, decimals: u32) -> Field {
    let digits = decimal_text(length, unit, decimals, Rounding::Nearest);
    let short = match digits.contains('.') {
        true => digits.trim_end_matches('0').trim_end_matches('.'),
        false => &digits,
    };
    Field::Number(short.to_owned())
}

/// A row of CSV (RFC 4180), without its end of line. A text that a spreadsheet
/// would take for a formula gets a `'` before it.
pub fn csv_line(fields: &[Field]) -> String {
    let cells: Vec<String> = fields
        .iter()
        .map(|field| match field {
            Field::Nothing => String::new(),
            Field::Number(digits) => digits.clone(),
            Field::Yes(yes) => yes.to_string(),
            Field::Text(text) => quoted(&harmless(text)),
        })
        .collect();
    cells.join(",")
}

/// The line of CSV that names the columns.
pub fn csv_heads() -> String {
    csv_line(&COLUMNS.map(|column| Field::Text(column.to_owned())))
}

/// Spreadsheets run what begins with one of these, blanks before it or not.
fn harmless(text: &str) -> String {
    let begins = text.trim_start().chars().next();
    let runs =
        matches!(begins, Some('=' | '+' | '-' | '@')) || text.starts_with(['\t', '\r', '\n']);
    match runs {
        true => format!("'{text}"),
        false => text.to_owned(),
    }
}

fn quoted(text: &str) -> String {
    if text.contains([',', '"', '\n', '\r']) || text.trim() != text {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text.to_owned()
    }
}
