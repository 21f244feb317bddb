//! A pass as it stands in a file: its rows name their stations, and what is
//! remarked on a reading stands beside them by its number.

use serde::{Deserialize, Serialize};

use crate::codec::{a_line_each, bounded, is_usual, maybe_on_one_line, on_one_line};
use crate::press::{ArmIndex, NutPosition};
use crate::splice::{Cell, Kept, Reading, Station, StationPlace, Struck, Walk, WhyDoubtful};
use crate::units::{MaybeLength, TypedLength, maybe_move};

use super::{
    By, CorrectedNut, CorrectedReading, Corrections, FORMAT, Pass, Session, SessionProblem,
};

/// What is wrong with a session that could be read letter by letter.
#[derive(Debug, Clone, PartialEq)]
pub enum Unsound {
    /// The session cannot be as it is described.
    Session(SessionProblem),
    /// A row of readings names another station than the one in its place.
    RowOfOtherStation {
        /// Index of the pass.
        pass: usize,
        /// The station in this place, as the list of stations names it.
        expected: String,
        /// The station the row names.
        found: String,
    },
    /// A remark on a reading that is not there.
    NoSuchReading {
        /// Index of the pass.
        pass: usize,
        /// The station, as the file names it.
        station: String,
        /// The number of the reading, from 1.
        reading: usize,
    },
    /// A remark on a reading of the bare belt that is not there.
    NoSuchBareReading {
        /// Index of the pass.
        pass: usize,
        /// The number of the reading, from 1.
        reading: usize,
    },
    /// The trace of a change at a station or arm that is not there.
    TraceOfNothing {
        /// Index of the pass.
        pass: usize,
    },
}

impl From<SessionProblem> for Unsound {
    fn from(problem: SessionProblem) -> Self {
        Self::Session(problem)
    }
}

/// A pass as it stands in a file.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PassInFile {
    #[serde(default)]
    laced: String,
    #[serde(default, skip_serializing_if = "is_usual")]
    note: String,
    #[serde(serialize_with = "on_one_line")]
    nuts: Vec<NutPosition>,
    #[serde(default, skip_serializing_if = "is_usual", with = "maybe_move")]
    handle: Option<TypedLength>,
    #[serde(default, skip_serializing_if = "is_usual")]
    walk: Walk,
    #[serde(default, skip_serializing_if = "is_usual")]
    flipped: bool,
    #[serde(default, skip_serializing_if = "is_usual")]
    nut_lost: bool,
    #[serde(with = "a_line_each")]
    readings: Vec<RowInFile>,
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        serialize_with = "maybe_on_one_line"
    )]
    bare_belt: Option<RowInFile>,
    // As many as there are readings, so not `bounded`.
    #[serde(
        default,
        skip_serializing_if = "Vec::is_empty",
        serialize_with = "a_line_each::serialize"
    )]
    corrected_readings: Vec<CorrectedReadingInFile>,
    #[serde(
        default,
        skip_serializing_if = "Vec::is_empty",
        serialize_with = "a_line_each::serialize"
    )]
    corrected_nuts: Vec<CorrectedNutInFile>,
}

/// The readings of one station, or the bare belt, a cell per station. Every cell
/// has its place in `readings`, empty text where nothing readable stands; the
/// other lists remark on cells by number, from 1.
#[derive(Debug, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct RowInFile {
    /// Empty for the bare belt.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    station: String,
    #[serde(deserialize_with = "bounded")]
    readings: Vec<MaybeLength>,
    #[serde(
        default,
        deserialize_with = "bounded",
        skip_serializing_if = "Vec::is_empty"
    )]
    struck: Vec<StruckInFile>,
    #[serde(
        default,
        deserialize_with = "bounded",
        skip_serializing_if = "Vec::is_empty"
    )]
    kept: Vec<KeptInFile>,
    #[serde(
        default,
        deserialize_with = "bounded",
        skip_serializing_if = "Vec::is_empty"
    )]
    unreadable: Vec<UnreadableInFile>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct StruckInFile {
    reading: usize,
    #[serde(default)]
    by: String,
    #[serde(default)]
    why: String,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct KeptInFile {
    reading: usize,
    #[serde(default)]
    by: String,
    doubt: WhyDoubtful,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct UnreadableInFile {
    reading: usize,
    text: String,
}

/// A reading that was changed; `reading` counts from 1.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct CorrectedReadingInFile {
    station: StationPlace,
    reading: usize,
    was: String,
    #[serde(default, skip_serializing_if = "is_usual")]
    struck: bool,
    #[serde(default, skip_serializing_if = "is_usual")]
    who: String,
    #[serde(default, skip_serializing_if = "is_usual")]
    when: String,
}

/// A recorded nut position that was changed.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct CorrectedNutInFile {
    nut: StationPlace,
    was: NutPosition,
    #[serde(default, skip_serializing_if = "is_usual")]
    who: String,
    #[serde(default, skip_serializing_if = "is_usual")]
    when: String,
}

impl Session {
    /// The session as it stands in its file.
    pub fn to_file(&self) -> Session<PassInFile> {
        let passes = self.passes.iter();
        let passes = passes.map(|pass| pass.to_file(&self.stations)).collect();
        self.clone().with_passes(passes)
    }

    /// The session that stands in a file.
    ///
    /// # Errors
    /// The first thing found wrong.
    pub fn from_file(mut file: Session<PassInFile>) -> Result<Self, Unsound> {
        let passes = std::mem::take(&mut file.passes).into_iter().enumerate();
        let passes = passes
            .map(|(index, pass)| pass.read(index, &file.stations))
            .collect::<Result<_, _>>()?;
        let mut session = file.with_passes(passes);
        session.format = FORMAT;
        session.check()?;
        Ok(session)
    }
}

impl Pass {
    fn to_file(&self, stations: &[Station]) -> PassInFile {
        let rows = self.rows.iter().zip(stations);
        let bare_belt =
            (!self.bare_belt.is_empty()).then(|| RowInFile::of(&self.bare_belt, String::new()));
        let corrections = &self.corrections;
        let reading = |at: &CorrectedReading| {
            // A sound session has no trace of a station that is not there.
            let station = stations.get(at.station)?;
            Some(CorrectedReadingInFile {
                station: station.place.clone(),
                reading: at.repeat + 1,
                was: at.was.clone(),
                struck: at.struck,
                who: at.by.who.clone(),
                when: at.by.when.clone(),
            })
        };
        let nut = |at: &CorrectedNut| CorrectedNutInFile {
            nut: StationPlace::Arm(at.arm),
            was: at.was,
            who: at.by.who.clone(),
            when: at.by.when.clone(),
        };
        PassInFile {
            laced: self.laced.clone(),
            note: self.note.clone(),
            nuts: self.nuts.clone(),
            handle: self.handle.clone(),
            walk: self.walk,
            flipped: self.flipped,
            nut_lost: self.nut_lost,
            readings: rows
                .map(|(cells, at)| RowInFile::of(cells, at.place.file_text()))
                .collect(),
            bare_belt,
            corrected_readings: corrections.readings.iter().filter_map(reading).collect(),
            corrected_nuts: corrections.nuts.iter().map(nut).collect(),
        }
    }
}

impl PassInFile {
    fn read(self, pass: usize, stations: &[Station]) -> Result<Pass, Unsound> {
        // A wrong number of rows is found by the check of the whole session.
        let rows = self.readings.into_iter().enumerate();
        let rows = rows
            .map(|(row, cells)| cells.of_station(pass, stations.get(row)))
            .collect::<Result<_, _>>()?;
        let bare_belt = self.bare_belt.unwrap_or_default().cells();
        let bare_belt =
            bare_belt.map_err(|reading| Unsound::NoSuchBareReading { pass, reading })?;
        let nowhere = || Unsound::TraceOfNothing { pass };
        let readings = self.corrected_readings.into_iter();
        let nuts = self.corrected_nuts.into_iter();
        let corrections = Corrections {
            readings: readings
                .map(|at| at.read(stations))
                .collect::<Option<_>>()
                .ok_or_else(nowhere)?,
            nuts: nuts
                .map(CorrectedNutInFile::read)
                .collect::<Option<_>>()
                .ok_or_else(nowhere)?,
        };
        Ok(Pass {
            nuts: self.nuts,
            handle: self.handle,
            rows,
            bare_belt,
            walk: self.walk,
            flipped: self.flipped,
            nut_lost: self.nut_lost,
            laced: self.laced,
            note: self.note,
            corrections,
        })
    }
}

impl CorrectedReadingInFile {
    /// `None` at a station that is not there.
    fn read(self, stations: &[Station]) -> Option<CorrectedReading> {
        let mut places = stations.iter().map(|station| &station.place);
        Some(CorrectedReading {
            station: places.position(|place| *place == self.station)?,
            repeat: self.reading.checked_sub(1)?,
            was: self.was,
            struck: self.struck,
            by: By {
                who: self.who,
                when: self.when,
            },
        })
    }
}

impl CorrectedNutInFile {
    /// `None` where no arm is named.
    fn read(self) -> Option<CorrectedNut> {
        let StationPlace::Arm(arm @ ArmIndex(_)) = self.nut else {
            return None;
        };
        Some(CorrectedNut {
            arm,
            was: self.was,
            by: By {
                who: self.who,
                when: self.when,
            },
        })
    }
}

impl RowInFile {
    fn of_station(mut self, pass: usize, at: Option<&Station>) -> Result<Vec<Cell>, Unsound> {
        let station = std::mem::take(&mut self.station);
        let expected = at.map(|at| at.place.file_text());
        if let Some(expected) = expected.filter(|expected| *expected != station) {
            return Err(Unsound::RowOfOtherStation {
                pass,
                expected,
                found: station,
            });
        }
        let mut cells = self.cells().map_err(|reading| Unsound::NoSuchReading {
            pass,
            station,
            reading,
        })?;
        // Nothing in memory keeps empty cells at the end of a row.
        while cells.last() == Some(&Cell::Empty) {
            cells.pop();
        }
        Ok(cells)
    }

    fn of(cells: &[Cell], station: String) -> Self {
        let mut apart = Self {
            station,
            ..Self::default()
        };
        for (cell, reading) in cells.iter().zip(1..) {
            let typed = cell.reading().map(|reading| reading.typed.clone());
            apart.readings.push(MaybeLength(typed));
            match cell {
                Cell::Empty => {}
                Cell::Reading(Reading { struck, kept, .. }) => {
                    let struck =
                        struck
                            .clone()
                            .map(|Struck { by, why }| StruckInFile { reading, by, why });
                    apart.struck.extend(struck);
                    let kept =
                        kept.clone()
                            .map(|Kept { by, doubt }| KeptInFile { reading, by, doubt });
                    apart.kept.extend(kept);
                }
                Cell::Unreadable(text) => apart.unreadable.push(UnreadableInFile {
                    reading,
                    text: text.clone(),
                }),
            }
        }
        apart
    }

    /// The cells with the remarks on them; the number of a reading that is
    /// remarked on and not there, if there is one.
    fn cells(self) -> Result<Vec<Cell>, usize> {
        let cell = |MaybeLength(typed)| match typed {
            Some(typed) => Cell::Reading(Reading::new(typed)),
            None => Cell::Empty,
        };
        let mut cells: Vec<Cell> = self.readings.into_iter().map(cell).collect();
        for StruckInFile { reading, by, why } in self.struck {
            match numbered(&mut cells, reading) {
                Some(Cell::Reading(at)) if at.struck.is_none() => {
                    at.struck = Some(Struck { by, why });
                }
                _ => return Err(reading),
            }
        }
        for KeptInFile { reading, by, doubt } in self.kept {
            match numbered(&mut cells, reading) {
                Some(Cell::Reading(at)) if at.kept.is_none() => at.kept = Some(Kept { by, doubt }),
                _ => return Err(reading),
            }
        }
        for UnreadableInFile { reading, text } in self.unreadable {
            match numbered(&mut cells, reading) {
                Some(empty @ Cell::Empty) => *empty = Cell::Unreadable(text),
                _ => return Err(reading),
            }
        }
        Ok(cells)
    }
}

/// The cell with this number, counted from 1.
fn numbered(cells: &mut [Cell], number: usize) -> Option<&mut Cell> {
    cells.get_mut(number.checked_sub(1)?)
}
