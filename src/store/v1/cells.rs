//! Readings in format 1 of session files: cells and the remarks on them.

use serde::de::Deserializer;
use serde::ser::Serializer;
use serde::{Deserialize, Serialize};

use crate::splice::{Cell, Kept, Reading, Station, Struck, WhyDoubtful};
use crate::units::TypedLength;

use crate::store::damage::no_name;
use crate::store::inline::listed;
use crate::store::length_text::{LengthText, complaint};
use crate::store::v1::{Unsound, place_text};

/// The readings of one station. Every cell has its place in `readings`, empty
/// text where nothing readable stands; the other lists remark on cells by
/// number, from 1.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::store) struct RowV1 {
    station: String,
    #[serde(deserialize_with = "listed")]
    readings: Vec<CellV1>,
    #[serde(
        default,
        deserialize_with = "listed",
        skip_serializing_if = "Vec::is_empty"
    )]
    struck: Vec<StruckV1>,
    #[serde(
        default,
        deserialize_with = "listed",
        skip_serializing_if = "Vec::is_empty"
    )]
    kept: Vec<KeptV1>,
    #[serde(
        default,
        deserialize_with = "listed",
        skip_serializing_if = "Vec::is_empty"
    )]
    unreadable: Vec<UnreadableV1>,
}

/// The bare belt, a cell per station, remarked on as in [`RowV1`].
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::store) struct BareBeltV1 {
    #[serde(deserialize_with = "listed")]
    readings: Vec<CellV1>,
    #[serde(
        default,
        deserialize_with = "listed",
        skip_serializing_if = "Vec::is_empty"
    )]
    struck: Vec<StruckV1>,
    #[serde(
        default,
        deserialize_with = "listed",
        skip_serializing_if = "Vec::is_empty"
    )]
    unreadable: Vec<UnreadableV1>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct StruckV1 {
    reading: usize,
    #[serde(default)]
    by: String,
    #[serde(default)]
    why: String,
}

/// A reading that was doubted and kept.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct KeptV1 {
    reading: usize,
    #[serde(default)]
    by: String,
    doubt: DoubtV1,
}

/// Why a reading was doubted, by the name of the reason.
#[derive(Debug)]
struct DoubtV1(WhyDoubtful);

impl Serialize for DoubtV1 {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.0.key())
    }
}

impl<'de> Deserialize<'de> for DoubtV1 {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let key = String::deserialize(deserializer)?;
        WhyDoubtful::from_key(&key)
            .map(Self)
            .ok_or_else(|| no_name(&key))
    }
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct UnreadableV1 {
    reading: usize,
    text: String,
}

/// One entry of a row of readings; empty text for none.
#[derive(Debug, PartialEq)]
pub(in crate::store) struct CellV1(Option<LengthText>);

impl CellV1 {
    /// The entry of a length, or of none.
    pub(in crate::store) fn of(length: Option<&TypedLength>) -> Self {
        Self(length.cloned().map(LengthText))
    }

    /// The length it holds, if any.
    pub(in crate::store) fn into_length(self) -> Option<TypedLength> {
        self.0.map(|length| length.0)
    }
}

impl Serialize for CellV1 {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let text = self.0.as_ref().map_or("", |length| length.0.text());
        serializer.serialize_str(text)
    }
}

impl<'de> Deserialize<'de> for CellV1 {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        if text.is_empty() {
            return Ok(Self(None));
        }
        LengthText::parse(&text)
            .map(|length| Self(Some(length)))
            .map_err(|_| complaint(&text))
    }
}

/// Cells and the remarks on them.
#[derive(Default)]
struct CellsV1 {
    readings: Vec<CellV1>,
    struck: Vec<StruckV1>,
    kept: Vec<KeptV1>,
    unreadable: Vec<UnreadableV1>,
}

impl RowV1 {
    /// The row of a station.
    pub(in crate::store) fn of(cells: &[Cell], station: &Station) -> Self {
        let cells = taken_apart(cells);
        Self {
            station: place_text(&station.place),
            readings: cells.readings,
            struck: cells.struck,
            kept: cells.kept,
            unreadable: cells.unreadable,
        }
    }

    /// The cells of the row, which must be that of `station`.
    ///
    /// # Errors
    /// A row of another station, or a remark on a reading that is not there.
    pub(in crate::store) fn read(
        self,
        pass: usize,
        station: Option<&Station>,
    ) -> Result<Vec<Cell>, Unsound> {
        let expected = station.map(|station| place_text(&station.place));
        if let Some(expected) = expected.filter(|expected| *expected != self.station) {
            return Err(Unsound::RowOfOtherStation {
                pass,
                expected,
                found: self.station,
            });
        }
        let cells = CellsV1 {
            readings: self.readings,
            struck: self.struck,
            kept: self.kept,
            unreadable: self.unreadable,
        };
        let mut cells = put_together(cells).map_err(|reading| Unsound::NoSuchReading {
            pass,
            station: self.station,
            reading,
        })?;
        // Nothing in memory keeps empty cells at the end of a row.
        while cells.last() == Some(&Cell::Empty) {
            cells.pop();
        }
        Ok(cells)
    }
}

impl BareBeltV1 {
    /// The cells of a bare belt, if it was measured.
    pub(in crate::store) fn of(cells: &[Cell]) -> Option<Self> {
        let cells = taken_apart(cells);
        (!cells.readings.is_empty()).then_some(Self {
            readings: cells.readings,
            struck: cells.struck,
            unreadable: cells.unreadable,
        })
    }

    /// The cells.
    ///
    /// # Errors
    /// A remark on a reading that is not there.
    pub(in crate::store) fn read(self, pass: usize) -> Result<Vec<Cell>, Unsound> {
        put_together(CellsV1 {
            readings: self.readings,
            struck: self.struck,
            kept: Vec::new(),
            unreadable: self.unreadable,
        })
        .map_err(|reading| Unsound::NoSuchBareReading { pass, reading })
    }
}

fn taken_apart(cells: &[Cell]) -> CellsV1 {
    let mut apart = CellsV1::default();
    for (cell, number) in cells.iter().zip(1..) {
        let reading = cell.reading();
        apart
            .readings
            .push(CellV1::of(reading.map(|reading| &reading.typed)));
        if let Some(remark) = reading.and_then(|reading| reading.struck.as_ref()) {
            apart.struck.push(StruckV1 {
                reading: number,
                by: remark.by.clone(),
                why: remark.why.clone(),
            });
        }
        if let Some(kept) = reading.and_then(|reading| reading.kept.as_ref()) {
            apart.kept.push(KeptV1 {
                reading: number,
                by: kept.by.clone(),
                doubt: DoubtV1(kept.doubt),
            });
        }
        if let Cell::Unreadable(text) = cell {
            apart.unreadable.push(UnreadableV1 {
                reading: number,
                text: text.clone(),
            });
        }
    }
    apart
}

/// The cells with the remarks on them; the number of a reading that is
/// remarked on and not there, if there is one.
fn put_together(apart: CellsV1) -> Result<Vec<Cell>, usize> {
    let cell = |cell: CellV1| match cell.into_length() {
        Some(typed) => Cell::Reading(Reading::new(typed)),
        None => Cell::Empty,
    };
    let mut cells: Vec<Cell> = apart.readings.into_iter().map(cell).collect();
    for remark in apart.struck {
        match numbered(&mut cells, remark.reading) {
            Some(Cell::Reading(reading)) if reading.struck.is_none() => {
                reading.struck = Some(Struck {
                    by: remark.by,
                    why: remark.why,
                });
            }
            _ => return Err(remark.reading),
        }
    }
    for remark in apart.kept {
        match numbered(&mut cells, remark.reading) {
            Some(Cell::Reading(reading)) if reading.kept.is_none() => {
                reading.kept = Some(Kept {
                    by: remark.by,
                    doubt: remark.doubt.0,
                });
            }
            _ => return Err(remark.reading),
        }
    }
    for remark in apart.unreadable {
        match numbered(&mut cells, remark.reading) {
            Some(empty @ Cell::Empty) => *empty = Cell::Unreadable(remark.text),
            _ => return Err(remark.reading),
        }
    }
    Ok(cells)
}

/// The cell with this number, counted from 1.
fn numbered(cells: &mut [Cell], number: usize) -> Option<&mut Cell> {
    cells.get_mut(number.checked_sub(1)?)
}
