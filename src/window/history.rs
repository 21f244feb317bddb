//! Works out what was to be expected of each pass, on a thread of its own and
//! only while somebody looks at the passes side by side.

use std::sync::Arc;
use std::time::Duration;

use eframe::egui;

use crate::session::{AdviceWorkspace, Foresight, PriorShelf, Session};

use super::worker::Worker;

/// Asks for what was to be expected, and keeps the last answer.
#[derive(Debug, Default)]
pub struct History {
    worker: Option<Worker<Arc<Session>, Vec<Option<Foresight>>>>,
    /// The revision asked about last.
    asked: Option<u64>,
    known: Vec<Option<Foresight>>,
}

impl History {
    /// What was to be expected of a pass, as far as it is worked out.
    pub fn of(&self, pass: usize) -> Option<&Foresight> {
        self.known.get(pass)?.as_ref()
    }

    /// Whether an answer is still to come.
    pub fn is_thinking(&self) -> bool {
        self.asked.is_some() && self.worker.as_ref().is_some_and(Worker::is_thinking)
    }

    /// Forgets everything: another document stands in front.
    pub fn forget(&mut self) {
        self.asked = None;
        self.known.clear();
    }

    /// Asks about a state of the document, once, and takes what is worked out.
    pub fn follow(
        &mut self,
        ctx: &egui::Context,
        shelf: &Arc<PriorShelf>,
        revision: u64,
        session: impl FnOnce() -> Arc<Session>,
    ) {
        let worker = self.worker.get_or_insert_with(|| {
            let shelf = Arc::clone(shelf);
            let mut workspace = AdviceWorkspace::default();
            Worker::start(ctx, move |session: Arc<Session>, teller| {
                // Figures beyond any press foretell nothing.
                let foresights = session.foresights(&shelf, &mut workspace);
                teller.tell(foresights.unwrap_or_default());
            })
        });
        if self.asked != Some(revision) {
            self.asked = Some(revision);
            worker.ask(session());
        }
        while let Some(known) = worker.answer(Duration::ZERO) {
            self.known = known;
        }
    }
}
