//! The lessons' figures against an independent beam and by hand, for one press;
//! and that they follow the press.

// Only some of the presses are needed here.
#[path = "support/presses.rs"]
mod presses;

use jawtrue::practice::{
    GaugeStep, Lesson, LessonTopic, NotchStep, Retainer, Says, TURNED, TightStep, arm_by_arm,
    spread_nm,
};
use jawtrue::press::{ArmIndex, Response};
use jawtrue::session::{Document, Edit, Field, Session};
use jawtrue::store::SampleSession;
use jawtrue::units::Unit;
use jawtrue::words::{Figures, Language};
use presses::{NOTCH_NM, influence};

/// Arms at 6, 18, 30 and 42 of 48 in, a notch of 0.004 in everywhere, nothing
/// measured: the built-in example without its passes.
fn press_of_four() -> Session {
    let session = SampleSession::default().session().unwrap();
    let at: Vec<f64> = session.press.arm_positions_nm();
    let inches: Vec<f64> = at.iter().map(|nm| nm / 25.4e6).collect();
    assert_eq!(inches, [6.0, 18.0, 30.0, 42.0]);
    assert_eq!(session.press.jaw_length.length().in_unit(Unit::Inch), 48.0);
    let mut plain = Session::new(String::new(), Unit::Inch, session.press);
    for arm in &mut plain.press.arms {
        arm.opening_margin = None;
        arm.limits = None;
    }
    plain.press.nut_travel = None;
    plain
}

/// The jaw of middling stiffness (kappa sqrt(3 x 70), rho 0.15) by the dense
/// solver of tests/support: what a notch at each arm does at each arm.
fn independent() -> Vec<Vec<f64>> {
    let stations: Vec<f64> = (0..4).map(|arm| f64::from(arm) + 0.5).collect();
    influence(4, &stations, (3.0_f64 * 70.0).sqrt(), 0.15, &[1.0; 4])
}

fn tight(session: &Session) -> Vec<TightStep> {
    let lesson = Lesson::new(LessonTopic::OverTightening, session, Unit::Inch).unwrap();
    assert!(
        (8..=12).contains(&lesson.steps.len()),
        "{}",
        lesson.steps.len()
    );
    let steps = lesson.steps.into_iter().map(|step| match step.says {
        Says::Tight(step) => step,
        other => panic!("{other:?}"),
    });
    steps.collect()
}

fn near(found: f64, expected: f64) {
    assert!(
        (found - expected).abs() < 1e-3 * NOTCH_NM,
        "{found} {expected}"
    );
}

#[test]
fn over_tightening_by_an_independent_beam_and_by_hand() {
    let steps = tight(&press_of_four());
    let beam = independent();
    let b = TURNED.0;
    let by = |station: usize, notches: f64| notches * NOTCH_NM * beam[station][b];
    let mut seen = 0;
    let mut slack_at = None;
    for step in &steps {
        match step {
            TightStep::Crushed { thinner_nm } => near(*thinner_nm, by(b, 1.0)),
            TightStep::Neighbours {
                notches: 2,
                neighbour,
                thinner_nm,
                share,
            } => {
                let most = [0, 2].map(|index| by(index, 2.0));
                near(*thinner_nm, most[0].max(most[1]));
                near(by(neighbour.0, 2.0), *thinner_nm);
                assert!((share - thinner_nm / by(b, 2.0)).abs() < 1e-3);
            }
            TightStep::FarEnd {
                notches: 2,
                arm,
                thicker_nm,
            } => {
                assert_eq!(*arm, ArmIndex(3));
                near(*thicker_nm, -by(3, 2.0));
            }
            TightStep::OutOfTolerance { notches, spread_nm } => {
                // The fewest notches whose spread is above 0.003 in.
                let column: Vec<f64> = (0..4).map(|s| by(s, f64::from(*notches))).collect();
                near(*spread_nm, spread_nm_of(&column));
                assert!(*spread_nm > 76_200.0);
                assert!(spread_nm / f64::from(*notches) * f64::from(notches - 1) <= 76_200.0);
            }
            TightStep::RodLoads {
                notches,
                before,
                after,
                slack,
            } => {
                assert!((before - 0.25).abs() < 0.03 && after > &(before + 0.1));
                assert!(!slack.is_empty() && !slack.contains(&TURNED));
                slack_at = Some(*notches);
            }
            // 4.5 notches of opening, a notch of it per notch in: after four
            // half a notch is left, 0.002 in, less than one; after five none.
            TightStep::Drags { notches, left_nm } => {
                assert_eq!(*notches, 4);
                near(*left_nm, 0.5 * NOTCH_NM);
            }
            TightStep::Sticks { notches, .. } => assert_eq!(*notches, 5),
            TightStep::NotMended { sticks, .. } => assert!(sticks),
            TightStep::WayBack {
                notches,
                scatter_nm,
            } => {
                assert_eq!(*notches, slack_at.unwrap().max(5));
                // d2 of four is 2.059 (ASTM E2587), lacing 0.0003 in.
                near(*scatter_nm, 2.0588 * 7_620.0);
            }
            TightStep::TooFarOut { slack_from, .. } => assert!(slack_from.is_some()),
            TightStep::True | TightStep::Rule => {}
            other => panic!("{other:?}"),
        }
        seen += 1;
    }
    assert_eq!(seen, steps.len());
}

fn spread_nm_of(values: &[f64]) -> f64 {
    spread_nm(values)
}

#[test]
fn rods_go_slack_where_the_lesson_says() {
    let session = press_of_four();
    let lesson = Lesson::new(LessonTopic::OverTightening, &session, Unit::Inch).unwrap();
    let step = lesson.steps.iter().find_map(|step| match &step.says {
        Says::Tight(TightStep::RodLoads { notches, .. }) => Some(*notches),
        _ => None,
    });
    let at = |notches: i32| lesson.shown.stands(&[0, -notches, 0, 0]).unwrap();
    let notches = step.unwrap();
    assert!(at(notches - 1).slack.is_empty());
    assert!(!at(notches).slack.is_empty());
    let shares: f64 = at(notches).rod_shares.iter().sum();
    assert!((shares - 1.0).abs() < 1e-9);
    // Beside the turned nut the opening shrinks too, but less.
    let opening = at(3).opening_nm;
    assert!(opening[1] < opening[0] && opening[0] < at(0).opening_nm[0]);
    assert!(at(0).retainer.iter().all(|it| *it == Retainer::Slides));
}

/// Another press, another lesson: 0.010 in of opening at B is two and a half
/// notches, so it drags at two (0.002 in left) and sticks at three.
#[test]
fn the_lesson_follows_the_press() {
    let mut document = Document::unsaved(press_of_four());
    let margin = Edit::set(Field::OpeningMargin(TURNED), "0.010", Unit::Inch);
    document.apply(&margin).unwrap();
    let steps = tight(document.session());
    let found = steps.iter().find_map(|step| match step {
        TightStep::Drags { notches, left_nm } => Some((*notches, *left_nm)),
        _ => None,
    });
    let (notches, left) = found.unwrap();
    assert_eq!(notches, 2);
    near(left, 0.002 * 25.4e6);
    assert!(
        steps
            .iter()
            .any(|step| matches!(step, TightStep::Sticks { notches: 3, .. }))
    );
    // Two to twelve arms have a lesson each, in both languages.
    for sample in SampleSession::ALL {
        let session = sample.session().unwrap();
        for topic in LessonTopic::ALL {
            let lesson = Lesson::new(topic, &session, session.unit).unwrap();
            for language in Language::ALL {
                let figures = Figures {
                    limit: Some(session.tolerance.length()),
                    ..Figures::exact(language, session.unit)
                };
                for step in &lesson.steps {
                    // On every press the usual way fails, other turns pass,
                    // and the rods share the load after them.
                    match &step.says {
                        Says::Notch(NotchStep::Left { inside, .. }) => {
                            assert!(!inside, "{sample:?}");
                        }
                        Says::Notch(NotchStep::Better { inside, even, .. }) => {
                            assert!(*inside && *even, "{sample:?}");
                        }
                        _ => {}
                    }
                    assert!(figures.lesson_says(&step.says).len() > 20);
                    lesson.shown.stands(&step.nuts).unwrap();
                }
            }
        }
    }
}

#[test]
fn every_arm_to_the_thickest_fails_where_other_turns_pass() {
    let lesson = Lesson::new(LessonTopic::WholeNotches, &press_of_four(), Unit::Inch).unwrap();
    let beam = independent();
    let response = Response::from_fn(4, 4, |s, i| NOTCH_NM * beam[s][i]);
    let found = lesson.shown.stands(&[0; 4]).unwrap();
    let after = |turns: &[i32]| -> f64 {
        let turns = || turns.iter().map(|turn| f64::from(*turn));
        let splice = found.splice_nm.iter().enumerate();
        let moved = splice.map(|(s, off)| off + response.change_at(s, turns()));
        spread_nm(&moved.collect::<Vec<_>>())
    };
    let lightest = |nuts: &[i32]| {
        let shares = lesson.shown.stands(nuts).unwrap().rod_shares;
        shares.into_iter().fold(1.0, f64::min)
    };
    let mut seen = 0;
    for step in &lesson.steps {
        let Says::Notch(says) = &step.says else {
            panic!("{step:?}");
        };
        match says {
            NotchStep::Found { spread_nm } => near(*spread_nm, after(&[0; 4])),
            NotchStep::Thickest { turns, notch } => {
                near(notch.nm_f64(), NOTCH_NM);
                assert_eq!(*turns, arm_by_arm(&found.splice_nm, NOTCH_NM));
            }
            NotchStep::Left { spread_nm, inside } => {
                near(*spread_nm, after(&step.nuts));
                assert!(!inside);
            }
            // One nut alone gives less than the 0.004 in that are counted.
            NotchStep::Why { arm, own_nm, notch } => {
                near(*own_nm, NOTCH_NM * beam[arm.0][arm.0]);
                near(notch.nm_f64(), NOTCH_NM);
                assert!(*own_nm < 0.8 * NOTCH_NM);
            }
            // Even rods: 25 % each on a true press, and 10 % is nearly slack.
            NotchStep::Better {
                turns,
                spread_nm,
                inside,
                even,
            } => {
                near(*spread_nm, after(turns));
                // What is marked, added to what was found, is what is left.
                let left = found.splice_nm.iter().zip(&step.marks_nm);
                let left: Vec<f64> = left.map(|(found, (_, mark))| found + mark).collect();
                assert_eq!(left.len(), 4);
                near(spread_nm_of(&left), *spread_nm);
                assert!(inside);
                assert!(*even && lightest(turns) > 0.18, "{}", lightest(turns));
            }
            NotchStep::Rule => {}
        }
        seen += 1;
    }
    assert_eq!(seen, 6);
}

#[test]
fn the_gauge_lesson_by_hand() {
    let lesson = Lesson::new(LessonTopic::ReadingTheGauge, &press_of_four(), Unit::Inch).unwrap();
    let mut seen = 0;
    for step in &lesson.steps {
        let Says::Gauge(says) = &step.says else {
            panic!("{step:?}");
        };
        match says {
            // A step of 0.0005 in is a sixth of 0.003 in.
            GaugeStep::Step { share, .. } => assert!((share - 1.0 / 6.0).abs() < 1e-9),
            // A, B off by 0.0015 in, C and D not.
            GaugeStep::ZeroHalfway { range, .. } => assert_eq!(range.nm(), 38_100),
            // The mean of six varies by one over the root of six.
            GaugeStep::Mean {
                one_nm,
                mean_nm,
                of,
            } => {
                assert_eq!(*of, 6);
                assert!((one_nm / mean_nm - 6_f64.sqrt()).abs() < 1e-9);
            }
            // 0.0005 in a reading over three steps from A to D.
            GaugeStep::ZeroCreeps { range, .. } => assert_eq!(range.nm(), 38_100),
            // Seven steps of the creep, halved, at every arm alike.
            GaugeStep::ThereAndBack {
                off_nm, mean_nm, ..
            } => {
                assert!((off_nm - 44_450.0).abs() < 1e-6);
                assert!(mean_nm.iter().all(|mean| (mean - mean_nm[0]).abs() < 1e-6));
            }
            // Scatter, not a creep: both ways.
            GaugeStep::Repeats { range, shown } => {
                assert!(range.nm() % 12_700 == 0);
                assert!(!shown.is_sorted() && !shown.iter().rev().is_sorted());
            }
            _ => {}
        }
        seen += 1;
    }
    assert_eq!(seen, 12);
    // In millimetres with a gauge that reads in hundredths.
    let lesson_mm = Lesson::new(
        LessonTopic::ReadingTheGauge,
        &press_of_four(),
        Unit::Millimetre,
    );
    for step in lesson_mm.unwrap().steps {
        if let Says::Gauge(GaugeStep::Repeats { shown, .. }) = step.says {
            assert!(shown.iter().all(|shown| shown.nm() % 10_000 == 0));
        }
    }
    // 0.003 in is 0.0762 mm exactly, and not 0.1 mm.
    let figures = Figures::exact(Language::English, Unit::Inch);
    let unit = lesson
        .steps
        .iter()
        .map(|step| figures.lesson_says(&step.says));
    assert!(
        unit.into_iter()
            .any(|said| said.contains("0.003″ is 0.0762 mm, not the 0.1 mm"))
    );
}
