//! The search over some of the nuts, the others standing still.

use super::best::{Best, Judge};
use super::cut::Cut;
use super::lattice::{Descent, Tree};
use super::model::{Model, WholePerArm};
use super::prefer::{self, tighten};
use super::reduce::{Basis, reduce};
use super::shape::frame;
use super::vertex::{EDGE, HEIGHT, Outcome, Vertex};
use super::watch::{End, Watch};
use super::{MOST_ARMS, SearchProblem};
use crate::plan::turns::Turns;

/// Equally good turns that are simply listed; with more of them the search by
/// preference takes over.
const TIES_LISTED: u32 = 200;

/// The basis is formed anew when the distance between the best spread and the
/// least one of continuous turns has shrunk to this share.
const OUTGROWN: f64 = 0.5;

/// A distance (scaled) too small to form a basis for.
const LEAST_ROOM: f64 = 1e-9;

/// Height of the band (scaled) below which the unit is refined.
const THINNEST: f64 = 1e-3;

/// The unit is not refined further than this.
const SMALLEST_UNIT_NM: f64 = 1e-6;

/// Memory for one part.
#[derive(Debug, Clone, Default)]
pub(super) struct Part {
    model: Model,
    tree: Tree,
    /// The optimum of continuous turns, with notches as steps.
    root: Vertex,
    /// Basis and tree are ready for the nuts last searched.
    shaped: bool,
}

/// What is searched and what is known.
pub(super) struct Quest<'a> {
    pub judge: &'a Judge<'a>,
    /// Turns of the nuts that are not searched.
    pub standing: Turns,
    pub best: Best,
    pub watch: Watch,
}

impl Quest<'_> {
    /// Scaled spread above which nothing is of interest.
    pub fn threshold(&self, model: &Model) -> f64 {
        self.best.threshold_nm(self.judge) / model.unit_nm
    }
}

impl Part {
    /// Looks for better turns among those that change only the nuts
    /// `searched`.
    pub fn search(&mut self, quest: &mut Quest, searched: impl Iterator<Item = usize>) -> End {
        let SearchProblem {
            thickness_nm,
            response,
            ..
        } = *quest.judge.problem;
        self.model.load(
            thickness_nm,
            response,
            quest.judge.bounds,
            searched,
            &quest.standing,
        );
        self.shaped = false;
        if self.model.arms == 0 {
            quest.best.consider(&quest.standing, quest.judge);
            return End::Complete;
        }
        if !quest.watch.another() {
            return End::Stopped;
        }
        self.tree.clear();
        if self.closed_at_root(quest) {
            return End::Complete;
        }
        self.round(quest);
        let floor_nm = self.floor_nm();
        loop {
            if quest.best.threshold_nm(quest.judge) < floor_nm {
                return End::Complete;
            }
            let outgrown_below_nm = self.outgrown_below(quest) * self.model.unit_nm;
            self.reshape(quest);
            if quest.best.threshold_nm(quest.judge) < outgrown_below_nm {
                continue;
            }
            match self.descend(quest) {
                End::Outgrown => {}
                End::TooMany => return self.by_preference(quest),
                end => return end,
            }
        }
    }

    /// Searches the same nuts once more, for the preferred turns among equals.
    pub fn settle(&mut self, quest: &mut Quest, searched: impl Iterator<Item = usize>) -> End {
        if !self.shaped {
            return self.search(quest, searched);
        }
        match self.descend(quest) {
            End::TooMany => self.by_preference(quest),
            end => end,
        }
    }

    /// Solves for continuous turns. True if these already show that there is
    /// nothing to find.
    fn closed_at_root(&mut self, quest: &Quest) -> bool {
        let Some(top) = self.tree.levels.first_mut() else {
            return true;
        };
        let model = &self.model;
        let threshold = quest.threshold(model);
        top.fixed.nothing(model);
        self.root.corner(model);
        match self.root.descend(model, &top.fixed, threshold) {
            Outcome::Above => Cut::from_multipliers(&self.root, model, 0)
                .is_some_and(|cut| cut.constant > threshold),
            Outcome::Empty => Cut::from_ray(&self.root, model, 0).constant > 0.0,
            Outcome::Optimal | Outcome::Unfinished => false,
        }
    }

    /// What no turns can undercut, whole or not, in nanometres.
    fn floor_nm(&self) -> f64 {
        let cut = Cut::from_multipliers(&self.root, &self.model, 0);
        cut.map_or(0.0, |cut| cut.constant.max(0.0)) * self.model.unit_nm
    }

    /// Tries the whole turns nearest to the continuous ones.
    fn round(&self, quest: &mut Quest) {
        let model = &self.model;
        let mut turns = quest.standing;
        for i in 0..model.arms {
            let k = self.root.at[i].round().clamp(model.low[i], model.high[i]);
            turns[model.arm_of[i]] = k as i32;
        }
        quest.best.consider(&turns, quest.judge);
    }

    /// Keeps the band from becoming so thin, in scaled units, that rounding
    /// matters.
    fn refine(&mut self, quest: &Quest) {
        let model = &mut self.model;
        let reach = quest.threshold(model).max(self.root.at[HEIGHT]);
        let mut factor = 1.0;
        while reach * factor < THINNEST && model.unit_nm / factor > SMALLEST_UNIT_NM {
            factor *= 2.0;
        }
        if factor > 1.0 {
            model.refine_unit(factor);
            let (basis, inverse) = (model.basis, model.inverse);
            model.use_turns_as_steps();
            self.root.corner(model);
            if let Some(top) = self.tree.levels.first_mut() {
                top.fixed.nothing(model);
                self.root.descend(model, &top.fixed, f64::INFINITY);
            }
            model.use_basis(&basis, &inverse);
        }
    }

    /// Chooses a basis for what is within reach of the best turns so far.
    fn reshape(&mut self, quest: &mut Quest) {
        self.refine(quest);
        let model = &mut self.model;
        let height = self.root.at[HEIGHT];
        let reach = quest.threshold(model).min(1e6).max(height);
        let reach = reach + 0.01 * (reach - height) + LEAST_ROOM;
        let mut root = self.root;
        root.use_steps(model);
        let mut steps = [0.0; MOST_ARMS];
        steps.copy_from_slice(&root.at[..MOST_ARMS]);
        let vectors = frame(model, &mut steps, root.at[EDGE], height, reach);
        let mut centre = [0.0; MOST_ARMS];
        for (turn, row) in centre.iter_mut().zip(&model.turn_by_step) {
            *turn = row.iter().zip(&steps).map(|(u, z)| u * z).sum();
        }
        let basis = Basis::new(&model.basis, &model.inverse);
        let basis = reduce(&vectors, &basis, model.arms);
        let mut near = basis.round(&centre, model.arms);
        for ((turn, low), high) in near.iter_mut().zip(&model.low).zip(&model.high) {
            *turn = (*turn).clamp(*low as i64, *high as i64);
        }
        self.move_origin(&near);
        let model = &mut self.model;
        model.use_basis(&basis.vectors, &basis.inverse);
        let mut turns = quest.standing;
        for (arm, k) in model.arm_of.iter().zip(&model.origin).take(model.arms) {
            turns[*arm] = *k as i32;
        }
        quest.best.consider(&turns, quest.judge);
        self.tree.clear();
        if let Some(top) = self.tree.levels.first_mut() {
            top.fixed.nothing(model);
            top.vertex = self.root;
            top.vertex.use_steps(model);
        }
        self.shaped = true;
    }

    fn move_origin(&mut self, by: &WholePerArm) {
        self.model.move_origin(by);
        self.root.move_origin(by);
    }

    /// Too many turns are equally good to list them: looks for the preferred.
    fn by_preference(&mut self, quest: &mut Quest) -> End {
        let threshold = quest.threshold(&self.model);
        self.move_origin(&self.model.origin.map(|k| -k));
        let model = &mut self.model;
        model.use_turns_as_steps();
        self.tree.clear();
        let Tree { levels, pools } = &mut self.tree;
        let Some(top) = levels.first_mut() else {
            return End::Complete;
        };
        top.fixed.nothing(model);
        top.vertex = self.root;
        tighten(model, &self.root, &top.fixed, threshold);
        let end = prefer::search(
            &mut Descent {
                model,
                judge: quest.judge,
                standing: &quest.standing,
                best: &mut quest.best,
                watch: &mut quest.watch,
                outgrown_below: f64::NEG_INFINITY,
                ties_left: 0,
            },
            levels,
            pools,
        );
        match end {
            End::TooMany => End::Complete,
            end => end,
        }
    }

    /// The threshold below which the present basis no longer fits.
    fn outgrown_below(&self, quest: &Quest) -> f64 {
        let height = self.root.at[HEIGHT];
        let room = quest.threshold(&self.model).min(1e6) - height;
        if quest.best.equal_up_to_nm.is_none() && room > LEAST_ROOM {
            height + OUTGROWN * room
        } else {
            f64::NEG_INFINITY
        }
    }

    fn descend(&mut self, quest: &mut Quest) -> End {
        let outgrown_below = self.outgrown_below(quest);
        let model = &self.model;
        Descent {
            model,
            judge: quest.judge,
            standing: &quest.standing,
            best: &mut quest.best,
            watch: &mut quest.watch,
            outgrown_below,
            ties_left: TIES_LISTED,
        }
        .search(&mut self.tree.levels, &mut self.tree.pools, 0)
    }
}
