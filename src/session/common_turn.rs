//! Giving the nuts back their travel: all of them together, and the common
//! handle the other way.

use crate::press::{Arm, ArmIndex, Notches, NutPosition, Response};

use super::Session;

/// A nut with so few notches left to either end of its limits runs low.
pub const LOW_TRAVEL: i64 = 1;

/// A turn of all nuts that leaves the profile as it is, when the handle is
/// moved the other way.
#[derive(Debug, Clone, PartialEq)]
pub struct CommonTurn {
    /// The turn of every nut, in addition to the recommended ones.
    pub turn: Notches,
    /// The move of the handle, as thickness at the splice in nanometres,
    /// outward positive.
    pub handle_nm: f64,
    /// The nuts that run low after the recommended turns.
    pub low: Vec<ArmIndex>,
}

impl Session {
    /// The common turn to offer with these turns after a pass, where a nut would
    /// run low.
    pub(super) fn common_turn(
        &self,
        pass: usize,
        turns: &[i32],
        response: &Response,
    ) -> Option<CommonTurn> {
        let stand = self.nuts_at(pass).iter().zip(turns);
        let rooms: Vec<Room> = (self.press.arms.iter().zip(stand))
            .map(|(arm, (nut, turn))| Room::of(arm, *nut + Notches(*turn)))
            .collect();
        let turn = giving_back(&rooms)?;
        let stations = response.stations().max(1) as f64;
        let all_out_nm = response.values().iter().sum::<f64>() / stations;
        Some(CommonTurn {
            turn: Notches(turn),
            handle_nm: -f64::from(turn) * all_out_nm,
            low: (0..)
                .map(ArmIndex)
                .zip(&rooms)
                .filter(|(_, room)| room.least() <= LOW_TRAVEL)
                .map(|(arm, _)| arm)
                .collect(),
        })
    }
}

/// Notches that a nut may still go either way; below zero beyond its limits.
#[derive(Debug, Clone, Copy)]
struct Room {
    inward: i64,
    outward: i64,
}

impl Room {
    fn of(arm: &Arm, stands: NutPosition) -> Self {
        let may_stand = arm.may_stand();
        let [least, stands, most] =
            [may_stand.most_in, stands, may_stand.most_out].map(|at| i64::from(at.0));
        Self {
            inward: stands - least,
            outward: most - stands,
        }
    }

    fn least(self) -> i64 {
        self.inward.min(self.outward)
    }
}

/// The common turn of all nuts that gives them back their travel, when one runs
/// low on either side; the handle has to be moved by the opposite amount, and
/// the profile stays as it is.
///
/// It leaves the nut that has least room on its tighter side as much as
/// possible; of equal turns the smaller is taken. `None` when no nut runs low
/// or a common turn does not help.
fn giving_back(rooms: &[Room]) -> Option<i32> {
    let inward = rooms.iter().map(|room| room.inward).min()?;
    let outward = rooms.iter().map(|room| room.outward).min()?;
    let room = inward.min(outward);
    if room > LOW_TRAVEL {
        return None;
    }
    // Out by c leaves inward + c and outward - c; the smaller is largest where
    // they meet.
    let turn = (outward - inward) / 2;
    let after = (inward + turn).min(outward - turn);
    (after > room).then(|| i32::try_from(turn).ok()).flatten()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn common_turn_gives_back_travel() {
        // Where nuts stand within -12 to 0.
        for (nuts, expected) in [
            (vec![-11, -6], Some(2)),
            (vec![-1, -6], Some(-2)),
            (vec![-6, -6], None),
            (vec![-11, -1], None),
            (vec![-14, -10], Some(6)),
            (vec![], None),
        ] {
            let room = |at: &i64| Room {
                inward: at + 12,
                outward: -at,
            };
            let rooms: Vec<Room> = nuts.iter().map(room).collect();
            assert_eq!(giving_back(&rooms), expected, "{nuts:?}");
        }
    }
}
