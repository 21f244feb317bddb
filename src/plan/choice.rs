//! Which turns to make: chances, preferences and the number of test pieces.
//!
//! What may be done next is compared by the expected number of further test
//! pieces, one step ahead. With p the chance of what is done now and q that of
//! the piece after it,
//!
//! ```text
//! turn, or lace again:  1 + (1 - p) / q
//! measure again:        cost + (1 - s) (1 + (1 - p') / q)
//! ```
//!
//! p is the plan's own chance. q is the chance of the recommended plan with what
//! one more pass will have taught: its covariance is known beforehand, its mean
//! is taken as now, and every later piece as good as that one, hence 1 / q
//! pieces on average. s is the chance that the last piece passes when read once
//! more as often, p' that of the recommended plan when its readings are that
//! much better known, and the cost is [`MEASURING_COST`].

use super::candidates::Candidates;
use super::chance::{Standing, check_tolerance, inside_when_read_again, standing_in};
use super::draws::Purpose;
use super::error::{PlanError, Quantity};
use super::learn::Learnt;
use super::noise::{LATER_DRAWS, OUTLOOK_DRAWS, RANKING_DRAWS};
use super::options::{LEAVE, OptionKind, Options, touched};
use super::outlook::{Forecast, Outlook, OutlookScratch, Turns};
use super::search::{FARTHEST_TURN, SearchWorkspace, TurnBounds};
use crate::press::Response;

/// What measuring the piece again costs, in test pieces.
pub const MEASURING_COST: f64 = 0.1;
/// However small a chance looks, it counts for so much when test pieces to come
/// are reckoned: what is not foreseen may help too.
const LEAST_CHANCE: f64 = 0.05;

/// What is to be chosen.
#[derive(Debug, Clone, Copy)]
pub struct Task<'a> {
    /// Press and response as known.
    pub learnt: &'a Learnt,
    /// The stations that count, as indices among all stations.
    pub counting: &'a [usize],
    /// Largest spread allowed, in nanometres.
    pub tolerance_nm: f64,
    /// Turns allowed to each nut: its limits, its opening margin and the most
    /// turned in one re-lace, all at once.
    pub bounds: &'a [TurnBounds],
    /// The last piece passes by the shop's rule.
    pub accepted: bool,
    /// At most so many nuts are turned.
    pub most_nuts: Option<usize>,
}

/// Memory for choosing, kept from call to call.
#[derive(Debug, Default)]
pub struct ChoiceWorkspace {
    scratch: OutlookScratch,
    search: SearchWorkspace,
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
}

/// What to do first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Action {
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
    /// The chances with the nuts as they are.
    pub standing: Standing,
    /// The options, leaving the nuts alone first.
    pub options: Vec<PlanOption>,
    /// The recommended one among the options; the first when turning gains
    /// nothing worth the turning.
    pub recommended: usize,
    /// What to do first.
    pub action: Action,
    /// Expected further test pieces when the last piece is measured again and
    /// then the best is done.
    pub pieces_measuring_again: f64,
    /// Leaving the nuts alone is as good as whole notches make it.
    pub as_good_as_it_gets: bool,
    /// False when a nut stands outside its limits and has to move: the first
    /// option then only shows what leaving it would give.
    pub may_leave: bool,
}

/// Chooses turns. Deterministic.
///
/// # Errors
/// [`PlanError`] for bounds that do not fit the press, a tolerance that is no
/// length, or no counting station.
pub fn choose(task: &Task, workspace: &mut ChoiceWorkspace) -> Result<Choice, PlanError> {
    check(task)?;
    let learnt = task.learnt;
    let many = Outlook::new(learnt, task.counting, RANKING_DRAWS, Purpose::Outlook)?;
    let few = Outlook::new(learnt, task.counting, OUTLOOK_DRAWS, Purpose::Chance)?;
    let scratch = &mut workspace.scratch;
    let standing = standing_in(&few, learnt, task.counting, task.tolerance_nm, scratch);

    let profile = learnt.press_after(&[]);
    let thickness: Vec<f64> = task.counting.iter().map(|s| profile.mean_nm[*s]).collect();
    let all = learnt.response();
    let mean = Response::from_fn(task.counting.len(), learnt.arms(), |s, i| {
        all.at(task.counting[s], i)
    });
    let mut candidates = Candidates::new(&many, scratch, task.tolerance_nm, task.bounds);
    candidates.explore(&thickness, &mean, &mut workspace.search);
    let mut judged = candidates.judged();
    if let Some(most) = task.most_nuts {
        judged.retain(|(turns, _)| touched(turns) <= most);
    }
    let may_leave = task.bounds.iter().all(|b| b.least <= 0 && 0 <= b.most);
    let options = Options::new(&few, scratch, task.tolerance_nm, learnt.arms(), judged);
    let (rows, recommended) = options.rows(may_leave);

    let chosen = rows[recommended].turns;
    let after_turning = learnt.after_pass_as_expected(&chosen)?;
    let after_leaving = learnt.after_pass_as_expected(&LEAVE)?;
    let turned = later_chance(task, &after_turning, &LEAVE, scratch)?.max(LEAST_CHANCE);
    let left = later_chance(task, &after_leaving, &chosen, scratch)?.max(LEAST_CHANCE);
    let options: Vec<PlanOption> = rows
        .iter()
        .map(|row| {
            let later = if row.turns == LEAVE { left } else { turned };
            PlanOption {
                kind: row.kind,
                turns: row.turns[..learnt.arms()].to_vec(),
                nuts: touched(&row.turns),
                forecast: row.forecast,
                pieces: 1.0 + (1.0 - row.forecast.chance) / later,
            }
        })
        .collect();
    let reread = learnt.after_reading_again()?;
    let reread = later_chance(task, &reread, &chosen, scratch)?;
    let settled = inside_when_read_again(learnt, task.counting, task.tolerance_nm);
    let pieces_measuring_again = MEASURING_COST + (1.0 - settled) * (1.0 + (1.0 - reread) / turned);
    let action = if task.accepted {
        Action::Accept
    } else if pieces_measuring_again < options[recommended].pieces {
        Action::MeasureAgain
    } else if chosen == LEAVE {
        Action::LaceAgain
    } else {
        Action::Turn
    };
    Ok(Choice {
        standing,
        as_good_as_it_gets: recommended == 0 && may_leave,
        may_leave,
        options,
        recommended,
        action,
        pieces_measuring_again,
    })
}

fn check(task: &Task) -> Result<(), PlanError> {
    check_tolerance(task.tolerance_nm)?;
    let arms = task.learnt.arms();
    if task.bounds.len() != arms {
        return Err(PlanError::Shape {
            expected: arms,
            found: task.bounds.len(),
        });
    }
    let far = |k: i32| k.unsigned_abs() > FARTHEST_TURN.unsigned_abs();
    if task
        .bounds
        .iter()
        .any(|b| b.least > b.most || far(b.least) || far(b.most))
    {
        return Err(PlanError::OutOfRange(Quantity::Bounds));
    }
    Ok(())
}

/// Chance of further `turns` in a piece to come, once more is known.
fn later_chance(
    task: &Task,
    learnt: &Learnt,
    turns: &Turns,
    scratch: &mut OutlookScratch,
) -> Result<f64, PlanError> {
    let outlook = Outlook::new(learnt, task.counting, LATER_DRAWS, Purpose::Chance)?;
    Ok(outlook.next_piece_chance(turns, task.tolerance_nm, scratch))
}
