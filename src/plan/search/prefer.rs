//! The preferred turns where a great many are equally good: nut by nut from
//! the left, each first left alone, then turned as little as possible.
//!
//! Fewer nuts, fewer notches and more outward are bounded below by what every
//! nut still to come needs at least; whether the spread can still be kept is
//! asked of the continuous problem, as everywhere.

use std::cmp::Ordering;

use super::MOST_ARMS;
use super::cut::{Cut, Pool};
use super::lattice::{Descent, Level};
use super::model::Model;
use super::vertex::{Fixed, Outcome, Vertex};
use super::watch::End;
use crate::plan::turns::{Turns, by_nut, preference};

/// Nodes after which the preferred turns are taken as found, unproven.
const MOST_NODES: u64 = 200_000;

/// Narrows the limits of every nut to the turns that keep the continuous
/// spread within `threshold`; `root` is the optimum of continuous turns.
pub(super) fn tighten(model: &mut Model, root: &Vertex, nothing: &Fixed, threshold: f64) {
    for i in 0..model.arms {
        for low_end in [true, false] {
            while model.low[i] < model.high[i] {
                let end = if low_end { model.low[i] } else { model.high[i] };
                let mut vertex = *root;
                let cut = if !vertex.fix(0, i, end) {
                    Some(Cut::from_ray(&vertex, model, model.arms))
                } else {
                    match vertex.descend(model, nothing, threshold) {
                        Outcome::Above => Cut::from_multipliers(&vertex, model, model.arms),
                        Outcome::Empty => Some(Cut::from_ray(&vertex, model, model.arms)),
                        Outcome::Optimal | Outcome::Unfinished => None,
                    }
                };
                let Some(cut) = cut else { break };
                let mut range = (model.low[i], model.high[i]);
                cut.for_one(i, model)
                    .narrow(&[0.0; MOST_ARMS], 1, threshold, &mut range);
                if range == (model.low[i], model.high[i]) || range.0 > range.1 {
                    break;
                }
                (model.low[i], model.high[i]) = range;
            }
        }
    }
    model.use_turns_as_steps();
}

/// What all nuts from one on need at least.
#[derive(Debug, Clone, Copy, Default)]
struct Need {
    nuts: usize,
    notches: i32,
    outward: i32,
}

/// Searches below the first of `levels` for turns preferred to the best.
pub(super) fn search(descent: &mut Descent, levels: &mut [Level], pools: &mut [Pool]) -> End {
    let model = descent.model;
    let mut needs = [Need::default(); MOST_ARMS + 1];
    for i in (0..model.arms).rev() {
        let least = 0.0_f64.clamp(model.low[i], model.high[i]);
        let outward = if model.high[i] >= -least {
            least.abs()
        } else {
            least
        };
        needs[i] = Need {
            nuts: needs[i + 1].nuts + usize::from(least != 0.0),
            notches: needs[i + 1].notches + least.abs() as i32,
            outward: needs[i + 1].outward + outward as i32,
        };
    }
    let until = descent.watch.nodes + MOST_NODES;
    let mut walk = Walk {
        turns: *descent.standing,
        needs,
        until,
    };
    walk.below(descent, levels, pools, 0)
}

struct Walk {
    /// Turns so far; nuts still to come stand at zero or cannot be turned.
    turns: Turns,
    needs: [Need; MOST_ARMS + 1],
    until: u64,
}

impl Walk {
    fn below(
        &mut self,
        descent: &mut Descent,
        levels: &mut [Level],
        pools: &mut [Pool],
        depth: usize,
    ) -> End {
        let model = descent.model;
        let (Some((parent, below)), Some((pool, pools_below))) =
            (levels.split_first_mut(), pools.split_first_mut())
        else {
            return End::Complete;
        };
        let arm = model.arm_of[depth];
        let mut range = (model.low[depth], model.high[depth]);
        let farthest = range.1.abs().max(range.0.abs()) as i32;
        for distance in 0..=farthest {
            let mut hopeless = distance > 0;
            for value in [distance, -distance] {
                self.turns[arm] = value;
                if self.cannot_win(descent, depth + 1) {
                    continue;
                }
                hopeless = false;
                let threshold = descent.threshold();
                let steps = &parent.fixed.steps;
                pool.narrow(steps, depth + 1, threshold, &mut range);
                let step = f64::from(value);
                if step < range.0 || step > range.1 {
                    continue;
                }
                if descent.watch.nodes >= self.until {
                    return End::TooMany;
                }
                if !descent.watch.another() {
                    return End::Stopped;
                }
                let Some(child) = below.first_mut() else {
                    return End::Complete;
                };
                if depth + 1 == model.arms {
                    descent.best.consider(&self.turns, descent.judge);
                } else if let Some(cut) = descent.enter(parent, child, depth, step) {
                    pool.keep(cut);
                } else {
                    let end = self.below(descent, below, pools_below, depth + 1);
                    if end != End::Complete {
                        return end;
                    }
                }
                if value == 0 {
                    break;
                }
            }
            if hopeless {
                break;
            }
        }
        self.turns[arm] = 0;
        End::Complete
    }

    /// Whether the best that the nuts from `depth` on can still do is no
    /// better than the best turns so far.
    fn cannot_win(&self, descent: &Descent, depth: usize) -> bool {
        let Some((best, _)) = &descent.best.turns else {
            return false;
        };
        let model = descent.model;
        // The nuts from `depth` on left alone.
        let decided = |turns: &Turns| {
            let mut turns = *turns;
            for i in depth..model.arms {
                turns[model.arm_of[i]] = 0;
            }
            turns
        };
        let hopeful = decided(&self.turns);
        let (nuts, notches, inward) = preference(&hopeful);
        let need = self.needs[depth];
        let key = (
            nuts + need.nuts,
            notches + need.notches,
            inward - need.outward,
        );
        match key.cmp(&preference(best)) {
            Ordering::Less => false,
            Ordering::Greater => true,
            Ordering::Equal => by_nut(&hopeful) > by_nut(&decided(best)),
        }
    }
}
