//! What the nuts leave of a spread, and why.

mod sessions;

use jawtrue::plan::Remainder;
use jawtrue::press::ArmIndex;
use jawtrue::session::{Edit, Session};
use jawtrue::splice::{Station, StationPlace};
use jawtrue::stats::{Draws, Purpose};
use sessions::{INCH, advised, even_press, found, given, laced, limits, with};

/// Independent nuts of 0.004 in a notch.
fn independent(arms: usize) -> Edit {
    let row = |station: usize| (0..arms).map(move |arm| if arm == station { 0.004 } else { 0.0 });
    let rows: Vec<Vec<f64>> = (0..arms).map(|station| row(station).collect()).collect();
    given(&rows)
}

fn near(spread_nm: f64, inches: f64) {
    assert!(
        (spread_nm / INCH - inches).abs() < 1e-9,
        "{}",
        spread_nm / INCH
    );
}

/// D is 0.068 in above the next thickest, 0.070 above A: 17 notches, where six
/// in at D and six out at the others are allowed at once. By hand: A out 6, D
/// in 6 leaves 0.070 - 0.048 = 0.022 in.
#[test]
fn what_is_far_takes_another_piece_and_is_not_incurable() {
    let session = found(&["0.250", "0.252", "0.251", "0.320"]);
    let session = with(&session, &[independent(4)]);
    let Some(Remainder::NotInThisRelace { spread_nm }) = advised(&session).remainder else {
        panic!("{:?}", advised(&session).remainder);
    };
    near(spread_nm, 0.022);
}

/// The same where D may go in by two notches and the others out by one: 0.070 -
/// 0.012 = 0.058 in is left of A and D; B and C have room to spare between.
#[test]
fn limits_are_named() {
    let session = found(&["0.250", "0.252", "0.251", "0.320"]);
    let tight = [limits(None, -1, 1), limits(Some(3), -2, 1)];
    let session = with(&with(&session, &[independent(4)]), &tight);
    let Some(Remainder::LimitsStop { spread_nm, arms }) = advised(&session).remainder else {
        panic!("{:?}", advised(&session).remainder);
    };
    near(spread_nm, 0.058);
    assert!(
        arms.contains(&ArmIndex(0)) && arms.contains(&ArmIndex(3)),
        "{arms:?}"
    );
}

/// A press of four arms with a station in the middle between each two.
fn with_stations_between() -> Session {
    let mut session = Session::new("a".into(), jawtrue::units::Unit::Inch, even_press(4));
    // Arms at 6, 18, 30 and 42 in.
    let between = ["12", "24", "36"].map(|at| Station {
        place: StationPlace::Between(sessions::inches(at)),
        counts: true,
    });
    session.stations.extend(between);
    session
        .stations
        .sort_by_key(|at| at.position(&session.press).nm());
    assert_eq!(session.check(), Ok(()));
    session
}

fn read(session: &Session, thickness: impl Iterator<Item = f64>) -> Session {
    let texts: Vec<String> = thickness
        .map(|inch| format!("{:.4}", (inch / 0.0005).round() * 0.0005))
        .collect();
    let texts: Vec<&str> = texts.iter().map(String::as_str).collect();
    laced(session, &[], &texts)
}

/// Arms far out of true, which the nuts cure, and nothing else but lacing and
/// gauge scatter: at most one session in twenty may be told of wear, and by
/// counting two standard deviations more.
#[test]
fn scatter_is_not_called_wear() {
    let session = with_stations_between();
    let mut draws = Draws::new(Purpose::Simulation(77));
    let (sessions, mut told) = (120, 0);
    for _ in 0..sessions {
        // A taper and scatter: lacing 0.0003 in, repeatability 0.000 25 in.
        let taper = 0.010 * draws.normal();
        let scatter: Vec<f64> = (0..7).map(|_| 0.000_39 * draws.normal()).collect();
        let places = (0..7).map(|station| f64::from(station) / 6.0 - 0.5);
        let piece = places
            .zip(scatter)
            .map(|(place, e)| 0.25 + taper * place + e);
        let remainder = advised(&read(&session, piece)).remainder;
        told += usize::from(matches!(remainder, Some(Remainder::NoNutCures { .. })));
    }
    println!("{told} of {sessions} told of wear");
    // 0.05 x 120 and two of sqrt(120 x 0.05 x 0.95).
    assert!(told as f64 <= 6.0 + 2.0 * 2.4, "{told}");
}

/// A jaw worn by 0.006 in between two arms: no nut reaches that.
#[test]
fn wear_between_the_arms_is_told() {
    let session = with_stations_between();
    let worn = [0.250, 0.250, 0.250, 0.256, 0.250, 0.250, 0.250];
    let remainder = advised(&read(&session, worn.into_iter())).remainder;
    let Some(Remainder::NoNutCures { spread_nm }) = remainder else {
        panic!("{remainder:?}");
    };
    assert!(
        (0.003..=0.006).contains(&(spread_nm / INCH)),
        "{}",
        spread_nm / INCH
    );
}
