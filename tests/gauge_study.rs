//! Gauge studies and analyses of variance against published figures.

#[path = "support/aiag.rs"]
mod aiag;

use aiag::AIAG;
use jawtrue::splice::{GaugeStudy, StudyProblem, StudyTable};
use jawtrue::stats::TwoWay;

/// Groups of as many values each: a table of one column.
fn one_way(groups: &[Vec<f64>]) -> Option<TwoWay> {
    let cells: Vec<Vec<Vec<f64>>> = groups.iter().map(|group| vec![group.clone()]).collect();
    TwoWay::of(&cells)
}

/// The published study, at an offset as of thicknesses.
fn aiag(offset: f64) -> StudyTable {
    let numbers = |row: &str| {
        row.split_whitespace()
            .map(|text| offset + text.parse::<f64>().unwrap())
            .collect()
    };
    let people = AIAG
        .iter()
        .map(|rounds| rounds.iter().map(|row| numbers(row)).collect());
    StudyTable::new(people.collect()).unwrap()
}

fn check(study: &GaugeStudy, expected: [f64; 4], within: f64) {
    let found = [
        study.repeatability_nm,
        study.people_nm,
        study.gauge_nm,
        study.knuckles_nm,
    ];
    for (found, expected) in found.into_iter().zip(expected) {
        assert!(
            (found - expected).abs() < within,
            "{found} instead of {expected}"
        );
    }
}

#[test]
fn average_and_range_as_published() {
    // Published: EV 0.20188, AV 0.22963, GRR 0.30575, PV 1.10456, TV 1.14610,
    // 26.68 %, 5 categories.
    for offset in [0.0, 250.0] {
        let study = aiag(offset).average_and_range();
        check(&study, [0.20188, 0.22963, 0.30575, 1.10456], 6e-5);
        assert!((study.total_nm - 1.14610).abs() < 6e-5);
        assert!((study.gauge_nm / study.total_nm - 0.2668).abs() < 6e-5);
        assert_eq!(study.categories(), Some(5.0));
    }
}

#[test]
fn analysis_of_variance_as_recomputed() {
    // Recomputed with numpy 2.4: EV 0.199933, AV 0.226838, GRR 0.302373, PV
    // 1.042327, 27.86 %, 4 categories; interaction pooled.
    for offset in [0.0, 250.0] {
        let study = aiag(offset).analysis_of_variance();
        check(&study, [0.199933, 0.226838, 0.302373, 1.042327], 2e-6);
        assert!((study.gauge_nm / study.total_nm - 0.2786).abs() < 6e-5);
        assert_eq!(study.categories(), Some(4.0));
        let interaction = study.interaction.unwrap();
        assert!(interaction.pooled && !study.came_out_negative);
        // F = 0.433721 on 18 and 60: scipy 1.17, scipy.stats.f.sf.
        assert!(
            (interaction.chance - 0.9741064).abs() < 1e-6,
            "{interaction:?}"
        );
        assert_eq!(study.dof, 78.0);
        // What is handed over for a spread is the pooled scatter, not GRR.
        let handed = study.in_differences;
        assert!((handed.sd_nm - 0.199933).abs() < 2e-6);
        assert_eq!(handed.dof, 78.0);
    }
}

#[test]
fn an_interaction_that_stands_out_is_kept() {
    // Two people who read one knuckle differently, recomputed with numpy 2.4:
    // mean squares and components as printed by the two-way formulas.
    let table = StudyTable::new(vec![
        vec![vec![0.0, 10.0, 20.0], vec![1.0, 11.0, 21.0]],
        vec![vec![0.0, 10.0, 30.0], vec![1.0, 11.0, 31.0]],
    ]);
    let study = table.unwrap().analysis_of_variance();
    assert!(!study.interaction.unwrap().pooled);
    check(
        &study,
        [0.5_f64.sqrt(), 4.051749, 4.112988, 12.247449],
        1e-5,
    );
    // By hand: mean squares 0.5 within (6 degrees of freedom) and 200/6 of the
    // interaction (2). 0.5 + (200/6 - 0.5) / 2 = 16.91667, its root 4.112988;
    // 16.91667^2 / (0.25^2 / 6 + (100/6)^2 / 2) = 2.060295.
    let handed = study.in_differences;
    assert!((handed.sd_nm - 4.112988).abs() < 1e-6);
    assert!((handed.dof - 2.060295).abs() < 1e-6, "{handed:?}");
}

#[test]
fn a_persons_own_offset_cancels_in_a_difference() {
    // Two people ten apart. By hand: ranges of 1, EV 0.8862; people's averages
    // 10 apart, K2 0.7071: AV^2 = 7.071^2 - 0.8862^2 / 4 = 49.802703.
    let table = StudyTable::new(vec![
        vec![vec![0.0, 100.0], vec![1.0, 101.0]],
        vec![vec![10.0, 110.0], vec![11.0, 111.0]],
    ])
    .unwrap();
    let study = table.average_and_range();
    assert!((study.people_nm - 7.057103).abs() < 1e-6, "{study:?}");
    // A spread has none of that, whichever the reckoning: EV, and the mean
    // square of four pairs one apart with the interaction of nothing pooled,
    // 2 / 5.
    assert!((study.in_differences.sd_nm - 0.8862).abs() < 1e-12);
    let study = table.analysis_of_variance();
    assert!(study.people_nm > 7.0);
    assert!((study.in_differences.sd_nm - 0.4_f64.sqrt()).abs() < 1e-9);
    assert_eq!(study.in_differences.dof, 5.0);
}

/// A study of two people, two knuckles and two rounds in which the people
/// disagree on the knuckles by far more than a hand repeats. Within cells: four
/// pairs 1 apart, mean square 1/2 of 4 degrees of freedom. Interaction: all
/// cells 50 off, 2 x 4 x 50^2 of 1 degree of freedom. By hand, Satterthwaite:
/// (0.25 + 10000)^2 / (0.25^2 / 4 + 10000^2).
#[test]
fn a_strong_interaction_has_its_own_degrees_of_freedom() {
    let one = vec![vec![0.0, 100.0], vec![1.0, 101.0]];
    let other = vec![vec![100.0, 0.0], vec![101.0, 1.0]];
    let study = StudyTable::new(vec![one, other]).unwrap();
    let scatter = study.analysis_of_variance().in_differences;
    assert!((scatter.sd_nm - 10_000.25_f64.sqrt()).abs() < 1e-9);
    assert!((scatter.dof - 1.000_05).abs() < 1e-8, "{}", scatter.dof);
}

#[test]
fn one_person_alone() {
    // One-way: within mean square 0.5, knuckles (MS - 0.5) / 2 with MS =
    // 2 x 100 / 2 ... = 200: sqrt(99.75).
    let table = StudyTable::new(vec![vec![vec![0.0, 10.0, 20.0], vec![1.0, 11.0, 21.0]]]);
    let study = table.unwrap().analysis_of_variance();
    check(
        &study,
        [0.5_f64.sqrt(), 0.0, 0.5_f64.sqrt(), 99.75_f64.sqrt()],
        1e-12,
    );
    // 1 / d2*: one unit of range in every pair, K1 0.8862; K3 0.5231 x 20.
    let table = StudyTable::new(vec![vec![vec![0.0, 10.0, 20.0], vec![1.0, 11.0, 21.0]]]);
    let study = table.unwrap().average_and_range();
    check(&study, [0.8862, 0.0, 0.8862, 10.462], 1e-12);
}

#[test]
fn equal_readings_have_no_shares() {
    let table = StudyTable::new(vec![vec![vec![5.0; 3]; 2]; 2]).unwrap();
    for study in [table.average_and_range(), table.analysis_of_variance()] {
        check(&study, [0.0; 4], 1e-300);
        assert_eq!(study.categories(), None);
    }
}

#[test]
fn tables_that_are_none() {
    let problem = |readings| StudyTable::new(readings).unwrap_err();
    assert_eq!(problem(vec![]), StudyProblem::People(0));
    assert_eq!(problem(vec![vec![vec![1.0; 3]]]), StudyProblem::Rounds(1));
    assert_eq!(problem(vec![vec![vec![1.0]; 2]]), StudyProblem::Knuckles(1));
    assert_eq!(
        problem(vec![vec![vec![1.0; 3]; 2], vec![vec![1.0; 3]; 3]]),
        StudyProblem::RoundsDiffer { person: 1 }
    );
    assert_eq!(
        problem(vec![vec![vec![1.0; 3], vec![1.0; 2]]]),
        StudyProblem::KnucklesDiffer {
            person: 0,
            round: 1
        }
    );
    assert_eq!(
        problem(vec![vec![vec![1.0, f64::NAN], vec![1.0; 2]]]),
        StudyProblem::NotANumber {
            person: 0,
            round: 0,
            knuckle: 1
        }
    );
}

#[test]
fn certified_one_way_analyses() {
    // NIST StRD SiRstv: F 1.18046237440255, residual sd 0.104076068334656, in
    // tenths of milliohms.
    let resistances = [
        vec![
            1_963_052.0,
            1_961_240.0,
            1_961_890.0,
            1_962_569.0,
            1_963_403.0,
        ],
        vec![
            1_963_042.0,
            1_963_825.0,
            1_961_669.0,
            1_963_257.0,
            1_960_422.0,
        ],
        vec![
            1_961_303.0,
            1_962_005.0,
            1_962_889.0,
            1_960_343.0,
            1_961_811.0,
        ],
        vec![
            1_962_795.0,
            1_961_748.0,
            1_961_494.0,
            1_961_485.0,
            1_959_885.0,
        ],
        vec![
            1_962_119.0,
            1_961_051.0,
            1_961_850.0,
            1_960_052.0,
            1_962_090.0,
        ],
    ];
    let found = one_way(&resistances).unwrap();
    let (f, _) = found.rows.f_over(&found.within).unwrap();
    assert!((f / 1.180_462_374_402_55 - 1.0).abs() < 1e-13, "{f}");
    let sd = found.within.mean().sqrt() / 1e4;
    assert!((sd / 0.104_076_068_334_656 - 1.0).abs() < 1e-14, "{sd}");
    // NIST StRD AtmWtAg: F 15.9467335677930, residual sd 1.51048314446410e-5;
    // seven digits in common, in units of 1e-7 above 107.8681000.
    let weights = [
        vec![
            568.0, 465.0, 572.0, 785.0, 446.0, 903.0, 526.0, 494.0, 616.0, 587.0, 519.0, 486.0,
            419.0, 569.0, 508.0, 672.0, 385.0, 518.0, 662.0, 424.0, 360.0, 333.0, 610.0, 477.0,
        ],
        vec![
            79.0, 344.0, 513.0, 197.0, 604.0, 385.0, 642.0, 365.0, 151.0, 82.0, 517.0, 448.0,
            198.0, 482.0, 334.0, 609.0, 101.0, 512.0, 469.0, 360.0, 254.0, 261.0, 450.0, 368.0,
        ],
    ];
    let offset: Vec<Vec<f64>> = weights
        .iter()
        .map(|group| group.iter().map(|x| x + 1_078_681_000.0).collect())
        .collect();
    let found = one_way(&offset).unwrap();
    let (f, _) = found.rows.f_over(&found.within).unwrap();
    assert!((f / 15.946_733_567_793 - 1.0).abs() < 1e-12, "{f}");
    let sd = found.within.mean().sqrt() / 1e7;
    assert!((sd / 1.510_483_144_464_10e-5 - 1.0).abs() < 1e-13, "{sd}");
    assert_eq!(one_way(&[vec![1.0, f64::NAN], vec![2.0, 3.0]]), None);
    assert_eq!(one_way(&[vec![1.0, 2.0], vec![2.0]]), None);
}
