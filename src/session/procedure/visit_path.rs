//! The visit as a path: which stage is done, which is at hand, which comes
//! again.

use crate::session::procedure::checklist::{MarkKind, StepId};
use crate::session::procedure::stages::{Hands, Stage, Step};
use crate::session::{Pass, Session, Stands};

/// How a stage stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PathState {
    /// Done: every box is ticked.
    Done,
    /// What came of it is recorded; boxes are open.
    Recorded,
    /// Not ticked off, and the work has gone past it: a piece was laced and
    /// measured since.
    Passed,
    /// The work is here.
    Current,
    /// The work is here, and something comes before it: hands wait until the press
    /// is made safe, nuts until a reading is taken again.
    Next,
    /// Still to do.
    Todo,
    /// Was done and is asked anew.
    Again,
    /// Left out with a reason.
    Skipped,
    /// Not needed: the splice is inside the tolerance without it.
    NotNeeded,
}

/// A stage and how it stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StageState {
    /// The stage.
    pub stage: Stage,
    /// How it stands.
    pub state: PathState,
    /// How many of its steps in sight are ticked off or left out.
    pub marked: usize,
    /// How many steps are in sight.
    pub steps: usize,
}

/// Why it may be too early for a stage. The order is the user's to choose.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum OrderWarning {
    /// Hands go into the press here, and it is not made safe now.
    NotMadeSafe {
        /// Power was on during this visit: it is asked anew.
        lapsed: bool,
    },
    /// Earlier stages are still open.
    EarlierOpen(Vec<Stage>),
}

/// What the passes say.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Work {
    /// No pass is open.
    NotLaced,
    /// The last pass has no reading.
    Unread,
    /// Something in the last pass is missing or doubtful.
    PartlyRead,
    /// Read, and outside the tolerance.
    Outside,
    /// Read, and inside the tolerance.
    Inside,
}

impl Session {
    /// Every stage in order and how it stands. At most one is
    /// [`PathState::Current`]; none once the visit is closed out.
    pub fn visit_path(&self) -> Vec<StageState> {
        let work = self.work();
        let current = self.current_stage_in(work);
        Stage::ALL
            .into_iter()
            .map(|stage| {
                let (marked, steps) = self.marked_steps(stage);
                StageState {
                    stage,
                    state: if current == Some(stage) {
                        PathState::Current
                    } else {
                        self.state_of(stage, work)
                    },
                    marked,
                    steps,
                }
            })
            .collect()
    }

    /// The stage at which the work is; none once everything is done.
    ///
    /// Before the first pass it is the first stage that is not ticked off.
    /// From then on what is recorded speaks: somebody who only measures and
    /// turns never needs to tick anything.
    pub fn current_stage(&self) -> Option<Stage> {
        self.current_stage_in(self.work())
    }

    fn current_stage_in(&self, work: Work) -> Option<Stage> {
        // With the locks off for the first piece hands are not asked for again.
        let power = self.is_settled(Step::LocksOffForTest.into());
        let open = |stage: &Stage| match stage {
            Stage::MakeSafe => !power && !self.is_ticked_off(*stage),
            stage => !self.is_ticked_off(*stage),
        };
        match work {
            // Nuts that nobody knows the place of are found at the nuts.
            Work::NotLaced | Work::Unread if !self.lost.is_empty() => Some(Stage::Turn),
            Work::NotLaced => Stage::ALL
                .into_iter()
                .take_while(|stage| *stage < Stage::Measure)
                .find(open)
                .or(Some(Stage::Measure)),
            Work::Unread => {
                let lacing = if self.passes.len() > 1 {
                    Stage::Relace
                } else {
                    Stage::TestLace
                };
                Some(lacing).filter(open).or(Some(Stage::Measure))
            }
            Work::PartlyRead => Some(Stage::Measure),
            Work::Outside => Some(Stage::Turn),
            Work::Inside => Some(Stage::CloseOut).filter(open),
        }
    }

    /// The steps of a stage that are asked as things stand: of making safe
    /// what its nuts need only while there are nuts to turn, and what the gap
    /// needs once the jaw was brought to full stroke for it; of lacing again the
    /// pins only where a nut was turned.
    pub fn steps_now(&self, stage: Stage) -> Vec<StepId> {
        let at_stroke = self.mark_now(Step::JawAtStroke.into()).is_some();
        match stage {
            Stage::MakeSafe if at_stroke => self.checklist.safe_steps(Hands::CheckGap),
            Stage::MakeSafe if self.work() == Work::Inside || self.is_turned_for() => {
                self.checklist.safe_steps(Hands::DoOther)
            }
            Stage::MakeSafe => self.checklist.safe_steps(Hands::TurnNuts),
            // Pins are as they were where no nut was turned.
            Stage::Relace if self.passes.len() > 1 && !self.was_turned_last() => {
                let mut steps = self.checklist.steps(stage);
                steps.retain(|step| *step != Step::PinsForRelace.into());
                steps
            }
            stage => self.checklist.steps(stage),
        }
    }

    /// Why it may be too early for a stage; empty where nothing speaks against
    /// it, or where the work is past it. Never a refusal.
    pub fn order_warnings(&self, stage: Stage) -> Vec<OrderWarning> {
        let mut warnings = Vec::new();
        if stage.hands_in_press() && !self.is_made_safe_for(stage.hands()) {
            let lapsed = self.power_was_on();
            warnings.push(OrderWarning::NotMadeSafe { lapsed });
        }
        let path = self.visit_path();
        let past = |at: &StageState| {
            let states = [PathState::Done, PathState::Recorded, PathState::Passed];
            at.stage == stage && states.contains(&at.state)
        };
        if path.iter().any(past) {
            return warnings;
        }
        let open: Vec<Stage> = path
            .into_iter()
            .take_while(|earlier| earlier.stage < stage)
            .filter(|earlier| earlier.stage != Stage::MakeSafe)
            .filter(|earlier| matches!(earlier.state, PathState::Todo | PathState::Current))
            .map(|earlier| earlier.stage)
            .collect();
        if !open.is_empty() {
            warnings.push(OrderWarning::EarlierOpen(open));
        }
        warnings
    }

    fn work(&self) -> Work {
        let gate = self.last_gate();
        match gate.stands {
            Stands::NotLaced => Work::NotLaced,
            Stands::Unread => Work::Unread,
            Stands::Outside if gate.is_clear() => Work::Outside,
            Stands::Outside | Stands::Open => Work::PartlyRead,
            Stands::Inside => Work::Inside,
        }
    }

    fn state_of(&self, stage: Stage, work: Work) -> PathState {
        let several = self.passes.len() > 1;
        let any_read = self.passes.iter().any(Pass::has_readings);
        if stage != Stage::MakeSafe
            && let Some(PathState::Skipped) = self.settled(stage)
        {
            return PathState::Skipped;
        }
        match stage {
            Stage::MakeSafe => self.settled(stage).unwrap_or({
                if self.power_was_on() {
                    PathState::Again
                } else {
                    PathState::Todo
                }
            }),
            Stage::FreeNuts | Stage::CoarseGap | Stage::JawDrive => {
                self.settled(stage).unwrap_or(match any_read {
                    true => PathState::Passed,
                    false => PathState::Todo,
                })
            }
            Stage::TestLace if any_read => self.recorded(stage),
            Stage::TestLace => self.settled(stage).unwrap_or(PathState::Todo),
            Stage::Measure => match work {
                Work::Outside | Work::Inside => self.recorded(stage),
                _ if any_read => PathState::Again,
                _ => PathState::Todo,
            },
            Stage::Turn => match work {
                Work::Inside if !self.was_anything_turned() => PathState::NotNeeded,
                Work::Inside => PathState::Recorded,
                _ if several && self.was_turned_last() => PathState::Recorded,
                _ if several => PathState::Again,
                _ => PathState::Todo,
            },
            Stage::Relace => match work {
                Work::Inside if !several => PathState::NotNeeded,
                Work::Outside if several => PathState::Again,
                _ if several && self.lost.is_empty() => self.recorded(stage),
                _ => PathState::Todo,
            },
            Stage::CloseOut => self.settled(stage).unwrap_or({
                if self.checklist.has_lapsed(stage) {
                    PathState::Again
                } else {
                    PathState::Todo
                }
            }),
        }
    }

    /// Done where every box is ticked, recorded where one is open.
    fn recorded(&self, stage: Stage) -> PathState {
        self.settled(stage).unwrap_or(PathState::Recorded)
    }

    /// Done or left out by the marks alone; none while a step is open. A
    /// stage whose steps are all hidden is left out.
    fn settled(&self, stage: Stage) -> Option<PathState> {
        let mut done = false;
        for step in self.steps_now(stage) {
            let mark = self.mark_now(step)?;
            if !self.is_settled(step) {
                return None;
            }
            done |= mark.kind == MarkKind::Done;
        }
        Some(if done {
            PathState::Done
        } else {
            PathState::Skipped
        })
    }

    pub(in crate::session) fn is_ticked_off(&self, stage: Stage) -> bool {
        self.settled(stage).is_some()
    }

    fn marked_steps(&self, stage: Stage) -> (usize, usize) {
        let steps = self.steps_now(stage);
        let marked = steps.iter().filter(|step| self.is_settled(**step)).count();
        (marked, steps.len())
    }

    fn was_anything_turned(&self) -> bool {
        (1..self.passes.len()).any(|pass| self.turns_before(pass).iter().any(|turn| turn.0 != 0))
    }

    fn was_turned_last(&self) -> bool {
        self.passes
            .len()
            .checked_sub(1)
            .is_some_and(|last| self.turns_before(last).iter().any(|turn| turn.0 != 0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::StepId;
    use crate::session::tests_visit::*;

    #[test]
    fn the_path_follows_ticks_until_the_first_pass() {
        let mut session = press_of_four();
        for stage in Stage::ALL.into_iter().take(5) {
            assert_eq!(session.current_stage(), Some(stage));
            assert_eq!(state(&session, stage), PathState::Current);
            tick_all(&mut session, stage);
            assert_eq!(state(&session, stage), PathState::Done);
        }
        assert_eq!(session.current_stage(), Some(Stage::Measure));
        let path = session.visit_path();
        assert_eq!(path.len(), Stage::ALL.len());
        // The locks are off for the test piece: hands are asked for anew.
        assert_eq!((path[0].marked, path[0].steps), (0, 9));
        assert_eq!((path[1].marked, path[1].steps), (2, 2));
    }

    #[test]
    fn what_is_recorded_moves_the_path_on() {
        use PathState::*;
        let mut session = press_of_four();
        let states = |session: &Session| -> Vec<PathState> {
            session.visit_path().iter().map(|at| at.state).collect()
        };
        lace(&mut session, &[]);
        assert_eq!(
            states(&session),
            [Todo, Todo, Todo, Todo, Current, Todo, Todo, Todo, Todo]
        );
        read(&mut session, ["0.2500", "0.2450", "", ""]);
        assert_eq!(
            states(&session),
            [
                Again, Passed, Passed, Passed, Recorded, Current, Todo, Todo, Todo
            ]
        );
        read(&mut session, ["0.2500", "0.2450", "0.2505", "0.2525"]);
        assert_eq!(
            states(&session),
            [
                Again, Passed, Passed, Passed, Recorded, Recorded, Current, Todo, Todo
            ]
        );
        tick_all(&mut session, Stage::Turn);
        lace(&mut session, &[0, 1, 0, 0]);
        assert_eq!(
            states(&session),
            [
                Again, Passed, Passed, Passed, Recorded, Again, Recorded, Current, Todo
            ]
        );
        tick_all(&mut session, Stage::Relace);
        assert_eq!(session.current_stage(), Some(Stage::Measure));
        read(&mut session, ["0.2500", "0.2440", "0.2505", "0.2525"]);
        assert_eq!(
            states(&session),
            [
                Again, Passed, Passed, Passed, Recorded, Recorded, Current, Again, Todo
            ]
        );
        lace(&mut session, &[0, 1, 0, 0]);
        read(&mut session, ["0.2500", "0.2510", "0.2505", "0.2525"]);
        assert_eq!(
            states(&session),
            [
                Again, Passed, Passed, Passed, Recorded, Recorded, Recorded, Recorded, Current
            ]
        );
        tick_all(&mut session, Stage::CloseOut);
        assert_eq!(session.current_stage(), None);
        assert_eq!(state(&session, Stage::CloseOut), Done);
        // Another pass: pins come out and have to go in again.
        lace(&mut session, &[]);
        assert_eq!(state(&session, Stage::CloseOut), Again);
    }

    #[test]
    fn a_splice_that_is_inside_at_once_needs_no_turn() {
        let mut session = press_of_four();
        lace(&mut session, &[]);
        read(&mut session, ["0.2500", "0.2510", "0.2505", "0.2515"]);
        assert_eq!(state(&session, Stage::Turn), PathState::NotNeeded);
        assert_eq!(state(&session, Stage::Relace), PathState::NotNeeded);
        assert_eq!(state(&session, Stage::CloseOut), PathState::Current);
    }

    #[test]
    fn another_order_is_warned_of_and_never_refused() {
        let mut session = press_of_four();
        assert_eq!(session.order_warnings(Stage::MakeSafe), []);
        assert_eq!(
            session.order_warnings(Stage::CoarseGap),
            [
                OrderWarning::NotMadeSafe { lapsed: false },
                OrderWarning::EarlierOpen(vec![Stage::FreeNuts]),
            ]
        );
        tick_all(&mut session, Stage::MakeSafe);
        tick_all(&mut session, Stage::CoarseGap);
        assert_eq!(state(&session, Stage::CoarseGap), PathState::Done);
        assert_eq!(
            session.order_warnings(Stage::TestLace),
            [OrderWarning::EarlierOpen(vec![
                Stage::FreeNuts,
                Stage::JawDrive
            ])]
        );
        tick_all(&mut session, Stage::FreeNuts);
        skip(
            &mut session,
            &Stage::JawDrive
                .steps()
                .map(StepId::Fixed)
                .collect::<Vec<_>>(),
        );
        assert_eq!(state(&session, Stage::JawDrive), PathState::Skipped);
        assert_eq!(session.order_warnings(Stage::TestLace), []);
        lace(&mut session, &[]);
        read(&mut session, ["0.2500", "0.2450", "0.2505", "0.2525"]);
        assert_eq!(
            session.order_warnings(Stage::Turn),
            [OrderWarning::NotMadeSafe { lapsed: true }]
        );
    }
}
