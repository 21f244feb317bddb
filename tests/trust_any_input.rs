//! Whatever is sent, typed or measured: an answer, never a panic, never a
//! figure that is no number, and what must hold of it holds.

mod sessions;

use std::sync::LazyLock;

use jawtrue::session::{Confidence, Field, PriorShelf, SettledBy, VerdictWorkspace};
use jawtrue::splice::{
    Drift, DriftProblem, FlipStation, FlipTest, GaugeStudy, Measured, Sample, Shape, StudyTable,
    TimedReading, Verdict,
};
use jawtrue::stats::{generalised_esd, grubbs, student_critical};
use jawtrue::store::{CsvReading, readings_from_csv};
use jawtrue::store::{GaugeLines, LineEnd, parse_gauge_line};
use jawtrue::units::{Length, Unit};
use jawtrue::words::{Figures, Language};
use proptest::collection::vec;
use proptest::prelude::*;
use sessions::{found, set, with};

/// Priors, kept from case to case.
static SHELF: LazyLock<PriorShelf> = LazyLock::new(PriorShelf::default);

/// Any float, ordinary sizes more often than odd ones.
fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        3 => -1e7..1e7,
        1 => any::<f64>(),
        1 => prop_oneof![Just(0.0), Just(f64::NAN), Just(f64::INFINITY), Just(1.0)],
    ]
}

proptest! {
    #[test]
    fn gauges_may_send_anything(bytes in vec(any::<u8>(), 0..600)) {
        let mut lines = GaugeLines::ending(LineEnd::Either);
        let mut found = lines.push(&bytes);
        found.extend(lines.flush());
        for problem in found.into_iter().filter_map(Result::err) {
            prop_assert!(!Language::Spanish.gauge_line_problem(&problem).is_empty());
        }
    }

    #[test]
    fn what_a_gauge_line_holds_is_in_the_line(text in "[ -~]{0,20}[0-9]{1,3}\\.[0-9]{1,4}[ -~]{0,10}") {
        if let Ok(Some(found)) = parse_gauge_line(text.as_bytes()) {
            let digits = found.split(' ').next().unwrap_or_default();
            prop_assert!(text.contains(digits), "{text:?}: {found:?}");
        }
    }

    #[test]
    fn csv_may_be_anything(text in "(arm,reading\n|A,B\n|)[-A-C0-9.,;\"\n a-z]{0,200}") {
        let stations = ["A", "B"].map(str::to_owned);
        let reading = CsvReading { stations: &stations, bare: Unit::Millimetre, columns: None, has_header: true };
        match readings_from_csv(&text, &reading) {
            Ok(found) => prop_assert_eq!(found.rows.len(), 2),
            Err(problem) => {
                let figures = Figures::exact(Language::English, Unit::Millimetre);
                prop_assert!(!figures.csv_sentences(&problem, Unit::Millimetre).is_empty());
            }
        }
    }

    #[test]
    fn shapes_are_of_numbers(places in vec((number(), proptest::option::of(number()), number()), 0..14)) {
        let positions: Vec<f64> = places.iter().map(|place| place.0).collect();
        let means: Vec<Option<f64>> = places.iter().map(|place| place.1).collect();
        let u: Vec<f64> = places.iter().map(|place| place.2).collect();
        let shape = Shape::of(&positions, &means, &u);
        let sizes = shape.patterns.iter().map(|named| named.size);
        for part in shape.level.into_iter().chain(sizes) {
            prop_assert!(part.value_nm.is_finite() && part.u_nm > 0.0, "{part:?}");
        }
        for language in Language::ALL {
            let figures = Figures::exact(language, Unit::Inch);
            prop_assert!(!figures.shape_sentence(&shape).is_empty());
        }
    }

    /// The stray is the value furthest from the mean, its distance counted in
    /// standard deviations of at most (n - 1) / sqrt n; a stricter test never finds
    /// what a laxer one passes over.
    #[test]
    fn a_stray_is_the_furthest_value(values in vec(number(), 0..40), alpha in number()) {
        let n = values.len() as f64;
        if let Some(found) = grubbs(&values, 0.0, alpha) {
            let mean = values.iter().sum::<f64>() / n;
            let away = |value: &f64| (value - mean).abs();
            let furthest = values.iter().map(away).fold(0.0, f64::max);
            prop_assert!(away(&values[found.index]) >= furthest * (1.0 - 1e-9));
            let most = (n - 1.0) / n.sqrt();
            prop_assert!((0.0..=most * (1.0 + 1e-9)).contains(&found.statistic), "{found:?}");
            prop_assert!((0.0..=most).contains(&found.critical), "{found:?}");
            let stricter = grubbs(&values, 0.0, alpha / 2.0).unwrap();
            prop_assert!(stricter.critical >= found.critical);
        }
        let strays = generalised_esd(&values, 0.0, 5, alpha);
        prop_assert!(strays.len() <= 5);
        let mut places: Vec<usize> = strays.iter().map(|stray| stray.index).collect();
        places.sort_unstable();
        places.dedup();
        prop_assert_eq!(places.len(), strays.len());
        prop_assert!(places.iter().all(|place| *place < values.len()));
    }

    #[test]
    fn critical_values_of_anything_are_numbers_or_none(alpha in number(), dof in number()) {
        if let Some(t) = student_critical(alpha, dof) {
            prop_assert!(t.is_finite() && t >= 0.0, "{alpha} {dof} {t}");
        }
    }

    /// Rarer means further out, and the more is known the nearer: for chances and
    /// degrees of freedom that readings can give (of a billionth of a billionth of
    /// one, the answer is at the edge of what a float holds).
    #[test]
    fn critical_values_are_in_order(alpha in 1e-9..0.5_f64, dof in 0.5..1e4_f64) {
        let t = student_critical(alpha, dof).unwrap();
        let rarer = student_critical(alpha / 2.0, dof).unwrap();
        let known = student_critical(alpha, 2.0 * dof).unwrap();
        prop_assert!(rarer > t && known < t * (1.0 + 1e-9), "{t} {rarer} {known}");
    }

    #[test]
    fn studies_add_up(values in vec(-1e7..1e7_f64, 12), offset in -1e6..1e6_f64) {
        let rounds = values.chunks(3).map(<[f64]>::to_vec);
        let rounds: Vec<Vec<f64>> = rounds.collect();
        let table = |offset: f64| {
            let rounds = rounds.iter().map(|round| round.iter().map(|x| x + offset).collect());
            let rounds: Vec<Vec<f64>> = rounds.collect();
            StudyTable::new(vec![rounds[..2].to_vec(), rounds[2..].to_vec()]).unwrap()
        };
        let studies = |offset: f64| [table(offset).average_and_range(), table(offset).analysis_of_variance()];
        for (study, moved) in studies(0.0).into_iter().zip(studies(offset)) {
            let squares = |parts: &[f64]| parts.iter().map(|part| part * part).sum::<f64>();
            let near = |a: f64, b: f64| (a - b).abs() <= 1e-6 * a.abs().max(1.0);
            let gauge = squares(&[study.repeatability_nm, study.people_nm]);
            prop_assert!(near(squares(&[study.gauge_nm]), gauge), "{study:?}");
            // Thicker by the same everywhere scatters no more.
            let total = |study: &GaugeStudy| squares(&[study.gauge_nm, study.knuckles_nm]).sqrt();
            prop_assert!(near(total(&study), total(&moved)), "{study:?} {moved:?}");
        }
    }

    #[test]
    fn studies_flips_and_drifts_of_anything_answer_or_not(values in vec(number(), 12)) {
        let rounds = values.chunks(3).map(<[f64]>::to_vec);
        let rounds: Vec<Vec<f64>> = rounds.collect();
        let people = vec![rounds[..2].to_vec(), rounds[2..].to_vec()];
        if let Some(table) = StudyTable::new(people) {
            for study in [table.average_and_range(), table.analysis_of_variance()] {
                prop_assert!(study.gauge_nm.hypot(study.knuckles_nm).is_finite());
            }
        } else {
            prop_assert!(values.iter().any(|x| !(x.abs() <= 1e12)));
        }
        let station = |chunk: &[f64], way: bool| {
            let (a, b) = if way { (1, 2) } else { (2, 1) };
            let measured = |value_nm| Some(Measured { value_nm, u_nm: 1.0 });
            FlipStation {
                position_nm: chunk[0],
                first: measured(chunk[a]),
                flipped: measured(chunk[b]),
            }
        };
        let test = |way| {
            let stations: Vec<FlipStation> = values.chunks(3).map(|chunk| station(chunk, way)).collect();
            FlipTest::of(&stations, values[0])
        };
        // Which lacing came first only changes the signs.
        match (test(true), test(false)) {
            (Ok(one), Ok(other)) => for (one, other) in one.pairs.iter().zip(&other.pairs) {
                let opposite = |a: f64, b: f64| a == -b || (a.is_nan() && b.is_nan());
                prop_assert!(opposite(one.odd.value_nm, other.odd.value_nm), "{one:?} {other:?}");
                prop_assert!(opposite(one.shift.value_nm, other.shift.value_nm), "{one:?} {other:?}");
            },
            (one, other) => prop_assert_eq!(one, other),
        }
        let readings: Vec<TimedReading> = values
            .iter()
            .enumerate()
            .map(|(turn, &nm)| TimedReading { station: turn % 3, turn, nm })
            .collect();
        match Drift::of(&readings, 2) {
            Ok(drift) => prop_assert!(drift.left_nm >= 0.0 && drift.residuals.sum_of_squares_nm2 >= 0.0),
            Err(problem) => {
                prop_assert_eq!(problem, DriftProblem::NotANumber);
                prop_assert!(values.iter().any(|x| !x.is_finite() || x.abs() > 1e12));
            }
        }
    }

    /// However a piece reads: its chances are chances, more tolerance is never
    /// less chance, the same everywhere thicker is the same spread, and what lies
    /// six standard uncertainties to one side of the limit is called so.
    #[test]
    fn verdicts_agree_with_the_spread(steps in vec(-60..60_i64, 4), level in -200..200_i64) {
        let judged = |level: i64, tolerance: &str| {
            let rows: Vec<String> = steps
                .iter()
                .map(|step| format!("{0:.4} {0:.4}", 0.25 + 0.0001 * (step + level) as f64))
                .collect();
            let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
            let known = [
                set(Field::GaugeStep, "0.0001"),
                set(Field::GaugeRepeatability, "0.0002"),
                set(Field::Tolerance, tolerance),
            ];
            let session = with(&found(&rows), &known);
            let mut workspace = VerdictWorkspace::default();
            let verdicts = session.verdicts(0, Confidence::default(), SettledBy::Anything, &SHELF, &mut workspace);
            verdicts.ok().map(|verdicts| (verdicts, session.spread_of(0).unwrap().value.nm_f64()))
        };
        let Some((verdicts, spread_nm)) = judged(0, "0.003") else {
            return Ok(());
        };
        for chance in [verdicts.piece.chance, verdicts.press.chance, verdicts.next_piece] {
            prop_assert!((0.0..=1.0).contains(&chance), "{verdicts:?}");
        }
        let six_u = 6.0 * 5_080.0;
        if spread_nm > 76_200.0 + six_u {
            prop_assert_eq!(verdicts.piece.verdict, Verdict::Outside);
        }
        if spread_nm < 76_200.0 - six_u {
            prop_assert_eq!(verdicts.piece.verdict, Verdict::Inside);
        }
        if let Some((wider, _)) = judged(0, "0.004") {
            prop_assert!(wider.piece.chance >= verdicts.piece.chance - 1e-9);
            prop_assert!(wider.press.chance >= verdicts.press.chance - 1e-9);
            prop_assert!(wider.next_piece >= verdicts.next_piece - 1e-9);
        }
        if let Some((moved, _)) = judged(level, "0.003") {
            prop_assert!((moved.piece.chance - verdicts.piece.chance).abs() < 1e-6);
            prop_assert!((moved.press.chance - verdicts.press.chance).abs() < 1e-6);
        }
    }

    /// What was put in is found again: y_1 = J + b(x) + o_1 and y_2 = J + b(-x) + o_2
    /// with an odd b, and readings that creep by the same amount each.
    #[test]
    fn odd_belts_and_even_creep_are_found_again(
        jaw in vec(-1e6..1e6_f64, 3),
        odd in -1e5..1e5_f64,
        shift in -1e5..1e5_f64,
        creep in -1e4..1e4_f64,
    ) {
        let near = |found: f64, expected: f64| (found - expected).abs() < 1e-6;
        let station = |position_nm: f64, jaw: f64, belt: f64| FlipStation {
            position_nm,
            first: Some(Measured { value_nm: jaw + belt, u_nm: 1.0 }),
            flipped: Some(Measured { value_nm: jaw - belt + shift, u_nm: 1.0 }),
        };
        let stations = [
            station(2e8, jaw[0], -odd),
            station(5e8, jaw[1], 0.0),
            station(8e8, jaw[2], odd),
        ];
        let test = FlipTest::of(&stations, 5e8).unwrap();
        prop_assert!(near(test.pairs[0].odd.value_nm, odd), "{test:?}");
        prop_assert!(near(test.pairs[0].shift.value_nm, shift), "{test:?}");
        let readings: Vec<TimedReading> = (0..8)
            .map(|turn| TimedReading {
                station: turn % 3,
                turn,
                nm: jaw[turn % 3] + creep * turn as f64,
            })
            .collect();
        let drift = Drift::of(&readings, 3).unwrap();
        prop_assert!(near(drift.over_pass_nm, 7.0 * creep), "{drift:?}");
        // Turns 0, 3, 6 and 1, 4, 7 and 2, 5: their means are 3, 4 and 3.5.
        prop_assert!(near(drift.left_nm, creep.abs()), "{drift:?}");
    }

    #[test]
    fn samples_never_overflow(values in vec(any::<i64>(), 0..50)) {
        if let Some(sample) = Sample::of(values.into_iter().map(Length::from_nm).collect::<Vec<_>>()) {
            prop_assert!(sample.sum_of_squares_nm2() >= 0.0);
        }
    }
}
