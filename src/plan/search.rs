//! The whole-notch turns with the smallest spread, proven.
//!
//! For thicknesses `t` (one per counting station), a response `B` and whole
//! turns `k` (one per nut, out positive) the search minimises
//!
//! ```text
//!     range(t + B k) = max_s (t + B k)_s - min_s (t + B k)_s
//! ```
//!
//! within the limits of each nut, optionally touching only so many nuts,
//! turning outward only, or keeping the mean level where it is.

use crate::press::Response;

/// Most arms the search plans for.
pub const MOST_ARMS: usize = 12;

/// Largest change of one nut that a limit may allow, in notches either way.
pub const FARTHEST_TURN: i32 = 1000;

/// Largest thickness, response or level limit taken, in nanometres (one
/// kilometre): beyond it `f64` no longer resolves the ties.
pub const LARGEST_NM: f64 = 1e12;

/// Spreads closer than this count as equal, in nanometres.
pub const EQUAL_SPREAD_NM: f64 = 1e-6;

/// The turns one nut may make, in notches, both ends included. Zero need not
/// be among them: a nut that stands outside its limits has to move.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TurnBounds {
    /// Smallest change of the nut (most inward; negative is in).
    pub least: i32,
    /// Largest change of the nut (most outward; positive is out).
    pub most: i32,
}

/// What is to be planned.
#[derive(Debug, Clone, Copy)]
pub struct SearchProblem<'a> {
    /// Thickness at each counting station, in nanometres.
    pub thickness_nm: &'a [f64],
    /// Response of the counting stations (rows) to every nut (columns).
    pub response: &'a Response,
    /// Turns allowed to each nut.
    pub bounds: &'a [TurnBounds],
    /// At most so many nuts may turn.
    pub most_nuts: Option<usize>,
    /// Only outward (positive) turns.
    pub outward_only: bool,
    /// The change of the mean over the counting stations must stay within
    /// these two figures, in nanometres, both included.
    pub level_change_nm: Option<(f64, f64)>,
    /// Give up (with the best turns so far) after so many nodes; the same on
    /// every machine, unlike a clock.
    pub most_nodes: Option<u64>,
}

impl<'a> SearchProblem<'a> {
    /// A problem with nothing but the limits of the nuts.
    pub fn new(thickness_nm: &'a [f64], response: &'a Response, bounds: &'a [TurnBounds]) -> Self {
        Self {
            thickness_nm,
            response,
            bounds,
            most_nuts: None,
            outward_only: false,
            level_change_nm: None,
            most_nodes: None,
        }
    }
}

/// The turns found.
#[derive(Debug, Clone, PartialEq)]
pub struct SearchResult {
    /// Change of each nut in whole notches, out positive.
    pub turns: Vec<i32>,
    /// Spread after these turns, in nanometres.
    pub spread_nm: f64,
    /// No permitted turns have a spread smaller by more than
    /// [`EQUAL_SPREAD_NM`]. False when the search was stopped.
    pub proven: bool,
    /// Nodes of the search tree looked at.
    pub nodes: u64,
}

/// Why there are no turns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SearchError {
    /// The search plans for 1 to [`MOST_ARMS`] arms.
    ArmCount {
        /// Arms of the response.
        arms: usize,
    },
    /// No station counts.
    NoStations,
    /// Thicknesses, bounds and response do not belong together.
    Shape {
        /// Rows of the response.
        stations: usize,
        /// Columns of the response.
        arms: usize,
        /// Thicknesses given.
        thicknesses: usize,
        /// Bounds given.
        bounds: usize,
    },
    /// A thickness, response or level limit is not a number, or larger than
    /// [`LARGEST_NM`].
    NotALength,
    /// The bounds of a nut are crossed or beyond [`FARTHEST_TURN`].
    Bounds {
        /// The nut, counted from the left from zero.
        arm: usize,
    },
    /// No whole turns satisfy all limits together.
    NothingAllowed,
    /// Stopped before any permitted turns were found.
    Stopped,
}

/// Memory of the search, kept from call to call so that the search itself
/// allocates nothing.
#[derive(Debug, Clone, Default)]
pub struct SearchWorkspace {
    profile: Vec<f64>,
}

/// Spread after `turns`, in nanometres, evaluated always in the same order.
pub fn spread_after(thickness_nm: &[f64], response: &Response, turns: &[i32]) -> f64 {
    let base = thickness_nm.iter().copied().fold(f64::INFINITY, f64::min);
    let mut low = f64::INFINITY;
    let mut high = f64::NEG_INFINITY;
    for (station, t) in thickness_nm.iter().enumerate() {
        let change = response.change_at(station, turns.iter().map(|k| f64::from(*k)));
        let after = (t - base) + change;
        low = low.min(after);
        high = high.max(after);
    }
    if high >= low { high - low } else { 0.0 }
}

/// Order of preference among equal spreads: smaller is better.
fn preference(turns: &[i32]) -> (usize, i64, i64) {
    let nuts = turns.iter().filter(|k| **k != 0).count();
    let notches = turns.iter().map(|k| i64::from(k.abs())).sum();
    let inward = turns.iter().map(|k| -i64::from(*k)).sum();
    (nuts, notches, inward)
}

/// Finds the permitted whole turns with the smallest spread.
///
/// # Errors
/// See [`SearchError`]. `cancel` is asked now and then; once it says true the
/// best turns so far are returned with `proven: false`.
pub fn smallest_spread(
    problem: &SearchProblem,
    workspace: &mut SearchWorkspace,
    cancel: &dyn Fn() -> bool,
) -> Result<SearchResult, SearchError> {
    let bounds = check(problem)?;
    let arms = problem.response.arms();
    let stations = problem.response.stations();
    let mean: Vec<f64> = (0..arms)
        .map(|arm| {
            (0..stations)
                .map(|s| problem.response.at(s, arm))
                .sum::<f64>()
                / stations as f64
        })
        .collect();
    let mut plain = Plain {
        problem,
        bounds,
        mean,
        turns: vec![0; arms],
        best: None,
        nodes: 0,
        stopped: false,
        cancel,
    };
    workspace.profile.clear();
    workspace.profile.extend_from_slice(problem.thickness_nm);
    let profile = workspace.profile.clone();
    plain.descend(0, &profile);
    let proven = !plain.stopped;
    match plain.best {
        Some((spread_nm, turns)) => Ok(SearchResult {
            turns,
            spread_nm,
            proven,
            nodes: plain.nodes,
        }),
        None if proven => Err(SearchError::NothingAllowed),
        None => Err(SearchError::Stopped),
    }
}

fn check(problem: &SearchProblem) -> Result<Vec<TurnBounds>, SearchError> {
    let response = problem.response;
    let (stations, arms) = (response.stations(), response.arms());
    if !(1..=MOST_ARMS).contains(&arms) {
        return Err(SearchError::ArmCount { arms });
    }
    if stations == 0 {
        return Err(SearchError::NoStations);
    }
    if problem.thickness_nm.len() != stations || problem.bounds.len() != arms {
        return Err(SearchError::Shape {
            stations,
            arms,
            thicknesses: problem.thickness_nm.len(),
            bounds: problem.bounds.len(),
        });
    }
    let is_length = |value: &f64| value.abs() <= LARGEST_NM;
    let (low, high) = problem.level_change_nm.unwrap_or((0.0, 0.0));
    if !problem.thickness_nm.iter().all(is_length)
        || !response.values().iter().all(is_length)
        || !is_length(&low)
        || !is_length(&high)
    {
        return Err(SearchError::NotALength);
    }
    for (arm, b) in problem.bounds.iter().enumerate() {
        if b.least > b.most || b.least < -FARTHEST_TURN || b.most > FARTHEST_TURN {
            return Err(SearchError::Bounds { arm });
        }
    }
    let bounds: Vec<TurnBounds> = problem
        .bounds
        .iter()
        .map(|b| TurnBounds {
            least: if problem.outward_only {
                b.least.max(0)
            } else {
                b.least
            },
            most: b.most,
        })
        .collect();
    if bounds.iter().any(|b| b.least > b.most) || low > high {
        return Err(SearchError::NothingAllowed);
    }
    Ok(bounds)
}

struct Plain<'a> {
    problem: &'a SearchProblem<'a>,
    bounds: Vec<TurnBounds>,
    mean: Vec<f64>,
    turns: Vec<i32>,
    best: Option<(f64, Vec<i32>)>,
    nodes: u64,
    stopped: bool,
    cancel: &'a dyn Fn() -> bool,
}

impl Plain<'_> {
    fn descend(&mut self, arm: usize, profile: &[f64]) {
        self.nodes += 1;
        if self
            .problem
            .most_nodes
            .is_some_and(|most| self.nodes > most)
            || (self.nodes % 256 == 0 && (self.cancel)())
        {
            self.stopped = true;
        }
        if self.stopped {
            return;
        }
        let nuts = self.turns[..arm].iter().filter(|k| **k != 0).count();
        if self.problem.most_nuts.is_some_and(|most| nuts > most) {
            return;
        }
        if arm == self.turns.len() {
            self.consider();
            return;
        }
        if let Some((best, _)) = &self.best
            && self.least_spread(arm, profile) > best + EQUAL_SPREAD_NM
        {
            return;
        }
        let TurnBounds { least, most } = self.bounds[arm];
        let mut next = vec![0.0; profile.len()];
        let mut values: Vec<i32> = (least..=most).collect();
        values.sort_by_key(|k| (k.abs(), -k));
        for k in values {
            self.turns[arm] = k;
            for (s, (n, p)) in next.iter_mut().zip(profile).enumerate() {
                *n = p + self.problem.response.at(s, arm) * f64::from(k);
            }
            self.descend(arm + 1, &next);
        }
        self.turns[arm] = 0;
    }

    /// A lower bound of the spread below this node: for every two stations the
    /// least difference that the remaining nuts could leave.
    fn least_spread(&self, arm: usize, profile: &[f64]) -> f64 {
        let response = self.problem.response;
        let mut bound: f64 = 0.0;
        for p in 0..profile.len() {
            for q in 0..profile.len() {
                let mut difference = profile[p] - profile[q];
                for (i, b) in self.bounds.iter().enumerate().skip(arm) {
                    let slope = response.at(p, i) - response.at(q, i);
                    difference += (slope * f64::from(b.least)).min(slope * f64::from(b.most));
                }
                bound = bound.max(difference);
            }
        }
        bound
    }

    fn consider(&mut self) {
        if let Some((low, high)) = self.problem.level_change_nm {
            let level: f64 = self
                .mean
                .iter()
                .zip(&self.turns)
                .map(|(m, k)| m * f64::from(*k))
                .sum();
            if level < low - EQUAL_SPREAD_NM || level > high + EQUAL_SPREAD_NM {
                return;
            }
        }
        let spread = spread_after(
            self.problem.thickness_nm,
            self.problem.response,
            &self.turns,
        );
        let better = match &self.best {
            None => true,
            Some((best, turns)) => {
                spread < best - EQUAL_SPREAD_NM
                    || (spread <= best + EQUAL_SPREAD_NM
                        && preference(&self.turns) < preference(turns))
            }
        };
        if better {
            self.best = Some((spread, self.turns.clone()));
        }
    }
}
