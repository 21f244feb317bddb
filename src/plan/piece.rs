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

use super::draws::{Purpose, Strata};
use super::even_range::EvenRange;
use super::gaussian::{Gaussian, Observations, add_scaled, cholesky_semidefinite};
use super::learn::Learnt;
use super::scales::scales;

/// Joint draws a chance is the mean of.
const DRAWS: usize = 512;

/// The last piece at its counting stations that were read, as it was expected
/// to be before that.
#[derive(Debug, Clone)]
pub struct Piece {
    stations: Vec<usize>,
    /// How well those are known.
    read_deviations_nm: Vec<f64>,
    /// Thickness expected, about a common reference.
    expected: Gaussian,
    /// Means of the readings, about the same reference.
    read_nm: Vec<f64>,
    lacing_nm: f64,
    /// How many times what it was estimated to be the readings may scatter.
    scales: Vec<f64>,
    /// Standard normal scores, [`DRAWS`] for each station: every chance is
    /// stated on the same ones.
    scores: Vec<f64>,
    /// The table its chances are looked up in.
    range: EvenRange,
}

impl Piece {
    /// The last piece that was learnt from; `None` where there is none or no
    /// counting station of it was read.
    pub fn last(learnt: &Learnt, counting: &[usize]) -> Option<Self> {
        let (before, readings) = learnt.last_pass()?;
        let noise = learnt.noise();
        let along = learnt.along();
        let mut piece = Self {
            stations: Vec::new(),
            read_deviations_nm: Vec::new(),
            expected: Gaussian::new(Vec::new(), Vec::new()).ok()?,
            read_nm: Vec::new(),
            lacing_nm: noise.lacing_nm,
            scales: scales(noise.repeatability_freedom),
            scores: Vec::new(),
            range: EvenRange::new(1.0, 1.0),
        };
        for &station in counting {
            if let Some(reading) = readings.get(station).copied().flatten() {
                piece.stations.push(station);
                let variance = noise.reading_variance(reading.repeats);
                piece.read_deviations_nm.push(variance.sqrt());
                piece.read_nm.push(reading.mean_nm - learnt.reference_nm());
            }
        }
        if piece.stations.is_empty() {
            return None;
        }
        let rows: Vec<_> = piece
            .stations
            .iter()
            .map(|station| learnt.row_now(*station))
            .collect();
        let mean = rows.iter().map(|row| before.project(row).0).collect();
        let mut covariance = Vec::with_capacity(rows.len() * rows.len());
        for (a, s) in rows.iter().zip(&piece.stations) {
            for (b, t) in rows.iter().zip(&piece.stations) {
                let piece_alone = noise.shift_nm * noise.shift_nm
                    + noise.tilt_nm * noise.tilt_nm * along.get(*s)? * along.get(*t)?;
                let scatter = if s == t {
                    noise.lacing_nm * noise.lacing_nm
                } else {
                    0.0
                };
                covariance.push(before.covariance_of(a, b) + piece_alone + scatter);
            }
        }
        piece.expected = Gaussian::new(mean, covariance).ok()?;
        let mut strata = Strata::new(DRAWS, Purpose::Piece);
        for _ in &piece.stations {
            piece.scores.extend_from_slice(strata.next_normal());
        }
        Some(piece)
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
    /// equal parts of the draws have it smaller and larger ([`scales`]). `None` for deviations that are negative
    /// or not finite, or of another number.
    pub fn chance(&self, deviations_nm: &[f64], tolerance_nm: f64) -> Option<f64> {
        let n = self.stations.len();
        let sound = |d: &f64| d.is_finite() && *d >= 0.0;
        if deviations_nm.len() != n || !deviations_nm.iter().all(sound) || tolerance_nm.is_nan() {
            return None;
        }
        let parts = self.scales.len().max(1);
        let mut sum = 0.0;
        for (part, scale) in self.scales.iter().enumerate() {
            let scaled: Vec<f64> = deviations_nm.iter().map(|d| scale * d).collect();
            let draws = part * DRAWS / parts..(part + 1) * DRAWS / parts;
            sum += self.chances(&scaled, tolerance_nm, draws)?;
        }
        Some((sum / DRAWS as f64).clamp(0.0, 1.0))
    }

    /// The sum of the chances over some of the draws.
    fn chances(
        &self,
        deviations_nm: &[f64],
        tolerance_nm: f64,
        draws: Range<usize>,
    ) -> Option<f64> {
        let n = self.stations.len();
        let count = draws.len();
        let mut noise = vec![0.0; n * n];
        for (index, deviation) in deviations_nm.iter().enumerate() {
            // A nanometre always remains, so that nothing is divided by nought.
            noise[index * n + index] = deviation * deviation + 1.0;
        }
        let mut thickness = self.expected.clone();
        let observations = Observations {
            rows: (0..n).map(|index| vec![(index, 1.0)]).collect(),
            values: self.read_nm.clone(),
            noise,
        };
        thickness.observe(&observations).ok()?;
        let lacing = self.lacing_nm * self.lacing_nm;
        let even = deviations_nm
            .iter()
            .map(|d| d * d * lacing / (d * d + lacing).max(1.0))
            .fold(f64::INFINITY, f64::min);
        let mut factor = thickness.covariance().to_vec();
        for index in 0..n {
            let variance = &mut factor[index * n + index];
            *variance = (*variance - even).max(0.0);
        }
        cholesky_semidefinite(&mut factor, n).ok()?;
        let mut drawn = vec![0.0; n * count];
        for (values, mean) in drawn.chunks_exact_mut(count).zip(thickness.mean()) {
            values.fill(*mean);
        }
        for (column, scores) in self.scores.chunks_exact(DRAWS).enumerate() {
            let scores = &scores[draws.clone()];
            for row in column..n {
                let weight = factor[row * n + column];
                add_scaled(&mut drawn[row * count..(row + 1) * count], weight, scores);
            }
        }
        let range = self.range.clone().put_to(even.sqrt(), tolerance_nm);
        let mut means = vec![0.0; n];
        let mut sum = 0.0;
        for draw in 0..count {
            for (station, mean) in means.iter_mut().enumerate() {
                *mean = drawn[station * count + draw];
            }
            sum += range.probability(&means);
        }
        Some(sum)
    }
}
