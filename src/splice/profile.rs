//! The profile: the mean thickness at every station.

use crate::units::ExactLength;

use super::Cell;

/// Mean of the readings that count at one station.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StationMean {
    /// The exact mean.
    pub mean: ExactLength,
    /// How many readings it is the mean of; at least one.
    pub repeats: usize,
}

impl StationMean {
    /// The mean over the readings of a station that count; `None` when there
    /// are none.
    pub fn of(cells: &[Cell]) -> Option<Self> {
        let lengths = || {
            cells
                .iter()
                .filter_map(Cell::counting)
                .map(|reading| reading.typed.length())
        };
        ExactLength::mean(lengths()).map(|mean| Self {
            mean,
            repeats: lengths().count(),
        })
    }
}

/// Station means of one pass, from the operator's left; `None` where nothing
/// was read.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Profile {
    /// One entry per station.
    pub means: Vec<Option<StationMean>>,
}

impl Profile {
    /// The profile of a pass's cells, a row per station.
    pub fn of(rows: &[Vec<Cell>]) -> Self {
        Self {
            means: rows.iter().map(|cells| StationMean::of(cells)).collect(),
        }
    }

    /// What was read at a station.
    pub fn at(&self, station: usize) -> Option<StationMean> {
        self.means.get(station).copied().flatten()
    }

    /// The exact mean at a station.
    pub fn mean(&self, station: usize) -> Option<ExactLength> {
        self.at(station).map(|station| station.mean)
    }
}
