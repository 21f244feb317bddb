//! How far the nuts may still go.

use super::error::{PlanError, Quantity};
use super::noise::MOST_LENGTH_NM;
use super::search::{FARTHEST_TURN, TurnBounds};

/// One nut and its limits, in notches, out positive.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NutTravel {
    /// Where it stands.
    pub position: i32,
    /// Farthest in that it may stand.
    pub least: i32,
    /// Farthest out that it may stand.
    pub most: i32,
    /// Movement of the nut per notch, in nanometres: travel, not its effect on
    /// the splice.
    pub travel_nm: f64,
    /// What is left of the opening before the retainer no longer comes out
    /// easily, in nanometres; `None` when not measured.
    pub margin_nm: Option<f64>,
}

/// Turns one nut may make in one re-lace: within its limits, at most
/// `most_per_lacing` notches either way, and inward no further than the opening
/// margin allows, each notch in taking the nut's full travel from the opening.
///
/// A nut outside its limits has to come back to them: then the bounds hold the
/// turns that bring it in, however many those are. A margin already used up
/// allows no inward turn.
///
/// # Errors
/// [`PlanError::OutOfRange`] for crossed limits, positions beyond
/// [`FARTHEST_TURN`], a travel that is not positive, a margin that is not
/// finite, or limits that only inward turns beyond the margin could reach.
pub fn turn_bounds(nut: &NutTravel, most_per_lacing: u32) -> Result<TurnBounds, PlanError> {
    let far = |notches: i32| notches.unsigned_abs() > FARTHEST_TURN.unsigned_abs() / 2;
    if far(nut.position) || far(nut.least) || far(nut.most) || nut.least > nut.most {
        return Err(PlanError::OutOfRange(Quantity::Bounds));
    }
    if !(nut.travel_nm > 0.0 && nut.travel_nm <= MOST_LENGTH_NM) {
        return Err(PlanError::OutOfRange(Quantity::NotchEffect));
    }
    let (to_least, to_most) = (nut.least - nut.position, nut.most - nut.position);
    let usual = most_per_lacing.min(FARTHEST_TURN.unsigned_abs()) as i32;
    // Outside the limits the nearer one is reached, whatever is usual.
    let mut least = to_least.max(-usual).min(to_most);
    let most = to_most.min(usual).max(to_least);
    if let Some(margin_nm) = nut.margin_nm {
        if !(-MOST_LENGTH_NM..=MOST_LENGTH_NM).contains(&margin_nm) {
            return Err(PlanError::OutOfRange(Quantity::Opening));
        }
        let allowed = (margin_nm.max(0.0) / nut.travel_nm).floor();
        least = least.max(-(allowed.min(f64::from(FARTHEST_TURN)) as i32));
    }
    if least > most {
        return Err(PlanError::OutOfRange(Quantity::Bounds));
    }
    Ok(TurnBounds { least, most })
}

/// The common turn of all nuts that gives them back their travel, when one has
/// `low` notches or fewer left on either side; the handle has to be moved by
/// the opposite amount, and the profile stays as it is.
///
/// It leaves the nut that has least room on its tighter side as much as
/// possible; of equal turns the smaller is taken. `None` when no nut runs low,
/// a common turn does not help, or a nut's limits are crossed.
pub fn common_turn(nuts: &[NutTravel], low: u32) -> Option<i32> {
    let inward = nuts
        .iter()
        .map(|n| i64::from(n.position) - i64::from(n.least));
    let outward = nuts
        .iter()
        .map(|n| i64::from(n.most) - i64::from(n.position));
    let (inward, outward) = (inward.min()?, outward.min()?);
    let room = inward.min(outward);
    if nuts.iter().any(|n| n.least > n.most) || room > i64::from(low) {
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

    fn nut(position: i32, least: i32, most: i32) -> NutTravel {
        NutTravel {
            position,
            least,
            most,
            travel_nm: 101_600.0,
            margin_nm: None,
        }
    }

    #[test]
    fn bounds_keep_every_limit() {
        let with_margin = |margin_nm| NutTravel {
            margin_nm: Some(margin_nm),
            ..nut(-4, -12, 0)
        };
        for (nut, expected) in [
            (nut(-4, -12, 0), Ok((-6, 4))),
            (nut(-12, -12, 0), Ok((0, 6))),
            (nut(0, -12, 0), Ok((-6, 0))),
            (nut(-20, -12, 0), Ok((8, 8))),
            (nut(-14, -12, 0), Ok((2, 6))),
            (nut(3, -12, 0), Ok((-6, -3))),
            (nut(9, -12, 0), Ok((-9, -9))),
            (nut(0, 1, 0), Err(())),
            (nut(100_000, -12, 0), Err(())),
            // Two notches and a bit; none; less than none.
            (with_margin(210_000.0), Ok((-2, 4))),
            (with_margin(101_599.0), Ok((0, 4))),
            (with_margin(-5.0), Ok((0, 4))),
            (with_margin(f64::NAN), Err(())),
            (
                NutTravel {
                    position: 3,
                    ..with_margin(101_600.0)
                },
                Err(()),
            ),
        ] {
            let found = turn_bounds(&nut, 6)
                .map(|b| (b.least, b.most))
                .map_err(|_| ());
            assert_eq!(found, expected, "{nut:?}");
        }
    }

    #[test]
    fn common_turn_gives_back_travel() {
        for (nuts, expected) in [
            (vec![nut(-11, -12, 0), nut(-6, -12, 0)], Some(2)),
            (vec![nut(-1, -12, 0), nut(-6, -12, 0)], Some(-2)),
            (vec![nut(-6, -12, 0), nut(-6, -12, 0)], None),
            (vec![nut(-11, -12, 0), nut(-1, -12, 0)], None),
            (vec![nut(-14, -12, 0), nut(-10, -12, 0)], Some(6)),
            (vec![], None),
        ] {
            assert_eq!(common_turn(&nuts, 2), expected, "{nuts:?}");
        }
    }
}
