//! Which turns to make: chances, and the minutes until a piece passes.
//!
//! What may be done next is compared by the expected minutes until a piece
//! passes. With p the chance of the next piece, q and e chance and effort of the
//! best plan made anew when it does not pass, and r the chance of every plan
//! after that one ([`super::later`]),
//!
//! ```text
//! further pieces:  1 + (1 - p) l           l = 1 + (1 - q) / r
//! minutes:         turning + piece + (1 - p) l (piece + e)
//! ```
//!
//! Measuring again costs its minutes and saves those that the better plans, or
//! a piece that turns out inside, are worth on average.

use super::ahead::Ahead;
use super::candidates::Candidates;
use super::effort::Effort;
use super::error::PlanError;
use super::later::{Later, until_a_piece_passes};
use super::noise::{MOST_ROWS, OUTLOOK_DRAWS, RANKING_DRAWS};
use super::options::{OptionKind, Options, Row, Rows, WORTHWHILE};
use super::outlook::{Forecast, PredictiveDraws, PredictiveScratch};
use super::search::SearchWorkspace;
use super::task::Task;
use super::turns::{LEAVE, touched};
use crate::stats::{Kept, Purpose};

/// A chance of the next piece below this is poor.
pub const POOR: f64 = 0.5;

/// A chance of the next piece below this is as good as none.
pub const VERY_POOR: f64 = 0.2;

/// Where no plan has a chance worth the name, turning is worthwhile when it
/// takes so large a share of the tolerance off the median spread.
const WORTHWHILE_SPREAD: f64 = 0.25;

/// Memory for choosing, kept from call to call.
#[derive(Debug, Default)]
pub struct ChoiceWorkspace {
    scratch: PredictiveScratch,
    search: SearchWorkspace,
}

impl ChoiceWorkspace {
    /// Draws and tables kept.
    pub(crate) fn kept(&mut self) -> &mut Kept {
        &mut self.scratch.kept
    }
}

/// One row of the options.
#[derive(Debug, Clone, PartialEq)]
pub struct PlanOption {
    /// What it stands for.
    pub kind: OptionKind,
    /// Whole notches for each nut, out positive.
    pub turns: Vec<i32>,
    /// Nuts touched.
    pub nuts: usize,
    /// Spread and chance of the next piece.
    pub forecast: Forecast,
    /// Expected number of further test pieces until one passes.
    pub pieces: f64,
    /// Expected minutes until then.
    pub minutes: f64,
}

/// What to do first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BestAct {
    /// The piece passes: stop here.
    Accept,
    /// Read the last piece again.
    MeasureAgain,
    /// Lace another piece without turning.
    LaceAgain,
    /// Make the turns of the recommended option.
    Turn,
}

/// The answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    /// The options that nothing beats, leaving the nuts alone first: fewer
    /// nuts, more chance, or outward turns only.
    pub options: Vec<PlanOption>,
    /// The recommended one among the options, with the fewest minutes; the
    /// first when turning gains nothing worth the turning.
    pub recommended: usize,
    /// What to do first.
    pub action: BestAct,
    /// Expected minutes until a piece passes when the last one is measured
    /// again and then the best is done. Infinite for a piece that passes: it
    /// need not be.
    pub minutes_measuring_again: f64,
    /// Leaving the nuts alone is as good as whole notches make it: no option
    /// has a chance better by [`WORTHWHILE`].
    pub as_good_as_it_gets: bool,
    /// False when a nut stands outside its limits and has to move: the first
    /// option then only shows what leaving it would give.
    pub may_leave: bool,
    /// What follows a piece that fails with the nuts left, and one that fails
    /// after turns.
    later: [Later; 2],
}

impl Choice {
    /// Expected number of further pieces and minutes until one passes, for any
    /// turns that make the next piece pass with so much chance.
    pub fn until_a_piece_passes(&self, turns: &[i32], chance: f64, effort: &Effort) -> (f64, f64) {
        let [leaving, turning] = self.later;
        let later = if turns.iter().any(|turn| *turn != 0) {
            turning
        } else {
            leaving
        };
        until_a_piece_passes(chance, effort.of_turns(turns), effort.piece.value(), later)
    }

    /// Where leaving the nuts alone has a [`POOR`] chance: of the options whose
    /// chance is worthwhile beside it, the one with the fewest nuts.
    pub fn better_next(&self) -> Option<&PlanOption> {
        let (leave, plans) = self.options.split_first()?;
        let left = leave.forecast.chance;
        let better = |plan: &&PlanOption| plan.forecast.chance >= left + WORTHWHILE;
        let order = |plan: &PlanOption| (plan.nuts, plan.minutes);
        plans
            .iter()
            .filter(|plan| left < POOR && better(plan))
            .reduce(|best, plan| {
                if order(plan) < order(best) {
                    plan
                } else {
                    best
                }
            })
    }
}

/// Chooses turns. Deterministic.
///
/// # Errors
/// [`PlanError`] for bounds that do not fit the press, a tolerance that is no
/// length, or no counting station.
pub fn choose(task: &Task, workspace: &mut ChoiceWorkspace) -> Result<Choice, PlanError> {
    task.check()?;
    let posterior = task.posterior;
    let scratch = &mut workspace.scratch;
    let mut drawn = |draws: usize, purpose: Purpose| {
        PredictiveDraws::new(posterior, task.counting, draws, purpose, &mut scratch.kept)
    };
    let many = drawn(RANKING_DRAWS, Purpose::Outlook)?;
    let few = drawn(OUTLOOK_DRAWS, Purpose::Chance)?;

    let profile = posterior.press_after(&[]);
    let thickness: Vec<f64> = task.counting.iter().map(|s| profile.mean_nm[*s]).collect();
    let mean = posterior.response().of_stations(task.counting);
    let mut candidates = Candidates::new(&many, task.tolerance_nm, task.bounds);
    candidates.explore(&thickness, &mean, &mut workspace.search);
    let mut judged = candidates.judged();
    if let Some(most) = task.most_nuts {
        judged.retain(|(turns, _)| touched(turns) <= most);
    }
    let may_leave = task.bounds.iter().all(|b| b.least <= 0 && 0 <= b.most);
    let (arms, effort) = (posterior.arms(), task.effort);
    let options = Options::new(&few, scratch, task.tolerance_nm, arms, effort, judged);
    let Rows {
        rows,
        way_on,
        destinations,
    } = options.rows(may_leave);

    let piece = effort.piece.value();
    let mut ahead = Ahead::new(task, &destinations, scratch, &mut workspace.search);
    // Plans made anew rest on what was learnt by then, which differs little from
    // turns to turns, but more from leaving all nuts.
    let likeliest = likeliest(&rows, way_on);
    let after_turning = ahead.after_failing(&rows[likeliest].turns)?;
    let settled = ahead.settled(&after_turning)?;
    let after_turning = after_turning.later(settled);
    let after_leaving = if likeliest == 0 {
        after_turning
    } else {
        ahead.after_failing(&LEAVE)?.later(settled)
    };
    let later = |index: usize| {
        if index == 0 {
            after_leaving
        } else {
            after_turning
        }
    };
    let mut options: Vec<PlanOption> = rows
        .iter()
        .enumerate()
        .map(|(index, row)| {
            let turning = effort.of_turns(&row.turns);
            let chance = row.forecast.chance;
            let (pieces, minutes) = until_a_piece_passes(chance, turning, piece, later(index));
            PlanOption {
                kind: row.kind(),
                turns: row.turns[..arms].to_vec(),
                nuts: touched(&row.turns),
                forecast: row.forecast,
                pieces,
                minutes,
            }
        })
        .collect();
    let mut recommended = quickest(&options, may_leave);
    if let Some(index) = way_on.filter(|index| !may_leave || is_nearer(&rows, *index, task)) {
        recommended = index;
    }
    let minutes_measuring_again = if task.accepted {
        f64::INFINITY
    } else {
        let saved = ahead.saved_by_measuring(later(recommended))?;
        options[recommended].minutes + effort.measuring.value() - saved
    };
    let action = if task.accepted {
        BestAct::Accept
    } else if minutes_measuring_again < options[recommended].minutes {
        BestAct::MeasureAgain
    } else if options[recommended].nuts == 0 {
        BestAct::LaceAgain
    } else {
        BestAct::Turn
    };
    let left = options[0].forecast.chance;
    let gains = |plan: &PlanOption| plan.forecast.chance >= left + WORTHWHILE;
    let as_good_as_it_gets = may_leave && recommended == 0 && !options.iter().any(gains);
    let recommended = match keep_few(&mut options, recommended) {
        // A piece that passes is not made worse for a better chance.
        _ if task.accepted => 0,
        recommended => recommended,
    };
    Ok(Choice {
        as_good_as_it_gets,
        may_leave,
        options,
        recommended,
        action,
        minutes_measuring_again,
        later: [after_leaving, after_turning],
    })
}

/// The row of turns with the most chance; the way on where there is hardly any.
fn likeliest(rows: &[Row], way_on: Option<usize>) -> usize {
    let chance = |index: usize| rows[index].forecast.chance;
    way_on.unwrap_or_else(|| {
        let best = (1..rows.len()).reduce(|a, b| if chance(b) > chance(a) { b } else { a });
        best.unwrap_or(0)
    })
}

/// The option with the fewest minutes; the first of them.
fn quickest(options: &[PlanOption], may_leave: bool) -> usize {
    let allowed = options.iter().enumerate().skip(usize::from(!may_leave));
    allowed
        .reduce(|a, b| if b.1.minutes < a.1.minutes { b } else { a })
        .map_or(0, |(index, _)| index)
}

/// Whether a row takes a good part of the tolerance off the median spread.
fn is_nearer(rows: &[Row], index: usize, task: &Task) -> bool {
    let median = |index: usize| rows[index].forecast.median_nm;
    median(0) - median(index) > WORTHWHILE_SPREAD * task.tolerance_nm
}

/// Keeps [`MOST_ROWS`] options: leaving, the recommended one, and of the others
/// those with the fewest minutes. Answers where the recommended one now stands.
fn keep_few(options: &mut Vec<PlanOption>, mut recommended: usize) -> usize {
    while options.len() > MOST_ROWS {
        let others = options.iter().enumerate().skip(1);
        let slowest = others
            .filter(|(index, _)| *index != recommended)
            .reduce(|a, b| if b.1.minutes > a.1.minutes { b } else { a });
        let Some((slowest, _)) = slowest else { break };
        options.remove(slowest);
        recommended -= usize::from(slowest < recommended);
    }
    recommended
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Left alone, one piece in ten passes. A plan is worth a word from one in
    /// twenty more; of those worth it, the one with the fewest nuts.
    #[test]
    fn what_is_better_next_is_worth_a_word() {
        let option = |nuts: usize, chance: f64| PlanOption {
            kind: OptionKind::Nuts(nuts),
            turns: vec![0; 4],
            nuts,
            forecast: Forecast {
                median_nm: 0.0,
                p90_nm: 0.0,
                chance,
            },
            pieces: 1.0,
            minutes: 20.0,
        };
        let better = |leave: f64, plans: &[(usize, f64)]| {
            let plans = plans.iter().map(|(nuts, chance)| option(*nuts, *chance));
            let choice = Choice {
                options: std::iter::once(option(0, leave)).chain(plans).collect(),
                recommended: 0,
                action: BestAct::Turn,
                minutes_measuring_again: 0.0,
                as_good_as_it_gets: false,
                may_leave: true,
                later: Default::default(),
            };
            choice.better_next().map(|plan| plan.nuts)
        };
        assert_eq!(better(0.1, &[(1, 0.149)]), None);
        assert_eq!(better(0.1, &[(1, 0.151)]), Some(1));
        assert_eq!(better(0.1, &[(1, 0.149), (3, 0.9), (2, 0.3)]), Some(2));
        // From one in two the nuts do well as they are.
        assert_eq!(better(0.5, &[(1, 0.9)]), None);
    }
}
