//! Whatever is sent, typed or measured: an answer, never a panic, never a
//! figure that is no number.

use jawtrue::splice::{
    Drift, FlipStation, FlipTest, Measured, Sample, Shape, StudyTable, TimedReading,
};
use jawtrue::stats::{generalised_esd, grubbs, student_critical};
use jawtrue::store::{CsvReading, readings_from_csv};
use jawtrue::store::{GaugeLines, LineEnd, parse_gauge_line};
use jawtrue::units::{Length, Unit};
use jawtrue::words::{Figures, Language};
use proptest::collection::vec;
use proptest::prelude::*;

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

    #[test]
    fn tests_for_strays_answer_or_not(values in vec(number(), 0..40), alpha in number()) {
        if let Some(found) = grubbs(&values, 1.0, alpha) {
            prop_assert!(found.index < values.len());
            prop_assert!(found.statistic.is_finite() && found.critical.is_finite());
        }
        prop_assert!(generalised_esd(&values, 0.0, 5, alpha).len() <= 5);
    }

    #[test]
    fn critical_values_are_numbers(alpha in number(), dof in number()) {
        if let Some(t) = student_critical(alpha, dof) {
            prop_assert!(t.is_finite() && t >= 0.0, "{alpha} {dof} {t}");
        }
    }

    #[test]
    fn studies_flips_and_drifts_answer_or_not(values in vec(number(), 12)) {
        let rounds = values.chunks(3).map(<[f64]>::to_vec);
        let rounds: Vec<Vec<f64>> = rounds.collect();
        let people = vec![rounds[..2].to_vec(), rounds[2..].to_vec()];
        if let Ok(table) = StudyTable::new(people) {
            for study in [table.average_and_range(), table.analysis_of_variance()] {
                prop_assert!(study.total_nm.is_finite());
            }
        }
        let station = |chunk: &[f64]| FlipStation {
            position_nm: chunk[0],
            first: Some(Measured { value_nm: chunk[1], u_nm: 1.0 }),
            flipped: Some(Measured { value_nm: chunk[2], u_nm: 1.0 }),
        };
        let stations: Vec<FlipStation> = values.chunks(3).map(station).collect();
        let _ = FlipTest::of(&stations, values[0]);
        let readings: Vec<TimedReading> = values
            .iter()
            .enumerate()
            .map(|(turn, &nm)| TimedReading { station: turn % 3, turn, nm })
            .collect();
        let _ = Drift::of(&readings, 2);
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
        for (found, jaw) in test.jaw_and_even_nm.iter().zip(&jaw) {
            prop_assert!(near(found.unwrap(), jaw + shift / 2.0), "{test:?}");
        }
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
