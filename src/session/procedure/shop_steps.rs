//! The steps a shop has made its own, from visit to visit.

use crate::press::CountQuantity;

use crate::session::procedure::checklist::{Checklist, OwnStep, StepId};
use crate::session::procedure::stages::Stage;

impl Checklist {
    /// The shop's list that own and hidden steps describe, without what
    /// cannot be: steps without words, more than there may be, hidden steps
    /// that are not there or that make the press safe.
    pub fn of_shop(own: Vec<OwnStep>, hidden: &[StepId]) -> Self {
        let mut list = Self::default();
        for (index, own) in own.into_iter().enumerate() {
            let out_of_sight = hidden.contains(&StepId::Own(index));
            list.take_up(own, out_of_sight);
        }
        for step in hidden {
            if matches!(step, StepId::Fixed(_)) {
                list.put_out_of_sight(*step, true);
            }
        }
        list
    }

    /// Whether a shop has changed nothing.
    pub fn is_untouched(&self) -> bool {
        self.own.is_empty() && self.hidden.is_empty()
    }

    /// Takes up what changed between two states of one session's list, so
    /// that the shop's list follows the session's, undo included. A shop
    /// without changes of its own takes all of the session's over. Whether
    /// anything changed.
    pub fn follow(&mut self, before: &Self, after: &Self) -> bool {
        if (&before.own, &before.hidden) == (&after.own, &after.hidden) {
            return false;
        }
        let was = self.clone();
        if self.is_untouched() {
            *self = Self::of_shop(after.own.clone(), &after.hidden);
            return *self != was;
        }
        for gone in before.own.iter().filter(|own| !after.own.contains(own)) {
            self.let_go(gone);
        }
        for (index, own) in after.own.iter().enumerate() {
            let out_of_sight = after.hidden.contains(&StepId::Own(index));
            let known = before.own.iter().position(|known| known == own);
            let changed = known
                .is_none_or(|known| before.hidden.contains(&StepId::Own(known)) != out_of_sight);
            if changed {
                self.take_up(own.clone(), out_of_sight);
            }
        }
        let fixed = |step: &&StepId| matches!(step, StepId::Fixed(_));
        for back in before.hidden.iter().filter(fixed) {
            if !after.hidden.contains(back) {
                self.put_out_of_sight(*back, false);
            }
        }
        for gone in after.hidden.iter().filter(fixed) {
            if !before.hidden.contains(gone) {
                self.put_out_of_sight(*gone, true);
            }
        }
        *self != was
    }

    /// Adds one of the shop's own steps, unless it is there, and sets whether
    /// it is in sight.
    fn take_up(&mut self, own: OwnStep, out_of_sight: bool) {
        let known = self.own.iter().position(|known| *known == own);
        let index = known.unwrap_or(self.own.len());
        if known.is_none() {
            let more = index as i64 + 1;
            if own.text.trim().is_empty() || CountQuantity::OwnSteps.check(more).is_err() {
                return;
            }
            self.own.push(own);
        }
        self.put_out_of_sight(StepId::Own(index), out_of_sight);
    }

    /// Takes one of the shop's own steps out; those behind it move up.
    fn let_go(&mut self, own: &OwnStep) {
        let Some(index) = self.own.iter().position(|known| known == own) else {
            return;
        };
        self.own.remove(index);
        self.hidden.retain(|step| *step != StepId::Own(index));
        for step in &mut self.hidden {
            if let StepId::Own(behind) = step
                && *behind > index
            {
                *behind -= 1;
            }
        }
    }

    fn put_out_of_sight(&mut self, step: StepId, out_of_sight: bool) {
        self.hidden.retain(|other| *other != step);
        let makes_safe = matches!(step, StepId::Fixed(fixed) if fixed.stage() == Stage::MakeSafe);
        if out_of_sight && !makes_safe {
            self.hidden.push(step);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::tests_visit::*;
    use crate::session::{Document, Edit, Stage, Step};

    fn own(text: &str) -> OwnStep {
        OwnStep {
            stage: Stage::CloseOut,
            text: text.into(),
        }
    }

    #[test]
    fn what_cannot_be_is_left_out() {
        let hidden = [
            StepId::Own(1),
            StepId::Own(9),
            Step::Tried.into(),
            Step::Cleaned.into(),
        ];
        let mut steps = vec![own(" "), own("Call"), own("Sweep")];
        let list = Checklist::of_shop(steps.clone(), &hidden);
        assert_eq!(list.own, [own("Call"), own("Sweep")]);
        assert_eq!(list.hidden, [StepId::Own(0), Step::Cleaned.into()]);
        steps.extend((0..100).map(|index| own(&format!("step {index}"))));
        let list = Checklist::of_shop(steps, &hidden);
        let mut session = press_of_four();
        session.checklist = list;
        assert_eq!(session.check(), Ok(()));
    }

    #[test]
    fn the_shop_follows_a_session_and_its_undo() {
        let mut shop = Checklist::of_shop(vec![own("Call"), own("Sweep")], &[StepId::Own(1)]);
        let at_first = shop.clone();
        let mut document = Document::unsaved(press_of_four());
        let mut change = |document: &mut Document, edit: Option<Edit>| {
            let before = document.session().checklist.clone();
            match edit {
                Some(edit) => assert_eq!(document.apply(&edit), Ok(true)),
                None => document.undo(),
            }
            shop.follow(&before, &document.session().checklist);
            shop.clone()
        };
        let add = |text: &str| {
            Some(Edit::AddStep {
                stage: Stage::CloseOut,
                text: text.into(),
            })
        };
        // What the shop has stays, what is new comes.
        let list = change(&mut document, add("Oil"));
        assert_eq!(list.own, [own("Call"), own("Sweep"), own("Oil")]);
        // A step it has hidden comes back into sight when it is added anew.
        let list = change(&mut document, add("Sweep"));
        assert_eq!((list.own.len(), list.hidden.len()), (3, 0));
        let hide = Some(Edit::HideStep(StepId::Own(1)));
        let list = change(&mut document, hide);
        assert_eq!(list.hidden, [StepId::Own(1)]);
        let hide = Some(Edit::HideStep(Step::Cleaned.into()));
        let list = change(&mut document, hide);
        assert_eq!(list.hidden, [StepId::Own(1), Step::Cleaned.into()]);
        for _ in 0..2 {
            change(&mut document, None);
        }
        let list = change(&mut document, None);
        assert_eq!(list.own, [own("Call"), own("Oil")]);
        let list = change(&mut document, None);
        assert_eq!(list.own, [own("Call")]);
        assert_ne!(list, at_first);
    }

    #[test]
    fn a_shop_without_steps_takes_the_sessions_over() {
        let mut before = press_of_four();
        let add = |text: &str| Edit::AddStep {
            stage: Stage::CloseOut,
            text: text.into(),
        };
        apply(&mut before, add("Call"));
        let mut after = before.clone();
        apply(&mut after, add("Sweep"));
        let mut shop = Checklist::default();
        assert!(!shop.follow(&before.checklist, &before.checklist));
        assert!(shop.follow(&before.checklist, &after.checklist));
        assert_eq!(shop.own, [own("Call"), own("Sweep")]);
    }
}
