//! The sample sessions, all invented, that come inside the program.

use crate::session::Session;

use super::open::{OpenProblem, session_from_text};

/// An invented session that opens out of the box.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum SampleSession {
    /// Four arms, pinched at one of them.
    #[default]
    Pinched,
    /// Four arms, thicker from one end to the other, brought true in two
    /// re-laces.
    Taper,
    /// Three arms, the middle nut run in too far, opening margins measured.
    NutTooFarIn,
    /// Six arms, thin in the middle of the jaw.
    Bow,
    /// Five arms where no whole notches reach the tolerance.
    BetweenNotches,
    /// Inside the tolerance as found.
    Inside,
    /// In millimetres.
    Metric,
}

impl SampleSession {
    /// All of them, the one that opens by default first.
    pub const ALL: [Self; 7] = [
        Self::Pinched,
        Self::Taper,
        Self::NutTooFarIn,
        Self::Bow,
        Self::BetweenNotches,
        Self::Inside,
        Self::Metric,
    ];

    /// The text of its file.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Pinched => include_str!("../../sample-sessions/pinched-arm.jawtrue"),
            Self::Taper => include_str!("../../sample-sessions/taper.jawtrue"),
            Self::NutTooFarIn => include_str!("../../sample-sessions/nut-too-far-in.jawtrue"),
            Self::Bow => include_str!("../../sample-sessions/bow.jawtrue"),
            Self::BetweenNotches => include_str!("../../sample-sessions/between-notches.jawtrue"),
            Self::Inside => include_str!("../../sample-sessions/inside.jawtrue"),
            Self::Metric => include_str!("../../sample-sessions/metric.jawtrue"),
        }
    }

    /// The session.
    ///
    /// # Errors
    /// Never for a program that was built whole: a test opens them all.
    pub fn session(self) -> Result<Session, OpenProblem> {
        session_from_text(self.text())
    }
}
