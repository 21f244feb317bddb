//! Bounds that outlive the node they were found at.
//!
//! The multipliers of a vertex give, for *every* choice of the fixed steps, a
//! lower bound of the spread that is linear in them. With weights `w` on the
//! stations (the positive ones and the negative ones each adding up to one),
//! `eta` on the level and any slopes `lambda` on the fixed steps,
//!
//! ```text
//!     range(t + B k) >= w t + w B k
//!                    >= w t + lambda z + level part + least over the box of (rest) k
//! ```
//!
//! holds whatever the multipliers are (weak duality), so that the bound is
//! evaluated from the problem's own figures and rounding in the simplex steps
//! can make it weaker but never wrong. A bound found once is tried first at
//! later nodes of the same depth and saves most of their simplex steps, as the
//! cuts of Benders do (Numer. Math. 4, 1962).

use super::MOST_ARMS;
use super::model::{Model, PerArm};
use super::vertex::{Row, Vertex};

/// Cuts kept at each depth.
const KEPT: usize = 24;

/// Rounding allowed for, relative to the sum of all terms without sign.
const ROUNDING: f64 = 4e-15;

/// `constant + slopes * steps` bounds the scaled spread from below; or, for a
/// `spread` of false, no permitted turns exist where it is above zero.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Cut {
    pub constant: f64,
    pub slopes: PerArm,
    pub spread: bool,
}

impl Cut {
    /// The bound that the multipliers of `vertex` give, in the first `depth`
    /// steps. None when no station bears any weight.
    pub fn from_multipliers(vertex: &Vertex, model: &Model, depth: usize) -> Option<Self> {
        let mut sums = Sums::default();
        let (mut upper, mut lower) = (0.0, 0.0);
        for j in 0..vertex.free {
            match vertex.active[j] {
                Row::Upper(_) => upper += vertex.multiplier(j),
                Row::Lower(_) => lower += vertex.multiplier(j),
                _ => {}
            }
        }
        if !(upper > 0.5 && lower > 0.5) {
            return None;
        }
        for j in 0..vertex.free {
            let weight = vertex.multiplier(j);
            match vertex.active[j] {
                Row::Upper(s) => sums.station(model, s, weight / upper),
                Row::Lower(s) => sums.station(model, s, -weight / lower),
                row => sums.limit(row, weight),
            }
        }
        Some(sums.cut(model, depth, true))
    }

    /// After a vertex was found empty: what proves it, in the first `depth`
    /// steps.
    pub fn from_ray(vertex: &Vertex, model: &Model, depth: usize) -> Self {
        let mut sums = Sums::default();
        for j in 0..vertex.free {
            sums.limit(vertex.active[j], (-vertex.ray[j]).max(0.0));
        }
        if let Some(row) = vertex.unmet {
            sums.limit(row, 1.0);
        }
        sums.cut(model, depth, false)
    }

    /// The value at fixed steps.
    pub fn at(&self, steps: &PerArm, depth: usize) -> f64 {
        let slopes = self.slopes.iter().zip(steps).take(depth);
        self.constant + slopes.map(|(a, z)| a * z).sum::<f64>()
    }

    /// The least value over the limits `low..=high` of all steps.
    pub fn least(&self, low: &PerArm, high: &PerArm) -> f64 {
        let limits = low.iter().zip(high);
        let slopes = self.slopes.iter().zip(limits);
        self.constant + slopes.map(|(a, (l, h))| (a * l).min(a * h)).sum::<f64>()
    }

    /// A cut in all steps, for step `i` alone (which becomes the first), the
    /// others doing their best within the model's limits.
    pub fn for_one(&self, i: usize, model: &Model) -> Self {
        let mut others = *self;
        others.slopes[i] = 0.0;
        let mut slopes = [0.0; MOST_ARMS];
        slopes[0] = self.slopes[i];
        Self {
            constant: others.least(&model.low, &model.high),
            slopes,
            spread: self.spread,
        }
    }

    /// Narrows `low..=high`, the values of step number `depth - 1`, to those
    /// that the cut does not forbid below `threshold`, the earlier steps being
    /// fixed.
    pub fn narrow(&self, steps: &PerArm, depth: usize, threshold: f64, range: &mut (f64, f64)) {
        let slope = self.slopes[depth - 1];
        let limit = if self.spread { threshold } else { 0.0 };
        let room = limit - self.at(steps, depth - 1);
        if slope.abs() > 1e-12 {
            // The quotient is rounded: the next value may still be allowed.
            let outward = slope.signum();
            let last = (room / slope * outward).floor() * outward;
            let next = last + outward;
            let last = if slope * next <= room { next } else { last };
            if slope > 0.0 {
                range.1 = range.1.min(last);
            } else {
                range.0 = range.0.max(last);
            }
        } else if room + slope.abs() * range.0.abs().max(range.1.abs()) < 0.0 {
            range.1 = range.0 - 1.0;
        }
    }
}

/// Weighted sums of constraints.
#[derive(Debug, Clone, Copy, Default)]
struct Sums {
    /// Sum of the limits.
    constant: f64,
    /// How the sum of stations answers to each nut.
    slopes: PerArm,
    /// Weights of the limits of the nuts themselves.
    nuts: PerArm,
    /// All terms without sign, for the rounding.
    size: f64,
    slope_sizes: PerArm,
}

impl Sums {
    fn station(&mut self, model: &Model, station: u16, weight: f64) {
        let s = usize::from(station);
        self.add(weight * model.thickness[s], weight, &model.by_turn[s]);
    }

    fn limit(&mut self, row: Row, weight: f64) {
        match row {
            Row::TurnLow(i) => self.nuts[usize::from(i)] += weight,
            Row::TurnHigh(i) => self.nuts[usize::from(i)] -= weight,
            Row::Upper(_) | Row::Lower(_) => {}
        }
    }

    fn add(&mut self, limit: f64, weight: f64, slopes: &PerArm) {
        self.constant += limit;
        self.size += limit.abs();
        let sums = self.slopes.iter_mut().zip(&mut self.slope_sizes);
        for ((sum, size), slope) in sums.zip(slopes) {
            let term = weight * slope;
            *sum += term;
            *size += term.abs();
        }
    }

    /// The slopes on the fixed steps are the ones under which, but for
    /// rounding, only the weighted limits of the nuts are left to bound.
    fn cut(mut self, model: &Model, depth: usize, spread: bool) -> Cut {
        let n = model.arms;
        let mut slopes = [0.0; MOST_ARMS];
        for (i, by_step) in model.turn_by_step.iter().enumerate().take(n) {
            let total = self.slopes[i] - self.nuts[i];
            for (slope, u) in slopes.iter_mut().zip(by_step).take(depth) {
                *slope += total * u;
            }
        }
        for (j, slope) in slopes.iter().enumerate().take(depth) {
            let farthest = model.step_low[j].abs().max(model.step_high[j].abs());
            self.size += slope.abs() * farthest;
            for (i, v) in model.step_by_turn[j].iter().enumerate().take(n) {
                let term = slope * v;
                self.slopes[i] -= term;
                self.slope_sizes[i] += term.abs();
            }
        }
        for i in 0..n {
            let (low, high) = (model.low[i], model.high[i]);
            self.constant += (self.slopes[i] * low).min(self.slopes[i] * high);
            self.size += self.slope_sizes[i] * low.abs().max(high.abs());
        }
        Cut {
            constant: self.constant - ROUNDING * self.size,
            slopes,
            spread,
        }
    }
}

/// The cuts of one depth, the oldest replaced first.
#[derive(Debug, Clone, Default)]
pub(super) struct Pool {
    cuts: Vec<Cut>,
    next: usize,
}

impl Pool {
    /// Forgets all cuts.
    pub fn clear(&mut self) {
        self.cuts.clear();
        self.cuts.reserve_exact(KEPT);
        self.next = 0;
    }

    /// Keeps a cut.
    pub fn keep(&mut self, cut: Cut) {
        if self.cuts.len() < KEPT {
            self.cuts.push(cut);
        } else if let Some(old) = self.cuts.get_mut(self.next) {
            *old = cut;
            self.next = (self.next + 1) % KEPT;
        }
    }

    /// As [`Cut::narrow`], by all cuts.
    pub fn narrow(&self, steps: &PerArm, depth: usize, threshold: f64, range: &mut (f64, f64)) {
        for cut in &self.cuts {
            cut.narrow(steps, depth, threshold, range);
        }
    }
}
