//! One visit to one press: its passes, its editable document, the commands
//! that change it, and undo. Knows units, press, splice and plan; no files,
//! no clock, no screen.

mod apply;
mod check;
mod document;
mod edit;
mod judging;
mod pass;
mod planning;
mod unit_slips;
mod visit;

pub use check::{Counted, SessionProblem};
pub use document::Document;
pub use edit::{Edit, EditProblem, Field};
pub use judging::{Judged, NotJudged};
pub use pass::Pass;
pub use planning::{Plan, Planning, PlanningProblem, Reach, Wishes};
pub use visit::{Gauge, Session, VisitNotes};
