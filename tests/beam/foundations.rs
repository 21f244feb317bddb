//! Beams on a foundation: Hetenyi, Beams on Elastic Foundation (1946), and
//! Boresi and Schmidt, Advanced Mechanics of Materials, chapter 10 (read in
//! secondary copies, recomputed with numpy 2.4 and scipy 1.17).

use super::{P, at_rest, check};
use jawtrue::press::beam::Beam;

fn hetenyi_beam(length: f64, ei: f64, foundation: f64) -> Beam {
    Beam::uniform(0.0, length, ei)
        .on_foundation(foundation)
        .loaded(length / 2.0, P)
}

#[test]
fn free_beam_on_a_foundation_with_a_central_load() {
    // Computed from Hetenyi's formulae (below) for k = 100, EI = 1e6, P = 1000;
    // the book itself has no such table.
    for (length, centre, end, moment) in [
        (10.0, 1.00311910415927, 0.99532217092786, 1248.26732668745),
        (20.0, 0.52426721147885, 0.46370188668472, 2446.15349716328),
        (60.0, 0.37914293836542, -0.09234487959579, 3677.25156774467),
    ] {
        let deflection = at_rest(&hetenyi_beam(length, 1.0e6, 100.0));
        check("centre", deflection.at(length / 2.0), centre, 3e-14);
        check("left end", deflection.at(0.0), end, 1e-13);
        check("right end", deflection.at(length), end, 1e-13);
        check(
            "moment",
            -deflection.state_at(length / 2.0).moment,
            moment,
            1e-14,
        );
    }
    let long = at_rest(&hetenyi_beam(1000.0, 1.0e6, 100.0));
    check("infinite", long.at(500.0), 0.35355339059327, 2e-14);
    check(
        "infinite",
        -long.state_at(500.0).moment,
        3535.53390593,
        1e-12,
    );

    let semi_infinite = Beam::uniform(0.0, 1000.0, 1.0e6)
        .on_foundation(100.0)
        .loaded(0.0, P);
    check(
        "end load",
        at_rest(&semi_infinite).at(0.0),
        std::f64::consts::SQRT_2,
        3e-12,
    );
}

#[test]
fn free_beam_on_a_foundation_by_its_closed_form() {
    // Hetenyi, free ends, central load: with l = (k / 4 EI)^(1/4),
    //   w(centre) = P l / 2k  (cosh lL + cos lL + 2) / (sinh lL + sin lL)
    //   w(end)    = 2 P l / k cosh(lL/2) cos(lL/2) / (sinh lL + sin lL)
    //   M(centre) = P / 4l    (cosh lL - cos lL) / (sinh lL + sin lL)
    // From short, almost rigid beams to long ones.
    for (length, ei, foundation) in [
        (10.0, 1.0e6, 100.0),
        (3.0, 5.0e9, 0.02),
        (250.0, 3.0e5, 7.0),
        (41.0, 2.0, 3.0e-3),
        (800.0, 1.0e6, 100.0),
    ] {
        let l = libm::pow(foundation / (4.0 * ei), 0.25);
        let angle = l * length;
        let sum = libm::sinh(angle) + libm::sin(angle);
        let centre =
            P * l / (2.0 * foundation) * (libm::cosh(angle) + libm::cos(angle) + 2.0) / sum;
        let end = 2.0 * P * l / foundation * libm::cosh(angle / 2.0) * libm::cos(angle / 2.0) / sum;
        let moment = P / (4.0 * l) * (libm::cosh(angle) - libm::cos(angle)) / sum;
        let deflection = at_rest(&hetenyi_beam(length, ei, foundation));
        check("centre", deflection.at(length / 2.0), centre, 1e-13);
        check("end", deflection.at(length) / centre, end / centre, 1e-12);
        // The closed form's own difference loses digits on short beams.
        let lost = if angle < 0.1 { 1e-8 } else { 1e-12 };
        check(
            "moment",
            -deflection.state_at(length / 2.0).moment,
            moment,
            lost,
        );
    }
}

#[test]
fn many_tiny_pieces_lose_no_digits() {
    // The same short beam in 800 pieces, where an assembled stiffness matrix
    // keeps 4 digits.
    let mut beam = hetenyi_beam(10.0, 1.0e6, 100.0);
    for step in 0..=800 {
        beam = beam.loaded(f64::from(step) / 80.0, 0.0);
    }
    let deflection = at_rest(&beam);
    check("centre", deflection.at(5.0), 1.00311910415927, 1e-13);
    check("end", deflection.at(10.0), 0.99532217092786, 1e-13);
    check(
        "moment",
        -deflection.state_at(5.0).moment,
        1248.26732668745,
        1e-13,
    );
}

#[test]
fn boresi_and_schmidt_example_10_1() {
    // E = 200 GPa, I = 36.9e6 mm^4, k = 14 N/mm^2, P = 170 kN, c = 99.1 mm, on
    // a beam long enough to be infinite. Published: 5.04 mm, 51.21 kN m,
    // 137.54 MPa.
    let (i, length) = (36.9e6, 60_000.0);
    let beam = Beam::uniform(0.0, length, 200.0e3 * i)
        .on_foundation(14.0)
        .loaded(length / 2.0, 170.0e3);
    let deflection = at_rest(&beam);
    let moment = -deflection.state_at(length / 2.0).moment;
    check("deflection", deflection.at(length / 2.0), 5.03841354, 1e-9);
    check("moment", moment, 51.2136831e6, 1e-9);
    check("stress", moment * 99.1 / i, 137.541355, 3e-9);
}

#[test]
fn boresi_and_schmidt_example_10_2() {
    // Seven springs of 110 N/mm, 1100 mm apart, E = 72 GPa, I = 2.45e6 mm^4,
    // L = 6800 mm, P = 12 kN in the middle. The book smears the springs into a
    // foundation and has 36.81 mm, 6 % off, which checks nothing here; the
    // figures are the springs' own, recomputed with scipy.
    let springs = (-3..=3).map(|i| (3400.0 + 1100.0 * f64::from(i), 110.0));
    let beam = Beam::uniform(0.0, 6800.0, 72.0e3 * 2.45e6)
        .on_springs(springs)
        .loaded(3400.0, 12_000.0);
    let deflection = at_rest(&beam);
    for (step, expected) in [38.98603931, 28.12641867, 11.05220431, -4.12618809]
        .into_iter()
        .enumerate()
    {
        let apart = 1100.0 * step as f64;
        check("right", deflection.at(3400.0 + apart), expected, 3e-10);
        check("left", deflection.at(3400.0 - apart), expected, 3e-10);
    }
}

/// Statics: what a cut carries is what the ground and the load on its left
/// leave, whatever the curve. The ground's share is the integral of k w, here by
/// Simpson's rule; symmetry halves the load at the middle.
#[test]
fn a_cut_carries_what_the_ground_on_its_left_leaves() {
    let (length, ei, foundation) = (90.0, 1.0e6, 40.0);
    let deflection = at_rest(&hetenyi_beam(length, ei, foundation));
    let ground = |to: f64, arm: &dyn Fn(f64) -> f64| -> f64 {
        let (parts, mut sum) = (2_000, 0.0);
        for part in 0..=parts {
            let x = to * f64::from(part) / f64::from(parts);
            let weight = match part {
                _ if part == 0 || part == parts => 1.0,
                _ if part % 2 == 1 => 4.0,
                _ => 2.0,
            };
            sum += weight * foundation * deflection.at(x) * arm(x);
        }
        sum * to / f64::from(parts) / 3.0
    };
    for share in [0.1, 0.25, 0.4, 0.6, 0.75, 0.9] {
        let x = share * length;
        let load = if share > 0.5 { P } else { 0.0 };
        let state = deflection.state_at(x);
        let shear = ground(x, &|_| 1.0) - load;
        check("shear", state.shear, shear, 1e-9);
        let moment = load * (x - length / 2.0) - ground(x, &|at| x - at);
        check("moment", state.moment, moment, 1e-9);
    }
    check(
        "half the load",
        ground(length / 2.0, &|_| 1.0),
        P / 2.0,
        1e-9,
    );
}
