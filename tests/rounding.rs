//! The uncertainty of means of rounded readings, against the exact figure, the
//! exact likelihood and a simulation of its own.

use jawtrue::plan::Noise;
use jawtrue::splice::{MeanVariance, Pooled, Sample, Scatter};
use jawtrue::units::Length;

/// Root of the mean square error of the mean of n readings over a place even
/// between two steps, in steps, for n of 1, 2, 4, 8, 16, after the standard
/// deviation of the normal error before rounding. numpy 2.4, scipy 1.17:
///
/// ```python
/// def at(p, sigma, n):  # sigma = 0: k = [p >= .5], w = [1]
///     k = numpy.arange(-25, 27.)
///     w = norm.cdf((k + .5 - p) / sigma) - norm.cdf((k - .5 - p) / sigma)
///     m = (w * k).sum()
///     return (w * (k - m)**2).sum() / n + (m - p)**2
/// quad(at, 0, 1, args=(sigma, n), points=[.5], epsabs=1e-13, epsrel=1e-12, limit=400)[0]**.5
/// ```
const EXACT: [(f64, [f64; 5]); 7] = [
    (0.0, [0.288675135; 5]),
    (
        0.1,
        [
            0.305505046,
            0.255193758,
            0.225874112,
            0.209682486,
            0.201098384,
        ],
    ),
    (
        0.2,
        [
            0.351188458,
            0.258650387,
            0.196680876,
            0.156764280,
            0.132366445,
        ],
    ),
    (
        0.35,
        [
            0.453688586,
            0.321119504,
            0.227508104,
            0.161496248,
            0.115072102,
        ],
    ),
    (
        0.5,
        [
            0.577350269,
            0.408249895,
            0.288678538,
            0.204129761,
            0.144346077,
        ],
    ),
    (
        1.0,
        [
            1.040833000,
            0.735980072,
            0.520416500,
            0.367990036,
            0.260208250,
        ],
    ),
    (
        2.0,
        [
            2.020725942,
            1.428869017,
            1.010362971,
            0.714434508,
            0.505181486,
        ],
    ),
];
const REPEATS: [usize; 5] = [1, 2, 4, 8, 16];

fn u(repeatability: f64, step: f64, repeats: usize) -> f64 {
    MeanVariance::of(repeatability, step, repeats)
        .total_nm2()
        .sqrt()
}

#[test]
fn the_mean_of_rounded_readings_is_as_uncertain_as_it_is_off() {
    for (sigma, exact) in EXACT {
        for (repeats, exact) in REPEATS.into_iter().zip(exact) {
            let reading = (sigma * sigma + 1.0 / 12.0_f64).sqrt();
            let found = u(reading, 1.0, repeats);
            assert!((found - exact).abs() < 1e-9, "{sigma} {repeats}: {found}");
            // In any unit, and in the room that plans.
            let noise = Noise {
                repeatability_nm: 2_540.0 * reading,
                ..Noise::assumed(2_540.0)
            };
            let planned = noise.reading_variance(repeats as u32).sqrt() / 2_540.0;
            assert!(
                (planned - exact).abs() < 1e-9,
                "{sigma} {repeats}: {planned}"
            );
        }
    }
}

#[test]
fn the_exact_likelihood_knows_no_better() {
    // Root of the mean variance of the true thickness given the readings,
    // by the likelihood of rounded normal readings on a grid, all thicknesses
    // as likely beforehand; 4 000 pieces each, so 1 to 2 % either way. numpy:
    //
    // p = rng.uniform(-.5, .5, 4000)                       # default_rng(1)
    // x = rint(p[:, None] + s * rng.standard_normal((4000, n)))
    // L(x | t) = prod (cdf((x + .5 - t) / s) - cdf((x - .5 - t) / s)), t on a grid
    for (sigma, repeats, likelihood) in [
        (0.35, 2, 0.3211),
        (0.35, 4, 0.2272),
        (0.35, 8, 0.1602),
        (0.35, 16, 0.1133),
        (0.5, 2, 0.4083),
        (0.5, 4, 0.2887),
        (0.5, 8, 0.2041),
        (0.5, 16, 0.1443),
        (1.0, 4, 0.5204),
        (1.0, 16, 0.2602),
    ] {
        let found = u((sigma * sigma + 1.0 / 12.0_f64).sqrt(), 1.0, repeats);
        assert!((found / likelihood - 1.0).abs() < 0.02, "{sigma} {repeats}");
    }
}

/// Sum of twelve uniform numbers less six: as good as normal, from Knuth's
/// MMIX generator.
struct Draws(u64);

impl Draws {
    fn uniform(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.uniform()).sum::<f64>() - 6.0
    }
}

#[test]
fn with_the_scatter_that_readings_show() {
    // What a shop does: the repeatability is pooled from the readings as
    // shown, here of 6 000 places, and the mean of each place is off by what
    // it is off. The root mean square error is known to 0.9 %; the sum of
    // twelve differs from the normal by less.
    let mut draws = Draws(11);
    let step = 10_000.0;
    for sigma in [0.0, 0.1, 0.2, 0.35, 0.5, 1.0, 2.0] {
        for repeats in [2, 4, 8, 16] {
            let (mut error, mut samples) = (0.0, Vec::new());
            for _ in 0..6_000 {
                let place = 6_350_000.0 + step * draws.uniform();
                let readings: Vec<f64> = (0..repeats)
                    .map(|_| ((place + sigma * step * draws.normal()) / step).round() * step)
                    .collect();
                let mean = readings.iter().sum::<f64>() / repeats as f64;
                error += (mean - place).powi(2) / 6_000.0;
                let lengths = readings
                    .iter()
                    .map(|reading| Length::from_nm(*reading as i64));
                samples.extend(Sample::of(lengths));
            }
            let scatter = Scatter::of_gauge(None, Pooled::of(samples), step);
            let ratio = u(scatter.sd_nm, step, repeats) / error.sqrt();
            // From a third of a step the figure is right. Below, readings show
            // less scatter than they have, and the figure errs to the safe
            // side, by up to 1.45 at a tenth of a step and 16 readings.
            let most = if sigma >= 0.35 || sigma == 0.0 {
                1.03
            } else {
                1.5
            };
            assert!((0.97..most).contains(&ratio), "{sigma} {repeats}: {ratio}");
        }
    }
}

#[test]
fn a_gauge_reads_no_better_than_it_rounds() {
    for repeats in [1, 1_000] {
        for sd in [0.0, 0.1, 0.28] {
            assert!((u(sd, 1.0, repeats) - 1.0 / 12_f64.sqrt()).abs() < 1e-9);
        }
    }
    // Without a step repeats average all.
    assert!((u(3.0, 0.0, 9) - 1.0).abs() < 1e-15);
}
