//! What the nuts leave of a piece's spread, and what stops them.

use super::learn::Posterior;
use super::search::{FARTHEST_TURN, TurnBounds, fractional_turns};
use crate::press::{ArmIndex, Response};
use crate::stats::{Draws, Purpose};
use crate::stats::{SparseRow, cholesky_semidefinite};

/// Pieces drawn of a press that nuts could cure. With the piece that was read
/// they are a hundred, all as likely to leave the most were it such a press
/// too (a Monte Carlo test: Barnard, J. R. Stat. Soc. B 25, 1963; from memory).
const DRAWS: usize = 99;
/// So many of them may leave as much as the piece that was read: 5 of 100.
const MAY_EXCEED: usize = 4;

/// What is left of a spread even by turns that need not be whole, and why.
#[derive(Debug, Clone, PartialEq)]
pub enum Remainder {
    /// No turns however far take it away, and it is more than lacing and gauge
    /// would leave but one time in twenty: wear, belt or hooks.
    NoNutCures {
        /// The spread left, in nanometres.
        spread_nm: f64,
    },
    /// Nuts may not go far enough at once; another re-lace takes it away.
    NotInThisRelace {
        /// The spread left, in nanometres.
        spread_nm: f64,
    },
    /// The limits or opening margins of nuts stop it.
    LimitsStop {
        /// The spread left, in nanometres.
        spread_nm: f64,
        /// The arms whose nuts stand at their limits then.
        arms: Vec<ArmIndex>,
    },
}

/// A piece, and how far its nuts may go.
#[derive(Debug, Clone, Copy)]
pub struct Leavings<'a> {
    /// What the passes taught.
    pub posterior: &'a Posterior,
    /// The stations that count and were read, as indices among all stations.
    pub stations: &'a [usize],
    /// Mean thickness at each of them, in nanometres, and how many readings
    /// that is the mean of.
    pub thickness_nm: &'a [f64],
    /// Number of readings at each.
    pub repeats: &'a [u32],
    /// How far each nut may go in this re-lace.
    pub relace: &'a [TurnBounds],
    /// How far each nut may go at all.
    pub limits: &'a [TurnBounds],
    /// Less than this is not worth a word, in nanometres.
    pub worth_nm: f64,
}

/// What is left of the piece's spread at the best turns, whole or not, and why;
/// `None` where little is, or lacing and gauge alone would leave as much.
///
/// The best turns are sought thrice: within the bounds of the re-lace, within
/// the limits, and without any. Without any, a turn of all nuts alike counts as
/// a change of level and no more, as the handle makes it: every station's
/// answer is scaled to the same sum. That stations answer it a little unequally
/// is no cure, for it would take a hundred notches. What is left then is
/// compared with what is left of pieces from a press that the same turns would cure: the readings'
/// lacing and gauge scatter and tilt, and the response as uncertain as it is
/// believed, by the [`fractional_turns`] of the same mean response.
pub fn remainder(of: &Leavings) -> Option<Remainder> {
    let all = of.posterior.response();
    let response = all.of_stations(of.stations);
    let left = |bounds: &[TurnBounds]| fractional_turns(of.thickness_nm, &response, bounds);
    let now = left(of.relace)?;
    if now.spread_nm <= of.worth_nm {
        return None;
    }
    let level = levelled(&response);
    let free = fractional_turns(of.thickness_nm, &level, &free_of(all.arms()))?;
    if free.spread_nm > of.worth_nm && is_beyond_scatter(of, &level, &free.turns, free.spread_nm) {
        return Some(Remainder::NoNutCures {
            spread_nm: free.spread_nm,
        });
    }
    let limited = left(of.limits)?;
    if limited.spread_nm > free.spread_nm + of.worth_nm {
        let arms = (0..)
            .map(ArmIndex)
            .zip(of.limits.iter().zip(&limited.turns));
        let arms = arms.filter(|(_, (bounds, turn))| {
            let (least, most) = (f64::from(bounds.least), f64::from(bounds.most));
            **turn <= least + AT_A_LIMIT || **turn >= most - AT_A_LIMIT
        });
        return Some(Remainder::LimitsStop {
            spread_nm: limited.spread_nm,
            arms: arms.map(|(arm, _)| arm).collect(),
        });
    }
    (now.spread_nm > limited.spread_nm + of.worth_nm).then_some(Remainder::NotInThisRelace {
        spread_nm: now.spread_nm,
    })
}

/// The same answers, scaled at every station so that a turn of all nuts alike
/// moves them all alike; as they are where that cannot be.
fn levelled(response: &Response) -> Response {
    let (stations, arms) = (response.stations(), response.arms());
    let sum = |s: usize| (0..arms).map(|i| response.at(s, i)).sum::<f64>();
    let mean = (0..stations).map(sum).sum::<f64>() / stations.max(1) as f64;
    if !(0..stations).all(|s| sum(s) > 0.1 * mean && mean > 0.0) {
        return response.clone();
    }
    Response::from_fn(stations, arms, |s, i| response.at(s, i) * mean / sum(s))
}

/// Notches from a limit that count as none.
const AT_A_LIMIT: f64 = 1e-6;

fn free_of(arms: usize) -> Vec<TurnBounds> {
    let free = TurnBounds {
        least: -FARTHEST_TURN,
        most: FARTHEST_TURN,
    };
    vec![free; arms]
}

/// Whether a piece from a press that `turns` would cure leaves so much but one
/// time in twenty.
///
/// Such a piece is -B k + e, and of that everything in the columns of the mean
/// response is cured: what may be left is (mean B - B) k + e.
fn is_beyond_scatter(of: &Leavings, response: &Response, turns: &[f64], left_nm: f64) -> bool {
    let (state, noise, along) = (
        of.posterior.state(),
        of.posterior.noise(),
        of.posterior.along(),
    );
    let n = of.stations.len();
    // Any turn of all nuts alike cures as much; so that with least doubt.
    let common = turns.iter().sum::<f64>() / turns.len().max(1) as f64;
    let turns: Vec<f64> = turns.iter().map(|turn| turn - common).collect();
    let rows: Vec<SparseRow> = of
        .stations
        .iter()
        .map(|s| (s * turns.len()..).zip(turns.iter().copied()).collect())
        .collect();
    // Scatter that is estimated may be more or less, each in as many draws.
    let mut factors = Vec::new();
    for scale in of.posterior.scales() {
        let mut factor = Vec::with_capacity(n * n);
        for (a, (s, repeats)) in of.stations.iter().zip(of.repeats).enumerate() {
            for (b, t) in of.stations.iter().enumerate() {
                let tilt = noise.tilt_nm * noise.tilt_nm * along[*s] * along[*t];
                let scatter = if a == b {
                    scale * scale * noise.station_variance(*repeats)
                } else {
                    0.0
                };
                factor.push(state.covariance_of(&rows[a], &rows[b]) + tilt + scatter);
            }
        }
        if cholesky_semidefinite(&mut factor, n).is_err() {
            return false;
        }
        factors.push(factor);
    }
    let mut draws = Draws::new(Purpose::Remainder);
    let free = free_of(response.arms());
    let mut exceed = 0;
    for factor in factors.iter().cycle().take(DRAWS) {
        let mut piece = vec![0.0; n];
        for column in 0..n {
            let score = draws.normal();
            for row in column..n {
                piece[row] += factor[row * n + column] * score;
            }
        }
        let left = fractional_turns(&piece, response, &free);
        exceed += usize::from(left.is_none_or(|left| left.spread_nm >= left_nm));
        if exceed > MAY_EXCEED {
            return false;
        }
    }
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn answers_are_levelled_where_they_can_be() {
        let of = |rows: [[f64; 2]; 2]| Response::from_fn(2, 2, |s, i| rows[s][i]);
        // Rows of 4 and 2: their mean is 3.
        let uneven = of([[1.0, 3.0], [2.0, 0.0]]);
        let level = of([[0.75, 2.25], [3.0, 0.0]]);
        assert_eq!(levelled(&uneven), level);
        // Whatever the unit.
        let small = |rows: [[f64; 2]; 2]| of(rows.map(|row| row.map(|value| value / 1024.0)));
        let [uneven, level] = [[[1.0, 3.0], [2.0, 0.0]], [[0.75, 2.25], [3.0, 0.0]]].map(small);
        assert_eq!(levelled(&uneven), level);
        // A station that all nuts together do not move, or move the other way.
        for row in [[1.0, -1.0], [-2.0, 1.0]] {
            let odd = of([[1.0, 3.0], row]);
            assert_eq!(levelled(&odd), odd);
        }
    }
}
