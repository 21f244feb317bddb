//! The order in which stations are measured.

use crate::codec::as_text;
use crate::units::listed;

listed! {
    /// The way along the jaw with the gauge.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
    pub enum Walk {
        /// Every round from the first station to the last.
        #[default]
        Straight = "straight",
        /// From the first station to the last and back again, round after round.
        ThereAndBack = "there-and-back",
    }
}

as_text!(Walk, Name, key);

/// One place of a walk.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WalkPlace {
    /// The station.
    pub station: usize,
    /// Its repeat.
    pub repeat: usize,
}

impl Walk {
    /// Every reading of so many rounds, in the order it is taken. There and
    /// back turns round at both ends, so the station at the end is read twice
    /// in a row.
    pub fn places(self, stations: usize, rounds: usize) -> impl Iterator<Item = WalkPlace> {
        (0..rounds).flat_map(move |repeat| {
            let back = self == Self::ThereAndBack && repeat % 2 == 1;
            (0..stations).map(move |place| WalkPlace {
                station: if back { stations - 1 - place } else { place },
                repeat,
            })
        })
    }
}
