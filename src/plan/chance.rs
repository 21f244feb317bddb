//! Three chances that a spread is inside the tolerance, never to be mixed.
//!
//! *This piece*: the last one laced, uncertain only by the error of its
//! readings, with what was expected of it before they were taken
//! ([`Piece`](super::Piece)); what the tolerance is checked on. *This press*: its mean profile
//! with the present nuts. *The next piece*: that, with lacing scatter and tilt
//! once more; what a plan promises.

use super::error::{PlanError, Quantity};
use super::learn::Posterior;
use super::noise::{MOST_LENGTH_NM, OUTLOOK_DRAWS};
use super::outlook::{PredictiveDraws, PredictiveScratch};
use super::turns::LEAVE;
use crate::stats::Purpose;

/// With the nuts as they are, the probability that the press's mean profile is
/// inside the tolerance, and that the next piece is.
///
/// # Errors
/// [`PlanError`] when no station counts or the tolerance is no length.
pub fn press_chances(
    posterior: &Posterior,
    counting: &[usize],
    tolerance_nm: f64,
    scratch: &mut PredictiveScratch,
) -> Result<(f64, f64), PlanError> {
    check_tolerance(tolerance_nm)?;
    let (draws, kept) = (OUTLOOK_DRAWS, &mut scratch.kept);
    let outlook = PredictiveDraws::of_nuts_left(posterior, counting, draws, Purpose::Chance, kept)?;
    Ok((
        outlook.press_chance(&[], tolerance_nm),
        outlook.next_piece_chance(&LEAVE, tolerance_nm, scratch),
    ))
}

pub(super) fn check_tolerance(tolerance_nm: f64) -> Result<(), PlanError> {
    if tolerance_nm > 0.0 && tolerance_nm <= MOST_LENGTH_NM {
        Ok(())
    } else {
        Err(PlanError::OutOfRange(Quantity::Tolerance))
    }
}
