//! Whether the press is made safe as things stand, and for which hands.

use crate::session::procedure::checklist::{Mark, MarkKind, StepId};
use crate::session::procedure::stages::{Hands, Stage, Step};
use crate::session::{Pass, Session};

impl Session {
    /// The mark of a step that counts as things stand. One that makes the press
    /// safe does not outlast a lacing, whatever an older file says.
    pub fn mark_now(&self, step: StepId) -> Option<&Mark> {
        self.checklist.mark(step).filter(|mark| self.counts(mark))
    }

    fn counts(&self, mark: &Mark) -> bool {
        let makes_safe = self.checklist.stage_of(mark.step) == Some(Stage::MakeSafe);
        let cuts_off = matches!(mark.step, StepId::Fixed(step) if step.isolates_energy());
        let waiting = usize::from(cuts_off && self.is_turned_for());
        !makes_safe || mark.passes + waiting >= self.passes.len()
    }

    /// Whether the last pass was opened for nuts that were turned, and nothing
    /// says yet that it was laced: the locks of that stop hang.
    pub(in crate::session) fn is_turned_for(&self) -> bool {
        let last = self.passes.len().checked_sub(1);
        let unread = self.passes.last().is_some_and(|last| !last.has_readings());
        let turned = |last| self.turns_before(last).iter().any(|turn| turn.0 != 0);
        unread && last.is_some_and(turned)
    }

    /// Whether what is ticked of making safe is that of the stop in which nuts were
    /// turned for the last pass: it holds while the locks of that stop hang.
    pub fn locks_of_turning(&self) -> bool {
        let lock = self.mark_now(Step::LockedOut.into());
        lock.is_some_and(|lock| lock.passes < self.passes.len())
    }

    /// The marks of a step that count as things stand: of what is everybody's own,
    /// those of all.
    pub fn marks_now(&self, step: StepId) -> impl Iterator<Item = &Mark> {
        let marks = self.checklist.marks.iter();
        marks.filter(move |mark| mark.step == step && !mark.lapsed && self.counts(mark))
    }

    /// Whose locks hang on the press.
    pub fn locks(&self) -> Vec<&str> {
        let locks = self.marks_now(Step::LockedOut.into());
        locks.map(|lock| lock.who.as_str()).collect()
    }

    /// Whether a step is settled as things stand: done, or left out where it
    /// may be; locks are off once everybody took off their own.
    pub fn is_settled(&self, step: StepId) -> bool {
        let off = matches!(step, StepId::Fixed(step) if step.brings_power());
        let mark = self.mark_now(step);
        let skipped = mark.is_some_and(|mark| mark.kind == MarkKind::Skipped);
        let own = |who: &&str| !self.marks_now(step).any(|mark| mark.who == *who);
        if off && !skipped && self.locks().iter().any(own) {
            return false;
        }
        mark.is_some() && (!skipped || step.may_be_absent())
    }

    /// Whether the press is made safe for such hands as things stand: what
    /// [`Checklist::safe_steps`](super::Checklist::safe_steps) asks is ticked,
    /// or not on this press, and no power was on since.
    ///
    /// It lapses when a lock comes off and when a first reading comes in, since
    /// lacing restores power; and when a pass is opened, but for what cuts the
    /// press off where nuts were turned for that pass.
    pub fn is_made_safe_for(&self, hands: Hands) -> bool {
        let steps = self.checklist.safe_steps(hands);
        steps.into_iter().all(|step| self.is_settled(step))
    }

    /// Whether the press is cut off from everything that can move it.
    pub fn made_safe_now(&self) -> bool {
        self.is_made_safe_for(Hands::DoOther)
    }

    /// The last tick of it that counts now.
    pub fn made_safe_mark(&self) -> Option<&Mark> {
        let list = &self.checklist;
        list.marks
            .iter()
            .rev()
            .filter(|mark| !mark.lapsed && mark.kind == MarkKind::Done)
            .find(|mark| list.stage_of(mark.step) == Some(Stage::MakeSafe))
    }

    /// Whether anything shows that power was on during this visit, so that
    /// "made safe" is asked anew rather than for the first time.
    pub fn power_was_on(&self) -> bool {
        self.passes.len() > 1
            || self.passes.iter().any(Pass::has_readings)
            || self.checklist.has_lapsed(Stage::MakeSafe)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::tests_visit::*;
    use crate::session::{Edit, OrderWarning, PathState, Step};

    #[test]
    fn made_safe_lapses_at_every_lacing() {
        let mut session = press_of_four();
        assert!(!session.made_safe_now());
        assert_eq!(state(&session, Stage::FreeNuts), PathState::Todo);
        tick_all(&mut session, Stage::MakeSafe);
        assert!(session.made_safe_now());
        // Opening the first pass.
        lace(&mut session, &[]);
        assert!(!session.made_safe_now());
        // Made safe between opening the pass and lacing it: the first reading
        // proves that power was on since.
        tick_all(&mut session, Stage::MakeSafe);
        assert!(session.made_safe_now());
        read(&mut session, ["0.2500", "", "", ""]);
        assert!(!session.made_safe_now());
        assert_eq!(state(&session, Stage::MakeSafe), PathState::Again);
        // Further readings of the same piece need no power.
        tick_all(&mut session, Stage::MakeSafe);
        read(&mut session, ["0.2500", "0.2450", "0.2505", "0.2525"]);
        assert!(session.made_safe_now());
        assert_eq!(state(&session, Stage::MakeSafe), PathState::Done);
        // Before every further turn it is asked anew.
        lace(&mut session, &[]);
        assert!(!session.made_safe_now());
        // Taking the pass away does not bring it back.
        apply(&mut session, Edit::DeletePass { pass: 1 });
        assert!(!session.made_safe_now());
        assert!(session.checklist.has_lapsed(Stage::MakeSafe));
    }

    #[test]
    fn pins_go_in_behind_the_locks_of_the_stop_in_which_nuts_were_turned() {
        let measured = ["0.2500", "0.2450", "0.2505", "0.2525"];
        let turned = || {
            let mut session = press_of_four();
            lace(&mut session, &[]);
            read(&mut session, measured);
            tick_all(&mut session, Stage::MakeSafe);
            lace(&mut session, &[0, 1, 0, 0]);
            session
        };
        let session = turned();
        // Nuts are asked anew all the same: their marks and blocks were for before.
        assert!(session.made_safe_now() && !session.is_made_safe_for(Hands::TurnNuts));
        // It holds until a lock comes off, or a reading shows that it was laced.
        let mut unlocked = turned();
        for step in Stage::Relace.steps().take(3) {
            assert!(unlocked.made_safe_now(), "{step:?}");
            tick(&mut unlocked, step);
        }
        assert!(!unlocked.made_safe_now());
        let mut laced = turned();
        read(&mut laced, ["0.2500", "", "", ""]);
        assert!(!laced.made_safe_now());
        // Whoever opens the jaw for further turns had power on.
        let mut moved = turned();
        tick(&mut moved, Step::JawUnloaded);
        assert!(!moved.made_safe_now() && !moved.is_settled(Step::LockedOut.into()));
        assert!(moved.is_settled(Step::OthersTold.into()));
        // Another lacing with the nuts as they are has no such locks, and no pins.
        let mut again = turned();
        lace(&mut again, &[]);
        assert!(!again.made_safe_now());
        let pins = StepId::Fixed(Step::PinsForRelace);
        assert!(!again.steps_now(Stage::Relace).contains(&pins));
        assert!(session.steps_now(Stage::Relace).contains(&pins));
    }

    #[test]
    fn everybody_hangs_a_lock_and_takes_it_off() {
        let own = |session: &mut Session, who: &str, step: Step| {
            let edit = Edit::Tick {
                steps: vec![step.into()],
                who: who.into(),
                when: String::new(),
                note: String::new(),
            };
            apply(session, edit);
        };
        let mut session = press_of_four();
        tick_all(&mut session, Stage::MakeSafe);
        own(&mut session, "Ann", Step::LockedOut);
        assert_eq!(session.locks(), ["R. Alder", "Ann"]);
        // What was tried behind one lock is tried again behind two.
        assert!(!session.is_settled(Step::Tried.into()) && !session.made_safe_now());
        for step in session.checklist.safe_steps(Hands::TurnNuts) {
            if let StepId::Fixed(step) = step
                && !session.is_settled(step.into())
            {
                own(&mut session, "Ann", step);
            }
        }
        assert!(session.made_safe_now());
        session.check_checklist().unwrap();
        // The first lock off is not the last.
        let off = Step::LocksOffForTest;
        own(&mut session, "R. Alder", off);
        assert!(!session.is_settled(off.into()) && session.made_safe_now());
        own(&mut session, "Ann", off);
        assert!(session.is_settled(off.into()) && !session.made_safe_now());
        let names = session.marks_now(off.into()).map(|mark| &*mark.who);
        assert_eq!(names.collect::<Vec<_>>(), ["R. Alder", "Ann"]);
    }

    #[test]
    fn it_ends_where_the_locks_come_off() {
        for (stage, last) in [
            (Stage::TestLace, Step::LocksOffForTest),
            (Stage::Relace, Step::LocksOffForRelace),
            (Stage::CloseOut, Step::ClearForWork),
        ] {
            let mut session = press_of_four();
            tick_all(&mut session, Stage::MakeSafe);
            for step in stage.steps().take_while(|step| *step != last) {
                tick(&mut session, step);
                assert!(session.made_safe_now(), "{step:?}");
            }
            skip(&mut session, &[last.into()]);
            assert!(session.made_safe_now(), "no lock came off: {last:?}");
            tick(&mut session, last);
            assert!(!session.made_safe_now(), "{last:?}");
        }
    }

    #[test]
    fn what_is_taken_back_takes_with_it_what_waited_for_it() {
        let mut session = press_of_four();
        tick_all(&mut session, Stage::MakeSafe);
        apply(&mut session, Edit::Untick(Step::LockedOut.into()));
        let counts = |step: &Step| session.mark_now((*step).into()).is_some();
        let left: Vec<Step> = Stage::MakeSafe.steps().filter(counts).collect();
        assert_eq!(left, [Step::OthersTold, Step::JawUnloaded, Step::PowerOff]);
    }

    #[test]
    fn one_open_energy_step_is_not_safe() {
        let mut session = press_of_four();
        tick_all(&mut session, Stage::MakeSafe);
        apply(&mut session, Edit::Untick(Step::Tried.into()));
        assert!(!session.made_safe_now());
        // An older file may have it left out for a reason: that is no answer.
        session.checklist.set_mark(Mark {
            step: Step::Tried.into(),
            kind: MarkKind::Skipped,
            who: String::new(),
            when: String::new(),
            note: "no time".into(),
            passes: 0,
            lapsed: false,
        });
        assert!(!session.made_safe_now());
        tick_all(&mut session, Stage::MakeSafe);
        // A press without stored energy has none to release.
        skip(&mut session, &[Step::PressureReleased.into()]);
        assert!(session.made_safe_now());
        assert_eq!(state(&session, Stage::MakeSafe), PathState::Done);
    }

    #[test]
    fn what_an_older_file_ticked_does_not_outlast_a_lacing() {
        // Pins and marks were asked once a visit then, and stayed ticked.
        let mut session = press_of_four();
        lace(&mut session, &[]);
        tick_all(&mut session, Stage::MakeSafe);
        assert!(session.is_settled(Step::PinsOut.into()));
        let pins = |mark: &&mut Mark| mark.step == Step::PinsOut.into();
        let mut marks = session.checklist.marks.iter_mut();
        marks.find(pins).unwrap().passes = 0;
        assert!(!session.is_settled(Step::PinsOut.into()));
        assert!(!session.is_made_safe_for(Hands::TurnNuts) && session.made_safe_now());
    }

    #[test]
    fn hands_at_the_nuts_are_asked_more() {
        let mut session = press_of_four();
        tick_all(&mut session, Stage::MakeSafe);
        apply(&mut session, Edit::Untick(Step::PinsOut.into()));
        assert!(session.made_safe_now());
        assert!(!session.is_made_safe_for(Hands::TurnNuts));
        assert_eq!(session.current_stage(), Some(Stage::MakeSafe));
        let warned = |session: &Session, stage| {
            let not_safe = OrderWarning::NotMadeSafe { lapsed: false };
            session.order_warnings(stage).contains(&not_safe)
        };
        assert!(warned(&session, Stage::FreeNuts) && warned(&session, Stage::Turn));
        assert!(!warned(&session, Stage::JawDrive) && !warned(&session, Stage::CloseOut));
        // To put the pins back in they need not be out.
        lace(&mut session, &[]);
        read(&mut session, ["0.2500", "0.2510", "0.2505", "0.2515"]);
        assert_eq!(session.steps_now(Stage::MakeSafe).len(), 5);
    }

    #[test]
    fn the_gap_is_checked_with_the_jaw_at_full_stroke_and_nuts_are_turned_with_it_open() {
        let mut session = press_of_four();
        tick_all(&mut session, Stage::MakeSafe);
        assert!(session.is_made_safe_for(Hands::TurnNuts));
        assert!(!session.is_made_safe_for(Hands::CheckGap));
        let tick = |session: &mut Session, step: Step| {
            let edit = Edit::Tick {
                steps: vec![step.into()],
                who: "R. Alder".into(),
                when: String::new(),
                note: String::new(),
            };
            apply(session, edit);
        };
        // Whoever moved the jaw let energy in: all is asked anew.
        tick(&mut session, Step::JawAtStroke);
        assert!(!session.made_safe_now());
        assert!(!session.is_settled(Step::JawUnloaded.into()));
        assert_eq!(session.steps_now(Stage::MakeSafe).len(), 7);
        for step in session.checklist.safe_steps(Hands::CheckGap) {
            assert!(!session.is_made_safe_for(Hands::CheckGap));
            if let StepId::Fixed(step) = step {
                tick(&mut session, step);
            }
        }
        assert!(session.is_made_safe_for(Hands::CheckGap) && session.made_safe_now());
        assert!(!session.is_made_safe_for(Hands::TurnNuts));
        assert_eq!(session.current_stage(), Some(Stage::FreeNuts));
        tick(&mut session, Step::JawUnloaded);
        assert!(!session.made_safe_now());
    }
}
