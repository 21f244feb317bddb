//! Chances and choices: calibrated, repeatable, never worse without saying so.

mod presses;

use jawtrue::plan::{
    BestAct, Choice, ChoiceWorkspace, Noise, OptionKind, Piece, PlanError, Posterior,
    PredictiveScratch, Quantity, ResponsePrior, Task, TurnBounds, choose, press_chances,
};
use jawtrue::stats::{Draws, Kept, NormalValue, Purpose, normal_cdf, normal_pdf};
use presses::{
    CALIPER, INCH, Press, TOLERANCE, free, independent, learnt, pass, prior, spread, task,
};

include!("support/range.rs");
include!("support/standing.rs");

/// A choice after one pass with the given readings, in inches.
fn first_choice(prior: &ResponsePrior, read: &[f64], bounds: &[TurnBounds]) -> Choice {
    let arms = prior.arms();
    let noise = Noise::assumed(CALIPER.step_nm);
    let read_nm: Vec<f64> = read.iter().map(|t| t * INCH).collect();
    let posterior = learnt(prior, noise, &[pass(&vec![0; arms], &read_nm, 2)]);
    let counting: Vec<usize> = (0..arms).collect();
    choose(
        &task(&posterior, &counting, bounds),
        &mut ChoiceWorkspace::default(),
    )
    .unwrap()
}

/// Chance that the last piece is inside.
fn this_piece(posterior: &Posterior, counting: &[usize]) -> f64 {
    let piece = Piece::last(posterior, counting, &mut Kept::default()).unwrap();
    piece.chance_as_read(TOLERANCE).unwrap()
}

/// On presses of the prior, chances promised are kept: of the plans said to
/// have a chance between a and b, the share that ends inside is the mean of the
/// chances, within four standard errors of a binomial count.
#[test]
fn chances_are_calibrated() {
    let prior = prior(4);
    let noise = Noise::assumed(CALIPER.step_nm);
    let (counting, bounds) = ([0, 1, 2, 3], free(4));
    let mut workspace = ChoiceWorkspace::default();
    let mut bands = [(0.0, 0.0, 0.0); 5];
    let mut below = [0.0; 2];
    let mut promised: f64 = 0.0;
    for number in 0..400 {
        let mut draws = Draws::new(Purpose::Simulation(number));
        let press = Press::of_the_prior(&mut draws, 4, 0.004 * INCH);
        let mut nuts = vec![0; 4];
        let mut passes = Vec::new();
        for _ in 0..2 {
            let piece = press.lace_and_read(&mut draws, &nuts, &CALIPER);
            passes.push(pass(&nuts, &piece.read_nm, CALIPER.repeats));
            let posterior = learnt(&prior, noise, &passes);
            let choice = choose(&task(&posterior, &counting, &bounds), &mut workspace).unwrap();
            let plan = &choice.options[choice.recommended];
            for (nut, turn) in nuts.iter_mut().zip(&plan.turns) {
                *nut += turn;
            }
            let next = press.lace_and_read(&mut draws, &nuts, &CALIPER);
            let found = spread(&next.true_nm);
            let chance = plan.forecast.chance;
            let band = &mut bands[((chance * 5.0) as usize).min(4)];
            band.0 += 1.0;
            band.1 += chance;
            band.2 += f64::from(u8::from(found <= TOLERANCE));
            below[0] += f64::from(u8::from(found <= plan.forecast.median_nm));
            below[1] += f64::from(u8::from(found <= plan.forecast.p90_nm));
            promised += 1.0;
        }
    }
    for (count, sum, inside) in bands {
        if count >= 10.0 {
            let mean = sum / count;
            let error = (mean * (1.0 - mean) / count).sqrt();
            println!(
                "{count} plans, promised {mean:.3}, inside {:.3}",
                inside / count
            );
            assert!(
                (inside / count - mean).abs() < 4.0 * error,
                "{count} plans, promised {mean}, inside {}",
                inside / count
            );
        }
    }
    for (share, found) in [(0.5f64, below[0]), (0.9, below[1])] {
        let error = (share * (1.0 - share) / promised).sqrt();
        println!("within the {share} limit: {}", found / promised);
        assert!(
            (found / promised - share).abs() < 4.0 * error,
            "{share}: {found} of {promised}"
        );
    }
}

/// A response given outright and no other uncertainty: the chance of the next
/// piece is the plain range probability.
#[test]
fn a_known_press_has_the_chance_of_its_lacing_scatter() {
    let prior = independent(4);
    let noise = Noise {
        repeatability_nm: 0.0,
        step_nm: 0.0,
        tilt_nm: 0.0,
        ..Noise::assumed(0.0)
    };
    let read: Vec<f64> = [0.2500, 0.2520, 0.2513, 0.2526].map(|t| t * INCH).to_vec();
    // Many passes leave only the scatter of the lacing itself.
    let passes = vec![pass(&[0; 4], &read, 2); 60];
    let posterior = learnt(&prior, noise, &passes);
    let found = standing(
        &posterior,
        &[0, 1, 2, 3],
        TOLERANCE,
        &mut PredictiveScratch::default(),
    );
    let values: Vec<NormalValue> = read
        .iter()
        .map(|&mean| NormalValue {
            mean,
            sd: noise.lacing_nm * (1.0 + 1.0 / 60.0f64).sqrt(),
        })
        .collect();
    let exact = range_probability(&values, TOLERANCE);
    let found = found.unwrap();
    assert!(
        (found.next_piece - exact).abs() < 0.005,
        "{found:?} {exact}"
    );
    // This piece was read without error and is inside.
    assert_eq!(found.this_piece, Some(1.0));
    assert!(found.this_press > found.next_piece);
}

/// Degrees of freedom f, and the chance that the difference of two stations
/// 0.0025 in apart is inside where 0.0003 in at each was estimated with so many:
/// Student's t. scipy 1.17, l = 0.0003 * sqrt(2):
/// `t.cdf(0.0005 / l, f) - t.cdf(-0.0055 / l, f)`.
const STUDENT: [(f64, f64); 4] = [
    (f64::INFINITY, 0.880_672),
    (9.0, 0.865_594),
    (4.0, 0.847_942),
    (2.0, 0.817_143),
];

const APART: [f64; 2] = [0.2500 * INCH, 0.2525 * INCH];

/// Lacing estimated with so many degrees of freedom, read without error.
fn without_error(dof: f64) -> Noise {
    Noise {
        lacing_freedom: dof,
        repeatability_nm: 0.0,
        step_nm: 0.0,
        tilt_nm: 0.0,
        ..Noise::assumed(0.0)
    }
}

/// The difference in the next piece of a known press, lacing estimated.
#[test]
fn lacing_scatter_that_is_estimated_is_students() {
    let prior = independent(2);
    for (dof, expected) in STUDENT {
        let noise = without_error(dof);
        let passes = vec![pass(&[0; 2], &APART, 2); 1_000];
        let posterior = learnt(&prior, noise, &passes);
        let mut scratch = PredictiveScratch::default();
        let found = standing(&posterior, &[0, 1], TOLERANCE, &mut scratch).unwrap();
        // Four scales stand for all of them.
        assert!(
            (found.next_piece - expected).abs() < 0.006,
            "{dof}: {found:?}"
        );
    }
}

/// The same for the press itself after one pass read without error: its
/// profile is the piece's, but for the lacing.
#[test]
fn a_press_known_from_one_lacing_is_students() {
    let prior = independent(2);
    for (dof, expected) in STUDENT {
        let noise = Noise {
            deviation_nm: 0.3 * INCH,
            ..without_error(dof)
        };
        let posterior = learnt(&prior, noise, &[pass(&[0; 2], &APART, 2)]);
        let mut scratch = PredictiveScratch::default();
        let found = standing(&posterior, &[0, 1], TOLERANCE, &mut scratch).unwrap();
        // A share of 512 draws: sqrt(0.15 / 512) = 0.017 without strata.
        assert!(
            (found.this_press - expected).abs() < 0.03,
            "{dof}: {found:?}"
        );
        // Deviations that were known to be small beforehand stay small.
        let narrow = Noise {
            deviation_nm: 1_000.0,
            ..noise
        };
        let posterior = learnt(&prior, narrow, &[pass(&[0; 2], &APART, 2)]);
        let found = standing(&posterior, &[0, 1], TOLERANCE, &mut scratch).unwrap();
        assert_eq!(found.this_press, 1.0);
    }
}

/// The same for the readings of this piece, nothing known beforehand.
#[test]
fn readings_whose_scatter_is_estimated_are_students() {
    let prior = prior(2);
    for (dof, expected) in STUDENT {
        let noise = Noise {
            repeatability_nm: 0.0003 * INCH,
            repeatability_freedom: dof,
            deviation_nm: 0.3 * INCH,
            ..Noise::assumed(0.0)
        };
        let posterior = learnt(&prior, noise, &[pass(&[0; 2], &APART, 1)]);
        let found = this_piece(&posterior, &[0, 1]);
        assert!((found - expected).abs() < 0.012, "{dof}: {found}");
    }
}

#[test]
fn this_piece_knows_only_the_error_of_its_readings() {
    let prior = prior(3);
    // Without anything known of the deviations beforehand.
    let noise = Noise {
        deviation_nm: 0.2 * INCH,
        ..Noise::assumed(0.0005 * INCH)
    };
    let read = [0.2500 * INCH, 0.2530 * INCH, 0.2510 * INCH];
    let mut passes = vec![pass(&[0; 3], &read, 2)];
    let posterior = learnt(&prior, noise, &passes);
    let sd = noise.reading_variance(2).sqrt();
    let values = read.map(|mean| NormalValue { mean, sd });
    let mut scratch = PredictiveScratch::default();
    let found = standing(&posterior, &[0, 1, 2], TOLERANCE, &mut scratch).unwrap();
    let alone = range_probability(&values, TOLERANCE);
    // The error of 512 stratified draws.
    let chance = found.this_piece.unwrap();
    assert!((chance - alone).abs() < 0.01, "{chance} {alone}");
    passes[0].readings[1] = None;
    let posterior = learnt(&prior, noise, &passes);
    let found = standing(&posterior, &[0, 1, 2], TOLERANCE, &mut scratch).unwrap();
    assert_eq!(found.this_piece, None);
    let found = standing(&posterior, &[0, 2], TOLERANCE, &mut scratch).unwrap();
    assert!(found.this_piece.unwrap() > 0.99);
}

/// With a free level, deviations of one scatter T and readings of one error u,
/// the deviations shrink by k = T^2 / (T^2 + u^2) and are left with a variance
/// of k u^2 (normal conjugate update, e.g. Gelman et al., Bayesian Data
/// Analysis, section 2.5; from memory).
#[test]
fn this_piece_is_drawn_towards_what_was_expected_of_it() {
    let prior = prior(4);
    let read = [0.2500, 0.2520, 0.2536, 0.2512].map(|inch| inch * INCH);
    for thousandths in [0.3, 0.6, 1.0, 2.0, 8.0] {
        let noise = Noise {
            deviation_nm: thousandths * 0.001 * INCH,
            tilt_nm: 0.0,
            ..Noise::assumed(0.001 * INCH)
        };
        let posterior = learnt(&prior, noise, &[pass(&[0; 4], &read, 1)]);
        let scatter = noise.deviation_nm.powi(2) + noise.lacing_nm.powi(2);
        let error = noise.reading_variance(1);
        let shrink = scatter / (scatter + error);
        let values = read.map(|mean| NormalValue {
            mean: shrink * mean,
            sd: (shrink * error).sqrt(),
        });
        let expected = range_probability(&values, TOLERANCE);
        let found = this_piece(&posterior, &[0, 1, 2, 3]);
        assert!(
            (found - expected).abs() < 0.01,
            "{thousandths}: {found} {expected}"
        );
    }
}

/// Committed output: the same on every machine, in debug and in release.
#[test]
fn the_same_session_gives_the_same_plan() {
    let prior = prior(4);
    let choice = first_choice(&prior, &[0.2500, 0.2555, 0.2590, 0.2530], &free(4));
    let plan = &choice.options[choice.recommended];
    let again = first_choice(&prior, &[0.2500, 0.2555, 0.2590, 0.2530], &free(4));
    assert_eq!(choice, again);
    assert_eq!(plan.turns, EXPECTED_TURNS);
    assert_eq!(plan.forecast.chance.to_bits(), EXPECTED_CHANCE);
}

const EXPECTED_TURNS: [i32; 4] = [3, 1, 0, 2];
// 1.6e-8 less than in double precision: `stats/even_range.rs`.
const EXPECTED_CHANCE: u64 = 0x3fe4_cd1b_6c17_7451;

#[test]
fn rows_are_what_they_say() {
    let prior = prior(4);
    let read = [0.2500, 0.2555, 0.2590, 0.2530];
    let bounds = [
        TurnBounds { least: -2, most: 3 },
        TurnBounds { least: -6, most: 0 },
        TurnBounds { least: -1, most: 6 },
        TurnBounds { least: 0, most: 6 },
    ];
    let choice = first_choice(&prior, &read, &bounds);
    assert_eq!(choice.options[0].kind, OptionKind::Leave);
    assert_eq!(choice.options[0].turns, [0; 4]);
    for option in &choice.options {
        let nuts = option.turns.iter().filter(|k| **k != 0).count();
        assert_eq!(option.nuts, nuts);
        match option.kind {
            OptionKind::Leave => assert_eq!(nuts, 0),
            OptionKind::Nuts(n) => {
                assert_eq!(nuts, n);
                assert!(option.turns.iter().any(|k| *k < 0));
            }
            OptionKind::Outward => assert!(option.turns.iter().all(|k| *k >= 0)),
        }
        for (turn, bound) in option.turns.iter().zip(bounds) {
            assert!((bound.least..=bound.most).contains(turn));
        }
        let forecast = option.forecast;
        assert!(forecast.median_nm <= forecast.p90_nm);
        assert!((0.0..=1.0).contains(&forecast.chance));
        assert!((1.0..=22.0).contains(&option.pieces));
        // Every further piece takes 20 minutes and what is turned before it.
        assert!(option.minutes >= 20.0 * option.pieces && option.minutes < 1_000.0);
    }
    let plan = &choice.options[choice.recommended];
    assert!(plan.forecast.chance > choice.options[0].forecast.chance);
}

#[test]
fn a_good_profile_is_left_alone() {
    let prior = prior(4);
    let choice = first_choice(&prior, &[0.2502, 0.2504, 0.2498, 0.2500], &free(4));
    assert_eq!(choice.recommended, 0);
    assert!(choice.as_good_as_it_gets);
    assert!(choice.options[0].forecast.chance > 0.95);
}

/// No freedom: only leaving is left, and it is not called good.
#[test]
fn without_freedom_there_is_only_leaving() {
    let prior = prior(3);
    let locked = vec![TurnBounds { least: 0, most: 0 }; 3];
    let choice = first_choice(&prior, &[0.250, 0.256, 0.250], &locked);
    assert_eq!(choice.options.len(), 1);
    assert_eq!(choice.recommended, 0);
    assert_eq!(choice.action, BestAct::LaceAgain);
    assert!(choice.options[0].forecast.chance < 0.01);
}

/// A nut outside its limits has to move, gain or not.
#[test]
fn a_nut_that_must_move_moves() {
    let prior = prior(3);
    let mut bounds = free(3);
    bounds[1] = TurnBounds { least: 2, most: 4 };
    let choice = first_choice(&prior, &[0.250, 0.250, 0.250], &bounds);
    assert!(!choice.may_leave && !choice.as_good_as_it_gets);
    let plan = &choice.options[choice.recommended];
    assert!((2..=4).contains(&plan.turns[1]));
    for option in &choice.options[1..] {
        assert!((2..=4).contains(&option.turns[1]));
    }
}

/// Far out of true: no chance in one re-lace, but the way on is shown.
#[test]
fn far_out_of_true_is_brought_nearer() {
    let prior = prior(4);
    let choice = first_choice(&prior, &[0.250, 0.340, 0.250, 0.300], &free(4));
    assert_ne!(choice.recommended, 0);
    let (leave, plan) = (&choice.options[0], &choice.options[choice.recommended]);
    assert!(plan.forecast.median_nm < leave.forecast.median_nm - 0.01 * INCH);
}

/// Between stops: reading the same piece again is worth more than a new piece
/// when the readings are coarse and the spread stands at the limit.
#[test]
fn a_piece_at_the_limit_is_measured_again() {
    let prior = prior(4);
    let choice = first_choice(&prior, &[0.2500, 0.2531, 0.2515, 0.2520], &free(4));
    assert_eq!(choice.action, BestAct::MeasureAgain);
    assert!(choice.minutes_measuring_again < choice.options[choice.recommended].minutes);
}

#[test]
fn odd_tasks_are_refused() {
    let prior = prior(3);
    let noise = Noise::assumed(2540.0);
    let posterior = learnt(&prior, noise, &[pass(&[0; 3], &[6e6; 3], 1)]);
    let bounds = free(3);
    let sound = task(&posterior, &[0, 1, 2], &bounds);
    let refused = |task: &Task| choose(task, &mut ChoiceWorkspace::default()).err();
    assert_eq!(refused(&sound), None);
    for tolerance_nm in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert_eq!(
            refused(&Task {
                tolerance_nm,
                ..sound
            }),
            Some(PlanError::OutOfRange(Quantity::Tolerance))
        );
    }
    for counting in [&[][..], &[3]] {
        assert_eq!(
            refused(&Task { counting, ..sound }),
            Some(PlanError::NothingCounts)
        );
    }
    let crossed = [TurnBounds { least: 1, most: -1 }; 3];
    for bounds in [&crossed[..], &bounds[..2]] {
        assert!(refused(&Task { bounds, ..sound }).is_some());
    }
    // One station has no spread: always inside.
    let alone = choose(
        &Task {
            counting: &[1],
            ..sound
        },
        &mut ChoiceWorkspace::default(),
    );
    assert_eq!(alone.unwrap().options[0].forecast.chance, 1.0);
}
