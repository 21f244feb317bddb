//! What the nuts could do at most, if they stood anywhere and not on notches.

use microlp::{ComparisonOp, OptimizationDirection, Problem, SolveOutcome};

use super::search::TurnBounds;
use crate::press::Response;

/// The smallest spread that fractional turns reach.
#[derive(Debug, Clone, PartialEq)]
pub struct FractionalTurns {
    /// Turns in notches, one per arm, within the bounds.
    pub turns: Vec<f64>,
    /// The spread left, in nanometres: wear, belt or hooks, which no nut cures.
    pub spread_nm: f64,
}

/// The turns, whole or not, that leave the smallest spread of `thickness_nm`
/// at the stations of `response`, each nut within its bounds.
///
/// ```text
///     minimise r   with   m <= (t + B k)_s <= m + r   and   low <= k <= high
/// ```
///
/// A linear program, solved by the simplex method (the `microlp` crate). `None`
/// when lengths differ, a value is not finite, or the solver finds no answer;
/// the spread is worked out again from the turns it found, so it is one that
/// these turns really leave.
pub fn fractional_turns(
    thickness_nm: &[f64],
    response: &Response,
    bounds: &[TurnBounds],
) -> Option<FractionalTurns> {
    let sound = thickness_nm.len() == response.stations()
        && bounds.len() == response.arms()
        && !thickness_nm.is_empty()
        && thickness_nm
            .iter()
            .chain(response.values())
            .all(|value| value.is_finite());
    if !sound {
        return None;
    }
    // In micrometres and from the first station, so that all figures are of
    // the order of one.
    let origin = thickness_nm.first()?;
    let scaled = |nm: f64| nm / 1_000.0;
    let mut problem = Problem::new(OptimizationDirection::Minimize);
    let turns: Vec<_> = bounds
        .iter()
        .map(|bound| problem.add_var(0.0, (f64::from(bound.least), f64::from(bound.most))))
        .collect();
    let edge = problem.add_var(0.0, (f64::NEG_INFINITY, f64::INFINITY));
    let height = problem.add_var(1.0, (0.0, f64::INFINITY));
    for (station, thickness) in thickness_nm.iter().enumerate() {
        let moved: Vec<_> = turns
            .iter()
            .zip(response.row(station))
            .map(|(turn, answer)| (*turn, scaled(*answer)))
            .collect();
        let level = scaled(origin - thickness);
        let above: Vec<_> = moved.iter().copied().chain([(edge, -1.0)]).collect();
        let below: Vec<_> = above.iter().copied().chain([(height, -1.0)]).collect();
        problem.add_constraint(above.as_slice(), ComparisonOp::Ge, level);
        problem.add_constraint(below.as_slice(), ComparisonOp::Le, level);
    }
    let SolveOutcome::Solution(solution) = problem.solve().ok()? else {
        return None;
    };
    let turns: Vec<f64> = turns
        .iter()
        .zip(bounds)
        .map(|(turn, bound)| solution[*turn].clamp(bound.least.into(), bound.most.into()))
        .collect();
    let (low, high) = thickness_nm.iter().enumerate().fold(
        (f64::INFINITY, f64::NEG_INFINITY),
        |(low, high), (station, thickness)| {
            let moved = thickness + response.change_at(station, turns.iter().copied());
            (low.min(moved), high.max(moved))
        },
    );
    let spread_nm = high - low;
    spread_nm
        .is_finite()
        .then_some(FractionalTurns { turns, spread_nm })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn spread(thickness_nm: &[f64], response: &Response, most: i32) -> f64 {
        let bounds = vec![TurnBounds { least: -most, most }; response.arms()];
        fractional_turns(thickness_nm, response, &bounds)
            .unwrap()
            .spread_nm
    }

    #[test]
    fn independent_nuts_level_what_is_within_their_reach() {
        let response = Response::from_fn(3, 3, |s, i| if s == i { 101_600.0 } else { 0.0 });
        let thickness = [6_350_000.0, 6_273_800.0, 6_400_800.0];
        assert!(spread(&thickness, &response, 6) < 1e-3);
        // With no travel the piece stays as it is: 0.252 - 0.247 in.
        assert_eq!(spread(&thickness, &response, 0), 127_000.0);
    }

    #[test]
    fn a_station_between_two_arms_may_be_beyond_every_nut() {
        // The middle follows the mean of its neighbours, and stands 90 000 nm
        // from their line: the best any turns leave is half of it on either
        // side of the band, 90 000 nm in all (by hand: max - min of
        // (a, (a + b) / 2 + 90 000, b) is least at a = b).
        let rows = [[1.0, 0.0], [0.5, 0.5], [0.0, 1.0]];
        let response = Response::from_fn(3, 2, |s, i| rows[s][i] * 100_000.0);
        let found = spread(&[0.0, 120_000.0, 60_000.0], &response, 6);
        assert!((found - 90_000.0).abs() < 1e-3, "{found}");
    }
}
