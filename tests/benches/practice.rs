//! Exercises played by script with the program's advice, against the readme's
//! closed-loop table, and how long an exercise and its debrief take.
//!
//! `cargo bench --bench practice -- [exercises [arms ...]]`
//!
//! Every exercise is an everyday press: out of true at every arm, one in four
//! with a rod that goes slack. A row is a number of arms; the readme's figures
//! of first visits stand beside it.

use jawtrue::practice::{Act, DebriefDesk, Exercise, Fault, Practice};
use jawtrue::session::{AdviceWorkspace, PriorShelf, Stands, Wishes};
use jawtrue::units::Unit;
use std::time::Instant;

/// Most pieces laced again, as in the table.
const MOST_RELACES: usize = 8;

/// The readme's rows of first visits, gauge step 0.0005 in: arms, shares inside
/// after one re-lace and after two, mean re-laces.
const README: [(usize, f64, f64, f64); 5] = [
    (2, 1.00, 1.00, 0.57),
    (3, 0.86, 0.98, 1.03),
    (4, 0.74, 0.97, 1.29),
    (5, 0.60, 0.96, 1.44),
    (6, 0.52, 0.90, 1.67),
];

fn lace(practice: &mut Practice) {
    practice.act(Act::Lace { flipped: false }).unwrap();
    practice.measure(2).unwrap();
}

fn play(number: u64, arms: usize, shelf: &PriorShelf, desk: &mut AdviceWorkspace) -> Practice {
    let exercise = Exercise {
        fault: Fault::Everyday,
        arms,
        ..Exercise::of_number(number, Unit::Inch)
    };
    let mut practice = Practice::begin(exercise, String::new(), String::new()).unwrap();
    lace(&mut practice);
    loop {
        let last = practice.pieces().len() - 1;
        let session = practice.clear_notebook(last);
        if session.gate(last).stands == Stands::Inside {
            practice.act(Act::Accept).unwrap();
            return practice;
        }
        if last == MOST_RELACES {
            return practice;
        }
        let advice = session
            .advise(last, Wishes::default(), shelf, desk)
            .unwrap();
        let turns = advice.recommended().turns.clone();
        practice.act(Act::MakeSafe).unwrap();
        practice.act(Act::Turn(turns)).unwrap();
        lace(&mut practice);
    }
}

fn main() {
    // cargo adds an argument of its own.
    let mut numbers = std::env::args()
        .skip(1)
        .filter_map(|a| a.parse::<u64>().ok());
    let exercises = numbers.next().unwrap_or(1_000);
    let mut arm_counts: Vec<usize> = numbers.map(|n| n as usize).collect();
    if arm_counts.is_empty() {
        arm_counts = vec![2, 3, 4, 5, 6];
    }
    println!("{exercises} exercises a row; ± is a standard error, the readme's own counted in");
    println!("| arms | after 1 | after 2 | mean re-laces | ± | readme | s |");
    println!("|---|---|---|---|---|---|---|");
    for arms in arm_counts {
        let begun = Instant::now();
        let half = |from: u64, to: u64| {
            move || -> Vec<(usize, bool)> {
                let (shelf, mut desk) = (PriorShelf::default(), AdviceWorkspace::default());
                let games = (from..to).map(|number| {
                    let practice = play(1_000 + number, arms, &shelf, &mut desk);
                    (practice.pieces().len() - 1, practice.ending().is_some())
                });
                games.collect()
            }
        };
        let games = std::thread::scope(|scope| {
            let first = scope.spawn(half(0, exercises / 2));
            let mut all = half(exercises / 2, exercises)();
            all.extend(first.join().unwrap());
            all
        });
        let n = games.len() as f64;
        let mean = games.iter().map(|game| game.0 as f64).sum::<f64>() / n;
        let squares: f64 = games
            .iter()
            .map(|game| (game.0 as f64 - mean).powi(2))
            .sum();
        let variance = squares / (n - 1.0);
        let error = (variance / n + variance / 200.0).sqrt();
        let within = |most: usize| {
            let hits = games
                .iter()
                .filter(|(relaces, passed)| *passed && *relaces <= most);
            100.0 * hits.count() as f64 / n
        };
        let said = README.iter().find(|row| row.0 == arms);
        let said = said.map_or_else(String::new, |(_, one, two, mean)| {
            format!("{:.0} %, {:.0} %, {mean}", 100.0 * one, 100.0 * two)
        });
        println!(
            "| {arms} | {:.0} % | {:.0} % | {mean:.2} | {error:.2} | {said} | {:.1} |",
            within(1),
            within(2),
            begun.elapsed().as_secs_f64(),
        );
    }
    let (shelf, mut desk) = (PriorShelf::default(), AdviceWorkspace::default());
    let practice = play(1_001, 4, &shelf, &mut desk);
    let mut debriefs = DebriefDesk::default();
    for name in ["first debrief", "once more"] {
        let begun = Instant::now();
        practice.debrief(&mut debriefs).unwrap();
        println!("{name}, 4 arms: {:.3} s", begun.elapsed().as_secs_f64());
    }
}
