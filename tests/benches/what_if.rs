//! What follows a nut that is being dragged: the forecast of the next piece,
//! the rods' loads and the predicted profile, in milliseconds per notch.
//!
//! `cargo bench --bench what_if`

use std::hint::black_box;
use std::time::Instant;

use jawtrue::press::{Arm, Notches, Press};
use jawtrue::session::{ASSUMED_STRETCH, AdviceWorkspace, Edit, PriorShelf, Session, Wishes};
use jawtrue::units::{Length, TypedLength, Unit};

fn inches(inches: f64) -> TypedLength {
    TypedLength::from_length(Length::from_nm((inches * 25.4e6) as i64), Unit::Inch)
}

/// A press of so many arms, read once, far from true.
fn session(arms: usize) -> Session {
    let arm = |index: usize| Arm::new(inches(5.0 + 10.0 * index as f64), inches(0.004));
    let press = Press::new("", inches(10.0 * arms as f64), (0..arms).map(arm));
    let mut session = Session::new(String::new(), Unit::Inch, press);
    let mut apply = |edit: Edit| session = session.edited(&edit).unwrap();
    apply(Edit::add_pass([], ""));
    for station in 0..arms {
        apply(Edit::enter(
            (0, station, 0),
            format!("{:.4}", 0.25 + 0.0015 * ((station * 7) % arms) as f64),
            Unit::Inch,
        ));
    }
    session
}

fn report(name: &str, arms: usize, mut work: impl FnMut(&[Notches])) {
    let mut times: Vec<f64> = (0..400)
        .map(|round: i32| {
            let mut turns = vec![Notches(0); arms];
            let arm = usize::try_from(round).unwrap() % arms;
            turns[arm] = Notches(round % 13 - 6);
            let begin = Instant::now();
            work(&turns);
            begin.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    times.sort_by(f64::total_cmp);
    let at = |share: f64| times[((times.len() - 1) as f64 * share) as usize];
    println!(
        "{arms:2} arms  {name:9}  median {:.3} ms  p99 {:.3} ms",
        at(0.5),
        at(0.99)
    );
}

fn main() {
    for arms in [4, 12] {
        let session = session(arms);
        let mut workspace = AdviceWorkspace::default();
        let advice = session
            .advise(0, Wishes::default(), &PriorShelf::default(), &mut workspace)
            .unwrap();
        let mut forecaster = advice.forecaster().unwrap();
        report("forecast", arms, |turns| {
            let turns: Vec<i32> = turns.iter().map(|turn| turn.0).collect();
            black_box(forecaster.forecast(&turns));
        });
        report("predicted", arms, |turns| {
            black_box(advice.predicted(turns));
        });
        report("rod loads", arms, |turns| {
            black_box(session.rod_loads(turns, ASSUMED_STRETCH).ok());
        });
    }
}
