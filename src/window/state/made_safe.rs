//! Whether the press is made safe: before what it is asked, and what was
//! ticked so far.

use crate::session::{Session, Stage, StepId};

use super::turn_card::Turning;

/// Before what the press is made safe.
#[derive(Debug, Clone, PartialEq)]
pub enum Before {
    /// Before nuts are turned.
    Turning(Turning),
    /// Before hands go in at a stage.
    Hands(Stage),
}

/// What was ticked so far.
#[derive(Debug, Clone, PartialEq)]
pub struct MadeSafeForm {
    /// Before what it is asked.
    pub before: Before,
    /// The steps, whether each is ticked, and whether it was so before.
    pub steps: Vec<(StepId, bool, bool)>,
    pub reason: String,
}

impl MadeSafeForm {
    /// A form on the steps as they stand.
    pub fn new(session: &Session, before: Before) -> Self {
        let list = &session.checklist;
        Self {
            before,
            steps: list
                .steps(Stage::MakeSafe)
                .into_iter()
                .map(|step| (step, list.mark(step).is_some()))
                .map(|(step, marked)| (step, marked, marked))
                .collect(),
            reason: String::new(),
        }
    }

    pub fn all_ticked(&self) -> bool {
        self.steps.iter().all(|(_, ticked, _)| *ticked)
    }

    /// The steps that are ticked and were not marked before.
    pub fn newly(&self) -> Vec<StepId> {
        self.steps
            .iter()
            .filter(|(_, ticked, before)| *ticked && !before)
            .map(|(step, ..)| *step)
            .collect()
    }

    /// The steps that are not ticked, or no longer.
    pub fn open(&self) -> Vec<StepId> {
        self.steps
            .iter()
            .filter(|(_, ticked, _)| !ticked)
            .map(|(step, ..)| *step)
            .collect()
    }
}
