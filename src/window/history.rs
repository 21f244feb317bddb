//! Works out what was to be expected of each pass, on a thread of its own and
//! only while somebody looks at the passes side by side.

use std::sync::Arc;
use std::sync::mpsc::{Receiver, Sender, channel};

use eframe::egui;

use crate::session::{AdviceWorkspace, Foresight, PriorShelf, Session};

type Question = (u64, Arc<Session>);

/// What was to be expected of the passes, and the question it answers.
#[derive(Debug)]
struct Answer {
    number: u64,
    foresights: Vec<Option<Foresight>>,
}

/// Asks for what was to be expected, and keeps the last answer.
#[derive(Debug, Default)]
pub struct History {
    thread: Option<(Sender<Question>, Receiver<Answer>)>,
    /// The revision asked about last.
    asked: Option<u64>,
    /// Questions asked so far; answers to older ones are nobody's business.
    number: u64,
    known: Option<Answer>,
}

impl History {
    /// What was to be expected of a pass, as far as it is worked out.
    pub fn of(&self, pass: usize) -> Option<&Foresight> {
        self.known.as_ref()?.foresights.get(pass)?.as_ref()
    }

    /// Whether an answer is still to come.
    pub fn is_thinking(&self) -> bool {
        let answered = self.known.as_ref().map(|answer| answer.number);
        self.asked.is_some() && answered != Some(self.number)
    }

    /// Forgets everything: another document stands in front.
    pub fn forget(&mut self) {
        self.asked = None;
        self.known = None;
    }

    /// Asks about a state of the document, once, and takes what is worked out.
    pub fn follow(
        &mut self,
        ctx: &egui::Context,
        shelf: &Arc<PriorShelf>,
        revision: u64,
        session: impl FnOnce() -> Arc<Session>,
    ) {
        let (questions, answers) = self.thread.get_or_insert_with(|| start(ctx, shelf));
        if self.asked != Some(revision) {
            self.asked = Some(revision);
            self.number += 1;
            // Without its thread nothing is foretold, and the passes stand.
            let _ = questions.send((self.number, session()));
        }
        while let Ok(answer) = answers.try_recv() {
            if answer.number == self.number {
                self.known = Some(answer);
            }
        }
    }
}

fn start(ctx: &egui::Context, shelf: &Arc<PriorShelf>) -> (Sender<Question>, Receiver<Answer>) {
    let (questions, to_work_out) = channel::<Question>();
    let (worked_out, answers) = channel();
    let (ctx, shelf) = (ctx.clone(), Arc::clone(shelf));
    std::thread::spawn(move || {
        let mut workspace = AdviceWorkspace::default();
        while let Ok(mut question) = to_work_out.recv() {
            // Only the newest state matters.
            while let Ok(newer) = to_work_out.try_recv() {
                question = newer;
            }
            let (number, session) = question;
            let foresights = session.foresights(&shelf, &mut workspace);
            let answer = Answer {
                number,
                // Figures beyond any press foretell nothing.
                foresights: foresights.unwrap_or_default(),
            };
            if worked_out.send(answer).is_err() {
                return;
            }
            ctx.request_repaint();
        }
    });
    (questions, answers)
}
