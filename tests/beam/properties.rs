//! What holds for every beam.

use super::deflect;
use jawtrue::press::beam::{Beam, BeamSection};
use proptest::prelude::*;

/// Beams over and beyond the prior: 2 to 12 arms, kappa 1e-3 to 1e6.
fn any_beam() -> impl Strategy<Value = (Beam, Vec<f64>)> {
    let arm = (0.01..1.0_f64, -1.5..1.5_f64, -3.0..3.0_f64);
    (
        proptest::collection::vec(arm, 2..=12),
        -3.0..6.0_f64,
        0.0..3.0_f64,
        (0.0..0.5_f64, 0.0..0.5_f64),
        -1.0..1.0_f64,
    )
        .prop_map(|(arms, kappa_log, rho, (before, after), step)| {
            let mut x = before;
            let mut springs = Vec::new();
            for (gap, stiffness_log, _) in &arms {
                x += gap;
                springs.push((x, libm::exp10(*stiffness_log)));
            }
            let rigidity = libm::exp10(-kappa_log);
            let mut beam = Beam::uniform(0.0, x + after, rigidity)
                .on_springs(springs)
                // A foundation in two cases of three.
                .on_foundation((rho - 1.0).max(0.0));
            beam.sections.push(BeamSection {
                from: x / 2.0,
                rigidity: rigidity * libm::exp10(step),
            });
            (beam, arms.iter().map(|(_, _, u)| *u).collect())
        })
}

/// Integral over the beam of a function of position and rigidity: five-point
/// Gauss-Legendre (Abramowitz and Stegun, Table 25.4) on short intervals
/// between springs and steps.
fn integral(beam: &Beam, f: impl Fn(f64, f64) -> f64) -> f64 {
    const POINTS: [(f64, f64); 5] = [
        (-0.906_179_845_938_664, 0.236_926_885_056_189_1),
        (-0.538_469_310_105_683_1, 0.478_628_670_499_366_5),
        (0.0, 0.568_888_888_888_888_9),
        (0.538_469_310_105_683_1, 0.478_628_670_499_366_5),
        (0.906_179_845_938_664, 0.236_926_885_056_189_1),
    ];
    const PARTS: u32 = 200;
    let step = beam.sections[1].from;
    let mut marks: Vec<f64> = beam.springs.iter().map(|s| s.position).collect();
    marks.extend([beam.left_end, beam.right_end, step]);
    marks.sort_by(f64::total_cmp);
    let mut sum = 0.0;
    for span in marks.windows(2) {
        let half = (span[1] - span[0]) / f64::from(2 * PARTS);
        for part in 0..PARTS {
            let middle = span[0] + half * f64::from(2 * part + 1);
            for (point, weight) in POINTS {
                let x = middle + half * point;
                let section = beam.sections[usize::from(x > step)];
                sum += half * weight * f(x, section.rigidity);
            }
        }
    }
    sum
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 300,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn reciprocity((beam, _) in any_beam()) {
        // Maxwell and Betti: w_i for a unit force at j is w_j for one at i,
        // and a unit movement of a seat is a force k.
        let places: Vec<f64> = beam.springs.iter().map(|s| s.position).collect();
        let n = places.len();
        let mut influence = vec![0.0; n * n];
        let mut factored = beam.factor().expect("a good beam");
        factored.influence_into(&places, &mut influence).expect("good places");
        for i in 0..n {
            for j in 0..n {
                let there = influence[i * n + j] / beam.springs[j].stiffness;
                let back = influence[j * n + i] / beam.springs[i].stiffness;
                let scale = (influence[i * n + i] / beam.springs[i].stiffness)
                    .max(influence[j * n + j] / beam.springs[j].stiffness);
                prop_assert!((there - back).abs() <= 1e-12 * scale, "{i} {j}");
            }
        }
    }

    #[test]
    fn forces_balance_and_energy_is_half_the_work((beam, movements) in any_beam()) {
        let deflection = deflect(&beam, &movements);
        let ground = |x| beam.foundation * deflection.at(x);
        let ground_force = integral(&beam, |x, _| ground(x));
        let ground_moment = integral(&beam, |x, _| ground(x) * x);
        let energy = integral(&beam, |x, ei| {
            let state = deflection.state_at(x);
            state.moment * state.moment / ei + ground(x) * state.deflection
        });
        let forces = deflection.spring_forces();
        let force: f64 = forces.iter().sum();
        let moment: f64 = forces.iter().zip(&beam.springs).map(|(f, s)| f * s.position).sum();
        let moved = || beam.springs.iter().map(|s| s.stiffness).zip(&movements);
        let scale: f64 = moved().map(|(k, u)| k * u.abs()).sum();
        prop_assert!((force - ground_force).abs() <= 1e-10 * scale, "{force} {ground_force}");
        prop_assert!((moment - ground_moment).abs() <= 1e-10 * scale * beam.right_end);

        let work: f64 = forces.iter().zip(&movements).map(|(f, u)| f * u).sum();
        let springs: f64 = forces.iter().zip(&beam.springs).map(|(f, s)| f * f / s.stiffness).sum();
        let size: f64 = moved().map(|(k, u)| k * u * u).sum();
        prop_assert!((energy + springs - work).abs() <= 1e-9 * size);
    }

    #[test]
    fn more_nodes_change_nothing(
        (beam, movements) in any_beam(),
        places in proptest::collection::vec(0.0..1.0_f64, 1..30),
    ) {
        let places: Vec<f64> = places.iter().map(|share| share * beam.right_end).collect();
        let mut finer = beam.clone();
        for x in &places {
            finer = finer.loaded(*x, 0.0);
        }
        let (coarse, fine) = (deflect(&beam, &movements), deflect(&finer, &movements));
        for x in places {
            prop_assert!((coarse.at(x) - fine.at(x)).abs() <= 3e-12);
        }
    }

    #[test]
    fn turning_the_beam_round_turns_the_answer_round((beam, movements) in any_beam()) {
        let length = beam.right_end;
        let mut round = beam.clone();
        round.springs.reverse();
        for spring in &mut round.springs {
            spring.position = length - spring.position;
        }
        let [left, right] = [beam.sections[0], beam.sections[1]];
        round.sections = vec![
            BeamSection { from: 0.0, ..right },
            BeamSection { from: length - right.from, ..left },
        ];
        let back: Vec<f64> = movements.iter().rev().copied().collect();
        let (there, back) = (deflect(&beam, &movements), deflect(&round, &back));
        for step in 0..=50 {
            let x = length * f64::from(step) / 50.0;
            prop_assert!((there.at(x) - back.at(length - x)).abs() <= 1e-9);
        }
    }
}
