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
    /// Which way the wrench goes for a turn; none for a nut that is left.
    ///
    /// Out backs the nut off, in runs it in. A nut with a right-hand thread
    /// runs in clockwise, since the thread of a screw that goes away from
    /// whoever turns it clockwise is called right-hand (ISO 5408, "right-hand
    /// thread", from memory); a left-hand one the other way.
    pub fn wrench_way(&self, turn: Notches) -> Option<WrenchWay> {
        match (turn.0, self.left_hand_thread) {
            (0, _) => None,
            (1.., false) | (..0, true) => Some(WrenchWay::Counterclockwise),
            (1.., true) | (..0, false) => Some(WrenchWay::Clockwise),
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
        assert_eq!(
            ways(&press),
            [Some(Counterclockwise), Some(Clockwise), None]
        );
        press.left_hand_thread = true;
        assert_eq!(
            ways(&press),
            [Some(Clockwise), Some(Counterclockwise), None]
        );
    }
}
