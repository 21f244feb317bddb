//! What would go wrong if nuts were turned past what the press allows.

use crate::press::{ArmIndex, Notches, NutPosition};
use crate::units::Length;

use super::Session;

/// What would go wrong at one arm.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TurnTrouble {
    /// The nut would stand past its limit, where no pin passes or too little
    /// thread holds, or past what a nut position may be.
    PastLimit {
        /// The arm.
        arm: ArmIndex,
        /// Where the nut would stand.
        stands: NutPosition,
        /// The last position it may take that way.
        limit: NutPosition,
    },
    /// The jaw would not open far enough for the hook retainer.
    OpeningShort {
        /// The arm.
        arm: ArmIndex,
        /// By how much, above zero.
        short: Length,
    },
}

impl TurnTrouble {
    /// The arm at which it is.
    pub fn arm(&self) -> ArmIndex {
        match *self {
            Self::PastLimit { arm, .. } | Self::OpeningShort { arm, .. } => arm,
        }
    }
}

impl Session {
    /// What would be left of the opening margin at each arm after turns from a
    /// pass (missing ones count as zero); negative where the jaw would open too
    /// little, `None` where no margin was measured.
    ///
    /// When the margin was measured is not recorded, so movement is counted from
    /// where the nuts started.
    pub fn margins_left(&self, pass: usize, turns: &[Notches]) -> Vec<Option<Length>> {
        let turns = turns.iter().copied().chain(std::iter::repeat(Notches(0)));
        let nuts = self.nuts_at(pass).iter().zip(turns);
        self.press
            .arms
            .iter()
            .zip(nuts)
            .zip(&self.start_nuts)
            .map(|((arm, (nut, turn)), start)| self.press.margin_left(arm, *start, *nut + turn))
            .collect()
    }

    /// What would go wrong after turns from a pass, by arm. A nut that is left,
    /// or brought nearer to where it may stand, is no trouble of these turns.
    pub fn turn_troubles(&self, pass: usize, turns: &[Notches]) -> Vec<TurnTrouble> {
        let margins = self.margins_left(pass, turns);
        let arms = self.press.indexed_arms().zip(self.nuts_at(pass));
        let mut troubles = Vec::new();
        for (((index, arm), nut), (turn, margin)) in arms.zip(turns.iter().zip(&margins)) {
            let stands = *nut + *turn;
            let may_stand = arm.may_stand();
            let past = match turn.0 {
                out if out > 0 && stands > may_stand.most_out => Some(may_stand.most_out),
                inward if inward < 0 && stands < may_stand.most_in => Some(may_stand.most_in),
                _ => None,
            };
            if let Some(limit) = past {
                troubles.push(TurnTrouble::PastLimit {
                    arm: index,
                    stands,
                    limit,
                });
            }
            if let Some(short) = margin.filter(|left| *left < Length::ZERO && turn.0 < 0) {
                troubles.push(TurnTrouble::OpeningShort {
                    arm: index,
                    short: Length::ZERO.minus(short),
                });
            }
        }
        troubles
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests_visit::*;
    use super::*;
    use crate::press::NutLimits;
    use crate::session::{Edit, Field};
    use crate::units::Unit;

    fn limited() -> Session {
        let mut session = press_of_four();
        let limits = NutLimits {
            most_in: NutPosition(-3),
            most_out: NutPosition(2),
        };
        let arm = Some(ArmIndex(2));
        let limits = Some(limits);
        apply(&mut session, Edit::SetLimits { arm, limits });
        let margin = Edit::set(Field::OpeningMargin(ArmIndex(1)), "0.010", Unit::Inch);
        apply(&mut session, margin);
        session
    }

    fn turns(turns: [i32; 4]) -> Vec<Notches> {
        turns.map(Notches).into()
    }

    #[test]
    fn past_a_limit_is_trouble_either_way() {
        let session = limited();
        let at = |turn| session.turn_troubles(usize::MAX, &turns([9, 0, turn, 0]));
        let past = |stands, limit| TurnTrouble::PastLimit {
            arm: ArmIndex(2),
            stands: NutPosition(stands),
            limit: NutPosition(limit),
        };
        assert_eq!(at(2), []);
        assert_eq!(at(3), [past(3, 2)]);
        assert_eq!(at(-3), []);
        assert_eq!(at(-4), [past(-4, -3)]);
    }

    #[test]
    fn past_what_a_position_may_be_is_trouble_too() {
        let session = press_of_four();
        let at = |turn| session.turn_troubles(usize::MAX, &turns([turn, 0, 0, 0]));
        assert_eq!((at(200).len(), at(-200).len()), (0, 0));
        assert_eq!((at(201).len(), at(-201).len()), (1, 1));
    }

    #[test]
    fn a_nut_outside_may_come_nearer() {
        let mut session = limited();
        lace(&mut session, &[0, 0, 9]);
        let at = |turn| session.turn_troubles(0, &turns([0, 0, turn, 0])).len();
        assert_eq!([at(-3), at(0), at(1)], [0, 0, 1]);
    }

    #[test]
    fn the_opening_loses_the_whole_movement() {
        let mut session = limited();
        let inch = |thousandths: i64| Length::from_nm(thousandths * 25_400);
        let left =
            |session: &Session, turn| session.margins_left(0, &turns([0, turn, 0, 0]))[1].unwrap();
        assert_eq!(session.margins_left(0, &[])[0], None);
        assert_eq!(left(&session, -2), inch(2));
        assert_eq!(left(&session, 2), inch(10));
        let short = TurnTrouble::OpeningShort {
            arm: ArmIndex(1),
            short: inch(2),
        };
        let troubles = session.turn_troubles(0, &turns([0, -3, 0, 0]));
        assert_eq!(troubles, [short]);
        // What was turned before counts too.
        lace(&mut session, &[0, -2]);
        assert_eq!(left(&session, -1), inch(-2));
        assert_eq!(session.turn_troubles(0, &turns([0, -1, 0, 0])), [short]);
        // And agrees with what the plan may turn.
        assert_eq!(session.turn_bounds(0)[1].least, 0);
    }
}
