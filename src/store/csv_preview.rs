//! A CSV text before it is read: its first lines, and what its columns hold.

use super::csv::{Parted, columns_found, parted};
use super::{CsvColumns, CsvProblem, CsvReading, decimal_commas};

/// One line that is not blank.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CsvLine {
    /// Line of the text, from 1.
    pub line: u64,
    /// Its fields.
    pub fields: Vec<String>,
}

/// The first lines of a CSV text, at most so many, and how many fields the
/// widest of all its lines has; readings cut by their decimal commas are in one
/// piece, where [`super::readings_from_csv`] takes them so.
pub fn csv_lines(text: &str, most: usize, reading: &CsvReading<'_>) -> (Vec<CsvLine>, usize) {
    let Parted {
        mut records,
        by_commas,
    } = parted(text);
    let columns = columns_found(&records, reading);
    if let (true, Ok(columns)) = (by_commas, columns)
        && let Some((first, rest)) = records.split_first_mut()
    {
        let fields = rest.iter_mut().map(|record| &mut record.fields);
        decimal_commas::join(
            fields.collect(),
            first.fields.len(),
            columns.readings().collect(),
        );
    }
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
    columns_found(&parted(text).records, reading)
}
