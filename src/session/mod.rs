//! One visit to one press: its passes, its editable document, the commands
//! that change it, and undo. Knows units, press, splice and plan; no files,
//! no clock, no screen.

mod acceptance;
mod advice;
mod apply;
mod belief;
mod cautions;
mod check;
mod common_turn;
mod correction;
mod date;
mod differences;
mod document;
mod edit;
mod foresight;
mod gate;
mod gauge;
mod jaw_and_rods;
mod known_response;
mod lost;
mod next_act;
mod pass;
mod pass_in_file;
mod past_visit;
mod planning;
mod predicted;
mod press_record;
mod prior_shelf;
mod procedure;
mod reach;
mod remarks;
mod rod_load;
#[cfg(test)]
mod tests_visit;
mod trust;
mod turn_doubt;
mod turn_trouble;
mod verdicts;
mod visit;

pub use acceptance::{Acceptance, AcceptedBy, Confidence};
pub use advice::{Advice, AdviceWorkspace, LearntFrom};
pub use belief::{Answers, LeftOut, ResponseSource, WhyLeftOut};
pub use cautions::Caution;
pub use check::{Counted, SessionProblem};
pub use common_turn::{CommonTurn, LOW_TRAVEL};
pub use correction::{By, CorrectedNut, CorrectedReading, Corrections};
pub use date::{IsoDate, NoDate};
pub use differences::Difference;
pub use document::Document;
pub use edit::{Edit, EditProblem, Field};
pub use foresight::Foresight;
pub use gate::{Gate, Stands};
pub use gauge::{Gauge, KnownScatter};
pub use jaw_and_rods::JawAndRods;
pub use known_response::{KnownResponse, KnownResponseProblem};
pub use next_act::{InView, NextAct, NextStep, Says};
pub use pass::Pass;
pub use pass_in_file::{PassInFile, Unsound};
pub use past_visit::{PastMean, PastPass, PastVisit, PastVisitProblem};
pub use planning::{Plan, PlanningProblem, Wishes};
pub use predicted::PredictedStation;
pub use press_record::{LearnProblem, Lesson, PressRecord};
pub use prior_shelf::PriorShelf;
pub use procedure::{
    Checklist, ChecklistProblem, CoarseGap, GapLevel, Hands, Mark, MarkKind, NutWould,
    OrderWarning, OwnStep, PathState, Rule, SafeGroup, Stage, StageState, Step, StepId,
};
pub use reach::Reach;
pub use remarks::Remark;
pub use rod_load::{ASSUMED_STRETCH, JawOnRods, RodLoads, SlackStop};
pub use trust::Whose;
pub use turn_doubt::TurnDoubt;
pub use turn_trouble::TurnTrouble;
pub use verdicts::{Judgement, SettledBy, VerdictWorkspace, Verdicts};
pub use visit::{FORMAT, Session, VisitNotes};
