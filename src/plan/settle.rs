//! In how many cases further readings or lacings would settle a verdict.
//!
//! Not the means as they are, but what would be read is drawn: of a normal
//! value known with variance V now and V' < V later, the later mean lies about
//! the present one with variance V - V'. For every case drawn the chance is
//! then stated anew; the share of cases in which that settles the verdict is
//! the chance of the advice.

use super::chance::check_tolerance;
use super::error::PlanError;
use super::learn::Posterior;
use super::mixture::Mixture;
use super::noise::OUTLOOK_DRAWS;
use super::outlook::{PredictiveDraws, PredictiveScratch};
use super::piece::{Piece, readings, scores};
use super::turns::LEAVE;
use crate::splice::Verdict;
use crate::stats::{Draws, Kept, Purpose};
use crate::stats::{Gaussian, GaussianError, cholesky_semidefinite};

/// Cases drawn.
const CASES: usize = 100;
/// Joint draws that a chance is the mean of in each case.
const DRAWS: usize = 128;
/// More than rounding makes of a sum of chances.
const ROUNDING: f64 = 1e-9;

/// In how many cases a verdict would be settled, and what is enough.
#[derive(Debug, Clone, Copy)]
pub struct Settled {
    /// Largest spread allowed, in nanometres.
    pub tolerance_nm: f64,
    /// At what confidence the verdict is given.
    pub confidence: f64,
    /// The share of cases that is enough: once it is out of reach, no more
    /// cases are drawn, and what is answered is below it.
    pub enough: f64,
}

impl Settled {
    /// Whether a chance of being inside settles the verdict.
    fn by(&self, chance: f64) -> bool {
        Verdict::at(chance, self.confidence) != Verdict::TooClose
    }

    /// Whether a chance settles it that lies between two, where both say the
    /// same.
    fn by_one_between(&self, least: f64, most: f64) -> Option<bool> {
        let [least, most] = [least, most].map(|chance| Verdict::at(chance, self.confidence));
        (least == most).then_some(least != Verdict::TooClose)
    }

    /// The share of the cases, by whether each settles the verdict; `None` where
    /// one cannot be reckoned.
    fn share(&self, mut settles: impl FnMut() -> Option<bool>) -> Option<f64> {
        let may_fail = ((1.0 - self.enough) * CASES as f64 + 1e-9).floor() as usize;
        let mut failed = 0;
        for case in 0..CASES {
            failed += usize::from(!settles()?);
            if failed > may_fail {
                let share = 1.0 - failed as f64 / (case + 1) as f64;
                return Some(share.min(1.0 - failed as f64 / CASES as f64));
            }
        }
        Some(1.0 - failed as f64 / CASES as f64)
    }
}

/// The piece's further readings, drawn always alike.
pub struct FurtherReadings<'a> {
    piece: &'a Piece,
    scores: Vec<f64>,
}

impl<'a> FurtherReadings<'a> {
    /// Of a piece.
    pub fn of(piece: &'a Piece) -> Self {
        Self {
            piece,
            scores: scores(piece.stations().len(), DRAWS, &mut Kept::default()),
        }
    }

    /// The share of cases in which the verdict on the piece is settled once the
    /// means of its readings are known to these standard deviations (nm, one per
    /// station). `None` for deviations that make no sense.
    ///
    /// With means y of variance D now, expected N(m, P), and means y' of
    /// variance D' <= D later, y is y' with an error of variance D - D': what y'
    /// may become is N(m, P + D') updated by that.
    pub fn settle(&self, deviations_nm: &[f64], settled: &Settled) -> Option<f64> {
        let (read_nm, read_deviations) = self.piece.read();
        let n = read_nm.len();
        if deviations_nm.len() != n || !deviations_nm.iter().all(|d| d.is_finite()) {
            return None;
        }
        let parts = self.piece.expected().parts().iter().map(|(weight, part)| {
            let mut covariance = part.covariance().to_vec();
            for (index, sd) in deviations_nm.iter().enumerate() {
                covariance[index * n + index] += sd * sd;
            }
            Ok((*weight, Gaussian::new(part.mean().to_vec(), covariance)?))
        });
        let parts: Result<Vec<_>, GaussianError> = parts.collect();
        let mut later = Mixture::new(parts.ok()?).ok()?;
        let lost = read_deviations.iter().zip(deviations_nm);
        let lost = lost.map(|(now, then)| (now * now - then * then).max(0.0));
        later.observe(&readings(read_nm, lost)).ok()?;
        let mut parts = Vec::with_capacity(later.parts().len());
        for (weight, part) in later.parts() {
            let mut factor = part.covariance().to_vec();
            cholesky_semidefinite(&mut factor, n).ok()?;
            parts.push((*weight, part.mean(), factor));
        }
        let mut draws = Draws::new(Purpose::Settling);
        settled.share(|| {
            let mut which = draws.uniform();
            let drawn = parts.iter().find(|(weight, ..)| {
                which -= weight;
                which <= 0.0
            });
            let (_, mean, factor) = drawn.or(parts.last())?;
            let mut means = mean.to_vec();
            add_drawn(&mut means, factor, &mut draws);
            let tolerance_nm = settled.tolerance_nm;
            // The draws are left as soon as those to come can change nothing.
            let (mut inside, mut open, mut found) = (0.0, 1.0, None);
            let chance = self.piece.chance_of_means(
                &means,
                deviations_nm,
                tolerance_nm,
                &self.scores,
                &mut |chance, weight| {
                    inside += weight * chance / DRAWS as f64;
                    open -= weight / DRAWS as f64;
                    found = settled.by_one_between(inside - ROUNDING, inside + open + ROUNDING);
                    found.is_none()
                },
            )?;
            Some(found.unwrap_or_else(|| settled.by(chance)))
        })
    }
}

/// The share of cases in which the verdict on the press's mean profile is
/// settled once so many further pieces were laced with the nuts as they are,
/// and read at the stations and as often as the last one.
///
/// # Errors
/// [`PlanError`] when no station counts or the tolerance is no length.
pub fn settled_by_lacings(
    posterior: &Posterior,
    counting: &[usize],
    lacings: usize,
    settled: &Settled,
    scratch: &mut PredictiveScratch,
) -> Result<f64, PlanError> {
    check_tolerance(settled.tolerance_nm)?;
    let mut after = posterior.clone();
    for _ in 0..lacings {
        after = after.after_pass_as_expected(&LEAVE)?;
    }
    let (draws, kept) = (OUTLOOK_DRAWS, &mut scratch.kept);
    let outlook = PredictiveDraws::of_nuts_left(&after, counting, draws, Purpose::Chance, kept)?;
    let widening = posterior.widening();
    let (now, then) = (posterior.press_after(&[]), after.press_after(&[]));
    let all = now.mean_nm.len();
    let n = counting.len();
    let mut factor = Vec::with_capacity(n * n);
    for s in counting {
        let lost = |t: &usize| now.covariance[s * all + t] - then.covariance[s * all + t];
        factor.extend(counting.iter().map(|t| widening * lost(t)));
    }
    cholesky_semidefinite(&mut factor, n)?;
    let mut draws = Draws::new(Purpose::Settling);
    let share = settled.share(|| {
        let mut by = vec![0.0; n];
        add_drawn(&mut by, &factor, &mut draws);
        let chance = outlook.press_chance(&by, settled.tolerance_nm);
        Some(settled.by(chance))
    });
    Ok(share.unwrap_or(0.0))
}

/// Adds a draw of the normal distribution with this Cholesky factor.
fn add_drawn(values: &mut [f64], factor: &[f64], draws: &mut Draws) {
    let n = values.len();
    for column in 0..n {
        let score = draws.normal();
        for row in column..n {
            values[row] += factor[row * n + column] * score;
        }
    }
}
