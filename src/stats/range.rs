//! The range (largest minus smallest) of independent normal values.
//!
//! P(R <= r) = sum_i int f_i(x) prod_{j != i} [F_j(x + r) - F_j(x)] dx: value
//! i is the smallest and all others lie within r above it (David & Nagaraja,
//! Order Statistics, 3rd ed., Wiley 2003, section 2.3, with unequal
//! distributions). E[R] = int [1 - prod F_j - prod (1 - F_j)] dx, since
//! P(max > x) - P(min > x) is that integrand.
//!
//! A standard deviation of zero is a fixed value and is handled exactly: the
//! smallest value is then either the smallest fixed one or a random one below
//! it, and a fixed value outside the window makes the probability zero.

use crate::stats::{normal_cdf, normal_pdf};

/// Beyond this many standard deviations a tail (7e-19) is left out.
const TAIL: f64 = 8.9;
/// Widths, in standard deviations, at which the first panels end.
const PANEL_ENDS: [f64; 7] = [-TAIL, -4.0, -1.5, 0.0, 1.5, 4.0, TAIL];
/// Error bound of the whole integral, divided among the panels.
const TARGET: f64 = 1e-12;
/// A panel is halved at most this often.
const MOST_HALVINGS: u32 = 24;

/// A normal value: mean and standard deviation in one unit; a standard
/// deviation of zero is a fixed value.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NormalValue {
    /// Mean.
    pub mean: f64,
    /// Standard deviation, zero or positive.
    pub sd: f64,
}

impl NormalValue {
    fn is_usable(self) -> bool {
        self.mean.is_finite() && self.sd.is_finite() && self.sd >= 0.0
    }

    fn is_fixed(self) -> bool {
        self.sd == 0.0
    }

    fn normal_pdf(self, x: f64) -> f64 {
        normal_pdf((x - self.mean) / self.sd) / self.sd
    }

    /// P(value <= x).
    fn below(self, x: f64) -> f64 {
        if self.is_fixed() {
            return if self.mean <= x { 1.0 } else { 0.0 };
        }
        normal_cdf((x - self.mean) / self.sd)
    }

    /// P(low < value <= high), without cancellation in the upper tail; for a
    /// fixed value both ends count.
    fn within(self, low: f64, high: f64) -> f64 {
        if self.is_fixed() {
            return if low <= self.mean && self.mean <= high {
                1.0
            } else {
                0.0
            };
        }
        let (low, high) = ((low - self.mean) / self.sd, (high - self.mean) / self.sd);
        if low > 0.0 {
            normal_cdf(-low) - normal_cdf(-high)
        } else {
            normal_cdf(high) - normal_cdf(low)
        }
    }
}

/// Probability that the range of independent normal values is at most `limit`,
/// with an absolute error below 1e-10, or `None` when there is no value, a
/// value is not finite, or the limit is not a number.
///
/// One value has no range: the probability is one. A negative limit gives
/// zero.
pub fn range_probability(values: &[NormalValue], limit: f64) -> Option<f64> {
    if values.is_empty() || limit.is_nan() || !values.iter().all(|v| v.is_usable()) {
        return None;
    }
    if limit < 0.0 {
        return Some(0.0);
    }
    if values.len() == 1 || limit == f64::INFINITY {
        return Some(1.0);
    }
    let fixed = || values.iter().filter(|v| v.is_fixed()).map(|v| v.mean);
    let lowest_fixed = fixed().fold(f64::INFINITY, f64::min);
    let highest_fixed = fixed().fold(f64::NEG_INFINITY, f64::max);
    let mut total = 0.0;
    if lowest_fixed.is_finite() {
        if highest_fixed - lowest_fixed > limit {
            return Some(0.0);
        }
        total += values
            .iter()
            .filter(|v| !v.is_fixed())
            .map(|v| v.within(lowest_fixed, lowest_fixed + limit))
            .product::<f64>();
    }
    // A random value is the smallest one: below every fixed value, and not so
    // far below that the highest fixed one leaves the window.
    let from = highest_fixed - limit;
    let to = lowest_fixed;
    let random: Vec<NormalValue> = values.iter().copied().filter(|v| !v.is_fixed()).collect();
    let mut ends = panel_ends(&random, &[0.0, -limit]);
    // Outside this stretch some factor is zero to within the left-out tails.
    let lowest = random
        .iter()
        .map(|v| v.mean - TAIL * v.sd - limit)
        .fold(from, f64::max);
    let highest = random
        .iter()
        .map(|v| v.mean + TAIL * v.sd)
        .fold(to, f64::min);
    clip(&mut ends, lowest, highest);
    let mut windows = vec![0.0; random.len()];
    total += integral(&ends, |x| smallest_at(&random, x, limit, &mut windows));
    Some(total.clamp(0.0, 1.0))
}

/// sum_i f_i(x) prod_{j != i} W_j(x) with W_j = F_j(x + r) - F_j(x), in one
/// sweep up and one down so that no division by a vanishing factor occurs.
fn smallest_at(values: &[NormalValue], x: f64, limit: f64, windows: &mut [f64]) -> f64 {
    let mut product = 1.0;
    let mut sum = 0.0;
    for (value, window) in values.iter().zip(windows.iter_mut()) {
        *window = value.within(x, x + limit);
        sum = sum * *window + product * value.normal_pdf(x);
        product *= *window;
    }
    sum
}

/// Mean of the range of independent normal values, with an absolute error
/// below 1e-10 of the values' overall extent, or `None` when there is no value
/// or one is not finite.
pub fn range_mean(values: &[NormalValue]) -> Option<f64> {
    if values.is_empty() || !values.iter().all(|v| v.is_usable()) {
        return None;
    }
    let mut ends = panel_ends(values, &[0.0]);
    let (Some(&first), Some(&last)) = (ends.first(), ends.last()) else {
        return Some(0.0);
    };
    clip(&mut ends, first, last);
    Some(integral(&ends, |x| {
        let (mut below, mut above) = (1.0, 1.0);
        for value in values {
            below *= value.below(x);
            above *= if value.is_fixed() {
                1.0 - value.below(x)
            } else {
                normal_cdf((value.mean - x) / value.sd)
            };
        }
        1.0 - below - above
    }))
}

/// Where panels end: around every value, moved by each of `moves`, since
/// between these places the integrand is smooth.
fn panel_ends(values: &[NormalValue], moves: &[f64]) -> Vec<f64> {
    let mut ends = Vec::with_capacity(values.len() * moves.len() * PANEL_ENDS.len());
    for value in values {
        for by in moves {
            if value.is_fixed() {
                ends.push(value.mean + by);
            } else {
                ends.extend(PANEL_ENDS.iter().map(|z| value.mean + by + z * value.sd));
            }
        }
    }
    ends.sort_by(f64::total_cmp);
    // Where many values lie together, fewer panels will do; the rule is
    // adaptive. The places of fixed values stay: the integrand jumps there.
    let least = values.iter().map(|v| v.sd).fold(f64::INFINITY, f64::min);
    if least > 0.0 {
        let mut last = f64::NEG_INFINITY;
        ends.retain(|x| {
            let keep = x - last >= 0.7 * least;
            if keep {
                last = *x;
            }
            keep
        });
    }
    ends
}

/// Keeps the ends strictly inside (low, high) and adds these two; empty when
/// nothing lies between.
fn clip(ends: &mut Vec<f64>, low: f64, high: f64) {
    ends.retain(|x| low < *x && *x < high);
    ends.dedup();
    if low < high {
        ends.insert(0, low);
        ends.push(high);
    } else {
        ends.clear();
    }
}

/// Adaptive integral over consecutive panels.
fn integral(ends: &[f64], mut f: impl FnMut(f64) -> f64) -> f64 {
    let target = TARGET / (ends.len().max(2) - 1) as f64;
    let mut total = 0.0;
    for pair in ends.windows(2) {
        if let [low, high] = *pair {
            total += panel(&mut f, low, high, target, MOST_HALVINGS);
        }
    }
    total
}

/// Nodes and weights of the 15-point Kronrod rule on [0, 1) of [-1, 1], and
/// the weights of the 7-point Gauss rule inside it (Piessens et al., QUADPACK,
/// Springer 1983, routine QK15).
const KRONROD: [(f64, f64, f64); 8] = [
    (0.0, 0.209_482_141_084_727_83, 0.417_959_183_673_469_4),
    (0.207_784_955_007_898_47, 0.204_432_940_075_298_9, 0.0),
    (
        0.405_845_151_377_397_2,
        0.190_350_578_064_785_4,
        0.381_830_050_505_118_9,
    ),
    (0.586_087_235_467_691_1, 0.169_004_726_639_267_9, 0.0),
    (
        0.741_531_185_599_394_4,
        0.140_653_259_715_525_92,
        0.279_705_391_489_276_67,
    ),
    (0.864_864_423_359_769_1, 0.104_790_010_322_250_18, 0.0),
    (
        0.949_107_912_342_758_5,
        0.063_092_092_629_978_55,
        0.129_484_966_168_869_7,
    ),
    (0.991_455_371_120_812_6, 0.022_935_322_010_529_225, 0.0),
];

/// Gauss-Kronrod on one panel, halved until the two rules agree.
fn panel(f: &mut impl FnMut(f64) -> f64, low: f64, high: f64, target: f64, halvings: u32) -> f64 {
    let middle = 0.5 * (low + high);
    let half = 0.5 * (high - low);
    let (mut kronrod, mut gauss) = (0.0, 0.0);
    for (node, kronrod_weight, gauss_weight) in KRONROD {
        let mut value = f(middle + half * node);
        if node > 0.0 {
            value += f(middle - half * node);
        }
        kronrod += kronrod_weight * value;
        gauss += gauss_weight * value;
    }
    let (kronrod, gauss) = (kronrod * half, gauss * half);
    // The difference bounds the error of the poorer rule; the better one's is
    // far smaller. A target relative to the panel's own value keeps rounding
    // from asking for ever more halvings.
    let allowed = target.max(1e-13 * kronrod.abs());
    if (kronrod - gauss).abs() <= allowed || halvings == 0 || middle <= low || middle >= high {
        return kronrod;
    }
    panel(f, low, middle, 0.5 * target, halvings - 1)
        + panel(f, middle, high, 0.5 * target, halvings - 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn values(pairs: &[(f64, f64)]) -> Vec<NormalValue> {
        pairs
            .iter()
            .map(|&(mean, sd)| NormalValue { mean, sd })
            .collect()
    }

    #[test]
    fn fixed_values_are_exact() {
        let fixed = values(&[(0.0, 0.0), (3.0, 0.0)]);
        assert_eq!(range_probability(&fixed, 3.0), Some(1.0));
        assert_eq!(range_probability(&fixed, 2.999), Some(0.0));
        assert!((range_mean(&fixed).unwrap() - 3.0).abs() < 1e-12);
        // One fixed, one random: within r on either side of the fixed one.
        let mixed = values(&[(0.0, 0.0), (1.0, 0.5)]);
        let expected = normal_cdf(2.0) - normal_cdf(-6.0);
        assert!((range_probability(&mixed, 2.0).unwrap() - expected).abs() < 1e-12);
        // Two fixed: within r of the farther one on either side, -1.5 to 2.
        let mixed = values(&[(0.0, 0.0), (0.5, 0.0), (1.0, 0.5)]);
        let expected = normal_cdf(2.0) - normal_cdf(-5.0);
        assert!((range_probability(&mixed, 2.0).unwrap() - expected).abs() < 1e-12);
        // A fixed value counts at both ends of a window, and at its own place.
        let three = fixed[1];
        assert_eq!((three.below(3.0), three.below(2.999)), (1.0, 0.0));
        assert_eq!((three.within(3.0, 4.0), three.within(2.0, 3.0)), (1.0, 1.0));
        assert_eq!((three.within(3.1, 4.0), three.within(2.0, 2.9)), (0.0, 0.0));
    }

    /// A very small standard deviation tends to the fixed value.
    #[test]
    fn nearly_fixed_is_nearly_exact() {
        for sd in [1e-3, 1e-6, 1e-9] {
            let near = range_probability(&values(&[(0.0, sd), (1.0, 0.5), (0.3, 1.0)]), 2.0);
            let exact = range_probability(&values(&[(0.0, 0.0), (1.0, 0.5), (0.3, 1.0)]), 2.0);
            assert!((near.unwrap() - exact.unwrap()).abs() < sd * sd * 10.0 + 1e-11);
        }
    }

    #[test]
    fn odd_input() {
        assert_eq!(range_probability(&[], 1.0), None);
        assert_eq!(range_probability(&values(&[(f64::NAN, 1.0)]), 1.0), None);
        assert_eq!(range_probability(&values(&[(0.0, -1.0)]), 1.0), None);
        assert_eq!(range_probability(&values(&[(0.0, 1.0); 2]), f64::NAN), None);
        assert_eq!(range_probability(&values(&[(0.0, 1.0)]), 0.0), Some(1.0));
        assert_eq!(
            range_probability(&values(&[(0.0, 1.0); 2]), -1.0),
            Some(0.0)
        );
        assert_eq!(range_probability(&values(&[(0.0, 1.0); 2]), 0.0), Some(0.0));
        assert_eq!(
            range_mean(&values(&[(5.0, 1.0)])).map(|m| m.abs() < 1e-10),
            Some(true)
        );
        // Far apart: no overlap of any tail.
        assert_eq!(
            range_probability(&values(&[(0.0, 1.0), (1e9, 1.0)]), 3.0),
            Some(0.0)
        );
        let p = range_probability(&values(&[(1e12, 1e-3), (1e12, 1e-3)]), 1.0);
        assert!((p.unwrap() - 1.0).abs() < 1e-9);
    }
}
