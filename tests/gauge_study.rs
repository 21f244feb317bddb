//! Gauge studies and analyses of variance against published figures.

#[path = "support/machines.rs"]
mod machines;

use jawtrue::splice::{GaugeStudy, StudyTable};
use jawtrue::stats::TwoWay;
use machines::MACHINES;

/// Groups of as many values each: a table of one column.
fn one_way(groups: &[Vec<f64>]) -> Option<TwoWay> {
    let cells: Vec<Vec<Vec<f64>>> = groups.iter().map(|group| vec![group.clone()]).collect();
    TwoWay::of(&cells)
}

/// The open study, at an offset as of thicknesses.
fn machines(offset: f64) -> StudyTable {
    let numbers = |row: &str| {
        row.split_whitespace()
            .map(|text| offset + text.parse::<f64>().unwrap())
            .collect()
    };
    let people = MACHINES
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

/// numpy 2.4 on the table: mean range 1.533333, people's averages 13.916667 and
/// knuckles' 15.544444 apart; 0.5908, 0.5231 and 0.3742 of them.
#[test]
fn average_and_range_of_an_open_study() {
    for offset in [0.0, 250.0] {
        let study = machines(offset).average_and_range();
        check(&study, [0.905893, 7.276676, 7.332848, 5.816731], 2e-6);
        // 1.41 x 5.816731 / 7.332848 = 1.118.
        assert_eq!(study.categories(), Some(1.0));
    }
}

/// Mean squares by statsmodels, anova_lm(ols("score ~ C(Machine) * C(Worker)")):
/// machines 877.631667 (2), workers 248.379 (5), interaction 42.653 (10),
/// residual 0.924630 (36), F 46.129822. Of them, (I - E) / 3 = 13.909457,
/// (M - I) / 18 = 46.387704, (W - I) / 9 = 22.858444.
#[test]
fn analysis_of_variance_of_an_open_study() {
    for offset in [0.0, 250.0] {
        let study = machines(offset).analysis_of_variance();
        check(&study, [0.961577, 7.765125, 7.824435, 4.781051], 2e-6);
        assert_eq!(study.categories(), Some(0.0));
        let interaction = study.interaction.unwrap();
        assert!(!interaction.pooled && !study.came_out_negative);
        // scipy 1.17: f.sf(46.12982175, 10, 36) = 1.64e-17.
        assert!(interaction.chance < 1e-12, "{interaction:?}");
        assert_eq!(study.dof, 36.0);
        // E 2/3 + I / 3 = 3.851504^2, by Satterthwaite with 10.880234.
        let handed = study.in_differences;
        assert!((handed.sd_nm - 3.851504).abs() < 2e-6);
        assert!((handed.dof - 10.880234).abs() < 2e-6, "{handed:?}");
    }
}

/// Where scatter explains the interaction it is pooled. By hand, two readings of
/// each: 0 and 2, 2 and 4 by one person, 11 and 13 twice by the other. People are 10
/// apart, 8 x 5^2 = 200 (1); knuckles 1 apart, 8 x 0.5^2 = 2 (1); cell means 1, 3, 12,
/// 12 leave 8 x 0.5^2 = 2 (1); pairs 2 apart 4 x 2 = 8 (4). F = 2 / 2 is exceeded
/// with a chance of 0.373901 (scipy.stats.f.sf(1, 1, 4)): pooled, (8 + 2) / 5 = 2.
#[test]
fn an_interaction_that_scatter_explains_is_pooled() {
    let table = StudyTable::new(vec![
        vec![vec![0.0, 2.0], vec![2.0, 4.0]],
        vec![vec![11.0, 11.0], vec![13.0, 13.0]],
    ]);
    let study = table.unwrap().analysis_of_variance();
    let interaction = study.interaction.unwrap();
    assert!(interaction.pooled);
    assert!(
        (interaction.chance - 0.373_901).abs() < 1e-6,
        "{interaction:?}"
    );
    assert_eq!(study.dof, 5.0);
    // People (200 - 2) / 4, knuckles (2 - 2) / 4.
    check(
        &study,
        [2_f64.sqrt(), 49.5_f64.sqrt(), 51.5_f64.sqrt(), 0.0],
        1e-5,
    );
    assert!((study.in_differences.sd_nm - 2_f64.sqrt()).abs() < 1e-9);
}

/// The factors are the inverse of the range's mean (K1, of many ranges) or of its
/// root mean square (K2 and K3, of one range) for normal values: 1 / d2 and 1 /
/// d2* of the quality-control tables. By scipy.integrate.quad with norm: E R = int
/// 1 - F^n - (1 - F)^n, E R^2 = int 2 r (1 - P(r)).
#[test]
#[allow(clippy::approx_constant, reason = "tabled with four digits")]
fn the_factors_of_ranges_are_those_of_normal_values() {
    let k1 = [0.8862, 0.5908];
    let k2 = [0.7071, 0.5231];
    let k3 = [
        0.7071, 0.5231, 0.4467, 0.4030, 0.3742, 0.3534, 0.3375, 0.3249, 0.3146,
    ];
    let study = |people: usize,
                 rounds: usize,
                 knuckles: usize,
                 value: &dyn Fn(usize, usize, usize) -> f64| {
        let people = (0..people).map(|p| {
            (0..rounds)
                .map(|r| (0..knuckles).map(|k| value(p, r, k)).collect())
                .collect()
        });
        StudyTable::new(people.collect())
            .unwrap()
            .average_and_range()
    };
    // Ranges of one: of rounds, of people, of knuckles alone.
    for (rounds, k1) in (2..).zip(k1) {
        let found = study(2, rounds, 2, &|_, r, _| f64::from(u8::from(r == 0)));
        assert_eq!(found.repeatability_nm, k1);
    }
    for (people, k2) in (2..).zip(k2) {
        let found = study(people, 2, 2, &|p, _, _| f64::from(u8::from(p == 0)));
        assert!((found.people_nm - k2).abs() < 1e-12);
    }
    for (knuckles, k3) in (2..).zip(k3) {
        let found = study(2, 2, knuckles, &|_, _, k| f64::from(u8::from(k == 0)));
        assert!((found.knuckles_nm - k3).abs() < 1e-12);
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
    for readings in [
        vec![],
        vec![vec![]],
        vec![vec![vec![1.0; 3]]],
        vec![vec![vec![1.0; 3]; 4]],
        vec![vec![vec![1.0; 3]; 2]; 4],
        vec![vec![vec![1.0]; 2]],
        vec![vec![vec![1.0; 11]; 2]],
        vec![vec![vec![1.0; 3]; 2], vec![vec![1.0; 3]; 3]],
        vec![vec![vec![1.0; 3], vec![1.0; 2]]],
        vec![vec![vec![1.0, f64::NAN], vec![1.0; 2]]],
    ] {
        assert_eq!(StudyTable::new(readings.clone()), None, "{readings:?}");
    }
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
