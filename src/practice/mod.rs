//! Practice: a press one may ruin. The simulated press, exercises on it with a
//! debrief, and lessons. Knows everything up to the session; no clock, no
//! files, no screen.

mod acts;
mod by_advice;
mod debrief;
mod exercise;
mod fault;
mod gauge_lesson;
mod hidden;
mod lesson;
mod notch_lesson;
mod outcome;
mod reading;
mod remarks;
mod shown_press;
mod simulated;
mod start;
mod ways;
mod work;

pub use acts::{Act, Came, Ending, Refusal};
pub use debrief::DebriefDesk;
pub use exercise::{Exercise, ExerciseProblem, PRACTICE_ARMS};
pub use fault::{Cure, Fault, Help, Level, NutStart};
pub use gauge_lesson::GaugeStep;
pub use hidden::{Chains, Hidden, Luck};
pub use lesson::{Lesson, LessonStep, LessonTopic, Says, TURNED, TightStep};
pub use notch_lesson::NotchStep;
pub use outcome::{Choice, Debrief, Decision, Did, Finish, Remark};
pub use shown_press::{
    ASSUMED_MARGIN, Carries, DRAGS_BELOW, FARTHEST, PressState, Retainer, ShownPress,
};
pub use simulated::{Scatter, SimulatedPress, spread_nm};
pub use ways::{CureKnown, MOST_PIECES_PLAYED, SCATTERS, Way, arm_by_arm, best_turns, true_bounds};
pub use work::{
    MOST_PIECES, MOST_READINGS, Piece, Practice, READINGS_IN_A_PIECE, STUCK_MINUTES, Taken, laced,
};
