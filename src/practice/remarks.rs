//! Advice from what happened in an exercise: few remarks, none where nothing
//! was wrong.

use crate::press::{ArmIndex, Notches, customary};
use crate::session::Stands;

use super::acts::Ending;
use super::fault::Cure;
use super::outcome::{Debrief, Decision, Did, Finish, Remark};
use super::ways::arm_by_arm;
use super::work::{Piece, Practice, READINGS_IN_A_PIECE};

/// Most remarks made.
const MOST_REMARKS: usize = 3;
/// A decision is worth a remark from so many minutes lost.
const WORTH_MINUTES: f64 = 3.0;

/// The remarks on an exercise, the weightiest first.
pub(super) fn remarks(practice: &Practice, debrief: &Debrief) -> Vec<Remark> {
    let mut found = Vec::new();
    if practice.ending() == Some(Ending::Unsafe) {
        found.push(Remark::Unsafe);
    }
    found.extend(past_limit(practice));
    found.extend(retainer(practice));
    match debrief.result {
        Finish::AcceptedOutside => found.push(Remark::AcceptedOutside),
        Finish::WronglySentAway => found.push(Remark::SentAwayTooSoon),
        _ => {}
    }
    found.extend(measuring(practice));
    found.extend(not_seen_to(practice, debrief));
    found.extend(decisions(practice, debrief));
    found.truncate(MOST_REMARKS);
    found
}

fn past_limit(practice: &Practice) -> Option<Remark> {
    let start = practice.exercise().nuts.position();
    let pieces = (0..).zip(practice.pieces());
    let mut past = pieces.flat_map(|(piece, laced)| {
        let within = practice.hidden().within(&laced.nuts);
        let arms = (0..).map(ArmIndex).zip(laced.nuts.iter().zip(within));
        let past = arms.filter(|(_, (nut, within))| *nut != within);
        past.map(move |(arm, (nut, _))| Remark::PastLimit {
            piece,
            arm,
            stands: start + Notches(*nut),
        })
    });
    past.next()
}

fn retainer(practice: &Practice) -> Option<Remark> {
    let stuck = practice.pieces().iter().position(|piece| piece.stuck)?;
    let nuts = &practice.pieces().get(stuck)?.nuts;
    let left = practice.hidden().opening_left_nm(nuts);
    let worst = (0..)
        .zip(left)
        .reduce(|worst, arm| if arm.1 < worst.1 { arm } else { worst });
    Some(Remark::RetainerStuck {
        piece: stuck,
        arm: ArmIndex(worst?.0),
    })
}

fn measuring(practice: &Practice) -> Vec<Remark> {
    let count =
        |is: &dyn Fn(&Piece) -> bool| practice.pieces().iter().filter(|piece| is(piece)).count();
    let read = |piece: &Piece| piece.readings.iter().any(|row| !row.is_empty());
    let unzeroed = count(&|piece| piece.readings.iter().flatten().any(|taken| !taken.zeroed));
    let once = count(&|piece| {
        let few = |row: &Vec<_>| row.len() < READINGS_IN_A_PIECE;
        read(piece) && piece.readings.iter().any(few)
    });
    let all = practice
        .pieces()
        .iter()
        .flat_map(|piece| piece.readings.iter().flatten());
    let beside = all.filter(|taken| !taken.on_mark).count();
    let mut found = Vec::new();
    if beside > 0 {
        found.push(Remark::BesideMarks { readings: beside });
    }
    if unzeroed > 0 {
        found.push(Remark::ZeroSkipped { pieces: unzeroed });
    }
    if once > 0 {
        found.push(Remark::ReadOnce { pieces: once });
    }
    found
}

/// What had to be seen to and was not, where that cost something: not accepted
/// with true jaws.
fn not_seen_to(practice: &Practice, debrief: &Debrief) -> Option<Remark> {
    if matches!(
        debrief.result,
        Finish::JawTrue | Finish::RightlySentAway | Finish::Unsafe
    ) {
        return None;
    }
    let pieces = practice.pieces();
    let seen = |cure: Cure| pieces.iter().any(|piece| piece.cured.contains(&cure));
    // Whoever laced one piece only has not had the chance to see it.
    let mut faults = debrief.faults.iter().filter(|_| pieces.len() > 1);
    faults.find_map(|(fault, _)| {
        let cure = fault.cure().filter(|cure| !seen(*cure))?;
        // A nut that needs freeing need not be freed where the others do.
        if cure == Cure::Nut && debrief.nuts_suffice {
            return None;
        }
        Some(Remark::NotSeenTo(*fault, cure))
    })
}

fn decisions(practice: &Practice, debrief: &Debrief) -> Vec<Remark> {
    let mut found = Vec::new();
    let passed = debrief.decisions.iter().find(|decision| {
        decision.stands == Stands::Inside && matches!(decision.did, Did::Laced { .. })
    });
    if let Some(decision) = passed {
        found.push(Remark::PassedAlready {
            piece: decision.piece,
        });
    }
    let worst = debrief.decisions.iter().reduce(|worst, decision| {
        if decision.minutes_lost() > worst.minutes_lost() {
            decision
        } else {
            worst
        }
    });
    if let Some(worst) = worst.filter(|worst| worst.minutes_lost() >= WORTH_MINUTES) {
        found.push(about(practice, worst));
    }
    found
}

fn about(practice: &Practice, decision: &Decision) -> Remark {
    let (piece, minutes) = (decision.piece, decision.minutes_lost());
    let turns = decision.turns();
    let own = practice.hidden().press.layout.own_stations();
    let means = practice
        .pieces()
        .get(piece)
        .map(Piece::means_nm)
        .unwrap_or_default();
    let at_arms: Option<Vec<f64>> = own
        .iter()
        .map(|station| means.get(*station).copied().flatten())
        .collect();
    let up = at_arms.map(|at| arm_by_arm(&at, customary::NOTCH_EFFECT.nm_f64()));
    let none = |turns: &[i32]| turns.iter().all(|turn| *turn == 0);
    if none(turns) {
        Remark::LeftForNothing { piece, minutes }
    } else if up.as_deref() == Some(turns) {
        Remark::ArmByArm { piece, minutes }
    } else if decision.best.as_ref().is_some_and(|best| none(&best.turns)) {
        Remark::TurnedForNothing { piece, minutes }
    } else {
        Remark::OtherTurns { piece, minutes }
    }
}
