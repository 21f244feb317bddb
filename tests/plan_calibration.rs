//! Whether the chances of recommended plans come true on presses unlike the
//! prior, on first and on later visits, after small and large changes between
//! them, with a gauge finer and coarser than assumed.
//!
//! `cargo test --test plan_calibration -- --nocapture` prints every band; the
//! closed-loop bench does the same with as many presses as it is asked for.

mod presses;

use presses::families::{Book, Desk, FAMILIES, betweens, gauges, print_bands};

/// Presses of each family, kind of change and gauge.
const PRESSES: u64 = 100;
/// How far what came may be from what was said.
const ALLOWED: f64 = 0.05;
/// And by counting, in standard deviations.
const COUNTING: f64 = 2.5;
/// Fewer plans than these in a band say nothing.
const LEAST: usize = 25;

#[test]
fn plans_come_true_on_every_visit() {
    let mut off = Vec::new();
    for (number, (family, name)) in (0..).zip(FAMILIES) {
        let mut runs = 10 * number..;
        let halves = betweens().map(|(between, change)| {
            let run_number = runs.next().unwrap_or(0);
            let run = move || {
                let (mut book, mut desk) = (Book::default(), Desk::default());
                for (which, (_, scatter)) in (0..).zip(gauges()) {
                    let from = 1_000 * (2 * run_number + which);
                    let numbers = from..from + PRESSES;
                    book.presses(family, between, &scatter, 4, numbers, &mut desk);
                }
                book
            };
            (change, std::thread::spawn(run))
        });
        let [small, large] = halves.map(|(change, run)| (change, run.join().unwrap().said));
        let visits = |book: &[_], first: bool| -> Vec<presses::families::Said> {
            let said = book.iter().copied();
            said.filter(|s: &presses::families::Said| (s.visit == 0) == first)
                .collect()
        };
        let first = [visits(&small.1, true), visits(&large.1, true)].concat();
        for (which, said) in [
            ("first visits".to_owned(), first),
            (format!("later visits, {}", small.0), visits(&small.1, false)),
            (format!("later visits, {}", large.0), visits(&large.1, false)),
        ] {
            let name = format!("{name}, {which}");
            for band in print_bands(&name, &said) {
                if band.plans >= LEAST && band.off(COUNTING) > ALLOWED {
                    off.push(format!("{name}: {band:?}"));
                }
            }
        }
    }
    assert!(off.is_empty(), "{off:#?}");
}
