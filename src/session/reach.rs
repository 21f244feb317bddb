//! What whole notches can always reach, where that can be stated.

use crate::press::Response;
use crate::units::{ExactLength, Length};

use super::Session;

/// What whole notches can always reach on a press of equal, independent nuts
/// read at the arms.
///
/// Turns leave the readings modulo the notch alone, so the smallest spread is
/// the notch minus the largest gap between them on a circle as long as the
/// notch, and of N gaps the largest is at least an N-th.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reach {
    /// Number of arms, N.
    pub arms: usize,
    /// The notch effect they all have.
    pub notch: Length,
    /// notch x (1 - 1/N), exactly.
    pub always: ExactLength,
}

impl Session {
    /// What whole notches always reach with this response, where the
    /// conditions hold; `smallest_nm` is the smallest spread that limits and
    /// wishes allow the piece.
    pub(super) fn reach(
        &self,
        pass: usize,
        smallest_nm: f64,
        response: &Response,
    ) -> Option<Reach> {
        let notch_nm = response.at(0, 0);
        let notch = Length::from_nm(notch_nm as i64);
        let all_at_arms = self
            .stations
            .iter()
            .all(|at| at.counts && at.arm().is_some());
        let is_equal_and_independent = (0..response.stations()).all(|station| {
            (0..response.arms()).all(|arm| {
                let expected = if station == arm { notch_nm } else { 0.0 };
                response.at(station, arm) == expected
            })
        });
        let is_whole = notch > Length::ZERO && notch.nm_f64() == notch_nm;
        if !(all_at_arms && is_equal_and_independent && is_whole) {
            return None;
        }
        let arms = self.press.arms.len();
        let profile = self.passes.get(pass)?.profile();
        let readings_nm: Vec<f64> = (0..arms)
            .filter_map(|station| profile.mean(station))
            .map(ExactLength::nm_f64)
            .collect();
        // No limit and no wish was in the way if the search got as far as
        // turns without limits would.
        let unlimited_nm = smallest_of_equal_nuts(&readings_nm, notch.nm_f64());
        if smallest_nm > unlimited_nm + 1.0 {
            return None;
        }
        Some(Reach {
            arms,
            notch,
            always: always_reachable(notch, arms)?,
        })
    }
}

/// The spread that whole notches reach whatever the readings: notch x (1 - 1/N),
/// exactly; `None` without arms.
fn always_reachable(notch: Length, arms: usize) -> Option<ExactLength> {
    let shares = std::iter::repeat_n(notch, arms.checked_sub(1)?).chain([Length::ZERO]);
    ExactLength::mean(shares)
}

/// The smallest spread of equal, independent nuts without limits: the notch
/// minus the largest gap of the readings modulo the notch.
fn smallest_of_equal_nuts(readings_nm: &[f64], notch_nm: f64) -> f64 {
    let mut residues: Vec<f64> = readings_nm.iter().map(|t| t % notch_nm).collect();
    residues.sort_by(f64::total_cmp);
    let around = residues.first().map(|first| first + notch_nm);
    let gap = residues
        .iter()
        .zip(residues.iter().skip(1).copied().chain(around))
        .map(|(left, right)| right - left)
        .fold(0.0, f64::max);
    notch_nm - gap
}
