//! The jaw in its dimensionless ratios.

use super::check;
use jawtrue::press::beam::{Beam, BeamError};
use jawtrue::press::{
    ArmPositionsError, JawBeam, JawError, JawLayout, JawSection, JawStiffness, NaturalSpline,
};

const MM: f64 = 1.0e6;

fn layout() -> JawLayout {
    let arms_nm = [150.0, 450.0, 800.0, 1000.0].map(|x| x * MM);
    let stations_nm = [150.0, 300.0, 450.0, 800.0, 1000.0, 1100.0].map(|x| x * MM);
    JawLayout::new((0.0, 1150.0 * MM), &arms_nm, &stations_nm).expect("a good layout")
}

#[test]
fn ratios_stand_for_a_real_jaw() {
    // N and mm: a = 850 / 3 mm, k = 2e5 N/mm, EI = 5e11 N mm^2, k_f = 70 N/mm^2.
    let (a, k, ei, k_f) = (850.0 / 3.0, 2.0e5, 5.0e11, 70.0);
    let factors = [1.1, 0.9, 1.2, 0.8];
    let beam = Beam::uniform(0.0, 1150.0, ei)
        .on_springs(
            [150.0, 450.0, 800.0, 1000.0]
                .into_iter()
                .zip(factors.map(|f| f * k)),
        )
        .on_foundation(k_f);
    let stiffness = JawStiffness {
        kappa: k * a * a * a / ei,
        rho: k_f * a / k,
        rod_factors: &factors,
        sections: &[],
    };
    let mut jaw = JawBeam::new(layout(), &stiffness).expect("a good jaw");
    let movements_nm = [101_600.0, -203_200.0, 0.0, 304_800.0];
    let real = beam
        .factor()
        .and_then(|f| f.solve(&movements_nm))
        .expect("a good beam");
    check_stations(&mut jaw, &movements_nm, |x| real.at(x));
}

/// Compares the jaw at its stations with an opening by position in millimetres.
fn check_stations(jaw: &mut JawBeam, movements: &[f64; 4], opening: impl Fn(f64) -> f64) {
    let mut influence = [0.0; 24];
    jaw.influence_into(&mut influence).expect("room enough");
    let stations = [150.0, 300.0, 450.0, 800.0, 1000.0, 1100.0];
    for (row, x) in influence.chunks(4).zip(stations) {
        let opened = row.iter().zip(movements).map(|(b, k)| b * k).sum();
        check("station", opened, opening(x), 1e-11);
    }
}

#[test]
fn a_nut_moves_its_neighbour_as_the_energy_of_the_jaw_has_it() {
    // Over the proportions that presses are assumed to have: kappa 3 to 70,
    // rho 0 to 0.3 (common practice, no source). A nut between others is meant.
    // The shares are from the energy by finite differences, with numpy:
    // `python3 tests/oracle/neighbours.py`, which prints five digits.
    let arms_nm: Vec<f64> = (0..6).map(|i| f64::from(2 * i + 1) * 150.0 * MM).collect();
    let layout = JawLayout::new((0.0, 1800.0 * MM), &arms_nm, &arms_nm).expect("a good layout");
    let mut jaw = JawBeam::new(layout, &JawStiffness::even(3.0, 0.0)).expect("a good jaw");
    for (kappa, shares) in [
        (3.0, [0.557_41, 0.542_00, 0.514_80]),
        (8.0, [0.401_21, 0.385_44, 0.357_76]),
        (20.0, [0.263_26, 0.247_55, 0.220_19]),
        (70.0, [0.115_49, 0.101_79, 0.078_98]),
    ] {
        for (rho, expected) in [0.0, 0.1, 0.3].into_iter().zip(shares) {
            jaw.stiffen(&JawStiffness::even(kappa, rho))
                .expect("a good jaw");
            let mut influence = [0.0; 36];
            jaw.influence_into(&mut influence).expect("room enough");
            let share = influence[3 * 6 + 2] / influence[2 * 6 + 2];
            assert!(
                (share - expected).abs() < 5e-5,
                "kappa {kappa} rho {rho}: {share}"
            );
        }
    }
}

#[test]
fn without_a_splice_common_turns_and_tilts_go_through_whole() {
    let mut jaw = JawBeam::new(layout(), &JawStiffness::even(14.0, 0.0)).expect("a good jaw");
    let mut influence = [0.0; 24];
    jaw.influence_into(&mut influence).expect("room enough");
    let arms = [150.0, 450.0, 800.0, 1000.0];
    for (row, x) in influence
        .chunks(4)
        .zip([150.0, 300.0, 450.0, 800.0, 1000.0, 1100.0])
    {
        check("common", row.iter().sum(), 1.0, 1e-14);
        let tilt: f64 = row.iter().zip(arms).map(|(b, arm)| b * arm).sum();
        check("tilt", tilt, x, 1e-14);
    }
    // On the splice less goes through.
    jaw.stiffen(&JawStiffness::even(14.0, 0.3))
        .expect("a good jaw");
    jaw.influence_into(&mut influence).expect("room enough");
    for row in influence.chunks(4) {
        assert!((0.5..0.95).contains(&row.iter().sum()));
    }
}

#[test]
fn the_limits_are_the_rigid_bar_and_the_spline() {
    let mut influence = [0.0; 24];
    let mut jaw = JawBeam::new(layout(), &JawStiffness::even(1.0e9, 0.0)).expect("a good jaw");
    jaw.influence_into(&mut influence).expect("room enough");
    let spline = NaturalSpline::new(&[150.0, 450.0, 800.0, 1000.0].map(|x| x * MM)).expect("arms");
    let stations = [150.0, 300.0, 450.0, 800.0, 1000.0, 1100.0];
    for (row, x) in influence.chunks(4).zip(stations) {
        for (found, expected) in row.iter().zip(spline.weights_at(x * MM)) {
            assert!((found - expected).abs() < 1e-7, "{x}: {found} {expected}");
        }
    }
    for kappa in [0.0, 1.0e-9] {
        jaw.stiffen(&JawStiffness::even(kappa, 0.0))
            .expect("a good jaw");
        jaw.influence_into(&mut influence).expect("room enough");
        // Least squares: 1/n + (x - mean)(x_i - mean) / S_xx, mean 600,
        // S_xx = 450^2 + 150^2 + 200^2 + 400^2 = 425 000.
        for (row, x) in influence.chunks(4).zip(stations) {
            for (found, arm) in row.iter().zip([150.0, 450.0, 800.0, 1000.0]) {
                let expected = 0.25 + (x - 600.0) * (arm - 600.0) / 425_000.0;
                assert!((found - expected).abs() < 1e-8, "{x}");
            }
        }
    }
}

#[test]
fn sections_make_a_stepped_jaw() {
    let sections = [
        JawSection {
            from_nm: 0.0,
            rigidity_ratio: 1.0,
        },
        JawSection {
            from_nm: 500.0 * MM,
            rigidity_ratio: 0.4,
        },
    ];
    let stiffness = JawStiffness {
        sections: &sections,
        ..JawStiffness::even(10.0, 0.1)
    };
    let mut jaw = JawBeam::new(layout(), &stiffness).expect("a good jaw");
    let a = 850.0 / 3.0;
    let mut beam = Beam::uniform(0.0, 1150.0, a * a * a / 10.0)
        .on_springs([150.0, 450.0, 800.0, 1000.0].map(|x| (x, 1.0)))
        .on_foundation(0.1 / a);
    beam.sections.push(jawtrue::press::beam::BeamSection {
        from: 500.0,
        rigidity: 0.4 * a * a * a / 10.0,
    });
    let movements = [1.0, 0.0, -1.0, 2.0];
    let real = beam
        .factor()
        .and_then(|f| f.solve(&movements))
        .expect("a good beam");
    check_stations(&mut jaw, &movements, |x| real.at(x));
}

#[test]
fn a_slack_rod_at_the_jaw() {
    // Rigid jaw, three rods, tension as a stretch of 0.1 mm: the middle nut is
    // slack once it is out by 0.15 mm, and the jaw has opened by 0.05 mm.
    let rods = [0.0, 300.0, 600.0].map(|x| (x, 1.0));
    let jaw = Beam::uniform(0.0, 600.0, f64::INFINITY).on_springs(rods);
    let slack_solution = jaw
        .solve_slack(&[100_000.0; 3], &[0.0, 300_000.0, 0.0])
        .expect("it hangs");
    check(
        "slack from",
        slack_solution.slack_from[1].unwrap_or_default(),
        0.5,
        1e-12,
    );
    check(
        "opens",
        slack_solution.deflection.at(300.0),
        50_000.0,
        1e-12,
    );
    for (found, expected) in slack_solution
        .tensions
        .iter()
        .zip([150_000.0, 0.0, 150_000.0])
    {
        assert!((found - expected).abs() < 1e-6);
    }
}

#[test]
fn what_makes_no_sense_is_named() {
    use JawError as E;
    let arms_nm = [100.0 * MM, 400.0 * MM];
    let refused = |ends_nm, arms_nm: &[f64], stations_nm: &[f64]| {
        JawLayout::new(ends_nm, arms_nm, stations_nm).err()
    };
    let ends_nm = (0.0, 500.0 * MM);
    assert_eq!(
        refused(ends_nm, &[1.0], &[]),
        Some(E::Arms(ArmPositionsError::Count(1)))
    );
    assert_eq!(refused((500.0 * MM, 0.0), &arms_nm, &[]), Some(E::Ends));
    assert_eq!(
        refused((0.0, 300.0 * MM), &arms_nm, &[]),
        Some(E::ArmOutside(1))
    );
    for bad in [-1.0, f64::NAN, f64::INFINITY] {
        assert_eq!(
            refused(ends_nm, &arms_nm, &[0.0, bad]),
            Some(E::StationOutside(1))
        );
    }

    let layout = JawLayout::new(ends_nm, &arms_nm, &[0.0]).expect("a good layout");
    let mut jaw = JawBeam::new(layout, &JawStiffness::even(10.0, 0.0)).expect("a good jaw");
    for bad in [-1.0, 1.0e300, f64::NAN, f64::INFINITY, f64::MIN_POSITIVE] {
        assert_eq!(jaw.stiffen(&JawStiffness::even(bad, 0.0)), Err(E::Kappa));
        assert_eq!(jaw.stiffen(&JawStiffness::even(1.0, bad)), Err(E::Rho));
        let rods = JawStiffness {
            rod_factors: &[1.0, bad],
            ..JawStiffness::even(1.0, 0.0)
        };
        assert_eq!(jaw.stiffen(&rods), Err(E::RodFactor(1)));
        let section = [JawSection {
            from_nm: 0.0,
            rigidity_ratio: bad,
        }];
        let sections = JawStiffness {
            sections: &section,
            ..JawStiffness::even(1.0, 0.0)
        };
        assert_eq!(jaw.stiffen(&sections), Err(E::SectionRatio(0)));
    }
    let one_rod = JawStiffness {
        rod_factors: &[1.0, 0.0],
        ..JawStiffness::even(1.0, 0.0)
    };
    assert_eq!(jaw.stiffen(&one_rod), Err(E::Beam(BeamError::Loose)));
    let too_few = JawStiffness {
        rod_factors: &[1.0],
        ..JawStiffness::even(1.0, 0.0)
    };
    assert_eq!(jaw.stiffen(&too_few), Err(E::RodCount));
    assert!(jaw.influence_into(&mut [0.0; 3]).is_err());

    // After every refusal the jaw answers as before.
    let mut influence = [0.0; 2];
    jaw.influence_into(&mut influence).expect("room enough");
    check("left", influence[0], 4.0 / 3.0, 1e-14);
    check("right", influence[1], -1.0 / 3.0, 1e-14);
}
