//! The debrief: the hidden press revealed, each decision with what could be
//! known then, what luck did, and how others would have done.

use crate::plan::SearchWorkspace;
use crate::press::ArmIndex;
use crate::session::{AdviceWorkspace, PriorShelf, Stands, Wishes};

use super::exercise::ExerciseProblem;
use super::fault::{Cure, Fault};
use super::hidden::Hidden;
use super::remarks::{Remark, remarks};
use super::ways::{self, Goal, Way};
use super::work::{Act, Ending, Piece, Practice};

/// Memory that saves time from debrief to debrief.
#[derive(Default)]
pub struct DebriefDesk {
    shelf: PriorShelf,
    workspace: AdviceWorkspace,
}

/// What was decided on a piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Did {
    /// Turned nuts, or none, and laced again.
    Laced {
        /// Turns, one per arm.
        turns: Vec<i32>,
        /// What was seen to before.
        saw_to: Vec<Cure>,
        /// Whether the belt end was laid the other way round.
        flipped: bool,
    },
    /// Ended the exercise.
    Ended(Ending),
}

/// Turns with what could be known of them then.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    /// Whole notches, one per arm; none turned means laced again.
    pub turns: Vec<i32>,
    /// Chance that the next piece is inside.
    pub chance: f64,
    /// Expected minutes until a piece passes.
    pub minutes: f64,
}

/// One decision.
#[derive(Debug, Clone, PartialEq)]
pub struct Decision {
    /// The piece it was made on.
    pub piece: usize,
    /// How that piece stood by its readings.
    pub stands: Stands,
    /// What was done.
    pub did: Did,
    /// That with what could be known then; none where nothing could: stations
    /// not read, or the exercise ended.
    pub chosen: Option<Choice>,
    /// The best choice then, likewise.
    pub best: Option<Choice>,
    /// In which share of the scatters the next piece comes out inside after
    /// what was done, on the press as it really is.
    pub came_inside: Option<f64>,
    /// The same after the best choice then.
    pub best_inside: Option<f64>,
    /// Own guess, made before advice was seen.
    pub guess: Option<Vec<i32>>,
    /// Whether advice was seen.
    pub advised: bool,
}

/// How it came out in the end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Finish {
    /// Accepted, and the jaws are true.
    JawTrue,
    /// A piece inside was accepted, but the jaws are not true: luck, or the
    /// belt.
    InsideByLuck,
    /// A piece was accepted that is not inside by its readings.
    AcceptedOutside,
    /// Sent away, and nothing here could have cured it.
    RightlySentAway,
    /// Sent away, though it could have been cured.
    WronglySentAway,
    /// Hands went in before it was made safe.
    Unsafe,
    /// Given up, or not ended.
    GivenUp,
}

/// All of it.
#[derive(Debug, Clone)]
pub struct Debrief {
    /// What was wrong, and at which arm.
    pub faults: Vec<(Fault, Option<ArmIndex>)>,
    /// Mean thickness that the jaws gave as found.
    pub found_nm: Vec<f64>,
    /// Mean thickness that the jaws give as left.
    pub left_nm: Vec<f64>,
    /// Station means of the last piece as read; none where not read.
    pub read_nm: Vec<Option<f64>>,
    /// The decisions.
    pub decisions: Vec<Decision>,
    /// Whether the nuts alone could bring the jaws inside as found.
    pub nuts_suffice: bool,
    /// How it came out.
    pub result: Finish,
    /// Pieces laced.
    pub pieces: usize,
    /// Minutes on the clock.
    pub minutes: f64,
    /// Belt ends and hooks used up.
    pub used: (usize, usize),
    /// The same choices over all scatters.
    pub again: Way,
    /// The press known.
    pub best: Way,
    /// Arm by arm.
    pub arm_by_arm: Way,
    /// Advice from what happened, the weightiest first.
    pub remarks: Vec<Remark>,
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
        let read_nm = self.pieces().last().map(means_nm).unwrap_or_default();
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
            again: ways::again(exercise, self.pieces(), goal)?,
            best: ways::best(exercise, goal)?,
            arm_by_arm: ways::by_arms(exercise, goal)?,
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

/// Station means of a piece as read.
pub(super) fn means_nm(piece: &Piece) -> Vec<Option<f64>> {
    let mean = |row: &Vec<super::work::Taken>| {
        let sum: f64 = row.iter().map(|taken| taken.shown.nm_f64()).sum();
        (!row.is_empty()).then(|| sum / row.len() as f64)
    };
    piece.readings.iter().map(mean).collect()
}

impl Decision {
    /// Minutes that the choice was expected to take more than the best one then;
    /// none where something was tried that the reckoning does not know: another
    /// way round, or something seen to.
    pub fn minutes_lost(&self) -> f64 {
        if let Did::Laced {
            saw_to, flipped, ..
        } = &self.did
            && (*flipped || !saw_to.is_empty())
        {
            return 0.0;
        }
        match (&self.chosen, &self.best) {
            (Some(chosen), Some(best)) => (chosen.minutes - best.minutes).max(0.0),
            _ => 0.0,
        }
    }

    /// The turns made, one per arm; none where the exercise ended.
    pub fn turns(&self) -> &[i32] {
        match &self.did {
            Did::Laced { turns, .. } => turns,
            Did::Ended(_) => &[],
        }
    }
}

impl Debrief {}
