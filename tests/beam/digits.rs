//! How many digits are kept, against references and textbook elements.

use super::references::references;
use super::{deflect, hermite};
use jawtrue::press::beam::Beam;
use proptest::prelude::*;

#[test]
fn extreme_proportions_keep_their_digits() {
    for case in references() {
        let mut factored = case.beam.factor().expect("a good beam");
        let deflection = factored.solve(case.movements).expect("good movements");
        let places: Vec<f64> = case.deflections.iter().map(|(x, _)| *x).collect();
        let springs = factored.springs();
        let mut influence = vec![0.0; places.len() * springs];
        factored
            .influence_into(&places, &mut influence)
            .expect("good places");
        let scale = case.movements.iter().fold(0.0, |a: f64, b| a.max(b.abs()));
        for (&(x, expected), row) in case.deflections.iter().zip(influence.chunks(springs)) {
            let by_row: f64 = row.iter().zip(case.movements).map(|(b, u)| b * u).sum();
            for found in [deflection.at(x), by_row] {
                let apart = (found - expected).abs() / scale;
                assert!(apart < 2e-14, "{} at {x}: off by {apart:e}", case.name);
            }
        }
        // Forces of several movements may nearly cancel: what each causes
        // alone is the measure.
        let mut sizes = vec![0.0; springs];
        for (moved, movement) in case.movements.iter().enumerate() {
            let mut alone = vec![0.0; springs];
            alone[moved] = *movement;
            let deflection = factored.solve(&alone).expect("good movements");
            for (size, force) in sizes.iter_mut().zip(deflection.spring_forces()) {
                *size += force.abs();
            }
        }
        let found = deflection.spring_forces();
        for ((found, expected), size) in found.iter().zip(case.forces).zip(sizes) {
            let apart = (found - expected).abs() / size;
            assert!(apart < 1e-13, "{}: force off by {apart:e}", case.name);
        }
    }
}

#[test]
fn textbook_elements_agree() {
    // 200 elements on the reference beams of ordinary proportions.
    for case in references() {
        let ordinary = [
            "proportions of a press",
            "stepped jaw",
            "two arms, soft splice",
        ];
        if !ordinary.contains(&case.name) {
            continue;
        }
        let elements = 200;
        let deflection = deflect(&case.beam, case.movements);
        let nodes = hermite::nodal_motions(&case.beam, case.movements, elements);
        for (node, [w, slope]) in nodes.into_iter().enumerate() {
            let x = case.beam.right_end * node as f64 / elements as f64;
            let found = deflection.state_at(x);
            assert!((found.deflection - w).abs() < 1e-7, "{} at {x}", case.name);
            assert!((found.slope - slope).abs() < 1e-6, "{} at {x}", case.name);
        }
    }
}

/// Press-like beams with arms on a grid of 1/10 of a bay: kappa 1 to 100.
fn any_press() -> impl Strategy<Value = (Beam, Vec<f64>)> {
    let arm = (2..=15_u32, 0.5..2.0_f64, -3.0..3.0_f64);
    (
        proptest::collection::vec(arm, 2..=6),
        0.0..2.0_f64,
        0.0..0.4_f64,
        (0..=5_u32, 0..=5_u32),
    )
        .prop_map(|(arms, kappa_log, rho, (before, after))| {
            let mut tenths = before;
            let mut springs = Vec::new();
            for (gap, stiffness, _) in &arms {
                tenths += gap;
                springs.push((f64::from(tenths) / 10.0, *stiffness));
            }
            let length = f64::from(tenths + after) / 10.0;
            let beam = Beam::uniform(0.0, length, libm::exp10(-kappa_log))
                .on_springs(springs)
                .on_foundation((rho - 0.1).max(0.0));
            (beam, arms.iter().map(|(.., u)| *u).collect())
        })
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 40,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn textbook_elements_agree_on_any_press((beam, movements) in any_press()) {
        // Two elements per tenth of a bay: their own error is a few 1e-7.
        let elements = (beam.right_end * 20.0).round() as usize;
        let deflection = deflect(&beam, &movements);
        let nodes = hermite::nodal_motions(&beam, &movements, elements);
        for (node, [w, _]) in nodes.into_iter().enumerate() {
            let x = beam.right_end * node as f64 / elements as f64;
            prop_assert!((deflection.at(x) - w).abs() < 1e-6, "at {x}");
        }
    }
}
