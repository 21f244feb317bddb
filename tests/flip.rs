//! The flip test, there and back, and the bare belt.

use jawtrue::press::ArmIndex;
use jawtrue::splice::{
    BeltVariation, Cell, Drift, DriftProblem, FlipProblem, FlipStation, FlipTest, Measured,
    Profile, Reading, Scatter, ScatterSource, Station, TimedReading, Walk,
};
use jawtrue::units::{Length, Sign, TypedLength, Unit};

/// Stations of a made-up press and belt: the jaw is any curve, the belt an
/// odd part and an even one about the middle at 600 mm.
fn stations(odd: fn(f64) -> f64, even: fn(f64) -> f64) -> Vec<FlipStation> {
    let positions = [0.0, 300.0, 600.0, 850.0, 900.0, 1_200.0];
    let jaw = |x: f64| 6e6 + 20.0 * x + 0.05 * x * x;
    let mean = |value_nm| {
        Some(Measured {
            value_nm,
            u_nm: 4_000.0,
        })
    };
    let laced = |x: f64, way: f64, shift: f64| {
        let from_middle = (x - 600.0) * way;
        jaw(x) + odd(from_middle) + even(from_middle) + shift
    };
    positions
        .into_iter()
        .map(|x| FlipStation {
            position_nm: x * 1e6,
            first: mean(laced(x, 1.0, 500.0)),
            flipped: mean(laced(x, -1.0, -40_000.0)),
        })
        .collect()
}

fn odd(x: f64) -> f64 {
    30.0 * x + 1e-4 * x * x * x
}

fn nothing(_: f64) -> f64 {
    0.0
}

fn even(x: f64) -> f64 {
    0.1 * x * x
}

#[test]
fn the_odd_part_comes_back() {
    let found = FlipTest::of(&stations(odd, even), 600e6).unwrap();
    let pairs: Vec<(usize, usize)> = found.pairs.iter().map(|p| (p.left, p.right)).collect();
    assert_eq!(pairs, [(0, 5), (1, 4)]);
    for (pair, x) in found.pairs.iter().zip([600.0, 300.0]) {
        assert!((pair.odd.value_nm - odd(x)).abs() < 1e-6, "{pair:?}");
        // Four means of 4 000 nm each, over four.
        assert!((pair.odd.u_nm - 2_000.0).abs() < 1e-9);
        assert!((pair.shift.value_nm + 40_500.0).abs() < 1e-6);
    }
    // 850 mm has no mirror station; the middle needs none.
    assert_eq!(found.unpaired, [3]);
    let standing_out = found.pairs.iter().filter(|pair| pair.odd.stands_out());
    assert!(standing_out.clone().any(|pair| pair.right == 5));
}

#[test]
fn an_even_belt_shows_nothing_odd() {
    // A belt with nothing odd shows nothing odd, whatever its even part.
    let found = FlipTest::of(&stations(nothing, even), 600e6).unwrap();
    assert!(!found.pairs.iter().any(|pair| pair.odd.stands_out()));
}

#[test]
fn flip_tests_that_tell_nothing() {
    let all = stations(odd, even);
    assert_eq!(FlipTest::of(&[], 0.0), Err(FlipProblem::NoMirrorStations));
    assert_eq!(
        FlipTest::of(&all, 100e6),
        Err(FlipProblem::NoMirrorStations)
    );
    assert_eq!(FlipTest::of(&all, f64::NAN), Err(FlipProblem::NotANumber));
    let mut unread = all.clone();
    unread[0].flipped = None;
    let found = FlipTest::of(&unread, 600e6).unwrap();
    assert_eq!(found.unpaired, [0, 3, 5]);
}

#[test]
fn there_and_back_cancels_a_linear_drift() {
    let profile = [6_000.0, 6_050.0, 5_980.0, 6_020.0];
    let drift = 7.0;
    let readings = |walk: Walk, rounds| -> Vec<TimedReading> {
        walk.places(4, rounds)
            .enumerate()
            .map(|(turn, place)| TimedReading {
                station: place.station,
                turn,
                nm: profile[place.station] + drift * turn as f64,
            })
            .collect()
    };
    let scatter = |sd_nm, dof| Scatter {
        sd_nm,
        dof,
        source: ScatterSource::Repeats(4),
    };
    let found = Drift::of(&readings(Walk::ThereAndBack, 2), 4).unwrap();
    assert!((found.over_pass_nm - 49.0).abs() < 1e-9);
    // S = (7^2 + 5^2 + 3^2 + 1) / 2 = 42.
    let over = found.over_pass(scatter(10.0, 5.0));
    assert!((over.u_nm - 7.0 * 10.0 / 42_f64.sqrt()).abs() < 1e-12);
    // 49 is 2.59 times that for a scatter of 17.5: beyond Student's 95 % point
    // at 5 degrees of freedom, 2.571, and short of that at 4, 2.776 (tables).
    assert!(found.stands_out(scatter(17.5, 5.0)) && !found.stands_out(scatter(17.5, 4.0)));
    // Every station's turns are 3.5 on average, so the plain means are free of
    // it; about the line nothing is left, with one degree of freedom less.
    assert!(found.left_nm < 1e-9);
    assert!(found.residuals.sum_of_squares_nm2 < 1e-9);
    assert_eq!((found.residuals.dof, found.residuals.samples), (3.0, 4));
    // Three rounds: turns of A 0, 7, 8, of D 3, 4, 11; the means are a turn
    // apart.
    let found = Drift::of(&readings(Walk::ThereAndBack, 3), 4).unwrap();
    assert!((found.left_nm - drift).abs() < 1e-9, "{found:?}");
    assert_eq!(found.residuals.dof, 7.0);
    // Straight through twice, the fit still finds it, and three turns of it
    // are between A and D.
    let found = Drift::of(&readings(Walk::Straight, 2), 4).unwrap();
    assert!((found.over_pass_nm - 49.0).abs() < 1e-9);
    assert!((found.left_nm - 3.0 * drift).abs() < 1e-9);
    let mut once = readings(Walk::ThereAndBack, 1);
    assert_eq!(Drift::of(&once, 4), Err(DriftProblem::NoRepeats));
    assert_eq!(Drift::of(&[], 4), Err(DriftProblem::NoRepeats));
    // Readings of stations that are not there are left out.
    assert_eq!(Drift::of(&once, 0), Err(DriftProblem::NoRepeats));
    once[0].nm = f64::NAN;
    assert_eq!(Drift::of(&once, 4), Err(DriftProblem::NotANumber));
}

#[test]
fn a_belt_that_varies_like_the_tolerance_is_said() {
    let stations: Vec<Station> = (0..3).map(|arm| Station::at_arm(ArmIndex(arm))).collect();
    let variation = |texts: [&str; 3]| {
        let rows: Vec<Vec<Cell>> = texts
            .iter()
            .map(|text| {
                let typed = TypedLength::parse(text, Unit::Inch, Sign::None).ok();
                typed
                    .map(Reading::new)
                    .map(Cell::Reading)
                    .into_iter()
                    .collect()
            })
            .collect();
        BeltVariation::of(&stations, &Profile::of(&rows), Length::from_nm(76_200))
    };
    assert!(
        variation(["0.2010", "0.1980", "0.2000"])
            .unwrap()
            .as_large_as_tolerance
    );
    assert!(
        !variation(["0.2009", "0.1980", "0.2000"])
            .unwrap()
            .as_large_as_tolerance
    );
    assert_eq!(variation(["0.2009", "", ""]), None);
}
