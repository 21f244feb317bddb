//! Practice: a press one may ruin. The simulated press, exercises on it with a
//! debrief, and lessons. Knows everything up to the session; no clock, no
//! files, no screen.

mod debrief;
mod exercise;
mod fault;
mod hidden;
mod remarks;
mod simulated;
mod ways;
mod work;

pub use debrief::{Choice, Debrief, DebriefDesk, Decision, Did, Finish};
pub use exercise::{Exercise, ExerciseProblem, PRACTICE_ARMS};
pub use fault::{Cure, Fault, Help, Level};
pub use hidden::{Chains, Hidden, Luck};
pub use remarks::Remark;
pub use simulated::{Scatter, SimulatedPress, spread_nm};
pub use ways::{SCATTERS, Way, arm_by_arm, best_turns, true_bounds};
pub use work::{
    Act, Came, Ending, MOST_PIECES, MOST_READINGS, Piece, Practice, READINGS_IN_A_PIECE, Refusal,
    STUCK_MINUTES, Taken,
};
