//! Three chances that a spread is inside the tolerance, never to be mixed.
//!
//! *This piece*: the last one laced, uncertain only by the error of its
//! readings (with what was expected of it before they were taken); what the tolerance is checked on. *This press*: its mean profile
//! with the present nuts. *The next piece*: that, with lacing scatter and tilt
//! once more; what a plan promises.

use super::error::{PlanError, Quantity};
use super::learn::Posterior;
use super::noise::{MOST_LENGTH_NM, OUTLOOK_DRAWS};
use super::outlook::{PredictiveDraws, PredictiveScratch, Turns};
use super::piece::Piece;
use super::search::MOST_ARMS;
use crate::stats::Purpose;

/// How things stand with the nuts as they are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Standing {
    /// Of the last piece; `None` when a counting station was not read.
    pub this_piece: Option<f64>,
    /// Of the press's mean profile.
    pub this_press: f64,
    /// Of the next piece.
    pub next_piece: f64,
}

/// The three chances for the nuts as they are.
///
/// # Errors
/// [`PlanError`] when no station counts or the tolerance is no length.
pub fn standing(
    posterior: &Posterior,
    counting: &[usize],
    tolerance_nm: f64,
    scratch: &mut PredictiveScratch,
) -> Result<Standing, PlanError> {
    check_tolerance(tolerance_nm)?;
    let outlook = PredictiveDraws::new(posterior, counting, OUTLOOK_DRAWS, Purpose::Chance)?;
    Ok(standing_in(
        &outlook,
        posterior,
        counting,
        tolerance_nm,
        scratch,
    ))
}

pub(super) fn standing_in(
    outlook: &PredictiveDraws,
    posterior: &Posterior,
    counting: &[usize],
    tolerance_nm: f64,
    scratch: &mut PredictiveScratch,
) -> Standing {
    let as_they_are: Turns = [0; MOST_ARMS];
    Standing {
        this_piece: this_piece_chance(posterior, counting, tolerance_nm),
        this_press: outlook.press_chance(&as_they_are, tolerance_nm, scratch),
        next_piece: outlook.next_piece_chance(&as_they_are, tolerance_nm, scratch),
    }
}

/// Probability that the last piece's true spread is inside the tolerance, from
/// its readings and from what was expected of it before ([`Piece`]); `None` when
/// a counting station was not read.
pub fn this_piece_chance(
    posterior: &Posterior,
    counting: &[usize],
    tolerance_nm: f64,
) -> Option<f64> {
    let piece = Piece::last(posterior, counting)?;
    if piece.stations().len() != counting.len() {
        return None;
    }
    piece.chance_as_read(tolerance_nm)
}

/// With the nuts as they are, the probability that the press's mean profile is
/// inside the tolerance, and that the next piece is.
///
/// # Errors
/// See [`standing`].
pub fn press_chances(
    posterior: &Posterior,
    counting: &[usize],
    tolerance_nm: f64,
    scratch: &mut PredictiveScratch,
) -> Result<(f64, f64), PlanError> {
    check_tolerance(tolerance_nm)?;
    let as_they_are: Turns = [0; MOST_ARMS];
    let outlook = PredictiveDraws::new(posterior, counting, OUTLOOK_DRAWS, Purpose::Chance)?;
    Ok((
        outlook.press_chance(&as_they_are, tolerance_nm, scratch),
        outlook.next_piece_chance(&as_they_are, tolerance_nm, scratch),
    ))
}

pub(super) fn check_tolerance(tolerance_nm: f64) -> Result<(), PlanError> {
    if tolerance_nm > 0.0 && tolerance_nm <= MOST_LENGTH_NM {
        Ok(())
    } else {
        Err(PlanError::OutOfRange(Quantity::Tolerance))
    }
}
