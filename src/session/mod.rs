//! One visit to one press: its passes, its editable document, the commands
//! that change it, and undo. Knows units, press, splice and plan; no files,
//! no clock, no screen.

mod apply;
mod check;
mod checklist;
mod checklist_edits;
mod coarse_gap;
mod document;
mod edit;
mod judging;
mod pass;
mod planning;
mod stages;
#[cfg(test)]
mod tests_visit;
mod unit_slips;
mod visit;
mod visit_path;

pub use check::{Counted, SessionProblem};
pub use checklist::{Checklist, ChecklistProblem, Mark, MarkKind, OwnStep, StepId};
pub use coarse_gap::{CoarseGap, GapLevel, NutWould};
pub use document::Document;
pub use edit::{Edit, EditProblem, Field};
pub use judging::{Judged, NotJudged};
pub use pass::Pass;
pub use planning::{Plan, Planning, PlanningProblem, Reach, Wishes};
pub use stages::{Rule, Stage, Step};
pub use visit::{Gauge, Session, VisitNotes};
pub use visit_path::{OrderWarning, PathState, StageState};
