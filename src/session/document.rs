//! The document: a session with its undo and redo.

use std::sync::Arc;

use super::{Edit, EditProblem, Session};

/// Most steps that can be undone; older ones are let go.
const MOST_UNDO_STEPS: usize = 1_000;

/// A session being worked on. Every change goes through
/// [`apply`](Self::apply), so undo, recovery and the views that follow the
/// document come for free.
#[derive(Debug, Clone)]
pub struct Document {
    present: Arc<Session>,
    past: Vec<Arc<Session>>,
    future: Vec<Arc<Session>>,
    saved: Option<Arc<Session>>,
    revision: u64,
}

impl Document {
    /// A document that has never been saved.
    pub fn unsaved(session: Session) -> Self {
        Self {
            present: Arc::new(session),
            past: Vec::new(),
            future: Vec::new(),
            saved: None,
            revision: 0,
        }
    }

    /// A document as it stands in its file.
    pub fn saved(session: Session) -> Self {
        let mut document = Self::unsaved(session);
        document.mark_saved();
        document
    }

    /// The session as it stands now.
    pub fn session(&self) -> &Session {
        &self.present
    }

    /// The session as it stands now, to hand to another thread.
    pub fn shared(&self) -> Arc<Session> {
        Arc::clone(&self.present)
    }

    /// A number that grows with every change, undo and redo.
    pub fn revision(&self) -> u64 {
        self.revision
    }

    /// Carries out a change. A change that changes nothing is no step of
    /// undo. Answers whether anything changed.
    ///
    /// # Errors
    /// Why it was refused; the document stays as it was.
    pub fn apply(&mut self, edit: &Edit) -> Result<bool, EditProblem> {
        let next = self.present.edited(edit)?;
        if next == *self.present {
            return Ok(false);
        }
        if self.past.len() == MOST_UNDO_STEPS {
            self.past.remove(0);
        }
        self.past
            .push(std::mem::replace(&mut self.present, Arc::new(next)));
        self.future.clear();
        self.revision += 1;
        Ok(true)
    }

    /// Whether there is something to undo.
    pub fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    /// Whether there is something to do again.
    pub fn can_redo(&self) -> bool {
        !self.future.is_empty()
    }

    /// Takes the last change back.
    pub fn undo(&mut self) {
        if let Some(before) = self.past.pop() {
            self.future
                .push(std::mem::replace(&mut self.present, before));
            self.revision += 1;
        }
    }

    /// Does the last undone change again.
    pub fn redo(&mut self) {
        if let Some(after) = self.future.pop() {
            self.past.push(std::mem::replace(&mut self.present, after));
            self.revision += 1;
        }
    }

    /// Whether the document differs from what was last saved; one that was
    /// never saved does.
    pub fn has_unsaved_changes(&self) -> bool {
        self.saved
            .as_ref()
            .is_none_or(|saved| !Arc::ptr_eq(saved, &self.present) && **saved != *self.present)
    }

    /// Notes that the document stands in its file as it is now.
    pub fn mark_saved(&mut self) {
        self.saved = Some(self.shared());
    }

    /// Notes that `session`, an earlier state of this document, now stands in
    /// the file: what saving on another thread reports.
    pub fn mark_saved_as(&mut self, session: Arc<Session>) {
        self.saved = Some(session);
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests_visit::press_of_four;
    use super::*;

    #[test]
    fn what_was_undone_is_gone_after_another_change() {
        let mut document = Document::unsaved(press_of_four());
        let name = |name: &str| {
            Edit::set(
                crate::session::Field::PressName,
                name,
                crate::units::Unit::Inch,
            )
        };
        let named = |document: &Document| document.session().press.name.clone();
        document.apply(&name("one")).unwrap();
        document.apply(&name("two")).unwrap();
        document.undo();
        assert!(document.can_redo());
        document.apply(&name("three")).unwrap();
        assert!(!document.can_redo());
        document.redo();
        assert_eq!(named(&document), "three");
        document.undo();
        assert_eq!(named(&document), "one");
        document.redo();
        assert_eq!(named(&document), "three");
    }
}
