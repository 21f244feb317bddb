//! Which columns of a text hold what.

use std::collections::BTreeSet;

/// Bytes of the longest name of a column that means anything, its number
/// included.
pub(super) const MOST_NAME_BYTES: usize = 64;

/// Headers that mean the station's name, its reading and the unit, and those
/// of a column that only counts rounds.
pub(super) const STATION: [&str; 6] = ["arm", "station", "brazo", "estación", "estacion", "place"];
pub(super) const READING: [&str; 4] = ["reading", "lectura", "thickness", "espesor"];
pub(super) const UNIT: [&str; 2] = ["unit", "unidad"];
pub(super) const ROUND: [&str; 6] = ["round", "repeat", "no", "ronda", "vuelta", "repetición"];

/// Which columns hold what, for files whose header does not say it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum CsvColumns {
    /// A row per reading. Columns from 0.
    ByRow {
        /// The column of the station's name.
        station: usize,
        /// The columns of its readings: a second one holds a second repeat.
        readings: Vec<usize>,
        /// The column of its unit.
        unit: Option<usize>,
    },
    /// A row per round, a column per station: which station each column
    /// holds, `None` for a column to leave out.
    ByColumn(Vec<Option<usize>>),
}

impl CsvColumns {
    /// The columns that hold readings, from 0.
    pub(super) fn readings(&self) -> Box<dyn Iterator<Item = usize> + '_> {
        match self {
            Self::ByRow { readings, .. } => Box::new(readings.iter().copied()),
            Self::ByColumn(stations) => {
                let columns = stations.iter().enumerate();
                Box::new(columns.filter_map(|(column, station)| station.map(|_| column)))
            }
        }
    }

    /// The columns that anything is taken from.
    pub(super) fn taken(&self) -> BTreeSet<usize> {
        let mut taken: BTreeSet<usize> = self.readings().collect();
        if let Self::ByRow { station, unit, .. } = self {
            taken.insert(*station);
            taken.extend(*unit);
        }
        taken
    }
}

/// Whether a column's name is one of these, with a number behind it or none:
/// `reading`, `Reading 2`.
pub(super) fn means(these: &[&str], name: &str) -> bool {
    if name.len() > MOST_NAME_BYTES {
        return false;
    }
    let bare = name.trim_end_matches(|c: char| c.is_ascii_digit() || " #._-".contains(c));
    these.contains(&bare.to_lowercase().as_str())
}
