//! A response that was measured or reckoned elsewhere and is taken as it is.

use serde::{Deserialize, Serialize};

use crate::codec::Inline;
use crate::press::{LengthQuantity, Response};
use crate::units::Unit;

/// A response given outright: thickness per notch out, a row per station from
/// the operator's left, a column per arm. Nothing is learnt about it.
///
/// The texts are kept as they were given; the unit belongs to them and does
/// not change when the session's does.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(from = "KnownResponseInFile", into = "KnownResponseInFile")]
pub struct KnownResponse {
    unit: Unit,
    texts: Vec<Vec<String>>,
    response: Response,
}

/// The texts as they stand in a file, a row on each line.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct KnownResponseInFile {
    unit: Unit,
    per_notch_out: Vec<Inline<Vec<String>>>,
}

impl From<KnownResponse> for KnownResponseInFile {
    fn from(known: KnownResponse) -> Self {
        Self {
            unit: known.unit,
            per_notch_out: known.texts.into_iter().map(Inline).collect(),
        }
    }
}

/// A table that is no response is found by [`KnownResponse::check`], with the
/// rest of its session.
impl From<KnownResponseInFile> for KnownResponse {
    fn from(file: KnownResponseInFile) -> Self {
        let unit = file.unit;
        let texts: Vec<Vec<String>> = file.per_notch_out.into_iter().map(|row| row.0).collect();
        Self::from_table(&texts, unit).unwrap_or_else(|_| Self {
            unit,
            texts,
            response: Response::from_fn(0, 0, |_, _| 0.0),
        })
    }
}

/// Why a table is no response. Rows and columns are counted from zero.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum KnownResponseProblem {
    /// Another number of rows than there are stations.
    Rows {
        /// Stations.
        expected: usize,
        /// Rows.
        found: usize,
    },
    /// A row with another number of values than there are arms (or than the
    /// first row has).
    Columns {
        /// The row.
        row: usize,
        /// Values expected.
        expected: usize,
        /// Values found.
        found: usize,
    },
    /// Nothing stands where a value should.
    Hole {
        /// The row.
        row: usize,
        /// The column.
        column: usize,
    },
    /// What stands there is no number with a decimal point.
    NotANumber {
        /// The row.
        row: usize,
        /// The column.
        column: usize,
        /// What was found.
        text: String,
    },
    /// A number too large for any notch effect, either way.
    TooLarge {
        /// The row.
        row: usize,
        /// The column.
        column: usize,
        /// What was found.
        text: String,
    },
}

impl KnownResponse {
    /// Reads a table of numbers in `unit` per notch; exponents (`4e-3`) are
    /// understood. A first row of arm letters is passed over.
    ///
    /// # Errors
    /// The first thing found wrong, by rows.
    pub fn from_table(table: &[Vec<String>], unit: Unit) -> Result<Self, KnownResponseProblem> {
        let rows = match table.split_first() {
            Some((first, rest)) if is_header(first) => rest,
            _ => table,
        };
        let arms = rows.first().map_or(0, Vec::len);
        let mut values = Vec::with_capacity(rows.len() * arms);
        for (row, texts) in rows.iter().enumerate() {
            if texts.len() != arms {
                return Err(KnownResponseProblem::Columns {
                    row,
                    expected: arms,
                    found: texts.len(),
                });
            }
            for (column, text) in texts.iter().enumerate() {
                values.push(read_value(text.trim(), unit, row, column)?);
            }
        }
        let mut values = values.into_iter();
        Ok(Self {
            unit,
            texts: rows
                .iter()
                .map(|row| row.iter().map(|text| text.trim().to_owned()).collect())
                .collect(),
            response: Response::from_fn(rows.len(), arms, |_, _| values.next().unwrap_or(0.0)),
        })
    }

    /// The response.
    pub fn response(&self) -> &Response {
        &self.response
    }

    /// Whether it is a response, and belongs to so many stations and arms.
    ///
    /// # Errors
    /// See [`KnownResponseProblem`].
    pub fn check(&self, stations: usize, arms: usize) -> Result<(), KnownResponseProblem> {
        Self::from_table(&self.texts, self.unit)?;
        if self.texts.len() != stations {
            return Err(KnownResponseProblem::Rows {
                expected: stations,
                found: self.texts.len(),
            });
        }
        if self.response.arms() != arms {
            return Err(KnownResponseProblem::Columns {
                row: 0,
                expected: arms,
                found: self.response.arms(),
            });
        }
        Ok(())
    }

    /// The same with its rows in another order, or with some left out.
    pub(super) fn with_rows(&self, order: &[usize]) -> Self {
        let texts = order.iter().filter_map(|&row| self.texts.get(row).cloned());
        Self {
            unit: self.unit,
            texts: texts.collect(),
            response: self.response.of_stations(order),
        }
    }
}

/// Letters of a value that a problem holds.
const MOST_LETTERS: usize = 60;

/// Whether a row holds arm letters instead of numbers.
fn is_header(row: &[String]) -> bool {
    let is_letter = |text: &String| {
        let mut letters = text.trim().chars();
        letters.next().is_some_and(char::is_alphabetic) && letters.next().is_none()
    };
    !row.is_empty() && row.iter().all(is_letter)
}

fn read_value(
    text: &str,
    unit: Unit,
    row: usize,
    column: usize,
) -> Result<f64, KnownResponseProblem> {
    if text.is_empty() {
        return Err(KnownResponseProblem::Hole { row, column });
    }
    let found = || text.chars().take(MOST_LETTERS).collect();
    let value: f64 = match text.parse() {
        Ok(value) if f64::is_finite(value) => value,
        _ => {
            return Err(KnownResponseProblem::NotANumber {
                row,
                column,
                text: found(),
            });
        }
    };
    let nm = value * unit.nm() as f64;
    let most = LengthQuantity::NotchEffect.bounds().most;
    if nm.abs() > most.nm_f64() {
        return Err(KnownResponseProblem::TooLarge {
            row,
            column,
            text: found(),
        });
    }
    // 0.0032 in is 81 280 nm exactly, which the product of two rounded numbers
    // misses by a hair.
    let whole = nm.round();
    let is_whole = (nm - whole).abs() <= 4.0 * f64::EPSILON * nm.abs();
    Ok(if is_whole { whole } else { nm })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn table(rows: &[&[&str]]) -> Vec<Vec<String>> {
        let row = |row: &&[&str]| row.iter().map(|&text| text.to_owned()).collect();
        rows.iter().map(row).collect()
    }

    #[test]
    fn values_are_exact_where_they_are_whole_nanometres() {
        let rows = table(&[&["A", "B"], &["0.0032", " 8e-4 "], &["-0.00010", "0"]]);
        let known = KnownResponse::from_table(&rows, Unit::Inch).unwrap();
        assert_eq!(
            known.response().values(),
            [81_280.0, 20_320.0, -2_540.0, 0.0]
        );
        assert_eq!(
            known.texts,
            table(&[&["0.0032", "8e-4"], &["-0.00010", "0"]])
        );
        assert_eq!(known.check(2, 2), Ok(()));
        let fine = table(&[&["0.00312345678", "0"], &["0", "1e-3"]]);
        let fine = KnownResponse::from_table(&fine, Unit::Inch).unwrap();
        assert_eq!(fine.response().at(0, 0), 0.003_123_456_78 * 25.4e6);
    }

    #[test]
    fn what_is_wrong_is_said() {
        use KnownResponseProblem as P;
        let text = |text: &str| text.to_owned();
        for (rows, expected) in [
            (
                table(&[&["1e-3", "0"], &["0"]]),
                P::Columns {
                    row: 1,
                    expected: 2,
                    found: 1,
                },
            ),
            (table(&[&["1e-3", " "]]), P::Hole { row: 0, column: 1 }),
            (
                table(&[&["1e-3", "B"]]),
                P::NotANumber {
                    row: 0,
                    column: 1,
                    text: text("B"),
                },
            ),
            (
                table(&[&["nan"]]),
                P::NotANumber {
                    row: 0,
                    column: 0,
                    text: text("nan"),
                },
            ),
            (
                table(&[&["0,004"]]),
                P::NotANumber {
                    row: 0,
                    column: 0,
                    text: text("0,004"),
                },
            ),
            (
                table(&[&["0.3"]]),
                P::TooLarge {
                    row: 0,
                    column: 0,
                    text: text("0.3"),
                },
            ),
        ] {
            assert_eq!(KnownResponse::from_table(&rows, Unit::Inch), Err(expected));
        }
        let empty = KnownResponse::from_table(&[], Unit::Inch).unwrap();
        assert_eq!(
            empty.check(2, 2),
            Err(P::Rows {
                expected: 2,
                found: 0
            })
        );
        let one = KnownResponse::from_table(&table(&[&["1e-3"]]), Unit::Inch).unwrap();
        let columns = P::Columns {
            row: 0,
            expected: 2,
            found: 1,
        };
        assert_eq!(one.check(1, 2), Err(columns));
    }

    #[test]
    fn rows_follow_their_stations() {
        let rows = table(&[&["0.001", "0"], &["0", "0.002"], &["0.003", "0"]]);
        let known = KnownResponse::from_table(&rows, Unit::Inch).unwrap();
        let turned = known.with_rows(&[2, 1]);
        assert_eq!(turned.texts, table(&[&["0.003", "0"], &["0", "0.002"]]));
        assert_eq!(turned.response().values(), [76_200.0, 0.0, 0.0, 50_800.0]);
    }
}
