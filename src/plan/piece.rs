//! One piece: what its readings say of its true thickness, with what was
//! expected of it before.
//!
//! Before its readings the piece is expected to be the press's profile with the
//! nuts as they stand, by all that earlier passes taught, plus the shift, tilt
//! and lacing scatter of one piece. Its readings are that thickness with the
//! error of the gauge. Both are normal, so one exact conditional update gives
//! the thickness after them. Readings alone would hold any profile as likely
//! as any other beforehand; on a press that is known to be near level they then
//! make too much of a large spread, most of which is gauge error.

use core::ops::Range;
use std::sync::Arc;

use super::learn::Posterior;
use super::mixture::Mixture;
use super::scales::scales;
use crate::press::wide;
use crate::stats::{
    EvenRange, Gaussian, GaussianError, Kept, Observations, Purpose, add_scaled,
    cholesky_semidefinite,
};

/// Joint draws a chance is the mean of.
const DRAWS: usize = 512;
/// What is believed no more than this adds nothing to a chance that is shown.
const LEAST_WEIGHT: f64 = 1e-4;

/// The last piece at its counting stations that were read, as it was expected
/// to be before that.
#[derive(Debug, Clone)]
pub struct Piece {
    stations: Vec<usize>,
    /// How well those are known.
    read_deviations_nm: Vec<f64>,
    /// Thickness expected, about a common reference.
    expected: Mixture,
    /// Means of the readings, about the same reference.
    read_nm: Vec<f64>,
    lacing_nm: f64,
    /// How many times what it was estimated to be the readings may scatter.
    scales: Vec<f64>,
    /// Standard normal scores, [`DRAWS`] for each station: every chance is
    /// stated on the same ones.
    scores: Vec<f64>,
    /// The table its chances are looked up in.
    range: Arc<EvenRange>,
}

impl Piece {
    /// The last piece that was learnt from; `None` where there is none or no
    /// counting station of it was read.
    pub fn last(posterior: &Posterior, counting: &[usize], kept: &mut Kept) -> Option<Self> {
        let (before, readings) = posterior.last_pass()?;
        let noise = posterior.noise();
        let along = posterior.along();
        let (mut stations, mut read_deviations_nm, mut read_nm) = (vec![], vec![], vec![]);
        for &station in counting {
            if let Some(reading) = readings.get(station).copied().flatten() {
                stations.push(station);
                let variance = noise.reading_variance(reading.repeats);
                read_deviations_nm.push(variance.sqrt());
                read_nm.push(reading.mean_nm - posterior.reference_nm());
            }
        }
        if stations.is_empty() {
            return None;
        }
        let rows: Vec<_> = stations
            .iter()
            .map(|station| posterior.row_now(*station))
            .collect();
        let mut piece_alone = Vec::with_capacity(rows.len() * rows.len());
        for s in &stations {
            for t in &stations {
                let scatter = if s == t { noise.lacing_nm } else { 0.0 };
                piece_alone.push(
                    noise.shift_nm * noise.shift_nm
                        + noise.tilt_nm * noise.tilt_nm * along.get(*s)? * along.get(*t)?
                        + scatter * scatter,
                );
            }
        }
        let expected = before.parts().iter().map(|(weight, before)| {
            let mean = rows.iter().map(|row| before.project(row).0).collect();
            let pairs = rows.iter().flat_map(|a| rows.iter().map(move |b| (a, b)));
            let covariances = pairs.map(|(a, b)| before.covariance_of(a, b));
            let covariance = covariances.zip(&piece_alone).map(|(c, alone)| c + alone);
            Ok((*weight, Gaussian::new(mean, covariance.collect())?))
        });
        let expected: Result<Vec<_>, GaussianError> = expected.collect();
        let scores = scores(stations.len(), DRAWS, kept);
        Some(Self {
            stations,
            read_deviations_nm,
            expected: Mixture::new(expected.ok()?).ok()?,
            read_nm,
            lacing_nm: noise.lacing_nm,
            scales: scales(noise.repeatability_freedom),
            scores,
            range: kept.range(),
        })
    }

    /// What its stations' readings are expected to show, without their error.
    pub(super) fn expected(&self) -> &Mixture {
        &self.expected
    }

    /// Means of its readings about its reference, and how well they are known.
    pub(super) fn read(&self) -> (&[f64], &[f64]) {
        (&self.read_nm, &self.read_deviations_nm)
    }

    /// The stations it is about, in their order.
    pub fn stations(&self) -> &[usize] {
        &self.stations
    }

    /// Probability that the range of the true thicknesses is at most the
    /// tolerance, with the readings as they were taken.
    pub fn chance_as_read(&self, tolerance_nm: f64) -> Option<f64> {
        self.chance(&self.read_deviations_nm, tolerance_nm)
    }

    /// Probability that the range of the true thicknesses is at most the
    /// tolerance, with the readings' means known to these standard deviations
    /// (nm, one per station, in the order of [`stations`](Self::stations)).
    ///
    /// With means y of covariance D and thickness expected as N(m, P), the
    /// thickness is N(m + K (y - m), P - K P) with K = P (P + D)^-1. P is no
    /// less than lacing^2 in any direction, so the outcome is no less than the
    /// smallest lacing^2 d / (lacing^2 + d): that much is integrated exactly,
    /// the rest is drawn, always alike. Where the readings' scatter is estimated,
    /// equal parts of the draws have it smaller and larger (`scales`). `None`
    /// for deviations that are negative or not finite, or of another number.
    pub fn chance(&self, deviations_nm: &[f64], tolerance_nm: f64) -> Option<f64> {
        let (means_nm, scores) = (&self.read_nm, &self.scores);
        self.chance_of_means(
            means_nm,
            deviations_nm,
            tolerance_nm,
            scores,
            &mut |_, _| true,
        )
    }

    /// The same of other means (nm, about the piece's reference), on other
    /// standard normal scores, as many for each station. What each draw adds, a
    /// chance and its weight, is shown to `go_on`; once that says no, what is
    /// answered means nothing.
    pub(super) fn chance_of_means(
        &self,
        means_nm: &[f64],
        deviations_nm: &[f64],
        tolerance_nm: f64,
        scores: &[f64],
        go_on: &mut dyn FnMut(f64, f64) -> bool,
    ) -> Option<f64> {
        let n = self.stations.len();
        let sound = |d: &f64| d.is_finite() && *d >= 0.0;
        if deviations_nm.len() != n || !deviations_nm.iter().all(sound) || tolerance_nm.is_nan() {
            return None;
        }
        let (parts, draws) = (self.scales.len().max(1), scores.len() / n.max(1));
        let mut sum = 0.0;
        for (part, scale) in self.scales.iter().enumerate() {
            let scaled: Vec<f64> = deviations_nm.iter().map(|d| scale * d).collect();
            let draws = part * draws / parts..(part + 1) * draws / parts;
            sum += self.chances(means_nm, &scaled, tolerance_nm, scores, draws, go_on)?;
        }
        Some((sum / draws.max(1) as f64).clamp(0.0, 1.0))
    }

    /// The sum of the chances over some of the draws.
    fn chances(
        &self,
        means_nm: &[f64],
        deviations_nm: &[f64],
        tolerance_nm: f64,
        scores: &[f64],
        draws: Range<usize>,
        go_on: &mut dyn FnMut(f64, f64) -> bool,
    ) -> Option<f64> {
        let variances = deviations_nm.iter().map(|d| d * d);
        let mut thickness = self.expected.clone();
        thickness.observe(&readings(means_nm, variances)).ok()?;
        let lacing = self.lacing_nm * self.lacing_nm;
        let even = deviations_nm
            .iter()
            .map(|d| d * d * lacing / (d * d + lacing).max(1.0))
            .fold(f64::INFINITY, f64::min);
        let mut sum = 0.0;
        for (weight, thickness) in thickness.parts() {
            if *weight > LEAST_WEIGHT {
                let mut go_on = |chance: f64| go_on(chance, *weight);
                let draws = draws.clone();
                sum += weight
                    * self.chances_of(thickness, even, tolerance_nm, scores, draws, &mut go_on)?;
            }
        }
        Some(sum)
    }

    /// The sum of the chances that a deviation of the root of `even` at every
    /// station gives the draws of the rest.
    fn chances_of(
        &self,
        thickness: &Gaussian,
        even: f64,
        tolerance_nm: f64,
        scores: &[f64],
        draws: Range<usize>,
        go_on: &mut dyn FnMut(f64) -> bool,
    ) -> Option<f64> {
        let n = self.stations.len();
        let (all, count) = (scores.len() / n.max(1), draws.len());
        let mut factor = thickness.covariance().to_vec();
        for index in 0..n {
            let variance = &mut factor[index * n + index];
            *variance = (*variance - even).max(0.0);
        }
        cholesky_semidefinite(&mut factor, n).ok()?;
        let mut drawn = vec![0.0; n * count];
        for (values, mean) in drawn.chunks_exact_mut(count.max(1)).zip(thickness.mean()) {
            values.fill(*mean);
        }
        let sd = even.sqrt();
        let mut means = vec![0.0; n];
        Some(wide(
            #[inline(always)]
            || {
                for (column, scores) in scores.chunks_exact(all.max(1)).enumerate() {
                    let scores = &scores[draws.clone()];
                    for row in column..n {
                        let weight = factor[row * n + column];
                        add_scaled(&mut drawn[row * count..(row + 1) * count], weight, scores);
                    }
                }
                let mut sum = 0.0;
                for draw in 0..count {
                    for (station, mean) in means.iter_mut().enumerate() {
                        *mean = drawn[station * count + draw];
                    }
                    let chance = self.range.probability(sd, tolerance_nm, &means);
                    sum += chance;
                    if !go_on(chance) {
                        break;
                    }
                }
                sum
            },
        ))
    }
}

/// Standard normal scores, `draws` for each of `stations`.
pub(super) fn scores(stations: usize, draws: usize, kept: &mut Kept) -> Vec<f64> {
    kept.cube(draws, Purpose::Piece).normals(stations).concat()
}

/// Independent readings of every station with these means and variances.
pub(super) fn readings(means_nm: &[f64], variances: impl Iterator<Item = f64>) -> Observations {
    let n = means_nm.len();
    let mut noise = vec![0.0; n * n];
    for (index, variance) in variances.enumerate().take(n) {
        // A nanometre always remains, so that nothing is divided by nought.
        noise[index * n + index] = variance + 1.0;
    }
    Observations {
        rows: (0..n).map(|index| vec![(index, 1.0)]).collect(),
        values: means_nm.to_vec(),
        noise,
    }
}
