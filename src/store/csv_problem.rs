//! Why readings could not be taken from a text, and where it is wrong.

use crate::press::LengthOutOfBounds;
use crate::units::LengthProblem;

/// Why nothing was read from a file.
#[derive(Debug, Clone, PartialEq)]
pub enum CsvProblem {
    /// Nothing in it.
    Empty,
    /// The header is none that can be read; its fields.
    Header(Vec<String>),
    /// So many readings without names, which is no reading a station.
    Unnamed {
        /// Readings found.
        found: usize,
        /// Stations of the press.
        stations: usize,
    },
    /// A column mapped by hand that the file does not have, from 0.
    NoSuchColumn(usize),
    /// Places that are wrong, in the order of the file, at most
    /// [`MOST_PROBLEMS`].
    Cells(Vec<CsvCellProblem>),
}

/// One place that is wrong.
#[derive(Debug, Clone, PartialEq)]
pub struct CsvCellProblem {
    /// Line of the file, from 1.
    pub line: u64,
    /// Column, from 1.
    pub column: usize,
    /// The column's name in the header, where there is one.
    pub header: String,
    /// What is wrong.
    pub why: CsvCellWrong,
}

/// What is wrong with one place.
#[derive(Debug, Clone, PartialEq)]
pub enum CsvCellWrong {
    /// No length; with the unit beside it, where there is one.
    Length(LengthProblem),
    /// A unit of its own, and another one beside it: both.
    TwoUnits(String, String),
    /// A length no reading has.
    OutOfBounds(LengthOutOfBounds),
    /// No station has this name.
    UnknownStation(String),
    /// Two columns for this station.
    SecondColumn(String),
    /// Nothing where something is needed.
    Missing,
    /// Something beyond the last column.
    BeyondLastColumn(String),
    /// More readings of one station than are kept.
    TooManyReadings,
    /// What looks like the two halves of a number cut at its decimal comma.
    DecimalComma(String),
}

/// Most places that are reported.
pub const MOST_PROBLEMS: usize = 100;
