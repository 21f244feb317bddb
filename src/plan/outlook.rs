//! Joint draws of what the press may be and what its next piece may measure.
//!
//! Profile and response are uncertain together: what made the profile look
//! thick at one station makes the response look strong there. So both are drawn
//! jointly, once, and every plan is judged on the same draws: the difference
//! between two plans is then far better known than either chance. Given a draw,
//! the stations of the next piece are independent normals (lacing scatter), so
//! the chance given the draw is an integral, not a count.

use super::error::PlanError;
use super::learn::Posterior;
use super::scales::{Scales, open_variance};
use super::turns::Turns;
use crate::press::wide;
use crate::stats::{Kept, Purpose, add_scaled, cholesky_semidefinite};

/// Draws that are judged side by side.
const ABREAST: usize = 8;

/// A value for each of them.
type Abreast = [f64; ABREAST];

/// Joint draws for the stations that count.
#[derive(Debug, Clone)]
pub(super) struct PredictiveDraws {
    stations: usize,
    arms: usize,
    draws: usize,
    lacing_nm: f64,
    scale: Scales,
    /// Mean profile of the press with its present nuts; station by station, a
    /// value per draw.
    press: Vec<f64>,
    /// That, with the tilt of the next piece.
    piece: Vec<f64>,
    /// That, with its lacing scatter.
    laced: Vec<f64>,
    /// Response; station by station, arm by arm, a value per draw.
    response: Vec<f64>,
}

/// Memory for judging plans, kept from call to call.
#[derive(Debug, Clone, Default)]
pub struct PredictiveScratch {
    profile: Vec<f64>,
    spreads: Vec<f64>,
    means: Vec<f64>,
    pub(crate) kept: Kept,
}

/// What is to be expected of the next piece.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Forecast {
    /// Median of its spread, in nanometres.
    pub median_nm: f64,
    /// Spread that nine in ten stay within, in nanometres.
    pub p90_nm: f64,
    /// Probability that its spread is inside the tolerance.
    pub chance: f64,
}

impl PredictiveDraws {
    /// Draws, a multiple of eight, for the stations `counting` (indices among all
    /// stations).
    ///
    /// # Errors
    /// [`PlanError::NothingCounts`] without a station, or with one that does
    /// not exist.
    pub fn new(
        posterior: &Posterior,
        counting: &[usize],
        draws: usize,
        purpose: Purpose,
        kept: &mut Kept,
    ) -> Result<Self, PlanError> {
        Self::drawn(posterior, counting, draws, purpose, kept, true)
    }

    /// The same where the nuts stay as they are and nothing is asked of turns.
    ///
    /// # Errors
    /// As [`new`](Self::new).
    pub(super) fn of_nuts_left(
        posterior: &Posterior,
        counting: &[usize],
        draws: usize,
        purpose: Purpose,
        kept: &mut Kept,
    ) -> Result<Self, PlanError> {
        Self::drawn(posterior, counting, draws, purpose, kept, false)
    }

    fn drawn(
        posterior: &Posterior,
        counting: &[usize],
        draws: usize,
        purpose: Purpose,
        kept: &mut Kept,
        turned: bool,
    ) -> Result<Self, PlanError> {
        if counting.is_empty() || counting.iter().any(|s| *s >= posterior.stations()) {
            return Err(PlanError::NothingCounts);
        }
        debug_assert!(draws.is_multiple_of(ABREAST));
        let (stations, arms) = (counting.len(), posterior.arms());
        let all = posterior.stations() * arms;
        // Which quantities of the state are needed: per station its row of the
        // response, then the first profile.
        let responses = counting.iter().flat_map(|s| s * arms..(s + 1) * arms);
        let wanted: Vec<usize> = responses.chain(counting.iter().map(|s| all + s)).collect();
        let n = wanted.len();
        let state = posterior.state();
        let widening = posterior.widening();
        let mut factor = Vec::with_capacity(n * n);
        for &a in &wanted {
            let row = state.covariance_row(a);
            factor.extend(wanted.iter().map(|&b| widening * row[b]));
        }
        cholesky_semidefinite(&mut factor, n)?;
        let mean = |row: usize| state.mean()[wanted[row]];
        let weights = |row: usize| &factor[row * n..=row * n + row];
        let responses = stations * arms;
        let mut response = Vec::new();
        for row in 0..if turned { responses } else { 0 } {
            response.extend(std::iter::repeat_n(mean(row), draws));
        }
        let cube = kept.cube(draws, purpose);
        // The state, the tilt, the scatter of the next piece.
        let dimensions = n + 1 + stations;
        let scores = cube.normals(dimensions);
        let per_score: Vec<&[Abreast]> = scores.iter().map(|scores| eights(scores)).collect();
        let (of_responses, of_profiles) = per_score.split_at(responses);
        // What a known response leaves open of the profile, apart: it comes
        // from the scatter of lacings and readings.
        let mut open = vec![0.0; stations * draws];
        let mut press = Vec::with_capacity(stations * draws);
        wide(
            #[inline(always)]
            || {
                for (row, values) in response.chunks_exact_mut(draws.max(1)).enumerate() {
                    add_all(values, weights(row), of_responses);
                }
                for (s, open) in open.chunks_exact_mut(draws.max(1)).enumerate() {
                    // The first profile, and the response as far as the nuts
                    // have moved.
                    let mut sum = weights(responses + s).to_vec();
                    let mut middle = mean(responses + s) + posterior.reference_nm();
                    for (row, moved) in (s * arms..).zip(posterior.moved()) {
                        add_scaled(&mut sum, *moved, weights(row));
                        middle += moved * mean(row);
                    }
                    press.extend(std::iter::repeat_n(middle, draws));
                    add_all(&mut press[s * draws..], &sum[..responses], of_responses);
                    add_all(open, &sum[responses..], of_profiles);
                }
            },
        );
        let noise = posterior.noise();
        let lacing_nm = widening.sqrt() * noise.lacing_nm;
        let tilt_nm = widening.sqrt() * noise.tilt_nm;
        let tilts: Vec<f64> = scores[n].iter().map(|z| tilt_nm * z).collect();
        let open_nm2 = open_variance(&factor, stations, arms) / widening;
        let scale = Scales::of(posterior.noise(), posterior.scales(), open_nm2, || {
            cube.uniform_after(dimensions)
        });
        let lacings = &cube.normals(dimensions)[n + 1..];
        let of_draws = |of: fn(&Scales, usize) -> f64| -> Vec<f64> {
            (0..draws).map(|draw| of(&scale, draw)).collect()
        };
        let (profiles, lacing_scales) = (of_draws(Scales::profile), of_draws(Scales::lacing));
        let mut piece = Vec::with_capacity(stations * draws);
        let mut laced = Vec::with_capacity(stations * draws);
        wide(
            #[inline(always)]
            || {
                let each = press.chunks_exact_mut(draws.max(1)).enumerate();
                let each = each.zip(open.chunks_exact(draws.max(1)).zip(lacings));
                for ((s, press), (open, scores)) in each {
                    for ((t, scale), open) in press.iter_mut().zip(&profiles).zip(open) {
                        *t += scale * open;
                    }
                    piece.extend_from_slice(press);
                    let piece = &mut piece[s * draws..];
                    add_scaled(piece, posterior.along()[counting[s]], &tilts);
                    laced.extend_from_slice(piece);
                    let laced = laced[s * draws..].iter_mut();
                    for ((t, scale), z) in laced.zip(&lacing_scales).zip(scores) {
                        *t += lacing_nm * scale * z;
                    }
                }
            },
        );
        Ok(Self {
            stations,
            arms,
            draws,
            lacing_nm,
            scale,
            press,
            piece,
            laced,
            response,
        })
    }

    /// Number of joint draws.
    pub fn draws(&self) -> usize {
        self.draws
    }

    /// Number of stations.
    pub(super) fn stations(&self) -> usize {
        self.stations
    }

    /// Number of arms.
    pub(super) fn arms(&self) -> usize {
        self.arms
    }

    /// The next piece at one station with the nuts as they are, lacing scatter
    /// drawn too; a value per draw.
    pub(super) fn laced(&self, station: usize) -> &[f64] {
        &self.laced[station * self.draws..(station + 1) * self.draws]
    }

    /// The response of one station to one nut, a value per draw.
    pub(super) fn response(&self, station: usize, arm: usize) -> &[f64] {
        let begin = (station * self.arms + arm) * self.draws;
        &self.response[begin..begin + self.draws]
    }

    /// Profile of the next piece after `turns`, lacing scatter drawn too:
    /// station by station, a value per draw.
    pub(super) fn laced_profile(&self, turns: &Turns, into: &mut Vec<f64>) {
        self.profile(&self.laced, turns, into);
    }

    /// A profile after `turns`, station by station, a value per draw.
    fn profile(&self, base: &[f64], turns: &Turns, into: &mut Vec<f64>) {
        into.resize(self.stations * self.draws, 0.0);
        let (base, turned, blocks) = (eights(base), self.turned(turns), self.blocks());
        wide(
            #[inline(always)]
            || {
                let stations = into.as_chunks_mut().0.chunks_exact_mut(blocks.max(1));
                for (s, into) in stations.enumerate() {
                    for (block, into) in into.iter_mut().enumerate() {
                        *into = self.after(base, &turned, s, block);
                    }
                }
            },
        );
    }

    /// The nuts that are turned, and by how many notches.
    fn turned(&self, turns: &Turns) -> Vec<(usize, f64)> {
        let turns = turns.iter().take(self.arms).enumerate();
        let turned = turns.filter(|(_, turn)| **turn != 0);
        turned.map(|(arm, turn)| (arm, f64::from(*turn))).collect()
    }

    /// Thickness at one station after turns, for a block of draws.
    #[inline(always)]
    fn after(&self, base: &[Abreast], turned: &[(usize, f64)], s: usize, block: usize) -> Abreast {
        let (response, blocks) = (eights(&self.response), self.blocks());
        let mut t = base[s * blocks + block];
        for (arm, turn) in turned {
            let b = &response[(s * self.arms + arm) * blocks + block];
            for k in 0..ABREAST {
                t[k] += turn * b[k];
            }
        }
        t
    }

    /// Of the draws, those inside the tolerance when a [laced
    /// profile](Self::laced_profile) is `off` by so much at every station.
    pub(super) fn inside(&self, profile: &[f64], off: &[f64], tolerance_nm: f64) -> usize {
        let (profile, blocks) = (eights(profile), self.blocks());
        wide(
            #[inline(always)]
            || {
                // Counted as numbers, side by side like the spreads.
                let mut inside = [0.0; ABREAST];
                for block in 0..blocks {
                    let spreads = self.spreads(
                        #[inline(always)]
                        |s| {
                            let off = off.get(s).copied().unwrap_or(0.0);
                            profile[s * blocks + block].map(|t| t + off)
                        },
                    );
                    for (inside, spread) in inside.iter_mut().zip(spreads) {
                        *inside += if spread <= tolerance_nm { 1.0 } else { 0.0 };
                    }
                }
                inside.iter().sum::<f64>() as usize
            },
        )
    }

    /// Blocks of draws that are judged side by side.
    fn blocks(&self) -> usize {
        self.draws / ABREAST
    }

    /// The spreads of a block of draws, given their thickness at a station.
    #[inline(always)]
    fn spreads(&self, thickness: impl Fn(usize) -> Abreast) -> Abreast {
        let mut low = [f64::INFINITY; ABREAST];
        let mut high = [f64::NEG_INFINITY; ABREAST];
        for s in 0..self.stations {
            let t = thickness(s);
            for k in 0..ABREAST {
                low[k] = if t[k] < low[k] { t[k] } else { low[k] };
                high[k] = if t[k] > high[k] { t[k] } else { high[k] };
            }
        }
        core::array::from_fn(|k| high[k] - low[k])
    }

    /// Probability that the spread of the next piece after `turns` is inside
    /// the tolerance: the mean over the draws of the chance given each, with
    /// the lacing scatter of each.
    pub(super) fn next_piece_chance(
        &self,
        turns: &Turns,
        tolerance_nm: f64,
        scratch: &mut PredictiveScratch,
    ) -> f64 {
        let d = self.draws;
        self.profile(&self.piece, turns, &mut scratch.profile);
        scratch.means.resize(self.stations, 0.0);
        let range = scratch.kept.range();
        let (means, profile) = (&mut scratch.means, &scratch.profile);
        let sum = wide(
            #[inline(always)]
            || {
                let mut sum = 0.0;
                for draw in 0..d {
                    for (s, mean) in means.iter_mut().enumerate() {
                        *mean = profile[s * d + draw];
                    }
                    let lacing_nm = self.scale.lacing(draw) * self.lacing_nm;
                    sum += range.probability(lacing_nm, tolerance_nm, means);
                }
                sum
            },
        );
        sum / d.max(1) as f64
    }

    /// No less than [`next_piece_chance`](Self::next_piece_chance), for a tenth of
    /// the work.
    pub(super) fn next_piece_chance_at_most(
        &self,
        turns: &Turns,
        tolerance_nm: f64,
        kept: &mut Kept,
    ) -> f64 {
        let (base, turned, range) = (eights(&self.piece), self.turned(turns), kept.range());
        let sum = wide(
            #[inline(always)]
            || {
                let mut sum = 0.0;
                for block in 0..self.blocks() {
                    let spreads = self.spreads(
                        #[inline(always)]
                        |s| self.after(base, &turned, s, block),
                    );
                    for (k, spread) in spreads.into_iter().enumerate() {
                        let lacing_nm = self.scale.lacing(block * ABREAST + k) * self.lacing_nm;
                        sum += range.at_most(lacing_nm, tolerance_nm, spread);
                    }
                }
                sum
            },
        );
        sum / self.draws.max(1) as f64
    }

    /// Probability that the press's mean profile with the nuts as they are has a
    /// spread inside the tolerance, where it lies elsewhere than believed by so
    /// much at each station (nm; missing ones count as zero): the share of the
    /// draws.
    pub(super) fn press_chance(&self, by_nm: &[f64], tolerance_nm: f64) -> f64 {
        self.inside(&self.press, by_nm, tolerance_nm) as f64 / self.draws.max(1) as f64
    }

    /// Median of the next piece's spread after `turns`, and the limit that nine
    /// in ten stay within.
    pub(super) fn spread_limits(
        &self,
        turns: &Turns,
        scratch: &mut PredictiveScratch,
    ) -> (f64, f64) {
        let (base, turned) = (eights(&self.laced), self.turned(turns));
        let spreads = &mut scratch.spreads;
        spreads.resize(self.draws, 0.0);
        wide(
            #[inline(always)]
            || {
                for (block, spreads) in spreads.as_chunks_mut().0.iter_mut().enumerate() {
                    *spreads = self.spreads(
                        #[inline(always)]
                        |s| self.after(base, &turned, s, block),
                    );
                }
            },
        );
        let last = spreads.len().saturating_sub(1);
        let mut at = |share: f64| {
            let place = (share * last as f64).round() as usize;
            if spreads.is_empty() {
                return 0.0;
            }
            *spreads.select_nth_unstable_by(place, f64::total_cmp).1
        };
        (at(0.5), at(0.9))
    }
}

/// Adds scores, each with its weight.
#[inline(always)]
fn add_all(values: &mut [f64], weights: &[f64], scores: &[&[Abreast]]) {
    for (block, values) in values.as_chunks_mut().0.iter_mut().enumerate() {
        let mut sum: Abreast = *values;
        for (weight, scores) in weights.iter().zip(scores) {
            let scores = &scores[block];
            for k in 0..ABREAST {
                sum[k] += weight * scores[k];
            }
        }
        *values = sum;
    }
}

/// Values of draws, block by block.
fn eights(values: &[f64]) -> &[Abreast] {
    values.as_chunks().0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::tests_plan::three_arms;

    /// What predictions missed widens variances; the scatter of a lacing, a
    /// standard deviation, goes with the root.
    #[test]
    fn what_was_missed_widens_the_scatter_by_the_root() {
        // Nothing is turned, and the middle is 0.016 in up, then down.
        let posterior = three_arms(&[1.0, -1.0, 1.0, -1.0, 1.0, -1.0].map(|side| {
            let middle = 6.35e6 + 406_400.0 * side;
            ([0.0; 3], [6.35e6, middle, 6.35e6], 3)
        }));
        let widening = posterior.widening();
        assert!(widening > 1.5, "{widening}");
        let draws = PredictiveDraws::new(
            &posterior,
            &[0, 1, 2],
            64,
            Purpose::Chance,
            &mut Kept::default(),
        )
        .unwrap();
        let ratio = draws.lacing_nm / posterior.noise().lacing_nm;
        assert!((ratio * ratio / widening - 1.0).abs() < 1e-9, "{ratio}");
    }
}
