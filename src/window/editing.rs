//! Changes of the document.

use std::time::SystemTime;

use crate::session::{By, Edit, Stage};
use crate::store;

use super::App;
use super::messages::Tone;

impl App {
    /// Changes the document; whether it could be.
    pub(super) fn edit(&mut self, edit: &Edit, now: f64) -> bool {
        let blank = matches!(edit, Edit::Enter { text, .. } if text.trim().is_empty());
        if blank && self.session().passes.is_empty() {
            return true;
        }
        let opening = self.opening_first_pass(edit);
        let edit = opening.as_ref().unwrap_or(edit);
        match self.changing(|document| document.apply(&noted(edit))) {
            Ok(_) => {
                if opening.is_some() {
                    self.view.visit.go_to(Stage::Measure);
                }
                if matches!(edit, Edit::InsertPass { .. } | Edit::DeletePass { .. }) {
                    self.view.readings.cells.now = None;
                    // Turns that are kept start from a pass by its number.
                    self.view.what_if.kept.clear();
                }
                true
            }
            Err(problem) => {
                let sentence = self.figures().edit_problem(&problem);
                self.say(Tone::Problem, sentence, now);
                false
            }
        }
    }

    /// The first readings of a visit, or how they are taken, open its first
    /// pass: the change that does both. None where there is a pass already.
    pub(super) fn opening_first_pass(&self, edit: &Edit) -> Option<Edit> {
        let reads = matches!(
            edit,
            Edit::Enter { .. } | Edit::Fill { .. } | Edit::SetWalk { .. }
        );
        let add = Edit::add_pass([], "");
        (reads && self.session().passes.is_empty()).then(|| Edit::Together(vec![add, edit.clone()]))
    }
}

/// A change with when it is made; who makes it stands in the session's notes.
pub(super) fn noted(edit: &Edit) -> Edit {
    Edit::Noted {
        change: Box::new(edit.clone()),
        by: By {
            who: String::new(),
            when: store::moment_of(SystemTime::now()),
        },
    }
}
