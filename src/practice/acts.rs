//! What a trainee does in an exercise, and what comes of it.

use crate::units::Length;

use super::fault::Cure;

/// What a trainee does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Act {
    /// Makes the press safe.
    MakeSafe,
    /// Laces a test piece; `flipped` when the belt end lies the other way round
    /// than in the first one.
    Lace {
        /// Which way the belt end lies.
        flipped: bool,
    },
    /// Sets the gauge to zero.
    ZeroGauge,
    /// Takes one reading.
    Read {
        /// Station index.
        station: usize,
        /// Whether on the mark, knuckle and long leg together.
        on_mark: bool,
    },
    /// Says which turns one would make, one per arm.
    Guess(Vec<i32>),
    /// Looks at the advice.
    SeeAdvice,
    /// Turns nuts, one number per arm.
    Turn(Vec<i32>),
    /// Sees to something else.
    SeeTo(Cure),
    /// Accepts the piece: the press goes to work.
    Accept,
    /// Gives the exercise up.
    GiveUp,
}

/// What came of an act.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Came {
    /// It is done.
    Done,
    /// The gauge shows this.
    Shown(Length),
    /// The piece is laced, but the retainer stuck.
    Stuck,
    /// That ended the exercise.
    Ended(Ending),
}

/// How an exercise ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Ending {
    /// The press went to work.
    Accepted,
    /// The jaw was sent away as not to be cured by nuts.
    SentAway,
    /// Hands went in before the press was made safe.
    Unsafe,
    /// It was given up.
    GivenUp,
}

/// Why an act cannot be done. Nothing has happened.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refusal {
    /// The exercise is over.
    Over(Ending),
    /// There is no piece yet.
    NoPiece,
    /// No such station.
    NoStation(usize),
    /// Turns for another number of arms: arms and turns.
    PerArm(usize, usize),
    /// One nut turned farther than any is in one go: notches.
    TooFar(i32),
    /// The exercise has as many pieces or readings as it can hold.
    TooMany(usize),
    /// Advice may not be seen in this exercise.
    NoHelp,
    /// Advice may be seen after an own guess.
    GuessFirst,
}
