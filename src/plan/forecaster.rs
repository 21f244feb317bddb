//! Forecasts of any turns, fast enough to follow a nut that is being dragged.

use super::chance::check_tolerance;
use super::error::PlanError;
use super::learn::Posterior;
use super::noise::OUTLOOK_DRAWS;
use super::outlook::{Forecast, PredictiveDraws, PredictiveScratch};
use super::turns::to_turns;
use crate::stats::Purpose;

/// The draws and the memory that forecasts of one press need: the draws that
/// [`super::choose`] states its chances on, so that the same turns get the same
/// figures.
#[derive(Debug, Clone)]
pub struct Forecaster {
    outlook: PredictiveDraws,
    scratch: PredictiveScratch,
    tolerance_nm: f64,
}

impl Forecaster {
    /// For the stations `counting` (indices among all stations) and the
    /// largest spread allowed.
    ///
    /// # Errors
    /// [`PlanError`] for a tolerance that is no length, or no counting
    /// station.
    pub fn new(
        posterior: &Posterior,
        counting: &[usize],
        tolerance_nm: f64,
    ) -> Result<Self, PlanError> {
        check_tolerance(tolerance_nm)?;
        let mut scratch = PredictiveScratch::default();
        let (draws, kept) = (OUTLOOK_DRAWS, &mut scratch.kept);
        Ok(Self {
            outlook: PredictiveDraws::new(posterior, counting, draws, Purpose::Chance, kept)?,
            scratch,
            tolerance_nm,
        })
    }

    /// Spread and chance of the next piece after `turns`, in notches; missing
    /// ones count as zero, and so do those beyond the last arm.
    pub fn forecast(&mut self, turns: &[i32]) -> Forecast {
        let all = to_turns(turns);
        let (median_nm, p90_nm) = self.outlook.spread_limits(&all, &mut self.scratch);
        let chance = self
            .outlook
            .next_piece_chance(&all, self.tolerance_nm, &mut self.scratch);
        Forecast {
            median_nm,
            p90_nm,
            chance,
        }
    }
}
