//! Giving the nuts back their travel: all of them together, and the common
//! handle the other way.

use crate::plan::{FARTHEST_TURN, NutTravel, common_turn};
use crate::press::{Arm, ArmIndex, Notches};

use super::{Advice, Session};

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
    /// The common turn to offer with these turns after a pass, where a nut with
    /// limits would run low.
    pub(super) fn common_turn(
        &self,
        pass: usize,
        turns: &[i32],
        advice: &Advice,
    ) -> Option<CommonTurn> {
        let nuts: Vec<NutTravel> = self
            .press
            .arms
            .iter()
            .zip(self.nuts_at(pass))
            .zip(turns)
            .map(|((arm, nut), turn)| self.travel(arm, nut.turned(Notches(*turn))))
            .collect();
        let turn = common_turn(&nuts, LOW_TRAVEL)?;
        let low = i64::from(LOW_TRAVEL);
        let runs_low = |nut: &NutTravel| {
            let [position, least, most] = [nut.position, nut.least, nut.most].map(i64::from);
            position - least <= low || most - position <= low
        };
        let stations = advice.response.stations().max(1) as f64;
        let all_out_nm = advice.response.values().iter().sum::<f64>() / stations;
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

    /// A nut standing at `position`; one without limits is taken to have
    /// travel enough.
    fn travel(&self, arm: &Arm, position: Notches) -> NutTravel {
        let (least, most) = match arm.limits {
            Some(limits) => (limits.most_in.0, limits.most_out.0),
            None => (
                position.0.saturating_sub(FARTHEST_TURN),
                position.0.saturating_add(FARTHEST_TURN),
            ),
        };
        NutTravel {
            position: position.0,
            least,
            most,
            travel_nm: self.press.travel_per_notch(arm).nm_f64(),
            margin_nm: arm
                .opening_margin
                .as_ref()
                .map(|left| left.length().nm_f64()),
        }
    }
}
