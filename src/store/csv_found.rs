//! How a text of readings is to be read, and what was found in it.

use crate::units::Unit;

use super::CsvColumns;

/// What was read from a file.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct CsvFound {
    /// Texts for the cells: a row per station, its readings in the order of
    /// the file.
    pub rows: Vec<Vec<String>>,
    /// The first reading whose decimal comma stood between columns parted by
    /// commas, where all of them did.
    pub decimal_comma: Option<String>,
    /// Names of columns from which nothing was taken; those that only count
    /// rounds are not among them.
    pub left_out: Vec<String>,
}

/// How to read a file.
#[derive(Debug, Clone)]
pub struct CsvReading<'a> {
    /// Names of the stations, arms by their letters, from the left.
    pub stations: &'a [String],
    /// Unit of a reading that names none.
    pub bare: Unit,
    /// The columns, where they were mapped by hand; `None` to take them from
    /// the header.
    pub columns: Option<CsvColumns>,
    /// Whether the first row is a header; asked only with columns mapped by
    /// hand, since without them there must be one.
    pub has_header: bool,
}
