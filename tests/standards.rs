//! Worked examples of standards, each through the program's own path.

use jawtrue::plan::{Model, Noise, Piece, Posterior, ResponsePrior, StationReading, TestPass};
use jawtrue::press::Response;
use jawtrue::splice::{Drift, Scatter, ScatterSource, TimedReading, Verdict};

/// JCGM 100:2008 (GUM), H.3, table H.6: calibration of a thermometer (data read in a
/// public copy of the table). Readings t_k in degrees, corrections b_k; published: slope y2 =
/// 0.00218 with s(y2) = 0.00067, scatter of the fit s = 0.0035. numpy.polyfit
/// on the same table: 0.0021827, 0.00066794, 0.003497564.
///
/// The thousandths of a degree above the first reading are the turns at which
/// readings of one station are taken.
#[test]
fn a_drift_is_the_straight_line_of_the_gums_thermometer() {
    const READ: [(usize, f64); 11] = [
        (21_521, -0.171),
        (22_012, -0.169),
        (22_512, -0.166),
        (23_003, -0.159),
        (23_507, -0.164),
        (23_999, -0.165),
        (24_513, -0.156),
        (25_002, -0.157),
        (25_503, -0.159),
        (26_010, -0.161),
        (26_511, -0.160),
    ];
    // A thousandth of a degree stands for a micrometre.
    let readings = READ.map(|(turn, degrees)| TimedReading {
        station: 0,
        turn: turn - 21_521,
        nm: 1e6 * degrees,
    });
    let drift = Drift::of(&readings, 1).unwrap();
    // Eleven readings, two constants of the line.
    assert_eq!(drift.residuals.dof, 9.0);
    let sd_nm = (drift.residuals.sum_of_squares_nm2 / drift.residuals.dof).sqrt();
    assert!((sd_nm / 1e6 - 0.003_497_564).abs() < 5e-9, "{sd_nm}");
    let over = drift.over_pass(Scatter {
        sd_nm,
        dof: 9.0,
        source: ScatterSource::Repeats(1),
    });
    // Over 26.511 - 21.521 = 4.990 degrees.
    let slope = over.value_nm / 1e6 / 4.990;
    let u = over.u_nm / 1e6 / 4.990;
    assert!((slope - 0.002_182_7).abs() < 5e-8, "{slope}");
    assert!((u - 0.000_667_94).abs() < 5e-9, "{u}");
}

/// The chance that a difference of two stations, read with this standard
/// uncertainty and nothing known of it before, is inside a tolerance.
fn chance(difference_nm: f64, u_nm: f64, tolerance_nm: f64) -> f64 {
    let prior = ResponsePrior::fixed(&Response::from_fn(2, 2, |_, _| 0.0)).unwrap();
    let model = Model {
        prior: &prior,
        along: &[-0.5, 0.5],
        noise: Noise {
            lacing_nm: 1e6,
            // Each of the two stations has its share.
            repeatability_nm: u_nm / 2_f64.sqrt(),
            step_nm: 0.0,
            deviation_nm: 1e7,
            shift_nm: 0.0,
            tilt_nm: 0.0,
            lacing_freedom: f64::INFINITY,
            repeatability_freedom: f64::INFINITY,
            ..Noise::assumed(0.0)
        },
    };
    let reading = |mean_nm| {
        Some(StationReading {
            mean_nm,
            repeats: 1,
        })
    };
    let pass = TestPass {
        nuts: vec![0.0; 2],
        handle: 0.0,
        readings: vec![reading(6e6 + difference_nm), reading(6e6)],
    };
    let posterior = Posterior::from_passes(&model, &[pass]).unwrap();
    let piece = Piece::last(&posterior, &[0, 1], &mut jawtrue::stats::Kept::default()).unwrap();
    piece.chance_as_read(tolerance_nm).unwrap()
}

/// JCGM 106:2012, 7.3: for a normal value and one limit the probability of
/// conformity is Phi((T - y) / u); the standard's diode, y 0.07 V inside its limit
/// with u = 0.05 V, has Phi(1.40) = 0.92 (example from memory, the figure is
/// scipy.stats.norm.cdf(1.4) = 0.91924). 0.01 V stands for a micrometre; zero is
/// a hundred u away and no limit.
#[test]
fn the_chance_of_a_piece_is_the_probability_of_conformity() {
    let u = 5_000.0;
    for (inside_by_u, expected) in [
        (1.4, 0.919_243),
        (0.0, 0.5),
        (-1.4, 0.080_757),
        (3.0, 0.998_650),
    ] {
        let found = chance(540_000.0 - inside_by_u * u, u, 540_000.0);
        assert!((found - expected).abs() < 1e-3, "{inside_by_u}: {found}");
    }
}

/// ISO 14253-1 as openly documented: conformity at 95 % is proven a guard band of
/// 1.65 u inside the limit, nonconformity as far outside, and nothing between
/// (scipy.stats.norm.ppf(0.95) = 1.64485).
#[test]
fn at_95_per_cent_the_guard_band_is_1_645_u() {
    let (u, tolerance) = (5_000.0, 540_000.0);
    for (inside_by_u, expected) in [
        (1.66, Verdict::Inside),
        (1.63, Verdict::TooClose),
        (0.0, Verdict::TooClose),
        (-1.63, Verdict::TooClose),
        (-1.66, Verdict::Outside),
    ] {
        let found = chance(tolerance - inside_by_u * u, u, tolerance);
        assert_eq!(Verdict::at(found, 0.95), expected, "{inside_by_u}: {found}");
    }
}

/// ILAC-G8:09/2019, table 1 (free of charge; figures from memory): guard bands in
/// shares of U = 2 u and the largest probability of false acceptance they leave
/// at one limit: 1.5 U 0.16 %, U 2.5 %, 0.83 U (given there for ISO 14253-1) 5 %,
/// none 50 %.
#[test]
fn guard_bands_leave_the_risk_that_is_tabled_for_them() {
    let (u, tolerance) = (5_000.0, 540_000.0);
    for (guard, risk, digit) in [
        (1.5, 0.0016, 0.0005),
        (1.0, 0.025, 0.003),
        (0.83, 0.05, 0.002),
        (0.0, 0.5, 0.001),
    ] {
        let found = 1.0 - chance(tolerance - guard * 2.0 * u, u, tolerance);
        assert!((found - risk).abs() < digit, "{guard} U: {found}");
    }
    let found = chance(tolerance - 0.83 * 2.0 * u, u, tolerance);
    assert_eq!(Verdict::at(found, 0.95), Verdict::Inside);
    let found = chance(tolerance - 0.81 * 2.0 * u, u, tolerance);
    assert_eq!(Verdict::at(found, 0.95), Verdict::TooClose);
}
