//! Changes of the checklist, and what makes its marks lapse.

use crate::press::ArmIndex;
use crate::splice::Cell;
use crate::units::TypedLength;

use crate::session::procedure::checklist::{ChecklistProblem, Mark, MarkKind, OwnStep, StepId};
use crate::session::procedure::stages::{Stage, Step};
use crate::session::{EditProblem, Pass, Session};

impl From<ChecklistProblem> for EditProblem {
    fn from(problem: ChecklistProblem) -> Self {
        Self::Session(problem.into())
    }
}

impl Session {
    /// Marks steps as done or left out.
    pub(in crate::session) fn mark_steps(
        &mut self,
        steps: &[StepId],
        kind: MarkKind,
        [who, when, note]: [&str; 3],
    ) -> Result<(), EditProblem> {
        if kind == MarkKind::Skipped && note.trim().is_empty() {
            return Err(ChecklistProblem::NoReason.into());
        }
        for &step in steps {
            self.known_step(step)?;
            if let StepId::Fixed(fixed) = step
                && kind == MarkKind::Skipped
                && !fixed.may_be_absent()
            {
                return Err(ChecklistProblem::NeverLeftOut(fixed).into());
            }
            // Whoever moved the jaw had power on, or let a force go: all is asked
            // anew but who was told.
            if let StepId::Fixed(fixed) = step
                && self.moves_the_jaw(fixed)
            {
                let told = |step| step == Step::OthersTold.into();
                let lapses = |stage, step| stage == Stage::MakeSafe && !told(step);
                self.checklist.lapse(lapses);
            }
            // What was tried behind one lock is tried again behind two.
            let another = |lock: &&str| *lock != who.trim();
            if step == Step::LockedOut.into() && self.locks().iter().any(another) {
                self.unmark_after(Step::LockedOut);
            }
            self.checklist.set_mark(Mark {
                step,
                kind,
                who: who.trim().to_owned(),
                when: when.trim().to_owned(),
                note: note.trim().to_owned(),
                passes: self.passes.len(),
                lapsed: false,
            });
            // Once the last lock is off all is asked anew, and who is told too.
            let power = matches!(step, StepId::Fixed(fixed) if fixed.brings_power());
            if power && kind == MarkKind::Done && self.is_settled(step) {
                self.checklist.lapse(|stage, _| stage == Stage::MakeSafe);
            }
        }
        Ok(())
    }

    /// Whether a step says that the jaw was moved since the press was made safe:
    /// it stood elsewhere, or was blocked for what was turned before.
    fn moves_the_jaw(&self, step: Step) -> bool {
        let locked = self.mark_now(Step::LockedOut.into());
        step.other_jaw_place().is_some_and(|other| {
            let before = locked.is_some_and(|lock| lock.passes < self.passes.len());
            before || self.mark_now(other.into()).is_some()
        })
    }

    /// Takes away the marks that wait for a step.
    fn unmark_after(&mut self, first: Step) {
        // What waits for another stands behind it in the list.
        let mut undone = vec![first];
        for step in Step::ALL {
            if step.waits_for().iter().any(|it| undone.contains(it)) {
                self.checklist.clear_mark(step.into());
                undone.push(step);
            }
        }
    }

    /// Takes a step's mark away, and with it those that waited for it: what was
    /// tried behind a lock that is not on proves nothing.
    pub(in crate::session) fn unmark_step(&mut self, step: StepId) -> Result<(), EditProblem> {
        self.known_step(step)?;
        if !self.checklist.clear_mark(step) {
            return Err(EditProblem::NothingThere);
        }
        if let StepId::Fixed(first) = step {
            self.unmark_after(first);
        }
        Ok(())
    }

    /// Adds a step of the shop's own to a stage.
    pub(in crate::session) fn add_own_step(
        &mut self,
        stage: Stage,
        text: &str,
    ) -> Result<(), EditProblem> {
        let text = text.trim().to_owned();
        if text.is_empty() {
            return Err(ChecklistProblem::NoText.into());
        }
        self.checklist.own.push(OwnStep { stage, text });
        Ok(())
    }

    /// Hides a step or brings it back.
    pub(in crate::session) fn set_hidden(
        &mut self,
        step: StepId,
        hidden: bool,
    ) -> Result<(), EditProblem> {
        self.known_step(step)?;
        if let StepId::Fixed(fixed) = step
            && hidden
            && fixed.stage() == Stage::MakeSafe
        {
            return Err(ChecklistProblem::StaysInSight(fixed).into());
        }
        self.checklist.hidden.retain(|other| *other != step);
        if hidden {
            self.checklist.hidden.push(step);
        }
        Ok(())
    }

    fn known_step(&self, step: StepId) -> Result<(), EditProblem> {
        match self.checklist.stage_of(step) {
            Some(_) => Ok(()),
            None => Err(ChecklistProblem::NoSuchStep.into()),
        }
    }

    /// Sets the coarse gap at an arm of the press.
    pub(in crate::session) fn set_coarse_gap(&mut self, arm: ArmIndex, gap: Option<TypedLength>) {
        let gaps = &mut self.checklist.coarse_gap;
        if gaps.len() <= arm.0 {
            gaps.resize(arm.0 + 1, None);
        }
        if let Some(place) = gaps.get_mut(arm.0) {
            *place = gap;
        }
        while gaps.last() == Some(&None) {
            gaps.pop();
        }
    }

    /// Keeps the coarse gap at its arms when an arm comes.
    pub(in crate::session) fn make_room_for_gap(&mut self, arm: ArmIndex) {
        if arm.0 < self.checklist.coarse_gap.len() {
            self.checklist.coarse_gap.insert(arm.0, None);
        }
    }

    /// Keeps the coarse gap at its arms when an arm goes.
    pub(in crate::session) fn drop_gap(&mut self, arm: ArmIndex) {
        if arm.0 < self.checklist.coarse_gap.len() {
            self.checklist.coarse_gap.remove(arm.0);
        }
    }

    /// Lets marks lapse that a change from `before` overtakes.
    ///
    /// Opening a pass begins another round: everything that is asked anew for
    /// every pass lapses. Only where nuts were turned for it the locks of that
    /// stop still hang, so that pins go in behind them: what cut the press off
    /// stands until they come off. The first reading of a pass proves that it was
    /// laced: power was on, so "made safe" lapses then for whoever ticked it
    /// before. Taking a pass away brings nothing back.
    pub(in crate::session) fn lapse_since(&mut self, before: &Self) {
        let laced = |session: &Self| session.passes.iter().filter(|pass| is_begun(pass)).count();
        if self.passes.len() > before.passes.len() {
            let hangs = self.is_turned_for();
            let stands = |step| {
                hangs && matches!(step, StepId::Fixed(fixed) if Step::isolates_energy(fixed))
            };
            self.checklist
                .lapse(|stage, step| stage.recurs() && !stands(step));
        } else if laced(self) > laced(before) {
            self.checklist.lapse(|stage, _| stage == Stage::MakeSafe);
        }
    }
}

/// Whether anything was entered for a pass.
fn is_begun(pass: &Pass) -> bool {
    pass.rows.iter().flatten().any(|cell| *cell != Cell::Empty)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::press::CountOutOfBounds;
    use crate::press::CountQuantity;
    use crate::session::tests_visit::*;
    use crate::session::{Document, Edit, Field, SessionProblem, Step};
    use crate::units::Unit;

    fn refused(session: &Session, edit: &Edit) -> EditProblem {
        session.edited(edit).unwrap_err()
    }

    fn list(problem: ChecklistProblem) -> EditProblem {
        EditProblem::Session(SessionProblem::Checklist(problem))
    }

    #[test]
    fn a_tick_says_who_and_when_and_can_be_undone() {
        let mut document = Document::unsaved(press_of_four());
        let tick = Edit::Tick {
            steps: vec![Step::NutsFlush.into()],
            who: " R. Alder ".into(),
            when: "2026-11-25 09:40".into(),
            note: "B was stiff".into(),
        };
        assert_eq!(document.apply(&tick), Ok(true));
        let mark = document
            .session()
            .checklist
            .mark(Step::NutsFlush.into())
            .unwrap();
        assert_eq!(
            (
                mark.who.as_str(),
                mark.when.as_str(),
                mark.note.as_str(),
                mark.kind
            ),
            (
                "R. Alder",
                "2026-11-25 09:40",
                "B was stiff",
                MarkKind::Done
            )
        );
        // The same once more changes nothing.
        assert_eq!(document.apply(&tick), Ok(false));
        document.undo();
        assert_eq!(
            document.session().checklist.mark(Step::NutsFlush.into()),
            None
        );
        document.redo();
        let untick = Edit::Untick(Step::NutsFlush.into());
        assert_eq!(document.apply(&untick), Ok(true));
        assert_eq!(document.apply(&untick), Err(EditProblem::NothingThere));
    }

    #[test]
    fn what_makes_safe_cannot_be_hidden() {
        let session = press_of_four();
        for step in Stage::MakeSafe.steps() {
            assert_eq!(
                refused(&session, &Edit::HideStep(step.into())),
                list(ChecklistProblem::StaysInSight(step))
            );
            // Nor can a file hide it; what older ones could hide is shown.
            let mut hidden = session.clone();
            hidden.checklist.hidden.push(step.into());
            assert_eq!(hidden.check().is_err(), step.isolates_energy());
            let shown = hidden.checklist.steps(Stage::MakeSafe);
            assert!(shown.contains(&step.into()), "{step:?}");
        }
    }

    #[test]
    fn only_what_a_press_may_lack_is_left_out_of_making_it_safe() {
        let session = press_of_four();
        for step in Stage::MakeSafe.steps() {
            let skip = Edit::Skip {
                steps: vec![step.into()],
                reason: "not on this press".into(),
                who: String::new(),
                when: String::new(),
            };
            let absent = matches!(step, Step::PressureReleased | Step::PinsOut);
            if absent {
                assert_eq!(session.edited(&skip).map(|_| ()), Ok(()));
            } else {
                let problem = list(ChecklistProblem::NeverLeftOut(step));
                assert_eq!(refused(&session, &skip), problem);
            }
        }
    }

    #[test]
    fn a_shop_adds_and_hides_steps() {
        let mut session = press_of_four();
        let add = Edit::AddStep {
            stage: Stage::MakeSafe,
            text: " Block the jaw ".into(),
        };
        apply(&mut session, add.clone());
        let own = StepId::Own(0);
        assert_eq!(session.checklist.own[0].text, "Block the jaw");
        assert_eq!(session.checklist.steps(Stage::MakeSafe).last(), Some(&own));
        // It is asked like the others, until the shop hides it.
        tick_all(&mut session, Stage::MakeSafe);
        apply(&mut session, Edit::Untick(own));
        assert!(!session.made_safe_now());
        apply(&mut session, Edit::HideStep(own));
        assert!(session.made_safe_now());
        assert_eq!(session.checklist.hidden_steps(Stage::MakeSafe), [own]);
        apply(&mut session, Edit::ShowStep(own));
        assert!(session.checklist.hidden.is_empty());
        apply(&mut session, Edit::HideStep(Step::RecordFiled.into()));
        assert_eq!(session.checklist.steps(Stage::CloseOut).len(), 3);
        let next = session.checklist.for_next_visit();
        assert!(next.marks.is_empty());
        assert_eq!((next.own.len(), next.hidden.len()), (1, 1));
        for _ in 1..60 {
            apply(&mut session, add.clone());
        }
        assert_eq!(
            refused(&session, &add),
            EditProblem::Session(SessionProblem::Count(CountOutOfBounds {
                quantity: CountQuantity::OwnSteps,
                found: 61
            }))
        );
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let session = press_of_four();
        let no_reason = Edit::Skip {
            steps: vec![Step::GapEven.into()],
            reason: "  ".into(),
            who: String::new(),
            when: String::new(),
        };
        assert_eq!(
            refused(&session, &no_reason),
            list(ChecklistProblem::NoReason)
        );
        let no_text = Edit::AddStep {
            stage: Stage::Turn,
            text: " ".into(),
        };
        assert_eq!(refused(&session, &no_text), list(ChecklistProblem::NoText));
        assert_eq!(
            refused(&session, &Edit::HideStep(StepId::Own(7))),
            list(ChecklistProblem::NoSuchStep)
        );
    }

    #[test]
    fn the_coarse_gap_stays_at_its_arms() {
        let mut session = press_of_four();
        let gap = |arm, text: &str| Edit::set(Field::CoarseGap(ArmIndex(arm)), text, Unit::Inch);
        apply(&mut session, gap(0, "1/8"));
        apply(&mut session, gap(3, "0.131"));
        let add = Edit::add_arm("24", Unit::Inch);
        apply(&mut session, add);
        let at = |session: &Session, arm| {
            let gap = session.coarse_gap_at(ArmIndex(arm));
            gap.map(|gap| gap.text().to_owned())
        };
        assert_eq!(at(&session, 0).as_deref(), Some("1/8 in"));
        assert_eq!(at(&session, 2), None);
        assert_eq!(at(&session, 4).as_deref(), Some("0.131 in"));
        apply(&mut session, Edit::RemoveArm(ArmIndex(1)));
        assert_eq!(at(&session, 3).as_deref(), Some("0.131 in"));
        assert!(session.edited(&gap(4, "1/8")).is_err());
        assert!(session.edited(&gap(0, "5")).is_err());
        apply(&mut session, gap(3, ""));
        assert_eq!(session.checklist.coarse_gap.len(), 1);
    }
}
