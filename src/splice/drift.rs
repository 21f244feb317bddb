//! Linear drift of gauge or hand over one pass.

use super::shape::Measured;

/// A linear drift and the station means without it.
#[derive(Debug, Clone, PartialEq)]
pub struct Drift {
    /// Drift over the whole pass, from the first reading to the last, with
    /// its uncertainty from the repeatability.
    pub over_pass: Measured,
    /// Station means as if all had been read at the middle of the pass;
    /// `None` where nothing was read.
    pub cancelled_nm: Vec<Option<f64>>,
}

/// Why a drift cannot be seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DriftProblem {
    /// No station was read twice: drift and profile look alike.
    NoRepeats,
    /// A reading or the repeatability that is no number.
    NotANumber,
}

/// One reading in the order it was taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TimedReading {
    /// The station.
    pub station: usize,
    /// Its place in the order of all readings; readings are taken to follow
    /// each other at even intervals.
    pub turn: usize,
    /// The thickness in nanometres.
    pub nm: f64,
}

impl Drift {
    /// Fits y = station + slope (turn - middle) to the readings by least
    /// squares:
    ///
    /// slope = sum (t - t_s) (y - y_s) / S, S = sum (t - t_s)^2,
    ///
    /// with t_s, y_s the means of a station's turns and readings; u(slope) =
    /// repeatability / sqrt S (GUM, JCGM 100:2008, H.3, the same fit). Read
    /// there and back, every station's turns have the same mean, and the
    /// plain means are already free of the drift.
    ///
    /// # Errors
    /// See [`DriftProblem`].
    pub fn of(
        readings: &[TimedReading],
        stations: usize,
        repeatability_nm: f64,
    ) -> Result<Self, DriftProblem> {
        let finite = readings.iter().all(|reading| reading.nm.is_finite());
        if !finite || !repeatability_nm.is_finite() {
            return Err(DriftProblem::NotANumber);
        }
        let origin = readings.first().map_or(0.0, |reading| reading.nm);
        let mut sums = vec![(0.0, 0.0, 0.0); stations];
        for reading in readings {
            if let Some((count, turns, values)) = sums.get_mut(reading.station) {
                *count += 1.0;
                *turns += reading.turn as f64;
                *values += reading.nm - origin;
            }
        }
        let means: Vec<Option<(f64, f64)>> = sums
            .iter()
            .map(|(count, turns, values)| (*count > 0.0).then(|| (turns / count, values / count)))
            .collect();
        let (mut along, mut squares) = (0.0, 0.0);
        for reading in readings {
            if let Some((turn, value)) = means.get(reading.station).copied().flatten() {
                let away = reading.turn as f64 - turn;
                along += away * (reading.nm - origin - value);
                squares += away * away;
            }
        }
        if squares == 0.0 {
            return Err(DriftProblem::NoRepeats);
        }
        let slope = along / squares;
        let turns = || readings.iter().map(|reading| reading.turn);
        let first = turns().min().unwrap_or(0) as f64;
        let last = turns().max().unwrap_or(0) as f64;
        let middle = first + (last - first) / 2.0;
        Ok(Self {
            over_pass: Measured {
                value_nm: slope * (last - first),
                u_nm: repeatability_nm.abs() / squares.sqrt() * (last - first),
            },
            cancelled_nm: means
                .into_iter()
                .map(|mean| mean.map(|(turn, value)| origin + value - slope * (turn - middle)))
                .collect(),
        })
    }
}
