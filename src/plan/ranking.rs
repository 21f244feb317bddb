//! Draws that many plans are ranked on.
//!
//! They are [`PredictiveDraws`] in single precision, thickness about one of
//! them: a hundredth of a nanometre, with twice as many side by side. What is
//! stated of a plan comes from other draws and is reckoned in full.

use core::cmp::Ordering;

use super::outlook::PredictiveDraws;
use super::turns::Turns;
use crate::press::wide;

/// Draws that are judged side by side.
const ABREAST: usize = 16;

/// A value for each of them.
pub(super) type Abreast = [f32; ABREAST];

/// How good turns look on the draws: larger is better.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Score {
    /// Draws whose next piece is inside the tolerance.
    pub inside: u32,
    /// Mean spread over the draws; decides where no draw is inside.
    pub spread_nm: f64,
}

impl Score {
    /// The better one first.
    pub fn order(self, other: Self) -> Ordering {
        let by_chance = other.inside.cmp(&self.inside);
        by_chance.then(self.spread_nm.total_cmp(&other.spread_nm))
    }

    pub fn beats(self, other: Self) -> bool {
        self.order(other) == Ordering::Less
    }
}

/// Joint draws of the next piece and of what turns do to it.
pub(super) struct Ranking {
    stations: usize,
    arms: usize,
    /// Of each block of draws the thickness at the stations.
    laced: Vec<Abreast>,
    /// Of each block, arm by arm, the response of the stations.
    response: Vec<Abreast>,
}

impl Ranking {
    pub fn new(draws: &PredictiveDraws) -> Self {
        let (stations, arms) = (draws.stations(), draws.arms());
        let blocks = draws.draws() / ABREAST;
        debug_assert!(draws.draws() == blocks * ABREAST);
        let about = draws.laced(0).first().copied().unwrap_or(0.0);
        let single = |values: &[f64], block: usize, about: f64| -> Abreast {
            let values = &values[block * ABREAST..(block + 1) * ABREAST];
            core::array::from_fn(|k| (values[k] - about) as f32)
        };
        let (mut laced, mut response) = (Vec::new(), Vec::new());
        for block in 0..blocks {
            laced.extend((0..stations).map(|s| single(draws.laced(s), block, about)));
            for arm in 0..arms {
                let of_arm = (0..stations).map(|s| single(draws.response(s, arm), block, 0.0));
                response.extend(of_arm);
            }
        }
        Self {
            stations,
            arms,
            laced,
            response,
        }
    }

    /// What one nut does to the stations in a block of draws.
    #[inline(always)]
    fn of_nut(&self, block: usize, arm: usize) -> &[Abreast] {
        let begin = (block * self.arms + arm) * self.stations;
        &self.response[begin..begin + self.stations]
    }

    /// Thickness after `turns`, as [`score`](Self::score) takes it.
    pub fn profile(&self, turns: &Turns, into: &mut Vec<Abreast>) {
        into.clear();
        into.extend_from_slice(&self.laced);
        let turned = turns.iter().take(self.arms).enumerate();
        let turned: Vec<(usize, f32)> = turned
            .filter(|(_, turn)| **turn != 0)
            .map(|(arm, turn)| (arm, *turn as f32))
            .collect();
        wide(
            #[inline(always)]
            || {
                for (block, profile) in into.chunks_exact_mut(self.stations).enumerate() {
                    for &(arm, turn) in &turned {
                        for (into, b) in profile.iter_mut().zip(self.of_nut(block, arm)) {
                            let t = *into;
                            *into = core::array::from_fn(|k| t[k] + turn * b[k]);
                        }
                    }
                }
            },
        );
    }

    /// How good a profile looks with two nuts turned further, (nut, notches)
    /// each.
    pub fn score(&self, profile: &[Abreast], moves: [(usize, i32); 2], tolerance_nm: f64) -> Score {
        let (tolerance, [by, more]) = (tolerance_nm as f32, moves.map(|(_, by)| by as f32));
        let (inside, sum) = wide(
            #[inline(always)]
            || {
                // Counted as numbers, side by side like the sums.
                let (mut inside, mut sum) = ([0.0; ABREAST], [0.0; ABREAST]);
                for (block, profile) in profile.chunks_exact(self.stations).enumerate() {
                    let [b, c] = moves.map(|(arm, _)| self.of_nut(block, arm));
                    let mut low = [f32::INFINITY; ABREAST];
                    let mut high = [f32::NEG_INFINITY; ABREAST];
                    for ((t, b), c) in profile.iter().zip(b).zip(c) {
                        for k in 0..ABREAST {
                            let t = t[k] + (by * b[k] + more * c[k]);
                            low[k] = if t < low[k] { t } else { low[k] };
                            high[k] = if t > high[k] { t } else { high[k] };
                        }
                    }
                    for k in 0..ABREAST {
                        let spread = high[k] - low[k];
                        inside[k] += if spread <= tolerance { 1.0 } else { 0.0 };
                        sum[k] += spread;
                    }
                }
                (inside, sum)
            },
        );
        let draws = self.laced.len() / self.stations * ABREAST;
        Score {
            inside: inside.iter().sum::<f32>() as u32,
            spread_nm: sum.iter().copied().map(f64::from).sum::<f64>() / draws.max(1) as f64,
        }
    }
}
