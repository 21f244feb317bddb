//! Nuts whose count was lost: nobody knows where they stand until they are found.
//! Nothing is planned meanwhile, and nothing learnt from what was laced with them.

use crate::press::{ArmIndex, NutPosition};

use super::{EditProblem, Pass, Session, Step};

impl Session {
    /// Nobody knows any more where these nuts stand. The last pass is not laced
    /// with them where it says.
    pub(super) fn lose_nuts(&mut self, arms: &[ArmIndex]) -> Result<(), EditProblem> {
        for arm in arms {
            self.arm_mut(*arm)?;
            self.lost.push(*arm);
        }
        self.lost.sort_unstable();
        self.lost.dedup();
        self.mark_lost();
        Ok(())
    }

    /// A nut is found, and stands here now. A piece that is laced already was laced
    /// with it elsewhere: the next one is laced with it here.
    pub(super) fn find_nut(
        &mut self,
        arm: ArmIndex,
        position: NutPosition,
    ) -> Result<(), EditProblem> {
        if !self.lost.contains(&arm) {
            return Err(EditProblem::NothingThere);
        }
        if self.is_laced() {
            self.add_pass(&[], "");
        }
        self.lost.retain(|lost| *lost != arm);
        let last = self.passes.last_mut();
        let nuts = last.map_or(&mut self.start_nuts, |last| &mut last.nuts);
        *nuts.get_mut(arm.0).ok_or(EditProblem::NothingThere)? = position;
        self.mark_lost();
        Ok(())
    }

    /// Whether anything shows that the piece of the last pass is laced.
    pub(super) fn is_laced(&self) -> bool {
        let piece = match self.passes.len() {
            0 => return false,
            1 => Step::TestPieceLaced,
            _ => Step::RelacePiece,
        };
        self.passes.last().is_some_and(Pass::has_readings) || self.is_settled(piece.into())
    }

    fn mark_lost(&mut self) {
        let lost = !self.lost.is_empty();
        if let Some(last) = self.passes.last_mut() {
            last.nut_lost = lost;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::StationReading;
    use crate::session::tests_visit::*;
    use crate::session::{
        AdviceWorkspace, Edit, NextAct, PlanningProblem, PressRecord, PriorShelf, Says, Wishes,
    };

    const B: ArmIndex = ArmIndex(1);

    /// A second pass, before which B was turned nobody knows how far.
    fn lost() -> Session {
        let mut session = press_of_four();
        lace(&mut session, &[]);
        read(&mut session, ["0.2500", "0.2440", "0.2505", "0.2525"]);
        lace(&mut session, &[]);
        apply(&mut session, Edit::LoseNuts(vec![B]));
        session
    }

    fn next(session: &Session) -> (Says, NextAct) {
        let gate = session.last_gate();
        let step = session.next_step(&crate::session::InView {
            gate: &gate,
            advice: None,
            problem: None,
            again: &[],
            turns: &[],
            forecast: None,
        });
        (step.says, step.act)
    }

    fn found_at(session: &mut Session, at: i32) {
        let position = NutPosition(at);
        apply(session, Edit::FindNut { arm: B, position });
    }

    fn read_by_learning(session: &Session) -> Vec<usize> {
        let shelf = PriorShelf::default();
        let mut workspace = AdviceWorkspace::default();
        let last = session.passes.len() - 1;
        let belief = session.belief(&shelf, workspace.memo()).unwrap();
        let passes = session.test_passes(last, &belief);
        let read = |readings: &[Option<StationReading>]| readings.iter().flatten().count();
        passes.iter().map(|pass| read(&pass.readings)).collect()
    }

    #[test]
    fn a_lost_nut_is_found_before_anything_else() {
        let mut session = lost();
        assert_eq!(next(&session), (Says::NutsLost, NextAct::FindNut(B)));
        // It was not laced yet: it will be with the nut where it was found.
        found_at(&mut session, -3);
        assert_eq!(session.nuts_now()[B.0], NutPosition(-3));
        assert_eq!((session.passes.len(), session.lost.len()), (2, 0));
        assert!(!session.passes[1].nut_lost);
        assert_eq!(next(&session).1, NextAct::LaceFirst(0));
    }

    #[test]
    fn nothing_is_planned_or_learnt_with_a_nut_nobody_knows() {
        let mut session = lost();
        read(&mut session, ["0.2500", "0.2470", "0.2505", "0.2525"]);
        assert_eq!(next(&session), (Says::NutsLost, NextAct::FindNut(B)));
        let shelf = PriorShelf::default();
        let mut workspace = AdviceWorkspace::default();
        let advice = session.advise(1, Wishes::default(), &shelf, &mut workspace);
        assert_eq!(advice.err(), Some(PlanningProblem::NutsLost(vec![B])));
        // Whoever comes next is told.
        let next_visit = PressRecord::of(&session).next_visit;
        assert_eq!(next_visit.lost, [B]);
        assert!(
            next_visit.earlier[0].passes[1]
                .means
                .iter()
                .all(Option::is_none)
        );
        // The piece was laced with it elsewhere: another is, and only that is learnt.
        found_at(&mut session, 0);
        assert_eq!(session.passes.len(), 3);
        assert!(session.passes[1].nut_lost && !session.passes[2].nut_lost);
        assert_eq!(read_by_learning(&session), [4, 0, 0]);
        read(&mut session, ["0.2500", "0.2490", "0.2505", "0.2525"]);
        assert_eq!(read_by_learning(&session), [4, 0, 4]);
    }

    #[test]
    fn a_nut_that_is_lost_stays_so_from_pass_to_pass() {
        let mut session = lost();
        lace(&mut session, &[]);
        assert!(session.passes[2].nut_lost);
        apply(&mut session, Edit::RemoveArm(ArmIndex(0)));
        assert_eq!(session.lost, [ArmIndex(0)]);
    }
}
