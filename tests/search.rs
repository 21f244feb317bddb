//! The whole-notch optimum against the project's own closed form, with brute
//! force and a general mixed-integer solver (HiGHS) as its checks.

#[path = "support/presses.rs"]
mod presses;

use jawtrue::plan::{
    EQUAL_SPREAD_NM, SearchError, SearchProblem, SearchResult, SearchWorkspace, TurnBounds,
    smallest_spread, spread_after,
};
use jawtrue::press::Response;
use presses::{Draw, NOTCH_NM, draw};

fn solve(problem: &SearchProblem) -> Result<SearchResult, SearchError> {
    let found = smallest_spread(problem, &mut SearchWorkspace::default())?;
    assert!(found.proven, "{problem:?}");
    Ok(found)
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

fn independent(arms: usize) -> Response {
    Response::from_fn(arms, arms, |s, a| if s == a { NOTCH_NM } else { 0.0 })
}

/// Independent equal nuts: readings in 0.1 thou, notch 0.004 in. The optimum is notch
/// minus largest circular gap, the project's own proof; `tests/oracle/highs.py` and
/// brute force agree.
#[test]
fn independent_nuts_reach_the_circular_gap_optimum() {
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
        let response = independent(arms);
        let bounds = plus_minus(6, arms);
        let found = solve(&SearchProblem::new(&thickness, &response, &bounds)).unwrap();
        assert_eq!(found.spread_nm, (spread * 2540) as f64, "{readings:?}");
    }
}

/// All turns within the bounds, one after the other.
fn every_turn(bounds: &[TurnBounds], mut visit: impl FnMut(&[i32])) {
    let mut turns: Vec<i32> = bounds.iter().map(|b| b.least).collect();
    loop {
        visit(&turns);
        let Some(i) = (0..turns.len()).find(|i| turns[*i] < bounds[*i].most) else {
            return;
        };
        turns[i] += 1;
        for (k, b) in turns[..i].iter_mut().zip(bounds) {
            *k = b.least;
        }
    }
}

/// The order of preference among equals, as documented.
fn preference(turns: &[i32]) -> (usize, i32, i32, Vec<(i32, i32)>) {
    (
        turns.iter().filter(|k| **k != 0).count(),
        turns.iter().map(|k| k.abs()).sum(),
        -turns.iter().sum::<i32>(),
        turns.iter().map(|k| (k.abs(), -k)).collect(),
    )
}

fn brute_force(problem: &SearchProblem) -> Option<(f64, Vec<i32>)> {
    let response = problem.response;
    let permitted = |turns: &[i32]| {
        if problem.outward_only && turns.iter().any(|k| *k < 0) {
            return false;
        }
        if problem
            .most_nuts
            .is_some_and(|m| turns.iter().filter(|k| **k != 0).count() > m)
        {
            return false;
        }
        true
    };
    let mut least = f64::INFINITY;
    every_turn(problem.bounds, |turns| {
        if permitted(turns) {
            least = least.min(spread_after(problem.thickness_nm, response, turns));
        }
    });
    let mut best: Option<Vec<i32>> = None;
    every_turn(problem.bounds, |turns| {
        if permitted(turns)
            && spread_after(problem.thickness_nm, response, turns) <= least + EQUAL_SPREAD_NM / 2.0
            && best
                .as_ref()
                .is_none_or(|b| preference(turns) < preference(b))
        {
            best = Some(turns.to_vec());
        }
    });
    best.map(|b| (least, b))
}

fn compare(problem: &SearchProblem, what: &str) {
    match (solve(problem), brute_force(problem)) {
        (Ok(found), Some((least, best))) => {
            assert!(
                (found.spread_nm - least).abs() <= EQUAL_SPREAD_NM,
                "{what}: {found:?} {least} {best:?}"
            );
            assert_eq!(found.turns, best, "{what}: {found:?} {least}");
        }
        (Err(SearchError::NothingAllowed), None) => {}
        other => panic!("{what}: {other:?}"),
    }
}

#[test]
fn agrees_with_brute_force() {
    let mut rng = Draw(1);
    for case in 0..20000 {
        let arms = rng.whole(1, 5) as usize;
        let reach = [12, 12, 8, 5, 4][arms - 1];
        let bounds: Vec<TurnBounds> = (0..arms)
            .map(|_| {
                let least = rng.whole(-reach, 2) as i32;
                TurnBounds {
                    least,
                    most: least + rng.whole(0, reach) as i32,
                }
            })
            .collect();
        let kind = rng.whole(0, 5);
        let (thickness, response) = match kind {
            0 | 1 if arms > 1 => {
                let case = draw(
                    &mut rng,
                    arms,
                    kind as usize,
                    if kind == 0 { (3.0, 70.0) } else { (1e-3, 1e4) },
                );
                (case.thickness, case.response)
            }
            2 => {
                // Whole tenths of a thou on independent nuts: many ties.
                let t = (0..arms)
                    .map(|_| 2540.0 * rng.whole(2450, 2550) as f64)
                    .collect();
                (t, independent(arms))
            }
            3 => {
                // Small whole figures, singular more often than not.
                let stations = rng.whole(1, 5) as usize;
                let t = (0..stations).map(|_| rng.whole(0, 6) as f64).collect();
                (
                    t,
                    Response::from_fn(stations, arms, |_, _| rng.whole(-1, 2) as f64),
                )
            }
            _ => {
                let stations = rng.whole(1, 7) as usize;
                let t = (0..stations).map(|_| 1e5 * rng.normal()).collect();
                (
                    t,
                    Response::from_fn(stations, arms, |_, _| 5e4 * rng.normal()),
                )
            }
        };
        let mut problem = SearchProblem::new(&thickness, &response, &bounds);
        if rng.whole(0, 2) == 0 {
            problem.most_nuts = Some(rng.whole(0, arms as i64) as usize);
        }
        problem.outward_only = rng.whole(0, 3) == 0;
        compare(&problem, &format!("case {case}, kind {kind}, {problem:?}"));
    }
}

/// Two stations and five nuts: thousands of turns are as good as the best, far
/// more than the search lists one by one. The preferred ones are found all the
/// same.
#[test]
fn the_preferred_of_thousands_of_equals() {
    let mut rng = Draw(7);
    for case in 0..60 {
        let thickness: Vec<f64> = (0..2).map(|_| rng.whole(0, 40) as f64).collect();
        let response = Response::from_fn(2, 5, |_, _| rng.whole(-3, 3) as f64);
        let bounds: Vec<TurnBounds> = (0..5)
            .map(|_| TurnBounds {
                least: rng.whole(-4, 1) as i32,
                most: rng.whole(1, 4) as i32,
            })
            .collect();
        let problem = SearchProblem::new(&thickness, &response, &bounds);
        compare(&problem, &format!("case {case}, {problem:?}"));
    }
}

/// Twelve arms, limits of twelve notches either way: the optimum spread as
/// HiGHS finds it (scipy 1.17.1 `milp`, gap 0). Made by
/// `cargo bench --bench search -- json 12 12 | python3 tests/oracle/highs.py --keep tests/data/highs_cases.json`.
#[test]
fn agrees_with_a_general_solver_at_twelve_arms() {
    let cases: Vec<serde_json::Value> =
        serde_json::from_str(include_str!("data/highs_cases.json")).unwrap();
    assert!(cases.len() >= 12);
    for case in &cases {
        let numbers = |value: &serde_json::Value| -> Vec<f64> {
            serde_json::from_value(value.clone()).unwrap()
        };
        let thickness = numbers(&case["thickness_nm"]);
        let rows: Vec<Vec<f64>> = case["response_nm"]
            .as_array()
            .unwrap()
            .iter()
            .map(numbers)
            .collect();
        let response = Response::from_fn(rows.len(), rows[0].len(), |s, i| rows[s][i]);
        let bounds = plus_minus(case["most"].as_i64().unwrap() as i32, rows[0].len());
        let problem = SearchProblem::new(&thickness, &response, &bounds);
        let found = solve(&problem).unwrap();
        let expected = case["spread_nm"].as_f64().unwrap();
        assert!(found.proven);
        assert!(
            (found.spread_nm - expected).abs() <= 1e-9 * expected,
            "{} against {expected}",
            found.spread_nm
        );
    }
}
