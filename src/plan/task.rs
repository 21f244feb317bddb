//! What turns are chosen for.

use super::chance::check_tolerance;
use super::effort::Effort;
use super::error::{PlanError, Quantity};
use super::learn::Posterior;
use super::search::{FARTHEST_TURN, TurnBounds};

/// What is to be chosen.
#[derive(Debug, Clone, Copy)]
pub struct Task<'a> {
    /// Press and response as known.
    pub posterior: &'a Posterior,
    /// The stations that count, as indices among all stations.
    pub counting: &'a [usize],
    /// Largest spread allowed, in nanometres.
    pub tolerance_nm: f64,
    /// Turns allowed to each nut: its limits, its opening margin and the most
    /// turned in one re-lace, all at once.
    pub bounds: &'a [TurnBounds],
    /// The last piece passes by the shop's rule.
    pub accepted: bool,
    /// At most so many nuts are turned.
    pub most_nuts: Option<usize>,
    /// What the work costs.
    pub effort: Effort,
}

impl Task<'_> {
    /// Refuses what is no self.
    pub(super) fn check(&self) -> Result<(), PlanError> {
        check_tolerance(self.tolerance_nm)?;
        let arms = self.posterior.arms();
        if self.bounds.len() != arms {
            return Err(PlanError::Shape {
                expected: arms,
                found: self.bounds.len(),
            });
        }
        let far = |k: i32| k.unsigned_abs() > FARTHEST_TURN.unsigned_abs();
        if self
            .bounds
            .iter()
            .any(|b| b.least > b.most || far(b.least) || far(b.most))
        {
            return Err(PlanError::OutOfRange(Quantity::Bounds));
        }
        Ok(())
    }
}
