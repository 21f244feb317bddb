//! A test lacing as the learning takes it.

use super::error::{PlanError, Quantity};
use super::noise::{MOST_LENGTH_NM, MOST_NOTCHES, MOST_REPEATS};

/// The mean of the readings at one station.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StationReading {
    /// Mean thickness, in nanometres.
    pub mean_nm: f64,
    /// Readings in the mean, at least one.
    pub repeats: u32,
}

/// One test lacing.
#[derive(Debug, Clone, PartialEq)]
pub struct TestPass {
    /// Position of each nut, in notches from any fixed mark, out positive.
    pub nuts: Vec<f64>,
    /// Position of the common handle, in notches of every nut, out positive.
    pub handle: f64,
    /// What was read at each station; `None` where nothing was.
    pub readings: Vec<Option<StationReading>>,
}

impl TestPass {
    pub(super) fn check(&self, stations: usize, arms: usize) -> Result<(), PlanError> {
        for (expected, found) in [(arms, self.nuts.len()), (stations, self.readings.len())] {
            if expected != found {
                return Err(PlanError::Shape { expected, found });
            }
        }
        if !self
            .nuts
            .iter()
            .chain([&self.handle])
            .all(|n| n.abs() <= MOST_NOTCHES)
        {
            return Err(PlanError::OutOfRange(Quantity::NutPosition));
        }
        let usable = self.readings.iter().flatten().all(|reading| {
            reading.mean_nm.abs() <= MOST_LENGTH_NM && (1..=MOST_REPEATS).contains(&reading.repeats)
        });
        if !usable {
            return Err(PlanError::OutOfRange(Quantity::Reading));
        }
        Ok(())
    }

    /// Mean over the stations that were read, if any.
    pub(super) fn mean_nm(&self) -> Option<f64> {
        let count = self.readings.iter().flatten().count();
        let sum: f64 = self.readings.iter().flatten().map(|r| r.mean_nm).sum();
        (count > 0).then(|| sum / count as f64)
    }
}
