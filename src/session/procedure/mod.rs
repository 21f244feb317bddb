//! The visit's procedure: its stages, their steps and what has been ticked.

pub(crate) mod checklist;
pub(crate) mod checklist_edits;
pub(crate) mod coarse_gap;
pub(crate) mod made_safe;
pub(crate) mod shop_steps;
pub(crate) mod stages;
pub(crate) mod visit_path;

pub use checklist::{Checklist, ChecklistProblem, Mark, MarkKind, OwnStep, StepId};
pub use coarse_gap::{CoarseGap, GapLevel, NutWould};
pub use stages::{Hands, Rule, SafeGroup, Stage, Step};
pub use visit_path::{OrderWarning, PathState, StageState};
