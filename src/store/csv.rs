//! Readings from a CSV file: all of them, or none and every place that is
//! wrong.

use csv::{ReaderBuilder, StringRecord, Trim};

use crate::press::{CountQuantity, LengthQuantity};
use crate::units::{Length, LengthProblem, Sign, TypedLength, Unit};

use super::csv_columns::{MOST_NAME_BYTES, READING, ROUND, STATION, UNIT, means};
use super::{
    CsvCellProblem, CsvCellWrong, CsvColumns, CsvFound, CsvProblem, CsvReading, MOST_PROBLEMS,
    decimal_commas, plain_lines,
};

/// Letters of a field or a header that a report holds.
const MOST_LETTERS: usize = 60;
/// Reads a CSV text into texts for the cells of the readings grid: a row per
/// station, its readings in the order of the file. They fit
/// [`Edit::Fill`](crate::session::Edit::Fill) at station 0 and repeat 0.
///
/// Columns are parted by commas, semicolons or tabs, whichever the first line
/// has (semicolons before tabs before commas); fields may be quoted. The
/// header is `arm,reading[,unit]` in any order, with further columns of
/// readings and with other columns left out, or the names of stations, or it
/// does not matter because the columns are mapped by hand. Blank lines and, by
/// columns, empty fields are passed over. Decimal commas between columns parted
/// by commas are read where the shape of every row proves them
/// ([`CsvFound::decimal_comma`]) and refused where they are only likely.
///
/// # Errors
/// See [`CsvProblem`]; then nothing was read.
pub fn readings_from_csv(text: &str, reading: &CsvReading<'_>) -> Result<CsvFound, CsvProblem> {
    let Parted {
        mut records,
        by_commas,
    } = parted(text);
    if records.is_empty() {
        return Err(CsvProblem::Empty);
    }
    let (first, rest) = records.split_at_mut(1);
    let first = first.first().ok_or(CsvProblem::Empty)?;
    let takes_header = reading.columns.is_none() || reading.has_header;
    let header: Vec<&str> = if takes_header {
        first.fields.iter().collect()
    } else {
        Vec::new()
    };
    let mut table = Table {
        reading,
        header: &header,
        by_commas,
        stations: lower_case(reading.stations),
        rows: vec![Vec::new(); reading.stations.len()],
        problems: Vec::new(),
    };
    let columns = match &reading.columns {
        Some(columns) => {
            let widths = rest.iter().map(|record| record.fields.len());
            check_columns(columns, widths.chain([first.fields.len()]))?;
            columns.clone()
        }
        None => match table.columns_of_header(first) {
            Err(header) => return plain_lines::read(text, reading, header),
            Ok(columns) => columns,
        },
    };
    let fields = rest.iter_mut().map(|record| &mut record.fields);
    let readings = columns.readings().collect();
    let commas =
        by_commas && takes_header && decimal_commas::join(fields.collect(), header.len(), readings);
    let unnamed = (!takes_header).then_some(first);
    for record in unnamed.into_iter().chain(rest.iter()) {
        // The rest of a long file would say nothing new.
        if table.is_full() {
            break;
        }
        match &columns {
            CsvColumns::ByRow {
                station,
                readings,
                unit,
            } => table.take_row(record, *station, readings, *unit),
            CsvColumns::ByColumn(stations) => table.take_round(record, stations),
        }
    }
    if table.problems.is_empty() {
        let first_reading = columns.readings().next().zip(rest.first());
        let taken = columns.taken();
        let left_out = header.iter().enumerate().filter(|(column, name)| {
            !name.is_empty() && !taken.contains(column) && !means(&ROUND, name)
        });
        Ok(CsvFound {
            left_out: left_out.map(|(_, name)| (*name).to_owned()).collect(),
            decimal_comma: first_reading
                .filter(|_| commas)
                .and_then(|(column, record)| record.fields.get(column).map(str::to_owned)),
            rows: table.rows,
        })
    } else {
        Err(CsvProblem::Cells(table.problems))
    }
}

/// A line that is not blank, in fields.
pub(super) struct Record {
    pub line: u64,
    pub fields: StringRecord,
}

/// What the columns hold by the header.
pub(super) fn columns_found(
    records: &[Record],
    reading: &CsvReading<'_>,
) -> Result<CsvColumns, CsvProblem> {
    let first = records.first().ok_or(CsvProblem::Empty)?;
    let header: Vec<&str> = first.fields.iter().collect();
    let mut table = Table {
        reading,
        header: &header,
        by_commas: false,
        stations: lower_case(reading.stations),
        rows: Vec::new(),
        problems: Vec::new(),
    };
    table.columns_of_header(first)
}

/// The lines of a text in fields.
pub(super) struct Parted {
    /// Every line that is not blank.
    pub records: Vec<Record>,
    /// Whether commas part the fields.
    pub by_commas: bool,
}

/// Every line of a text that is not blank, in fields.
pub(super) fn parted(text: &str) -> Parted {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let first_line = text.lines().find(|line| !line.trim().is_empty());
    let has = |delimiter: char| first_line.is_some_and(|line| line.contains(delimiter));
    let delimiter = match (has(';'), has('\t')) {
        (true, _) => b';',
        (false, true) => b'\t',
        (false, false) => b',',
    };
    let mut reader = ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .trim(Trim::All)
        .delimiter(delimiter)
        .from_reader(text.as_bytes());
    // Reading text from memory cannot fail: it is UTF-8, and rows may be of
    // any length.
    let records = reader
        .records()
        .filter_map(Result::ok)
        .filter(|fields| fields.iter().any(|field| !field.is_empty()))
        .map(|fields| Record {
            line: fields.position().map_or(0, csv::Position::line),
            fields,
        })
        .collect();
    Parted {
        records,
        by_commas: delimiter == b',',
    }
}

fn check_columns(
    columns: &CsvColumns,
    widths: impl Iterator<Item = usize>,
) -> Result<(), CsvProblem> {
    let width = widths.max().unwrap_or(0);
    let highest = columns
        .readings()
        .max()
        .ok_or(CsvProblem::NoSuchColumn(0))?;
    let highest = match columns {
        CsvColumns::ByRow { station, unit, .. } => highest.max(*station).max(unit.unwrap_or(0)),
        CsvColumns::ByColumn(_) => highest,
    };
    if highest < width {
        Ok(())
    } else {
        Err(CsvProblem::NoSuchColumn(highest))
    }
}

struct Table<'a> {
    reading: &'a CsvReading<'a>,
    header: &'a [&'a str],
    by_commas: bool,
    /// The names of the stations in small letters.
    stations: Vec<String>,
    rows: Vec<Vec<String>>,
    problems: Vec<CsvCellProblem>,
}

impl Table<'_> {
    fn columns_of_header(&mut self, first: &Record) -> Result<CsvColumns, CsvProblem> {
        let names: Vec<String> = first.fields.iter().map(str::to_lowercase).collect();
        let columns = |of: &'static [&'static str]| {
            let all = names.iter().enumerate();
            all.filter(move |(_, name)| means(of, name))
                .map(|(column, _)| column)
        };
        let readings: Vec<usize> = columns(&READING).collect();
        if let (Some(station), false) = (columns(&STATION).next(), readings.is_empty()) {
            let unit = columns(&UNIT).next();
            return Ok(CsvColumns::ByRow {
                station,
                readings,
                unit,
            });
        }
        let mut stations = Vec::with_capacity(names.len());
        for (index, name) in names.iter().enumerate() {
            let station = self.station(name);
            if station.is_some() && stations.contains(&station) {
                self.report(
                    first,
                    index,
                    CsvCellWrong::SecondColumn(cut(name).to_uppercase()),
                );
            }
            if station.is_none() && looks_like_an_arm(name) {
                self.report(
                    first,
                    index,
                    CsvCellWrong::UnknownStation(name.to_uppercase()),
                );
            } else if station.is_none() && !name.is_empty() && !means(&ROUND, name) {
                return Err(CsvProblem::Header(owned(&first.fields)));
            }
            stations.push(station);
        }
        if stations.iter().all(Option::is_none) && self.problems.is_empty() {
            return Err(CsvProblem::Header(owned(&first.fields)));
        }
        Ok(CsvColumns::ByColumn(stations))
    }

    fn station(&self, name: &str) -> Option<usize> {
        let name = name.trim();
        // Of a page in one cell only so much is read that it is no name.
        let longest = self.stations.iter().map(|one| one.chars().count()).max();
        let begins = name.chars().take(longest.unwrap_or(0) + 1);
        let name: String = begins.flat_map(char::to_lowercase).collect();
        self.stations.iter().position(|station| *station == name)
    }

    /// The readings of one row.
    fn take_row(
        &mut self,
        record: &Record,
        station: usize,
        readings: &[usize],
        unit: Option<usize>,
    ) {
        self.report_beyond(record);
        let field = |column: usize| record.fields.get(column).unwrap_or_default();
        let name = field(station);
        let place = self.station(name);
        if name.is_empty() {
            self.report(record, station, CsvCellWrong::Missing);
        } else if place.is_none() {
            self.report(record, station, CsvCellWrong::UnknownStation(cut(name)));
        }
        let unit = unit.map(field).unwrap_or_default();
        // Of several columns the later ones may be empty, or not there.
        let needed = readings.first().copied();
        let there = |reading: &&usize| **reading < record.fields.len();
        let all_empty = readings
            .iter()
            .filter(there)
            .all(|&reading| field(reading).is_empty());
        let missing = needed.filter(|_| all_empty);
        for &reading in readings
            .iter()
            .filter(|reading| there(reading) || Some(**reading) == missing)
        {
            if self.is_full() {
                return;
            }
            let text = field(reading);
            if text.is_empty() && missing != Some(reading) {
                continue;
            }
            let text = self.length(record, reading, text, unit);
            if let (Some(place), Some(text)) = (place, text) {
                self.keep(record, reading, place, text);
            }
        }
    }

    /// One round of readings.
    fn take_round(&mut self, record: &Record, stations: &[Option<usize>]) {
        self.report_beyond(record);
        for (column, (text, station)) in record.fields.iter().zip(stations).enumerate() {
            if self.is_full() {
                return;
            }
            if let Some(station) = *station
                && !text.is_empty()
                && let Some(text) = self.length(record, column, text, "")
            {
                self.keep(record, column, station, text);
            }
        }
    }

    /// The cell's text, when it is a thickness.
    fn length(
        &mut self,
        record: &Record,
        column: usize,
        field: &str,
        unit: &str,
    ) -> Option<String> {
        if field.is_empty() {
            self.report(record, column, CsvCellWrong::Missing);
            return None;
        }
        let next = record.fields.get(column + 1).unwrap_or_default();
        let named = self.header.get(column + 1).copied().unwrap_or_default();
        let counts = means(&ROUND, named) || means(&STATION, named);
        if self.by_commas && !counts && decimal_commas::are_halves(field, next) {
            let found = format!("{},{}", cut(field), cut(next));
            self.report(record, column, CsvCellWrong::DecimalComma(found));
            return None;
        }
        let text = match with_unit(field, unit) {
            Ok(text) => text,
            Err(wrong) => {
                self.report(record, column, wrong);
                return None;
            }
        };
        let why = match TypedLength::parse(&text, self.reading.bare, Sign::None) {
            Ok(typed) => match LengthQuantity::Reading.check(typed.length()) {
                Ok(_) => return Some(typed.text().to_owned()),
                Err(problem) => CsvCellWrong::OutOfBounds(problem),
            },
            // The field is what is wrong, not the unit beside it.
            Err(LengthProblem::NotANumber(_)) => {
                CsvCellWrong::Length(LengthProblem::NotANumber(cut(field)))
            }
            Err(problem) => CsvCellWrong::Length(problem),
        };
        self.report(record, column, why);
        None
    }

    fn keep(&mut self, record: &Record, column: usize, station: usize, text: String) {
        let Some(row) = self.rows.get_mut(station) else {
            self.report(
                record,
                column,
                CsvCellWrong::UnknownStation(station.to_string()),
            );
            return;
        };
        if row.len() as i64 >= CountQuantity::Repeats.bounds().most {
            self.report(record, column, CsvCellWrong::TooManyReadings);
        } else {
            row.push(text);
        }
    }

    /// A field beyond the header has no name that says what it is.
    fn report_beyond(&mut self, record: &Record) {
        let width = self.header.len();
        if width == 0 {
            return;
        }
        for (column, field) in record.fields.iter().enumerate().skip(width) {
            if !field.is_empty() {
                self.report(record, column, CsvCellWrong::BeyondLastColumn(cut(field)));
            }
        }
    }

    fn report(&mut self, record: &Record, column: usize, why: CsvCellWrong) {
        if !self.is_full() {
            let header = self.header.get(column).copied().unwrap_or_default();
            self.problems.push(CsvCellProblem {
                line: record.line,
                column: column + 1,
                header: cut(header),
                why,
            });
        }
    }

    /// Whether as many places are reported as ever are.
    fn is_full(&self) -> bool {
        self.problems.len() >= MOST_PROBLEMS
    }
}

/// A field with the unit that stands beside it; itself, where it names the same
/// one.
fn with_unit(field: &str, unit: &str) -> Result<String, CsvCellWrong> {
    if unit.len() > MOST_NAME_BYTES {
        let unknown = LengthProblem::UnknownUnit(cut(unit));
        return Err(CsvCellWrong::Length(unknown));
    }
    let digits = |c: char| c.is_ascii_digit() || c == '.' || c == ',';
    let own = field.rfind(digits).and_then(|at| field.get(at + 1..));
    let own = own.unwrap_or_default().trim();
    match (length_of_one(own), length_of_one(unit)) {
        (Some(inner), Some(outer)) if inner == outer => Ok(field.to_owned()),
        (Some(_), Some(_)) => Err(CsvCellWrong::TwoUnits(cut(own), cut(unit))),
        _ => Ok(format!("{field} {unit}")),
    }
}

/// How long one of a unit is, where its mark is known.
fn length_of_one(mark: &str) -> Option<Length> {
    if mark.is_empty() || mark.len() > MOST_NAME_BYTES {
        return None;
    }
    let one = TypedLength::parse(&format!("1 {mark}"), Unit::Inch, Sign::None);
    one.ok().map(|one| one.length())
}

/// A single letter names an arm, even one the press does not have.
fn looks_like_an_arm(name: &str) -> bool {
    matches!(name.as_bytes(), [letter] if letter.is_ascii_alphabetic())
}

/// As much of the header as is said of it.
fn owned(fields: &StringRecord) -> Vec<String> {
    fields.iter().take(MOST_LETTERS).map(cut).collect()
}

/// As much of a text as is said of it; a table may be one cell of megabytes.
fn cut(text: &str) -> String {
    text.chars().take(MOST_LETTERS).collect()
}

fn lower_case(names: &[String]) -> Vec<String> {
    names.iter().map(|name| name.to_lowercase()).collect()
}
