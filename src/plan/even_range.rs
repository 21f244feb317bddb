//! The range of independent normal values of one common scatter, fast.
//!
//! The same integral as in [`super::range`]; since all values share one
//! standard deviation, distribution and density come from one table, and the
//! trapezoidal rule, which converges faster than any power for integrands that
//! die away on both sides, needs few nodes.

use super::normal::{density, probability_below};

/// Distance of the nodes, in standard deviations.
const NODE: f64 = 0.5;
/// Table places between two nodes.
const PHASES: usize = 16;
/// A tail beyond so many standard deviations (1e-9) is left out.
const TAIL: f64 = 6.0;
/// Most nodes of one integral: the smallest value lies within a tail of the
/// smallest mean.
const MOST_NODES: usize = (2.0 * TAIL / NODE) as usize + 1;
/// Table places stand for values from `-REACH` to `REACH` standard deviations
/// (and one integral beyond), where the distribution has reached its ends.
const REACH: f64 = 8.5;
/// Nodes of the table in each phase.
const LENGTH: usize = (2.0 * REACH / NODE) as usize + 2 * MOST_NODES + 4;
/// Value at the first node of the table.
const START: f64 = -REACH - (MOST_NODES as f64 + 1.0) * NODE;

/// The tables; building them costs some 3,000 exponentials.
#[derive(Debug, Clone)]
pub struct EvenRange {
    /// For each phase (and one before, two after), the distribution at the
    /// nodes.
    below: Vec<f64>,
    density: Vec<f64>,
    windows: Vec<[f64; MOST_NODES]>,
    densities: Vec<[f64; MOST_NODES]>,
}

impl Default for EvenRange {
    fn default() -> Self {
        Self::new()
    }
}

impl EvenRange {
    /// Builds the tables.
    pub fn new() -> Self {
        let place = |phase: usize, node: usize| {
            START + NODE * (node as f64 + (phase as f64 - 1.0) / PHASES as f64)
        };
        let fill = |f: fn(f64) -> f64| {
            let mut table = Vec::with_capacity((PHASES + 3) * LENGTH);
            for phase in 0..PHASES + 3 {
                table.extend((0..LENGTH).map(|node| f(place(phase, node))));
            }
            table
        };
        Self {
            below: fill(probability_below),
            density: fill(density),
            windows: Vec::new(),
            densities: Vec::new(),
        }
    }

    /// Probability that the range of independent normal values with these
    /// means and one common standard deviation is at most `limit`; absolute
    /// error below 1e-5 (largest when the limit is below a standard deviation;
    /// below 1e-6 when it is above three).
    ///
    /// A deviation of zero, or one below a millionth of the limit, leaves the
    /// means as they are. Means must be finite; without any, or with one, the
    /// answer is one.
    pub fn probability(&mut self, means: &[f64], deviation: f64, limit: f64) -> f64 {
        let low = means.iter().copied().fold(f64::INFINITY, f64::min);
        let high = means.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        if means.len() < 2 {
            return 1.0;
        }
        let spread = high - low;
        if deviation <= 1e-6 * limit {
            return if spread <= limit { 1.0 } else { 0.0 };
        }
        // The largest difference alone already has this chance at most, and
        // 2 x 4.3 standard deviations out of line leave 6e-10 of it.
        let scale = 1.0 / deviation;
        let width = limit * scale;
        if spread * scale > width + 8.6 {
            return 0.0;
        }
        let from = (spread * scale - width).max(0.0) - TAIL;
        let nodes = (((TAIL - from) / NODE) as usize + 1).min(MOST_NODES);
        self.windows.resize(means.len(), [0.0; MOST_NODES]);
        self.densities.resize(means.len(), [0.0; MOST_NODES]);
        for ((mean, window), densities) in means
            .iter()
            .zip(self.windows.iter_mut())
            .zip(self.densities.iter_mut())
        {
            let z = from - (mean - low) * scale;
            let (phase, node, weights) = locate(z);
            interpolate(
                &self.density,
                phase,
                node,
                &weights,
                &mut densities[..nodes],
            );
            let mut lower = [0.0; MOST_NODES];
            interpolate(&self.below, phase, node, &weights, &mut lower[..nodes]);
            let (phase, node, weights) = locate(z + width);
            interpolate(&self.below, phase, node, &weights, &mut window[..nodes]);
            for (window, lower) in window[..nodes].iter_mut().zip(&lower) {
                *window -= lower;
            }
        }
        let mut product = [1.0; MOST_NODES];
        let mut sum = [0.0; MOST_NODES];
        for (window, densities) in self.windows.iter().zip(&self.densities) {
            for k in 0..nodes {
                sum[k] = sum[k] * window[k] + product[k] * densities[k];
                product[k] *= window[k];
            }
        }
        (sum[..nodes].iter().sum::<f64>() * NODE).clamp(0.0, 1.0)
    }
}

/// Phase, node and cubic Lagrange weights of the place `z`.
fn locate(z: f64) -> (usize, usize, [f64; 4]) {
    // Beyond the reach distribution and density stay what they are.
    let last = START + (LENGTH - MOST_NODES - 2) as f64 * NODE;
    let places = (z.clamp(START + NODE, last) - START) * (PHASES as f64 / NODE);
    let whole = places as usize;
    let t = places - whole as f64;
    let weights = [
        -t * (t - 1.0) * (t - 2.0) / 6.0,
        (t + 1.0) * (t - 1.0) * (t - 2.0) / 2.0,
        -(t + 1.0) * t * (t - 2.0) / 2.0,
        (t + 1.0) * t * (t - 1.0) / 6.0,
    ];
    (whole % PHASES, whole / PHASES, weights)
}

/// Values at consecutive nodes from four neighbouring phases.
fn interpolate(table: &[f64], phase: usize, node: usize, weights: &[f64; 4], into: &mut [f64]) {
    let part = |offset: usize| {
        let begin = (phase + offset) * LENGTH + node;
        &table[begin..begin + into.len()]
    };
    let (a, b, c, d) = (part(0), part(1), part(2), part(3));
    for (k, value) in into.iter_mut().enumerate() {
        *value = (weights[0] * a[k] + weights[1] * b[k]) + (weights[2] * c[k] + weights[3] * d[k]);
    }
}

#[cfg(test)]
mod tests {
    use super::super::draws::{Draws, Purpose};
    use super::super::range::{NormalValue, range_probability};
    use super::*;

    #[test]
    fn agrees_with_the_exact_quadrature() {
        let mut even = EvenRange::new();
        let mut draws = Draws::new(Purpose::Simulation(1));
        for case in 0..400 {
            let n = 2 + draws.below(11);
            let deviation = draws.between(0.05, 1.0);
            let extent = draws.between(0.0, 6.0);
            let limit = draws.between(0.1, 6.0);
            let means: Vec<f64> = (0..n).map(|_| 100.0 + extent * draws.uniform()).collect();
            let values: Vec<NormalValue> = means
                .iter()
                .map(|&mean| NormalValue { mean, deviation })
                .collect();
            let exact = range_probability(&values, limit).unwrap();
            let fast = even.probability(&means, deviation, limit);
            assert!(
                (fast - exact).abs() < if limit > 3.0 * deviation { 1e-6 } else { 1e-5 },
                "case {case}: {fast} {exact}"
            );
        }
    }

    #[test]
    fn ends() {
        let mut even = EvenRange::new();
        assert_eq!(even.probability(&[], 1.0, 1.0), 1.0);
        assert_eq!(even.probability(&[3.0], 1.0, 1.0), 1.0);
        assert_eq!(even.probability(&[3.0, 5.0], 0.0, 2.0), 1.0);
        assert_eq!(even.probability(&[3.0, 5.1], 0.0, 2.0), 0.0);
        assert_eq!(even.probability(&[0.0, 1e9], 1.0, 2.0), 0.0);
        assert!(even.probability(&[0.0, 1.0], 1.0, 1e5) > 1.0 - 1e-6);
        assert!(even.probability(&[0.0, 0.0], 1.0, 0.0) < 1e-6);
    }
}
