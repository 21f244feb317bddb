//! The search over some of the nuts, the others standing still.

use super::best::{Best, Judge, Turns};
use super::cut::Cut;
use super::lattice::{Descent, Tree};
use super::model::{Model, PerArm};
use super::reduce::reduce;
use super::vertex::{HEIGHT, Outcome};
use super::watch::Watch;
use super::{MOST_ARMS, SearchProblem};

/// Memory for one part.
#[derive(Debug, Clone, Default)]
pub(super) struct Part {
    model: Model,
    tree: Tree,
}

impl Part {
    /// Looks for better turns among those that change only the nuts
    /// `searched` from `standing`. False when stopped.
    pub fn search(
        &mut self,
        judge: &Judge,
        searched: impl Iterator<Item = usize>,
        standing: &Turns,
        best: &mut Best,
        watch: &mut Watch,
    ) -> bool {
        let SearchProblem {
            thickness_nm,
            response,
            level_change_nm,
            ..
        } = *judge.problem;
        let Self { model, tree } = self;
        model.load(
            thickness_nm,
            response,
            judge.bounds,
            level_change_nm,
            searched,
            standing,
        );
        if model.arms == 0 {
            best.consider(standing, judge);
            return true;
        }
        if !watch.another() {
            return false;
        }
        tree.clear();
        let Some(root) = tree.levels.first_mut() else {
            return true;
        };
        root.fixed.nothing(model);
        root.vertex.corner(model);
        let threshold = best.threshold_nm(judge) / model.unit_nm;
        match root.vertex.descend(model, &root.fixed, threshold) {
            Outcome::Above => {
                let cut = Cut::from_multipliers(&root.vertex, model, 0);
                if cut.is_some_and(|cut| cut.constant > threshold) {
                    return true;
                }
            }
            Outcome::Empty => {
                if Cut::from_ray(&root.vertex, model, 0).constant > 0.0 {
                    return true;
                }
            }
            Outcome::Optimal | Outcome::Unfinished => {}
        }
        let mut turns = *standing;
        for i in 0..model.arms {
            let k = root.vertex.at[i].round().clamp(model.low[i], model.high[i]);
            turns[model.arm_of[i]] = k as i32;
        }
        best.consider(&turns, judge);

        let reach = best.threshold_nm(judge) / model.unit_nm;
        let reach = reach.min(1e6).max(root.vertex.at[HEIGHT]).max(1e-5);
        let basis = reduce(&frame(model, reach), model.arms);
        model.use_basis(&basis.vectors, &basis.inverse);
        root.vertex.use_steps(model);
        let Tree { levels, pools } = tree;
        Descent {
            model,
            judge,
            standing,
            best,
            watch,
        }
        .search(levels, pools, 0)
    }
}

/// One vector per nut whose length measures how far a notch goes: across the
/// band at the stations, and across its own limits.
fn frame(model: &Model, reach: f64) -> [PerArm; MOST_ARMS] {
    let n = model.arms;
    let stations = model.by_turn.len() as f64;
    let mut gram = [[0.0; MOST_ARMS]; MOST_ARMS];
    let weight = 4.0 / (reach * reach);
    for slopes in &model.by_turn {
        for i in 0..n {
            for j in 0..=i {
                gram[i][j] += weight
                    * (slopes[i] - model.level_by_turn[i])
                    * (slopes[j] - model.level_by_turn[j]);
            }
        }
    }
    let _ = stations;
    for i in 0..n {
        let half = 0.5 * (model.high[i] - model.low[i]);
        gram[i][i] += 1.0 / (half * half).max(0.25);
    }
    // Cholesky: gram = L L^T; the rows of L are the vectors.
    let mut rows = [[0.0; MOST_ARMS]; MOST_ARMS];
    for i in 0..n {
        for j in 0..=i {
            let mut sum = gram[i][j];
            for l in 0..j {
                sum -= rows[i][l] * rows[j][l];
            }
            rows[i][j] = if i == j {
                sum.max(1e-12 * gram[i][i]).sqrt()
            } else {
                sum / rows[j][j]
            };
        }
    }
    rows
}
