//! Responses given outright, press files and learning, through the program.

mod common;

use std::fs;

use common::Shop;
use common::sessions::advised;

/// The smallest spread for a session with a response given outright, rows in
/// inches per notch, and one pass of readings.
fn smallest(shop: &Shop, rows: &[Vec<f64>], readings: &[f64]) -> f64 {
    let list = |values: &[f64]| {
        let texts: Vec<String> = values.iter().map(|value| format!("{value:.6}")).collect();
        texts.join(",")
    };
    let csv: Vec<String> = rows.iter().map(|row| list(row)).collect();
    shop.write("response.csv", csv.join("\n"));
    let _ = fs::remove_file(shop.file("s.jawtrue"));
    let arms: Vec<f64> = (0..rows.len()).map(|arm| 6.0 + 12.0 * arm as f64).collect();
    let (arms, length) = (list(&arms), 12 * rows.len());
    shop.out(&format!(
        "new s.jawtrue --arms {arms} --length {length} --unit in --response response.csv"
    ));
    let readings: Vec<String> = readings.iter().map(|v| format!("{v:.4}")).collect();
    shop.out(&format!(
        "record s.jawtrue --readings {}",
        readings.join(",")
    ));
    let line = shop.json("plan --json s.jawtrue");
    line["smallest_spread"]["spread"].as_f64().unwrap()
}

/// Independent nuts of 0.004 in: the notch minus the largest gap between the
/// readings modulo the notch. Expected values recomputed with numpy 2.4 and
/// equal to brute force.
#[test]
fn a_given_independent_response_reaches_the_optimum() {
    let shop = Shop::new();
    let cases: [(&[f64], f64); 5] = [
        (&[0.250, 0.257, 0.261], 0.0010),
        (&[0.2500, 0.2515, 0.2542, 0.2591], 0.0015),
        (&[0.2500, 0.2520, 0.2540, 0.2560, 0.2580], 0.0020),
        (&[0.2500, 0.2508, 0.2516, 0.2524, 0.2532], 0.0032),
        (&[0.2510, 0.2475, 0.2550, 0.2488, 0.2523, 0.2561], 0.0018),
    ];
    for (readings, expected) in cases {
        let arms = readings.len();
        let rows: Vec<Vec<f64>> = (0..arms)
            .map(|s| {
                (0..arms)
                    .map(|i| if s == i { 0.004 } else { 0.0 })
                    .collect()
            })
            .collect();
        assert_eq!(smallest(&shop, &rows, readings), expected, "{readings:?}");
    }
}

/// A coupled response, in thousandths 4 [[.8 .2 0 0] [.2 .6 .2 0] [0 .2 .6 .2]
/// [0 0 .2 .8]]. Expected values from a mixed-integer program
/// (scipy.optimize.milp 1.17), equal to brute force.
#[test]
fn a_given_coupled_response_reaches_the_optimum() {
    let shop = Shop::new();
    let shares = [
        [0.8, 0.2, 0.0, 0.0],
        [0.2, 0.6, 0.2, 0.0],
        [0.0, 0.2, 0.6, 0.2],
        [0.0, 0.0, 0.2, 0.8],
    ];
    let rows: Vec<Vec<f64>> = shares
        .iter()
        .map(|row| row.iter().map(|share| 0.004 * share).collect())
        .collect();
    for (thousandths, expected) in [
        ([0.0, 5.0, 9.0, 3.0], 0.0012),
        ([2.5, 0.0, 7.0, 1.0], 0.0012),
        ([0.0, 2.0, 4.0, 6.0], 0.0004),
    ] {
        let found = smallest(&shop, &rows, &thousandths.map(|t| 0.250 + t / 1000.0));
        assert!((found - expected).abs() < 1e-9, "{thousandths:?}: {found}");
    }
}

#[test]
fn a_response_of_the_wrong_shape_is_refused_in_words() {
    let shop = Shop::new();
    for (csv, expected) in [
        (
            "0.004,0\n",
            "it needs 2 rows, one per measuring point; it has 1",
        ),
        (
            "0.004,0\n0\n",
            "row 2: it needs 2 values, one per arm; it has 1",
        ),
        ("0.004,\n0,0.004\n", "row 1, column 2: a number is missing"),
        (
            "0.004,NaN\n0,0.004\n",
            "row 1, column 2: must be a number with a decimal point; “NaN” is not",
        ),
    ] {
        shop.write("r.csv", csv);
        let told = shop.run("new x.jawtrue --arms 6,18 --length 24 --unit in --response r.csv");
        assert_eq!(told.status, 2);
        assert!(told.err.contains(expected), "{csv:?}: {}", told.err);
        assert!(!shop.file("x.jawtrue").exists());
    }
}

#[test]
fn what_a_visit_taught_starts_the_next_one() {
    let shop = Shop::new();
    shop.out("new one.jawtrue --arms 6,18,30,42 --length 48 --unit in --nuts -4,-4,-3,-4");
    shop.out("record one.jawtrue --readings 0.2500,0.2445,0.2510,0.2525");
    shop.out("record one.jawtrue --readings 0.2510,0.2520,0.2515,0.2515 --turned 0,+3,-1,0");
    shop.out("learn one.jawtrue --press p.jawpress");
    let once = fs::read_to_string(shop.file("p.jawpress")).unwrap();
    shop.out("learn one.jawtrue --press p.jawpress");
    assert_eq!(
        fs::read_to_string(shop.file("p.jawpress")).unwrap(),
        once,
        "learning again doubles nothing"
    );

    shop.out("new two.jawtrue --press p.jawpress");
    let next = shop.open("two.jawtrue");
    assert_eq!(
        next.start_nuts.iter().map(|nut| nut.0).collect::<Vec<_>>(),
        [-4, -1, -4, -4]
    );
    assert_eq!(next.earlier.len(), 1);
    assert!(next.passes.is_empty());

    // The next visit knows what B did: its answer is less in doubt than that
    // of a press never seen.
    let readings = "0.2500,0.2445,0.2510,0.2525";
    shop.out(&format!("record two.jawtrue --readings {readings}"));
    shop.out("new fresh.jawtrue --arms 6,18,30,42 --length 48 --unit in --nuts -4,-1,-4,-4");
    shop.out(&format!("record fresh.jawtrue --readings {readings}"));
    let known = advised(&shop.open("two.jawtrue"));
    let fresh = advised(&shop.open("fresh.jawtrue"));
    assert!(known.response_sd_nm(1, 1) < 0.9 * fresh.response_sd_nm(1, 1));

    // A press file is no place for a session, and the other way round.
    let told = shop.run("judge p.jawpress");
    assert!(
        told.err.contains("not a visit file but a press file"),
        "{}",
        told.err
    );
    assert_eq!(shop.run("learn one.jawtrue --press one.jawtrue").status, 2);
    let told = shop.run("new three.jawtrue --press p.jawpress --arms 1,2");
    assert!(
        told.err.contains("--arms does not go with --press"),
        "{}",
        told.err
    );
}

#[test]
fn the_same_session_gives_the_same_plan_on_every_run() {
    let shop = Shop::new();
    for name in ["a.jawtrue", "b.jawtrue", "c.jawtrue", "d.jawtrue"] {
        shop.out(&format!(
            "new {name} --arms 6,18,30,42 --length 48 --unit in"
        ));
        shop.out(&format!(
            "record {name} --readings 0.2500,0.2445,0.2510,0.2525"
        ));
    }
    let untimed = || -> Vec<String> {
        shop.out("plan --json a.jawtrue b.jawtrue c.jawtrue d.jawtrue")
            .lines()
            .map(|line| {
                let mut line: serde_json::Value = serde_json::from_str(line).unwrap();
                line["seconds"].take();
                line["file"].take();
                line.to_string()
            })
            .collect()
    };
    let first = untimed();
    assert_eq!(first, untimed());
    assert!(first.iter().all(|line| *line == first[0]));
}

#[test]
fn confidence_is_a_share() {
    let shop = Shop::new();
    for wrong in ["1", "0.2", "NaN", "ninety"] {
        let told = shop.run(&format!("plan x.jawtrue --confidence {wrong}"));
        assert_eq!(told.status, 2);
        assert!(
            told.err
                .contains("--confidence: must be above 0.5 to 0.999"),
            "{}",
            told.err
        );
    }
}

/// Which earlier visits say nothing about the press as it is now stands with
/// the plan, not only in the window.
#[test]
fn a_plan_says_which_visits_it_could_not_learn_from() {
    let shop = Shop::new();
    let run = |line: &str| shop.out(line);
    run("new first.jawtrue --arms 6,18,30 --length 36 --unit in");
    run("record first.jawtrue --readings 0.2500,0.2550,0.2500");
    run("record first.jawtrue --turned 0,-1,0 --readings 0.2495,0.2520,0.2495");
    run("learn first.jawtrue --press p.jawpress");
    run("new s.jawtrue --press p.jawpress");
    run("record s.jawtrue --readings 0.2500,0.2550,0.2500");
    assert!(!run("plan --json s.jawtrue").contains("visits_left_out"));

    let path = shop.file("s.jawtrue");
    let moved = fs::read_to_string(&path).unwrap();
    let moved = moved.replacen("position: \"30 in\"", "position: \"32 in\"", 1);
    fs::write(&path, moved).unwrap();
    let line = shop.json("plan --json s.jawtrue");
    assert_eq!(line["visits_left_out"].as_array().map(Vec::len), Some(1));
    let said = run("plan s.jawtrue");
    assert!(said.contains("Nothing learned from the visit"), "{said}");
}
