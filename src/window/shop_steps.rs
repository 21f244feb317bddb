//! The shop's own steps go along from one visit to the next.

use crate::session::{Checklist, Document};

use super::App;

impl App {
    /// Changes the document; a change of its list of steps is one of the
    /// shop's, and is kept with the preferences at once.
    pub(super) fn changing_steps<R>(&mut self, change: impl FnOnce(&mut Document) -> R) -> R {
        let before = self.document.shared();
        let result = change(&mut self.document);
        let (before, after) = (&before.checklist, &self.document.session().checklist);
        if self.preferences.steps.follow(before, after) {
            self.save_preferences();
        }
        result
    }

    /// The list a new session starts with: the shop's, or that of the session
    /// on show while the shop has none.
    pub(super) fn steps_for_next_visit(&self) -> Checklist {
        let shop = &self.preferences.steps;
        if shop.is_untouched() {
            self.session().checklist.for_next_visit()
        } else {
            shop.clone()
        }
    }
}
