//! What is the shop's own in a session goes along from one visit to the next:
//! its steps, its rule for accepting a piece, and what it reckons the work at.

use crate::session::{Checklist, Document, Session};

use super::App;

impl App {
    /// Changes the document; a change of its list of steps, of its rule of
    /// acceptance or of what the work is reckoned at is one of the shop's, and
    /// is kept with the preferences at once.
    pub(super) fn changing<R>(&mut self, change: impl FnOnce(&mut Document) -> R) -> R {
        let before = self.document.shared();
        let result = change(&mut self.document);
        let after = self.document.session();
        let steps = self
            .preferences
            .steps
            .follow(&before.checklist, &after.checklist);
        let rule = before.acceptance != after.acceptance || before.effort != after.effort;
        if rule {
            self.preferences.acceptance = after.acceptance;
            self.preferences.effort = after.effort;
        }
        if steps || rule {
            self.save_preferences();
        }
        result
    }

    /// Starts a new session with the shop's rules.
    pub(super) fn apply_shop_rules(&self, session: &mut Session) {
        session.acceptance = self.preferences.acceptance;
        session.effort = self.preferences.effort;
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
