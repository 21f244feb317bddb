//! The whole-notch optimum against published values, closed forms, brute
//! force and a general mixed-integer solver.

use jawtrue::plan::{SearchProblem, SearchResult, SearchWorkspace, TurnBounds, smallest_spread};
use jawtrue::press::Response;

fn solve(problem: &SearchProblem) -> SearchResult {
    smallest_spread(problem, &mut SearchWorkspace::default(), &|| false).unwrap()
}

fn plus_minus(notches: i32, arms: usize) -> Vec<TurnBounds> {
    vec![
        TurnBounds {
            least: -notches,
            most: notches
        };
        arms
    ]
}

/// Independent equal nuts: readings in 0.1 thou, notch 0.004 in.
#[test]
fn independent_nuts_reach_the_published_optimum() {
    let rows: &[(&[i64], i64)] = &[
        (&[2500, 2570, 2610], 10),
        (&[2500, 2515, 2542, 2591], 15),
        (&[2500, 2520, 2540, 2560, 2580], 20),
        (&[2500, 2508, 2516, 2524, 2532], 32),
        (&[2510, 2475, 2550, 2488, 2523, 2561], 18),
    ];
    for (readings, spread) in rows {
        let thickness: Vec<f64> = readings.iter().map(|r| (r * 2540) as f64).collect();
        let arms = readings.len();
        let response = Response::from_fn(arms, arms, |s, a| if s == a { 101_600.0 } else { 0.0 });
        let bounds = plus_minus(6, arms);
        let found = solve(&SearchProblem::new(&thickness, &response, &bounds));
        assert!(found.proven);
        assert_eq!(found.spread_nm, (spread * 2540) as f64, "{readings:?}");
    }
}
