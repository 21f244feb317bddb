//! Which turns to make: chances, preferences and the number of test pieces.

use super::candidates::{Candidates, Score};
use super::chance::{Standing, check_tolerance, standing_in};
use super::error::{PlanError, Quantity};
use super::learn::Learnt;
use super::noise::{Effort, FARTHEST_BOUND};
use super::outlook::{Forecast, Outlook, OutlookScratch, Turns};
use super::search::{MOST_ARMS, SearchWorkspace, TurnBounds};
use crate::press::Response;

/// Chances that differ by no more count as alike.
pub const ALIKE: f64 = 0.03;
/// A plan must gain so much chance over leaving the nuts alone.
pub const WORTHWHILE: f64 = 0.05;
/// What measuring the piece again costs, in test pieces.
pub const MEASURING_COST: f64 = 0.1;

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
}

/// Memory for choosing, kept from call to call.
#[derive(Debug, Default)]
pub struct ChoiceWorkspace {
    scratch: OutlookScratch,
    search: SearchWorkspace,
}

/// What a row of the options stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OptionKind {
    /// The nuts stay as they are.
    Leave,
    /// The best that touches so many nuts.
    Nuts(usize),
    /// The best that turns outward only.
    Outward,
    /// The smallest median spread.
    Smallest,
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
}

/// Chooses turns. Deterministic.
///
/// # Errors
/// [`PlanError`] for bounds that do not fit the press, a tolerance that is no
/// length, or no counting station.
pub fn choose(task: &Task, workspace: &mut ChoiceWorkspace) -> Result<Choice, PlanError> {
    check(task)?;
    let learnt = task.learnt;
    let effort = Effort::for_arms(learnt.arms());
    let outlook = Outlook::new(learnt, task.counting, effort.draws)?;
    let scratch = &mut workspace.scratch;
    let standing = standing_in(&outlook, learnt, task.counting, task.tolerance_nm, scratch);

    let profile = learnt.press_after(&[]);
    let thickness: Vec<f64> = task.counting.iter().map(|s| profile.mean_nm[*s]).collect();
    let all = learnt.response();
    let mean = Response::from_fn(task.counting.len(), learnt.arms(), |s, i| {
        all.at(task.counting[s], i)
    });
    let mut candidates = Candidates::new(&outlook, scratch, task.tolerance_nm, task.bounds);
    candidates.explore(&thickness, &mean, &mut workspace.search);
    let judged: Vec<(Turns, Score)> = candidates.seen().iter().map(|(t, s)| (*t, *s)).collect();

    let rows = rows(task, &outlook, scratch, &judged, &effort);
    let recommended = recommend(task, &rows);
    let chosen = rows[recommended].1;
    let after = |again: &Turns, turns: &Turns, read: bool, scratch: &mut OutlookScratch| {
        continuation(task, again, turns, read, &effort, scratch)
    };
    let leave: Turns = [0; MOST_ARMS];
    let later = after(&chosen, &chosen, true, scratch)?;
    let later_left = after(&leave, &chosen, true, scratch)?;
    let options: Vec<PlanOption> = rows
        .iter()
        .map(|(kind, turns, forecast)| {
            let next = if *turns == leave { later_left } else { later };
            PlanOption {
                kind: *kind,
                turns: turns[..learnt.arms()].to_vec(),
                nuts: touched(turns),
                forecast: *forecast,
                pieces: 1.0 + (1.0 - forecast.chance) / next,
            }
        })
        .collect();
    let measured = after(&leave, &chosen, false, scratch)?;
    let pieces_measuring_again = MEASURING_COST + 1.0 + (1.0 - measured) / later;
    let action = if task.accepted {
        Action::Accept
    } else if pieces_measuring_again < options[recommended].pieces {
        Action::MeasureAgain
    } else if chosen == leave {
        Action::LaceAgain
    } else {
        Action::Turn
    };
    Ok(Choice {
        standing,
        as_good_as_it_gets: recommended == 0,
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
    let far = |k: i32| k.unsigned_abs() > FARTHEST_BOUND;
    if task
        .bounds
        .iter()
        .any(|b| b.least > b.most || far(b.least) || far(b.most))
    {
        return Err(PlanError::OutOfRange(Quantity::Bounds));
    }
    Ok(())
}

fn touched(turns: &Turns) -> usize {
    turns.iter().filter(|k| **k != 0).count()
}

/// Sum of differences between neighbouring nuts' turns.
fn zigzag(turns: &[i32]) -> u32 {
    turns.windows(2).map(|pair| pair[0].abs_diff(pair[1])).sum()
}

/// Preference among plans of like chance; smaller is better.
fn preference(turns: &Turns, arms: usize) -> (usize, u32, u32, i32) {
    let turns_used = &turns[..arms];
    let notches = turns_used.iter().map(|k| k.unsigned_abs()).sum();
    let inward = -turns_used.iter().sum::<i32>();
    (touched(turns), zigzag(turns_used), notches, inward)
}

type Row = (OptionKind, Turns, Forecast);

fn rows(
    task: &Task,
    outlook: &Outlook,
    scratch: &mut OutlookScratch,
    judged: &[(Turns, Score)],
    effort: &Effort,
) -> Vec<Row> {
    let arms = task.learnt.arms();
    let leave: Turns = [0; MOST_ARMS];
    let mut rows = vec![(
        OptionKind::Leave,
        leave,
        outlook.forecast(&leave, task.tolerance_nm, scratch),
    )];
    let near = (ALIKE * outlook.draws() as f64) as u32;
    let refine = |kind: OptionKind, group: Vec<&(Turns, Score)>, scratch: &mut OutlookScratch| {
        let best = group
            .iter()
            .copied()
            .reduce(|a, b| if b.1.beats(a.1) { b } else { a })?;
        // Those that may turn out alike, the preferred first; and the best.
        let mut few: Vec<&(Turns, Score)> = group
            .into_iter()
            .filter(|(_, s)| s.inside + near >= best.1.inside && s.inside > 0)
            .collect();
        few.sort_by_key(|(turns, _)| preference(turns, arms));
        few.truncate(effort.refined_per_row);
        few.push(best);
        let refined: Vec<(Turns, Forecast)> = few
            .iter()
            .map(|(turns, _)| (*turns, outlook.forecast(turns, task.tolerance_nm, scratch)))
            .collect();
        pick(&refined, arms).map(|(turns, forecast)| (kind, turns, forecast))
    };
    for nuts in 1..=arms {
        let group = judged.iter().filter(|(t, _)| touched(t) == nuts).collect();
        rows.extend(refine(OptionKind::Nuts(nuts), group, scratch));
    }
    let outward = judged
        .iter()
        .filter(|(t, _)| touched(t) > 0 && t.iter().all(|k| *k >= 0))
        .collect();
    rows.extend(refine(OptionKind::Outward, outward, scratch));
    let smallest = judged
        .iter()
        .filter(|(t, _)| touched(t) > 0)
        .min_by(|a, b| a.1.spread_nm.total_cmp(&b.1.spread_nm));
    if let Some((turns, _)) = smallest {
        let forecast = outlook.forecast(turns, task.tolerance_nm, scratch);
        rows.push((OptionKind::Smallest, *turns, forecast));
    }
    rows
}

/// The preferred among those alike to the best.
fn pick(refined: &[(Turns, Forecast)], arms: usize) -> Option<(Turns, Forecast)> {
    let best = refined
        .iter()
        .map(|(_, f)| f.chance)
        .fold(f64::NEG_INFINITY, f64::max);
    let smallest = refined
        .iter()
        .map(|(_, f)| f.median_nm)
        .fold(f64::INFINITY, f64::min);
    refined
        .iter()
        .filter(|(_, f)| {
            f.chance >= best - alike(best) && (best > 0.01 || f.median_nm <= 1.03 * smallest)
        })
        .min_by_key(|(turns, _)| preference(turns, arms))
        .copied()
}

/// Three points, or a tenth of a chance below 30 %: a plan of 1 % is not like
/// one of 3 %.
fn alike(best: f64) -> f64 {
    ALIKE.min(0.1 * best)
}

fn recommend(task: &Task, rows: &[Row]) -> usize {
    let arms = task.learnt.arms();
    let leave = rows[0].2;
    let plans: Vec<(Turns, Forecast)> = rows[1..].iter().map(|(_, t, f)| (*t, *f)).collect();
    let Some((turns, forecast)) = pick(&plans, arms) else {
        return 0;
    };
    let stay = task.bounds.iter().all(|b| (b.least..=b.most).contains(&0));
    let gains = forecast.chance >= leave.chance + WORTHWHILE
        || (leave.chance < 0.5 && forecast.median_nm < leave.median_nm - 0.25 * task.tolerance_nm);
    if stay && !gains {
        return 0;
    }
    rows.iter().position(|(_, t, _)| *t == turns).unwrap_or(0)
}

/// Chance of `turns` (from the present nuts) once one more pass has been laced
/// at `laced` turns, or, without `lace`, once the last piece has been read
/// again.
fn continuation(
    task: &Task,
    laced: &Turns,
    turns: &Turns,
    lace: bool,
    effort: &Effort,
    scratch: &mut OutlookScratch,
) -> Result<f64, PlanError> {
    let rest: Turns = core::array::from_fn(|i| turns[i] - laced[i]);
    let learnt = if lace {
        task.learnt.after_pass_as_expected(laced)?
    } else {
        task.learnt.after_reading_again()?
    };
    let outlook = Outlook::new(&learnt, task.counting, effort.later_draws)?;
    let chance = outlook.next_piece_chance(&rest, task.tolerance_nm, scratch);
    Ok(chance.max(0.05))
}
