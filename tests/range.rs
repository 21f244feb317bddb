//! The range of normal values against published and recomputed figures.

use jawtrue::stats::{NormalValue, range_mean, range_probability};

fn standard(n: usize) -> Vec<NormalValue> {
    vec![NormalValue { mean: 0.0, sd: 1.0 }; n]
}

fn values(means: &[f64], deviations: &[f64]) -> Vec<NormalValue> {
    means
        .iter()
        .zip(deviations.iter().cycle())
        .map(|(&mean, &sd)| NormalValue { mean, sd })
        .collect()
}

/// Constants of control charts: d2 and d3 agree with the tables of ASTM E2587
/// and Montgomery, Introduction to Statistical Quality Control (from memory);
/// q(0.05) and q(0.01) with Harter, Ann. Math. Statist. 31 (1960), and
/// `scipy.stats.studentized_range` (scipy 1.17, infinite degrees of dof).
// d2 of two is 2 / sqrt(pi); here it stands as published.
#[allow(clippy::approx_constant)]
const CHART_CONSTANTS: [(usize, f64, f64, f64, f64); 8] = [
    (2, 1.1283792, 0.8525025, 2.771808, 3.642773),
    (3, 1.6925688, 0.8883680, 3.314493, 4.120303),
    (4, 2.0587507, 0.8798082, 3.633160, 4.402801),
    (5, 2.3259289, 0.8640819, 3.857656, 4.602821),
    (6, 2.5344127, 0.8480397, 4.030092, 4.757047),
    (8, 2.8472006, 0.8198315, 4.286309, 4.987183),
    (10, 3.0775055, 0.7970507, 4.474124, 5.156635),
    (12, 3.2584553, 0.7784783, 4.621655, 5.290196),
];

/// E[R^2] = 2 int_0^inf r (1 - P(R <= r)) dr, by Simpson's rule.
fn range_deviation(n: usize) -> f64 {
    let sample = standard(n);
    let (steps, end) = (1000, 12.0);
    let width = end / f64::from(steps);
    let second: f64 = (0..=steps)
        .map(|i| {
            let r = f64::from(i) * width;
            let weight = match i {
                0 => 1.0,
                i if i == steps => 1.0,
                i if i % 2 == 1 => 4.0,
                _ => 2.0,
            };
            weight * r * (1.0 - range_probability(&sample, r).unwrap())
        })
        .sum::<f64>()
        * 2.0
        * width
        / 3.0;
    let mean = range_mean(&sample).unwrap();
    (second - mean * mean).sqrt()
}

/// The range exceeded with probability `share`, by bisection.
fn upper_point(n: usize, share: f64) -> f64 {
    let sample = standard(n);
    let (mut low, mut high) = (0.0, 12.0);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if range_probability(&sample, middle).unwrap() < 1.0 - share {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

#[test]
fn control_chart_constants() {
    for (n, d2, d3, q05, q01) in CHART_CONSTANTS {
        let close = |found: f64, published: f64, digits: f64, what: &str| {
            assert!(
                (found - published).abs() <= 0.5001 * digits,
                "n = {n}, {what}: {found} against {published}"
            );
        };
        close(range_mean(&standard(n)).unwrap(), d2, 1e-7, "d2");
        close(range_deviation(n), d3, 1e-7, "d3");
        close(upper_point(n, 0.05), q05, 1e-6, "q(0.05)");
        close(upper_point(n, 0.01), q01, 1e-6, "q(0.01)");
    }
}

/// Quadrature with scipy 1.17; 1e7-draw Monte Carlo agrees to three digits.
#[test]
fn unequal_normals() {
    struct Case(&'static [f64], &'static [f64], f64, f64, f64);
    let cases = [
        Case(&[0.0; 3], &[1.0], 2.0, 0.6665006750, 1.69256875),
        Case(&[0.0, 1.0, 2.0], &[1.0], 3.0, 0.6950788971, 2.44953700),
        Case(
            &[0.0; 4],
            &[1.0, 2.0, 1.0, 2.0],
            4.0,
            0.7271802725,
            3.22558077,
        ),
        Case(&[0.0, 1.0, 2.0, 2.5], &[0.4], 3.0, 0.7947020969, 2.56749604),
        Case(
            &[0.0, 1.5, 3.0, 1.0, 2.0],
            &[0.3, 0.5, 0.3, 0.5, 0.4],
            3.0,
            0.4866584068,
            3.01624268,
        ),
        Case(&[0.0, 3.0], &[0.5], 3.0, 0.5, 3.00000336),
        Case(&[0.0; 12], &[0.5], 3.0, 0.9986706761, 1.62922764),
    ];
    for Case(means, deviations, limit, probability, mean) in cases {
        let sample = values(means, deviations);
        let found = range_probability(&sample, limit).unwrap();
        assert!(
            (found - probability).abs() < 1e-10,
            "{means:?}: {found} against {probability}"
        );
        let found = range_mean(&sample).unwrap();
        assert!(
            (found - mean).abs() < 0.51e-8,
            "{means:?}: {found} against {mean}"
        );
    }
}

/// Two values: the difference is normal, so P(R <= r) has a closed form.
#[test]
fn two_values_in_closed_form() {
    for (m, s1, s2, r) in [
        (0.0, 1.0, 1.0, 1.0),
        (3.0, 0.5, 0.1, 2.5),
        (0.4, 1e-3, 2.0, 1.7),
    ] {
        let spread = f64::sqrt(s1 * s1 + s2 * s2);
        let below = jawtrue::stats::normal_cdf;
        let expected = below((r - m) / spread) - below((-r - m) / spread);
        let found = range_probability(&values(&[1.0, 1.0 + m], &[s1, s2]), r).unwrap();
        assert!(
            (found - expected).abs() < 1e-11,
            "{found} against {expected}"
        );
    }
}
