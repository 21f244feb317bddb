//! Every assumed scatter and every effort of the room, in one place.

use crate::splice::{ASSUMED_LACING, MeanVariance, assumed_repeatability_nm};

use super::error::{PlanError, Quantity};
use super::missed::Missed;

/// Nanometres in an inch.
const INCH_NM: f64 = 25_400_000.0;

/// Scatter of lacings, readings and belt ends, as standard deviations in
/// nanometres.
///
/// The defaults are assumptions, to be replaced by a gauge study and by what a
/// press's own history shows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Noise {
    /// One lacing to the next at one place with nothing changed.
    pub lacing_nm: f64,
    /// Degrees of freedom that is known with; infinite where it is taken as
    /// known.
    pub lacing_freedom: f64,
    /// One reading to the next of the same place of the same piece, as the
    /// gauge shows them: with their rounding to its step.
    pub repeatability_nm: f64,
    /// Degrees of freedom that is known with, likewise.
    pub repeatability_freedom: f64,
    /// Step of the gauge (not a standard deviation).
    pub step_nm: f64,
    /// Deviations of the profile from level before anything is known of it; of
    /// a press that was left level, when it has only drifted since.
    pub deviation_nm: f64,
    /// Chance that a press that was left level has changed since: knocked,
    /// repaired, worn, other hooks. Zero without an earlier visit.
    pub changed_chance: f64,
    /// Deviations of the profile from level when it has.
    pub changed_nm: f64,
    /// How far the predictions of earlier visits missed.
    pub missed: Missed,
    /// Shift of a whole piece against the next: another belt end.
    pub shift_nm: f64,
    /// Tilt of a piece against the next, from one end of the jaw to the other.
    pub tilt_nm: f64,
}

impl Noise {
    /// The assumptions made until there are data: lacing 0.0003 in,
    /// repeatability half a gauge step with its rounding, deviations 0.004 in, shift 0.002 in,
    /// tilt 0.0007 in end to end. Scatters are taken as known until they are
    /// said not to be.
    pub fn assumed(step_nm: f64) -> Self {
        Self {
            lacing_nm: ASSUMED_LACING.sd_nm,
            lacing_freedom: f64::INFINITY,
            repeatability_nm: assumed_repeatability_nm(step_nm),
            repeatability_freedom: f64::INFINITY,
            step_nm,
            deviation_nm: 0.004 * INCH_NM,
            changed_chance: 0.0,
            changed_nm: CHANGED_NM,
            missed: Missed::default(),
            shift_nm: 0.002 * INCH_NM,
            tilt_nm: 0.000_7 * INCH_NM,
        }
    }

    /// Variance of the mean of `repeats` readings about the true thickness;
    /// see [`MeanVariance`].
    pub fn reading_variance(&self, repeats: u32) -> f64 {
        MeanVariance::of(self.repeatability_nm, self.step_nm, repeats as usize).total_nm2()
    }

    /// Variance of a station mean of one piece about the press's own profile,
    /// without shift and tilt: lacing and reading together.
    pub fn station_variance(&self, repeats: u32) -> f64 {
        self.lacing_nm * self.lacing_nm + self.reading_variance(repeats) + LEAST_VARIANCE
    }

    /// Variance of the profile's deviations from level before anything is known
    /// of it, whether the press has drifted or changed.
    pub(super) fn deviation_variance(&self) -> f64 {
        let drifted = (1.0 - self.changed_chance) * self.deviation_nm * self.deviation_nm;
        drifted + self.changed_chance * self.changed_nm * self.changed_nm
    }

    /// Refuses what is no scatter.
    ///
    /// # Errors
    /// [`PlanError::OutOfRange`] for a value that is negative, not finite or
    /// above [`MOST_SCATTER_NM`].
    pub fn check(&self) -> Result<(), PlanError> {
        for (value, quantity) in [
            (self.lacing_nm, Quantity::Lacing),
            (self.repeatability_nm, Quantity::Repeatability),
            (self.step_nm, Quantity::GaugeStep),
            (self.deviation_nm, Quantity::Deviation),
            (self.changed_nm, Quantity::Deviation),
            (self.shift_nm, Quantity::Shift),
            (self.tilt_nm, Quantity::Tilt),
        ] {
            if !(0.0..=MOST_SCATTER_NM).contains(&value) {
                return Err(PlanError::OutOfRange(quantity));
            }
        }
        if !(0.0..=1.0).contains(&self.changed_chance) {
            return Err(PlanError::OutOfRange(Quantity::Share));
        }
        for (dof, quantity) in [
            (self.lacing_freedom, Quantity::Lacing),
            (self.repeatability_freedom, Quantity::Repeatability),
        ] {
            if !(dof > 0.0) {
                return Err(PlanError::OutOfRange(quantity));
            }
        }
        Ok(())
    }
}

/// Largest scatter taken: 10 mm.
pub const MOST_SCATTER_NM: f64 = 1e7;
/// Largest thickness, position or effect taken: 100 m.
pub const MOST_LENGTH_NM: f64 = 1e11;
/// Farthest nut position taken, in notches either way.
pub const MOST_NOTCHES: f64 = 1e4;
/// Most stations of a press.
pub const MOST_STATIONS: usize = 48;
/// Most repeats of one reading that are told apart.
pub const MOST_REPEATS: u32 = 1_000;

/// A scatter of one nanometre (squared) always remains, so that scatters given
/// as zero leave every covariance positive.
pub(super) const LEAST_VARIANCE: f64 = 1.0;
/// Standard deviation of the unknown level of the profile: a quarter inch,
/// about the thickness itself, against 0.002 in for a shift that it must not
/// hold back.
pub(super) const LEVEL_DEVIATION_NM: f64 = 0.25 * INCH_NM;

/// How far a press left level is assumed to drift until the next visit, as a
/// standard deviation at every station: 0.001 in.
pub const DRIFT_NM: f64 = 0.001 * INCH_NM;

/// Deviations of a press that has changed since it was left level, at first:
/// 0.006 in.
pub(super) const CHANGED_NM: f64 = 0.006 * INCH_NM;

/// How much of what a visit taught fades until the next: of the covariance of a
/// fresh press, this share takes the place of as much of the learnt one. A
/// tenth of what was unknown of each value is unknown again (as standard
/// deviation): another belt, other hooks, wear.
pub const FADING: f64 = 0.01;

/// Draws of the response's shape for the prior.
pub(super) const PRIOR_DRAWS: usize = 2048;
/// Joint draws of press and next piece that many plans are compared on.
pub(super) const RANKING_DRAWS: usize = 512;
/// Joint draws, others than those, that chances are stated on.
pub(super) const OUTLOOK_DRAWS: usize = 512;
/// Joint draws for what is known after one more pass.
pub(super) const LATER_DRAWS: usize = 128;
/// Pieces drawn to plan anew after.
pub(super) const AHEAD_PIECES: usize = 32;
/// Where fewer of these do not pass, so many that come nearest to it stand for
/// those that do not.
pub(super) const LEAST_FAILING: usize = 8;
/// After so many of these the best turns are searched for; all choose among
/// what is found.
pub(super) const AHEAD_SEARCHES: usize = 10;
/// Of the turns to choose among after a drawn piece, so many with the smallest
/// spreads get their chances.
pub(super) const AHEAD_PLANS: usize = 8;
/// Of the plans of a kind, so many get their chances by quadrature.
pub(super) const REFINED_PLANS: usize = 3;
/// Most rows of the options.
pub(super) const MOST_ROWS: usize = 5;
/// Of all plans, so many are where a plan made anew may lead.
pub(super) const DESTINATIONS: usize = 16;
/// Of the nuts that could be left out of a plan, so many are tried in earnest.
pub(super) const LEFT_OUT_TRIED: usize = 3;
/// Of the plans that turn every nut, so many are tried with a common turn taken
/// out.
pub(super) const UNCOMMON_TRIED: usize = 12;
/// Nodes after which the search on the mean response gives up.
pub(super) const SEARCH_NODES: u64 = 200_000;
