//! Scatter that is estimated and not known.

use crate::splice::combined;
use crate::stats::chi_square_quantile;

use super::noise::Noise;
use super::passes::StationReading;

/// How many times a scatter may be what it was estimated to be, each as likely
/// as the others; 1 alone where it is as good as known.
///
/// Given an estimate s with f degrees of freedom the true scatter is
/// s sqrt(f / chi^2_f), chi^2_f a chi-square value with f degrees of freedom
/// (Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, section 3.2), so what
/// it scatters is Student's t: a mixture of normals over that scale. The
/// mixture here has [`SCALES`] equal parts, at the middles of equal shares of
/// the chi-square distribution.
pub(super) fn scales(dof: f64) -> Vec<f64> {
    if dof > KNOWN_FREEDOM {
        return vec![1.0];
    }
    let share = |node: usize| (node as f64 + 0.5) / SCALES as f64;
    let scale = |node| {
        let value = chi_square_quantile(share(node), dof)?;
        Some((dof / value).sqrt().min(MOST_SCALE))
    };
    (0..SCALES).map(|node| scale(node).unwrap_or(1.0)).collect()
}

/// Parts of the mixture of scales.
const SCALES: usize = 4;
/// Degrees of freedom from which a scatter is as good as known: one in a
/// hundred either way.
const KNOWN_FREEDOM: f64 = 5_000.0;
/// No scatter is so many times what it was estimated to be.
const MOST_SCALE: f64 = 10.0;

/// How many times what they were estimated to be scatters are, draw by draw:
/// estimated scatter is not known scatter.
#[derive(Debug, Clone, Default)]
pub(super) struct Scales {
    /// Of lacings, and of what the profile is known with, for each draw; none
    /// where all is known.
    of_draw: Vec<(f64, f64)>,
}

impl Scales {
    /// The scatter of lacings may be r times as large, that of station means,
    /// lacing and reading together, likewise; a draw has both small or both
    /// large. What is open of the profile does not grow as much, as far as it
    /// was held by what was expected of the profile before: with the variance V
    /// open, t^2 expected before and readings that weigh 1/V - 1/t^2, it grows
    /// with
    ///
    /// r^2 / (1 + (r^2 - 1) V / t^2).
    pub fn of(
        noise: &Noise,
        means: &[f64],
        open_nm2: f64,
        shares: impl FnOnce() -> Vec<f64>,
    ) -> Self {
        let lacings = scales(noise.lacing_freedom);
        let count = means.len().max(lacings.len());
        if count < 2 {
            return Self::default();
        }
        let held = (open_nm2 / noise.deviation_variance()).clamp(0.0, 1.0);
        let nodes = (0..count).map(|node| {
            let at = |scales: &[f64]| scales.get(node).copied().unwrap_or(1.0);
            let square = at(means) * at(means);
            let profile = (square / (1.0 + (square - 1.0) * held)).sqrt();
            (at(&lacings), profile)
        });
        let nodes: Vec<(f64, f64)> = nodes.collect();
        let node = |share: &f64| nodes[((share * count as f64) as usize).min(count - 1)];
        Self {
            of_draw: shares().iter().map(node).collect(),
        }
    }

    /// Of the lacing scatter of a draw.
    pub fn lacing(&self, draw: usize) -> f64 {
        self.of_draw.get(draw).map_or(1.0, |(lacing, _)| *lacing)
    }

    /// Of what is open of the profile of a draw.
    pub fn profile(&self, draw: usize) -> f64 {
        self.of_draw.get(draw).map_or(1.0, |(_, profile)| *profile)
    }
}

/// How many times what it was estimated to be the scatter of station means may
/// be, lacing and reading of the last piece together.
pub(super) fn of_means(noise: &Noise, last: &[Option<StationReading>]) -> Vec<f64> {
    let reading = noise.reading_variance(least_repeats(last)).sqrt();
    let parts = [
        (noise.lacing_nm, noise.lacing_freedom),
        (reading, noise.repeatability_freedom),
    ];
    scales(combined(parts.into_iter()).1)
}

/// How many readings the least read station has; one where none is read.
pub(super) fn least_repeats(readings: &[Option<StationReading>]) -> u32 {
    let repeats = readings.iter().flatten().map(|reading| reading.repeats);
    repeats.min().unwrap_or(1)
}

/// Variance of the profile's deviations from level that a known response
/// leaves open, by the factor of the covariance of response and profile.
pub(super) fn open_variance(factor: &[f64], stations: usize, arms: usize) -> f64 {
    let (begin, n) = (stations * arms, stations * (arms + 1));
    let columns = (begin..n).map(|column| {
        // Above the diagonal the factor is zero, whatever stands there.
        let below = move |row: usize| {
            if row < column {
                0.0
            } else {
                factor[row * n + column]
            }
        };
        let weights = || (begin..n).map(below);
        let mean = weights().sum::<f64>() / stations as f64;
        weights().map(|w| (w - mean) * (w - mean)).sum::<f64>()
    });
    columns.sum::<f64>() / stations.saturating_sub(1).max(1) as f64
}
