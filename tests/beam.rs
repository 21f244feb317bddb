//! The beam and the spline against published values, closed forms, limits and
//! independent computations.
//!
//! Beam formulas are those of the AISC Manual, Table 3-23, and AWC Design
//! Aid 6 (cited from memory, recomputed with numpy 2.4 and scipy 1.17);
//! foundations are from Hetenyi, Beams on Elastic Foundation (1946), and Boresi
//! and Schmidt, Advanced Mechanics of Materials, chapter 10 (read in secondary
//! copies, recomputed likewise).

use jawtrue::press::NaturalSpline;
use jawtrue::press::beam::{Beam, BeamError, BeamSection, Deflection};
use proptest::prelude::*;

#[path = "beam/hermite.rs"]
mod hermite;

const EI: f64 = 1.0e8;
const P: f64 = 1000.0;
/// Stiff enough to be a support: it gives way by less than 1e-12 of what is
/// looked at.
const SUPPORT: f64 = 1.0e17;

#[track_caller]
fn check(what: &str, found: f64, expected: f64, relative: f64) {
    let scale = expected.abs().max(f64::MIN_POSITIVE);
    assert!(
        (found - expected).abs() <= relative * scale,
        "{what}: found {found:e}, expected {expected:e}"
    );
}

fn deflect(beam: &Beam, movements: &[f64]) -> Deflection {
    let factored = beam.factor().expect("a good beam");
    factored.solve(movements).expect("good movements")
}

fn at_rest(beam: &Beam) -> Deflection {
    deflect(beam, &vec![0.0; beam.springs.len()])
}

/// Forces of the supports against the load (the usual sign of reactions).
fn reactions(deflection: &Deflection) -> Vec<f64> {
    deflection.spring_forces().iter().map(|f| -f).collect()
}

#[track_caller]
fn check_all(what: &str, found: &[f64], expected: &[f64], relative: f64) {
    assert_eq!(found.len(), expected.len(), "{what}");
    for (found, expected) in found.iter().zip(expected) {
        check(what, *found, *expected, relative);
    }
}

// ---- beams on supports -----------------------------------------------------

#[test]
fn simple_span_with_a_load_off_centre() {
    let beam = Beam::uniform(0.0, 100.0, EI)
        .on_springs([(0.0, SUPPORT), (100.0, SUPPORT)])
        .loaded(70.0, P);
    let deflection = at_rest(&beam);
    check("at the load", deflection.at(70.0), 0.147, 1e-11);
    let largest = 55.075_705_472_861;
    check(
        "largest",
        deflection.at(largest),
        0.167_062_973_267_678_4,
        1e-11,
    );
    assert!(deflection.state_at(largest).slope.abs() < 1e-13);
    check_all("reactions", &reactions(&deflection), &[300.0, 700.0], 1e-11);
    check(
        "moment",
        -deflection.state_at(70.0).moment,
        P * 70.0 * 30.0 / 100.0,
        1e-11,
    );
}

#[test]
fn overhang_with_a_load_at_its_tip() {
    let beam = Beam::uniform(0.0, 130.0, EI)
        .on_springs([(0.0, SUPPORT), (100.0, SUPPORT)])
        .loaded(130.0, P);
    let deflection = at_rest(&beam);
    check("tip", deflection.at(130.0), 0.39, 1e-11);
    check_all(
        "reactions",
        &reactions(&deflection),
        &[-300.0, 1300.0],
        1e-11,
    );
    let uplift = deflection.at(57.735_026_919);
    check("uplift", uplift, -0.192_450_089_729_88, 1e-11);
}

#[test]
fn two_equal_spans_with_a_load_on_one() {
    let beam = Beam::uniform(0.0, 100.0, EI)
        .on_springs([(0.0, SUPPORT), (50.0, SUPPORT), (100.0, SUPPORT)])
        .loaded(25.0, P);
    let deflection = at_rest(&beam);
    let expected = [13.0 / 32.0, 11.0 / 16.0, -3.0 / 32.0].map(|share| share * P);
    check_all("reactions", &reactions(&deflection), &expected, 1e-11);
    check(
        "at the load",
        deflection.at(25.0),
        0.018_717_447_916_667,
        1e-11,
    );
}

#[test]
fn a_middle_support_that_drops() {
    for (middle, moment, forces) in [
        (50.0, 1200.0, [24.0, -48.0, 24.0]),
        (
            40.0,
            1250.0,
            [31.25, -52.083_333_333_333_3, 20.833_333_333_333_3],
        ),
    ] {
        let beam = Beam::uniform(0.0, 100.0, EI).on_springs([
            (0.0, SUPPORT),
            (middle, SUPPORT),
            (100.0, SUPPORT),
        ]);
        let deflection = deflect(&beam, &[0.0, 0.01, 0.0]);
        check("moment", -deflection.state_at(middle).moment, moment, 1e-11);
        check_all("reactions", &reactions(&deflection), &forces, 1e-11);
    }
}

// ---- springs and rigid bars ------------------------------------------------

#[test]
fn rigid_bar_on_equal_springs() {
    // w_i = (P/k) [1/n + (x_P - mean)(x_i - mean) / S_xx]: statics.
    for (positions, k, load_at, load, expected) in [
        (
            [0.0, 10.0, 20.0, 30.0],
            100.0,
            20.0,
            1000.0,
            [1.0, 2.0, 3.0, 4.0],
        ),
        (
            [0.0, 10.0, 25.0, 38.0],
            250.0,
            5.0,
            900.0,
            [
                1.940364505527,
                1.370301762773,
                0.515207648641,
                -0.225873916941,
            ],
        ),
    ] {
        for rigidity in [f64::INFINITY, 1.0e18] {
            let beam = Beam::uniform(0.0, 40.0, rigidity)
                .on_springs(positions.map(|x| (x, k)))
                .loaded(load_at, load);
            let deflection = at_rest(&beam);
            for (x, expected) in positions.into_iter().zip(expected) {
                check("rigid bar", deflection.at(x), expected, 5e-12);
            }
        }
    }
}

#[test]
fn rigid_limit_is_the_least_squares_line() {
    // Normal equations of y = (3, -1, 4, 1) against x = (0, 10, 25, 38):
    // S_xx = sum x^2 - 4 mean^2, S_xy = sum x y - 4 mean_x mean_y.
    let positions = [0.0, 10.0, 25.0, 38.0];
    let movements = [3.0, -1.0, 4.0, 1.0];
    let mean_x = 73.0 / 4.0;
    let s_xx = 2169.0 - 4.0 * mean_x * mean_x;
    let s_xy = 128.0 - 4.0 * mean_x * 7.0 / 4.0;
    for rigidity in [f64::INFINITY, 1.0e15] {
        let beam = Beam::uniform(-5.0, 40.0, rigidity).on_springs(positions.map(|x| (x, 2.0)));
        let deflection = deflect(&beam, &movements);
        for x in [-5.0, 0.0, 13.0, 25.0, 40.0] {
            let line = 7.0 / 4.0 + s_xy / s_xx * (x - mean_x);
            check("line", deflection.at(x), line, 2e-10);
        }
    }
}

#[test]
fn beam_on_three_springs() {
    let beam = Beam::uniform(0.0, 40.0, 1.0e6)
        .on_springs([(0.0, 1000.0), (20.0, 1000.0), (40.0, 1000.0)])
        .loaded(20.0, 500.0);
    let expected = [1500.0 / 17.0, 5500.0 / 17.0, 1500.0 / 17.0];
    check_all("forces", &reactions(&at_rest(&beam)), &expected, 1e-13);
}

// ---- foundations -----------------------------------------------------------

fn hetenyi_beam(length: f64, ei: f64, foundation: f64) -> Beam {
    Beam::uniform(0.0, length, ei)
        .on_foundation(foundation)
        .loaded(length / 2.0, P)
}

#[test]
fn free_beam_on_a_foundation_with_a_central_load() {
    // Hetenyi's table for k = 100, EI = 1e6, P = 1000.
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
        1.41421356237,
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
    // L = 6800 mm, P = 12 kN in the middle.
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
    // The book smears the springs into a foundation: 36.81 mm.
    check("published centre", deflection.at(3400.0), 36.81, 0.06);
}

// ---- natural spline --------------------------------------------------------

const MM: f64 = 1.0e6;

#[test]
fn natural_spline_values() {
    // scipy 1.17: CubicSpline([0, 10, 25, 38], [0, 1, 0, 0], bc_type='natural').
    let spline = NaturalSpline::new(&[0.0, 10.0 * MM, 25.0 * MM, 38.0 * MM]).expect("arms");
    let curve = spline.curve(&[0.0, 1.0, 0.0, 0.0]).expect("values");
    for (x, expected) in [
        (5.0, 0.650485436893204),
        (15.0, 0.850053937432578),
        (20.0, 0.412081984897519),
        (30.0, -0.146377893950710),
        (35.0, -0.083644510828977),
    ] {
        check("spline", curve.at(x * MM), expected, 1e-13);
    }
    check(
        "w''(10)",
        curve.curvature_at(10.0 * MM) * MM * MM,
        -62.0 / 2575.0,
        1e-14,
    );
    check(
        "w''(25)",
        curve.curvature_at(25.0 * MM) * MM * MM,
        7.0 / 515.0,
        1e-14,
    );

    let equal: Vec<f64> = (0..5).map(|i| f64::from(i) * 300.0 * MM).collect();
    let spline = NaturalSpline::new(&equal).expect("arms");
    let curve = spline.curve(&[0.0, 0.0, 1.0, 0.0, 0.0]).expect("values");
    for (span, expected) in [-9.0 / 56.0, 17.0 / 28.0, 17.0 / 28.0, -9.0 / 56.0]
        .into_iter()
        .enumerate()
    {
        let middle = (span as f64 + 0.5) * 300.0 * MM;
        check("mid-span", curve.at(middle), expected, 1e-14);
    }
}

#[test]
fn a_thin_beam_is_the_natural_spline() {
    let positions = [0.0, 10.0, 11.0, 25.0, 38.0];
    let movements = [1.0, -1.0, -0.5, 2.0, 0.0];
    let spline = NaturalSpline::new(&positions.map(|x| x * MM)).expect("arms");
    let curve = spline.curve(&movements).expect("values");
    let beam = Beam::uniform(-4.0, 45.0, 1.0e-3).on_springs(positions.map(|x| (x, 1.0e12)));
    let deflection = deflect(&beam, &movements);
    for step in -8..=90 {
        let x = f64::from(step) / 2.0;
        let apart = (deflection.at(x) - curve.at(x * MM)).abs();
        assert!(apart < 1e-13 * 10.0, "{x}: {apart:e}");
        let slope = curve.slope_at(x * MM) * MM;
        assert!((deflection.state_at(x).slope - slope).abs() < 1e-12);
    }
}

// ---- independent computations ----------------------------------------------

struct Reference {
    name: &'static str,
    beam: Beam,
    movements: &'static [f64],
    deflections: &'static [(f64, f64)],
    forces: &'static [f64],
}

/// Values of tests/beam/reference.py: mpmath, 400 digits.
fn references() -> Vec<Reference> {
    let close = [(10.0, 1.0), (11.0, 2.0), (12.0, 1.0), (2990.0, 1.0)];
    let mut stepped = Beam::uniform(0.0, 4.0, 0.1)
        .on_springs([(0.5, 1.0), (1.5, 1.0), (2.5, 1.0), (3.5, 1.0)])
        .on_foundation(0.2);
    for (from, rigidity) in [(1.1, 0.5), (1.9, 0.02), (3.2, 0.1)] {
        stepped.sections.push(BeamSection { from, rigidity });
    }
    vec![
        Reference {
            name: "proportions of a press",
            beam: Beam::uniform(0.0, 5.0, 0.05)
                .on_springs([(0.5, 1.0), (1.5, 1.2), (2.5, 0.9), (3.5, 1.1), (4.5, 0.8)])
                .on_foundation(0.1),
            movements: &[1.0, 0.0, -2.0, 3.0, 1.0],
            deflections: &[
                (0.0, 1.4294897860692925642),
                (1.5, -0.28615289876621142837),
                (2.75, -0.21418500142567515447),
                (5.0, 0.3947094259105621808),
            ],
            forces: &[
                0.077701297621693290966,
                0.34338347851945371404,
                -1.0905629951424441505,
                1.1836847409990611306,
                -0.21420868831465493219,
            ],
        },
        Reference {
            name: "almost rigid, arms very close",
            beam: Beam::uniform(0.0, 3000.0, 2.7e13).on_springs(close),
            movements: &[1.0, -2.0, 3.0, 1.0],
            deflections: &[
                (0.0, -0.0038633979889261045611),
                (11.0, -0.00016778516871711493553),
                (11.5, 1.9723221277649526031e-7),
                (1500.0, 0.5000837364650331116),
                (3000.0, 1.0040307875910004383),
            ],
            forces: &[
                1.0005037499705599103,
                -3.9996644296625657701,
                2.9998318203668619532,
                -0.00067114067485609333429,
            ],
        },
        Reference {
            name: "almost rigid, close, on a foundation",
            beam: Beam::uniform(0.0, 3000.0, 2.7e13)
                .on_springs(close)
                .on_foundation(1e-4),
            movements: &[1.0, -2.0, 3.0, 1.0],
            deflections: &[
                (0.0, -0.014582353444757153704),
                (11.0, -0.011181063806540678153),
                (11.5, -0.011026459732064812325),
                (1500.0, 0.44923063829668607854),
                (3000.0, 0.91304699833650001918),
            ],
            forces: &[
                1.0114902719554751318,
                -3.9776378723869186437,
                3.0108718556575933122,
                0.090045118715928393816,
            ],
        },
        Reference {
            name: "thin, on a foundation",
            beam: Beam::uniform(0.0, 4.0, 1e-6)
                .on_springs([(0.25, 1.0), (1.25, 1.5), (2.75, 0.7), (3.5, 1.0)])
                .on_foundation(0.3),
            movements: &[1.0, 2.0, -1.0, 1.0],
            deflections: &[
                (0.0, -0.033524575958369882814),
                (0.25, 0.96501787409897238032),
                (0.5, -0.02130158122189298603),
                (2.0, 3.4017481183013504558e-6),
                (3.75, -0.021311745123688719999),
                (4.0, -0.00040166707132077498116),
            ],
            forces: &[
                0.034982125901027619675,
                0.070801665467063008074,
                -0.03447118812331943866,
                0.034988071869812440818,
            ],
        },
        Reference {
            name: "nearly fixed supports, two very close",
            beam: Beam::uniform(0.0, 3.0, 1.0)
                .on_springs([0.125, 0.1259765625, 1.75, 2.875].map(|x| (x, 1e15)))
                .on_foundation(1.0),
            movements: &[1.0, 1.0009765625, -2.0, 1.0],
            deflections: &[
                (0.0, 0.87478720192485021073),
                (0.12548828125, 1.0004888230645003157),
                (1.0, -0.44036433373148641605),
                (1.75, -1.9999999999999811313),
                (3.0, 1.508419893204673709),
            ],
            forces: &[
                -9293.5204341552464959,
                9304.2451982373744019,
                -18.868725658056959217,
                6.8629512737019571105,
            ],
        },
        Reference {
            name: "rods from weak to hard",
            beam: Beam::uniform(0.0, 6.0, 3.0).on_springs([
                (0.5, 1e-9),
                (1.5, 1e9),
                (3.0, 1.0),
                (4.0, 1e-6),
                (5.9, 1e12),
            ]),
            movements: &[1.0, 2.0, -1.0, 4.0, 1.0],
            deflections: &[
                (0.0, 3.4230484273504018753),
                (0.5, 2.9486989512077193412),
                (2.0, 1.5338859861631227047),
                (4.0, 0.55772396605896289848),
                (6.0, 1.0355797411084842722),
            ],
            forces: &[
                -1.9486989512077193412e-9,
                1.1859067798318107583,
                -1.7993090900211922372,
                3.4422760339410371015e-6,
                0.61339886986204648908,
            ],
        },
        Reference {
            name: "stepped jaw",
            beam: stepped,
            movements: &[1.0, 0.0, 0.0, -1.0],
            deflections: &[
                (0.0, 1.0512056457044578974),
                (1.1, 0.37853944652793750032),
                (1.3, 0.27373743575831212631),
                (2.2, -0.077682336928784764725),
                (4.0, -1.1648832526731193068),
            ],
            forces: &[
                0.24955080513573613085,
                -0.17423646027681370629,
                0.12395873338944545878,
                -0.20424432610654599199,
            ],
        },
        Reference {
            name: "two arms, soft splice",
            beam: Beam::uniform(0.0, 20.0, 1.0)
                .on_springs([(2.0, 5.0), (18.0, 3.0)])
                .on_foundation(0.5),
            movements: &[1.0, -2.0],
            deflections: &[
                (0.0, 0.32610745827133926301),
                (1.0, 0.6074697298161882755),
                (2.0, 0.75816223261456778842),
                (10.0, 0.0042627619913269375009),
                (20.0, -0.56166144953788222952),
            ],
            forces: &[1.2091888369271610579, -2.0827386448507256261],
        },
    ]
}

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
        beam.factor().expect("a good beam").influence_into(&places, &mut influence).expect("good places");
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
        // Five-point Gauss-Legendre (Abramowitz and Stegun, Table 25.4) on
        // short intervals between springs and steps.
        let nodes = [0.0, 0.538_469_310_105_683_1, 0.906_179_845_938_664];
        let weights = [0.568_888_888_888_888_9, 0.478_628_670_499_366_47, 0.236_926_885_056_189_1];
        let mut marks: Vec<f64> = beam.springs.iter().map(|s| s.position).collect();
        marks.extend([beam.left_end, beam.right_end, beam.sections[1].from]);
        marks.sort_by(f64::total_cmp);
        let (mut bending, mut ground, mut ground_force, mut ground_moment) = (0.0, 0.0, 0.0, 0.0);
        for span in marks.windows(2) {
            let parts = 200;
            let half = (span[1] - span[0]) / f64::from(2 * parts);
            for part in 0..parts {
                let middle = span[0] + half * f64::from(2 * part + 1);
                for (node, weight) in nodes.iter().zip(weights) {
                    let sides: &[f64] = if *node == 0.0 { &[0.0] } else { &[-1.0, 1.0] };
                    for side in sides {
                        let x = middle + side * node * half;
                        let state = deflection.state_at(x);
                        let section = usize::from(x > beam.sections[1].from);
                        let ei = beam.sections[section].rigidity;
                        bending += weight * half * state.moment * state.moment / ei;
                        ground += weight * half * beam.foundation * state.deflection * state.deflection;
                        ground_force += weight * half * beam.foundation * state.deflection;
                        ground_moment += weight * half * beam.foundation * state.deflection * x;
                    }
                }
            }
        }
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
        prop_assert!((bending + ground + springs - work).abs() <= 1e-9 * size);
    }

    #[test]
    fn more_nodes_change_nothing((beam, movements) in any_beam(), places in proptest::collection::vec(0.0..1.0_f64, 1..30)) {
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
        round.sections = vec![
            BeamSection { from: 0.0, rigidity: beam.sections[1].rigidity },
            BeamSection { from: length - beam.sections[1].from, rigidity: beam.sections[0].rigidity },
        ];
        let back: Vec<f64> = movements.iter().rev().copied().collect();
        let (there, back) = (deflect(&beam, &movements), deflect(&round, &back));
        for step in 0..=50 {
            let x = length * f64::from(step) / 50.0;
            prop_assert!((there.at(x) - back.at(length - x)).abs() <= 1e-9);
        }
    }
}

// ---- bad input -------------------------------------------------------------

#[test]
fn what_makes_no_sense_is_named() {
    use BeamError as E;
    let good = Beam::uniform(0.0, 10.0, 1.0).on_springs([(1.0, 1.0), (9.0, 1.0)]);
    let cases: Vec<(Beam, E)> = vec![
        (
            Beam {
                right_end: 0.0,
                ..good.clone()
            },
            E::Ends {
                left: 0.0,
                right: 0.0,
            },
        ),
        (
            Beam {
                sections: Vec::new(),
                ..good.clone()
            },
            E::NoSection,
        ),
        (
            Beam::uniform(0.0, 10.0, 0.0).on_springs([(1.0, 1.0), (9.0, 1.0)]),
            E::Rigidity {
                section: 0,
                rigidity: 0.0,
            },
        ),
        (
            good.clone().on_springs([(11.0, 1.0)]),
            E::SpringOutside {
                spring: 2,
                position: 11.0,
            },
        ),
        (
            good.clone().on_springs([(9.0, 1.0)]),
            E::SpringOrder { spring: 2 },
        ),
        (
            good.clone().on_springs([(5.0, 1.0)]),
            E::SpringOrder { spring: 2 },
        ),
        (
            good.clone().on_springs([(9.5, -1.0)]),
            E::Stiffness {
                spring: 2,
                stiffness: -1.0,
            },
        ),
        (
            good.clone().on_springs([(9.5, f64::INFINITY)]),
            E::Stiffness {
                spring: 2,
                stiffness: f64::INFINITY,
            },
        ),
        (
            good.clone().on_foundation(-1.0),
            E::Foundation { foundation: -1.0 },
        ),
        (
            good.clone().loaded(-1.0, 1.0),
            E::Load {
                load: 0,
                position: -1.0,
                force: 1.0,
            },
        ),
        (
            Beam::uniform(0.0, 10.0, 1.0).on_springs([(1.0, 0.0), (9.0, 1.0)]),
            E::Loose { holding: 1 },
        ),
        (good.clone().on_foundation(1.0e18), E::TooSoft),
    ];
    let mut kept = good.factor().expect("a good beam");
    for (beam, expected) in cases {
        assert_eq!(kept.refactor(&beam), Err(expected));
    }
    // After a refusal the beam factored before is still there.
    assert_eq!(
        kept.solve(&[1.0, 1.0]),
        good.factor().and_then(|f| f.solve(&[1.0, 1.0]))
    );
    for bad in [f64::NAN, f64::INFINITY, -f64::MAX] {
        assert!(Beam::uniform(0.0, 10.0, bad).factor().is_err());
        assert!(Beam::uniform(bad, 10.0, 1.0).factor().is_err());
        assert!(good.clone().on_foundation(bad).factor().is_err());
        assert!(good.clone().loaded(1.0, bad).factor().is_err());
        assert!(good.clone().loaded(bad, 1.0).factor().is_err());
        assert!(good.clone().on_springs([(bad, 1.0)]).factor().is_err());
        assert!(matches!(
            kept.solve(&[0.0, bad]),
            Err(E::Movement { spring: 1, .. })
        ));
        let mut room = [0.0; 2];
        let refused = kept.influence_into(&[bad], &mut room);
        assert!(matches!(refused, Err(E::PlaceOutside { place: 0, .. })));
    }
    assert_eq!(
        kept.solve(&[1.0]),
        Err(E::MovementCount {
            expected: 2,
            found: 1
        })
    );
    assert_eq!(
        kept.influence_into(&[1.0], &mut [0.0; 3]),
        Err(E::MatrixSize {
            expected: 2,
            found: 3
        })
    );
    let deflection = deflect(&good, &[1.0, 2.0]);
    for x in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MAX] {
        let state = deflection.state_at(x);
        assert!(state.deflection.is_finite() && state.slope.is_finite());
    }
}
