//! The problem as the search sees it: only the nuts that matter, lengths
//! scaled by a power of two, and coordinates in a reduced basis.

use super::{MOST_ARMS, TurnBounds};
use crate::press::Response;

/// One figure per nut or per step; unused ones are zero.
pub(super) type PerArm = [f64; MOST_ARMS];

/// Whole figures, one per nut or per step.
pub(super) type WholePerArm = [i64; MOST_ARMS];

/// `range(thickness + by_turn * k)` over whole `k` in a box, written also in
/// steps `z` along the basis, `k = basis * z`, with `by_step = by_turn * basis`.
#[derive(Debug, Clone, Default)]
pub(super) struct Model {
    /// Nuts that are searched over.
    pub arms: usize,
    /// Which nut of the press each one is.
    pub arm_of: [usize; MOST_ARMS],
    /// The turns that all others are counted from.
    pub origin: WholePerArm,
    /// Scaled thickness after these turns, above the thinnest station.
    pub thickness: Vec<f64>,
    /// Scaled response of each station to each nut.
    pub by_turn: Vec<PerArm>,
    /// Scaled response of each station to each step.
    pub by_step: Vec<PerArm>,
    /// Smallest turn of each nut, from the origin.
    pub low: PerArm,
    /// Largest turn of each nut, from the origin.
    pub high: PerArm,
    /// Row `i`: turns of nut `i` by each step.
    pub turn_by_step: [PerArm; MOST_ARMS],
    /// Column of the basis: the turns that make one step, as whole numbers.
    pub basis: [WholePerArm; MOST_ARMS],
    /// Rows of its inverse.
    pub inverse: [WholePerArm; MOST_ARMS],
    /// Row `j`: steps along vector `j` by each turn.
    pub step_by_turn: [PerArm; MOST_ARMS],
    /// Smallest and largest value of each step over the box.
    pub step_low: PerArm,
    pub step_high: PerArm,
    /// Nanometres in one scaled unit, a power of two.
    pub unit_nm: f64,
}

impl Model {
    /// Takes over the nuts `searched`, all others standing at `turns`.
    pub fn load(
        &mut self,
        thickness_nm: &[f64],
        response: &Response,
        bounds: &[TurnBounds],
        searched: impl Iterator<Item = usize>,
        turns: &[i32],
    ) {
        self.arms = 0;
        self.origin = [0; MOST_ARMS];
        for arm in searched {
            self.arm_of[self.arms] = arm;
            self.arms += 1;
        }
        let arm_of = self.arm_of;
        let searched = &arm_of[..self.arms];
        let largest = response
            .values()
            .iter()
            .fold(0.0, |a: f64, b| a.max(b.abs()));
        self.unit_nm = power_of_two_above(largest);
        let base = thickness_nm.iter().copied().fold(f64::INFINITY, f64::min);

        self.thickness.clear();
        self.by_turn.clear();
        for (station, t) in thickness_nm.iter().enumerate() {
            let row = response.row(station);
            let mut slopes = [0.0; MOST_ARMS];
            for (slope, arm) in slopes.iter_mut().zip(searched) {
                *slope = row[*arm] / self.unit_nm;
            }
            let mut standing = 0.0;
            for (arm, (slope, k)) in row.iter().zip(turns).enumerate() {
                if !searched.contains(&arm) {
                    standing += slope * f64::from(*k);
                }
            }
            self.thickness.push(((t - base) + standing) / self.unit_nm);
            self.by_turn.push(slopes);
        }
        self.take_off_first();
        self.low = [0.0; MOST_ARMS];
        self.high = [0.0; MOST_ARMS];
        for (i, arm) in searched.iter().enumerate() {
            self.low[i] = f64::from(bounds[*arm].least);
            self.high[i] = f64::from(bounds[*arm].most);
        }
        self.use_turns_as_steps();
    }

    /// Counts turns from `by` further on, so that figures near what is sought
    /// are small and lose no digits. The basis has to be chosen anew.
    pub fn move_origin(&mut self, by: &WholePerArm) {
        let shift: PerArm = by.map(|k| k as f64);
        for (t, slopes) in self.thickness.iter_mut().zip(&self.by_turn) {
            let terms = slopes.iter().zip(&shift);
            *t += terms.map(|(b, k)| b * k).sum::<f64>();
        }
        for limits in [&mut self.low, &mut self.high] {
            for (limit, k) in limits.iter_mut().zip(&shift) {
                *limit -= k;
            }
        }
        for (origin, k) in self.origin.iter_mut().zip(by) {
            *origin += k;
        }
    }

    /// Makes the scaled unit smaller by a power of two.
    pub fn refine_unit(&mut self, factor: f64) {
        self.unit_nm /= factor;
        for t in &mut self.thickness {
            *t *= factor;
        }
        for slopes in self.by_turn.iter_mut().chain(&mut self.by_step) {
            for slope in slopes {
                *slope *= factor;
            }
        }
    }

    /// Counts thickness and response from those of the first station. What
    /// lifts all stations alike changes no spread, and without it figures that
    /// nearly cancel keep their digits.
    fn take_off_first(&mut self) {
        let (Some(&first), Some(&slopes)) = (self.thickness.first(), self.by_turn.first()) else {
            return;
        };
        for t in &mut self.thickness {
            *t -= first;
        }
        for row in &mut self.by_turn {
            for (b, f) in row.iter_mut().zip(&slopes) {
                *b -= f;
            }
        }
    }

    /// The plain basis: one step is one notch of one nut.
    pub fn use_turns_as_steps(&mut self) {
        let mut identity = [[0; MOST_ARMS]; MOST_ARMS];
        for (i, row) in identity.iter_mut().enumerate() {
            row[i] = 1;
        }
        self.use_basis(&identity, &identity);
    }

    /// Writes everything in steps along `basis` (its vectors in the order in
    /// which they are searched); `inverse` holds the rows of its inverse.
    pub fn use_basis(
        &mut self,
        basis: &[WholePerArm; MOST_ARMS],
        inverse: &[WholePerArm; MOST_ARMS],
    ) {
        let n = self.arms;
        self.basis = *basis;
        self.inverse = *inverse;
        self.step_by_turn = inverse.map(|row| row.map(|v| v as f64));
        self.turn_by_step = [[0.0; MOST_ARMS]; MOST_ARMS];
        for (j, vector) in basis.iter().enumerate().take(n) {
            for (i, turn) in vector.iter().enumerate().take(n) {
                self.turn_by_step[i][j] = *turn as f64;
            }
        }
        self.by_step.clear();
        for slopes in &self.by_turn {
            self.by_step.push(along(slopes, basis, n));
        }
        for (j, row) in inverse.iter().enumerate().take(n) {
            let (mut low, mut high) = (0.0, 0.0);
            for (i, v) in row.iter().enumerate().take(n) {
                let (a, b) = (*v as f64 * self.low[i], *v as f64 * self.high[i]);
                low += a.min(b);
                high += a.max(b);
            }
            self.step_low[j] = low;
            self.step_high[j] = high;
        }
    }
}

fn along(slopes: &PerArm, basis: &[WholePerArm; MOST_ARMS], n: usize) -> PerArm {
    let mut by_step = [0.0; MOST_ARMS];
    for (value, vector) in by_step.iter_mut().zip(basis).take(n) {
        *value = slopes
            .iter()
            .zip(vector)
            .take(n)
            .map(|(b, u)| b * *u as f64)
            .sum();
    }
    by_step
}

/// Smallest power of two not below `value`, so that dividing by it is exact;
/// at least a millionth, so that the quotients stay small.
fn power_of_two_above(value: f64) -> f64 {
    let mut power = 1.0 / 1_048_576.0;
    while power < value {
        power *= 2.0;
    }
    power
}
