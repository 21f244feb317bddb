//! Works out advice on a thread of its own, so that the window never waits
//! longer than a frame for it.

use std::sync::Arc;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::time::Duration;

use eframe::egui;

use crate::plan::{Finding, Forecaster};
use crate::session::{Advice, AdviceWorkspace, PlanningProblem, PriorShelf, Session, Wishes};

/// How long the window waits for advice before it draws without: most of a
/// frame at 60 frames a second. Up to six arms it is ready by then.
const WITHIN_THE_FRAME: Duration = Duration::from_millis(12);

/// Advice on one pass of one state of the document.
#[derive(Debug)]
pub struct Advised {
    /// The advice.
    pub advice: Advice,
    /// Foretells the next piece for any turns.
    pub forecaster: Option<Forecaster>,
    /// What should be asked about rather than averaged in.
    pub findings: Vec<Finding>,
}

/// What came of a question.
pub type Answer = Result<Box<Advised>, PlanningProblem>;

struct Question {
    number: u64,
    session: Arc<Session>,
    pass: usize,
}

/// Asks for advice and takes the answers.
#[derive(Debug)]
pub struct Advisor {
    questions: Sender<Question>,
    answers: Receiver<(u64, Answer)>,
    asked: u64,
    answered: u64,
}

impl Advisor {
    /// Starts the thread; it ends when this is dropped.
    pub fn new(ctx: &egui::Context, shelf: Arc<PriorShelf>) -> Self {
        let (questions, to_work_out) = channel();
        let (worked_out, answers) = channel();
        let ctx = ctx.clone();
        std::thread::spawn(move || work(&to_work_out, &worked_out, &ctx, &shelf));
        Self {
            questions,
            answers,
            asked: 0,
            answered: 0,
        }
    }

    /// Asks for advice on a pass; earlier questions are forgotten.
    pub fn ask(&mut self, session: Arc<Session>, pass: usize) {
        self.asked += 1;
        // Without its thread there is no advice, and the picture goes on.
        let _ = self.questions.send(Question {
            number: self.asked,
            session,
            pass,
        });
    }

    /// The answer to the last question, once: waits for it within the frame
    /// where it was just asked.
    pub fn answer(&mut self) -> Option<Answer> {
        let mut patience = WITHIN_THE_FRAME;
        while self.answered < self.asked {
            match self.answers.recv_timeout(patience) {
                Ok((number, answer)) => {
                    self.answered = number;
                    if number == self.asked {
                        return Some(answer);
                    }
                    patience = Duration::ZERO;
                }
                Err(RecvTimeoutError::Timeout | RecvTimeoutError::Disconnected) => return None,
            }
        }
        None
    }

    /// Whether an answer is still to come.
    pub fn is_thinking(&self) -> bool {
        self.answered < self.asked
    }
}

fn work(
    questions: &Receiver<Question>,
    answers: &Sender<(u64, Answer)>,
    ctx: &egui::Context,
    shelf: &PriorShelf,
) {
    let mut workspace = AdviceWorkspace::default();
    while let Ok(mut question) = questions.recv() {
        // Only the newest state matters.
        while let Ok(newer) = questions.try_recv() {
            question = newer;
        }
        let answer = question
            .session
            .advise(question.pass, Wishes::default(), shelf, &mut workspace)
            .map(|advice| {
                Box::new(Advised {
                    forecaster: advice.forecaster().ok(),
                    findings: advice.findings().unwrap_or_default(),
                    advice,
                })
            });
        if answers.send((question.number, answer)).is_err() {
            return;
        }
        ctx.request_repaint();
    }
}
