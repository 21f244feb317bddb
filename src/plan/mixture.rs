//! Several normal distributions of which one holds, and what observations say
//! of which.
//!
//! Observations are taken into every part exactly; by Bayes' rule a part's
//! weight is then multiplied by the density that it gave them. What is asked of
//! the whole is answered by the normal distribution with its mean and
//! covariance:
//!
//! ```text
//! m = sum_j w_j m_j        P = sum_j w_j (P_j + (m_j - m) (m_j - m)')
//! ```
//!
//! (for example Gelman et al., Bayesian Data Analysis, chapter 22; from memory).

use crate::stats::{Gaussian, GaussianError, Innovation, Observations};

/// Parts less likely than this are given up.
const LEAST_WEIGHT: f64 = 1e-9;

/// A mixture of normal distributions of the same quantities.
#[derive(Debug, Clone)]
pub(super) struct Mixture {
    /// Weights, adding up to one, and distributions; at least one.
    parts: Vec<(f64, Gaussian)>,
    /// Mean and covariance of the whole, where there are several parts.
    matched: Option<Gaussian>,
}

impl Mixture {
    /// Of parts with weights, which are taken in proportion; parts of no weight
    /// are left out.
    ///
    /// # Errors
    /// [`GaussianError::Shape`] without a part or for parts of different
    /// sizes; [`GaussianError::NotFinite`].
    pub fn new(mut parts: Vec<(f64, Gaussian)>) -> Result<Self, GaussianError> {
        let total: f64 = parts.iter().map(|(weight, _)| weight).sum();
        if !(total.is_finite() && total > 0.0) {
            return Err(GaussianError::NotFinite);
        }
        parts.iter_mut().for_each(|(weight, _)| *weight /= total);
        parts.retain(|(weight, _)| *weight >= LEAST_WEIGHT);
        let matched = match &parts[..] {
            [] => return Err(GaussianError::Shape),
            [_] => None,
            several => Some(matched(several)?),
        };
        Ok(Self { parts, matched })
    }

    /// The parts with their weights, which add up to one.
    pub fn parts(&self) -> &[(f64, Gaussian)] {
        &self.parts
    }

    /// The normal distribution with the mean and covariance of the whole.
    pub fn whole(&self) -> &Gaussian {
        self.matched.as_ref().unwrap_or(&self.parts[0].1)
    }

    /// How surprising observations would be; nothing is learnt. The distance is
    /// the mean of that from every part, as likely as it then is.
    ///
    /// # Errors
    /// See [`GaussianError`].
    pub fn innovation(&self, observations: &Observations) -> Result<Innovation, GaussianError> {
        let parts = self.parts.iter();
        let innovations: Result<Vec<_>, _> = parts
            .map(|(weight, part)| Ok((*weight, part.innovation(observations)?)))
            .collect();
        Ok(weighed(&innovations?).0)
    }

    /// Takes observations in and says how surprising they were.
    ///
    /// # Errors
    /// See [`GaussianError`]; nothing has then been posterior.
    pub fn observe(&mut self, observations: &Observations) -> Result<Innovation, GaussianError> {
        if let [(_, only)] = &mut self.parts[..] {
            return only.observe(observations);
        }
        let mut parts = self.parts.clone();
        let mut innovations = Vec::with_capacity(parts.len());
        for (weight, part) in &mut parts {
            innovations.push((*weight, part.observe(observations)?));
        }
        let (innovation, weights) = weighed(&innovations);
        for ((weight, _), after) in parts.iter_mut().zip(weights) {
            *weight = after;
        }
        *self = Self::new(parts)?;
        Ok(innovation)
    }
}

/// The only part.
impl From<Gaussian> for Mixture {
    fn from(only: Gaussian) -> Self {
        Self {
            parts: vec![(1.0, only)],
            matched: None,
        }
    }
}

/// The surprise of the whole, and the weights after it.
fn weighed(innovations: &[(f64, Innovation)]) -> (Innovation, Vec<f64>) {
    let logs = || {
        let each = innovations.iter();
        each.map(|(weight, innovation)| libm::log(*weight) + innovation.log_density)
    };
    let most = logs().fold(f64::NEG_INFINITY, f64::max);
    let mut weights: Vec<f64> = logs().map(|log| libm::exp(log - most)).collect();
    let total: f64 = weights.iter().sum();
    weights.iter_mut().for_each(|weight| *weight /= total);
    let distances = innovations.iter().zip(&weights);
    let innovation = Innovation {
        chi_square: distances
            .map(|((_, s), weight)| weight * s.chi_square)
            .sum(),
        dof: innovations.first().map_or(0, |(_, s)| s.dof),
        log_density: most + libm::log(total),
    };
    (innovation, weights)
}

fn matched(parts: &[(f64, Gaussian)]) -> Result<Gaussian, GaussianError> {
    let n = parts.iter().map(|(_, part)| part.len()).max().unwrap_or(0);
    if parts.iter().any(|(_, part)| part.len() != n) {
        return Err(GaussianError::Shape);
    }
    let mut mean = vec![0.0; n];
    for (weight, part) in parts {
        crate::stats::add_scaled(&mut mean, *weight, part.mean());
    }
    let mut covariance = vec![0.0; n * n];
    for (weight, part) in parts {
        crate::stats::add_scaled(&mut covariance, *weight, part.covariance());
        let off: Vec<f64> = part.mean().iter().zip(&mean).map(|(a, b)| a - b).collect();
        for (row, by) in covariance.chunks_exact_mut(n.max(1)).zip(&off) {
            crate::stats::add_scaled(row, weight * by, &off);
        }
    }
    Gaussian::new(mean, covariance)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// One quantity, believed N(0, 1) or N(0, 9) with 0.7 to 0.3, observed as 3
    /// with variance 0.5.
    ///
    /// ```text
    /// python3 -c "
    /// from scipy.stats import norm
    /// w = [.7, .3]; v = [1., 9.]; s = .5; y = 3.
    /// d = [a * norm.pdf(y, 0, (b + s) ** .5) for a, b in zip(w, v)]
    /// p = [x / sum(d) for x in d]; m = [y * b / (b + s) for b in v]
    /// M = sum(a * b for a, b in zip(p, m))
    /// V = sum(a * (b * s / (b + s) + (c - M) ** 2) for a, b, c in zip(p, v, m))
    /// import math; print(p[0], M, V, math.log(sum(d)))"
    /// ```
    #[test]
    fn weights_mean_and_variance_are_those_of_bayes_rule() {
        let part = |variance| Gaussian::new(vec![0.0], vec![variance]).unwrap();
        let mut mixture = Mixture::new(vec![(0.7, part(1.0)), (0.3, part(9.0))]).unwrap();
        let observations = Observations {
            rows: vec![vec![(0, 1.0)]],
            values: vec![3.0],
            noise: vec![0.5],
        };
        let expected = mixture.innovation(&observations).unwrap();
        let innovation = mixture.observe(&observations).unwrap();
        assert_eq!(innovation, expected);
        let found = [
            mixture.parts()[0].0,
            mixture.whole().mean()[0],
            mixture.whole().variance(0),
            innovation.log_density,
        ];
        let values = [
            0.319_492_600_041_779_6,
            2.573_058_863_122_712_5,
            0.583_022_567_985_205_6,
            -3.337_324_864_706_126,
        ];
        for (found, value) in found.iter().zip(values) {
            assert!((found - value).abs() < 1e-9, "{found} {value}");
        }
    }
}
