//! The stage of the visit on show, and what is typed there.

use std::collections::{BTreeMap, BTreeSet};

use crate::press::{ArmIndex, NutPosition};
use crate::session::{Session, Stage, StepId};

/// The passing state of the visit's views.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct VisitView {
    /// The stage on show; none until the window has chosen one.
    pub stage: Option<Stage>,
    /// Whether the steps are shown where the picture has its place.
    pub steps: bool,
    /// The step whose note is open, and what is typed there.
    pub note: Option<(StepId, String)>,
    /// The stage whose chip was last scrolled into sight.
    pub seen: Option<Stage>,
    /// Whether it was answered here that the press is made safe, before hands
    /// go in at this stage.
    pub made_safe: bool,
    /// Whether that was answered at all since power was on: until then nothing
    /// calls the press made safe.
    pub answered: bool,
    /// Set when the first step is to have the keyboard.
    pub wants_focus: bool,
    /// Set when the open note is to have it.
    pub note_wants_focus: bool,
    /// The hand of the thread that was chosen and is asked about: the left or not.
    pub thread: Option<bool>,
    /// Where a nut that was lost is said to stand.
    pub found: Option<(ArmIndex, NutPosition)>,
    /// Fields being typed in, by name.
    pub drafts: BTreeMap<String, String>,
    /// Which of them hold something that was refused.
    pub refused: BTreeSet<String>,
}

impl VisitView {
    /// Where this nut, which was lost, is said to stand.
    pub fn found_at(&self, arm: ArmIndex) -> Option<NutPosition> {
        let found = self.found.filter(|(found, _)| *found == arm);
        found.map(|(_, at)| at)
    }

    /// Shows a stage.
    pub fn go_to(&mut self, stage: Stage) {
        if self.stage != Some(stage) {
            *self = Self {
                stage: Some(stage),
                seen: self.seen,
                answered: self.answered,
                wants_focus: true,
                ..Self::default()
            };
        }
    }

    /// Changes between the picture and the steps of a stage.
    pub fn switch(&mut self) {
        match self.stage {
            Some(Stage::Measure | Stage::Turn) | None => {
                self.steps = !self.steps;
                self.wants_focus = self.steps;
            }
            Some(_) => self.go_to(Stage::Measure),
        }
    }

    /// Shows the picture, of the stage on show where that has one.
    pub fn show_picture(&mut self) {
        if !matches!(self.stage, Some(Stage::Measure | Stage::Turn) | None) {
            self.go_to(Stage::Measure);
        }
        self.steps = false;
        self.wants_focus = false;
    }

    /// Shows the stage before or after the one on show.
    pub fn step_by(&mut self, by: isize) {
        let here = self.stage.unwrap_or(Stage::Measure);
        let index = Stage::ALL.iter().position(|stage| *stage == here);
        let next = index.and_then(|index| index.checked_add_signed(by));
        if let Some(stage) = next.and_then(|next| Stage::ALL.get(next)) {
            self.go_to(*stage);
        }
    }

    /// The stage whose steps stand in front; none while the picture does.
    pub fn in_front(&mut self, session: &Session) -> Option<Stage> {
        if self.stage.is_none() {
            self.go_to(opening(session));
        }
        self.steps_on_show()
    }

    /// The same of a stage that is on show already.
    pub fn steps_on_show(&self) -> Option<Stage> {
        let stage = self.stage?;
        let has_picture = matches!(stage, Stage::Measure | Stage::Turn);
        (self.steps || !has_picture).then_some(stage)
    }
}

/// The stage the window opens on: the main job where there is anything to
/// measure, the stage at hand before that.
fn opening(session: &Session) -> Stage {
    if session.passes.is_empty() {
        session.current_stage().unwrap_or(Stage::Measure)
    } else {
        Stage::Measure
    }
}
