//! What the passes teach and which turns to make.

mod ahead;
mod candidates;
mod chance;
mod choice;
mod effort;
mod error;
mod forecaster;
mod history;
mod later;
mod layout;
mod learn;
mod missed;
mod mixture;
mod noise;
mod options;
mod outlook;
mod passes;
mod piece;
mod prior;
mod ranking;
mod remainder;
mod scales;
mod search;
mod settle;
mod shapes;
mod suspicion;
mod task;
#[cfg(test)]
mod tests_plan;
mod turns;

pub use chance::press_chances;
pub use choice::{BestAct, Choice, ChoiceWorkspace, POOR, PlanOption, VERY_POOR, choose};
pub use effort::{Chore, Effort, Minutes};
pub use error::{PlanError, Quantity};
pub use forecaster::Forecaster;
pub use history::{FoundAndLeft, PastPiece};
pub use layout::Layout;
pub use learn::{ChangeCheck, Model, Posterior, PosteriorProfile};
pub use missed::{CONTRADICTION, Missed};
pub use noise::{
    DRIFT_NM, MOST_LENGTH_NM, MOST_NOTCHES, MOST_REPEATS, MOST_SCATTER_NM, MOST_STATIONS, Noise,
};
pub use options::{OptionKind, WORTHWHILE};
pub use outlook::{Forecast, PredictiveScratch};
pub use passes::{StationReading, TestPass};
pub use piece::Piece;
pub use prior::{EFFECT_LOG, NUT_SCATTER, ResponsePrior};
pub use remainder::{Leavings, Remainder, remainder};
pub use search::{
    EQUAL_SPREAD_NM, FARTHEST_TURN, FractionalTurns, LARGEST_NM, MOST_NODES, SearchError,
    SearchProblem, SearchResult, SearchWorkspace, TurnBounds, fractional_turns, smallest_spread,
    spread_after,
};
pub use settle::{FurtherReadings, Settled, settled_by_lacings};
pub use shapes::{KAPPA_BOUNDS, MOST_RHO, PriorDraws, ROD_SCATTER, Stiffness};
pub use suspicion::{ASK_FROM, Finding, MISS, findings};
pub use task::Task;
pub use turns::MOST_ARMS;
