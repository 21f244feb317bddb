//! Depth-first search over the steps of a reduced basis.

use super::MOST_ARMS;
use super::best::{Best, Judge};
use super::cut::{Cut, Pool};
use super::model::{Model, WholePerArm};
use super::vertex::{Fixed, Outcome, Vertex};
use super::watch::{End, Watch};

/// A node on the way down.
#[derive(Debug, Clone, Default)]
pub(super) struct Level {
    pub fixed: Fixed,
    pub vertex: Vertex,
}

/// The levels of the tree and the cuts known at each depth.
#[derive(Debug, Clone, Default)]
pub(super) struct Tree {
    pub levels: Vec<Level>,
    pub pools: Vec<Pool>,
}

impl Tree {
    /// Room for every depth, no cuts.
    pub fn clear(&mut self) {
        self.levels.resize_with(MOST_ARMS + 1, Level::default);
        self.pools.resize_with(MOST_ARMS + 1, Pool::default);
        for pool in &mut self.pools {
            pool.clear();
        }
    }
}

/// What the search reads and writes on its way.
pub(super) struct Descent<'a> {
    pub model: &'a Model,
    pub judge: &'a Judge<'a>,
    pub standing: &'a [i32; MOST_ARMS],
    pub best: &'a mut Best,
    pub watch: &'a mut Watch,
    /// Below this threshold the basis no longer fits, and a new one is wanted.
    pub outgrown_below: f64,
    /// How many more equally good turns may be looked at.
    pub ties_left: u32,
}

impl Descent<'_> {
    /// A node whose bound is above this has nothing to offer.
    pub fn threshold(&self) -> f64 {
        self.best.threshold_nm(self.judge) / self.model.unit_nm
    }

    /// Searches below the first of `levels`, where `depth` steps are fixed and
    /// the vertex is optimal.
    pub fn search(&mut self, levels: &mut [Level], pools: &mut [Pool], depth: usize) -> End {
        let model = self.model;
        let (Some((parent, below)), Some((pool, pools_below))) =
            (levels.split_first_mut(), pools.split_first_mut())
        else {
            return End::Complete;
        };
        if depth + 1 == model.arms {
            return self.last(parent);
        }
        let mut range = (model.step_low[depth], model.step_high[depth]);
        let mut centre = parent.vertex.at[depth].clamp(range.0, range.1);
        if !centre.is_finite() {
            self.watch.doubtful = true;
            centre = range.0;
        }
        let (mut next_down, mut next_up) = (centre.round() - 1.0, centre.round());
        loop {
            pool.narrow(&parent.fixed.steps, depth + 1, self.threshold(), &mut range);
            next_down = next_down.min(range.1);
            next_up = next_up.max(range.0);
            let (down, up) = (next_down >= range.0, next_up <= range.1);
            if !(down || up) {
                return End::Complete;
            }
            let value = if down && (!up || centre - next_down < next_up - centre) {
                next_down -= 1.0;
                next_down + 1.0
            } else {
                next_up += 1.0;
                next_up - 1.0
            };
            if !self.watch.another() {
                return End::Stopped;
            }
            let Some(child) = below.first_mut() else {
                return End::Complete;
            };
            if let Some(cut) = self.enter(parent, child, depth, value) {
                pool.keep(cut);
                continue;
            }
            let end = self.search(below, pools_below, depth + 1);
            if end != End::Complete {
                return end;
            }
        }
    }

    /// Makes `child` the node below `parent` where the next step is `value`.
    /// Returns the cut that closes it, if one does.
    pub fn enter(
        &mut self,
        parent: &Level,
        child: &mut Level,
        depth: usize,
        value: f64,
    ) -> Option<Cut> {
        let (model, threshold) = (self.model, self.threshold());
        child.fixed.after(&parent.fixed, model, value);
        child.vertex = parent.vertex;
        let steps = &child.fixed.steps;
        if !child.vertex.fix(depth, depth, value) {
            let cut = Cut::from_ray(&child.vertex, model, depth + 1);
            if cut.at(steps, depth + 1) > 0.0 {
                return Some(cut);
            }
            if !child.vertex.fix_anyway(depth, depth, value) {
                self.watch.doubtful = true;
                return Some(Cut::default());
            }
        }
        for fresh in [false, true] {
            if fresh && !child.vertex.refresh(model, &child.fixed) {
                break;
            }
            let cut = match child.vertex.descend(model, &child.fixed, threshold) {
                Outcome::Above => Cut::from_multipliers(&child.vertex, model, depth + 1)
                    .filter(|cut| cut.at(steps, depth + 1) > threshold),
                Outcome::Empty => Some(Cut::from_ray(&child.vertex, model, depth + 1))
                    .filter(|cut| cut.at(steps, depth + 1) > 0.0),
                Outcome::Optimal | Outcome::Unfinished => return None,
            };
            if cut.is_some() {
                return cut;
            }
        }
        None
    }

    /// All steps but the last are fixed: the spread is convex in what is left,
    /// so its least value is walked to, and from there as far as is of
    /// interest.
    fn last(&mut self, level: &Level) -> End {
        let model = self.model;
        let j = model.arms - 1;
        let Some((start, low, high)) = self.last_values(level) else {
            return End::Complete;
        };
        let spread = |value: i64| {
            let value = value as f64;
            let (mut bottom, mut top) = (f64::INFINITY, f64::NEG_INFINITY);
            for (t, slopes) in level.fixed.profile.iter().zip(&model.by_step) {
                let after = t + slopes[j] * value;
                bottom = bottom.min(after);
                top = top.max(after);
            }
            top - bottom
        };
        let centre = level.vertex.at[j].round();
        let mut least = (centre.clamp(low as f64, high as f64) as i64).clamp(low, high);
        let mut here = spread(least);
        for direction in [1, -1] {
            while (low..=high).contains(&(least + direction)) {
                let next = spread(least + direction);
                if next >= here {
                    break;
                }
                least += direction;
                here = next;
            }
        }
        // The last few digits differ from the judge's own sum.
        let rounding = self.judge.equal_nm / model.unit_nm;
        for (direction, from) in [(1, least), (-1, least - 1)] {
            let mut value = from;
            while (low..=high).contains(&value) && spread(value) <= self.threshold() + rounding {
                let mut turns = *self.standing;
                for (i, k) in start.iter().enumerate().take(model.arms) {
                    let turn = model.origin[i] + k + model.basis[j][i] * value;
                    turns[model.arm_of[i]] = turn as i32;
                }
                if self.best.equal_up_to_nm.is_some() {
                    let Some(left) = self.ties_left.checked_sub(1) else {
                        return End::TooMany;
                    };
                    self.ties_left = left;
                }
                self.best.consider(&turns, self.judge);
                value += direction;
            }
        }
        if self.threshold() < self.outgrown_below {
            return End::Outgrown;
        }
        End::Complete
    }

    /// The turns before the last step and the values it may take.
    fn last_values(&self, level: &Level) -> Option<(WholePerArm, i64, i64)> {
        let model = self.model;
        let j = model.arms - 1;
        let mut start = [0; MOST_ARMS];
        for (vector, step) in model.basis.iter().zip(&level.fixed.steps).take(j) {
            for (k, u) in start.iter_mut().zip(vector) {
                *k += u * *step as i64;
            }
        }
        let (mut low, mut high) = (model.step_low[j] as i64, model.step_high[j] as i64);
        for i in 0..model.arms {
            let u = model.basis[j][i];
            let (least, most) = (
                model.low[i] as i64 - start[i],
                model.high[i] as i64 - start[i],
            );
            match u.signum() {
                0 if least > 0 || most < 0 => return None,
                0 => {}
                1 => {
                    low = low.max(-(-least).div_euclid(u));
                    high = high.min(most.div_euclid(u));
                }
                _ => {
                    low = low.max(-most.div_euclid(-u));
                    high = high.min((-least).div_euclid(-u));
                }
            }
        }
        (low <= high).then_some((start, low, high))
    }
}
