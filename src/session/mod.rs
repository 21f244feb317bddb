//! One visit to one press: its passes, its editable document, the commands
//! that change it, and undo. Knows units, press, splice and plan; no files,
//! no clock, no screen.

mod advice;
mod apply;
mod belief;
mod check;
mod checklist;
mod checklist_edits;
mod coarse_gap;
mod common_turn;
mod date;
mod document;
mod edit;
mod gauge;
mod gauge_edits;
mod jaw_and_rods;
mod judging;
mod known_edits;
mod known_response;
mod pass;
mod past_visit;
mod planning;
mod predicted;
mod press_record;
mod prior_shelf;
mod reach;
mod shop_steps;
mod stages;
#[cfg(test)]
mod tests_visit;
mod trust;
mod unit_slips;
mod visit;
mod visit_path;

pub use advice::{Advice, AdviceWorkspace, LearntFrom};
pub use belief::{LeftOut, ResponseSource, WhyLeftOut};
pub use check::{Counted, SessionProblem};
pub use checklist::{Checklist, ChecklistProblem, Mark, MarkKind, OwnStep, StepId};
pub use coarse_gap::{CoarseGap, GapLevel, NutWould};
pub use common_turn::CommonTurn;
pub use date::{IsoDate, NoDate};
pub use document::Document;
pub use edit::{Edit, EditProblem, Field};
pub use gauge::{Gauge, KnownScatter};
pub use jaw_and_rods::JawAndRods;
pub use judging::{Judged, NotJudged};
pub use known_response::{KnownResponse, KnownResponseProblem};
pub use pass::Pass;
pub use past_visit::{PastMean, PastPass, PastVisit, PastVisitProblem};
pub use planning::{Plan, Planning, PlanningProblem, Wishes};
pub use predicted::PredictedStation;
pub use press_record::{LearnProblem, Lesson, PressRecord};
pub use prior_shelf::PriorShelf;
pub use reach::Reach;
pub use stages::{Rule, Stage, Step};
pub use trust::Whose;
pub use visit::{Session, VisitNotes};
pub use visit_path::{OrderWarning, PathState, StageState};
