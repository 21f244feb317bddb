//! Rods that only pull.

use super::check;
use jawtrue::press::beam::{Beam, BeamError, SlackSolution};
use proptest::prelude::*;

fn solve_slack(beam: &Beam, preloads: &[f64], movements: &[f64]) -> SlackSolution {
    beam.solve_slack(preloads, movements).expect("it hangs")
}

#[test]
fn the_middle_of_three_rods_goes_slack() {
    // A rigid jaw on three equal rods (k = 1, tension 1 each). Let out u at
    // the middle, the jaw follows by u / 3 and the middle rod keeps
    // 1 - 2 u / 3: nothing at u = 1.5. From there on the outer two carry
    // all three tensions, 1.5 each, stretched by 0.5.
    let beam =
        Beam::uniform(0.0, 20.0, f64::INFINITY).on_springs([(0.0, 1.0), (10.0, 1.0), (20.0, 1.0)]);
    for (out, tensions, follows, slack_from) in [
        (1.2, [1.4, 0.2, 1.4], 0.4, None),
        (1.5, [1.5, 0.0, 1.5], 0.5, None),
        (3.0, [1.5, 0.0, 1.5], 0.5, Some(0.5)),
        (30.0, [1.5, 0.0, 1.5], 0.5, Some(0.05)),
    ] {
        let slack_solution = solve_slack(&beam, &[1.0; 3], &[0.0, out, 0.0]);
        for (found, expected) in slack_solution.tensions.iter().zip(tensions) {
            assert!((found - expected).abs() < 1e-14, "out {out}: {found}");
        }
        for x in [0.0, 7.0, 20.0] {
            check("follows", slack_solution.deflection.at(x), follows, 1e-13);
        }
        assert_eq!(
            slack_solution.slack_from[1].is_some(),
            slack_from.is_some(),
            "out {out}"
        );
        if let (Some(found), Some(expected)) = (slack_solution.slack_from[1], slack_from) {
            check("slack from", found, expected, 1e-13);
        }
    }
}

#[test]
fn turning_the_middle_in_unloads_its_neighbours() {
    // The same jaw on a splice that pushes back with 2e-5 in all. Turn the
    // middle nut in by 2: the jaw follows by 2/3, which leaves the outer
    // rods 1/3 of their tension. In by 3.6 they are slack, and the
    // middle rod holds what all three held.
    let beam = Beam::uniform(0.0, 20.0, f64::INFINITY)
        .on_springs([(0.0, 1.0), (10.0, 1.0), (20.0, 1.0)])
        .on_foundation(1.0e-6);
    let follows: f64 = -2.0 / 3.00002;
    let slack_solution = solve_slack(&beam, &[1.0; 3], &[0.0, -2.0, 0.0]);
    let expected = [1.0 + follows, 3.0 + follows, 1.0 + follows];
    for (found, expected) in slack_solution.tensions.iter().zip(expected) {
        check("tension", *found, expected, 1e-12);
    }

    let follows = -1.6 / 1.00002;
    let slack_solution = solve_slack(&beam, &[1.0; 3], &[0.0, -3.6, 0.0]);
    assert_eq!(slack_solution.tensions[0], 0.0);
    assert_eq!(slack_solution.tensions[2], 0.0);
    check("tension", slack_solution.tensions[1], 4.6 + follows, 1e-9);
    check("follows", slack_solution.deflection.at(10.0), follows, 1e-9);
}

#[test]
fn a_thin_jaw_follows_its_nuts_and_keeps_every_rod_tight() {
    let beam = Beam::uniform(0.0, 40.0, 1.0e-9).on_springs([
        (0.0, 1.0),
        (10.0, 1.0),
        (25.0, 1.0),
        (38.0, 1.0),
    ]);
    let slack_solution = solve_slack(&beam, &[0.001; 4], &[0.0, 4.0, -1.0, 2.0]);
    assert_eq!(slack_solution.slack_from, [None; 4]);
    for tension in slack_solution.tensions {
        check("tension", tension, 0.001, 1e-6);
    }
}

#[test]
fn two_rods_are_statically_determinate_and_stay_tight() {
    let beam = Beam::uniform(0.0, 20.0, 50.0).on_springs([(2.0, 1.0), (15.0, 3.0)]);
    let slack_solution = solve_slack(&beam, &[0.5, 0.25], &[1000.0, -7.0]);
    assert_eq!(slack_solution.slack_from, [None; 2]);
    check("tension", slack_solution.tensions[0], 0.5, 1e-12);
    check("tension", slack_solution.tensions[1], 0.25, 1e-12);
}

#[test]
fn without_tension_a_nut_turned_out_moves_nothing() {
    let beam = Beam::uniform(0.0, 30.0, 50.0).on_springs([
        (0.0, 1.0),
        (10.0, 1.0),
        (20.0, 1.0),
        (30.0, 1.0),
    ]);
    let slack_solution = solve_slack(&beam, &[0.0; 4], &[0.0, 2.0, 0.0, 0.0]);
    assert_eq!(slack_solution.slack_from, [None, Some(0.0), None, None]);
    for x in [0.0, 10.0, 15.0, 30.0] {
        assert!(slack_solution.deflection.at(x).abs() < 1e-14);
    }
}

#[test]
fn a_pushed_off_jaw_is_said_to_be_loose() {
    let beam = Beam::uniform(0.0, 10.0, 1.0)
        .on_springs([(0.0, 1.0), (10.0, 1.0)])
        .loaded(5.0, -10.0);
    assert!(matches!(
        beam.solve_slack(&[1.0, 1.0], &[0.0, 0.0]),
        Err(BeamError::Loose)
    ));
    for preload in [-1.0, f64::NAN, f64::INFINITY] {
        assert!(matches!(
            beam.solve_slack(&[1.0, preload], &[0.0, 0.0]),
            Err(BeamError::Preload(1))
        ));
    }
    assert!(matches!(
        beam.solve_slack(&[1.0], &[0.0, 0.0]),
        Err(BeamError::MovementCount)
    ));
    assert!(matches!(
        beam.solve_slack(&[1.0; 2], &[0.0, f64::NAN]),
        Err(BeamError::Movement(1))
    ));
}

fn any_hanging_beam() -> impl Strategy<Value = (Beam, Vec<f64>, Vec<f64>)> {
    let arm = (0.3..1.0_f64, 0.5..2.0_f64, 0.05..1.0_f64, -2.0..2.0_f64);
    (
        proptest::collection::vec(arm, 3..=8),
        0.0..2.0_f64,
        0.0..0.6_f64,
    )
        .prop_map(|(arms, kappa_log, rho)| {
            let mut x = 0.2;
            let mut springs = Vec::new();
            for (gap, stiffness, ..) in &arms {
                x += gap;
                springs.push((x, *stiffness));
            }
            let beam = Beam::uniform(0.0, x + 0.2, libm::exp10(-kappa_log))
                .on_springs(springs)
                .on_foundation((rho - 0.3).max(0.0));
            let preloads = arms.iter().map(|(_, _, t, _)| *t).collect();
            (beam, preloads, arms.iter().map(|(.., u)| *u).collect())
        })
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 200,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn rods_pull_or_stand_off((beam, preloads, movements) in any_hanging_beam()) {
        let slack_solution = solve_slack(&beam, &preloads, &movements);
        let mut pulled = beam.clone();
        for (rod, spring) in beam.springs.iter().enumerate() {
            let w = slack_solution.deflection.at(spring.position);
            let tension = preloads[rod] - spring.stiffness * (movements[rod] - w);
            // The conditions of equilibrium that make the answer the one and
            // only: a rod pulls, or its nut stands off its seat.
            match slack_solution.slack_from[rod] {
                None => {
                    prop_assert!(tension > -1e-11);
                    prop_assert!((tension - slack_solution.tensions[rod]).abs() < 1e-11);
                }
                Some(share) => {
                    prop_assert!(tension < 1e-11);
                    prop_assert!((0.0..=1.0).contains(&share));
                    prop_assert_eq!(slack_solution.tensions[rod], 0.0);
                }
            }
            // What the rods let go of since the start loads the beam.
            pulled.springs[rod].stiffness = 0.0;
            pulled = pulled.loaded(spring.position, preloads[rod] - slack_solution.tensions[rod]);
        }
        if beam.foundation > 0.0 {
            let still = vec![0.0; movements.len()];
            let free = pulled.factor().and_then(|f| f.solve(&still)).expect("it is held");
            for step in 0..=20 {
                let x = beam.right_end * f64::from(step) / 20.0;
                let (w, expected) = (slack_solution.deflection.at(x), free.at(x));
                prop_assert!((w - expected).abs() < 1e-7 * (1.0 + w.abs()));
            }
        }
        // A slack nut turned further out changes nothing.
        let further: Vec<f64> = movements
            .iter()
            .zip(&slack_solution.slack_from)
            .map(|(u, slack)| if slack.is_some() { u + 1.0 } else { *u })
            .collect();
        let same = solve_slack(&beam, &preloads, &further);
        for (before, after) in slack_solution.tensions.iter().zip(&same.tensions) {
            prop_assert!((before - after).abs() < 1e-10);
        }
    }

    #[test]
    fn ties_are_settled(
        arms in proptest::collection::vec((0..3_i32, -2..=2_i32), 3..=12),
        kappa in prop_oneof![Just(0.0), Just(10.0), Just(1000.0)],
        rho in prop_oneof![Just(0.0), Just(0.1)],
    ) {
        // Even spacing, whole movements and few tensions: many rods change
        // together.
        let rods = (0..arms.len()).map(|arm| (arm as f64, 1.0));
        let beam = Beam::uniform(0.0, arms.len() as f64 - 1.0, 1.0 / kappa)
            .on_springs(rods)
            .on_foundation(rho);
        let preloads: Vec<f64> = arms.iter().map(|(t, _)| 0.5 * f64::from(*t)).collect();
        let movements: Vec<f64> = arms.iter().map(|(_, u)| f64::from(*u)).collect();
        match beam.solve_slack(&preloads, &movements) {
            Ok(slack_solution) => for (rod, tension) in slack_solution.tensions.iter().enumerate() {
                let w = slack_solution.deflection.at(rod as f64);
                let pulled = preloads[rod] - (movements[rod] - w);
                prop_assert!((pulled.max(0.0) - tension).abs() < 1e-10);
            },
            // Without tension and splice nothing may hold the jaw.
            Err(error) => prop_assert!(
                matches!(error, BeamError::Loose) && rho == 0.0 && preloads.contains(&0.0),
                "{error:?}"
            ),
        }
    }
}
