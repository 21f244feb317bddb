//! At most so many nuts: which of them to touch.
//!
//! A tree over the nuts: each is either kept in or left standing. Leaving a
//! nut standing can only raise the least spread of continuous turns, so that
//! most sets of nuts are closed before any whole turns are looked for.

use super::MOST_ARMS;
use super::cut::Cut;
use super::model::{Model, PerArm};
use super::part::{Part, Quest};
use super::vertex::{Fixed, Outcome, Vertex};
use super::watch::End;

/// Memory for the tree.
#[derive(Debug, Clone, Default)]
pub(super) struct Few {
    model: Model,
    nothing: Fixed,
    /// One vertex for every nut left standing on the way down.
    vertices: Vec<Vertex>,
}

/// Sets of the model's nuts, as bits.
#[derive(Debug, Clone, Copy)]
struct Choice {
    /// May turn.
    kept: u16,
    /// Not decided.
    open: u16,
}

impl Few {
    /// Looks for better turns that touch at most `most` of the nuts `searched`,
    /// not counting those that have to turn.
    pub fn search(
        &mut self,
        part: &mut Part,
        quest: &mut Quest,
        searched: impl Iterator<Item = usize>,
        most: usize,
    ) -> End {
        let problem = quest.judge.problem;
        self.model.load(
            problem.thickness_nm,
            problem.response,
            quest.judge.bounds,
            searched,
            &quest.standing,
        );
        let model = &self.model;
        self.nothing.nothing(model);
        self.vertices.resize(MOST_ARMS + 1, Vertex::default());
        let Some(root) = self.vertices.first_mut() else {
            return End::Complete;
        };
        root.corner(model);
        let mut choice = Choice { kept: 0, open: 0 };
        let mut most = most;
        for i in 0..model.arms {
            if model.low[i] <= 0.0 && model.high[i] >= 0.0 {
                choice.open |= 1 << i;
            } else {
                choice.kept |= 1 << i;
                most += 1;
            }
        }
        if closed(model, &self.nothing, root, choice, quest) {
            return End::Complete;
        }
        let mut vertices = std::mem::take(&mut self.vertices);
        let end = self.choose(part, quest, choice, most, &mut vertices);
        self.vertices = vertices;
        end
    }

    /// `vertices` starts with the optimum of continuous turns for `choice`.
    fn choose(
        &self,
        part: &mut Part,
        quest: &mut Quest,
        choice: Choice,
        most: usize,
        vertices: &mut [Vertex],
    ) -> End {
        if !quest.watch.another() {
            return End::Stopped;
        }
        let model = &self.model;
        let may_turn = choice.kept | choice.open;
        if may_turn.count_ones() as usize <= most {
            let arms = (0..model.arms).filter(|i| may_turn & (1 << i) != 0);
            return part.search(quest, arms.map(|i| model.arm_of[i]));
        }
        // The nut that the continuous turns move most is decided first.
        let Some(vertex) = vertices.first() else {
            return End::Complete;
        };
        let open = (0..model.arms).filter(|i| choice.open & (1 << i) != 0);
        let distance = |nut: usize| vertex.at[nut].abs();
        let Some(nut) = open.max_by(|a, b| distance(*a).total_cmp(&distance(*b))) else {
            return End::Complete;
        };
        let open = choice.open & !(1 << nut);
        if (choice.kept.count_ones() as usize) < most {
            let kept = choice.kept | 1 << nut;
            let end = self.choose(part, quest, Choice { kept, open }, most, vertices);
            if end != End::Complete {
                return end;
            }
        }
        let without = Choice { open, ..choice };
        let Some((vertex, below)) = vertices.split_first_mut() else {
            return End::Complete;
        };
        let Some(child) = below.first_mut() else {
            return End::Complete;
        };
        *child = *vertex;
        if !child.fix(0, nut, 0.0) {
            let cut = Cut::from_ray(child, model, model.arms);
            if bound(&cut, model, without) > 0.0 {
                return End::Complete;
            }
            if !child.fix_anyway(0, nut, 0.0) {
                quest.watch.doubtful = true;
                return End::Complete;
            }
        }
        if closed(&self.model, &self.nothing, child, without, quest) {
            return End::Complete;
        }
        self.choose(part, quest, without, most, below)
    }
}

/// Solves for continuous turns of the nuts that may turn. True if these show
/// that there is nothing to find.
fn closed(
    model: &Model,
    nothing: &Fixed,
    vertex: &mut Vertex,
    choice: Choice,
    quest: &Quest,
) -> bool {
    let threshold = quest.threshold(model);
    match vertex.descend(model, nothing, threshold) {
        Outcome::Above => Cut::from_multipliers(vertex, model, model.arms)
            .is_some_and(|cut| bound(&cut, model, choice) > threshold),
        Outcome::Empty => bound(&Cut::from_ray(vertex, model, model.arms), model, choice) > 0.0,
        Outcome::Optimal | Outcome::Unfinished => false,
    }
}

/// What a cut in all steps says when only some nuts may turn.
fn bound(cut: &Cut, model: &Model, choice: Choice) -> f64 {
    let may_turn = choice.kept | choice.open;
    let limited = |limits: &PerArm| -> PerArm {
        std::array::from_fn(|i| {
            if may_turn & (1 << i) != 0 {
                limits[i]
            } else {
                0.0
            }
        })
    };
    cut.least(&limited(&model.low), &limited(&model.high))
}
