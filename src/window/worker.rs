//! Work on threads of its own, so that the window never waits: a [`Worker`]
//! answers the newest of many questions, [`Jobs`] do everything they are given.
//! Either wakes the window when there is something to take.

use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::time::Duration;

use eframe::egui;

/// A thread that works out answers to questions. Only the newest question
/// matters: older ones are passed over, and their answers are dropped.
#[derive(Debug)]
pub struct Worker<Q, A> {
    questions: Sender<(u64, Q)>,
    answers: Receiver<(u64, A)>,
    /// The number of the last question, for the thread to see that it is
    /// behind.
    newest: Arc<AtomicU64>,
    asked: u64,
    answered: u64,
}

/// Where a thread leaves what it has worked out about one question.
#[derive(Debug)]
pub struct Teller<'a, A> {
    number: u64,
    answers: &'a Sender<(u64, A)>,
    newest: &'a AtomicU64,
    ctx: &'a egui::Context,
}

impl<A> Teller<'_, A> {
    /// Tells the window; a question may have several answers.
    pub fn tell(&self, answer: A) {
        // The window may be gone by now; then nobody needs the answer.
        if self.answers.send((self.number, answer)).is_ok() {
            self.ctx.request_repaint();
        }
    }

    /// Whether nothing else was asked meanwhile.
    pub fn go_on(&self) -> bool {
        self.newest.load(Ordering::Relaxed) == self.number
    }
}

impl<Q: Send + 'static, A: Send + 'static> Worker<Q, A> {
    /// Starts the thread; it ends when this is dropped.
    pub fn start(
        ctx: &egui::Context,
        mut work: impl FnMut(Q, &Teller<'_, A>) + Send + 'static,
    ) -> Self {
        let (questions, to_work_out) = channel::<(u64, Q)>();
        let (worked_out, answers) = channel();
        let newest = Arc::new(AtomicU64::new(0));
        let (ctx, seen) = (ctx.clone(), Arc::clone(&newest));
        std::thread::spawn(move || {
            while let Ok(mut question) = to_work_out.recv() {
                while let Ok(newer) = to_work_out.try_recv() {
                    question = newer;
                }
                let (number, question) = question;
                work(
                    question,
                    &Teller {
                        number,
                        answers: &worked_out,
                        newest: &seen,
                        ctx: &ctx,
                    },
                );
            }
        });
        Self {
            questions,
            answers,
            newest,
            asked: 0,
            answered: 0,
        }
    }

    /// Asks; earlier questions are forgotten.
    pub fn ask(&mut self, question: Q) {
        self.asked += 1;
        self.newest.store(self.asked, Ordering::Relaxed);
        // Without its thread there is no answer, and the window goes on.
        let _ = self.questions.send((self.asked, question));
    }

    /// The next answer to the newest question; waits for its first one as long
    /// as said.
    pub fn answer(&mut self, patience: Duration) -> Option<A> {
        loop {
            let told = if self.is_thinking() && !patience.is_zero() {
                self.answers.recv_timeout(patience).ok()
            } else {
                self.answers.try_recv().ok()
            };
            let (number, answer) = told?;
            if number == self.asked {
                self.answered = number;
                return Some(answer);
            }
        }
    }

    /// Whether the first answer is still to come.
    pub fn is_thinking(&self) -> bool {
        self.answered < self.asked
    }
}

/// Jobs that are all done, side by side, each on a thread of its own: one may
/// wait for a person while another saves.
#[derive(Debug)]
pub struct Jobs<A> {
    ctx: egui::Context,
    sender: Sender<A>,
    done: Receiver<A>,
}

impl<A: Send + 'static> Jobs<A> {
    /// None yet.
    pub fn new(ctx: &egui::Context) -> Self {
        let (sender, done) = channel();
        Self {
            ctx: ctx.clone(),
            sender,
            done,
        }
    }

    /// Starts a job.
    pub fn start(&self, job: impl FnOnce() -> A + Send + 'static) {
        let (sender, ctx) = (self.sender.clone(), self.ctx.clone());
        std::thread::spawn(move || {
            // The window may be gone by now; then nobody needs the answer.
            let _ = sender.send(job());
            ctx.request_repaint();
        });
    }

    /// What came of jobs since the last look.
    pub fn done(&self) -> Vec<A> {
        self.done.try_iter().collect()
    }
}
