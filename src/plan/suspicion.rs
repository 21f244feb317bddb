//! What in the passes should not be averaged in silently.

use super::error::PlanError;
use super::learn::{Model, Posterior};
use super::missed::CONTRADICTION;
use super::passes::TestPass;
use crate::stats::chi_square_above;

/// A prediction this improbable was missed; two in a row say something.
pub const MISS: f64 = 0.01;
/// A turn is asked about when another reading of it is so many times likelier.
pub const ASK_FROM: f64 = 20.0;
/// Ratios above this are given as this.
const LARGEST_RATIO: f64 = 1e12;
/// An arm does not answer when its answer, with its uncertainty, stays below
/// this share of what was expected.
const NO_ANSWER_SHARE: f64 = 0.25;
/// Standard deviations that an answer must be away from the limit it is
/// compared with (95 %, one-sided).
const SURE: f64 = 1.645;

/// Something to be said rather than averaged in. Passes and arms count from
/// zero.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Finding {
    /// The splice got thinner where the nut was turned out, or thicker where
    /// it was turned in.
    WrongSign {
        /// The arm.
        arm: usize,
        /// Its answer at its own station, in nanometres per notch.
        answer_nm: f64,
    },
    /// Turning the nut hardly changed anything: slack, stripped, or its pin
    /// still in.
    NoAnswer {
        /// The arm.
        arm: usize,
        /// Its answer at its own station, in nanometres per notch.
        answer_nm: f64,
        /// What was expected before the passes.
        expected_nm: f64,
    },
    /// The readings of a pass contradict what the others taught, beyond their
    /// scatter.
    Contradiction {
        /// The pass.
        pass: usize,
        /// Probability of readings so far off.
        probability: f64,
    },
    /// A turn may have been miscounted or reversed: "was it really ...?"
    TurnDoubt {
        /// The pass before which the turn was made.
        pass: usize,
        /// The arm.
        arm: usize,
        /// The turn as recorded, in notches, out positive.
        recorded: i32,
        /// The turn that fits better; zero when the nut seems not to have
        /// moved.
        likelier: i32,
        /// How many times better the readings of this pass and those after it
        /// fit.
        ratio: f64,
    },
    /// Two predictions in a row were missed: suspect belt, hooks, chain or
    /// drive rather than the nuts.
    TwoMissed {
        /// The second of the two passes.
        pass: usize,
    },
}

/// Looks for everything in [`Finding`], in the order of its variants.
///
/// `own_stations` is the station at each arm.
///
/// # Errors
/// As [`Posterior::from_passes`]; [`PlanError::Shape`] unless there is one own
/// station per arm.
pub fn findings(
    model: &Model,
    own_stations: &[usize],
    passes: &[TestPass],
) -> Result<Vec<Finding>, PlanError> {
    let arms = model.prior.arms();
    if own_stations.len() != arms {
        return Err(PlanError::Shape {
            expected: arms,
            found: own_stations.len(),
        });
    }
    let posterior = Posterior::from_passes(model, passes)?;
    let mut found = answers(model, own_stations, passes, &posterior);
    let improbable: Vec<f64> = posterior
        .innovations()
        .iter()
        .map(|s| chi_square_above(s.chi_square, s.dof))
        .collect();
    // The first pass is compared with nothing but the assumed deviations.
    for (pass, &probability) in improbable.iter().enumerate().skip(1) {
        if probability < CONTRADICTION {
            found.push(Finding::Contradiction { pass, probability });
        }
    }
    found.extend(doubts(model, passes)?);
    for (pass, pair) in improbable.windows(2).enumerate().skip(1) {
        if pair.iter().all(|p| *p < MISS) {
            found.push(Finding::TwoMissed { pass: pass + 1 });
        }
    }
    Ok(found)
}

/// Arms that answer the wrong way or not at all, among those that were turned.
fn answers(
    model: &Model,
    own_stations: &[usize],
    passes: &[TestPass],
    posterior: &Posterior,
) -> Vec<Finding> {
    let before = model.prior.mean();
    let after = posterior.response();
    let mut found = Vec::new();
    for (arm, &station) in own_stations.iter().enumerate() {
        let turned = passes
            .windows(2)
            .any(|pair| pair[0].nuts[arm] != pair[1].nuts[arm]);
        if !turned {
            continue;
        }
        let expected_nm = before.at(station, arm);
        let answer_nm = after.at(station, arm);
        let most = answer_nm + SURE * posterior.response_deviation(station, arm);
        if most < 0.0 {
            found.push(Finding::WrongSign { arm, answer_nm });
        } else if most < NO_ANSWER_SHARE * expected_nm {
            found.push(Finding::NoAnswer {
                arm,
                answer_nm,
                expected_nm,
            });
        }
    }
    found
}

/// For each pass, the turn before it that most likely was another one.
///
/// The readings of the pass and of all later ones are compared, given the
/// passes before, with the turn as recorded and with each alternative:
/// reversed, a notch more or less, not made at all. A nut keeps what it was
/// really turned, so its later positions are off by as much.
fn doubts(model: &Model, passes: &[TestPass]) -> Result<Vec<Finding>, PlanError> {
    let mut found = Vec::new();
    let Some((first, rest)) = passes.split_first() else {
        return Ok(found);
    };
    let mut known = Posterior::from_passes(model, core::slice::from_ref(first))?;
    let mut before = first;
    for (index, pass) in rest.iter().enumerate() {
        let later = &rest[index..];
        let recorded = known.log_density(later)?;
        let mut best: Option<(f64, Finding)> = None;
        for (arm, (now, then)) in pass.nuts.iter().zip(&before.nuts).enumerate() {
            let turn = now - then;
            let whole = turn.round();
            if whole == 0.0 {
                continue;
            }
            for likelier in [-whole, whole - 1.0, whole + 1.0, 0.0] {
                let mut really = later.to_vec();
                for pass in &mut really {
                    pass.nuts[arm] += likelier - turn;
                }
                // Too far out to be a nut's place: then it was not turned so.
                let Ok(likelihood) = known.log_density(&really) else {
                    continue;
                };
                let gain = likelihood - recorded;
                if gain >= libm::log(ASK_FROM) && best.is_none_or(|(most, _)| gain > most) {
                    let doubt = Finding::TurnDoubt {
                        pass: index + 1,
                        arm,
                        recorded: whole as i32,
                        likelier: likelier as i32,
                        ratio: libm::exp(gain).min(LARGEST_RATIO),
                    };
                    best = Some((gain, doubt));
                }
            }
        }
        found.extend(best.map(|(_, doubt)| doubt));
        known.observe(pass)?;
        before = pass;
    }
    Ok(found)
}
