//! Linear drift of gauge or hand over one pass.

use super::measured::Measured;
use super::{Pooled, Scatter};
use crate::stats::student_critical;

/// Confidence with which a drift is spoken of.
const CONFIDENCE: f64 = 0.95;

/// A linear drift over one pass, and what the readings scatter about it.
///
/// y = station + slope (turn - middle) is fitted to the readings by least
/// squares:
///
/// slope = sum (t - t_s) (y - y_s) / S, S = sum (t - t_s)^2,
///
/// with t_s, y_s the means of a station's turns and readings. The residuals
/// about it have one degree of freedom less than those about the station means
/// (GUM, JCGM 100:2008, H.3, the same fit). Read as often going back as going
/// there, every station's turns have the same mean, and the plain means are
/// free of the drift already.
#[derive(Debug, Clone, PartialEq)]
pub struct Drift {
    /// Drift from the first reading to the last, in nanometres.
    pub over_pass_nm: f64,
    /// Scatter of the readings about stations and drift.
    pub residuals: Pooled,
    /// What of the drift is still in the differences between station means:
    /// its largest amount between any two stations read, in nanometres, not
    /// negative. Zero when every station was read as often going back as going
    /// there.
    pub left_nm: f64,
    /// Root of S over the turns from first to last.
    weight: f64,
}

/// Why a drift cannot be seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DriftProblem {
    /// No station was read twice: drift and profile look alike.
    NoRepeats,
    /// A reading that is no number, or of no splice: over a kilometer.
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

/// Beyond this, in nanometres, sums of squares would leave what a float holds.
const MOST_NM: f64 = 1e12;

impl Drift {
    /// Fits a drift to readings in the order they were taken.
    ///
    /// # Errors
    /// See [`DriftProblem`].
    pub fn of(readings: &[TimedReading], stations: usize) -> Result<Self, DriftProblem> {
        if !readings.iter().all(|reading| reading.nm.abs() <= MOST_NM) {
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
        let away = || {
            readings.iter().filter_map(|reading| {
                let (turn, value) = means.get(reading.station).copied().flatten()?;
                Some((reading.turn as f64 - turn, reading.nm - origin - value))
            })
        };
        let squares: f64 = away().map(|(turn, _)| turn * turn).sum();
        if squares == 0.0 {
            return Err(DriftProblem::NoRepeats);
        }
        let slope = away().map(|(turn, value)| turn * value).sum::<f64>() / squares;
        let about = away().map(|(turn, value)| (value - slope * turn).powi(2));
        let repeats = sums.iter().map(|(count, ..)| (count - 1.0).max(0.0));
        let turns = || readings.iter().map(|reading| reading.turn);
        let over = turns().max().unwrap_or(0) - turns().min().unwrap_or(0);
        let means = || means.iter().flatten().map(|(turn, _)| *turn);
        let latest = means().fold(f64::NEG_INFINITY, f64::max);
        let earliest = means().fold(f64::INFINITY, f64::min);
        Ok(Self {
            over_pass_nm: slope * over as f64,
            residuals: Pooled {
                sum_of_squares_nm2: about.sum(),
                dof: (repeats.sum::<f64>() - 1.0).max(0.0),
                samples: sums.iter().filter(|(count, ..)| *count > 1.0).count(),
            },
            left_nm: slope.abs() * (latest - earliest),
            weight: squares.sqrt() / over as f64,
        })
    }

    /// The drift with its standard uncertainty, for readings that scatter so
    /// much: s / sqrt S over one turn.
    pub fn over_pass(&self, repeatability: Scatter) -> Measured {
        Measured {
            value_nm: self.over_pass_nm,
            u_nm: repeatability.sd_nm.abs() / self.weight,
        }
    }

    /// Whether the drift stands out: beyond Student's 95 % point, two-sided,
    /// at the degrees of freedom the scatter is known with.
    pub fn stands_out(&self, repeatability: Scatter) -> bool {
        let t = student_critical(1.0 - CONFIDENCE, repeatability.dof);
        t.is_some_and(|t| self.over_pass(repeatability).z().abs() > t)
    }
}
