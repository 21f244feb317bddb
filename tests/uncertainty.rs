//! Uncertainties against published examples, and what they must never be.

use jawtrue::splice::{
    ASSUMED_LACING, Budget, Cause, Pooled, Sample, Scatter, ScatterSource, combined, step_u_nm,
};
use jawtrue::units::{Length, Unit};

fn close(found: f64, expected: f64, relative: f64) {
    assert!(
        (found / expected - 1.0).abs() < relative,
        "{found} instead of {expected}"
    );
}

#[test]
fn end_gauge_of_the_gum() {
    // JCGM 100:2008, H.1: repeated observations 25 nm (18 degrees of
    // freedom); comparator 5.8 nm (24), 3.9 nm (5) and 6.7 nm (8), together
    // 9.7 nm (25.6); expansion 0.1 K x 50 mm x 1e-6 / sqrt 3 = 2.9 nm (50);
    // temperature 11.5e-6 x 50 mm x 0.05 / sqrt 3 = 16.6 nm (2). Published
    // u = 32 nm with 16; unrounded (numpy 2.4) 31.66 nm with 16.75.
    let parts = [
        (25.0, 18.0),
        (5.8, 24.0),
        (3.9, 5.0),
        (6.7, 8.0),
        (5.0 / 3_f64.sqrt(), 50.0),
        (28.75 / 3_f64.sqrt(), 2.0),
    ];
    let comparator = combined(parts[1..4].iter().copied());
    assert_eq!((comparator.0 * 10.0).round() / 10.0, 9.7);
    // Published 25.6 from the rounded 9.7 nm: 9.7^4 over the same sum.
    assert_eq!(
        (comparator.1 * (9.7 / comparator.0).powi(4) * 10.0).round() / 10.0,
        25.6
    );
    let (u, dof) = combined(parts.into_iter());
    assert_eq!((u * 100.0).round() / 100.0, 31.66);
    assert_eq!((dof * 100.0).round() / 100.0, 16.75);
    // H.1.6: t at 99 % and 16 degrees of freedom is 2.92, U = 93 nm with
    // u = 32 nm.
    let t = jawtrue::stats::student_critical(0.01, 16.0).unwrap();
    assert_eq!((t * 100.0).round() / 100.0, 2.92);
    assert_eq!((t * 32.0).round(), 93.0);
}

#[test]
fn steps_of_gauges() {
    // step / sqrt 12, recomputed with numpy 2.4.
    for (step_nm, unit, u) in [
        (25_400, Unit::Inch, 0.000288675),
        (12_700, Unit::Inch, 0.000144338),
        (2_540, Unit::Inch, 0.0000288675),
        (10_000, Unit::Millimetre, 0.00288675),
    ] {
        let found = step_u_nm(Length::from_nm(step_nm)) / unit.nm() as f64;
        close(found, u, 4e-6);
    }
}

#[test]
fn scatter_is_pooled_over_stations() {
    // sqrt(0.0125) = 0.111803399 (recomputed with numpy 2.4), in tenths.
    let rows: [&[i64]; 4] = [&[101, 103, 102], &[98, 99], &[105, 104, 107, 106], &[77]];
    let pooled = Pooled::of(
        rows.iter()
            .filter_map(|row| Sample::of(row.iter().copied().map(Length::from_nm))),
    );
    close(
        (pooled.sum_of_squares_nm2 / pooled.dof).sqrt(),
        1.118_033_988_749_895,
        1e-9,
    );
    assert_eq!((pooled.dof, pooled.samples), (6.0, 3));
    assert_eq!(Pooled::of([]).dof, 0.0);
}

fn scatter_of(rows: &[&[i64]], step_nm: f64) -> Scatter {
    let samples = rows
        .iter()
        .filter_map(|row| Sample::of(row.iter().copied().map(Length::from_nm)));
    Scatter::of_gauge(None, Pooled::of(samples), step_nm)
}

#[test]
fn equal_repeats_leave_the_step() {
    let step = Length::from_nm(12_700);
    let equal: &[i64] = &[6_286_500; 1_000];
    let scatter = scatter_of(&[equal], step.nm_f64());
    let budget = Budget::of_station(1_000, scatter, step, None);
    let contributions = budget.contributions.iter();
    let largest = contributions.max_by(|a, b| a.u_nm.total_cmp(&b.u_nm));
    assert_eq!(largest.unwrap().cause, Cause::Step);
    assert!(budget.u_nm >= step_u_nm(step));
    close(budget.u_nm, step_u_nm(step), 1e-4);
}

#[test]
fn the_assumption_gives_way_to_repeats() {
    let step = 12_700.0;
    let none = scatter_of(&[&[6_286_500]], step);
    // step^2 / 4 + step^2 / 12 = step^2 / 3.
    close(none.sd_nm, 12_700.0 / 3_f64.sqrt(), 1e-12);
    assert_eq!(none.source, ScatterSource::Assumed);
    // One pair a step apart: (2 step^2 / 3 + step^2 / 2) / 3 = 7 step^2 / 18.
    let pair = scatter_of(&[&[6_286_500, 6_299_200]], step);
    close(pair.sd_nm, 12_700.0 * (7.0_f64 / 18.0).sqrt(), 1e-12);
    assert_eq!((pair.dof, pair.source), (3.0, ScatterSource::Repeats(1)));
    let many: Vec<i64> = (0..1_000)
        .map(|turn| 6_286_500 + 40_000 * (turn % 2))
        .collect();
    close(scatter_of(&[&many], step).sd_nm, 20_000.0, 0.01);
    let typed = Scatter {
        sd_nm: 5_000.0,
        dof: f64::INFINITY,
        source: ScatterSource::Typed,
    };
    let found = Scatter::of_gauge(Some(typed), Pooled::default(), step);
    assert_eq!(found, typed);
    // Nonsense is no statement.
    let nonsense = Scatter {
        sd_nm: f64::NAN,
        ..typed
    };
    let found = Scatter::of_gauge(Some(nonsense), Pooled::default(), f64::NAN);
    assert_eq!((found.sd_nm, found.source), (0.0, ScatterSource::Assumed));
}

#[test]
fn a_budget_can_be_checked_by_hand() {
    // Two readings, repeatability 0.0004 in, step 0.0005 in: without its
    // rounding the scatter is sqrt(0.0004^2 - 0.0005^2/12) = 0.000373050, and
    // the first term of rho 0.0005^2/(2 pi^2) exp(-4 pi^2 x 0.746101^2) =
    // 3.61e-18 in^2, the second nothing. u^2 = (0.0004^2 - rho)/2 + rho, u =
    // 0.000282842712 in; with 0.0003 in lacing 0.000412310563 in. Computed
    // with Python's math module.
    let repeatability = Scatter {
        sd_nm: 10_160.0,
        dof: 9.0,
        source: ScatterSource::GaugeCheck,
    };
    let step = Length::from_nm(12_700);
    let piece = Budget::of_station(2, repeatability, step, None);
    close(piece.u_nm / 25_400.0, 0.282_842_712, 1e-8);
    let press = Budget::of_station(2, repeatability, step, Some(ASSUMED_LACING));
    close(press.u_nm / 25_400.0, 0.412_310_563, 1e-8);
    // Nearly all of it is the one line of 9 degrees of freedom.
    close(piece.dof, 9.0, 1e-9);
    let spread = piece.of_difference(&piece);
    close(spread.u_nm, piece.u_nm * 2_f64.sqrt(), 1e-12);
    assert_eq!(spread.contributions.len(), 4);
    // Both lines rest on one and the same scatter: no more is known of it.
    close(spread.dof, piece.dof, 1e-12);
    // Welch-Satterthwaite, 9 of the readings and 4 of the lacing assumed:
    // (8 + 9)^2 / (8^2/9 + 9^2/4) = 10.562437 in units of 1e-8 in^2; scipy
    // 1.17, scipy.stats.t.isf(0.025, 10.562437) = 2.212161.
    close(press.dof, 10.562_437, 1e-7);
    close(
        press.expanded_nm(0.95).unwrap() / press.u_nm,
        2.212_161,
        1e-6,
    );
    assert_eq!(press.expanded_nm(1.0), None);
    assert_eq!(press.expanded_nm(f64::NAN), None);
}
