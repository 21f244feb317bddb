//! What many sessions say: simulated drift is recovered within its stated
//! intervals, and the press book says what the sessions say.

mod common;

use std::fs;

use common::{jawtrue, session};
use jawtrue::press::NutPosition;
use jawtrue::session::{IsoDate, Session};
use jawtrue::shop::{Drift, NextCheck, NoDrift, VisitSummary, press_books};
use jawtrue::stats::{Draws, Purpose};
use jawtrue::store::{self, Expected};
use jawtrue::units::{Length, TypedLength, Unit};

/// A visit of one or two pieces with these profiles, in nanometres.
fn visit(day: i64, found: &[f64], left: &[f64]) -> VisitSummary {
    let mut session = session(&vec![""; found.len()]);
    session.invented = true;
    session.id = format!("{day:08}");
    let first = IsoDate::parse("2026-01-01").unwrap();
    session.notes.when = first.later(day).unwrap().to_string();
    let read = |session: &mut Session, pass: usize, profile: &[f64]| {
        for (row, nm) in session.passes[pass].rows.iter_mut().zip(profile) {
            let length = Length::from_nm((6_350_000.0 + nm).round() as i64);
            let typed = TypedLength::from_length(length, Unit::Millimetre);
            *row = vec![jawtrue::splice::Cell::Reading(
                jawtrue::splice::Reading::new(typed),
            )];
        }
    };
    read(&mut session, 0, found);
    let second = session.passes[0].clone();
    session.passes.push(second);
    read(&mut session, 1, left);
    VisitSummary::of(&session, format!("{day}.jawtrue"))
}

/// A simulated press: its visits, the true rates of its stations against their
/// mean, and the piece that comes 40 days after the last visit.
struct Simulated {
    visits: Vec<VisitSummary>,
    rates: Vec<f64>,
    later: Vec<f64>,
}

/// Days after the last visit at which the further piece is laced.
const LATER: f64 = 40.0;

fn simulated(seed: u64, visits: usize) -> Simulated {
    let mut draws = Draws::new(Purpose::Simulation(seed));
    let stations = 4;
    let rates: Vec<f64> = (0..stations).map(|_| 300.0 * draws.normal()).collect();
    let middle = rates.iter().sum::<f64>() / stations as f64;
    let rates: Vec<f64> = rates.iter().map(|rate| rate - middle).collect();
    let mut jaw: Vec<f64> = (0..stations).map(|_| 20_000.0 * draws.normal()).collect();
    let mut day = 0;
    let mut all = Vec::new();
    // A piece: another level, and 0.0003 in of scatter at every station.
    let mut piece = |jaw: &[f64]| -> Vec<f64> {
        let level = 50_000.0 * draws.normal();
        jaw.iter()
            .map(|nm| nm + level + 7_620.0 * draws.normal())
            .collect()
    };
    for number in 0..visits {
        if number > 0 {
            let days = 20 + (seed as i64 * 7 + number as i64 * 13) % 40;
            day += days;
            for (nm, rate) in jaw.iter_mut().zip(&rates) {
                *nm += rate * days as f64;
            }
        }
        let found = piece(&jaw);
        // The visit makes it level again, whatever it was.
        jaw = jaw.iter().map(|nm| nm * 0.1).collect();
        let left = piece(&jaw);
        all.push(visit(day, &found, &left));
    }
    let later: Vec<f64> = jaw
        .iter()
        .zip(&rates)
        .map(|(nm, rate)| nm + rate * LATER)
        .collect();
    Simulated {
        visits: all,
        later: piece(&later),
        rates,
    }
}

fn spread(piece: &[f64]) -> f64 {
    let most = piece.iter().copied().fold(f64::MIN, f64::max);
    most - piece.iter().copied().fold(f64::MAX, f64::min)
}

/// Of 400 seeded presses, as many as a 95 % interval has to hold: 380, give or
/// take 2.6 standard deviations of counting (4.36 each), 99 times in 100.
#[test]
fn simulated_drift_lies_within_its_intervals() {
    let (mut rates, mut pieces, presses) = (0, 0, 400);
    for seed in 0..presses {
        let simulated = simulated(seed, 6);
        let drift = Drift::of(&simulated.visits).unwrap();
        assert_eq!((drift.changes, drift.stations.len()), (5, 4));
        let at = drift.stations[1];
        rates += u32::from((at.rate_nm - simulated.rates[1]).abs() <= at.half_nm);
        // The spread of a further piece: the intervals of all pairs hold together
        // at least as often as is said.
        let worst = drift
            .worst_nm(simulated.visits.last().unwrap(), LATER)
            .unwrap();
        pieces += u32::from(spread(&simulated.later) <= worst);
    }
    println!("rates within: {rates} of {presses}; pieces under: {pieces}");
    assert!((369..=391).contains(&rates), "{rates}");
    assert!(pieces >= 369, "{pieces}");
}

#[test]
fn stopping_at_a_lucky_spread_is_no_drift() {
    // No drift at all; every visit laces until the spread is small by luck.
    let mut draws = Draws::new(Purpose::Simulation(7));
    let mut piece = || -> Vec<f64> { (0..4).map(|_| 12_000.0 * draws.normal()).collect() };
    let mut visits = Vec::new();
    for number in 0..30 {
        let found = piece();
        let mut left = piece();
        while spread(&left) > 12_000.0 {
            left = piece();
        }
        visits.push(visit(30 * number, &found, &left));
    }
    let found: f64 = visits.iter().map(|v| v.found.unwrap().nm_f64()).sum();
    let left: f64 = visits.iter().map(|v| v.left.unwrap().nm_f64()).sum();
    assert!(found > 2.0 * left, "the spread alone would look like drift");
    let drift = Drift::of(&visits).unwrap();
    assert!(!drift.fastest.is_sure(), "{drift:?}");
}

#[test]
fn too_little_to_say_is_said() {
    let level = [0.0; 4];
    let mut visits: Vec<VisitSummary> = (0..3)
        .map(|number| visit(30 * number, &level, &level))
        .collect();
    assert_eq!(Drift::of(&visits), Err(NoDrift::TooFew(2)));
    visits.push(visit(90, &level, &level));
    assert!(Drift::of(&visits).is_ok());
    // Nuts moved between two visits, a day that is not known.
    visits[2].nuts.0[1] = NutPosition(1);
    assert_eq!(Drift::of(&visits), Err(NoDrift::TooFew(2)));
    visits[2].nuts.0[1] = NutPosition(0);
    visits[1].day = None;
    assert_eq!(Drift::of(&visits), Err(NoDrift::TooFew(1)));
}

/// By hand: 4 stations, the last growing by 1000 nm a day against the first, no
/// scatter: from level it reaches 76 200 nm on day 76.2, so the last good day
/// is 76; watched for 90 days, it is believed for 180.
#[test]
fn the_next_check_is_where_the_tolerance_ends() {
    let level = [0.0; 4];
    let grown = |days: f64| [0.0, 0.0, 0.0, 1000.0 * days];
    let visits: Vec<VisitSummary> = (0..4)
        .map(|number| {
            visit(
                30 * number,
                &grown(if number == 0 { 0.0 } else { 30.0 }),
                &level,
            )
        })
        .collect();
    let drift = Drift::of(&visits).unwrap();
    assert!(drift.fastest.is_sure());
    assert_eq!((drift.fastest.growing, drift.days), (3, 90));
    assert!((drift.fastest.rate_nm - 1000.0).abs() < 1e-6, "{drift:?}");
    let last = visits[3].day.unwrap();
    assert_eq!(drift.next_check, NextCheck::By(last.later(76).unwrap()));
    let still: Vec<VisitSummary> = (0..4)
        .map(|number| visit(30 * number, &level, &level))
        .collect();
    assert_eq!(
        Drift::of(&still).unwrap().next_check,
        NextCheck::NotWithin(180)
    );
}

#[test]
fn the_book_says_what_the_sessions_say() {
    let folder = tempfile::tempdir().unwrap();
    let shop = folder.path().join("shop");
    fs::create_dir(&shop).unwrap();
    for (name, day, readings) in [
        ("a", "2026-01-05", ["0.2500", "0.2440", "0.2500", "0.2500"]),
        (
            "b",
            "2026-02-05 07:10",
            ["0.2500", "0.2500", "0.2500", "0.2500"],
        ),
    ] {
        let mut found = session(&readings);
        found.id = format!("id-{name}");
        found.notes.when = day.into();
        found.notes.who = "R. Alder (invented)".into();
        store::save(
            &shop.join(format!("{name}.jawtrue")),
            &found,
            Expected::Nothing,
        )
        .unwrap();
    }
    fs::copy(shop.join("a.jawtrue"), shop.join("copy of a.jawtrue")).unwrap();
    fs::write(shop.join("newer.jawtrue"), "(format: 999)").unwrap();
    let ran = jawtrue(folder.path(), &["shop", "shop"]);
    assert_eq!(ran.status, 2, "{ran:?}");
    for expected in [
        "Presses: 1, sessions: 3",
        "Press 9 (invented): visits 2, test pieces 2",
        "worked on by R. Alder (invented)",
        "2026-01-05: found 0.0060″, left 0.0060″, pieces 1",
        "B at 0, notches turned in all: 0",
        "Drift: too little to say.",
        "copy of a.jawtrue",
        "newer.jawtrue",
    ] {
        assert!(ran.out.contains(expected), "{expected:?} in {}", ran.out);
    }
    let ran = jawtrue(folder.path(), &["shop", "shop", "--json"]);
    let lines: Vec<serde_json::Value> = ran
        .out
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    assert_eq!(lines.len(), 2);
    assert_eq!(lines[0]["visits"].as_array().unwrap().len(), 2);
    assert_eq!(lines[0]["visits"][0]["found_mm"], 0.1524);
    assert_eq!(lines[1]["file"], "newer.jawtrue");
}

#[test]
fn presses_are_told_apart_by_name_and_arms() {
    let one = session(&["0.25"; 4]);
    let mut other = session(&["0.25"; 5]);
    other.id = "other".into();
    let mut named = one.clone();
    named.press.name = "Press 2 (invented)".into();
    let visits = [&one, &other, &named].map(|s| VisitSummary::of(s, s.id.clone()));
    assert_eq!(press_books(visits).len(), 3);
}
