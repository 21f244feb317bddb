//! Works out advice and verdicts on a thread of its own, so that the window
//! never waits longer than a frame for them.

use std::sync::Arc;
use std::time::Duration;

use eframe::egui;

use crate::plan::{Finding, Forecaster, PredictiveScratch};
use crate::session::{
    Advice, AdviceWorkspace, PlanningProblem, PriorShelf, Session, Verdicts, Wishes,
};

use super::worker::Worker;

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

/// What is told about a question: first its answer, then the verdicts on the
/// pass.
pub enum Told {
    /// The advice.
    Answer(Answer),
    /// How sure the verdicts are, where they can be worked out.
    Verdicts(Option<Box<Verdicts>>),
}

/// Asks for advice on a pass of a session and takes what is told.
pub struct Advisor(Worker<(Arc<Session>, usize), Told>);

impl Advisor {
    /// Starts the thread; it ends when this is dropped.
    pub fn new(ctx: &egui::Context, shelf: Arc<PriorShelf>) -> Self {
        let mut workspace = AdviceWorkspace::default();
        let mut scratch = PredictiveScratch::default();
        Self(Worker::start(ctx, move |(session, pass), teller| {
            let session: Arc<Session> = session;
            let answer = session.advise(pass, Wishes::default(), &shelf, &mut workspace);
            let advice = answer.as_ref().ok().cloned();
            teller.tell(Told::Answer(answer.map(|advice| {
                Box::new(Advised {
                    forecaster: advice.forecaster().ok(),
                    findings: advice.findings().unwrap_or_default(),
                    advice,
                })
            })));
            let go_on = || teller.go_on();
            let verdicts = advice
                .and_then(|advice| advice.verdicts(&session, &mut scratch, &go_on).ok())
                .map(Box::new);
            if teller.go_on() {
                teller.tell(Told::Verdicts(verdicts));
            }
        }))
    }

    /// Asks for advice on a pass; earlier questions are forgotten.
    pub fn ask(&mut self, session: Arc<Session>, pass: usize) {
        self.0.ask((session, pass));
    }

    /// What is told next: waits for the advice within the frame in which it was
    /// asked for, never for the verdicts.
    pub fn told(&mut self) -> Option<Told> {
        self.0.answer(WITHIN_THE_FRAME)
    }

    /// Whether advice is still to come.
    pub fn is_thinking(&self) -> bool {
        self.0.is_thinking()
    }
}
