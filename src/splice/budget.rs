//! Uncertainty budgets: what a standard uncertainty is made of.

use crate::units::Length;

use super::{Profile, Scatter, ScatterSource};
use crate::stats::student_critical;

/// What an uncertainty comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cause {
    /// Readings of one place differ: the repeatability over the square root
    /// of so many readings.
    Repeats(usize),
    /// The gauge shows whole steps only: what of that no repeat averages.
    Step,
    /// One lacing differs from the next.
    Lacing,
}

/// The distribution a contribution is taken to have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Distribution {
    /// Normal.
    Normal,
    /// Within half a step of the gauge either way.
    Rounding,
}

/// Where the reckoning of a contribution is laid down.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Source {
    /// JCGM 100:2008, 4.2: type A, from repeated observations.
    TypeA,
    /// JCGM 100:2008, 4.3: type B, from other knowledge.
    TypeB,
    /// The theory of quantization; see [`MeanVariance`].
    Quantization,
}

/// One line of a budget.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Contribution {
    /// What it comes from.
    pub cause: Cause,
    /// Standard uncertainty it contributes, in nanometres.
    pub u_nm: f64,
    /// Its distribution.
    pub distribution: Distribution,
    /// The scatter it was reckoned from; `None` for the step.
    pub scatter: Option<Scatter>,
    /// Where the reckoning is laid down.
    pub source: Source,
}

/// A standard uncertainty and everything it is made of. The scale error of
/// the gauge is not among it, on purpose: all readings of one gauge share it,
/// so it cancels in every difference.
#[derive(Debug, Clone, PartialEq)]
pub struct Budget {
    /// The lines.
    pub contributions: Vec<Contribution>,
    /// Combined standard uncertainty in nanometres: the root of the sum of
    /// squares (JCGM 100:2008, equation 10).
    pub u_nm: f64,
    /// Effective degrees of freedom (Welch-Satterthwaite, JCGM 100:2008,
    /// equation G.2b); infinite when every line is taken as known.
    pub dof: f64,
}

impl Budget {
    /// Combines independent contributions. Lines that were reckoned from one
    /// and the same scatter share its doubt, so their degrees of freedom
    /// count once.
    pub fn of(contributions: Vec<Contribution>) -> Self {
        let mut groups: Vec<(Option<Scatter>, f64)> = Vec::new();
        for line in &contributions {
            let square = line.u_nm * line.u_nm;
            match groups.iter_mut().find(|group| group.0 == line.scatter) {
                Some(group) => group.1 += square,
                None => groups.push((line.scatter, square)),
            }
        }
        let parts = groups.into_iter().map(|(scatter, square)| {
            let dof = scatter.map_or(f64::INFINITY, |scatter| scatter.dof);
            (square.sqrt(), dof)
        });
        let (u_nm, dof) = combined(parts);
        Self {
            contributions,
            u_nm,
            dof,
        }
    }

    /// The budget of one station mean of `repeats` readings, after
    /// [`MeanVariance`]. With `lacing` it is the uncertainty of the press's
    /// own profile, without it that of this piece.
    pub fn of_station(
        repeats: usize,
        repeatability: Scatter,
        step: Length,
        lacing: Option<Scatter>,
    ) -> Self {
        let mean = MeanVariance::of(repeatability.sd_nm, step.nm_f64(), repeats);
        let mut lines = vec![
            Contribution {
                cause: Cause::Repeats(repeats.max(1)),
                u_nm: mean.averages_nm2.sqrt(),
                distribution: Distribution::Normal,
                scatter: Some(repeatability),
                source: source_of(repeatability),
            },
            Contribution {
                cause: Cause::Step,
                u_nm: mean.stays_nm2.sqrt(),
                distribution: Distribution::Rounding,
                scatter: None,
                source: Source::Quantization,
            },
        ];
        if let Some(lacing) = lacing {
            lines.push(Contribution {
                cause: Cause::Lacing,
                u_nm: lacing.sd_nm,
                distribution: Distribution::Normal,
                scatter: Some(lacing),
                source: source_of(lacing),
            });
        }
        Self::of(lines)
    }

    /// The budget of the difference of two independent station means: the
    /// lines of both. For the spread these are the thickest and the thinnest
    /// station; that other stations might be the outermost ones in truth is
    /// left to the chance, which knows them all.
    pub fn of_difference(&self, other: &Self) -> Self {
        let both = self.contributions.iter().chain(&other.contributions);
        Self::of(both.copied().collect())
    }

    /// The expanded uncertainty that holds the true value with `confidence`
    /// (between 0 and 1): Student's t at the effective degrees of freedom
    /// times the standard uncertainty (JCGM 100:2008, G.3). `None` for another
    /// confidence.
    pub fn expanded_nm(&self, confidence: f64) -> Option<f64> {
        let alpha = 1.0 - confidence;
        student_critical(alpha, self.dof).map(|t| t * self.u_nm)
    }
}

/// Variance of the mean of repeated readings of one place about its true
/// thickness, in square nanometres.
///
/// Readings are the thickness with a normal error of standard deviation sigma,
/// rounded to the step d of the gauge. The error of one rounding has variance
/// d^2/12. Of that the repeats share, whatever their number,
///
/// rho = d^2 / (2 pi^2) sum over k from 1 of exp(-4 pi^2 k^2 sigma^2 / d^2) / k^2,
///
/// the variance, over all places between two steps, of what the rounded
/// readings of one place tend to. With s^2 = sigma^2 + d^2/12, the variance of
/// one reading,
///
/// u^2 = (s^2 - rho) / n + rho.
///
/// Without scatter all readings round alike, rho = d^2/12 and no repeat helps;
/// from sigma = d/2 rho is next to nothing and the rounding averages like the
/// rest. Source: Widrow and Kollar, Quantization Noise, Cambridge 2008 (from
/// memory), the characteristic function of a rounded normal value; checked by
/// simulation in `tests/rounding.rs`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeanVariance {
    /// What repeats average: (s^2 - rho) / n.
    pub averages_nm2: f64,
    /// What they do not: rho.
    pub stays_nm2: f64,
}

impl MeanVariance {
    /// Of the mean of `repeats` readings (at least one), in nanometres.
    ///
    /// `repeatability_nm` is s, the standard deviation of readings as the
    /// gauge shows them: **with** their rounding, whether it was estimated
    /// from readings, found by a check or typed. An s below step / sqrt 12
    /// counts as that, for no gauge reads better than it rounds.
    pub fn of(repeatability_nm: f64, step_nm: f64, repeats: usize) -> Self {
        let rounding = step_nm * step_nm / 12.0;
        // What is no number stays none, so that it cannot pass for certainty.
        let not_below = |value: f64| if value < 0.0 { 0.0 } else { value };
        let normal = not_below(repeatability_nm * repeatability_nm - rounding);
        let stays_nm2 = rounding_that_stays(normal, step_nm);
        Self {
            averages_nm2: not_below(normal + rounding - stays_nm2) / repeats.max(1) as f64,
            stays_nm2,
        }
    }

    /// Both together: u^2.
    pub fn total_nm2(&self) -> f64 {
        self.averages_nm2 + self.stays_nm2
    }
}

/// rho of [`MeanVariance`] for readings whose normal error has this variance.
fn rounding_that_stays(variance_nm2: f64, step_nm: f64) -> f64 {
    use core::f64::consts::PI;
    if step_nm == 0.0 {
        return 0.0;
    }
    let square = 4.0 * PI * PI * variance_nm2 / (step_nm * step_nm);
    let sum = if square < 0.25 {
        // The same sum by Poisson's formula, where it converges slowly: what
        // is left out is below exp(-pi^2 / square) = 1e-17.
        PI * PI / 6.0 - (PI * square).sqrt() + square / 2.0
    } else {
        // The next term is below exp(-0.25 * 13^2) = 1e-18.
        let terms = (1..=12).map(|k| f64::from(k * k));
        terms.map(|k2| libm::exp(-square * k2) / k2).sum()
    };
    step_nm * step_nm / (2.0 * PI * PI) * sum
}

/// Standard uncertainty of one rounding to a gauge's step, in nanometres:
/// step / sqrt 12 (JCGM 100:2008, F.2.2.1).
pub fn step_u_nm(step: Length) -> f64 {
    step.nm_f64().abs() / 12_f64.sqrt()
}

/// Standard uncertainty and effective degrees of freedom of a sum of
/// independent parts, each given by its uncertainty and degrees of freedom:
/// u^2 = sum u_i^2 and u^4 / freedom = sum u_i^4 / freedom_i.
pub fn combined(parts: impl Iterator<Item = (f64, f64)> + Clone) -> (f64, f64) {
    let variance: f64 = parts.clone().map(|(u, _)| u * u).sum();
    // Shares of the variance, so that no fourth power overflows.
    let doubt: f64 = parts
        .map(|(u, dof)| {
            let share = if variance > 0.0 {
                u * u / variance
            } else {
                0.0
            };
            share * share / dof
        })
        .sum();
    let dof = if doubt > 0.0 {
        1.0 / doubt
    } else {
        f64::INFINITY
    };
    (variance.sqrt(), dof)
}

fn source_of(scatter: Scatter) -> Source {
    match scatter.source {
        ScatterSource::GaugeCheck | ScatterSource::Repeats(_) | ScatterSource::Lacings(_) => {
            Source::TypeA
        }
        ScatterSource::Typed | ScatterSource::Assumed => Source::TypeB,
    }
}

/// Budgets of every station mean of a profile; `None` where nothing was read.
pub fn station_budgets(
    profile: &Profile,
    repeatability: Scatter,
    step: Length,
    lacing: Option<Scatter>,
) -> Vec<Option<Budget>> {
    let budget = |repeats| Budget::of_station(repeats, repeatability, step, lacing);
    profile
        .means
        .iter()
        .map(|mean| mean.map(|mean| budget(mean.repeats)))
        .collect()
}
