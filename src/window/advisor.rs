//! Works out advice on a thread of its own, so that the window never waits
//! longer than a frame for it.

use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::time::Duration;

use eframe::egui;

use crate::plan::{Finding, Forecaster, PredictiveScratch};
use crate::session::{
    Advice, AdviceWorkspace, PlanningProblem, PriorShelf, Session, Verdicts, Wishes,
};

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

/// What the thread tells about a question: first its answer, then the verdicts
/// on the pass.
enum Told {
    Answer(u64, Answer),
    Verdicts(u64, Option<Box<Verdicts>>),
}

struct Question {
    number: u64,
    session: Arc<Session>,
    pass: usize,
}

/// Asks for advice and takes the answers.
#[derive(Debug)]
pub struct Advisor {
    questions: Sender<Question>,
    answers: Receiver<Told>,
    asked: u64,
    answered: u64,
    /// The last question asked, for the thread to see that it is behind.
    newest: Arc<AtomicU64>,
    verdicts: Option<Option<Box<Verdicts>>>,
}

impl Advisor {
    /// Starts the thread; it ends when this is dropped.
    pub fn new(ctx: &egui::Context, shelf: Arc<PriorShelf>) -> Self {
        let (questions, to_work_out) = channel();
        let (worked_out, answers) = channel();
        let ctx = ctx.clone();
        let newest = Arc::new(AtomicU64::new(0));
        let seen = Arc::clone(&newest);
        std::thread::spawn(move || work(&to_work_out, &worked_out, &seen, &ctx, &shelf));
        Self {
            questions,
            answers,
            asked: 0,
            answered: 0,
            newest,
            verdicts: None,
        }
    }

    /// Asks for advice on a pass; earlier questions are forgotten.
    pub fn ask(&mut self, session: Arc<Session>, pass: usize) {
        self.asked += 1;
        self.newest.store(self.asked, Ordering::Relaxed);
        self.verdicts = None;
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
                Ok(Told::Verdicts(number, verdicts)) => self.receive_verdicts(number, verdicts),
                Ok(Told::Answer(number, answer)) => {
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

    /// The verdicts on the pass last asked about, once; they come some time
    /// after the answer. Never waits.
    pub fn verdicts(&mut self) -> Option<Option<Box<Verdicts>>> {
        while self.answered == self.asked {
            match self.answers.try_recv() {
                Ok(Told::Verdicts(number, verdicts)) => self.receive_verdicts(number, verdicts),
                // Every question has one answer, which was taken already.
                Ok(Told::Answer(..)) => {}
                Err(_) => break,
            }
        }
        self.verdicts.take()
    }

    fn receive_verdicts(&mut self, number: u64, verdicts: Option<Box<Verdicts>>) {
        if number == self.asked {
            self.verdicts = Some(verdicts);
        }
    }

    /// Whether an answer is still to come.
    pub fn is_thinking(&self) -> bool {
        self.answered < self.asked
    }
}

fn work(
    questions: &Receiver<Question>,
    answers: &Sender<Told>,
    newest: &AtomicU64,
    ctx: &egui::Context,
    shelf: &PriorShelf,
) {
    let mut workspace = AdviceWorkspace::default();
    let mut scratch = PredictiveScratch::default();
    while let Ok(mut question) = questions.recv() {
        // Only the newest state matters.
        while let Ok(newer) = questions.try_recv() {
            question = newer;
        }
        let Question {
            number,
            session,
            pass,
        } = question;
        let answer = session
            .advise(pass, Wishes::default(), shelf, &mut workspace)
            .map(|advice| {
                Box::new(Advised {
                    forecaster: advice.forecaster().ok(),
                    findings: advice.findings().unwrap_or_default(),
                    advice,
                })
            });
        let advice = answer.as_ref().ok().map(|advised| advised.advice.clone());
        if answers.send(Told::Answer(number, answer)).is_err() {
            return;
        }
        ctx.request_repaint();
        let go_on = || newest.load(Ordering::Relaxed) == number;
        let verdicts = advice
            .and_then(|advice| advice.verdicts(&session, &mut scratch, &go_on).ok())
            .map(Box::new);
        if go_on() {
            if answers.send(Told::Verdicts(number, verdicts)).is_err() {
                return;
            }
            ctx.request_repaint();
        }
    }
}
