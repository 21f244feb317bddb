//! Uncertainty budgets: what a standard uncertainty is made of.

use crate::units::Length;

use super::student::student_critical;
use super::{Profile, Scatter, ScatterSource};

/// What an uncertainty comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cause {
    /// Readings of one place differ: the repeatability over the square root
    /// of so many readings.
    Repeats(usize),
    /// The gauge shows whole steps only.
    Step,
    /// One lacing differs from the next.
    Lacing,
}

/// The distribution a contribution is taken to have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Distribution {
    /// Normal.
    Normal,
    /// Even over an interval.
    Rectangular,
}

/// Where the reckoning of a contribution is laid down.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Source {
    /// JCGM 100:2008, 4.2: type A, from repeated observations.
    TypeA,
    /// JCGM 100:2008, 4.3: type B, from other knowledge.
    TypeB,
    /// JCGM 100:2008, F.2.2.1: resolution of a digital indication, step over
    /// the square root of 12.
    Resolution,
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
    pub freedom: f64,
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
            let freedom = scatter.map_or(f64::INFINITY, |scatter| scatter.freedom);
            (square.sqrt(), freedom)
        });
        let (u_nm, freedom) = combined(parts);
        Self {
            contributions,
            u_nm,
            freedom,
        }
    }

    /// The budget of one station mean of `repeats` readings: the repeatability
    /// averages, the step does not, since readings that scatter less than the
    /// step all round to the same side. With `lacing` it is the uncertainty
    /// of the press's own profile, without it that of this piece.
    pub fn of_station(
        repeats: usize,
        repeatability: Scatter,
        step: Length,
        lacing: Option<Scatter>,
    ) -> Self {
        let mut lines = vec![
            Contribution {
                cause: Cause::Repeats(repeats.max(1)),
                u_nm: repeatability.sd_nm / (repeats.max(1) as f64).sqrt(),
                distribution: Distribution::Normal,
                scatter: Some(repeatability),
                source: source_of(repeatability),
            },
            Contribution {
                cause: Cause::Step,
                u_nm: step_u_nm(step),
                distribution: Distribution::Rectangular,
                scatter: None,
                source: Source::Resolution,
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
        student_critical(alpha, self.freedom).map(|t| t * self.u_nm)
    }

    /// The line that contributes most.
    pub fn largest(&self) -> Option<&Contribution> {
        self.contributions
            .iter()
            .reduce(|most, line| if line.u_nm > most.u_nm { line } else { most })
    }
}

/// Standard uncertainty of a gauge's step in nanometres: step / sqrt 12.
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
        .map(|(u, freedom)| {
            let share = if variance > 0.0 {
                u * u / variance
            } else {
                0.0
            };
            share * share / freedom
        })
        .sum();
    let freedom = if doubt > 0.0 {
        1.0 / doubt
    } else {
        f64::INFINITY
    };
    (variance.sqrt(), freedom)
}

fn source_of(scatter: Scatter) -> Source {
    match scatter.source {
        ScatterSource::GaugeCheck | ScatterSource::Repeats(_) => Source::TypeA,
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
