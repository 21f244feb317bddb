//! What the sessions of a press taught together: how its nuts answer, how that
//! changed, and what the shop's turns gained against turning every arm up to
//! the thickest.
//!
//! Learning begins anew at the last visit that says a repair came before it.

use crate::plan::PlanError;
use crate::practice::arm_by_arm;
use crate::session::{AdviceWorkspace, Answers, PressRecord, PriorShelf, Session};
use crate::stats::LeastSquares;

use super::changed::{ChangedAnswer, changed_answer};
use super::drift::CONFIDENCE;

/// Visits whose first correction is compared, the newest ones.
const COMPARED: usize = 40;

/// Fewest comparisons that say anything about the gain.
pub const FEWEST_COMPARED: usize = 3;

/// Standard deviations either side that hold 95 % of a normal scatter.
pub const NINETY_FIVE: f64 = 1.959_963_984_540_054;

/// What a press's sessions taught.
#[derive(Debug, Clone, PartialEq)]
pub struct Taught {
    /// The press as its next visit begins.
    pub record: PressRecord,
    /// What was believed of its nuts after each visit that taught something,
    /// oldest first.
    pub answers: Vec<Answers>,
    /// The nut whose answer changed most surely, where one did.
    pub changed: Option<ChangedAnswer>,
    /// What was gained, where enough corrections can be compared.
    pub gain: Option<Gain>,
    /// Sessions from before the last repair, which are not learnt from.
    pub before_repair: usize,
}

/// The spread of the piece after a visit's first turns against what turning
/// every arm up to the thickest would have been expected to leave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gain {
    /// How much smaller it was, in nanometres, on average.
    pub nm: f64,
    /// Half the width of the average's interval of 95 % confidence, from its
    /// scatter over the visits.
    pub half_nm: f64,
    /// Visits compared.
    pub visits: usize,
}

impl Gain {
    /// Whether something was gained, beyond what is uncertain.
    pub fn is_sure(&self) -> bool {
        self.nm > self.half_nm
    }
}

impl Taught {
    /// What sessions of one press taught, oldest first; none where nothing may
    /// be learnt from any.
    ///
    /// # Errors
    /// [`PlanError`] when figures are beyond any press.
    pub fn of(sessions: &[Session], shelf: &PriorShelf) -> Result<Option<Self>, PlanError> {
        let repaired = sessions.iter().rposition(Session::follows_repair);
        let before_repair = repaired.unwrap_or(0);
        let (_, since) = sessions.split_at(before_repair);
        let mut record: Option<PressRecord> = None;
        for session in sessions {
            match &mut record {
                Some(record) => {
                    // What may not be learnt from is passed over.
                    let _ = record.learn(session);
                }
                None if session.invented => {}
                None => record = Some(PressRecord::of(session)),
            }
        }
        let Some(record) = record else {
            return Ok(None);
        };
        let answers = record.next_visit.answers_over_visits(shelf)?;
        Ok(Some(Self {
            changed: answers.last().and_then(|last| {
                changed_answer(&record.next_visit.earlier, &last.response, &last.own)
            }),
            gain: gain(&record, since, shelf),
            answers,
            record,
            before_repair,
        }))
    }
}

/// The gain over the newest visits with two pieces read and nuts turned
/// between. What the rule would have left is the median of what is foretold
/// for its turns from the first piece alone, by all that is known today:
/// smaller than the mean, so that the gain is rather too small than too large.
fn gain(record: &PressRecord, sessions: &[Session], shelf: &PriorShelf) -> Option<Gain> {
    let mut workspace = AdviceWorkspace::default();
    let mut gained = Vec::new();
    for session in sessions.iter().rev().filter(|session| !session.invented) {
        if gained.len() == COMPARED {
            break;
        }
        gained.extend(gained_at(record, session, shelf, &mut workspace));
    }
    if gained.len() < FEWEST_COMPARED {
        return None;
    }
    let even = vec![1.0; gained.len()];
    let fit = LeastSquares::solve(std::slice::from_ref(&even), &gained, &even)?;
    let mean = fit.foretold(&[1.0], CONFIDENCE)?;
    Some(Gain {
        nm: mean.value,
        half_nm: mean.certain,
        visits: gained.len(),
    })
}

/// How much less the first turns of a visit left than the rule would have.
fn gained_at(
    record: &PressRecord,
    session: &Session,
    shelf: &PriorShelf,
    workspace: &mut AdviceWorkspace,
) -> Option<f64> {
    let read = session.passes.iter().position(|pass| pass.has_readings())?;
    let after = read + 1;
    let turned = session.turns_before(after).iter().any(|turn| turn.0 != 0);
    let left = session.spread_of(after)?.value.nm_f64();
    if after >= session.passes.len() || !turned {
        return None;
    }
    let profile = session.sound_profile(read);
    let arms = session.press.indexed_arms().map(|(arm, _)| {
        let station = session.stations.iter().position(|at| at.arm() == Some(arm));
        Some(profile.mean(station?)?.nm_f64())
    });
    let at_arms: Vec<f64> = arms.collect::<Option<_>>()?;
    let effects = session.press.arms.iter();
    let effects = effects.map(|arm| arm.notch_effect.length().nm_f64());
    let notch_nm = effects.sum::<f64>() / session.press.arms.len().max(1) as f64;
    let mut turns = arm_by_arm(&at_arms, notch_nm);
    // The rule cannot turn a nut beyond its limits either.
    for (turn, bound) in turns.iter_mut().zip(session.turn_bounds(read)) {
        *turn = (*turn).clamp(bound.least.min(0), bound.most.max(0));
    }
    // The visit as it was after its first piece, knowing what is known today.
    let mut asked = session.clone();
    asked.id = String::new();
    asked.known_response = None;
    asked.earlier.clone_from(&record.next_visit.earlier);
    asked.passes.truncate(after);
    let forecaster = asked.forecaster_after(read, shelf, workspace);
    Some(forecaster.ok()?.forecast(&turns).median_nm - left)
}
