//! Giving the nuts back their travel: all of them together, and the common
//! handle the other way.

use crate::plan::{NutTravel, common_turn};
use crate::press::{Arm, ArmIndex, Notches, NutPosition, Response};

use super::Session;

/// A nut with so few notches left to either end of its limits runs low.
const LOW_TRAVEL: u32 = 1;

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
        let nuts: Vec<NutTravel> = self
            .press
            .arms
            .iter()
            .zip(self.nuts_at(pass))
            .zip(turns)
            .map(|((arm, nut), turn)| travel(arm, *nut + Notches(*turn)))
            .collect();
        let turn = common_turn(&nuts, LOW_TRAVEL)?;
        let low = i64::from(LOW_TRAVEL);
        let runs_low = |nut: &NutTravel| {
            let [position, least, most] = [nut.position, nut.least, nut.most].map(i64::from);
            position - least <= low || most - position <= low
        };
        let stations = response.stations().max(1) as f64;
        let all_out_nm = response.values().iter().sum::<f64>() / stations;
        Some(CommonTurn {
            turn: Notches(turn),
            handle_nm: -f64::from(turn) * all_out_nm,
            low: (0..)
                .map(ArmIndex)
                .zip(&nuts)
                .filter(|(_, nut)| runs_low(nut))
                .map(|(arm, _)| arm)
                .collect(),
        })
    }
}

/// A nut standing at `position`.
fn travel(arm: &Arm, position: NutPosition) -> NutTravel {
    let may_stand = arm.may_stand();
    NutTravel {
        position: position.0,
        least: may_stand.most_in.0,
        most: may_stand.most_out.0,
    }
}
