//! What settles a verdict that is too close to call.

use jawtrue::plan::{NormalValue, range_probability};
use jawtrue::splice::{Again, Judging, ReadStation, Settling, Unsettled, Verdict, settling};
use jawtrue::units::Length;

const INCH: f64 = 25_400_000.0;

/// Of independent stations, none of which was expected to be anything before.
fn range_chance(means: &[f64], deviations: &[f64], limit: f64) -> Option<f64> {
    let values = means.iter().zip(deviations);
    let values: Vec<NormalValue> = values
        .map(|(&mean, &deviation)| NormalValue { mean, deviation })
        .collect();
    range_probability(&values, limit)
}

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

fn judged(inches: &[f64], step_nm: i64, repeatability: f64, lacing: f64) -> Settling {
    let stations = stations(inches);
    let judging = Judging {
        stations: &stations,
        repeatability_nm: repeatability * INCH,
        step: Length::from_nm(step_nm),
        lacing_nm: lacing * INCH,
        tolerance: Length::from_nm(76_200),
        confidence: 0.95,
    };
    let steps = [2_540, 12_700, 25_400].map(Length::from_nm);
    settling(&judging, &steps, range_chance)
}

#[test]
fn a_clear_case_is_settled() {
    let far = judged(&[0.2500, 0.2440, 0.2510, 0.2525], 12_700, 0.0004, 0.0);
    assert_eq!(far, Settling::Settled(Verdict::Outside));
    let near = judged(&[0.2500, 0.2505, 0.2500, 0.2502], 12_700, 0.0004, 0.0);
    assert_eq!(near, Settling::Settled(Verdict::Inside));
}

#[test]
fn readings_go_where_they_help() {
    // B and D are the outermost; A and C lie between and need nothing.
    let found = judged(&[0.2500, 0.2485, 0.2501, 0.25205], 2_540, 0.0004, 0.0);
    let Settling::Readings { again, to } = found else {
        panic!("{found:?}");
    };
    assert_eq!(to, Verdict::Outside);
    let asked: Vec<usize> = again.iter().map(|again: &Again| again.station).collect();
    assert_eq!(asked, [1, 3]);
    // Both outermost alike: with n readings each the difference has
    // sd 0.0004 sqrt(2/n) (the step adds little); 0.00055 over the limit is
    // 1.645 of that from n = 2.9 on.
    assert!(
        again.iter().all(|again| (1..=2).contains(&again.times)),
        "{again:?}"
    );
}

#[test]
fn a_coarse_step_wants_another_gauge() {
    // 0.001 in steps and readings that never differ: the difference of two
    // stations keeps 0.0004 in of doubt for ever, 0.0005 in inside is 1.2 of
    // that. With steps of 0.0005 in, half a step of scatter and two readings it
    // is 0.0005 in / sqrt 3, and 0.0005 in 1.73 of that: above 1.645.
    let found = judged(&[0.2500, 0.2475, 0.2490, 0.2488], 25_400, 0.0, 0.0);
    assert_eq!(
        found,
        Settling::FinerGauge {
            step: Length::from_nm(12_700),
            to: Verdict::Inside,
            because: Unsettled::Step,
        }
    );
}

#[test]
fn hand_trembling_too_much_is_said() {
    // A fine step but 0.001 in of repeatability: dozens of readings.
    let found = judged(&[0.2500, 0.2473, 0.2490, 0.2488], 5_080, 0.001, 0.0);
    assert!(
        matches!(
            found,
            Settling::FinerGauge {
                because: Unsettled::TooManyReadings,
                ..
            }
        ),
        "{found:?}"
    );
}

#[test]
fn at_the_limit_nothing_settles() {
    let found = judged(&[0.2500, 0.2470, 0.2485], 12_700, 0.0003, 0.0);
    assert_eq!(found, Settling::AtTheLimit);
}

#[test]
fn the_press_wants_another_lacing() {
    // 0.0009 in over; the difference of two means of m lacings has sd 0.0006
    // sqrt(2 / m), 1.645 of which is 0.0014, 0.00099, 0.00081 for m = 1 to 3.
    let found = judged(&[0.2500, 0.2461, 0.2490, 0.2488], 2_540, 0.0001, 0.0006);
    assert_eq!(
        found,
        Settling::FurtherLacings {
            lacings: 2,
            to: Verdict::Outside,
        }
    );
}

#[test]
fn nonsense_is_unknown() {
    assert_eq!(judged(&[], 12_700, 0.0003, 0.0), Settling::Unknown);
    assert_eq!(
        judged(&[f64::NAN, 0.25], 12_700, 0.0003, 0.0),
        Settling::Unknown
    );
    let empty = stations(&[0.25, 0.25]);
    let judging = Judging {
        stations: &empty,
        repeatability_nm: 1.0,
        step: Length::ZERO,
        lacing_nm: 0.0,
        tolerance: Length::ZERO,
        confidence: 0.95,
    };
    assert_eq!(settling(&judging, &[], |_, _, _| None), Settling::Unknown);
    assert_eq!(Verdict::at(f64::NAN, 0.95), Verdict::TooClose);
}
