//! Whether a nut answers otherwise than it did: a rod that yields, a nut that
//! slips.
//!
//! Every two pieces of a visit with nuts turned between them show a change d at
//! each station. With B the response as believed and t the turns, the model is
//!
//! ```text
//! d_s = sum_i B[s][i] t_i g_i + [from visit k on] B[s][j] t_j h + e
//! ```
//!
//! in contrasts of the stations, to which the level of a piece adds nothing: g
//! says how much of what is believed each nut does, h by how much that changed
//! at nut j with visit k, e is the scatter of two pieces, estimated from what is
//! left over. Every nut and every visit is tried, and h is believed where its
//! interval leaves zero out at a level shared among all that were tried
//! (Bonferroni). Pieces that three passes share make neighbouring changes
//! scatter against each other; the intervals are then rather too wide.

use serde::{Deserialize, Serialize};

use crate::press::{ArmIndex, Response};
use crate::session::{PastPass, PastVisit};
use crate::stats::LeastSquares;

use super::drift::{CONFIDENCE, contrast};

/// Fewest visits before and after a change.
const EITHER_SIDE: usize = 2;

/// A nut that answers otherwise than it did.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ChangedAnswer {
    /// The arm.
    pub arm: ArmIndex,
    /// When the first visit was that shows it, as it was written.
    pub since: String,
    /// What a notch did at its own arm before, in nanometres.
    pub was_nm: f64,
    /// What it does since.
    pub is_nm: f64,
    /// Half the width of the interval of the difference.
    pub half_nm: f64,
}

/// What one visit shows.
struct Shown<'a> {
    when: &'a str,
    /// Contrasts of changes, with the turns that made them.
    changes: Vec<(Vec<f64>, Vec<f64>)>,
}

/// The nut whose answer changed most surely, if any did. `own` is the station
/// at each arm.
pub fn changed_answer(
    visits: &[PastVisit],
    response: &Response,
    own: &[usize],
) -> Option<ChangedAnswer> {
    let stations = visits.last()?.stations.len();
    let shown: Vec<Shown<'_>> = visits
        .iter()
        .filter(|visit| visit.stations.len() == stations)
        .map(shown)
        .filter(|shown| !shown.changes.is_empty())
        .collect();
    if stations != response.stations() || shown.len() < 2 * EITHER_SIDE {
        return None;
    }
    let arms = response.arms();
    let splits = EITHER_SIDE..=shown.len() - EITHER_SIDE;
    let tried = splits.clone().count() * arms;
    let confidence = 1.0 - (1.0 - CONFIDENCE) / tried as f64;
    let (values, columns) = equations(&shown, response);
    let mut best: Option<(f64, ChangedAnswer)> = None;
    for split in splits {
        let before: usize = shown
            .iter()
            .take(split)
            .map(|shown| rows(shown, stations))
            .sum();
        for arm in 0..arms {
            let mut columns = columns.clone();
            let step = columns.get(arm)?.iter().enumerate();
            let step = step.map(|(row, value)| if row < before { 0.0 } else { *value });
            columns.push(step.collect());
            let Some(fit) = LeastSquares::solve(&columns, &values, &vec![1.0; values.len()]) else {
                continue;
            };
            let row = |at: usize| -> Vec<f64> {
                (0..=arms)
                    .map(|place| f64::from(u8::from(place == at)))
                    .collect()
            };
            let (Some(was), Some(by)) = (
                fit.foretold(&row(arm), confidence),
                fit.foretold(&row(arms), confidence),
            ) else {
                continue;
            };
            let sure = by.value.abs() / by.certain.max(f64::MIN_POSITIVE);
            if sure > best.as_ref().map_or(1.0, |best| best.0) {
                let notch_nm = response.at(*own.get(arm)?, arm);
                let changed = ChangedAnswer {
                    arm: ArmIndex(arm),
                    since: shown.get(split)?.when.to_owned(),
                    was_nm: was.value * notch_nm,
                    is_nm: (was.value + by.value) * notch_nm,
                    half_nm: by.certain * notch_nm.abs(),
                };
                best = Some((sure, changed));
            }
        }
    }
    best.map(|(_, changed)| changed)
}

/// Equations that a visit gives.
fn rows(shown: &Shown<'_>, stations: usize) -> usize {
    shown.changes.len() * stations.saturating_sub(1)
}

/// What every change measured, and what each nut should have done of it.
fn equations(shown: &[Shown<'_>], response: &Response) -> (Vec<f64>, Vec<Vec<f64>>) {
    let stations = response.stations();
    let mut values = Vec::new();
    let mut columns = vec![Vec::new(); response.arms()];
    for (measured, turns) in shown.iter().flat_map(|shown| &shown.changes) {
        values.extend(measured);
        for (arm, (column, turn)) in columns.iter_mut().zip(turns).enumerate() {
            for k in 1..stations {
                let weighted = (0..stations).map(|at| contrast(k, at) * response.at(at, arm));
                column.push(turn * weighted.sum::<f64>());
            }
        }
    }
    (values, columns)
}

fn shown(visit: &PastVisit) -> Shown<'_> {
    let pairs = visit.passes.iter().zip(visit.passes.iter().skip(1));
    Shown {
        when: &visit.when,
        changes: pairs.filter_map(|(from, to)| change(from, to)).collect(),
    }
}

/// The contrasts of the change between two pieces, and the turns between them;
/// none where a station was not read, nothing was turned or the common handle
/// was moved.
fn change(from: &PastPass, to: &PastPass) -> Option<(Vec<f64>, Vec<f64>)> {
    let nuts = from.nuts.iter().zip(&to.nuts);
    let turns: Vec<f64> = nuts.map(|(from, to)| f64::from((*to - *from).0)).collect();
    if to.handle.is_some() || turns.iter().all(|turn| *turn == 0.0) {
        return None;
    }
    let means = from.means.iter().zip(&to.means);
    let nm: Vec<f64> = means
        .map(|(from, to)| Some((*to)?.mean.minus((*from)?.mean).nm_f64()))
        .collect::<Option<_>>()?;
    let contrasts = (1..nm.len()).map(|k| {
        let weighted = nm.iter().enumerate().map(|(at, nm)| contrast(k, at) * nm);
        weighted.sum()
    });
    Some((contrasts.collect(), turns))
}
