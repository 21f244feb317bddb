//! A press from visit to visit: learning, replacing, forgetting, and the
//! edits around it.

mod sessions;

use jawtrue::press::{ArmIndex, CountOutOfBounds, CountQuantity, NutPosition};
use jawtrue::session::{
    Edit, EditProblem, Field, KnownResponse, KnownResponseProblem, LearnProblem, Lesson, PastMean,
    PastVisitProblem, PressRecord, Session, SessionProblem,
};
use jawtrue::units::{Length, Sign, TypedLength, Unit};
use sessions::{enter, even_press, found, laced, set, with};

fn typed(text: &str) -> TypedLength {
    TypedLength::parse(text, Unit::Inch, Sign::Either).unwrap()
}

fn visit(id: &str) -> Session {
    let session = laced(&unread(id), &[], &["0.2500", "0.2450", ""]);
    laced(&session, &[0, 1, -2], &["0.2510", "0.2490", "0.2505"])
}

/// Three arms, nothing laced yet.
fn unread(id: &str) -> Session {
    Session::new(id.into(), Unit::Inch, even_press(3))
}

fn handle(pass: usize, text: &str) -> Edit {
    Edit::SetHandle {
        pass,
        text: text.into(),
        bare: Unit::Inch,
    }
}

#[test]
fn evidence_is_kept_pass_by_pass() {
    let repeats = enter((0, 0, 1), "0.2501");
    let session = with(&visit("one"), &[repeats, handle(1, "-.002")]);
    let kept = session.as_past_visit().unwrap();
    assert_eq!(kept.check(), Ok(()));
    assert_eq!(kept.session, "one");
    assert_eq!(kept.arms, ["6", "18", "30"].map(typed));
    assert_eq!(kept.stations, kept.arms);
    assert_eq!(kept.read_passes(), 2);
    let [first, second] = &kept.passes[..] else {
        panic!("{kept:?}");
    };
    let mean = PastMean {
        mean: Length::from_nm(6_351_270),
        repeats: 2,
    };
    assert_eq!(first.means[0], Some(mean));
    assert_eq!(first.means[2], None);
    assert_eq!(second.nuts, [0, 1, -2].map(NutPosition));
    assert_eq!(second.handle, Some(typed("-.002")));
    assert_eq!(unread("two").as_past_visit(), None);
}

#[test]
fn learning_again_replaces() {
    let mut record = PressRecord::of(&visit("one"));
    let once = record.clone();
    assert_eq!(record.learn(&visit("one")), Ok(Lesson::Replaced));
    assert_eq!(record, once);
    let second = laced(
        &record.start_session("two".into(), "Monday".into()),
        &[1, 0, 0],
        &["0.2500", "0.2450", "0.2480"],
    );
    assert_eq!(second.start_nuts, [0, 1, -2].map(NutPosition));
    assert_eq!(second.earlier, once.next_visit.earlier);
    assert_eq!(record.learn(&second), Ok(Lesson::Added));
    assert_eq!(record.next_visit.start_nuts, [1, 1, -2].map(NutPosition));
    // The first again, mended: replaced in its place, nuts stay as last left.
    let mended = with(
        &visit("one"),
        &[Edit::set_nut(Some(1), ArmIndex(0), NutPosition(-1))],
    );
    assert_eq!(record.learn(&mended), Ok(Lesson::Replaced));
    let ids: Vec<&str> = record
        .next_visit
        .earlier
        .iter()
        .map(|visit| visit.session.as_str())
        .collect();
    assert_eq!(ids, ["one", "two"]);
    assert_eq!(
        record.next_visit.earlier[0].passes[1].nuts[0],
        NutPosition(-1)
    );
    assert_eq!(record.next_visit.start_nuts, [1, 1, -2].map(NutPosition));
    assert_eq!(record.check(), Ok(()));
}

#[test]
fn only_the_newest_visits_are_kept() {
    let mut record = PressRecord::of(&visit("0"));
    for number in 1..40 {
        // The first 30 visits have room; later ones push the oldest out.
        let lesson = match number {
            1..30 => Lesson::Added,
            _ => Lesson::AddedForOldest,
        };
        assert_eq!(record.learn(&visit(&number.to_string())), Ok(lesson));
    }
    assert_eq!(record.next_visit.earlier.len(), 30);
    assert_eq!(record.next_visit.earlier[0].session, "10");
    assert_eq!(record.check(), Ok(()));
    let mut crowded = record.start_session("40".into(), String::new());
    crowded.earlier.push(visit("41").as_past_visit().unwrap());
    let Err(SessionProblem::Count(problem)) = crowded.check() else {
        panic!("31 visits were taken");
    };
    assert_eq!(problem.quantity, CountQuantity::EarlierVisits);
}

#[test]
fn other_presses_repairs_and_inventions_teach_nothing() {
    let mut record = PressRecord::of(&visit("one"));
    let before = record.clone();
    let other = found(&["0.25"; 4]);
    assert_eq!(record.learn(&other), Err(LearnProblem::OtherArms));
    // A length corrected by half an inch of twelve is the same press; one
    // corrected by an inch is not.
    let moved = |text: &str| set(Field::ArmPosition(ArmIndex(1)), text);
    let far = with(&visit("two"), &[moved("19")]);
    assert_eq!(record.learn(&far), Err(LearnProblem::OtherArms));
    let invented = Session {
        invented: true,
        ..visit("two")
    };
    assert_eq!(record.learn(&invented), Err(LearnProblem::Invented));
    let unread = record.start_session("two".into(), String::new());
    assert_eq!(record.learn(&unread), Ok(Lesson::NothingRead));
    assert_eq!(record, before);
    let near = with(&visit("two"), &[moved("18.5")]);
    assert_eq!(record.learn(&near), Ok(Lesson::Added));
    // As a press file says after a repair: earlier visits no longer count.
    let ids = record
        .next_visit
        .earlier
        .drain(..)
        .map(|visit| visit.session);
    record.forgotten.extend(ids);
    record.repaired = Some("new rods".into());
    assert!(record.next_visit.earlier.is_empty());
    assert_eq!(record.learn(&visit("one")), Err(LearnProblem::BeforeRepair));
    assert_eq!(record.learn(&visit("three")), Ok(Lesson::Added));
    assert_eq!(record.repaired.as_deref(), Some("new rods"));
}

#[test]
fn what_nuts_went_inward_is_off_the_next_margin() {
    let margin = |arm| set(Field::OpeningMargin(ArmIndex(arm)), "0.010");
    let session = with(&visit("one"), &[margin(0), margin(1), margin(2)]);
    let mut record = PressRecord::of(&session);
    for _ in 0..2 {
        let margins = record
            .next_visit
            .press
            .arms
            .iter()
            .map(|arm| arm.opening_margin.clone());
        let margins: Vec<Length> = margins.flatten().map(|margin| margin.length()).collect();
        // Two notches of 0.004 in went in at C; one out at B gains nothing.
        assert_eq!(margins, [254_000, 254_000, 50_800].map(Length::from_nm));
        assert_eq!(record.learn(&session), Ok(Lesson::Replaced));
    }
}

#[test]
fn moves_of_the_handle() {
    let session = with(&visit("one"), &[handle(1, "+0.002")]);
    assert_eq!(session.passes[1].handle, Some(typed("+0.002")));
    assert_eq!(with(&session, &[handle(1, " ")]).passes[1].handle, None);
    assert!(matches!(
        session.edited(&handle(1, "far")),
        Err(EditProblem::Handle(_))
    ));
    assert!(matches!(
        session.edited(&handle(1, "2.1")),
        Err(EditProblem::Session(SessionProblem::Length(_)))
    ));
    assert_eq!(
        session.edited(&handle(2, "0")),
        Err(EditProblem::NothingThere)
    );
    // Moves of a pass that goes are moved before the next.
    let third = laced(&session, &[], &["0.25"; 3]);
    let left = with(&third, &[handle(2, "-.003"), Edit::DeletePass { pass: 1 }]);
    let moved = left.passes[1].handle.as_ref().map(TypedLength::length);
    assert_eq!(moved, Some(Length::from_nm(-25_400)));
}

fn known(rows: &[&[&str]]) -> Edit {
    let row = |row: &&[&str]| row.iter().map(|&text| text.to_owned()).collect();
    let rows: Vec<Vec<String>> = rows.iter().map(row).collect();
    Edit::SetKnownResponse(Some(KnownResponse::from_table(&rows, Unit::Inch).unwrap()))
}

#[test]
fn a_given_response_holds_arms_and_stations() {
    let at = |text: &str| Edit::add_station(text, Unit::Inch);
    let wide = with(&visit("one"), &[at("12")]);
    let rows = known(&[
        &["4e-3", "0", "0"],
        &["2e-3", "2e-3", "0"],
        &["0", "4e-3", "0"],
        &["0", "0", "4e-3"],
    ]);
    let narrow = Err(EditProblem::Session(SessionProblem::KnownResponse(
        KnownResponseProblem::Rows {
            expected: 3,
            found: 4,
        },
    )));
    assert_eq!(visit("one").edited(&rows), narrow);
    let columns = wide.edited(&known(&[&["1e-3"][..]; 4]));
    assert!(matches!(
        columns,
        Err(EditProblem::Session(SessionProblem::KnownResponse(
            KnownResponseProblem::Columns {
                expected: 3,
                found: 1,
                ..
            }
        )))
    ));
    let given = with(&wide, &[rows]);
    let arm = Edit::add_arm("35", Unit::Inch);
    for edit in [at("24"), Edit::RemoveArm(ArmIndex(0)), arm] {
        assert_eq!(given.edited(&edit), Err(EditProblem::ResponseIsGiven));
    }
    let first_row = |session: &Session, row: usize| {
        let known = session.known_response.as_ref().unwrap();
        known.response().row(row).to_vec()
    };
    // An arm that turns out to stand left of the station takes its row along.
    let moved = set(Field::ArmPosition(ArmIndex(1)), "11");
    assert_eq!(first_row(&with(&given, &[moved]), 1), [0.0, 101_600.0, 0.0]);
    let without = with(&given, &[Edit::RemoveStation(1)]);
    assert_eq!(first_row(&without, 1), [0.0, 101_600.0, 0.0]);
    assert_eq!(
        without
            .known_response
            .as_ref()
            .unwrap()
            .response()
            .stations(),
        3
    );
    let record = PressRecord::of(&given);
    assert_eq!(record.check(), Ok(()));
    let next = record.start_session("two".into(), String::new());
    assert_eq!(next.known_response, given.known_response);
}

#[test]
fn absurd_visits_are_named() {
    let sound = visit("one").as_past_visit().unwrap();
    let check = |change: &dyn Fn(&mut jawtrue::session::PastVisit)| {
        let mut visit = sound.clone();
        change(&mut visit);
        visit.check()
    };
    use PastVisitProblem as P;
    assert!(matches!(check(&|v| v.arms.clear()), Err(P::Count(_))));
    assert_eq!(check(&|v| v.arms.swap(0, 1)), Err(P::Positions));
    assert_eq!(check(&|v| v.stations[0] = typed("999")), Err(P::Positions));
    assert!(matches!(
        check(&|v| {
            v.stations.pop();
        }),
        Err(P::WrongCount {
            pass: 0,
            expected: 2,
            found: 3,
            ..
        })
    ));
    assert!(matches!(
        check(&|v| v.passes[1].nuts[0] = NutPosition(9_999)),
        Err(P::Count(_))
    ));
    assert!(matches!(
        check(&|v| v.passes[1].handle = Some(typed("9"))),
        Err(P::Length(_))
    ));
    for (mean, repeats) in [(0, 1), (6_000_000, 0), (6_000_000, 1_001)] {
        let mean = Length::from_nm(mean);
        let problem = check(&|v| v.passes[0].means[0] = Some(PastMean { mean, repeats }));
        assert!(problem.is_err(), "{mean:?} {repeats}");
    }
    // Three arms, and more stations between than a press may have.
    let crowded = check(&|v| v.stations = vec![typed("1"); 32]);
    assert_eq!(
        crowded,
        Err(P::Count(CountOutOfBounds {
            quantity: CountQuantity::StationsBetween,
            found: 29,
        }))
    );
    let none = PastMean {
        mean: Length::from_nm(6_000_000),
        repeats: 0,
    };
    assert_eq!(
        check(&|v| v.passes[0].means[0] = Some(none)),
        Err(P::Count(CountOutOfBounds {
            quantity: CountQuantity::Repeats,
            found: 0,
        }))
    );
    let mut session = visit("two");
    session.earlier = vec![sound.clone(), sound];
    session.earlier[1].arms.swap(0, 1);
    let expected = SessionProblem::EarlierVisit {
        visit: 1,
        problem: P::Positions,
    };
    assert_eq!(session.check(), Err(expected));
    assert!(session.edited(&Edit::ForgetEarlier).is_ok());
}

/// What is known of the first arm is taken for an arm that is added.
#[test]
fn an_added_arm_is_taken_to_be_like_the_first() {
    let mut session = visit("one");
    session.press.arms[0].notch_effect = typed("0.0041");
    let last = session.press.arms.len() - 1;
    session.press.arms[last].notch_effect = typed("0.0050");
    let add = Edit::add_arm("35", Unit::Inch);
    let arms = with(&session, &[add]).press.arms;
    assert_eq!(arms.len(), last + 2);
    assert_eq!(arms[last + 1].position.text(), "35 in");
    assert_eq!(arms[last + 1].notch_effect, typed("0.0041"));
}

/// Rows that are pasted have to fit on the stations that are left.
#[test]
fn more_rows_than_stations_are_refused() {
    let session = visit("one");
    let fill = |station, rows| {
        Edit::fill(
            (1, station, 0),
            vec![vec!["0.2500".to_owned()]; rows],
            Unit::Inch,
        )
    };
    assert_eq!(
        session.edited(&fill(1, 3)),
        Err(EditProblem::TooManyRows { offered: 3, fit: 2 })
    );
    assert!(session.edited(&fill(1, 2)).is_ok());
}
