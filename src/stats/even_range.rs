//! The range of independent normal values of one common scatter, fast.
//!
//! P(R <= r) = sum_i int f_i(x) prod_{j != i} [F_j(x + r) - F_j(x)] dx: value i
//! is the smallest and all others lie within r above it (David & Nagaraja, Order
//! Statistics, 3rd ed., Wiley 2003, section 2.3, with unequal distributions).
//! Since all values share one standard deviation, distribution and density come
//! from one table, and the trapezoidal rule, which converges faster than any power for integrands that
//! die away on both sides, needs few nodes.

use crate::stats::{normal_cdf, normal_pdf};

/// Distance of the nodes, in standard deviations. The trapezoidal rule is off
/// by exp(-2 pi^2 w^2 / h^2), with h this distance and w the width of the
/// integrand: about 0.6 for twelve values, or less under a narrow limit.
const NODE: f64 = 0.55;
/// A tail beyond so many standard deviations (1e-7) is left out.
const TAIL: f64 = 5.2;
/// Most nodes of one integral: the smallest value lies within a tail of the
/// smallest mean.
const MOST_NODES: usize = (2.0 * TAIL / NODE) as usize + 1;
/// Table places between two nodes.
const PHASES: usize = 16;
/// The table stands for values up to so many standard deviations either way
/// (and one integral beyond), where the distribution has reached its ends.
const REACH: f64 = 7.0;

/// The table that integrals are looked up in.
#[derive(Debug, Clone)]
pub struct EvenRange {
    /// Nodes of the table in each phase, and the value at its first one.
    length: usize,
    start: f64,
    /// For each phase, one before and two after, the values at the nodes.
    below: Vec<f64>,
    normal_pdf: Vec<f64>,
}

/// Some 2,000 exponentials: worth keeping.
impl Default for EvenRange {
    fn default() -> Self {
        let start = -REACH - (MOST_NODES as f64 + 1.0) * NODE;
        let length = (2.0 * REACH / NODE) as usize + 2 * MOST_NODES + 4;
        let fill = |f: fn(f64) -> f64| {
            let places = (0..PHASES + 3).flat_map(|phase| {
                let phase = (phase as f64 - 1.0) / PHASES as f64;
                (0..length).map(move |index| start + NODE * (index as f64 + phase))
            });
            places.map(f).collect()
        };
        Self {
            length,
            start,
            below: fill(normal_cdf),
            normal_pdf: fill(normal_pdf),
        }
    }
}

impl EvenRange {
    /// Probability that the range of independent normal values with these
    /// means and one standard deviation, in any one unit, is at most the limit;
    /// absolute error below 2e-5.
    ///
    /// A deviation of zero, or one below a millionth of the limit, leaves the
    /// means as they are. Means must be finite; without any, or with one, the
    /// answer is one.
    pub fn probability(&self, sd: f64, limit: f64, means: &[f64]) -> f64 {
        let low = means.iter().copied().fold(f64::INFINITY, f64::min);
        let high = means.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        if means.len() < 2 {
            return 1.0;
        }
        let spread = high - low;
        if sd <= 1e-6 * limit {
            return if spread <= limit { 1.0 } else { 0.0 };
        }
        let scale = 1.0 / sd;
        let width = limit * scale;
        // The outermost two alone are within the limit with a chance of at
        // most Phi(-7.4 / sqrt 2) = 1e-7.
        if spread * scale > width + 7.4 {
            return 0.0;
        }
        let from = (spread * scale - width).max(0.0) - TAIL;
        let nodes = (((TAIL - from) / NODE) as usize + 1).min(MOST_NODES);
        let mut product = [1.0; MOST_NODES];
        let mut sum = [0.0; MOST_NODES];
        let (product, sum) = (&mut product[..nodes], &mut sum[..nodes]);
        for mean in means {
            let z = from - (mean - low) * scale;
            let lower = self.locate(z);
            let upper = self.locate(z + width);
            let [a, b, c, d] = lower.parts(&self.below, self.length, nodes);
            let [e, f, g, h] = upper.parts(&self.below, self.length, nodes);
            let [p, q, r, s] = lower.parts(&self.normal_pdf, self.length, nodes);
            let (v, w) = (lower.weights, upper.weights);
            for k in 0..nodes {
                let below = (v[0] * a[k] + v[1] * b[k]) + (v[2] * c[k] + v[3] * d[k]);
                let above = (w[0] * e[k] + w[1] * f[k]) + (w[2] * g[k] + w[3] * h[k]);
                let normal_pdf = (v[0] * p[k] + v[1] * q[k]) + (v[2] * r[k] + v[3] * s[k]);
                let window = above - below;
                sum[k] = sum[k] * window + product[k] * normal_pdf;
                product[k] *= window;
            }
        }
        (sum.iter().sum::<f64>() * NODE).clamp(0.0, 1.0)
    }

    /// Where `z` stands in the table.
    fn locate(&self, z: f64) -> Place {
        // Beyond the reach distribution and density stay what they are.
        let last = self.start + (self.length - MOST_NODES - 2) as f64 * NODE;
        let z = z.clamp(self.start + NODE, last);
        let places = (z - self.start) * (PHASES as f64 / NODE);
        let whole = places as usize;
        let t = places - whole as f64;
        Place {
            phase: whole % PHASES,
            index: whole / PHASES,
            weights: [
                -t * (t - 1.0) * (t - 2.0) / 6.0,
                (t + 1.0) * (t - 1.0) * (t - 2.0) / 2.0,
                -(t + 1.0) * t * (t - 2.0) / 2.0,
                (t + 1.0) * t * (t - 1.0) / 6.0,
            ],
        }
    }
}

/// A place in the table: phase, node and cubic Lagrange weights.
struct Place {
    phase: usize,
    index: usize,
    weights: [f64; 4],
}

impl Place {
    /// Consecutive nodes in four neighbouring phases.
    fn parts<'a>(&self, table: &'a [f64], length: usize, nodes: usize) -> [&'a [f64]; 4] {
        core::array::from_fn(|offset| {
            let begin = (self.phase + offset) * length + self.index;
            &table[begin..begin + nodes]
        })
    }
}

/// Mean of the range of so many independent normal values of one standard
/// deviation, in units of it: d2 of control charts.
///
/// E[R] = int [1 - F^n - (1 - F)^n] dx, since P(max > x) - P(min > x) is that
/// integrand, by the trapezoidal rule.
pub fn mean_even_range(count: u16) -> f64 {
    let sum = (-144..=144).map(|node| {
        let below = normal_cdf(f64::from(node) / 16.0);
        let whole = |share: f64| share.powi(count.into());
        1.0 - whole(below) - whole(1.0 - below)
    });
    (sum.sum::<f64>() / 16.0).max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ends() {
        let of = |means: &[f64], sd, limit| EvenRange::default().probability(sd, limit, means);
        assert_eq!(of(&[], 1.0, 1.0), 1.0);
        assert_eq!(of(&[3.0], 1.0, 1.0), 1.0);
        assert_eq!(of(&[3.0, 5.0], 0.0, 2.0), 1.0);
        assert_eq!(of(&[3.0, 5.1], 0.0, 2.0), 0.0);
        assert_eq!(of(&[0.0, 1e9], 1.0, 2.0), 0.0);
        assert!(of(&[0.0, 1.0], 1.0, 1e5) > 1.0 - 1e-6);
        assert!(of(&[0.0, 0.0], 1.0, 0.0) < 1e-6);
        assert!(of(&[0.0; 48], 1.0, 30.0) > 1.0 - 1e-5);
    }
}
