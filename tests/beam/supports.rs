//! Beams on supports and springs, and rigid bars, against published values and
//! algebra.
//!
//! Loads on supports: AISC Manual, Table 3-23, and AWC Design Aid 6 (cited from
//! memory, recomputed with numpy 2.4 and scipy 1.17). The support that drops and
//! the rigid bar are in no table: three-moment equation and statics.

use super::{P, at_rest, check, check_all, deflect, reactions};
use jawtrue::press::beam::Beam;

const EI: f64 = 1.0e8;

/// Stiff enough to be a support: it gives way by less than 1e-12 of what is
/// looked at.
const SUPPORT: f64 = 1.0e17;

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
    // Beyond its end there is no beam: the curve goes on straight, and by
    // statics nothing is carried there.
    let (tip, beyond) = (deflection.state_at(130.0), deflection.state_at(140.0));
    let straight = tip.deflection + 10.0 * tip.slope;
    check("beyond the tip", beyond.deflection, straight, 1e-11);
    assert_eq!((beyond.shear, beyond.moment), (0.0, 0.0));
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
    // Three-moment equation for spans a and b without load, middle support d
    // below the others: 2 M (a + b) = 6 EI d (1/a + 1/b), so with a + b = L
    // M = 3 EI d / (a b): 3 x 1e8 x 0.01 / 2500 = 1200 and / 2400 = 1250; the end
    // reactions are M/a and M/b.
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
