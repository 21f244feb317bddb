//! The chance that the range of equally scattered normal values is within a limit,
//! against published and recomputed figures.

use jawtrue::stats::{
    Draws, EvenRange, NormalValue, Purpose, mean_even_range, normal_cdf, normal_pdf,
};

include!("support/range.rs");

/// Constants of control charts: d2 agrees with the tables of ASTM E2587 and
/// Montgomery, Introduction to Statistical Quality Control (from memory); q(0.05)
/// and q(0.01) with Harter, Ann. Math. Statist. 31 (1960), and
/// `scipy.stats.studentized_range` (scipy 1.17, infinite degrees of freedom).
// d2 of two is 2 / sqrt(pi); here it stands as published.
#[allow(clippy::approx_constant)]
const CHART_CONSTANTS: [(usize, f64, f64, f64); 8] = [
    (2, 1.1283792, 2.771808, 3.642773),
    (3, 1.6925688, 3.314493, 4.120303),
    (4, 2.0587507, 3.633160, 4.402801),
    (5, 2.3259289, 3.857656, 4.602821),
    (6, 2.5344127, 4.030092, 4.757047),
    (8, 2.8472006, 4.286309, 4.987183),
    (10, 3.0775055, 4.474124, 5.156635),
    (12, 3.2584553, 4.621655, 5.290196),
];

#[test]
fn control_chart_constants() {
    for (n, d2, q05, q01) in CHART_CONSTANTS {
        let means = vec![0.0; n];
        let within = |limit: f64| EvenRange::default().probability(1.0, limit, &means);
        assert!(
            (within(q05) - 0.95).abs() < 2e-5,
            "n = {n}: {}",
            within(q05)
        );
        assert!(
            (within(q01) - 0.99).abs() < 2e-5,
            "n = {n}: {}",
            within(q01)
        );
        let mean = mean_even_range(n as u16);
        assert!(
            (mean - d2).abs() <= 0.5001e-7,
            "n = {n}: {mean} against {d2}"
        );
    }
}

/// Quadrature with scipy 1.17; 1e7-draw Monte Carlo agrees to three digits.
#[test]
fn unequal_means() {
    for (means, sd, limit, expected) in [
        (&[0.0; 3][..], 1.0, 2.0, 0.6665006750),
        (&[0.0, 1.0, 2.0], 1.0, 3.0, 0.6950788971),
        (&[0.0, 1.0, 2.0, 2.5], 0.4, 3.0, 0.7947020969),
        (&[0.0, 3.0], 0.5, 3.0, 0.5),
        (&[0.0; 12], 0.5, 3.0, 0.9986706761),
    ] {
        let found = EvenRange::default().probability(sd, limit, means);
        assert!((found - expected).abs() < 2e-5, "{means:?}: {found}");
    }
}

/// The plain sum that other checks lean on, where deviations are unequal too; the
/// same source.
#[test]
fn unequal_deviations() {
    for (means, sds, limit, expected) in [
        (&[0.0; 4][..], &[1.0, 2.0][..], 4.0, 0.7271802725),
        (
            &[0.0, 1.5, 3.0, 1.0, 2.0],
            &[0.3, 0.5, 0.3, 0.5, 0.4],
            3.0,
            0.4866584068,
        ),
    ] {
        let pairs = means.iter().zip(sds.iter().cycle());
        let values: Vec<NormalValue> = pairs.map(|(&mean, &sd)| NormalValue { mean, sd }).collect();
        let found = range_probability(&values, limit);
        assert!((found - expected).abs() < 1e-9, "{means:?}: {found}");
    }
}

#[test]
fn the_table_agrees_with_the_plain_sum() {
    let mut draws = Draws::new(Purpose::Simulation(1));
    for case in 0..400 {
        let n = 2 + draws.below(11);
        let sd = draws.between(0.05, 1.0);
        let extent = draws.between(0.0, 6.0);
        let limit = draws.between(0.1, 6.0);
        let means: Vec<f64> = (0..n).map(|_| 100.0 + extent * draws.uniform()).collect();
        let values: Vec<NormalValue> = means.iter().map(|&mean| NormalValue { mean, sd }).collect();
        let exact = range_probability(&values, limit);
        let fast = EvenRange::default().probability(sd, limit, &means);
        assert!((fast - exact).abs() < 2e-5, "case {case}: {fast} {exact}");
    }
}
