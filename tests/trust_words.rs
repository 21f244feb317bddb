//! What people read about trust, in both languages.

use jawtrue::session::{Gauge, IsoDate};
use jawtrue::splice::{
    Again, Budget, Drift, FlipStation, FlipTest, GaugeKind, GaugeShare, Measured, Misfit, Scatter,
    ScatterSource, Settling, TimedReading, Unsettled, WhyMisfit, gauge_that_would_do,
};
use jawtrue::store::parse_gauge_line;
use jawtrue::store::{CsvReading, readings_from_csv};
use jawtrue::units::{Length, TypedLength, Unit};
use jawtrue::words::{Figures, Language};

const STEP: Length = Length::from_nm(12_700);
const TOLERANCE: Length = Length::from_nm(76_200);

fn figures(language: Language) -> Figures {
    Figures {
        language,
        unit: Unit::Inch,
        step: STEP,
        limit: None,
    }
}

fn names(station: usize) -> String {
    ["A", "B", "C", "D"][station].to_owned()
}

fn check(found: &str, expected: &str) {
    assert_eq!(found, expected);
}

#[test]
fn a_caliper_that_uses_the_tolerance_up() {
    let share = GaugeShare::of(8_000.0, STEP, TOLERANCE).unwrap();
    let instead = gauge_that_would_do(TOLERANCE, Unit::Inch);
    let said = |language| {
        let kind = GaugeKind::DigitalCaliper;
        figures(language).gauge_share_sentence(kind, &share, instead.as_ref())
    };
    check(
        &said(Language::English),
        "This caliper uses up 63% of the tolerance: measure again with a micrometer that reads to 0.0001″.",
    );
    check(
        &said(Language::Spanish),
        "Este calibrador consume el 63\u{a0}% de la tolerancia: mida otra vez con un micrómetro, resolución de 0.0001″.",
    );
    let mut gauge = Gauge::with_step(String::new(), TypedLength::from_length(STEP, Unit::Inch));
    let today = IsoDate::parse("2026-05-01").unwrap();
    let english = figures(Language::English);
    assert_eq!(english.calibration_sentence(&gauge, today), None);
    gauge.calibration_due = IsoDate::parse("2026-04-30").ok();
    check(
        &english.calibration_sentence(&gauge, today).unwrap(),
        "The gauge's calibration ran out on 2026-04-30.",
    );
}

#[test]
fn how_it_was_worked_out() {
    let checked = Scatter {
        sd_nm: 10_160.0,
        dof: 9.0,
        source: ScatterSource::GaugeCheck,
    };
    let budget = Budget::of_station(2, checked, STEP, None);
    let lines = figures(Language::English).budget_lines(&budget, 0.95);
    assert_eq!(
        lines,
        [
            "Readings vary by 0.00040″, rounding included; the part that repeats average out, over √2: 0.00028″ (normal; from the gauge check, 9 degrees of freedom with what is assumed; JCGM 100:2008, 4.2)",
            "Rounding to the resolution of 0.0005″: averages out with the rest, since readings vary so much",
            "Together, as the root of the sum of squares: 0.00028″ with 9 degrees of freedom",
            "With 95% confidence: ± 0.00064″",
            "Left out: the error of the gauge's scale. All readings share it, so it cancels in every difference.",
        ]
    );
    // The same figures by hand: 0.0004 / sqrt 2 and t(9) = 2.262.
    let lines = figures(Language::Spanish).budget_lines(&budget, 0.95);
    assert!(lines[2].starts_with("En total") && lines[2].contains("0.00028″"));
    // Readings that never differ: what rounding leaves, 0.0005 / sqrt 12.
    let still = Scatter {
        sd_nm: 0.0,
        ..checked
    };
    let budget = Budget::of_station(2, still, STEP, None);
    let lines = figures(Language::English).budget_lines(&budget, 0.95);
    check(
        &lines[1],
        "Rounding to the resolution of 0.0005″: the part that repeats do not average out: 0.00014″ (within half the resolution; Widrow, Kollár, Quantization Noise)",
    );
}

#[test]
fn what_would_settle_it() {
    let settling = Settling::Readings {
        again: vec![
            Again {
                station: 1,
                times: 1,
            },
            Again {
                station: 3,
                times: 3,
            },
        ],
        cases: 0.86,
    };
    let said =
        |language, settling: &Settling| figures(language).settling_sentence(settling, &names);
    check(
        &said(Language::English, &settling),
        "Too close to call. Measure B once more, D 3 more times: that decides it in 8 of 10 cases.",
    );
    check(
        &said(Language::Spanish, &settling),
        "Muy cerca del límite para decidir. Mida B una vez más, D 3 veces más: eso lo decide en 8 de 10 casos.",
    );
    let finer = Settling::FinerGauge {
        step: Length::from_nm(2_540),
        cases: 0.95,
        because: Unsettled::Step,
    };
    check(
        &said(Language::English, &finer),
        "Too close to call, and measuring again will hardly decide it: this gauge is too coarse. A gauge that reads to 0.0001″ would in 9 of 10 cases.",
    );
}

#[test]
fn marks_belt_flip_and_drift() {
    let english = figures(Language::English);
    let misfit = Misfit {
        station: 1,
        repeat: Some(1),
        why: WhyMisfit::Disagrees {
            apart_nm: 152_400.0,
            allowed_nm: 25_400.0,
        },
    };
    check(
        &english.misfit_sentence(&misfit, &names),
        "B, reading 2 is 0.0060″ from the others there, more than the 0.0010″ that readings vary. Measure again, or cross it out if you know why.",
    );
    let station = |x: f64, first: f64, flipped: f64| {
        let mean = |value_nm| {
            Some(Measured {
                value_nm,
                u_nm: 2_540.0,
            })
        };
        FlipStation {
            position_nm: x,
            first: mean(first),
            flipped: mean(flipped),
        }
    };
    let test = FlipTest::of(
        &[station(0.0, 0.0, 50_800.0), station(1e9, 50_800.0, 0.0)],
        5e8,
    );
    let said = english.flip_sentences(&test.unwrap(), &names);
    check(
        &said[0],
        "The belt, as first laced, is 0.0020″ thicker at B than at A.",
    );
    assert!(said[1].contains("it may be belt or jaws"));
    // Down by a thousandth over three turns, there and back and then there
    // again: A at turns 0, 3, 4, B at 1, 2, 5.
    let creeping = |stations: &[usize]| {
        let readings: Vec<TimedReading> = (0..)
            .zip(stations)
            .map(|(turn, &station)| TimedReading {
                station,
                turn,
                nm: 6_350_000.0 - 25_400.0 * turn as f64 / 3.0,
            })
            .collect();
        Drift::of(&readings, 2)
    };
    let scatter = Scatter {
        sd_nm: 2_540.0,
        dof: 9.0,
        source: ScatterSource::Typed,
    };
    check(
        &english.drift_sentence(&creeping(&[0, 1, 1, 0]), scatter),
        "The readings drifted down by 0.0010″ from first to last. Measuring there and back has canceled it.",
    );
    check(
        &english.drift_sentence(&creeping(&[0, 1, 1, 0, 0, 1]), scatter),
        "The readings drifted down by 0.0017″ from first to last. Up to 0.0001″ of it is still in the differences between arms: go on until every arm is measured as often going back as going there.",
    );
    check(
        &figures(Language::Spanish).drift_sentence(&creeping(&[0, 1, 1, 0]), scatter),
        "Las lecturas se fueron recorriendo 0.0010″ hacia abajo de la primera a la última. La ida y vuelta lo canceló.",
    );
    check(
        &english.repeat_before_outside_sentence(&[0, 2], &names),
        "Just past the limit, and measured only once: measure A, C again before you call this piece outside.",
    );
}

#[test]
fn files_and_gauges_are_told_what_is_wrong() {
    let stations = ["A".to_owned()];
    let reading = CsvReading {
        stations: &stations,
        bare: Unit::Inch,
        columns: None,
        has_header: true,
    };
    let problem = readings_from_csv("arm,reading\nA,thick\nQ,.25\n", &reading).unwrap_err();
    assert_eq!(
        figures(Language::English).csv_sentences(&problem, Unit::Inch),
        [
            "Line 2, column 2 (reading): must be a length such as 0.2475; “thick” is not.",
            "Line 3, column 1 (arm): this press has no arm or measuring point “Q”. Type its letter, A for the first arm from the operator's left.",
        ]
    );
    let problem = parse_gauge_line(b"Err 12 13").unwrap_err();
    check(
        &Language::English.gauge_line_problem(&problem),
        "The gauge sent “Err 12 13”: more than one number, and it is not clear which is the reading. Set it to send one number a line.",
    );
}
