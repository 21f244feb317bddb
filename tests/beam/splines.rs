//! The natural spline, and the thin beam that it is the limit of.

use super::{check, deflect};
use jawtrue::press::NaturalSpline;
use jawtrue::press::beam::Beam;

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
    }
}
