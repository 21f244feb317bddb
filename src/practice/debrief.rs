//! The debrief: the hidden press revealed, each decision with what could be
//! known then, what luck did, and how others would have done.

use crate::plan::SearchWorkspace;
use crate::session::{AdviceWorkspace, PriorShelf, Stands, Wishes};

use super::acts::{Act, Ending};
use super::by_advice::by_advice;
use super::exercise::{Exercise, ExerciseProblem};
use super::fault::Cure;
use super::hidden::Hidden;
use super::outcome::{Choice, Debrief, Decision, Did, Finish};
use super::remarks::remarks;
use super::ways::{self, Goal, Way};
use super::work::{Piece, Practice};

/// Memory that saves time from debrief to debrief.
#[derive(Default)]
pub struct DebriefDesk {
    pub(super) shelf: PriorShelf,
    pub(super) workspace: AdviceWorkspace,
    /// How others would have done an exercise, whoever does it: the best, by
    /// advice, arm by arm.
    others: Option<(Exercise, [Way; 3])>,
}

impl DebriefDesk {
    fn others(&mut self, exercise: &Exercise, goal: Goal) -> Result<[Way; 3], ExerciseProblem> {
        if let Some((_, others)) = self.others.as_ref().filter(|(of, _)| of == exercise) {
            return Ok(*others);
        }
        let others = [
            ways::best(exercise, goal)?,
            by_advice(exercise, self)?,
            ways::by_arms(exercise, goal)?,
        ];
        self.others = Some((exercise.clone(), others));
        Ok(others)
    }
}

impl Practice {
    /// Debriefs the exercise as it stands.
    ///
    /// # Errors
    /// See [`ExerciseProblem`]; none for an exercise that was begun.
    pub fn debrief(&self, desk: &mut DebriefDesk) -> Result<Debrief, ExerciseProblem> {
        let exercise = self.exercise();
        let start = exercise.session()?;
        let goal = Goal {
            tolerance_nm: start.tolerance.length().nm_f64(),
            effort: start.effort,
        };
        let as_found = Hidden::of(exercise, &[])?;
        let decisions = self.decisions(goal, desk)?;
        let read_nm = self
            .pieces()
            .last()
            .map(Piece::means_nm)
            .unwrap_or_default();
        let [best, advised, arm_by_arm] = desk.others(exercise, goal)?;
        let mut debrief = Debrief {
            faults: as_found.faults.clone(),
            found_nm: as_found.jaw_nm(&vec![0; exercise.arms]),
            left_nm: self.hidden().jaw_nm(self.nuts()),
            read_nm,
            decisions,
            nuts_suffice: ways::can_be_cured(&as_found, goal, &mut SearchWorkspace::default()),
            result: self.result(goal, &as_found),
            pieces: self.pieces().len(),
            minutes: self.minutes(),
            used: (self.belt_ends(), self.hooks()),
            cure: ways::cure_known(exercise, goal)?,
            again: ways::again(exercise, self.pieces(), goal)?,
            best,
            advised,
            arm_by_arm,
            remarks: Vec::new(),
        };
        debrief.remarks = remarks(self, &debrief);
        Ok(debrief)
    }

    fn result(&self, goal: Goal, as_found: &Hidden) -> Finish {
        match self.ending() {
            Some(Ending::Accepted) => {
                let last = self.pieces().len().saturating_sub(1);
                if self.clear_notebook(last).gate(last).stands != Stands::Inside {
                    Finish::AcceptedOutside
                } else if goal.is_met(&self.hidden().jaw_nm(self.nuts())) {
                    Finish::JawTrue
                } else {
                    Finish::InsideByLuck
                }
            }
            Some(Ending::SentAway) => {
                let worn = as_found
                    .faults
                    .iter()
                    .any(|(fault, _)| fault.cure() == Some(Cure::Jaw));
                let mut search = SearchWorkspace::default();
                if worn || !ways::can_be_cured(as_found, goal, &mut search) {
                    Finish::RightlySentAway
                } else {
                    Finish::WronglySentAway
                }
            }
            Some(Ending::Unsafe) => Finish::Unsafe,
            Some(Ending::GivenUp) | None => Finish::GivenUp,
        }
    }

    fn decisions(
        &self,
        goal: Goal,
        desk: &mut DebriefDesk,
    ) -> Result<Vec<Decision>, ExerciseProblem> {
        let mut decisions = Vec::new();
        let mut seen: Vec<Cure> = Vec::new();
        let mut laced = 0_usize;
        for act in self.acts() {
            match act {
                Act::SeeTo(cure) if *cure != Cure::Jaw => seen.push(*cure),
                Act::Lace { .. } => {
                    if let (Some(piece), Some(next)) = (
                        laced.checked_sub(1).and_then(|at| self.pieces().get(at)),
                        self.pieces().get(laced),
                    ) {
                        let turns = next.nuts.iter().zip(&piece.nuts);
                        let turns = turns.map(|(now, then)| now - then).collect();
                        let did = Did::Laced {
                            turns,
                            saw_to: std::mem::take(&mut seen),
                            flipped: next.flipped != piece.flipped,
                        };
                        decisions.push(self.decision(laced - 1, did, Some(next), goal, desk)?);
                    }
                    laced += 1;
                }
                _ => {}
            }
        }
        if let (Some(ending), Some(last)) = (self.ending(), laced.checked_sub(1)) {
            decisions.push(self.decision(last, Did::Ended(ending), None, goal, desk)?);
        }
        Ok(decisions)
    }

    fn decision(
        &self,
        number: usize,
        did: Did,
        next: Option<&Piece>,
        goal: Goal,
        desk: &mut DebriefDesk,
    ) -> Result<Decision, ExerciseProblem> {
        let exercise = self.exercise();
        let session = self.clear_notebook(number);
        let piece = self.pieces().get(number);
        let mut decision = Decision {
            piece: number,
            stands: session.gate(number).stands,
            did,
            chosen: None,
            best: None,
            came_inside: None,
            best_inside: None,
            guess: piece.and_then(|piece| piece.guess.clone()),
            advised: piece.is_some_and(|piece| piece.advised),
        };
        if let Some(next) = next {
            decision.came_inside = ways::share_inside(exercise, next, number + 1, goal)?;
        }
        let wishes = Wishes::default();
        let Ok(advice) = session.advise(number, wishes, &desk.shelf, &mut desk.workspace) else {
            return Ok(decision);
        };
        if advice.accepted {
            return Ok(decision);
        }
        let recommended = advice.recommended();
        decision.best = Some(Choice {
            turns: recommended.turns.clone(),
            chance: recommended.forecast.chance,
            minutes: recommended.minutes,
        });
        if let (Did::Laced { turns, saw_to, .. }, Ok(mut forecaster)) =
            (&decision.did, advice.forecaster())
        {
            let chance = forecaster.forecast(turns).chance;
            let choice = &advice.choice;
            let (_, minutes) = choice.until_a_piece_passes(turns, chance, &session.effort);
            let seeing_to: f64 = saw_to.iter().map(|cure| cure.minutes()).sum();
            decision.chosen = Some(Choice {
                turns: turns.clone(),
                chance,
                minutes: minutes + seeing_to,
            });
        }
        if let Some(piece) = piece.filter(|_| next.is_some()) {
            let hidden = Hidden::of(exercise, &piece.cured)?;
            let nuts = piece.nuts.iter().zip(&recommended.turns);
            let nuts: Vec<i32> = nuts.map(|(nut, turn)| nut + turn).collect();
            let share =
                ways::share_after(exercise, &hidden, &nuts, piece.flipped, number + 1, goal);
            decision.best_inside = Some(share);
        }
        Ok(decision)
    }
}
