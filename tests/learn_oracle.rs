//! What passes teach and what the next piece is foretold, against plain Bayesian
//! regression and a Monte Carlo of the spread, both by numpy. The figures and
//! the model stand in `tests/oracle/learning.py`, which prints them; pass by pass in
//! `kalman.py` beside it.

use jawtrue::plan::{Forecaster, Model, Noise, Posterior, ResponsePrior, StationReading, TestPass};

/// Nanometres in a micrometre, the unit of the oracle.
const UM: f64 = 1_000.0;
const ALONG: [f64; 3] = [-0.5, 0.0, 0.5];

fn posterior() -> Posterior {
    posterior_of(3)
}

/// What the first so many passes teach.
fn posterior_of(count: usize) -> Posterior {
    let mean = [80.0, 20.0, 45.0, 45.0, 20.0, 80.0].map(|um| um * UM);
    let mut covariance = vec![0.0; 36];
    for place in 0..6 {
        covariance[place * 7] = (15.0 * UM).powi(2);
    }
    let prior = ResponsePrior::from_parts(3, 2, mean.to_vec(), covariance).unwrap();
    let model = Model {
        prior: &prior,
        along: &ALONG,
        noise: Noise {
            lacing_nm: 8.0 * UM,
            repeatability_nm: 6.0 * UM,
            step_nm: 12.7 * UM,
            deviation_nm: 100.0 * UM,
            shift_nm: 50.0 * UM,
            tilt_nm: 20.0 * UM,
            lacing_freedom: f64::INFINITY,
            repeatability_freedom: f64::INFINITY,
            ..Noise::assumed(12.7 * UM)
        },
    };
    let pass = |nuts: [f64; 2], read: [(f64, u32); 3]| TestPass {
        nuts: nuts.to_vec(),
        handle: 0.0,
        readings: read
            .iter()
            .map(|&(um, repeats)| {
                Some(StationReading {
                    mean_nm: um * UM,
                    repeats,
                })
            })
            .collect(),
    };
    let passes = [
        pass([-4.0, -4.0], [(6300.0, 2), (6380.0, 1), (6420.0, 3)]),
        pass([-2.0, -4.0], [(6440.0, 2), (6500.0, 2), (6452.0, 2)]),
        pass([-2.0, -5.0], [(6395.0, 1), (6410.0, 2), (6371.0, 4)]),
    ];
    Posterior::from_passes(&model, &passes[..count]).unwrap()
}

/// Within a thousandth of a micrometre: the program always keeps a scatter of
/// one nanometre more.
fn check(what: &str, found_nm: f64, expected_um: f64) {
    assert!(
        (found_nm / UM - expected_um).abs() < 1e-3,
        "{what}: {} {expected_um}",
        found_nm / UM
    );
}

#[test]
fn the_response_is_learnt_as_by_bayesian_regression() {
    let posterior = posterior();
    let expected = [
        (70.304_396, 10.626_801),
        (19.004_518, 12.969_444),
        (55.216_305, 9.588_451),
        (56.720_044, 11.649_303),
        (18.264_837, 10.605_421),
        (70.608_367, 12.903_173),
    ];
    let response = posterior.response();
    for (place, (mean, sd)) in expected.into_iter().enumerate() {
        let (station, arm) = (place / 2, place % 2);
        check("response", response.at(station, arm), mean);
        check("its sd", posterior.response_deviation(station, arm), sd);
    }
}

/// By the Kalman filter of filterpy 2.0.0 (`tests/oracle/kalman.py`), which has shift
/// and tilt in the covariance of the measurement: nothing is learnt of the
/// response from one pass, of arm A from the second and of both from the third.
#[test]
fn every_pass_teaches_as_in_a_kalman_filter() {
    let expected = [
        [
            [80.0, 20.0, 45.0, 45.0, 20.0, 80.0],
            [15.0, 15.0, 15.0, 15.0, 15.0, 15.0],
        ],
        [
            [71.493_059, 20.0, 57.354_101, 45.0, 16.193_537, 80.0],
            [10.945_562, 15.0, 9.758_457, 15.0, 10.932_582, 15.0],
        ],
        [
            [
                70.304_396, 19.004_518, 55.216_305, 56.720_044, 18.264_837, 70.608_367,
            ],
            [
                10.626_801, 12.969_444, 9.588_451, 11.649_303, 10.605_421, 12.903_173,
            ],
        ],
    ];
    for (passes, [means, sds]) in (1..).zip(expected) {
        let posterior = posterior_of(passes);
        for (place, (mean, sd)) in means.into_iter().zip(sds).enumerate() {
            let (station, arm) = (place / 2, place % 2);
            check("response", posterior.response().at(station, arm), mean);
            check("its sd", posterior.response_deviation(station, arm), sd);
        }
    }
}

#[test]
fn press_and_next_piece_follow_from_it() {
    let posterior = posterior();
    let (press, next) = (
        posterior.press_after(&[1.0, 2.0]),
        posterior.next_piece_after(&[1.0, 2.0]),
    );
    let mean = [6_521.412_943, 6_597.738_871, 6_538.512_186];
    let press_sd = [39.822_731, 37.678_128, 39.818_483];
    let next_sd = [65.190_873, 63.116_094, 65.188_278];
    for station in 0..3 {
        check("mean", press.mean_nm[station], mean[station]);
        check("mean", next.mean_nm[station], mean[station]);
        check("press", press.sd(station), press_sd[station]);
        check("next", next.sd(station), next_sd[station]);
    }
    let ends = next.covariance[2] / UM / UM;
    assert!((ends - 3_283.950_646).abs() < 1e-2, "{ends}");
}

/// Twenty million draws: median 86.575, nine in ten below 124.806, inside 76.2 with
/// 0.35895 (standard error 0.0001). The program draws 512, stratified: of as many
/// plain draws, spreads that scatter by about 28, the median would be off by 1.25 x
/// 28 / sqrt 512 = 1.5 (1.8 %) and the chance by 0.022, as standard errors.
#[test]
fn the_spread_of_the_next_piece_is_foretold_as_by_monte_carlo() {
    let mut forecaster = Forecaster::new(&posterior(), &[0, 1, 2], 76.2 * UM).unwrap();
    let forecast = forecaster.forecast(&[1, 2]);
    let near = |found: f64, expected: f64| (found / expected - 1.0).abs() < 0.03;
    assert!(near(forecast.median_nm, 86.575 * UM), "{forecast:?}");
    assert!(near(forecast.p90_nm, 124.806 * UM), "{forecast:?}");
    assert!(
        (100.0 * forecast.chance - 35.895).abs() < 2.0,
        "{forecast:?}"
    );
}
