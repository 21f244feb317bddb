//! What several tests share.
#![allow(dead_code, reason = "no test uses all of it")]

#[path = "../sessions/mod.rs"]
pub mod sessions;
pub mod simulated_disk;

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use jawtrue::plan::{Chore, Effort, Minutes};
use jawtrue::press::section::{Estimate, JawShape};
use jawtrue::press::{Arm, ArmIndex, JawDrive, NutLimits, NutPosition, Press};
use jawtrue::session::{
    Acceptance, AcceptedBy, By, Checklist, Confidence, CorrectedNut, CorrectedReading, Corrections,
    Gauge, IsoDate, JawAndRods, KnownResponse, KnownScatter, Pass, PastMean, PastPass, PastVisit,
    Session, VisitNotes,
};
use jawtrue::splice::{
    Cell, GaugeKind, Kept, Reading, Station, StationPlace, Struck, Walk, WhyDoubtful,
};
use jawtrue::store::{self, Expected};
use jawtrue::units::{Length, Sign, TypedLength, Unit};
use proptest::prelude::*;

/// What a run of the program answered.
#[derive(Debug, PartialEq, Eq)]
pub struct Ran {
    pub status: i32,
    pub out: String,
    pub err: String,
}

/// The program, with nothing of the tester's own settings.
pub fn program() -> Command {
    let mut program = Command::new(env!("CARGO_BIN_EXE_jawtrue"));
    program.env_clear();
    program
}

/// Runs the program in a folder.
pub fn jawtrue(folder: &Path, arguments: &[&str]) -> Ran {
    ran(program()
        .current_dir(folder)
        .args(arguments)
        .output()
        .unwrap())
}

/// What a process answered.
pub fn ran(output: Output) -> Ran {
    Ran {
        status: output.status.code().unwrap_or(-1),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
    }
}

/// A folder in which the commands run.
pub struct Shop(tempfile::TempDir);

impl Shop {
    pub fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    pub fn path(&self) -> &Path {
        self.0.path()
    }

    pub fn file(&self, name: &str) -> PathBuf {
        self.path().join(name)
    }

    pub fn open(&self, name: &str) -> Session {
        store::open(&self.file(name)).unwrap().session
    }

    pub fn write(&self, name: &str, text: impl AsRef<[u8]>) {
        fs::write(self.file(name), text).unwrap();
    }

    /// Runs a command line; blanks part arguments, except between quotes.
    pub fn run(&self, line: &str) -> Ran {
        let mut arguments = Vec::new();
        for (index, part) in line.split('\'').enumerate() {
            if index % 2 == 1 {
                arguments.push(part);
            } else {
                arguments.extend(part.split_whitespace());
            }
        }
        jawtrue(self.path(), &arguments)
    }

    /// Runs a command line that must succeed silently on standard error.
    pub fn out(&self, line: &str) -> String {
        let ran = self.run(line);
        assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{line}");
        ran.out
    }

    /// Runs a command line that must fail with this sentence and print
    /// nothing.
    pub fn refuses(&self, line: &str, sentence: &str) {
        let ran = self.run(line);
        assert_eq!(ran.status, 2, "{line}: {ran:?}");
        assert_eq!(ran.out, "", "{line}");
        let said = ran
            .err
            .strip_suffix("See: jawtrue --help\n")
            .unwrap_or(&ran.err);
        assert_eq!(said.trim_end(), sentence, "{line}");
    }

    /// A session file with these readings.
    pub fn lay(&self, name: &str, readings: &[&str]) {
        store::save(&self.file(name), &session(readings), Expected::Nothing).unwrap();
    }

    /// The answer of a command line that must succeed as JSON.
    pub fn json(&self, line: &str) -> serde_json::Value {
        serde_json::from_str(&self.out(line)).unwrap()
    }

    /// Refuses every command line of a list with the sentence below it, which
    /// is indented.
    pub fn refuses_all(&self, list: &str) {
        let mut lines = list.lines().filter(|line| !line.trim().is_empty());
        while let (Some(line), Some(sentence)) = (lines.next(), lines.next()) {
            self.refuses(line, sentence.trim_start());
        }
    }
}

/// A session on a press with arms 12 in apart and a pass of readings, a text
/// per arm, blanks parting repeats; an unreadable word stays unreadable.
pub fn session(readings: &[&str]) -> Session {
    let mut session = sessions::found(readings);
    session.id = "test".into();
    session.press.name = "Press 9 (invented)".into();
    session
}

/// Any text at all, control characters and exotic scripts included.
pub fn any_text() -> impl Strategy<Value = String> {
    prop_oneof![
        Just(String::new()),
        "[ -~]{0,12}",
        proptest::collection::vec(any::<char>(), 0..8)
            .prop_map(|letters| letters.into_iter().collect()),
    ]
}

pub fn any_unit() -> impl Strategy<Value = Unit> {
    prop_oneof![Just(Unit::Inch), Just(Unit::Millimetre)]
}

/// A length of these nanometres in one of the ways people type it.
pub fn typed_as(nm: i64, way: usize) -> TypedLength {
    let length = Length::from_nm(nm);
    let inches = TypedLength::from_length(length, Unit::Inch);
    let digits = inches.text().trim_end_matches(" in").to_owned();
    let micrometres = format!("{} µm", nm / 1_000);
    let millimetres = TypedLength::from_length(length, Unit::Millimetre);
    let text = match way {
        0 if inches.text().ends_with(" in") => format!("{digits}\""),
        1 if inches.text().ends_with(" in") => format!("{}″", digits.replace('.', ",")),
        2 if nm % 1_000 == 0 => micrometres,
        3 if nm % 396_875 == 0 => format!("{}/64 in", nm / 396_875),
        4 => millimetres.text().replace('.', ",").replace(' ', ""),
        5 => return inches,
        _ => return millimetres,
    };
    let typed = TypedLength::parse(&text, Unit::Inch, Sign::None).unwrap();
    assert_eq!(typed.length(), length, "{text}");
    typed
}

/// A typed length between two bounds in micrometres.
pub fn any_typed(least_um: i64, most_um: i64) -> impl Strategy<Value = TypedLength> {
    prop_oneof![
        (least_um * 1_000..=most_um * 1_000, 0..7_usize),
        (least_um..=most_um).prop_map(|um| (um * 1_000, 4)),
    ]
    .prop_map(|(nm, way)| typed_as(nm, way))
}

fn any_cell() -> impl Strategy<Value = Cell> {
    let struck = (any_text(), any_text()).prop_map(|(by, why)| Struck { by, why });
    prop_oneof![
        4 => any_typed(100, 500_000).prop_map(|typed| Cell::Reading(Reading::new(typed))),
        1 => Just(Cell::Empty),
        1 => any_text().prop_map(Cell::Unreadable),
        1 => (any_typed(100, 500_000), struck).prop_map(|(typed, struck)| {
            Cell::Reading(Reading { typed, struck: Some(struck), kept: None })
        }),
        1 => (any_typed(100, 500_000), any_text(), 1..WhyDoubtful::ALL.len()).prop_map(
            |(typed, by, why)| Cell::Reading(Reading {
                typed,
                struck: None,
                kept: Some(Kept { by, doubt: WhyDoubtful::ALL[why] }),
            })
        ),
    ]
}

/// A row of cells without empty ones at its end, as the document keeps it.
fn any_row() -> impl Strategy<Value = Vec<Cell>> {
    proptest::collection::vec(any_cell(), 0..4).prop_map(|mut row| {
        while row.last() == Some(&Cell::Empty) {
            row.pop();
        }
        row
    })
}

fn any_limits() -> impl Strategy<Value = Option<NutLimits>> {
    proptest::option::of(
        (-200..=200, -200..=200).prop_map(|(a, b): (i32, i32)| NutLimits {
            most_in: NutPosition(a.min(b)),
            most_out: NutPosition(a.max(b)),
        }),
    )
}

fn any_press() -> impl Strategy<Value = Press> {
    let arm = (
        2_000..400_000_i64,
        0..7_usize,
        any_typed(1, 5_000),
        any_limits(),
        proptest::option::of(any_typed(0, 100_000)),
    );
    (
        any_text(),
        proptest::collection::vec(arm, 2..=12),
        proptest::option::of(any_typed(1, 5_000)),
        50_000..1_000_000_i64,
        0..7_usize,
    )
        .prop_map(|(name, arms, nut_travel, beyond_um, way)| {
            let mut at_um = 0;
            let arms: Vec<Arm> = arms
                .into_iter()
                .map(|(gap_um, way, notch_effect, limits, opening_margin)| {
                    at_um += gap_um;
                    Arm {
                        position: typed_as(at_um * 1_000, way),
                        notch_effect,
                        limits,
                        opening_margin,
                    }
                })
                .collect();
            Press {
                name,
                jaw_length: typed_as((at_um + beyond_um) * 1_000, way),
                arms,
                nut_travel,
                drive: JawDrive {
                    parts: "1 long chain, 2 sprockets".to_owned(),
                    parts_before: "1 long chain, 3 sprockets".to_owned(),
                },
                left_hand_thread: [None, Some(true), Some(false)][way % 3],
            }
        })
}

/// Section and rods of steel, with doubts.
fn any_jaw_and_rods() -> impl Strategy<Value = JawAndRods> {
    let estimate = |value: f64| {
        (0.8..1.2_f64, 0.0..0.2_f64).prop_map(move |(share, relative_sd)| Estimate {
            value: value * share,
            relative_sd,
        })
    };
    let shape = (any::<bool>(), estimate(60.0), estimate(120.0)).prop_map(
        |(rectangle, width_mm, height_mm)| {
            if rectangle {
                JawShape::Rectangle {
                    width_mm,
                    height_mm,
                }
            } else {
                let value = width_mm.value * 1e5;
                JawShape::SecondMomentMm4(Estimate { value, ..width_mm })
            }
        },
    );
    let rods = (estimate(200.0), estimate(30.0), estimate(400.0));
    (estimate(200.0), shape, rods).prop_map(
        |(jaw_modulus_gpa, jaw_shape, (rod_modulus_gpa, rod_diameter_mm, rod_length_mm))| {
            JawAndRods {
                jaw_modulus_gpa,
                jaw_shape,
                rod_modulus_gpa,
                rod_diameter_mm,
                rod_length_mm,
            }
        },
    )
}

/// Stations at the arms and, where asked for and where there is room, half
/// way to the next.
fn stations(press: &Press, between: &[(bool, bool, usize)]) -> Vec<Station> {
    let mut stations = Vec::new();
    for ((arm, at), (wanted, counts, way)) in press.indexed_arms().zip(between) {
        stations.push(Station {
            place: StationPlace::Arm(arm),
            counts: *counts,
        });
        let here = at.position.length().nm();
        let next = press
            .arms
            .get(arm.0 + 1)
            .map(|next| next.position.length().nm());
        if let Some(next) = next.filter(|_| *wanted) {
            stations.push(Station {
                place: StationPlace::Between(typed_as((here + next) / 2_000 * 1_000, *way)),
                counts: !counts,
            });
        }
    }
    stations
}

fn any_nuts(arms: usize) -> impl Strategy<Value = Vec<NutPosition>> {
    proptest::collection::vec((-200..=200).prop_map(NutPosition), arms)
}

/// A move either way, out positive.
fn any_move() -> impl Strategy<Value = TypedLength> {
    (-40_000..40_000_i64, any_unit()).prop_map(|(um, unit)| {
        let magnitude = TypedLength::from_length(Length::from_nm(um.abs() * 1_000), unit);
        let sign = if um < 0 { "-" } else { "+" };
        let text = format!("{sign}{}", magnitude.text());
        TypedLength::parse(&text, unit, Sign::Either).unwrap()
    })
}

/// A bare belt cell per station, or none at all.
fn any_bare_belt(stations: usize) -> impl Strategy<Value = Vec<Cell>> {
    let cell = prop_oneof![
        3 => any_typed(100, 100_000).prop_map(|typed| Cell::Reading(Reading::new(typed))),
        1 => Just(Cell::Empty),
        1 => any_text().prop_map(Cell::Unreadable),
    ];
    prop_oneof![Just(Vec::new()), proptest::collection::vec(cell, stations),]
}

/// Traces of changes at these arms and stations.
fn any_corrections(arms: usize, stations: usize) -> impl Strategy<Value = Corrections> {
    let by = || (any_text(), any_text()).prop_map(|(who, when)| By { who, when });
    let reading = (0..stations, 0..9_usize, any_text(), any::<bool>(), by()).prop_map(
        |(station, repeat, was, struck, by)| CorrectedReading {
            station,
            repeat,
            was,
            struck,
            by,
        },
    );
    let nut = (0..arms, -200..=200_i32, by()).prop_map(|(arm, was, by)| CorrectedNut {
        arm: ArmIndex(arm),
        was: NutPosition(was),
        by,
    });
    (
        proptest::collection::vec(reading, 0..3),
        proptest::collection::vec(nut, 0..3),
    )
        .prop_map(|(readings, nuts)| Corrections { readings, nuts })
}

fn any_passes(arms: usize, stations: usize) -> impl Strategy<Value = Vec<Pass>> {
    let rows = proptest::collection::vec(any_row(), stations);
    let way = (
        proptest::option::of(any_move()),
        any::<bool>(),
        any::<bool>(),
        any_bare_belt(stations),
        any_corrections(arms, stations),
    );
    let pass = (any_nuts(arms), rows, any_text(), any_text(), way).prop_map(
        |(nuts, rows, laced, note, (handle, back, flipped, bare_belt, corrections))| Pass {
            nuts,
            handle,
            rows,
            bare_belt,
            walk: if back {
                Walk::ThereAndBack
            } else {
                Walk::Straight
            },
            flipped,
            nut_lost: flipped && back,
            laced,
            note,
            corrections,
        },
    );
    proptest::collection::vec(pass, 0..4)
}

fn any_scatter() -> impl Strategy<Value = KnownScatter> {
    (any_typed(1, 900), proptest::option::of(1..1_000_u32))
        .prop_map(|(sd, dof)| KnownScatter { sd, dof })
}

fn any_gauge() -> impl Strategy<Value = Gauge> {
    (
        any_text(),
        proptest::sample::select(&GaugeKind::ALL[..]),
        any_typed(1, 1_000),
        proptest::option::of(any_typed(1, 900)),
        proptest::option::of(any_scatter()),
        proptest::option::of((2000..2100_u16, 1..=12_u8, 1..=28_u8)),
    )
        .prop_map(
            |(name, kind, step, limit_of_error, repeatability, due)| Gauge {
                name,
                kind,
                step,
                limit_of_error,
                repeatability,
                calibration_due: due.map(|(year, month, day)| {
                    IsoDate::parse(&format!("{year:04}-{month:02}-{day:02}")).unwrap()
                }),
            },
        )
}

/// An earlier visit to a press of two to four arms.
fn any_past_visit() -> impl Strategy<Value = PastVisit> {
    (2..=4_usize)
        .prop_flat_map(|arms| {
            let mean = (100..400_000_000_i64, 1..9_u32).prop_map(|(nm, repeats)| PastMean {
                mean: Length::from_nm(100_000 + nm),
                repeats,
            });
            let pass = (
                any_nuts(arms),
                proptest::option::of(any_move()),
                proptest::collection::vec(proptest::option::of(mean), arms),
            )
                .prop_map(|(nuts, handle, means)| PastPass {
                    nuts,
                    handle,
                    means,
                });
            (
                Just(arms),
                any_text(),
                any_text(),
                0..7_usize,
                any_typed(1, 1_000),
                proptest::option::of(any_typed(1, 900)),
                proptest::option::of(any_typed(1, 900)),
                proptest::collection::vec(pass, 0..3),
            )
        })
        .prop_map(
            |(arms, session, when, way, gauge_step, repeatability, lacing_scatter, passes)| {
                let at: Vec<TypedLength> = (1..=arms)
                    .map(|arm| typed_as(arm as i64 * 250_000_000, way))
                    .collect();
                PastVisit {
                    session,
                    when,
                    arms: at.clone(),
                    stations: at,
                    gauge_step,
                    repeatability,
                    lacing_scatter,
                    passes,
                }
            },
        )
}

/// A response given outright for so many stations and arms.
fn any_known_response(stations: usize, arms: usize) -> impl Strategy<Value = KnownResponse> {
    let value = (-9..90_i32, 0..3_usize).prop_map(|(tenths, form)| match form {
        0 => format!("{}e-4", tenths),
        1 => format!("{:.7}", f64::from(tenths) / 20_000.0),
        _ => "0".to_owned(),
    });
    let rows = proptest::collection::vec(proptest::collection::vec(value, arms), stations);
    (rows, any_unit()).prop_map(|(rows, unit)| KnownResponse::from_table(&rows, unit).unwrap())
}

/// Any rule of a shop.
fn any_acceptance() -> impl Strategy<Value = Acceptance> {
    (any::<bool>(), 501_u16..=999).prop_map(|(strict, per_mille)| Acceptance {
        by: if strict {
            AcceptedBy::Confidence
        } else {
            AcceptedBy::PlainComparison
        },
        confidence: Confidence::from_per_mille(per_mille).unwrap(),
    })
}

/// Any effort within its bounds, often the usual one.
fn any_effort() -> impl Strategy<Value = Effort> {
    proptest::option::of([10..=600_u16, 10..=600, 10..=600, 10..=600]).prop_map(|tenths| {
        let mut effort = Effort::default();
        for (chore, tenths) in Chore::ALL.into_iter().zip(tenths.into_iter().flatten()) {
            assert!(effort.set(
                chore,
                Minutes::parse(&format!("{}.{}", tenths / 10, tenths % 10)).unwrap()
            ));
        }
        effort
    })
}

/// Any session that is sound.
pub fn any_session() -> impl Strategy<Value = Session> {
    let between = proptest::collection::vec((any::<bool>(), any::<bool>(), 0..7_usize), 12);
    (any_press(), between).prop_flat_map(|(press, between)| {
        let stations = stations(&press, &between);
        let arms = press.arms.len();
        let lengths = (
            any_typed(1, 10_000),
            proptest::option::of(any_typed(100, 500_000)),
            any_acceptance(),
            any_effort(),
        );
        let known = (
            any_gauge(),
            proptest::option::of(any_scatter()),
            proptest::collection::vec(any_past_visit(), 0..3),
            proptest::option::of(any_known_response(stations.len(), arms)),
            proptest::option::of(any_jaw_and_rods()),
        );
        (
            any_passes(arms, stations.len()),
            any_nuts(arms),
            proptest::collection::vec(any_text(), 7),
            lengths,
            known,
            any_unit(),
            any::<bool>(),
        )
            .prop_map(
                move |(
                    passes,
                    start_nuts,
                    texts,
                    (tolerance, target, acceptance, effort),
                    known,
                    unit,
                    invented,
                )| {
                    let (gauge, lacing_scatter, earlier, known_response, jaw_and_rods) = known;
                    let mut texts = texts.into_iter();
                    let mut text = || texts.next().unwrap();
                    Session {
                        format: jawtrue::session::FORMAT,
                        id: text(),
                        invented,
                        unit,
                        press: press.clone(),
                        stations: stations.clone(),
                        start_nuts,
                        lost: invented.then_some(ArmIndex(0)).into_iter().collect(),
                        tolerance,
                        gauge,
                        lacing_scatter,
                        acceptance,
                        effort,
                        target,
                        notes: VisitNotes {
                            who: text(),
                            when: text(),
                            belt: text(),
                            hooks: text(),
                            notes: text(),
                            repaired: text(),
                        },
                        earlier,
                        known_response,
                        jaw_and_rods,
                        checklist: Checklist::default(),
                        passes,
                    }
                },
            )
    })
}

/// The arm with this letter's index.
pub fn arm(index: usize) -> ArmIndex {
    ArmIndex(index)
}
