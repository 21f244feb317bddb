//! Which way the wrench goes.

use super::{Notches, Press};

/// Which way a wrench goes, seen as one faces the end of the rod.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WrenchWay {
    /// As the hands of a clock.
    Clockwise,
    /// Against them.
    Counterclockwise,
}

impl Press {
    /// Which way the wrench goes for a turn; none for a nut that is left, and none
    /// until somebody looked at the thread: no arrow rests on a guess.
    ///
    /// Out backs the nut off, in runs it in. A nut with a right-hand thread
    /// runs in clockwise, since the thread of a screw that goes away from
    /// whoever turns it clockwise is called right-hand (ISO 5408, "right-hand
    /// thread", from memory); a left-hand one the other way.
    pub fn wrench_way(&self, turn: Notches) -> Option<WrenchWay> {
        self.left_hand_thread
            .and_then(|left| WrenchWay::of(turn, left))
    }
}

impl WrenchWay {
    /// The way for a turn on such a thread; none for a nut that is left.
    pub fn of(turn: Notches, left_hand: bool) -> Option<Self> {
        match (turn.0, left_hand) {
            (0, _) => None,
            (1.., false) | (..0, true) => Some(Self::Counterclockwise),
            (1.., true) | (..0, false) => Some(Self::Clockwise),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    use crate::units::{Length, TypedLength, Unit};

    #[test]
    fn out_backs_the_nut_off_and_in_runs_it_in() {
        use WrenchWay::{Clockwise, Counterclockwise};
        let mut press = Press::new(
            "",
            TypedLength::from_length(Length::from_nm(1), Unit::Millimetre),
            Vec::new(),
        );
        let ways = |press: &Press| [2, -1, 0].map(|turn| press.wrench_way(Notches(turn)));
        assert_eq!(ways(&press), [None; 3], "nobody looked");
        press.left_hand_thread = Some(false);
        assert_eq!(
            ways(&press),
            [Some(Counterclockwise), Some(Clockwise), None]
        );
        press.left_hand_thread = Some(true);
        assert_eq!(
            ways(&press),
            [Some(Clockwise), Some(Counterclockwise), None]
        );
    }
}
