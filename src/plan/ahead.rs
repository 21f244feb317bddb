//! What comes after a piece that does not pass: plans made anew.
//!
//! A piece is drawn from what is expected of it, what it teaches is taken in by
//! the exact conditional update, and the best plan is sought on what is then
//! known: over a few dozen drawn pieces that do not pass. The covariance after
//! the piece is the same for all of them and only the means differ, so the
//! draws of press and next piece are made once, and every drawn piece moves
//! them as a whole ([`Foreseen`](crate::stats::Foreseen)).

use super::error::PlanError;
use super::later::{LEAST_CHANCE, Later};
use super::learn::{PieceAhead, Posterior};
use super::noise::{
    AHEAD_PIECES, AHEAD_PLANS, AHEAD_SEARCHES, LATER_DRAWS, LEAST_FAILING, SEARCH_NODES,
};
use super::outlook::{PredictiveDraws, PredictiveScratch};
use super::search::{SearchProblem, SearchWorkspace, TurnBounds, smallest_spread};
use super::task::Task;
use super::turns::{LEAVE, Turns, to_turns, touched, without_common};
use crate::press::{MOST_NOTCHES_PER_RELACE, Response};
use crate::stats::Purpose;

/// Plans made anew after one piece that did not pass.
pub(super) struct Anew {
    /// Mean chance of the best of them.
    chance: f64,
    /// Mean of the minutes that their turns take.
    effort: f64,
    /// A middling one: what is known before it, its turns, and all turns made
    /// by then.
    middling: (Posterior, Turns, Turns),
}

impl Anew {
    /// What follows, with `settled` the chance of plans made later still.
    pub fn later(&self, settled: f64) -> Later {
        Later {
            chance: self.chance,
            effort: self.effort,
            settled,
        }
    }
}

/// Looks ahead from one task.
pub(super) struct Ahead<'a> {
    task: &'a Task<'a>,
    /// Turns that are good as things stand: where a later plan may lead.
    destinations: &'a [Turns],
    outlook: &'a mut PredictiveScratch,
    search: &'a mut SearchWorkspace,
}

/// A belief about press and next piece, to be moved as a whole.
struct Belief {
    outlook: PredictiveDraws,
    /// Turns to choose among.
    plans: Vec<Plan>,
}

/// Turns, and what they make of a belief.
struct Plan {
    turns: Turns,
    effort: f64,
    /// The profile expected at the stations.
    mean_nm: Vec<f64>,
    /// The drawn pieces.
    drawn_nm: Vec<f64>,
}

/// The best of the plans.
#[derive(Default)]
struct Best {
    turns: Turns,
    chance: f64,
    effort: f64,
}

/// How a belief is moved by what was read: the profile, and the response
/// station by station.
struct Move {
    profile_nm: Vec<f64>,
    response: Vec<f64>,
}

impl<'a> Ahead<'a> {
    pub fn new(
        task: &'a Task<'a>,
        destinations: &'a [Turns],
        outlook: &'a mut PredictiveScratch,
        search: &'a mut SearchWorkspace,
    ) -> Self {
        Self {
            task,
            destinations,
            outlook,
            search,
        }
    }

    /// What is planned when the piece laced after `turns` does not pass.
    pub fn after_failing(&mut self, turns: &Turns) -> Result<Anew, PlanError> {
        self.anew(self.task.posterior, &LEAVE, turns)
    }

    /// Chance of the plans made later still: the mean when a middling plan does
    /// not pass either.
    pub fn settled(&mut self, anew: &Anew) -> Result<f64, PlanError> {
        let (posterior, turns, made) = &anew.middling;
        Ok(self.anew(posterior, made, turns)?.chance)
    }

    fn anew(
        &mut self,
        posterior: &Posterior,
        made: &Turns,
        turns: &Turns,
    ) -> Result<Anew, PlanError> {
        let ahead = posterior.next_piece_ahead(turns)?;
        let count = ahead.foreseen.count();
        let mut residuals = vec![vec![0.0; count]; AHEAD_PIECES];
        let pieces = self.outlook.kept.cube(AHEAD_PIECES, Purpose::Ahead);
        for (place, scores) in pieces.normals(count).iter().enumerate() {
            for (residual, score) in residuals.iter_mut().zip(scores) {
                residual[place] = *score;
            }
        }
        let mut off = Vec::new();
        let mut drawn: Vec<(f64, Vec<f64>)> = residuals
            .into_iter()
            .map(|residual| {
                ahead.foreseen.off(&residual, &mut off);
                (self.spread_nm(&ahead, &off), residual)
            })
            .collect();
        // Those that fail; where hardly any does, those nearest to it.
        drawn.sort_by(|a, b| b.0.total_cmp(&a.0));
        let tolerance_nm = self.task.tolerance_nm;
        let failing = drawn.iter().filter(|(r, _)| *r > tolerance_nm).count();
        drawn.truncate(failing.max(LEAST_FAILING));
        let moves: Vec<Move> = drawn
            .iter()
            .map(|(_, residual)| self.moved(&ahead, residual))
            .collect();
        let mut made = *made;
        made.iter_mut().zip(turns).for_each(|(made, k)| *made += k);
        let belief = self.belief(&ahead.posterior, &made, &moves)?;
        let piece = self.task.effort.piece.value();
        let minutes = |q: f64, effort: f64| (piece + effort) / q.max(LEAST_CHANCE);
        let mut found: Vec<(Best, &Vec<f64>)> = moves
            .iter()
            .zip(&drawn)
            .map(|(by, (_, residual))| (self.best(&belief, by, minutes), residual))
            .collect();
        let share = 1.0 / found.len().max(1) as f64;
        let mean = |of: fn(&Best) -> f64| share * found.iter().map(|(b, _)| of(b)).sum::<f64>();
        let (chance, effort) = (mean(|best| best.chance), mean(|best| best.effort));
        found.sort_by(|a, b| a.0.chance.total_cmp(&b.0.chance));
        let middling = match found.get(found.len() / 2) {
            Some((best, residual)) => (ahead.as_found(residual), best.turns, made),
            None => (ahead.posterior, LEAVE, made),
        };
        Ok(Anew {
            chance,
            effort,
            middling,
        })
    }

    /// Minutes that measuring the last piece once more as often saves until a
    /// piece passes, the measuring itself not counted. `later` is what follows
    /// a further piece that does not pass.
    pub fn saved_by_measuring(&mut self, later: Later) -> Result<f64, PlanError> {
        let piece = self.task.effort.piece.value();
        let after = later.minutes(piece);
        let minutes = |q: f64, effort: f64| effort + piece + (1.0 - q) * after;
        let still = Move {
            profile_nm: vec![0.0; self.task.counting.len()],
            response: vec![0.0; self.task.counting.len() * self.task.posterior.arms()],
        };
        let now = self.belief(self.task.posterior, &LEAVE, std::slice::from_ref(&still))?;
        let best = self.best(&now, &still, minutes);
        let without = minutes(best.chance, best.effort);

        let ahead = self.task.posterior.rereading_ahead()?;
        let means = self.task.posterior.means_when_read_again();
        let means: Vec<_> = means.into_iter().flatten().collect();
        let mut offs = vec![Vec::new(); AHEAD_PIECES];
        let pieces = self.outlook.kept.cube(AHEAD_PIECES, Purpose::Ahead);
        let scores = pieces.normals(means.len());
        for ((mean, expected_nm), scores) in means.iter().zip(&ahead.expected_nm).zip(scores) {
            for (off, score) in offs.iter_mut().zip(scores) {
                off.push(mean.mean + mean.sd * score - expected_nm);
            }
        }
        let tolerance_nm = self.task.tolerance_nm;
        // A piece that is inside as read, and refused by a stricter rule, is
        // not settled by reading on.
        let as_read: Vec<f64> = means
            .iter()
            .zip(&ahead.expected_nm)
            .map(|(mean, expected_nm)| mean.mean - expected_nm)
            .collect();
        let outside = self.spread_nm(&ahead, &as_read) > tolerance_nm;
        let whole = (self.task.counting.iter()).all(|s| ahead.stations.contains(s));
        let mut unsettled: Vec<Vec<f64>> = offs
            .into_iter()
            .filter(|off| !(outside && whole && self.spread_nm(&ahead, off) <= tolerance_nm))
            .collect();
        let share = 1.0 / AHEAD_PIECES as f64;
        let moves: Vec<Move> = unsettled
            .iter_mut()
            .map(|off| {
                ahead.foreseen.whiten(off);
                self.moved(&ahead, off)
            })
            .collect();
        let belief = self.belief(&ahead.posterior, &LEAVE, &moves)?;
        let mut with = 0.0;
        for by in &moves {
            let best = self.best(&belief, by, minutes);
            with += share * minutes(best.chance, best.effort);
        }
        Ok(without - with)
    }

    /// Spread of a piece ahead whose readings are so far `off` what is expected,
    /// over the counting stations.
    fn spread_nm(&self, ahead: &PieceAhead, off: &[f64]) -> f64 {
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        for ((station, expected_nm), off) in ahead.stations.iter().zip(&ahead.expected_nm).zip(off)
        {
            if self.task.counting.contains(station) {
                low = low.min(expected_nm + off);
                high = high.max(expected_nm + off);
            }
        }
        (high - low).max(0.0)
    }

    fn moved(&self, ahead: &PieceAhead, residual: &[f64]) -> Move {
        let posterior = &ahead.posterior;
        let arms = posterior.arms();
        let responses = posterior.stations() * arms;
        let counting = self.task.counting.iter();
        let response: Vec<f64> = counting
            .clone()
            .flat_map(|s| s * arms..(s + 1) * arms)
            .map(|i| ahead.foreseen.moved(i, residual))
            .collect();
        let profile_nm = counting
            .zip(response.chunks_exact(arms.max(1)))
            .map(|(s, row)| {
                let turned = row
                    .iter()
                    .zip(posterior.moved())
                    .map(|(b, moved)| b * moved);
                ahead.foreseen.moved(responses + s, residual) + turned.sum::<f64>()
            })
            .collect();
        Move {
            profile_nm,
            response,
        }
    }

    /// What is believed once `made` turns are made and a piece was read, with
    /// the plans to choose among wherever the reading may move it.
    fn belief(
        &mut self,
        posterior: &Posterior,
        made: &Turns,
        moves: &[Move],
    ) -> Result<Belief, PlanError> {
        let task = self.task;
        let arms = posterior.arms();
        let (draws, kept) = (LATER_DRAWS, &mut self.outlook.kept);
        let outlook = PredictiveDraws::new(posterior, task.counting, draws, Purpose::Ahead, kept)?;
        let profile = posterior.press_after(&[]);
        let thickness_nm: Vec<f64> = task.counting.iter().map(|s| profile.mean_nm[*s]).collect();
        let response = posterior.response().of_stations(task.counting);
        let bounds = task.bounds.iter().zip(made);
        let bounds: Vec<TurnBounds> = bounds.map(|(bound, made)| left(*bound, *made)).collect();
        let most_nuts = task.most_nuts.unwrap_or(arms);
        let is_allowed = |turns: &Turns| {
            let mut pairs = turns.iter().zip(&bounds);
            pairs.all(|(k, b)| (b.least..=b.most).contains(k)) && touched(turns) <= most_nuts
        };
        let mut plans: Vec<Turns> = Vec::new();
        // As they are, and without the common turn of all nuts that costs most.
        let mut add = |turns: Turns| {
            let without = without_common(&turns, arms)
                .filter(is_allowed)
                .min_by(|a, b| {
                    let [a, b] = [a, b].map(|turns| task.effort.of_turns(turns));
                    a.total_cmp(&b)
                });
            for turns in [Some(turns).filter(is_allowed), without]
                .into_iter()
                .flatten()
            {
                if !plans.contains(&turns) {
                    plans.push(turns);
                }
            }
        };
        add(LEAVE);
        for destination in self.destinations {
            let mut turns = *destination;
            turns.iter_mut().zip(made).for_each(|(k, made)| *k -= made);
            add(turns);
        }
        for by in moves
            .iter()
            .step_by(moves.len().div_ceil(AHEAD_SEARCHES).max(1))
        {
            let thickness: Vec<f64> = thickness_nm
                .iter()
                .zip(&by.profile_nm)
                .map(|(t, by)| t + by)
                .collect();
            let response = Response::from_fn(task.counting.len(), arms, |s, i| {
                response.at(s, i) + by.response[s * arms + i]
            });
            let mut problem = SearchProblem::new(&thickness, &response, &bounds);
            problem.most_nuts = task.most_nuts;
            problem.most_nodes = SEARCH_NODES;
            if let Ok(found) = smallest_spread(&problem, self.search) {
                add(to_turns(&found.turns));
            }
        }
        let plans = plans.into_iter().map(|turns| {
            let notches = turns.map(f64::from);
            let means = thickness_nm.iter().enumerate();
            let means = means.map(|(s, t)| t + response.change_at(s, notches));
            let mut drawn_nm = Vec::new();
            outlook.laced_profile(&turns, &mut drawn_nm);
            Plan {
                turns,
                effort: task.effort.of_turns(&turns),
                mean_nm: means.collect(),
                drawn_nm,
            }
        });
        Ok(Belief {
            plans: plans.collect(),
            outlook,
        })
    }

    /// The plan that takes the fewest minutes, of those
    /// that leave the smallest spreads on average, once a belief has moved.
    fn best(&mut self, belief: &Belief, by: &Move, minutes: impl Fn(f64, f64) -> f64) -> Best {
        let stations = by.profile_nm.len();
        let arms = by.response.len() / stations.max(1);
        // How far each plan is off at the stations, and its spread there.
        let mut offs = Vec::with_capacity(belief.plans.len() * stations);
        let mut near: Vec<(f64, usize)> = Vec::with_capacity(belief.plans.len());
        for (index, plan) in belief.plans.iter().enumerate() {
            let rows = by.response.chunks_exact(arms.max(1)).zip(&by.profile_nm);
            let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
            for ((row, off), mean) in rows.zip(&plan.mean_nm) {
                let turned = row.iter().zip(&plan.turns).map(|(b, k)| b * f64::from(*k));
                let off = off + turned.sum::<f64>();
                low = low.min(mean + off);
                high = high.max(mean + off);
                offs.push(off);
            }
            near.push((high - low, index));
        }
        near.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        let mut best = Best::default();
        let mut least = f64::INFINITY;
        for (_, index) in near.into_iter().take(AHEAD_PLANS) {
            let plan = &belief.plans[index];
            let off = &offs[index * stations..(index + 1) * stations];
            let inside = (belief.outlook).inside(&plan.drawn_nm, off, self.task.tolerance_nm);
            let chance = inside as f64 / belief.outlook.draws().max(1) as f64;
            let found = minutes(chance, plan.effort);
            if found < least {
                least = found;
                best = Best {
                    turns: plan.turns,
                    chance,
                    effort: plan.effort,
                };
            }
        }
        best
    }
}

/// What is left of a nut's turns once `made` of them are made. The most in one
/// re-lace is free anew at the next.
fn left(bounds: TurnBounds, made: i32) -> TurnBounds {
    let left = |bound: i32| {
        if bound.abs() == MOST_NOTCHES_PER_RELACE {
            bound
        } else {
            bound - made
        }
    };
    TurnBounds {
        least: left(bounds.least),
        most: left(bounds.most),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::Effort;
    use crate::plan::tests_plan::three_arms;

    /// Two pieces of which the last was read so often.
    fn after_two_pieces(repeats: u32) -> Posterior {
        three_arms(&[
            ([0.0; 3], [6.35e6, 6.20e6, 6.38e6], 1),
            ([0.0, 3.0, -1.0], [6.40e6, 6.42e6, 6.33e6], repeats),
        ])
    }

    fn check(found: f64, expected: f64) {
        assert!(
            (found - expected).abs() < 1e-6 * expected.abs().max(1.0),
            "{found} {expected}"
        );
    }

    /// What stands for a belief while looking ahead is moved as the belief
    /// itself is once the readings have come.
    #[test]
    fn a_move_is_what_the_readings_would_teach() {
        let posterior = after_two_pieces(2);
        let task = Task {
            posterior: &posterior,
            counting: &[0, 2],
            tolerance_nm: 76_200.0,
            bounds: &[TurnBounds { least: -6, most: 6 }; 3],
            accepted: false,
            most_nuts: None,
            effort: Effort::default(),
        };
        let (mut outlook, mut search) = Default::default();
        let looking = Ahead::new(&task, &[], &mut outlook, &mut search);
        let ahead = posterior.next_piece_ahead(&[0, 2, 0]).unwrap();
        let residual = [1.0, -0.5, 2.0];
        let by = looking.moved(&ahead, &residual);
        let (before, found) = (&ahead.posterior, ahead.as_found(&residual));
        let profiles = [before, &found].map(|known| known.press_after(&[]).mean_nm);
        let rise = |s: usize| profiles[1][s] - profiles[0][s];
        for (row, s) in task.counting.iter().enumerate() {
            for arm in 0..3 {
                let change = found.response().at(*s, arm) - before.response().at(*s, arm);
                check(by.response[3 * row + arm], change);
            }
        }
        check(by.profile_nm[1] - by.profile_nm[0], rise(2) - rise(0));
        assert!(rise(2).abs() > 100.0);
    }

    /// Three readings, and three more: six.
    #[test]
    fn reading_again_as_often_is_reading_twice_as_often() {
        let again = after_two_pieces(3).rereading_ahead().unwrap().posterior;
        let six = after_two_pieces(6);
        let covariances = [again.state().covariance(), six.state().covariance()];
        for (found, expected) in covariances[0].iter().zip(covariances[1]) {
            check(*found, *expected);
        }
    }

    /// A nut with 3 notches left inward and 5 outward is turned out 2; one that
    /// nothing but the re-lace holds may turn as far again.
    #[test]
    fn turns_that_are_made_are_not_left() {
        let bounds = |least, most| TurnBounds { least, most };
        assert_eq!(left(bounds(-3, 5), 2), bounds(-5, 3));
        assert_eq!(left(bounds(-3, 5), -2), bounds(-1, 7));
        let most = MOST_NOTCHES_PER_RELACE;
        assert_eq!(left(bounds(-most, most), 2), bounds(-most, most));
    }
}
