//! The lesson on whole notches: why bringing every arm up to the thickest can
//! fail though a better choice of whole notches passes.

use crate::plan::{SearchProblem, SearchWorkspace, TurnBounds, smallest_spread, spread_after};
use crate::press::Response;
use crate::press::beam::BeamError;
use crate::session::always_reachable;
use crate::stats::{Draws, Purpose};
use crate::units::{ExactLength, Length};

use super::shown_press::ShownPress;
use super::ways::arm_by_arm;

/// A step of the lesson on whole notches. Lengths in nanometres.
#[derive(Debug, Clone, PartialEq)]
pub enum NotchStep {
    /// A piece outside.
    Found {
        /// Its spread.
        spread_nm: f64,
    },
    /// Every arm is to come up to the thickest.
    Thickest {
        /// Those turns.
        turns: Vec<i32>,
    },
    /// What that leaves.
    Left {
        /// The spread after it.
        spread_nm: f64,
        /// Whether inside.
        inside: bool,
    },
    /// Why: each nut lands up to half a notch off, and its neighbours are moved
    /// too.
    Why {
        /// What one notch does.
        notch_nm: f64,
    },
    /// Other whole notches do better.
    Better {
        /// Those turns.
        turns: Vec<i32>,
        /// The spread after them.
        spread_nm: f64,
        /// Whether inside.
        inside: bool,
    },
    /// How small whole notches always get with nuts that are equal and do not
    /// move their neighbours.
    Always {
        /// What one notch does then.
        notch: Length,
        /// That spread.
        spread_nm: f64,
        /// Arms.
        arms: usize,
        /// Whether inside.
        inside: bool,
    },
    /// The rule to take home.
    Rule,
}

/// How often a piece is drawn until one shows it.
const TRIES: u64 = 300;
/// Bounds of the turns shown: few enough to be counted at a press, and none IN,
/// as the trade prefers.
const SHOWN: TurnBounds = TurnBounds { least: 0, most: 4 };

/// A piece on which arm by arm fails and another choice passes.
struct Example {
    off_nm: Vec<f64>,
    by_arms: Vec<i32>,
    by_arms_nm: f64,
    best: Vec<i32>,
    best_nm: f64,
}

/// Where the nuts stand at a step, and the step.
pub(super) type NutsAndStep = (Vec<i32>, NotchStep);

/// What the piece is off at each arm, and the steps.
pub(super) fn notch_steps(shown: &ShownPress) -> Result<(Vec<f64>, Vec<NutsAndStep>), BeamError> {
    let response = response(shown)?;
    let example = example(shown, &response);
    let notch_nm = (0..shown.arms())
        .map(|arm| response.at(arm, arm))
        .sum::<f64>()
        / shown.arms().max(1) as f64;
    let tolerance = shown.tolerance_nm();
    let still = vec![0; shown.arms()];
    let mut steps = Vec::new();
    let mut step = |nuts: &[i32], says: NotchStep| steps.push((nuts.to_vec(), says));
    let spread_nm = super::simulated::spread_nm(&example.off_nm);
    step(&still, NotchStep::Found { spread_nm });
    let turns = example.by_arms.clone();
    step(&still, NotchStep::Thickest { turns });
    let spread_nm = example.by_arms_nm;
    step(
        &example.by_arms,
        NotchStep::Left {
            spread_nm,
            inside: spread_nm <= tolerance,
        },
    );
    step(&example.by_arms, NotchStep::Why { notch_nm });
    let spread_nm = example.best_nm;
    step(
        &example.best,
        NotchStep::Better {
            turns: example.best.clone(),
            spread_nm,
            inside: spread_nm <= tolerance,
        },
    );
    let press = &shown.session().press;
    let effects = press.arms.iter().map(|arm| arm.notch_effect.length());
    let notch = effects.max().unwrap_or(Length::ZERO);
    let always = always_reachable(notch, shown.arms());
    let always = always.map_or(0.0, ExactLength::nm_f64);
    step(
        &example.best,
        NotchStep::Always {
            notch,
            spread_nm: always,
            arms: shown.arms(),
            inside: always <= tolerance,
        },
    );
    step(&example.best, NotchStep::Rule);
    Ok((example.off_nm, steps))
}

/// What a notch at each arm does at each arm, on the press.
fn response(shown: &ShownPress) -> Result<Response, BeamError> {
    let mut columns = Vec::new();
    for (arm, _) in shown.session().press.indexed_arms() {
        columns.push(shown.stands(&shown.only(arm, 1))?.splice_nm);
    }
    let at = |station: usize, arm: usize| columns.get(arm)?.get(station).copied();
    let arms = shown.arms();
    Ok(Response::from_fn(arms, arms, |station, arm| {
        at(station, arm).unwrap_or_default()
    }))
}

/// The first drawn piece on which arm by arm fails and the best choice passes;
/// where there is none, as with a wide tolerance, the last one drawn.
fn example(shown: &ShownPress, response: &Response) -> Example {
    let arms = shown.arms();
    let bounds = vec![SHOWN; arms];
    let mut workspace = SearchWorkspace::default();
    let tolerance = shown.tolerance_nm();
    let press = &shown.session().press;
    let notch = press
        .arms
        .first()
        .map(|arm| arm.notch_effect.length().nm_f64());
    let notch = notch.unwrap_or_default();
    let step = shown.session().gauge.step.length().nm_f64().max(1.0);
    let mut draws = Draws::new(Purpose::Practice([0, 0, 1]));
    let mut last = None;
    for _ in 0..TRIES {
        // Whole steps of the gauge, up to three notches apart.
        let off_nm: Vec<f64> = (0..arms)
            .map(|_| (3.0 * notch * draws.uniform() / step).round() * step)
            .collect();
        let by_arms = arm_by_arm(&off_nm, notch);
        let by_arms_nm = spread_after(&off_nm, response, &by_arms);
        let problem = SearchProblem::new(&off_nm, response, &bounds);
        let Ok(found) = smallest_spread(&problem, &mut workspace) else {
            continue;
        };
        // Better with hardly more to turn.
        let turned = |turns: &[i32]| turns.iter().map(|turn| turn.abs()).sum::<i32>();
        // A rod that went slack would be another lesson.
        let tight = |turns: &[i32]| shown.stands(turns).is_ok_and(|at| at.slack.is_empty());
        let shows = by_arms_nm > tolerance
            && found.spread_nm < 0.8 * tolerance
            && turned(&found.turns) <= turned(&by_arms) + 1
            && tight(&by_arms)
            && tight(&found.turns);
        last = Some(Example {
            off_nm,
            by_arms,
            by_arms_nm,
            best: found.turns,
            best_nm: found.spread_nm,
        });
        if shows {
            break;
        }
    }
    last.unwrap_or_else(|| Example {
        off_nm: vec![0.0; arms],
        by_arms: vec![0; arms],
        by_arms_nm: 0.0,
        best: vec![0; arms],
        best_nm: 0.0,
    })
}
