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

use std::cmp::Ordering;
use std::sync::Arc;

use crate::session::IsoDate;
use crate::stats::{Foretold, LeastSquares};

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
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Pair {
    /// The station that grows against the other.
    pub growing: usize,
    /// The other.
    pub shrinking: usize,
    /// How fast they part, in nanometres a day.
    pub rate_nm: f64,
    /// Half the width of an interval of 95 % confidence for the pair that looks
    /// worst.
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
    /// The stations that every change has, by their indices.
    common: Vec<usize>,
    fit: LeastSquares,
    /// Student's t of each of the intervals of all pairs of stations, so that all
    /// of them hold together with [`CONFIDENCE`] (Bonferroni): the pair that is
    /// looked at is not any, but the one that looks worst.
    of_each_pair: f64,
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
    pub fn of(visits: &[Arc<VisitSummary>]) -> Result<Self, NoDrift> {
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
        let fit = fitted(&changes, &common).ok_or(NoDrift::NoStations)?;
        let pairs = common.len() * (common.len() - 1) / 2;
        let each = 1.0 - (1.0 - CONFIDENCE) / pairs as f64;
        let of_one = fit.student(CONFIDENCE).ok_or(NoDrift::NoStations)?;
        let of_each_pair = fit.student(each).ok_or(NoDrift::NoStations)?;
        let days: f64 = changes.iter().map(|change| change.days).sum();
        let mut drift = Self {
            stations: Vec::new(),
            fastest: Pair::default(),
            changes: changes.len(),
            days: days as i64,
            // A change holds the scatter of two pieces.
            scatter_nm: (fit.reduced_chi_square().unwrap_or(0.0) / 2.0).sqrt(),
            next_check: NextCheck::ScatterAlone,
            common,
            fit,
            of_each_pair,
        };
        let stations = drift
            .common
            .iter()
            .enumerate()
            .filter_map(|(place, station)| {
                let rate = drift.foretold(&[(place, 1.0)], 1.0, of_one)?;
                Some(StationDrift {
                    station: *station,
                    rate_nm: rate.value,
                    half_nm: rate.certain,
                })
            });
        drift.stations = stations.collect();
        drift.fastest = drift.fastest_pair().ok_or(NoDrift::NoStations)?;
        if let Some(last) = visits.last() {
            drift.next_check = drift.next_check(last);
        }
        Ok(drift)
    }

    /// What the fit says after so many days of a weighted sum of stations, by
    /// their places among the common ones.
    fn foretold(&self, weights: &[(usize, f64)], days: f64, t: f64) -> Option<Foretold> {
        let contrasts = 1..self.common.len();
        let row: Vec<f64> = contrasts
            .map(|k| {
                let weighted = weights
                    .iter()
                    .map(|(place, weight)| weight * contrast(k, *place));
                days * weighted.sum::<f64>()
            })
            .collect();
        self.fit.foretold_within(&row, t)
    }

    fn fastest_pair(&self) -> Option<Pair> {
        let rate = |at: &usize| self.stations.get(*at).map_or(0.0, |at| at.rate_nm);
        let by_rate = |a: &usize, b: &usize| rate(a).total_cmp(&rate(b));
        let growing = (0..self.stations.len()).max_by(by_rate)?;
        let shrinking = (0..self.stations.len()).min_by(by_rate)?;
        let apart = self.foretold(&[(growing, 1.0), (shrinking, -1.0)], 1.0, self.of_each_pair)?;
        Some(Pair {
            growing: self.stations.get(growing)?.station,
            shrinking: self.stations.get(shrinking)?.station,
            rate_nm: apart.value,
            half_nm: apart.certain,
        })
    }

    /// The largest spread, in nanometres, that a piece so many days after a visit
    /// has at the upper end of the prediction intervals of all pairs of stations,
    /// which hold together; none where a station was not read as left.
    pub fn worst_nm(&self, visit: &VisitSummary, days: f64) -> Option<f64> {
        let most = |grown: &Foretold| grown.value + grown.further;
        self.spread_nm(visit, days, most)
    }

    /// The spread, in nanometres, that drift alone makes of how a visit left the
    /// press, at its best estimate, as of a day; and what the two stations that
    /// part fastest have parted since. None where no drift stands out of its
    /// uncertainty, or a station was not read as left. Beyond `AHEAD` times
    /// what was watched it is not believed to go on.
    pub fn by(&self, visit: &VisitSummary, today: IsoDate) -> Option<(f64, f64)> {
        let days = today.day_number() - visit.day?.day_number();
        let days = days.clamp(0, self.ahead()) as f64;
        let spread = self.spread_nm(visit, days, |grown| grown.value)?;
        let parted = self.fastest.rate_nm * days;
        self.fastest.is_sure().then_some((spread, parted))
    }

    /// Days ahead for which the drift is believed.
    fn ahead(&self) -> i64 {
        ((self.days as f64 * AHEAD) as i64).max(1)
    }

    /// The largest difference of two stations so many days after a visit; of
    /// what is foretold of its growth, what `counts` takes.
    fn spread_nm(
        &self,
        visit: &VisitSummary,
        days: f64,
        counts: impl Fn(&Foretold) -> f64,
    ) -> Option<f64> {
        let left = |station: usize| visit.left_nm.get(station).copied().flatten();
        // The difference of two stations scatters as two of the fitted values
        // do, so it is foretold as one of them and then widened.
        let widened = 2.0_f64.sqrt();
        let mut worst: Option<f64> = None;
        for (high, high_station) in self.common.iter().enumerate() {
            for (low, low_station) in self.common.iter().enumerate() {
                if high == low {
                    continue;
                }
                let weights = [(high, 1.0 / widened), (low, -1.0 / widened)];
                let grown = self.foretold(&weights, days, self.of_each_pair)?;
                let apart = left(*high_station)? - left(*low_station)?;
                let apart = apart + widened * counts(&grown);
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
        let ahead = self.ahead();
        if holds(ahead) {
            return NextCheck::NotWithin(ahead);
        }
        // A value that grows straight and an uncertainty that grows as √(a + b
        // days²) make every pair's difference convex in days, and so is the largest
        // of them: up to some day it holds, and never after.
        let (mut good, mut bad) = (0, ahead);
        while bad - good > 1 {
            let day = good + (bad - good) / 2;
            match holds(day) {
                true => good = day,
                false => bad = day,
            }
        }
        last.day
            .and_then(|day| day.later(good))
            .map_or(NextCheck::NotWithin(ahead), NextCheck::By)
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

/// The weight of a station, by its place, in the k-th of Helmert's contrasts:
/// orthonormal sums over stations to which a common level adds nothing, so that
/// scatter that is alike and independent at the stations stays so in them.
pub(super) fn contrast(k: usize, place: usize) -> f64 {
    let (k_f64, length) = (k as f64, ((k * (k + 1)) as f64).sqrt());
    match place.cmp(&k) {
        Ordering::Less => 1.0 / length,
        Ordering::Equal => -k_f64 / length,
        Ordering::Greater => 0.0,
    }
}

/// Fits a rate to every contrast of the changes, with one scatter for all.
fn fitted(changes: &[Change], common: &[usize]) -> Option<LeastSquares> {
    let contrasts = common.len().saturating_sub(1);
    let mut columns = vec![Vec::new(); contrasts];
    let mut values = Vec::new();
    for change in changes {
        for k in 1..=contrasts {
            let nm = common
                .iter()
                .map(|at| change.nm.get(*at).copied().flatten());
            let weighted = nm
                .enumerate()
                .map(|(place, nm)| Some(nm? * contrast(k, place)));
            values.push(weighted.sum::<Option<f64>>()?);
            for (column, other) in columns.iter_mut().zip(1..) {
                column.push(if other == k { change.days } else { 0.0 });
            }
        }
    }
    LeastSquares::solve(&columns, &values, &vec![1.0; values.len()])
}
