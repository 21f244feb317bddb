//! What the sessions of a press taught together: how its nuts answer, how that
//! changed, and what the shop's turns gained against turning every arm up to
//! the thickest.
//!
//! Learning begins anew at the last visit that says a repair came before it.

use crate::plan::PlanError;
use crate::practice::arm_by_arm;
use crate::press::Response;
use crate::session::{Answers, PressRecord, PriorShelf, Session};
use crate::stats::LeastSquares;
use crate::units::Length;

use super::changed::{ChangedAnswer, changed_answer};
use super::drift::CONFIDENCE;

/// Visits whose first correction is compared, the newest ones.
const COMPARED: usize = 40;

/// Responses that are drawn for the gain's uncertainty.
const DRAWS: usize = 256;

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
    /// Half the width of the average's interval of 95 % confidence: its scatter
    /// over the visits, and how far the press's answer is unknown.
    pub half_nm: f64,
    /// Of it, what comes from not knowing the press's answer better: it stays
    /// the same however many visits are compared.
    pub answer_half_nm: f64,
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
/// between. The piece that the rule would have given is the very piece that was
/// laced, moved by what the other turns would have changed:
///
/// ```text
/// y' = y + B (t_rule - t_made)
/// ```
///
/// so that level, tilt and scatter of that piece are in both. What is unknown of
/// it is the response B alone, the same one at all visits: it is drawn from all
/// that the visits taught, every draw gives an average over the visits, and
/// their standard deviation is added in squares to that of the average over the
/// visits.
fn gain(record: &PressRecord, sessions: &[Session], shelf: &PriorShelf) -> Option<Gain> {
    let own = sessions.iter().rev().filter(|session| !session.invented);
    let places = |session: &Session| -> Vec<Length> {
        let stations = session.stations.iter();
        stations.map(|at| at.position(&session.press)).collect()
    };
    let stations = places(&record.next_visit);
    let alike = own.filter(|session| places(session) == stations);
    let compared: Vec<Compared> = alike.filter_map(compared).take(COMPARED).collect();
    if compared.len() < FEWEST_COMPARED {
        return None;
    }
    let draws = record.next_visit.response_draws(shelf, DRAWS).ok()?;
    let of_draw = |response: &Response| -> Vec<f64> {
        compared
            .iter()
            .map(|visit| visit.gained(response))
            .collect()
    };
    let gained: Vec<Vec<f64>> = draws.iter().map(of_draw).collect();
    let visits: Vec<f64> = (0..compared.len())
        .map(|visit| {
            let all = gained.iter().filter_map(|gained| gained.get(visit));
            all.sum::<f64>() / gained.len().max(1) as f64
        })
        .collect();
    let even = vec![1.0; visits.len()];
    let fit = LeastSquares::solve(std::slice::from_ref(&even), &visits, &even)?;
    let mean = fit.foretold(&[1.0], CONFIDENCE)?;
    let averages = gained
        .iter()
        .map(|gained| gained.iter().sum::<f64>() / gained.len().max(1) as f64);
    let off: f64 = averages.map(|average| (average - mean.value).powi(2)).sum();
    let answer_half_nm = NINETY_FIVE * (off / draws.len().max(2) as f64).sqrt();
    Some(Gain {
        nm: mean.value,
        half_nm: libm::hypot(mean.certain, answer_half_nm),
        answer_half_nm,
        visits: visits.len(),
    })
}

/// The first correction of a visit, beside what the rule would have turned.
struct Compared {
    /// The piece after it, at the counting stations: their indices, nanometres.
    left: Vec<(usize, f64)>,
    /// Notches that the rule would have turned each nut further.
    further: Vec<f64>,
}

impl Compared {
    /// How much more the rule would have left with such a response.
    fn gained(&self, response: &Response) -> f64 {
        let by_rule = self
            .left
            .iter()
            .map(|(station, nm)| nm + response.change_at(*station, self.further.iter().copied()));
        spread_nm(by_rule) - spread_nm(self.left.iter().map(|(_, nm)| *nm))
    }
}

fn spread_nm(all: impl Iterator<Item = f64>) -> f64 {
    let ends = (f64::INFINITY, f64::NEG_INFINITY);
    let (low, high) = all.fold(ends, |(low, high), nm| (low.min(nm), high.max(nm)));
    high - low
}

/// What the first turns of a visit and the rule would have turned, where both
/// pieces were read.
fn compared(session: &Session) -> Option<Compared> {
    let read = session.passes.iter().position(|pass| pass.has_readings())?;
    let after = read + 1;
    let made = session.turns_before(after);
    if after >= session.passes.len() || made.iter().all(|turn| turn.0 == 0) {
        return None;
    }
    let profile = session.sound_profile(after);
    let counting = session
        .stations
        .iter()
        .enumerate()
        .filter(|(_, at)| at.counts);
    let left = counting.map(|(station, _)| Some((station, profile.mean(station)?.nm_f64())));
    let further = rule_turns(session, read)?.into_iter().zip(made);
    Some(Compared {
        left: left.collect::<Option<_>>()?,
        further: further
            .map(|(rule, made)| f64::from(rule - made.0))
            .collect(),
    })
}

/// What turning every arm up to the thickest would have turned after a pass;
/// none where an arm was not read.
pub fn rule_turns(session: &Session, pass: usize) -> Option<Vec<i32>> {
    let profile = session.sound_profile(pass);
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
    for (turn, bound) in turns.iter_mut().zip(session.turn_bounds(pass)) {
        *turn = (*turn).clamp(bound.least.min(0), bound.most.max(0));
    }
    Some(turns)
}
