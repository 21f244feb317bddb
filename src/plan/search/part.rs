//! The search over some of the nuts, the others standing still.

use super::best::{Best, Judge, Turns};
use super::cut::Cut;
use super::lattice::{Descent, Tree};
use super::model::Model;
use super::reduce::reduce;
use super::shape::frame;
use super::vertex::{EDGE, HEIGHT, Outcome};
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

        let height = root.vertex.at[HEIGHT];
        let reach = (best.threshold_nm(judge) / model.unit_nm).min(1e6);
        let reach = reach.max(1.01 * height + 1e-4);
        let mut turns = [0.0; MOST_ARMS];
        turns.copy_from_slice(&root.vertex.at[..MOST_ARMS]);
        let vectors = frame(model, &turns, root.vertex.at[EDGE], height, reach);
        let basis = reduce(&vectors, model.arms);
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
