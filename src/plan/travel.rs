//! How far the nuts may still go.

/// One nut and its limits, in notches, out positive.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NutTravel {
    /// Where it stands.
    pub position: i32,
    /// Farthest in that it may stand.
    pub least: i32,
    /// Farthest out that it may stand.
    pub most: i32,
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
