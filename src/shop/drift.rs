//! How a press drifts from one visit to the next.
//!
//! What is fitted are the signed changes of the station deviations from the
//! last piece of a visit (as left) to the first of the next (as found), never
//! the spread: who stops at a luckily low spread finds a larger one next time
//! without any drift. A station's deviation is its mean less the mean over the
//! counting stations, so that another belt end at another level is no drift.
//!
//! Model: d = r t + e, where d is the change at a station over t days, r its
//! rate, and e the scatter of two pieces, alike at every station and visit. It
//! holds nothing at t = 0: a press left alone for no time has not moved. Where
//! a visit laced one piece only, that piece is both its first and its last, so
//! that neighbouring changes share its scatter with opposite signs; the
//! intervals are then wider than they need be.

use crate::session::IsoDate;
use crate::stats::student_critical;

use super::VisitSummary;

/// The confidence of every interval here.
pub const CONFIDENCE: f64 = 0.95;

/// Fewest changes from visit to visit that say anything about drift.
pub const FEWEST: usize = 3;

/// How far ahead the drift is believed: so many times the time it was watched.
const AHEAD: f64 = 2.0;

/// Why nothing is said about drift.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoDrift {
    /// There are too few changes: how many there are.
    TooFew(usize),
    /// Fewer than two stations were read in all of them.
    NoStations,
}

/// The drift of one station.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StationDrift {
    /// The station's index.
    pub station: usize,
    /// Nanometres a day against the mean of all; growing is positive.
    pub rate_nm: f64,
    /// Half the width of its interval of 95 % confidence.
    pub half_nm: f64,
}

/// Two stations that drift apart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pair {
    /// The station that grows against the other.
    pub growing: usize,
    /// The other.
    pub shrinking: usize,
    /// How fast they part, in nanometres a day.
    pub rate_nm: f64,
    /// Half the width of its interval of 95 % confidence.
    pub half_nm: f64,
}

impl Pair {
    /// Whether it stands out of its own uncertainty.
    pub fn is_sure(&self) -> bool {
        self.rate_nm.abs() > self.half_nm
    }
}

/// When the press should be checked again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NextCheck {
    /// By this day: up to it, a piece lies inside the tolerance with the
    /// confidence of the prediction interval.
    By(IsoDate),
    /// Not before the drift is believed no longer: so many days ahead.
    NotWithin(i64),
    /// Pieces scatter so much that one may be outside at once, drift or not.
    ScatterAlone,
}

/// How a press drifts.
#[derive(Debug, Clone, PartialEq)]
pub struct Drift {
    /// Each station that was read in all visits.
    pub stations: Vec<StationDrift>,
    /// The two that part fastest.
    pub fastest: Pair,
    /// Changes it is fitted to.
    pub changes: usize,
    /// Days over which it was watched.
    pub days: i64,
    /// Scatter of one station of one piece, a standard deviation in nanometres:
    /// lacing, gauge and whatever else drift does not explain.
    pub scatter_nm: f64,
    /// When to check again.
    pub next_check: NextCheck,
    sum_of_squares: f64,
    dof: f64,
}

/// A change from one visit to the next.
struct Change {
    days: f64,
    nm: Vec<Option<f64>>,
}

impl Drift {
    /// The drift over visits to one press, oldest first. Changes between which
    /// nuts were moved, or whose stations or days differ or are unknown, say
    /// nothing.
    ///
    /// # Errors
    /// See [`NoDrift`].
    pub fn of(visits: &[VisitSummary]) -> Result<Self, NoDrift> {
        let pairs = visits.iter().zip(visits.iter().skip(1));
        let changes: Vec<Change> = pairs.filter_map(|(from, to)| change(from, to)).collect();
        if changes.len() < FEWEST {
            return Err(NoDrift::TooFew(changes.len()));
        }
        let stations = changes.iter().map(|change| change.nm.len()).min();
        let common: Vec<usize> = (0..stations.unwrap_or(0))
            .filter(|station| {
                let at = |change: &Change| change.nm.get(*station).copied().flatten();
                changes.iter().all(|change| at(change).is_some())
            })
            .collect();
        if common.len() < 2 {
            return Err(NoDrift::NoStations);
        }
        let rows = about_mean(&changes, &common);
        let sum_of_squares: f64 = rows.iter().map(|(days, _)| days * days).sum();
        let rates: Vec<f64> = (0..common.len())
            .map(|s| rows.iter().map(|(days, nm)| days * nm[s]).sum::<f64>() / sum_of_squares)
            .collect();
        let left: f64 = rows
            .iter()
            .flat_map(|(days, nm)| {
                nm.iter()
                    .zip(&rates)
                    .map(move |(nm, rate)| nm - rate * days)
            })
            .map(|residual| residual * residual)
            .sum();
        // Deviations from a mean leave one station less free, rates one change.
        let dof = ((common.len() - 1) * (rows.len() - 1)) as f64;
        let variance = left / dof;
        let t = student_critical(1.0 - CONFIDENCE, dof).unwrap_or(f64::INFINITY);
        let rate_sd = (variance / sum_of_squares).sqrt();
        let of_mean = (1.0 - 1.0 / common.len() as f64).sqrt();
        let stations: Vec<StationDrift> = common
            .iter()
            .zip(&rates)
            .map(|(station, rate)| StationDrift {
                station: *station,
                rate_nm: *rate,
                half_nm: t * rate_sd * of_mean,
            })
            .collect();
        let ends = |a: &&StationDrift, b: &&StationDrift| a.rate_nm.total_cmp(&b.rate_nm);
        let growing = stations.iter().max_by(ends).ok_or(NoDrift::NoStations)?;
        let shrinking = stations.iter().min_by(ends).ok_or(NoDrift::NoStations)?;
        let fastest = Pair {
            growing: growing.station,
            shrinking: shrinking.station,
            rate_nm: growing.rate_nm - shrinking.rate_nm,
            half_nm: t * rate_sd * 2.0_f64.sqrt(),
        };
        let days: f64 = rows.iter().map(|(days, _)| days).sum();
        let mut drift = Self {
            stations,
            fastest,
            changes: rows.len(),
            days: days as i64,
            // A change holds the scatter of two pieces.
            scatter_nm: (variance / 2.0).sqrt(),
            next_check: NextCheck::ScatterAlone,
            sum_of_squares,
            dof,
        };
        if let Some(last) = visits.last() {
            drift.next_check = drift.next_check(last);
        }
        Ok(drift)
    }

    /// The largest difference between two stations, in nanometres, that a piece
    /// so many days after a visit has at the upper end of its prediction
    /// interval; none where a station was not read as left.
    pub fn worst_nm(&self, visit: &VisitSummary, days: f64) -> Option<f64> {
        let t = student_critical(1.0 - CONFIDENCE, self.dof)?;
        let left = |station: usize| visit.left_nm.get(station).copied().flatten();
        let half = t * 2.0 * self.scatter_nm * (1.0 + days * days / self.sum_of_squares).sqrt();
        let mut worst: Option<f64> = None;
        for high in &self.stations {
            for low in self
                .stations
                .iter()
                .filter(|low| low.station != high.station)
            {
                let apart = left(high.station)? - left(low.station)?;
                let apart = apart + (high.rate_nm - low.rate_nm) * days + half;
                worst = Some(worst.map_or(apart, |worst| worst.max(apart)));
            }
        }
        worst
    }

    fn next_check(&self, last: &VisitSummary) -> NextCheck {
        let limit = last.tolerance.nm_f64();
        let holds = |days: i64| {
            let worst = self.worst_nm(last, days as f64);
            worst.is_some_and(|worst| worst <= limit)
        };
        if !holds(0) {
            return NextCheck::ScatterAlone;
        }
        let ahead = ((self.days as f64 * AHEAD) as i64).max(1);
        let day = (1..=ahead).find(|days| !holds(*days));
        match day.and_then(|day| last.day?.later(day - 1)) {
            Some(day) => NextCheck::By(day),
            None => NextCheck::NotWithin(ahead),
        }
    }
}

/// The change from the last piece of a visit to the first of the next.
fn change(from: &VisitSummary, to: &VisitSummary) -> Option<Change> {
    let days = to.day?.day_number() - from.day?.day_number();
    if days < 1 || from.nuts.1 != to.nuts.0 || from.stations != to.stations {
        return None;
    }
    let stations = from.left_nm.iter().zip(&to.found_nm);
    Some(Change {
        days: days as f64,
        nm: stations
            .map(|(left, found)| Some((*found)? - (*left)?))
            .collect(),
    })
}

/// Changes at the stations that all of them have, about their own mean.
fn about_mean(changes: &[Change], common: &[usize]) -> Vec<(f64, Vec<f64>)> {
    changes
        .iter()
        .map(|change| {
            let nm = common
                .iter()
                .filter_map(|at| change.nm.get(*at).copied().flatten());
            let nm: Vec<f64> = nm.collect();
            let middle = nm.iter().sum::<f64>() / nm.len().max(1) as f64;
            (change.days, nm.iter().map(|nm| nm - middle).collect())
        })
        .collect()
}
