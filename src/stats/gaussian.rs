//! Normal distributions of many quantities and what linear observations with
//! normal noise teach about them.
//!
//! For x ~ N(m, P) and y = H x + e, e ~ N(0, R):
//!
//! ```text
//! S = H P H' + R = L L'          W = L^-1 H P
//! m <- m + W' L^-1 (y - H m)     P <- P - W' W
//! ```
//!
//! (for example Rasmussen & Williams, Gaussian Processes for Machine Learning,
//! MIT Press 2006, appendix A.2). The downdate subtracts a square and so keeps
//! P symmetric to the last bit; what rounding can take from its diagonal is
//! about 1e-16 of the largest variance it ever held. All sums run in a fixed
//! order.

use super::factor::{GaussianError, add_scaled, cholesky, dot, solve_lower_rows};

/// A row of H: (index, weight), each index at most once.
pub type SparseRow = Vec<(usize, f64)>;

/// Observations that share one noise covariance.
#[derive(Debug, Clone, Default)]
pub struct Observations {
    /// Rows of H.
    pub rows: Vec<SparseRow>,
    /// Observed values, one per row.
    pub values: Vec<f64>,
    /// Covariance of the noise, row by row.
    pub noise: Vec<f64>,
}

/// How far observations lie from what was expected.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Innovation {
    /// Squared distance (y - H m)' S^-1 (y - H m): chi-square distributed
    /// when the model holds.
    pub chi_square: f64,
    /// Its degrees of freedom: the number of observations.
    pub dof: usize,
    /// Natural logarithm of the density of the observations.
    pub log_density: f64,
}

/// A normal distribution of `len` quantities, possibly degenerate.
#[derive(Debug, Clone, PartialEq)]
pub struct Gaussian {
    mean: Vec<f64>,
    covariance: Vec<f64>,
}

impl Gaussian {
    /// From the mean and the covariance (row by row; only its lower triangle
    /// is read).
    ///
    /// # Errors
    /// [`GaussianError::Shape`] unless the covariance has mean.len()^2 values;
    /// [`GaussianError::NotFinite`]; [`GaussianError::NotPositive`] for a
    /// negative variance.
    pub fn new(mean: Vec<f64>, mut covariance: Vec<f64>) -> Result<Self, GaussianError> {
        let n = mean.len();
        if n.checked_mul(n) != Some(covariance.len()) {
            return Err(GaussianError::Shape);
        }
        if !mean.iter().chain(&covariance).all(|v| v.is_finite()) {
            return Err(GaussianError::NotFinite);
        }
        for i in 0..n {
            if covariance[i * n + i] < 0.0 {
                return Err(GaussianError::NotPositive);
            }
            for j in 0..i {
                covariance[j * n + i] = covariance[i * n + j];
            }
        }
        Ok(Self { mean, covariance })
    }

    /// Number of quantities.
    #[allow(clippy::len_without_is_empty, reason = "none is without any")]
    pub fn len(&self) -> usize {
        self.mean.len()
    }

    /// Means of all quantities.
    pub fn mean(&self) -> &[f64] {
        &self.mean
    }

    /// Covariances of quantity `i` with all quantities; empty out of range.
    pub fn covariance_row(&self, i: usize) -> &[f64] {
        let n = self.len();
        self.covariance.get(i * n..(i + 1) * n).unwrap_or(&[])
    }

    /// Variance of quantity `i`, never negative; zero out of range.
    pub fn variance(&self, i: usize) -> f64 {
        let variance = self.covariance_row(i).get(i).copied().unwrap_or(0.0);
        variance.max(0.0)
    }

    /// All covariances, row by row.
    pub fn covariance(&self) -> &[f64] {
        &self.covariance
    }

    /// Mean and variance of sum_j weight_j x_j; indices out of range count
    /// nothing.
    pub fn project(&self, row: &[(usize, f64)]) -> (f64, f64) {
        let mean = self.mean_of(row);
        let variance: f64 = row
            .iter()
            .map(|&(i, weight)| weight * dot_sparse(self.covariance_row(i), row))
            .sum();
        (mean, variance.max(0.0))
    }

    /// Covariance of two weighted sums.
    pub fn covariance_of(&self, a: &[(usize, f64)], b: &[(usize, f64)]) -> f64 {
        a.iter()
            .map(|&(i, weight)| weight * dot_sparse(self.covariance_row(i), b))
            .sum()
    }

    fn mean_of(&self, row: &[(usize, f64)]) -> f64 {
        dot_sparse(&self.mean, row)
    }

    /// How surprising observations would be; nothing is learnt.
    ///
    /// # Errors
    /// See [`GaussianError`].
    pub fn innovation(&self, observations: &Observations) -> Result<Innovation, GaussianError> {
        Ok(self.whiten(observations)?.innovation())
    }

    /// Takes observations in, exactly, and says how surprising they were.
    ///
    /// # Errors
    /// See [`GaussianError`]; the distribution is then unchanged.
    pub fn observe(&mut self, observations: &Observations) -> Result<Innovation, GaussianError> {
        let whitened = self.whiten(observations)?;
        let n = self.len();
        let gains = self.shrink(&whitened);
        for (gain, residual) in gains.chunks_exact(n.max(1)).zip(&whitened.residual) {
            add_scaled(&mut self.mean, *residual, gain);
        }
        Ok(whitened.innovation())
    }

    /// What observations yet to come would teach: the covariance after them,
    /// which does not depend on what they turn out to be, and how their
    /// outcome would move the means. The values of `observations` are not
    /// looked at, and the means stay.
    ///
    /// # Errors
    /// See [`GaussianError`].
    pub(crate) fn foresee(&self, observations: &Observations) -> Result<Foreseen, GaussianError> {
        let whitened = self.whiten(observations)?;
        let mut after = self.clone();
        let gains = after.shrink(&whitened);
        Ok(Foreseen {
            after,
            gains,
            factor: whitened.factor,
        })
    }

    /// Takes the covariance to what it is after observations, and gives the
    /// gains: how far each whitened residual moves the means.
    fn shrink(&mut self, whitened: &Whitened) -> Vec<f64> {
        let n = self.len();
        let mut gains = whitened.crossed.clone();
        solve_lower_rows(&whitened.factor, whitened.residual.len(), &mut gains, n);
        // Row by row, so that a row need not be fetched anew for every gain, and
        // one half alone: the other is the same to the last bit.
        for i in 0..n {
            let row = &mut self.covariance[i * n..=i * n + i];
            for gain in gains.chunks_exact(n.max(1)) {
                add_scaled(row, -gain[i], gain);
            }
        }
        for i in 0..n {
            for j in 0..i {
                self.covariance[j * n + i] = self.covariance[i * n + j];
            }
            // What is known for certain may come out a hair below zero.
            let variance = &mut self.covariance[i * n + i];
            *variance = variance.max(0.0);
        }
        gains
    }

    /// H P, the factor L of S and the whitened residual L^-1 (y - H m).
    fn whiten(&self, observations: &Observations) -> Result<Whitened, GaussianError> {
        let n = self.len();
        let m = observations.rows.len();
        if observations.values.len() != m || observations.noise.len() != m * m {
            return Err(GaussianError::Shape);
        }
        let entries = || observations.rows.iter().flatten();
        if entries().any(|&(i, _)| i >= n) {
            return Err(GaussianError::Shape);
        }
        if !entries()
            .map(|(_, weight)| weight)
            .chain(&observations.values)
            .chain(&observations.noise)
            .all(|v| v.is_finite())
        {
            return Err(GaussianError::NotFinite);
        }
        let mut crossed = vec![0.0; m * n];
        for (row, crossed) in observations
            .rows
            .iter()
            .zip(crossed.chunks_exact_mut(n.max(1)))
        {
            for &(i, weight) in row {
                add_scaled(crossed, weight, &self.covariance[i * n..(i + 1) * n]);
            }
        }
        let mut factor = observations.noise.clone();
        for (a, crossed) in crossed.chunks_exact(n.max(1)).enumerate() {
            for (b, row) in observations.rows.iter().enumerate().take(a + 1) {
                factor[a * m + b] += dot_sparse(crossed, row);
            }
        }
        cholesky(&mut factor, m)?;
        let mut residual: Vec<f64> = observations
            .rows
            .iter()
            .zip(&observations.values)
            .map(|(row, y)| y - self.mean_of(row))
            .collect();
        solve_lower_rows(&factor, m, &mut residual, 1);
        Ok(Whitened {
            crossed,
            factor,
            residual,
        })
    }
}

/// Observations foreseen: whitened residuals r, independent and standard
/// normal, would find values off by L r and move the means by sum_a r_a gain_a.
#[derive(Debug, Clone)]
pub(crate) struct Foreseen {
    /// The distribution with the covariance after them and the means before.
    pub after: Gaussian,
    /// A row of gains per observation.
    gains: Vec<f64>,
    /// The factor L of the covariance of the observations, lower triangle.
    factor: Vec<f64>,
}

impl Foreseen {
    /// Number of observations.
    pub fn count(&self) -> usize {
        self.gains.len() / self.after.len().max(1)
    }

    /// How whitened residuals move the mean of quantity `i`.
    pub fn moved(&self, i: usize, residual: &[f64]) -> f64 {
        let n = self.after.len();
        let gains = self.gains.iter().skip(i).step_by(n.max(1));
        gains.zip(residual).map(|(gain, r)| gain * r).sum()
    }

    /// The distribution once whitened residuals have come.
    pub fn as_found(&self, residual: &[f64]) -> Gaussian {
        let mut found = self.after.clone();
        for (gain, r) in self.gains.chunks_exact(found.len().max(1)).zip(residual) {
            add_scaled(&mut found.mean, *r, gain);
        }
        found
    }

    /// How far off their expectation whitened residuals find the values: L r.
    pub fn off(&self, residual: &[f64], into: &mut Vec<f64>) {
        let m = self.count();
        into.clear();
        into.extend((0..m).map(|a| dot(&self.factor[a * m..a * m + a + 1], &residual[..a + 1])));
    }

    /// The whitened residuals of values so far `off` their expectation:
    /// L^-1 off, in place.
    pub fn whiten(&self, off: &mut [f64]) {
        solve_lower_rows(&self.factor, self.count(), off, 1);
    }
}

struct Whitened {
    crossed: Vec<f64>,
    factor: Vec<f64>,
    residual: Vec<f64>,
}

impl Whitened {
    fn innovation(&self) -> Innovation {
        let m = self.residual.len();
        let chi_square: f64 = self.residual.iter().map(|r| r * r).sum();
        let log_root: f64 = (0..m).map(|i| libm::log(self.factor[i * m + i])).sum();
        // ln(2 pi)
        const LOG_TWO_PI: f64 = 1.837_877_066_409_345_3;
        Innovation {
            chi_square,
            dof: m,
            log_density: -0.5 * (chi_square + m as f64 * LOG_TWO_PI) - log_root,
        }
    }
}

fn dot_sparse(dense: &[f64], row: &[(usize, f64)]) -> f64 {
    row.iter()
        .map(|&(i, weight)| weight * dense.get(i).copied().unwrap_or(0.0))
        .sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn observation(row: &[(usize, f64)], value: f64, variance: f64) -> Observations {
        Observations {
            rows: vec![row.to_vec()],
            values: vec![value],
            noise: vec![variance],
        }
    }

    /// One quantity, one observation: the weighted mean.
    #[test]
    fn weighted_mean() {
        let mut state = Gaussian::new(vec![10.0], vec![4.0]).unwrap();
        let innovation = state.observe(&observation(&[(0, 1.0)], 13.0, 2.0)).unwrap();
        assert!((state.mean()[0] - 12.0).abs() < 1e-14);
        assert!((state.variance(0) - 4.0 / 3.0).abs() < 1e-14);
        assert!((innovation.chi_square - 1.5).abs() < 1e-14);
        // scipy 1.17: norm(10, sqrt(6)).logpdf(13)
        assert!((innovation.log_density + 2.564_818_267_818_700_3).abs() < 1e-12);
    }

    /// Two observations of a quantity and of a sum, worked by hand. Their
    /// covariance is L L' with L = (3, 0; 4/3, 2), the gains (4/3, 0) and
    /// (10/9, 1/2).
    #[test]
    fn observations_foreseen_by_hand() {
        let prior = Gaussian::new(vec![1.0, 2.0], vec![4.0, 0.0, 0.0, 1.0]).unwrap();
        let observations = Observations {
            rows: vec![vec![(0, 1.0)], vec![(0, 1.0), (1, 1.0)]],
            values: vec![0.0; 2],
            noise: vec![5.0, 0.0, 0.0, 7.0 / 9.0],
        };
        let foreseen = prior.foresee(&observations).unwrap();
        assert_eq!(foreseen.count(), 2);
        let near = |found: &[f64], expected: [f64; 2]| {
            let apart = found.iter().zip(expected).map(|(a, b)| (a - b).abs());
            assert!(apart.fold(0.0, f64::max) < 1e-12, "{found:?}");
        };
        let residual = [3.0, 2.0];
        near(
            &[0, 1].map(|i| foreseen.moved(i, &residual)),
            [56.0 / 9.0, 1.0],
        );
        near(foreseen.as_found(&residual).mean(), [65.0 / 9.0, 3.0]);
        let mut off = Vec::new();
        foreseen.off(&residual, &mut off);
        near(&off, [9.0, 8.0]);
        foreseen.whiten(&mut off);
        near(&off, residual);
    }

    /// Observations one by one and together teach the same.
    #[test]
    fn order_and_grouping_do_not_matter() {
        let prior = Gaussian::new(
            vec![1.0, -2.0, 0.5],
            vec![4.0, 0.0, 0.0, 1.0, 9.0, 0.0, -1.0, 2.0, 5.0],
        )
        .unwrap();
        let rows = [
            vec![(0, 1.0), (2, -2.0)],
            vec![(1, 3.0)],
            vec![(0, 0.5), (1, 1.0)],
        ];
        let values = [2.0, -4.0, 1.0];
        let variances = [0.3, 0.7, 0.2];
        let mut together = prior.clone();
        let joint = together
            .observe(&Observations {
                rows: rows.to_vec(),
                values: values.to_vec(),
                noise: vec![0.3, 0.0, 0.0, 0.0, 0.7, 0.0, 0.0, 0.0, 0.2],
            })
            .unwrap();
        let mut single = prior;
        let mut log_density = 0.0;
        for i in [2, 0, 1] {
            log_density += single
                .observe(&observation(&rows[i], values[i], variances[i]))
                .unwrap()
                .log_density;
        }
        assert!((joint.log_density - log_density).abs() < 1e-12);
        for (a, b) in together
            .mean()
            .iter()
            .chain(together.covariance())
            .zip(single.mean().iter().chain(single.covariance()))
        {
            assert!((a - b).abs() < 1e-13, "{a} {b}");
        }
    }

    #[test]
    fn bad_input_changes_nothing() {
        let mut state = Gaussian::new(vec![0.0], vec![1.0]).unwrap();
        let before = state.clone();
        for (bad, error) in [
            (observation(&[(1, 1.0)], 0.0, 1.0), GaussianError::Shape),
            (
                observation(&[(0, f64::NAN)], 0.0, 1.0),
                GaussianError::NotFinite,
            ),
            (
                observation(&[(0, 1.0)], f64::INFINITY, 1.0),
                GaussianError::NotFinite,
            ),
            (
                observation(&[(0, 0.0)], 0.0, 0.0),
                GaussianError::NotPositive,
            ),
        ] {
            assert_eq!(state.observe(&bad), Err(error));
            assert_eq!(state, before);
        }
        assert!(state.observe(&Observations::default()).is_ok());
        assert_eq!(Gaussian::new(vec![0.0], vec![]), Err(GaussianError::Shape));
        assert_eq!(
            Gaussian::new(vec![0.0], vec![-1.0]),
            Err(GaussianError::NotPositive)
        );
    }
}
