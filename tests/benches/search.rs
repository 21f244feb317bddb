//! How long the exact whole-notch search takes.
//!
//! `cargo bench --bench search`
//!
//! Against HiGHS, with scipy from PyPI:
//! `cargo bench --bench search -- json 12 20 | python3 tests/oracle/highs.py`

#[path = "../support/presses.rs"]
mod presses;

use std::time::Instant;

use jawtrue::plan::{SearchProblem, SearchWorkspace, TurnBounds, smallest_spread};
use presses::{Draw, draw};

/// Cases, the spread found and the time taken as one JSON object a line, for
/// `tests/oracle/highs.py`.
fn print_cases(arms: usize, cases: usize) {
    let mut rng = Draw(1_000 + arms as u64);
    let mut workspace = SearchWorkspace::default();
    let bounds = vec![
        TurnBounds {
            least: -12,
            most: 12
        };
        arms
    ];
    for _ in 0..cases {
        let case = draw(&mut rng, arms, 0, (3.0, 70.0));
        let problem = SearchProblem::new(&case.thickness, &case.response, &bounds);
        let mut seconds = f64::INFINITY;
        let mut found = smallest_spread(&problem, &mut workspace).unwrap();
        for _ in 0..5 {
            let start = Instant::now();
            found = smallest_spread(&problem, &mut workspace).unwrap();
            seconds = seconds.min(start.elapsed().as_secs_f64());
        }
        let rows: Vec<&[f64]> = (0..arms).map(|s| case.response.row(s)).collect();
        println!(
            "{}",
            serde_json::json!({
                "thickness_nm": case.thickness,
                "response_nm": rows,
                "most": 12,
                "proven": found.proven,
                "turns": found.turns,
                "spread_nm": found.spread_nm,
                "seconds": seconds,
            })
        );
    }
}

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    if let Some(at) = words.iter().position(|word| word == "json") {
        let number = |offset: usize, otherwise: usize| {
            let word = words.get(at + offset);
            word.and_then(|word| word.parse().ok()).unwrap_or(otherwise)
        };
        print_cases(number(1, 12), number(2, 20));
        return;
    }
    let args: Vec<f64> = std::env::args()
        .skip(1)
        .filter_map(|a| a.parse().ok())
        .collect();
    let get = |i: usize, d: f64| args.get(i).copied().unwrap_or(d);
    let cases = get(0, 100.0) as usize;
    let kappa = (get(1, 3.0), get(2, 70.0));
    let limit = get(3, 12.0) as i32;
    let only = get(4, 0.0) as usize;
    println!("arms stations   median us      p99 us      max us   median nodes   p99 nodes");
    for between in [0, 1] {
        for arms in [2, 3, 4, 6, 8, 10, 12] {
            if only != 0 && arms != only {
                continue;
            }
            let mut rng = Draw(7 + arms as u64);
            let mut workspace = SearchWorkspace::default();
            let bounds = vec![
                TurnBounds {
                    least: -limit,
                    most: limit
                };
                arms
            ];
            let mut times = Vec::new();
            let mut nodes = Vec::new();
            let mut unproven = 0;
            for _ in 0..cases {
                let case = draw(&mut rng, arms, between, kappa);
                let problem = SearchProblem {
                    most_nodes: 3_000_000,
                    ..SearchProblem::new(&case.thickness, &case.response, &bounds)
                };
                let mut best = f64::INFINITY;
                let mut found = smallest_spread(&problem, &mut workspace).unwrap();
                for _ in 0..5 {
                    let start = Instant::now();
                    found = smallest_spread(&problem, &mut workspace).unwrap();
                    best = best.min(start.elapsed().as_secs_f64() * 1e6);
                }
                times.push(best);
                nodes.push(found.nodes as f64);
                if only != 0 {
                    println!(
                        "{:.2} {:.3} {} {:.0} us spread {:.0} {:?}",
                        case.kappa,
                        case.rho,
                        found.nodes,
                        times.last().unwrap(),
                        found.spread_nm,
                        found.turns
                    );
                }
                unproven += usize::from(!found.proven);
            }
            times.sort_by(f64::total_cmp);
            nodes.sort_by(f64::total_cmp);
            let at = |v: &[f64], q: f64| v[((v.len() - 1) as f64 * q).round() as usize];
            println!(
                "{arms:4} {:8} {:11.1} {:11.1} {:11.1} {:14} {:11} {unproven}",
                (arms - 1) * (between + 1) + 1,
                at(&times, 0.5),
                at(&times, 0.99),
                at(&times, 1.0),
                at(&nodes, 0.5),
                at(&nodes, 0.99)
            );
        }
    }
}
