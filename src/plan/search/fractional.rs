//! What the nuts could do at most, if they stood anywhere and not on notches.

use super::cut::Cut;
use super::model::Model;
use super::vertex::{Fixed, Outcome, Vertex};
use super::{SearchProblem, TurnBounds, check, moves_spread, spread_moved};
use crate::plan::turns::LEAVE;
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
/// A linear program, solved by the simplex steps of the whole-notch search.
/// The spread is worked out again from the turns, so it is one that they really
/// leave, and it is checked against the bound that the multipliers prove: no
/// turns leave a spread smaller by more than a millionth of a nanometre (or,
/// for very large figures, 1e-9 of the spread as it is). Nuts that change no
/// spread stay as near to where they are as they may.
///
/// `None` when lengths differ, a bound is crossed, a value is not a length, or
/// there are no stations or more arms than [`MOST_ARMS`](crate::plan::MOST_ARMS).
pub fn fractional_turns(
    thickness_nm: &[f64],
    response: &Response,
    bounds: &[TurnBounds],
) -> Option<FractionalTurns> {
    let limits = check(&SearchProblem::new(thickness_nm, response, bounds)).ok()?;
    let bounds = &limits[..bounds.len()];
    let mut standing = LEAVE;
    for (turn, b) in standing.iter_mut().zip(bounds) {
        *turn = 0.clamp(b.least, b.most);
    }
    let searched = bounds
        .iter()
        .enumerate()
        .filter(|(arm, b)| b.least < b.most && moves_spread(response, *arm));
    let mut model = Model::default();
    let searched = searched.map(|(arm, _)| arm);
    model.load(thickness_nm, response, bounds, searched, &standing);
    let mut turns: Vec<f64> = standing[..bounds.len()]
        .iter()
        .map(|k| f64::from(*k))
        .collect();
    let mut nothing = Fixed::default();
    nothing.nothing(&model);
    let mut vertex = Vertex::default();
    vertex.corner(&model);
    if vertex.descend(&model, &nothing, f64::INFINITY) == Outcome::Unfinished {
        return None;
    }
    // A vertex computed afresh loses the rounding of the steps that led to it.
    vertex.refresh(&model, &nothing);
    for i in 0..model.arms {
        if let Some(turn) = turns.get_mut(model.arm_of[i]) {
            *turn = vertex.at[i].clamp(model.low[i], model.high[i]);
        }
    }
    let cut = Cut::from_multipliers(&vertex, &model, 0)?;
    let least_nm = cut.constant.max(0.0) * model.unit_nm;
    let spread = |turns: &[f64]| spread_moved(thickness_nm, response, turns.iter().copied());
    let spread_nm = spread(&turns);
    let as_it_is = spread(&[]);
    let proven = spread_nm - least_nm <= 1e-6_f64.max(1e-9 * as_it_is);
    proven.then_some(FractionalTurns { turns, spread_nm })
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
