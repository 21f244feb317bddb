//! A CSV text before it is read: its first lines, and what its columns hold.

use super::csv::{CsvColumns, CsvProblem, CsvReading, columns_found, records};

/// One line that is not blank.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CsvLine {
    /// Line of the text, from 1.
    pub line: u64,
    /// Its fields.
    pub fields: Vec<String>,
}

/// The first lines of a CSV text, at most so many, and how many fields the
/// widest of all its lines has.
pub fn csv_lines(text: &str, most: usize) -> (Vec<CsvLine>, usize) {
    let records = records(text.strip_prefix('\u{feff}').unwrap_or(text));
    let width = records.iter().map(|record| record.fields.len()).max();
    let lines = records.iter().take(most).map(|record| CsvLine {
        line: record.line,
        fields: record.fields.iter().map(str::to_owned).collect(),
    });
    (lines.collect(), width.unwrap_or(0))
}

/// What the columns hold by the header, as [`super::readings_from_csv`] would
/// take it.
///
/// # Errors
/// See [`CsvProblem`]; the header says nothing that can be read.
pub fn csv_columns(text: &str, reading: &CsvReading<'_>) -> Result<CsvColumns, CsvProblem> {
    let records = records(text.strip_prefix('\u{feff}').unwrap_or(text));
    columns_found(&records, reading)
}
