//! The beam, the jaw and the spline against published values, closed forms,
//! limits and independent computations; the sources stand beside the figures.

use jawtrue::press::beam::{Beam, Deflection};

#[path = "beam/bad_input.rs"]
mod bad_input;
#[path = "beam/digits.rs"]
mod digits;
#[path = "beam/foundations.rs"]
mod foundations;
#[path = "beam/hermite.rs"]
mod hermite;
#[path = "beam/jaws.rs"]
mod jaws;
#[path = "beam/properties.rs"]
mod properties;
#[path = "beam/references.rs"]
mod references;
#[path = "beam/slack_rods.rs"]
mod slack_rods;
#[path = "beam/splines.rs"]
mod splines;
#[path = "beam/supports.rs"]
mod supports;

/// The load of the published cases.
const P: f64 = 1000.0;

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
