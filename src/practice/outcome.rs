//! What a debrief holds: decisions, how it came out, advice.

use crate::press::{ArmIndex, NutPosition};
use crate::session::Stands;

use super::acts::Ending;
use super::fault::{Cure, Fault};
use super::ways::{CureKnown, Way};

/// What was decided on a piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Did {
    /// Turned nuts, or none, and laced again.
    Laced {
        /// Turns, one per arm.
        turns: Vec<i32>,
        /// What was seen to before.
        saw_to: Vec<Cure>,
        /// Whether the belt end was laid the other way round.
        flipped: bool,
    },
    /// Ended the exercise.
    Ended(Ending),
}

/// Turns with what could be known of them then.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    /// Whole notches, one per arm; none turned means laced again.
    pub turns: Vec<i32>,
    /// Chance that the next piece is inside.
    pub chance: f64,
    /// Expected minutes until a piece passes.
    pub minutes: f64,
}

/// One decision.
#[derive(Debug, Clone, PartialEq)]
pub struct Decision {
    /// The piece it was made on.
    pub piece: usize,
    /// How that piece stood by its readings.
    pub stands: Stands,
    /// What was done.
    pub did: Did,
    /// That with what could be known then; none where nothing could: stations
    /// not read, or the exercise ended.
    pub chosen: Option<Choice>,
    /// The best choice then, likewise.
    pub best: Option<Choice>,
    /// In which share of the scatters the next piece comes out inside after
    /// what was done, on the press as it really is.
    pub came_inside: Option<f64>,
    /// The same after the best choice then.
    pub best_inside: Option<f64>,
    /// Own guess, made before advice was seen.
    pub guess: Option<Vec<i32>>,
    /// Whether advice was seen.
    pub advised: bool,
}

/// How it came out in the end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Finish {
    /// Accepted, and the jaws are true.
    JawTrue,
    /// A piece inside was accepted, but the jaws are not true: luck, or the
    /// belt.
    InsideByLuck,
    /// A piece was accepted that is not inside by its readings.
    AcceptedOutside,
    /// Sent away, and nothing here could have cured it.
    RightlySentAway,
    /// Sent away, though it could have been cured.
    WronglySentAway,
    /// Hands went in before it was made safe.
    Unsafe,
    /// Given up, or not ended.
    GivenUp,
}

/// All of it.
#[derive(Debug, Clone)]
pub struct Debrief {
    /// What was wrong, and at which arm.
    pub faults: Vec<(Fault, Option<ArmIndex>)>,
    /// Mean thickness that the jaws gave as found.
    pub found_nm: Vec<f64>,
    /// Mean thickness that the jaws give as left.
    pub left_nm: Vec<f64>,
    /// Station means of the last piece as read; none where not read.
    pub read_nm: Vec<Option<f64>>,
    /// The decisions.
    pub decisions: Vec<Decision>,
    /// Whether the nuts alone could bring the jaws inside as found.
    pub nuts_suffice: bool,
    /// How it came out.
    pub result: Finish,
    /// Pieces laced.
    pub pieces: usize,
    /// Minutes on the clock.
    pub minutes: f64,
    /// Belt ends and hooks used up.
    pub used: (usize, usize),
    /// What would have cured it.
    pub cure: CureKnown,
    /// The same choices over all scatters.
    pub again: Way,
    /// The press known.
    pub best: Way,
    /// The program's advice on the nuts.
    pub advised: Way,
    /// Arm by arm.
    pub arm_by_arm: Way,
    /// Advice from what happened, the weightiest first.
    pub remarks: Vec<Remark>,
}

impl Debrief {
    /// Whether anything was turned or seen to, so that choices can be compared.
    pub fn has_choices(&self) -> bool {
        self.decisions.iter().any(|made| match &made.did {
            Did::Laced { turns, saw_to, .. } => {
                turns.iter().any(|turn| *turn != 0) || !saw_to.is_empty()
            }
            Did::Ended(_) => false,
        })
    }
}

impl Decision {
    /// Minutes that the choice was expected to take more than the best one then;
    /// none where something was tried that the reckoning does not know: another
    /// way round, or something seen to.
    pub fn minutes_lost(&self) -> f64 {
        if let Did::Laced {
            saw_to, flipped, ..
        } = &self.did
            && (*flipped || !saw_to.is_empty())
        {
            return 0.0;
        }
        match (&self.chosen, &self.best) {
            (Some(chosen), Some(best)) => (chosen.minutes - best.minutes).max(0.0),
            _ => 0.0,
        }
    }

    /// The turns made, one per arm; none where the exercise ended.
    pub fn turns(&self) -> &[i32] {
        match &self.did {
            Did::Laced { turns, .. } => turns,
            Did::Ended(_) => &[],
        }
    }
}

/// One piece of advice, with what it rests on. Pieces count from 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Remark {
    /// Hands went in before the press was made safe.
    Unsafe,
    /// The retainer stuck at this arm: too far in for its opening.
    RetainerStuck {
        /// The first piece it happened at.
        piece: usize,
        /// The arm.
        arm: ArmIndex,
    },
    /// A nut was turned past where it may stand.
    PastLimit {
        /// The first piece laced with it so.
        piece: usize,
        /// The arm.
        arm: ArmIndex,
        /// Where its nut stood.
        stands: NutPosition,
    },
    /// A piece outside, or not read everywhere, was accepted.
    AcceptedOutside,
    /// Sent away what could have been cured.
    SentAwayTooSoon,
    /// The gauge was not zeroed, for so many of the pieces.
    ZeroSkipped {
        /// Pieces.
        pieces: usize,
    },
    /// Readings were taken beside the marks.
    BesideMarks {
        /// Readings.
        readings: usize,
    },
    /// Stations read fewer than twice on a piece that was decided on.
    ReadOnce {
        /// Pieces.
        pieces: usize,
    },
    /// What was wrong was not the nuts, and it was not seen to.
    NotSeenTo(Fault, Cure),
    /// Every arm was brought up to the thickest, where other turns had the
    /// better chance: the piece and the minutes that was expected to cost.
    ArmByArm {
        /// The piece.
        piece: usize,
        /// Minutes.
        minutes: f64,
    },
    /// Nuts were turned where leaving them was as good.
    TurnedForNothing {
        /// The piece.
        piece: usize,
        /// Minutes.
        minutes: f64,
    },
    /// Nothing was turned where turning would have helped.
    LeftForNothing {
        /// The piece.
        piece: usize,
        /// Minutes.
        minutes: f64,
    },
    /// Turns that other turns beat.
    OtherTurns {
        /// The piece.
        piece: usize,
        /// Minutes.
        minutes: f64,
    },
    /// Worked on after a piece that passed.
    PassedAlready {
        /// The piece.
        piece: usize,
    },
}
