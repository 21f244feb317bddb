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
/// Nodes that are worked out side by side, blocks that hold all of them, and
/// room for so many.
const BLOCK: usize = 8;
const BLOCKS: usize = MOST_NODES.div_ceil(BLOCK);
const ROOM: usize = BLOCK * BLOCKS;
type Nodes = [[f32; BLOCK]; BLOCKS];
/// Products smaller than this count for as much: next to nothing.
const LEAST: f32 = 1e-20;
/// More than an integral is off.
const MARGIN: f64 = 2e-5;
/// Table places between two nodes.
const PHASES: usize = 32;
/// The table stands for values up to so many standard deviations either way
/// (and one integral beyond), where the distribution has reached its ends.
const REACH: f64 = 7.0;
/// Nodes of the table in each phase, and the value at its first one.
const LENGTH: usize = (2.0 * REACH / NODE) as usize + MOST_NODES + ROOM + 4;
const START: f64 = -REACH - (MOST_NODES as f64 + 1.0) * NODE;
/// Places of a phase and the two after it, as far as an integral needs them.
const THREE: usize = 2 * LENGTH + ROOM;

/// The table that integrals are looked up in. Single precision holds its values
/// to 6e-8, parabolas between them to 2e-7: far below what is stated.
#[derive(Debug, Clone)]
pub struct EvenRange {
    /// For each phase, one before and one after, the values at the nodes.
    below: Vec<f32>,
    normal_pdf: Vec<f32>,
}

/// Some 2,000 exponentials: worth keeping.
impl Default for EvenRange {
    fn default() -> Self {
        let fill = |f: fn(f64) -> f64| {
            let places = (0..PHASES + 2).flat_map(|phase| {
                let phase = (phase as f64 - 1.0) / PHASES as f64;
                (0..LENGTH).map(move |index| START + NODE * (index as f64 + phase))
            });
            // Processors take very long over what is smaller still.
            let value = |z| if f(z) < 1e-9 { 0.0 } else { f(z) as f32 };
            places.map(value).collect()
        };
        Self {
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
    #[inline(always)]
    pub fn probability(&self, sd: f64, limit: f64, means: &[f64]) -> f64 {
        if means.len() < 2 {
            return 1.0;
        }
        let [(low, next_low), (high, next_high)] = outermost(means);
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
        // Any two are not with one of at most Phi(-8.5 / sqrt 2) = 1e-9.
        if spread * scale < width - 8.5 {
            return 1.0;
        }
        let from = -f64::min(
            TAIL,
            width - spread * scale + tail_of_two((high - next_high) * scale),
        );
        let to = tail_of_two((next_low - low) * scale);
        let nodes = (((to - from) / NODE).max(0.0) as usize + 1).min(MOST_NODES);
        let blocks = nodes.div_ceil(BLOCK);
        // Means further in than this neither are the smallest nor too large.
        let inner = to + TAIL..=from + width - TAIL;
        let mut product = [[1.0; BLOCK]; BLOCKS];
        let mut sum = [[0.0; BLOCK]; BLOCKS];
        for mean in means {
            let above = (mean - low) * scale;
            if inner.contains(&above) {
                continue;
            }
            let z = from - above;
            let (lower, upper) = (Place::of(z), Place::of(z + width));
            let [a, b, c] = lower.parts(&self.below);
            let [e, f, g] = upper.parts(&self.below);
            let [p, q, r] = lower.parts(&self.normal_pdf);
            let (v, w) = (lower.weights, upper.weights);
            for block in 0..blocks {
                let (product, sum) = (&mut product[block], &mut sum[block]);
                let [a, b, c] = [&a[block], &b[block], &c[block]];
                let [e, f, g] = [&e[block], &f[block], &g[block]];
                let [p, q, r] = [&p[block], &q[block], &r[block]];
                for k in 0..BLOCK {
                    let below = v[0] * a[k] + v[1] * b[k] + v[2] * c[k];
                    let above = w[0] * e[k] + w[1] * f[k] + w[2] * g[k];
                    let normal_pdf = v[0] * p[k] + v[1] * q[k] + v[2] * r[k];
                    let window = above - below;
                    sum[k] = (sum[k] * window + product[k] * normal_pdf).max(LEAST);
                    product[k] = (product[k] * window).max(LEAST);
                }
            }
        }
        // Nodes beyond the last one add what lies further out in the tail.
        let total = sum[..blocks].iter().fold([0.0; BLOCK], |total, sum| {
            core::array::from_fn(|k| total[k] + sum[k])
        });
        let total: f64 = total.into_iter().map(f64::from).sum();
        (total * NODE).clamp(0.0, 1.0)
    }

    /// No less than [`probability`](Self::probability) of any means with this
    /// spread, and found at once: the chance of the outermost two alone.
    #[inline(always)]
    pub fn at_most(&self, sd: f64, limit: f64, spread: f64) -> f64 {
        if sd <= 1e-6 * limit {
            return if spread <= limit { 1.0 } else { 0.0 };
        }
        let z = (limit - spread) / sd * core::f64::consts::FRAC_1_SQRT_2;
        // The place in the table at or above it, and more than either is off.
        let place = Place::of(z + 0.5 * NODE / PHASES as f64);
        let below = self.below.get(place.begin + LENGTH);
        f64::from(below.copied().unwrap_or(1.0)) + MARGIN
    }
}

/// The lowest and the next to it, the highest and the next to it.
#[inline(always)]
fn outermost(means: &[f64]) -> [(f64, f64); 2] {
    let (mut low, mut high) = (
        (f64::INFINITY, f64::INFINITY),
        (f64::NEG_INFINITY, f64::NEG_INFINITY),
    );
    // Compared plainly: none is no number.
    let lower = |a: f64, b: f64| if a < b { a } else { b };
    let higher = |a: f64, b: f64| if a > b { a } else { b };
    for &mean in means {
        low = (lower(mean, low.0), lower(low.1, higher(mean, low.0)));
        high = (higher(mean, high.0), higher(high.1, lower(mean, high.0)));
    }
    [low, high]
}

/// How far out the lower of two values, their means so far apart, lies no more
/// often than one alone beyond the tail: from Phi(-x) Phi(apart - x) with
/// x^2 + (x - apart)^2 = TAIL^2.
#[inline(always)]
fn tail_of_two(apart: f64) -> f64 {
    if apart >= TAIL {
        return TAIL;
    }
    0.5 * (apart + (2.0 * TAIL * TAIL - apart * apart).sqrt())
}

/// A place in the table: where it begins there, and the weights of the parabola
/// through it and its neighbours (Lagrange).
struct Place {
    begin: usize,
    weights: [f32; 3],
}

impl Place {
    /// Where `z` stands in the table.
    #[inline(always)]
    fn of(z: f64) -> Self {
        // Beyond the reach distribution and density stay what they are.
        let last = START + (LENGTH - ROOM - 2) as f64 * NODE;
        let z = z.clamp(START + NODE, last);
        let places = (z - START) * (PHASES as f64 / NODE);
        // Few enough for any whole number.
        let nearest = (places + 0.5) as u32;
        let t = (places - f64::from(nearest)) as f32;
        let nearest = nearest as usize;
        Self {
            begin: nearest % PHASES * LENGTH + nearest / PHASES,
            weights: [0.5 * t * (t - 1.0), 1.0 - t * t, 0.5 * t * (t + 1.0)],
        }
    }

    /// Consecutive nodes in three neighbouring phases; the table has them for
    /// every place.
    #[inline(always)]
    fn parts<'a>(&self, table: &'a [f32]) -> [&'a Nodes; 3] {
        let from = table.get(self.begin..).unwrap_or_default();
        let three: &[f32; THREE] = from.first_chunk().unwrap_or(&[0.0; THREE]);
        core::array::from_fn(|offset| {
            let nodes = three[offset * LENGTH..].as_chunks().0;
            nodes.first_chunk().unwrap_or(&[[0.0; BLOCK]; BLOCKS])
        })
    }
}

/// Mean of the range of so many independent normal values of one standard
/// deviation, in units of it: d2 of control charts.
///
/// `E[R] = int [1 - F^n - (1 - F)^n] dx`, since P(max > x) - P(min > x) is that
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
    use crate::stats::{Draws, Purpose};

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

    /// The bound holds for any means, and is the chance itself for two alone.
    #[test]
    fn the_outermost_two_bound_it() {
        let range = EvenRange::default();
        let mut draws = Draws::new(Purpose::Simulation(1));
        for _ in 0..20_000 {
            let means: Vec<f64> = (0..2 + draws.below(5))
                .map(|_| 3.0 * draws.normal())
                .collect();
            let (sd, limit) = (0.3 + draws.uniform(), 6.0 * draws.uniform());
            let [(low, _), (high, _)] = outermost(&means);
            let most = range.at_most(sd, limit, high - low);
            let found = range.probability(sd, limit, &means);
            assert!(found <= most, "{means:?} {sd} {limit}: {found} {most}");
            if means.len() == 2 && limit > 4.0 * sd {
                assert!(
                    most < found + 0.01,
                    "{means:?} {sd} {limit}: {found} {most}"
                );
            }
        }
    }
}
