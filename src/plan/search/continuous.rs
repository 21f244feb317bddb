//! The optimum of turns that need not be whole.

use super::cut::Cut;
use super::model::Model;
use super::vertex::{Fixed, Outcome, Vertex};
use super::{MOST_ARMS, SearchProblem, TurnBounds, check, moves_spread};
use crate::press::Response;

/// Turns within the bounds that leave the smallest spread, and a bound that no
/// turns undercut, in nanometres. None when the problem is not sound.
pub(in crate::plan) fn continuous(
    thickness_nm: &[f64],
    response: &Response,
    bounds: &[TurnBounds],
) -> Option<(Vec<f64>, f64)> {
    let limits = check(&SearchProblem::new(thickness_nm, response, bounds)).ok()?;
    let bounds = &limits[..bounds.len()];
    let mut standing = [0; MOST_ARMS];
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
    Some((turns, cut.constant.max(0.0) * model.unit_nm))
}
