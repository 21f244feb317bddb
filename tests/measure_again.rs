//! What settles a verdict that is too close to call.

mod presses;

use jawtrue::plan::{FurtherReadings, Model, Noise, Piece, Posterior, ResponsePrior, Settled};
use jawtrue::plan::{PredictiveScratch, press_chances, settled_by_lacings};
use jawtrue::splice::{
    Again, ENOUGH, Judging, ReadStation, Settling, Unsettled, Verdict, settling,
};
use jawtrue::stats::{Draws, Kept, NormalValue, Purpose, normal_cdf, normal_pdf};
use jawtrue::units::Length;
use presses::{INCH, Press, Scatter, TOLERANCE, learnt, pass};

include!("support/range.rs");

const CONFIDENCE: f64 = 0.95;

fn stations(inches: &[f64]) -> Vec<ReadStation> {
    inches
        .iter()
        .enumerate()
        .map(|(station, inch)| ReadStation {
            station,
            mean_nm: inch * INCH,
            repeats: 2,
        })
        .collect()
}

/// The chance that the range of independent normals is inside, and whether that
/// is a verdict.
fn called(means: &[f64], deviations: &[f64]) -> Verdict {
    let values: Vec<NormalValue> = means
        .iter()
        .zip(deviations)
        .map(|(&mean, &sd)| NormalValue { mean, sd })
        .collect();
    Verdict::at(range_probability(&values, TOLERANCE), CONFIDENCE)
}

/// Settling by readings alone, nothing expected of the piece beforehand: the
/// later means are drawn about the present ones.
fn judged(inches: &[f64], step_nm: i64, repeatability: f64) -> Settling {
    let stations = stations(inches);
    let noise = |step: Option<Length>| Noise {
        repeatability_nm: step.map_or(repeatability * INCH, |step| 0.5 * step.nm_f64()),
        ..Noise::assumed(step.map_or(step_nm as f64, Length::nm_f64))
    };
    let variance = |step: Option<Length>, repeats: usize| {
        noise(step).reading_variance(u32::try_from(repeats).unwrap())
    };
    let means: Vec<f64> = stations.iter().map(|at| at.mean_nm).collect();
    let now = vec![variance(None, 2).sqrt(); means.len()];
    let judging = Judging {
        stations: &stations,
        step: Length::from_nm(step_nm),
        verdict: if means.is_empty() {
            Verdict::TooClose
        } else {
            called(&means, &now)
        },
    };
    let steps = [2_540, 12_700, 25_400].map(Length::from_nm);
    settling(&judging, &steps, variance, |later| {
        let mut draws = Draws::new(Purpose::Simulation(7));
        let settled = (0..100).filter(|_| {
            let later_means: Vec<f64> = means
                .iter()
                .zip(now.iter().zip(later))
                .map(|(mean, (now, later))| {
                    mean + (now * now - later * later).max(0.0).sqrt() * draws.normal()
                })
                .collect();
            called(&later_means, later) != Verdict::TooClose
        });
        Some(settled.count() as f64 / 100.0)
    })
}

#[test]
fn a_clear_case_is_settled() {
    let far = judged(&[0.2500, 0.2440, 0.2510, 0.2525], 12_700, 0.0004);
    assert_eq!(far, Settling::Settled(Verdict::Outside));
    let near = judged(&[0.2500, 0.2505, 0.2500, 0.2502], 12_700, 0.0004);
    assert_eq!(near, Settling::Settled(Verdict::Inside));
}

#[test]
fn readings_go_where_they_help() {
    // B and D are the outermost; A and C lie between and need nothing.
    let found = judged(&[0.2500, 0.2485, 0.2501, 0.25214], 2_540, 0.0004);
    let Settling::Readings { again, cases } = found else {
        panic!("{found:?}");
    };
    assert!(cases >= ENOUGH);
    let asked: Vec<usize> = again.iter().map(|again: &Again| again.station).collect();
    assert_eq!(asked, [1, 3]);
    // The difference is 0.00064 over the limit, and known to 0.0004: the step
    // adds little. With n readings each it is known to s = 0.0004 sqrt(2 / n),
    // and will come out normal about 0.00064 with sd sqrt(0.0004^2 - s^2); it
    // has to come out 1.645 s over or under. By
    //
    //   python3 -c "from statistics import NormalDist as N
    //   for n in range(3, 11):
    //       s = .0004 * (2 / n) ** .5; d = (.0004 ** 2 - s * s) ** .5
    //       f = N(.00064, d).cdf; print(n, 1 - f(1.645 * s) + f(-1.645 * s))"
    //
    // that is so in 0.67, 0.73, 0.77, 0.79, 0.80, 0.82, 0.83, 0.84 of the cases for n from 3 to 10. Where the share is
    // 0.8 it is counted in 100 cases to 0.04: n is 5 to 10.
    let times: Vec<usize> = again.iter().map(|again| again.times).collect();
    assert!(
        times.iter().all(|times| (3..=8).contains(times)),
        "{times:?}"
    );
}

#[test]
fn a_coarse_step_wants_another_gauge() {
    // 0.001 in steps: the difference of two stations keeps 0.0004 in of doubt
    // for ever, 0.0005 in inside is 1.2 of that.
    let found = judged(&[0.2500, 0.2475, 0.2490, 0.2488], 25_400, 0.0003);
    let Settling::FinerGauge { step, because, .. } = found else {
        panic!("{found:?}");
    };
    assert_eq!((step, because), (Length::from_nm(2_540), Unsettled::Step));
}

#[test]
fn hand_trembling_too_much_is_said() {
    // A fine step but 0.001 in of repeatability: dozens of readings.
    let found = judged(&[0.2500, 0.2473, 0.2490, 0.2488], 5_080, 0.001);
    let because = Unsettled::TooManyReadings;
    assert!(
        matches!(found, Settling::FinerGauge { because: found, .. } if found == because),
        "{found:?}"
    );
}

#[test]
fn at_the_limit_nothing_settles() {
    let found = judged(&[0.2500, 0.2470, 0.2485], 2_540, 0.00002);
    assert_eq!(found, Settling::AtTheLimit);
}

#[test]
fn nonsense_is_unknown() {
    assert_eq!(judged(&[], 12_700, 0.0003), Settling::Unknown);
    assert_eq!(judged(&[f64::NAN, 0.25], 12_700, 0.0003), Settling::Unknown);
    let read = stations(&[0.25, 0.25]);
    let judging = Judging {
        stations: &read,
        step: Length::ZERO,
        verdict: Verdict::TooClose,
    };
    assert_eq!(
        settling(&judging, &[], |_, _| 1.0, |_| None),
        Settling::Unknown
    );
    assert_eq!(Verdict::at(f64::NAN, 0.95), Verdict::TooClose);
}

/// A gauge with fine steps, in a hand that scatters.
const SCATTER: Scatter = Scatter {
    lacing_nm: 0.0003 * INCH,
    repeatability_nm: 0.0004 * INCH,
    step_nm: 0.0001 * INCH,
    repeats: 2,
    shift_nm: 0.002 * INCH,
    tilt_nm: 0.0007 * INCH,
};

/// Follows what is said to settle verdicts on pieces and presses near the
/// limit: the share settled is that said. A reading more is the mean of the old
/// ones and new ones of the same thickness.
#[test]
fn what_is_said_to_settle_it_does() {
    let prior = presses::prior(4);
    let noise = Noise {
        repeatability_nm: SCATTER.repeatability_nm,
        deviation_nm: 0.0013 * INCH,
        ..Noise::assumed(SCATTER.step_nm)
    };
    let counting = [0, 1, 2, 3];
    let settled = Settled {
        tolerance_nm: TOLERANCE,
        confidence: CONFIDENCE,
        enough: 0.0,
    };
    let by = |chance: f64| Verdict::at(chance, CONFIDENCE) != Verdict::TooClose;
    let (mut of_pieces, mut of_presses) = (Vec::new(), Vec::new());
    for number in 0..500 {
        let mut draws = Draws::new(Purpose::Simulation(90_000 + number));
        let press = Press::of_the_prior(&mut draws, 4, noise.deviation_nm);
        let nuts = [0; 4];
        let mut piece = press.lace_and_read(&mut draws, &nuts, &SCATTER);
        let mut passes = vec![pass(&nuts, &piece.read_nm, 2)];
        let posterior = learnt(&prior, noise, &passes);
        let judged = Piece::last(&posterior, &counting, &mut Kept::default()).unwrap();
        if !by(judged.chance_as_read(TOLERANCE).unwrap()) {
            let deviations = [2_u32, 2, 2, 2].map(|n| noise.reading_variance(n + 6).sqrt());
            let said = FurtherReadings::of(&judged)
                .settle(&deviations, &settled)
                .unwrap();
            let more = Scatter {
                repeats: 6,
                ..SCATTER
            };
            let again = presses::read(&mut draws, &piece.true_nm, &more);
            let means = piece.read_nm.iter_mut().zip(again);
            means.for_each(|(mean, again)| *mean = 0.25 * *mean + 0.75 * again);
            let posterior = learnt(&prior, noise, &[pass(&nuts, &piece.read_nm, 8)]);
            let judged = Piece::last(&posterior, &counting, &mut Kept::default()).unwrap();
            of_pieces.push((said, by(judged.chance_as_read(TOLERANCE).unwrap())));
        }
        let mut scratch = PredictiveScratch::default();
        let of_press = |posterior: &Posterior, scratch: &mut PredictiveScratch| {
            by(press_chances(posterior, &counting, TOLERANCE, scratch)
                .unwrap()
                .0)
        };
        if !of_press(&posterior, &mut scratch) {
            let said =
                settled_by_lacings(&posterior, &counting, 2, &settled, &mut scratch).unwrap();
            for _ in 0..2 {
                let piece = press.lace_and_read(&mut draws, &nuts, &SCATTER);
                passes.push(pass(&nuts, &piece.read_nm, 2));
            }
            let posterior = learnt(&prior, noise, &passes);
            of_presses.push((said, of_press(&posterior, &mut scratch)));
        }
    }
    for (whose, cases) in [("pieces", of_pieces), ("presses", of_presses)] {
        let n = cases.len() as f64;
        let said = cases.iter().map(|(said, _)| said).sum::<f64>() / n;
        let came = cases.iter().filter(|(_, settled)| *settled).count() as f64 / n;
        let counting = (cases
            .iter()
            .map(|(said, _)| said * (1.0 - said))
            .sum::<f64>())
        .sqrt()
            / n;
        println!("{whose}: {n} too close, said {said:.3}, came {came:.3} ± {counting:.3}");
        assert!(n >= 60.0, "{whose}: {n}");
        assert!(
            (said - came).abs() <= 0.05 + 2.0 * counting,
            "{whose}: {said} {came}"
        );
    }
}

/// Two arms whose nuts do nothing to this: by hand, the difference of their
/// stations is known before with variance V0 = 2 x 101.6^2, and every piece shows it
/// with v = 2 x 7.62^2 + (17.78 / 2)^2 (lacing and half the tilt; um). After k
/// pieces V = 1 / (1 / V0 + k / v) and its mean is V k / v times the mean shown; what
/// it will be after n more is normal about the present one with variance V1 - V.
/// The share of what it may be that leaves 95 % on one side of 76.2, by scipy 1.17
/// (norm.cdf on 40 001 places):
#[test]
fn so_many_further_lacings_settle_so_many_cases() {
    let response = jawtrue::press::Response::from_fn(2, 2, |_, _| 0.0);
    let model = Model {
        prior: &ResponsePrior::fixed(&response).unwrap(),
        along: &[-0.25, 0.25],
        noise: Noise {
            lacing_nm: 7_620.0,
            repeatability_nm: 0.0,
            deviation_nm: 101_600.0,
            tilt_nm: 17_780.0,
            ..Noise::assumed(0.0)
        },
    };
    let settled = Settled {
        tolerance_nm: TOLERANCE,
        confidence: CONFIDENCE,
        enough: 0.0,
    };
    let mut scratch = PredictiveScratch::default();
    for (shown_um, chance, shares) in [
        (84.0, 0.3070, [0.1832, 0.3282, 0.4174]),
        (88.0, 0.2149, [0.2996, 0.4369, 0.5144]),
        (92.0, 0.1413, [0.4492, 0.5658, 0.6273]),
    ] {
        let read = [6e6 + 1_000.0 * shown_um, 6e6];
        let posterior = Posterior::from_passes(&model, &[pass(&[0, 0], &read, 1)]).unwrap();
        let (now, _) = press_chances(&posterior, &[0, 1], TOLERANCE, &mut scratch).unwrap();
        // Counted in 512 draws: three either way are 0.006.
        assert!((now - chance).abs() < 0.01, "{shown_um}: {now} {chance}");
        for (lacings, share) in (1..).zip(shares) {
            let found =
                settled_by_lacings(&posterior, &[0, 1], lacings, &settled, &mut scratch).unwrap();
            // Counted in a hundred cases, so to 0.05 as a standard deviation.
            assert!(
                (found - share).abs() < 0.1,
                "{shown_um} {lacings}: {found} {share}"
            );
        }
    }
}
