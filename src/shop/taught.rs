//! What the sessions of a press taught together: how its nuts answer, how that
//! changed, and what the shop's turns gained against turning every arm up to
//! the thickest.
//!
//! Learning begins anew at the last visit that says a repair came before it.

use crate::plan::PlanError;
use crate::practice::arm_by_arm;
use crate::press::ArmIndex;
use crate::session::{AdviceWorkspace, Answers, PressRecord, PriorShelf, Session};
use crate::stats::{LeastSquares, normal_quantile};

use super::drift::CONFIDENCE;

/// Visits whose first correction is compared, the newest ones.
const COMPARED: usize = 40;

/// Fewest comparisons that say anything about the gain.
pub const FEWEST_COMPARED: usize = 3;

/// What a press's sessions taught.
#[derive(Debug, Clone, PartialEq)]
pub struct Taught {
    /// The press as its next visit begins.
    pub record: PressRecord,
    /// What was believed of its nuts after each visit that taught something,
    /// oldest first.
    pub answers: Vec<Answers>,
    /// Nuts whose answer changed beyond what was uncertain of it.
    pub changed: Vec<ChangedAnswer>,
    /// What was gained, where enough corrections can be compared.
    pub gain: Option<Gain>,
    /// Sessions from before the last repair, which are not learnt from.
    pub before_repair: usize,
}

/// A nut that answers otherwise than it did.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChangedAnswer {
    /// The arm.
    pub arm: ArmIndex,
    /// What it was believed to answer after the first visits, in nanometres a
    /// notch.
    pub was_nm: f64,
    /// What it is believed to answer now.
    pub is_nm: f64,
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
            changed: changed(&answers),
            gain: gain(&record, since, shelf),
            answers,
            record,
            before_repair,
        }))
    }
}

/// Nuts whose latest answer lies further from an earlier one than both
/// uncertainties allow. Each is held to the same level, so that all hold with
/// the confidence of the rest (Bonferroni); what is believed later holds what
/// was believed before, so that the difference scatters less than is allowed
/// for.
fn changed(answers: &[Answers]) -> Vec<ChangedAnswer> {
    let (Some(first), Some(last)) = (answers.first(), answers.last()) else {
        return Vec::new();
    };
    let arms = last.per_notch_nm.len().max(1) as f64;
    let Some(beyond) = normal_quantile(1.0 - (1.0 - CONFIDENCE) / (2.0 * arms)) else {
        return Vec::new();
    };
    let pairs = first.per_notch_nm.iter().zip(&last.per_notch_nm);
    let changed = pairs.enumerate().filter_map(|(arm, (was, is))| {
        let allowed = beyond * (was.1 * was.1 + is.1 * is.1).sqrt();
        ((is.0 - was.0).abs() > allowed).then_some(ChangedAnswer {
            arm: ArmIndex(arm),
            was_nm: was.0,
            is_nm: is.0,
        })
    });
    changed.collect()
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
    let turns = arm_by_arm(&at_arms, notch_nm);
    // The visit as it was after its first piece, knowing what is known today.
    let mut asked = session.clone();
    asked.id = String::new();
    asked.known_response = None;
    asked.earlier.clone_from(&record.next_visit.earlier);
    asked.passes.truncate(after);
    let forecaster = asked.forecaster_after(read, shelf, workspace);
    Some(forecaster.ok()?.forecast(&turns).median_nm - left)
}
