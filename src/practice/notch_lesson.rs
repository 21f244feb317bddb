//! The lesson on whole notches: why bringing every arm up to the thickest can
//! fail though a better choice of whole notches passes.

use crate::plan::{SearchProblem, SearchWorkspace, TurnBounds, smallest_spread, spread_after};
use crate::press::beam::BeamError;
use crate::press::{ArmIndex, Response};
use crate::stats::{Draws, Purpose};
use crate::units::Length;

use super::exercise::Exercise;
use super::fault::Fault;
use super::lesson::{LessonStep, Says};
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
        /// What it counts for a notch.
        notch: Length,
    },
    /// What that leaves.
    Left {
        /// The spread after it.
        spread_nm: f64,
        /// Whether inside.
        inside: bool,
    },
    /// Why: a nut alone does less than all together, and takes its neighbours
    /// along.
    Why {
        /// The nut.
        arm: ArmIndex,
        /// What one notch of it does there.
        own_nm: f64,
        /// What the usual way counts for one.
        notch: Length,
    },
    /// Other whole notches do better.
    Better {
        /// Those turns.
        turns: Vec<i32>,
        /// The spread after them.
        spread_nm: f64,
        /// Whether inside.
        inside: bool,
        /// Whether the rods share the load after them.
        even: bool,
    },
    /// The rule to take home.
    Rule,
}

/// How often a press is drawn until one shows it.
const TRIES: u64 = 300;
/// Bounds of the turns shown: few enough to be counted at a press, and none IN,
/// as the trade prefers.
const SHOWN: TurnBounds = TurnBounds { least: 0, most: 4 };
/// How far in a nut may stand wrong, in notches.
const MOST_WRONG: f64 = 2.5;
/// How clearly the best choice is inside, and arm by arm outside, as parts of
/// the tolerance.
const CLEARLY: (f64, f64) = (0.6, 1.2);
/// Least share of an even load on every rod, in the end.
const EVEN: f64 = 0.75;

/// A press on which arm by arm fails and another choice passes.
struct Example {
    shown: ShownPress,
    off_nm: Vec<f64>,
    by_arms: Vec<i32>,
    by_arms_nm: f64,
    best: Vec<i32>,
    best_nm: f64,
    /// The lightest rod's share of an even load after the best turns.
    lightest: f64,
    /// How well the press shows what it should; 0 where it does not.
    shows: f64,
}

/// The press with nuts that stand wrong, the steps, and whether it is an invented
/// press of four arms, for want of an example on the one that was given.
pub(super) fn notch_steps(
    given: ShownPress,
) -> Result<(ShownPress, Vec<LessonStep>, bool), BeamError> {
    let mut found = example(given.clone(), &response(&given)?)?;
    let four = Exercise {
        arms: 4,
        fault: Fault::PinchedArm,
        ..Exercise::of_number(1, given.session().unit)
    };
    let mut other = false;
    if found.shows == 0.0
        && let Ok(session) = four.session()
    {
        let four = ShownPress::new(&session);
        let response = response(&four)?;
        found = example(four, &response)?;
        other = true;
    }
    let response = response(&found.shown.as_true())?;
    let Example {
        shown,
        off_nm,
        by_arms,
        by_arms_nm,
        best,
        best_nm,
        lightest,
        shows: _,
    } = found;
    let arms = shown.arms();
    let tolerance = shown.tolerance_nm();
    let still = vec![0; arms];
    let step = |nuts: &[i32], says: NotchStep| LessonStep {
        before: nuts.iter().any(|nut| *nut != 0).then(|| still.clone()),
        ..LessonStep::new(nuts.to_vec(), Says::Notch(says))
    };
    let spread_nm = super::simulated::spread_nm(&off_nm);
    // How much each arm lacks of the thickest.
    let top = off_nm.iter().copied().fold(f64::MIN, f64::max);
    let lacking = (0..).map(ArmIndex).zip(off_nm.iter().map(|off| off - top));
    let lacking: Vec<_> = lacking.filter(|(_, lacks)| *lacks < 0.0).collect();
    let turned = (0..).map(ArmIndex).zip(&by_arms);
    let turned = turned.filter(|(_, turn)| **turn != 0);
    let effects = shown.session().press.arms.iter();
    let effects = effects.map(|arm| arm.notch_effect.length());
    let notch = effects.max().unwrap_or(Length::ZERO);
    let mut steps = vec![
        LessonStep {
            marks_nm: lacking.clone(),
            ..step(&still, NotchStep::Found { spread_nm })
        },
        LessonStep {
            arms: turned.map(|(arm, _)| arm).collect(),
            marks_nm: lacking,
            ..step(
                &still,
                NotchStep::Thickest {
                    turns: by_arms.clone(),
                    notch,
                },
            )
        },
    ];
    steps.push(step(
        &by_arms,
        NotchStep::Left {
            spread_nm: by_arms_nm,
            inside: by_arms_nm <= tolerance,
        },
    ));
    // The nut that is turned most in the end, alone.
    let turned = (0..).map(ArmIndex).zip(&best);
    let most = turned.reduce(|most, next| if next.1 > most.1 { next } else { most });
    let arm = most.map_or(ArmIndex(0), |(arm, _)| arm);
    let risen = (0..arms).map(|station| (ArmIndex(station), response.at(station, arm.0)));
    // A twentieth of it is not worth a mark.
    let own = response.at(arm.0, arm.0);
    let risen = risen.filter(|(_, risen)| risen.abs() > 0.05 * own);
    steps.push(LessonStep {
        arms: vec![arm],
        marks_nm: risen.collect(),
        ..step(
            &shown.only(arm, 1),
            NotchStep::Why {
                arm,
                own_nm: own,
                notch,
            },
        )
    });
    // What the turns do together, arm by arm.
    let done = |station: usize| {
        let by = best.iter().enumerate();
        by.map(|(arm, turn)| response.at(station, arm) * f64::from(*turn))
            .sum::<f64>()
    };
    steps.push(LessonStep {
        marks_nm: (0..arms).map(|at| (ArmIndex(at), done(at))).collect(),
        ..step(
            &best,
            NotchStep::Better {
                turns: best.clone(),
                spread_nm: best_nm,
                inside: best_nm <= tolerance,
                even: lightest >= EVEN,
            },
        )
    });
    steps.push(step(&best, NotchStep::Rule));
    Ok((shown, steps, other))
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

/// The first drawn press on which arm by arm fails, and the best choice passes
/// and leaves rods that share the load; where there is none, as with a wide
/// tolerance, the one that comes nearest to it.
fn example(shown: ShownPress, response: &Response) -> Result<Example, BeamError> {
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
    let mut draws = Draws::new(Purpose::Practice([0, 0, 1]));
    let mut nearest: Option<Example> = None;
    for _ in 0..TRIES {
        let wrong: Vec<f64> = (0..arms).map(|_| -MOST_WRONG * draws.uniform()).collect();
        // No rod is slack: what nuts do adds up.
        let risen = (0..arms).map(|arm| response.change_at(arm, wrong.iter().copied()));
        let risen: Vec<f64> = risen.collect();
        let level = risen.iter().sum::<f64>() / arms.max(1) as f64;
        let off_nm: Vec<f64> = risen.iter().map(|risen| risen - level).collect();
        let by_arms = arm_by_arm(&off_nm, notch);
        let by_arms_nm = spread_after(&off_nm, response, &by_arms);
        let problem = SearchProblem::new(&off_nm, response, &bounds);
        let Ok(best) = smallest_spread(&problem, &mut workspace) else {
            continue;
        };
        // Better with hardly more to turn.
        let turned = |turns: &[i32]| turns.iter().map(|turn| turn.abs()).sum::<i32>();
        let shows = by_arms_nm > tolerance
            && best.spread_nm < 0.8 * tolerance
            && turned(&best.turns) <= turned(&by_arms) + 1;
        let clearly = by_arms_nm > CLEARLY.1 * tolerance && best.spread_nm < CLEARLY.0 * tolerance;
        if !shows && nearest.is_some() {
            continue;
        }
        let tried = shown.clone().with_nuts_wrong(wrong)?;
        let lightest = |nuts: &[i32]| -> Result<f64, BeamError> {
            let least = tried.stands(nuts)?.rod_shares.into_iter();
            Ok(least.fold(1.0, f64::min) * arms as f64)
        };
        // A rod that went slack would be another lesson.
        let tight = lightest(&[])? > 0.0 && lightest(&by_arms)? > 0.0;
        let even = lightest(&best.turns)?;
        let example = Example {
            lightest: even,
            shows: match (shows && tight, clearly) {
                (false, _) => 0.0,
                (true, false) => even.min(EVEN),
                (true, true) => even,
            },
            off_nm,
            by_arms,
            by_arms_nm,
            best: best.turns,
            best_nm: best.spread_nm,
            shown: tried,
        };
        let nearer = |near: &Example| example.shows > near.shows;
        if nearest.as_ref().is_none_or(nearer) {
            let enough = clearly && example.shows >= EVEN;
            nearest = Some(example);
            if enough {
                break;
            }
        }
    }
    Ok(nearest.unwrap_or_else(|| Example {
        off_nm: vec![0.0; arms],
        by_arms: vec![0; arms],
        by_arms_nm: 0.0,
        best: vec![0; arms],
        best_nm: 0.0,
        lightest: 0.0,
        shows: 0.0,
        shown,
    }))
}
