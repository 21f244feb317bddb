//! Upkeep: due dates worked by hand, a file that several write, a damaged file,
//! the command, and the window by label in both languages.

mod common;
#[path = "support/hand.rs"]
mod hand;
#[path = "support/invented_shop.rs"]
mod invented_shop;

use std::fs;
use std::num::NonZeroU32;
use std::path::Path;

use common::{jawtrue, session};
use eframe::egui::{Key, Modifiers, Role};
use egui_kittest::kittest::{NodeT, Queryable};
use hand::{Opening, click, click_on, enter_at, press, push, says, type_at, until};
use jawtrue::session::{Caution, IsoDate};
use jawtrue::shop::{
    Due, DueCounts, Entry, Interval, Need, Noted, PressBook, Task, TaskDue, Upkeep, UpkeepEdit,
    UpkeepRefusal, VisitSummary, When, Whose, by_need, press_books,
};
use jawtrue::store::{
    self, Damage, Expected, OpenProblem, ShopReader, UPKEEP_FILE, UpkeepProblem, keep_upkeep,
    open_upkeep,
};
use jawtrue::words::Language;

const PRESS: &str = "Press 9 (invented)";
const GAUGE: &str = "Micrometer 4 (invented)";
const WHO: &str = "R. Alder (invented)";

fn day(text: &str) -> IsoDate {
    IsoDate::parse(text).unwrap()
}

fn number(number: u32) -> NonZeroU32 {
    NonZeroU32::new(number).unwrap()
}

fn entry(noted: Noted, on: &str) -> Entry {
    Entry::of(&Whose::Press(PRESS.into()), noted, day(on), WHO)
}

fn done(task: &str, on: &str) -> Entry {
    entry(Noted::Done(task.into()), on)
}

fn laced(pieces: u32, on: &str) -> Entry {
    entry(Noted::Laced(number(pieces)), on)
}

/// The book of a press with a visit of one test piece on each of these days.
fn books(days: &[&str]) -> Vec<PressBook> {
    press_books(days.iter().map(|day| {
        let mut session = session(&["0.25", "0.25"]);
        session.notes.when = (*day).into();
        session.id = (*day).into();
        session.gauge.name = GAUGE.into();
        VisitSummary::of(&session, (*day).into())
    }))
}

fn due(log: &[Entry], visits: &[&str], today: &str, task: &str) -> Due {
    let upkeep = Upkeep {
        own_tasks: Vec::new(),
        log: log.to_vec(),
    };
    let list = upkeep.due_list(&books(visits), day(today));
    let found = list.into_iter().find(|due| due.task.key == task);
    found.expect("a task").due
}

/// By the calendar on the wall: November has 30 days, February 28 in 2026 and
/// 29 in 2028.
#[test]
fn days_come_round_by_the_calendar() {
    let chains = |on, today| due(&[done("oil-chains", on)], &[], today, "oil-chains");
    assert_eq!(
        chains("2026-11-01", "2026-11-30"),
        Due::On(day("2026-12-01"))
    );
    assert_eq!(
        chains("2026-11-01", "2026-12-01"),
        Due::Since(day("2026-12-01"))
    );
    assert_eq!(
        chains("2026-11-01", "2027-01-05"),
        Due::Since(day("2026-12-01"))
    );
    assert_eq!(
        chains("2026-02-01", "2026-02-02"),
        Due::On(day("2026-03-03"))
    );
    assert_eq!(
        chains("2028-02-01", "2028-02-02"),
        Due::On(day("2028-03-02"))
    );
    // The last time counts, in whatever order it was noted; a line taken back
    // or of tomorrow does not.
    let slides = |log: &[Entry]| due(log, &[], "2026-11-26", "oil-slides");
    let twice = [
        done("oil-slides", "2026-11-21"),
        done("oil-slides", "2026-11-02"),
    ];
    assert_eq!(slides(&twice), Due::On(day("2026-11-28")));
    let mut mistaken = twice;
    mistaken[0].taken_back = "M. Brook (invented), 2026-11-22 08:00".into();
    assert_eq!(slides(&mistaken), Due::Since(day("2026-11-09")));
    assert_eq!(slides(&[done("oil-slides", "2026-11-27")]), Due::NeverDone);
    // Another press's line is another press's.
    let mut other = done("oil-slides", "2026-11-21");
    other.press = "Press 8 (invented)".into();
    let upkeep = Upkeep {
        own_tasks: Vec::new(),
        log: vec![other],
    };
    let list = upkeep.due_list(&books(&["2026-11-01"]), day("2026-11-26"));
    let slides = list.iter().filter(|due| due.task.key == "oil-slides");
    let slides: Vec<(Whose, Due)> = slides.map(|due| (due.whose.clone(), due.due)).collect();
    assert_eq!(
        slides,
        [
            (Whose::Press(PRESS.into()), Due::NeverDone),
            (
                Whose::Press("Press 8 (invented)".into()),
                Due::On(day("2026-11-28"))
            ),
        ]
    );
}

/// 200 pieces: those noted, and a test piece a visit from the day on.
#[test]
fn pieces_come_round_by_what_was_laced_since() {
    let visits = ["2026-11-09", "2026-11-10", "2026-11-12", "2026-12-24"];
    let jaws = |log: &[Entry]| due(log, &visits, "2026-11-26", "clean-jaws");
    let cleaned = done("clean-jaws", "2026-11-10");
    assert_eq!(jaws(&[]), Due::NeverDone);
    // Two visits since, that of the same day among them; nobody counts more.
    assert_eq!(jaws(std::slice::from_ref(&cleaned)), Due::Uncounted(2));
    // What was noted before the cleaning lies before it, on the same day too.
    let log = [laced(500, "2026-11-10"), cleaned.clone()];
    assert_eq!(jaws(&log), Due::PiecesLeft(198, day("2026-11-10")));
    let log = [
        cleaned.clone(),
        laced(150, "2026-11-20"),
        laced(47, "2026-11-25"),
    ];
    assert_eq!(jaws(&log), Due::PiecesLeft(1, day("2026-11-25")));
    let log = [cleaned, laced(150, "2026-11-20"), laced(48, "2026-11-25")];
    assert_eq!(jaws(&log), Due::PiecesOver(200));
}

#[test]
fn what_is_due_longest_comes_first_then_what_was_never_recorded() {
    let upkeep = Upkeep {
        own_tasks: Vec::new(),
        log: vec![
            done("dust", "2026-11-24"),
            done("cover", "2026-11-26"),
            done("oil-chains", "2026-10-01"),
            done("oil-slides", "2026-11-25"),
            done("clean-jaws", "2026-11-25"),
            done("jaw-check", "2026-11-01"),
        ],
    };
    let list = upkeep.due_list(&books(&["2026-11-01"]), day("2026-11-26"));
    let order: Vec<&str> = list.iter().map(|due| due.task.key.as_str()).collect();
    let when: Vec<When> = list.iter().map(|due| due.when(day("2026-11-26"))).collect();
    use When::{Later, NotRecorded, Now, Soon};
    assert_eq!(
        when,
        [
            Now,
            Now,
            NotRecorded,
            NotRecorded,
            NotRecorded,
            Soon,
            Soon,
            Later,
            Later,
        ]
    );
    assert!(NotRecorded.is_due() && Now.is_due() && !Soon.is_due());
    assert_eq!(
        order,
        [
            "oil-chains",        // since 2026-10-31
            "dust",              // since 2026-11-25
            "oil-rods",          // not recorded
            "fluid-level",       // not recorded
            "gauge-calibration", // not recorded
            "cover",             // on 2026-11-27
            "oil-slides",        // on 2026-12-02
            "jaw-check",         // on 2027-01-30
            "clean-jaws",        // pieces not counted
        ]
    );
}

/// By hand: a week ahead is soon, the eighth day is not; of 200 pieces the last
/// 20 are.
#[test]
fn soon_is_a_week_or_a_tenth_of_the_pieces() {
    let when = |log: Vec<Entry>, task: &str| {
        let upkeep = Upkeep {
            own_tasks: Vec::new(),
            log,
        };
        let list = upkeep.due_list(&books(&["2026-11-01"]), day("2026-11-26"));
        let found = list.into_iter().find(|due| due.task.key == task).unwrap();
        found.when(day("2026-11-26"))
    };
    let chains = |on| when(vec![done("oil-chains", on)], "oil-chains");
    assert_eq!(chains("2026-10-28"), When::Soon); // on 2026-11-27
    assert_eq!(chains("2026-11-03"), When::Soon); // on 2026-12-03
    assert_eq!(chains("2026-11-04"), When::Later); // on 2026-12-04
    assert_eq!(chains("2026-10-27"), When::Now); // since 2026-11-26
    let jaws = |pieces| {
        let log = vec![
            done("clean-jaws", "2026-11-02"),
            laced(pieces, "2026-11-03"),
        ];
        when(log, "clean-jaws")
    };
    assert_eq!(jaws(179), When::Later);
    assert_eq!(jaws(180), When::Soon);
    assert_eq!(jaws(200), When::Now);
}

/// What nobody recorded is due, and a line of an older version that says that
/// nobody knew oils nothing either.
#[test]
fn nothing_is_fresh_because_nobody_knows_of_it() {
    let begun = |on| entry(Noted::Begun("oil-rods".into()), on);
    let rods = |log: &[Entry]| due(log, &["2026-11-01"], "2026-11-26", "oil-rods");
    assert_eq!(rods(&[]), Due::NeverDone);
    assert_eq!(rods(&[begun("2026-11-26")]), Due::NeverDone);
    let log = [done("oil-rods", "2026-10-30"), begun("2026-11-20")];
    assert_eq!(rods(&log), Due::On(day("2027-01-28")));
}

/// A visit whose last piece was measured is a check of the jaws, by who was
/// there; one without a reading is none. By the calendar on the wall 90 days
/// after 2026-09-01 is 2026-11-30.
#[test]
fn a_measured_visit_is_a_check_of_the_jaws() {
    let visit = |on: &str, cell: &str| {
        let mut session = session(&[cell, cell]);
        session.notes.when = on.into();
        session.id = on.into();
        session.notes.who = "M. Brook (invented)".into();
        VisitSummary::of(&session, on.into())
    };
    let books = press_books([visit("2026-09-01", "0.25"), visit("2026-11-20", "")]);
    let measured = press_books([visit("2026-09-01", "0.25")]);
    let check_of = |books: &[PressBook], log: Vec<Entry>, today: &str| {
        let upkeep = Upkeep {
            own_tasks: Vec::new(),
            log,
        };
        let list = upkeep.due_list(books, day(today)).into_iter();
        let mut checks = list.filter(|due| due.task.key == "jaw-check");
        let due = checks.next().expect("the task");
        (due.due, due.last.map(|last| last.who), due.said_on)
    };
    let check = |log, today| check_of(&measured, log, today);
    let brook = Some("M. Brook (invented)".to_owned());
    let visited = Some(day("2026-09-01"));
    let by_visit = (Due::On(day("2026-11-30")), brook.clone(), visited);
    assert_eq!(check(Vec::new(), "2026-11-26"), by_visit);
    // Where the newest visit measured nothing, a piece wants measuring today.
    let first = (Due::MeasureFirst, brook.clone(), visited);
    assert_eq!(check_of(&books, Vec::new(), "2026-11-26"), first);
    let late = (Due::Since(day("2026-11-30")), brook, visited);
    assert_eq!(check_of(&books, Vec::new(), "2026-12-01"), late);
    assert_eq!(check(Vec::new(), "2026-12-01"), late);
    // Not yet on the day before; and what is noted later counts from there.
    assert_eq!(check(Vec::new(), "2026-08-31").0, Due::NeverDone);
    let noted = check(vec![done("jaw-check", "2026-10-01")], "2026-11-26");
    assert_eq!(noted, (Due::On(day("2026-12-30")), Some(WHO.into()), None));
}

/// The calibration is the gauge's: one row for each by its name, however many
/// presses it measured; until when it holds is said by its newest visit, unless
/// it was noted anew since.
#[test]
fn a_gauge_is_calibrated_once_for_all_presses() {
    let visit = |press: &str, gauge: &str, on: &str, until: Option<&str>| {
        let mut session = session(&["0.25", "0.25"]);
        session.press.name = press.into();
        session.notes.when = on.into();
        session.id = format!("{press}{gauge}{on}");
        session.gauge.name = gauge.into();
        session.gauge.calibration_due = until.map(day);
        VisitSummary::of(&session, session.id.clone())
    };
    let books = press_books([
        visit("One", "M4", "2026-01-10", Some("2026-06-30")),
        visit("Two", "M4", "2026-07-10", Some("2027-06-30")),
        visit("Two", "M5", "2026-07-11", Some("2026-09-30")),
        visit("Two", "M6", "2026-07-12", None),
        visit("Two", "", "2026-07-13", None),
    ]);
    let gauges = |log: Vec<Entry>| -> Vec<(String, Due)> {
        let upkeep = Upkeep {
            own_tasks: Vec::new(),
            log,
        };
        let list = upkeep.due_list(&books, day("2026-11-26")).into_iter();
        let of_gauges = list.filter_map(|task: TaskDue| match task.whose {
            Whose::Gauge(name) => Some((name, task.due)),
            Whose::Press(_) => {
                assert_ne!(task.task.key, "gauge-calibration");
                None
            }
        });
        let mut all: Vec<(String, Due)> = of_gauges.collect();
        all.sort_by(|a, b| a.0.cmp(&b.0));
        all
    };
    let said = |name: &str, due| (name.to_owned(), due);
    assert_eq!(
        gauges(Vec::new()),
        [
            said("M4", Due::On(day("2027-06-30"))),
            said("M5", Due::Since(day("2026-09-30"))),
            said("M6", Due::NeverDone),
        ]
    );
    let calibrated = |gauge: &str, on| {
        let noted = Noted::Done("gauge-calibration".into());
        Entry::of(&Whose::Gauge(gauge.into()), noted, day(on), WHO)
    };
    let log = vec![
        calibrated("M5", "2026-10-05"),
        calibrated("M4", "2026-02-01"),
    ];
    assert_eq!(
        gauges(log),
        [
            said("M4", Due::On(day("2027-06-30"))),
            said("M5", Due::On(day("2027-10-05"))),
            said("M6", Due::NeverDone),
        ]
    );
}

/// 29 CFR 1910.242(b): compressed air for cleaning below 30 psi, with chip
/// guarding and protective equipment.
#[test]
fn cleaning_bears_its_cautions() {
    for key in ["dust", "clean-jaws"] {
        let tasks = Upkeep::default().tasks();
        let task = tasks.into_iter().find(|task| task.key == key).unwrap();
        assert!(!task.own, "a default is marked as one");
        for caution in [Caution::CompressedAir, Caution::Eyes, Caution::MadeSafe] {
            assert!(task.cautions().contains(&caution), "{key}");
        }
    }
    for words in Language::ALL {
        let said = words.caution_with_source(Caution::CompressedAir);
        assert!(
            said.contains("30 psi") && said.contains("1910.242"),
            "{said}"
        );
    }
    // Each caution only where it belongs.
    for task in Upkeep::default().tasks() {
        let chain = task.cautions().contains(&Caution::NipPoints);
        assert_eq!(chain, task.key == "oil-chains", "{}", task.key);
    }
    // What the shop's words ask for nobody here knows.
    let tasks = Upkeep::default().tasks();
    let cover = tasks.into_iter().find(|task| task.key == "cover").unwrap();
    let renamed = Task {
        words: "Blow the hood clean".into(),
        ..cover
    };
    assert!(renamed.cautions().contains(&Caution::CompressedAir));
}

fn note(folder: &Path, entry: Entry) -> Result<Upkeep, UpkeepProblem> {
    keep_upkeep(folder, &UpkeepEdit::Note(vec![entry]))
}

#[test]
fn tasks_are_the_shops_to_change() {
    let home = tempfile::tempdir().unwrap();
    let keep = |edit: UpkeepEdit| keep_upkeep(home.path(), &edit);
    let usual = open_upkeep(home.path()).unwrap().tasks();
    let slower = Task {
        every: Interval::Days(number(60)),
        own: true,
        words: "Grease chains, blue can".into(),
        ..usual[2].clone()
    };
    keep(UpkeepEdit::Change(usual[2].clone(), slower.clone())).unwrap();
    // A second one saw the task as it was.
    let stale = keep(UpkeepEdit::Change(usual[2].clone(), usual[2].clone()));
    assert_eq!(
        stale,
        Err(UpkeepProblem::Refused(UpkeepRefusal::ChangedMeanwhile))
    );
    keep(UpkeepEdit::Move("oil-chains".into(), -1)).unwrap();
    keep(UpkeepEdit::Move("dust".into(), -1)).unwrap();
    keep(UpkeepEdit::Add(
        "Check belt hooks".into(),
        Interval::Pieces(number(50)),
    ))
    .unwrap();
    keep(UpkeepEdit::Add(
        "Check lamps".into(),
        Interval::Days(number(30)),
    ))
    .unwrap();
    let cover = Task {
        hidden: true,
        ..usual[1].clone()
    };
    keep(UpkeepEdit::Change(usual[1].clone(), cover)).unwrap();
    let kept = open_upkeep(home.path()).unwrap();
    let keys: Vec<String> = kept.tasks().into_iter().map(|task| task.key).collect();
    assert_eq!(keys[..3], ["dust", "oil-chains", "cover"]);
    assert_eq!(keys[9..], ["own-1", "own-2"]);
    assert_eq!(kept.tasks()[1], slower);
    let list = kept.due_list(&books(&["2026-11-01"]), day("2026-11-26"));
    assert_eq!(list.len(), 10, "the hidden one is not listed");
    let nobody = Entry {
        who: " ".into(),
        ..done("dust", "2026-11-26")
    };
    assert_eq!(
        note(home.path(), nobody),
        Err(UpkeepProblem::Refused(UpkeepRefusal::Nobody))
    );
    // The jaws are checked by measuring, whoever notes.
    assert_eq!(
        note(home.path(), done("jaw-check", "2026-11-26")),
        Err(UpkeepProblem::Refused(UpkeepRefusal::Measured))
    );
    // By the calendar on the wall: every 3 days at one press, every 7 at others.
    let slides = open_upkeep(home.path()).unwrap().tasks();
    let slides = slides.iter().find(|task| task.key == "oil-slides");
    let slides = slides.unwrap().clone();
    let mut here = slides.clone();
    here.presses.insert(PRESS.into(), Interval::Days(number(3)));
    keep(UpkeepEdit::Change(slides, here)).unwrap();
    let oiled = Noted::Done("oil-slides".into());
    let elsewhere = Whose::Press("Press 8 (invented)".into());
    let mut kept = open_upkeep(home.path()).unwrap();
    kept.log.extend([
        Entry::of(&elsewhere, oiled.clone(), day("2026-11-20"), WHO),
        entry(oiled, "2026-11-20"),
    ]);
    let list = kept.due_list(&[], day("2026-11-24"));
    let slides = list.iter().filter(|due| due.task.key == "oil-slides");
    let slides: Vec<(Due, bool)> = slides.map(|due| (due.due, due.task.own)).collect();
    let (since, on) = (day("2026-11-23"), day("2026-11-27"));
    assert_eq!(slides, [(Due::Since(since), true), (Due::On(on), false)]);
    // A mistake is taken back and stays in the log.
    let line = done("dust", "2026-11-26");
    note(home.path(), line.clone()).unwrap();
    let back = keep(UpkeepEdit::TakeBack(
        vec![line.clone()],
        "M. Brook (invented)".into(),
    ))
    .unwrap();
    assert_eq!(
        (back.log.len(), back.log[0].taken_back.as_str()),
        (1, "M. Brook (invented)")
    );
    let again = keep(UpkeepEdit::TakeBack(
        vec![line],
        "T. Cedar (invented)".into(),
    ));
    assert_eq!(
        again,
        Err(UpkeepProblem::Refused(UpkeepRefusal::ChangedMeanwhile))
    );
}

#[test]
fn two_writers_lose_nothing() {
    const EACH: u32 = 40;
    let home = tempfile::tempdir().unwrap();
    std::thread::scope(|scope| {
        for who in ["R. Alder (invented)", "M. Brook (invented)"] {
            let folder = home.path();
            scope.spawn(move || {
                for number_of in 1..=EACH {
                    let line = Entry {
                        who: who.into(),
                        ..laced(number_of, "2026-11-26")
                    };
                    note(folder, line).unwrap();
                }
            });
        }
    });
    let log = open_upkeep(home.path()).unwrap().log;
    for who in ["R. Alder (invented)", "M. Brook (invented)"] {
        let own = log.iter().filter(|line| line.who == who);
        let noted: Vec<Noted> = own.map(|line| line.noted.clone()).collect();
        let all: Vec<Noted> = (1..=EACH).map(|it| Noted::Laced(number(it))).collect();
        assert_eq!(noted, all, "{who}");
    }
}

#[test]
fn a_damaged_file_is_told_and_left_alone() {
    let home = tempfile::tempdir().unwrap();
    note(home.path(), done("dust", "2026-11-26")).unwrap();
    let path = home.path().join(UPKEEP_FILE);
    let sound = fs::read_to_string(&path).unwrap();
    let cut = &sound[..sound.len() - 8];
    let strange = sound.replace("log:", "lug:");
    let newer = sound.replace("upkeep_format: 3", "upkeep_format: 4");
    let zero = sound.replace(
        "log: [",
        "tasks: [(key: \"a\", every: days(0))],\n    log: [",
    );
    for text in [cut, &strange, &newer, &zero, ""] {
        fs::write(&path, text).unwrap();
        let why = open_upkeep(home.path()).unwrap_err();
        match text {
            text if text == newer => assert_eq!(why, OpenProblem::NewerFormat(4)),
            text if text == strange => {
                let unknown = Damage::UnknownField("lug".into());
                assert!(
                    matches!(&why, OpenProblem::Damaged(_, it) if *it == unknown),
                    "{why:?}"
                );
            }
            "" => assert_eq!(why, OpenProblem::Empty),
            _ => assert!(matches!(why, OpenProblem::Damaged(..)), "{why:?}"),
        }
        let refused = note(home.path(), done("cover", "2026-11-26"));
        assert_eq!(refused, Err(UpkeepProblem::Open(why.clone())));
        let told = jawtrue(home.path(), &["upkeep", "."]);
        assert_eq!((told.status, told.out.as_str()), (2, ""));
        assert!(
            told.err.contains("cannot be read") && told.err.contains(UPKEEP_FILE),
            "{}",
            told.err
        );
        assert_eq!(fs::read_to_string(&path).unwrap(), text);
        let mut reader = ShopReader::new(home.path(), None);
        reader.look(&mut |_| true).unwrap();
        assert_eq!(reader.shop().upkeep, Err(why));
    }
}

/// A folder with one visit of [`PRESS`].
fn folder() -> tempfile::TempDir {
    let home = tempfile::tempdir().unwrap();
    let mut session = session(&["0.25", "0.25"]);
    session.notes.when = "2026-11-01".into();
    session.gauge.name = GAUGE.into();
    let path = home.path().join("visit.jawtrue");
    store::save(&path, &session, Expected::Nothing).unwrap();
    home
}

/// Of the eight that nobody noted, seven are the press's, in its row; the gauge's
/// stands apart, and so does the check of the jaws that the visit was.
#[test]
fn a_shops_counts_are_the_sum_of_its_rows() {
    let (books, today) = (books(&["2026-11-01"]), day("2026-11-26"));
    let list = Upkeep::default().due_list(&books, today);
    let rows = by_need(&books, Some(today), &list);
    let needs = rows.iter().flat_map(|(_, needs)| needs);
    let in_rows = needs.filter_map(|need| match need {
        Need::UpkeepUnknown(tasks) => Some(tasks.0),
        _ => None,
    });
    let counts = DueCounts {
        unknown: in_rows.sum(),
        gauges: 1,
        ..DueCounts::default()
    };
    assert_eq!(DueCounts::of(&list, today), counts);
    assert_eq!(counts.unknown, 7);
}

#[test]
fn the_command_tells_and_notes() {
    let home = folder();
    let run = |arguments: &[&str]| {
        let all: Vec<&str> = [&["upkeep", "."], arguments].concat();
        jawtrue(home.path(), &all)
    };
    let list = run(&[]);
    assert_eq!((list.status, list.err.as_str()), (0, ""));
    for part in [
        "Late: 0; never noted, so due: 8; soon: 0",
        "piece measured at the visit of 2026-11-01",
        "manual",
        "every 200 laced pieces (usual)",
        "[clean-jaws]: due now: never noted",
        "30 psi",
        "29 CFR 1910.242(b)",
    ] {
        assert!(list.out.contains(part), "{part}: {}", list.out);
    }
    let noted = run(&[
        "--press",
        PRESS,
        "--done",
        "oil-slides",
        "--laced",
        "7",
        "--who",
        WHO,
    ]);
    assert_eq!((noted.status, noted.err.as_str()), (0, ""));
    assert!(
        noted.out.contains("never noted, so due: 6"),
        "{}",
        noted.out
    );
    let log = open_upkeep(home.path()).unwrap().log;
    let today = store::today();
    assert_eq!(log, [done("oil-slides", &today), laced(7, &today)]);
    // A task was done on a day gone by, and a gauge is calibrated for all presses.
    let past = ["--press", PRESS, "--done", "fluid-level", "--who", WHO];
    let past = run(&[&past[..], &["--on", "2026-01-31"]].concat());
    assert_eq!((past.status, past.err.as_str()), (0, ""));
    let gauge = [
        "--gauge",
        GAUGE,
        "--done",
        "gauge-calibration",
        "--who",
        WHO,
    ];
    let calibrated = run(&gauge);
    assert_eq!((calibrated.status, calibrated.err.as_str()), (0, ""));
    let log = open_upkeep(home.path()).unwrap().log;
    assert_eq!(log[2], done("fluid-level", "2026-01-31"));
    let noted = Noted::Done("gauge-calibration".into());
    let whose = Whose::Gauge(GAUGE.into());
    assert_eq!(log[3], Entry::of(&whose, noted, day(&today), WHO));
    let lines = run(&["--json"]).out;
    let lines: Vec<serde_json::Value> = lines
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    assert_eq!(lines.len(), 9);
    let slides = lines
        .iter()
        .find(|line| line["task"] == "oil-slides")
        .unwrap();
    assert_eq!(slides["last_done"], today);
    assert_eq!(slides["who"], WHO);
    assert_eq!(
        (&slides["to_do"], &slides["default"]),
        (&false.into(), &true.into())
    );
    assert_eq!(
        (&slides["every_days"], &slides["every_pieces"]),
        (&7.into(), &().into())
    );
    for (arguments, part) in [
        (
            &["--press", "Pres 9", "--done", "dust", "--who", WHO][..],
            PRESS,
        ),
        (
            &["--press", PRESS, "--done", "dusting", "--who", WHO],
            "gauge-calibration",
        ),
        (
            &[
                "--press",
                PRESS,
                "--done",
                "gauge-calibration",
                "--who",
                WHO,
            ],
            "--gauge",
        ),
        (
            &["--gauge", "M9", "--done", "gauge-calibration", "--who", WHO],
            GAUGE,
        ),
        (&["--press", PRESS, "--done", "dust"], "--who"),
        (&["--done", "dust", "--who", WHO], "--press"),
        (
            &["--press", PRESS, "--laced", "0", "--who", WHO],
            "1 or more",
        ),
        (&["--press", PRESS, "--done", "dust", "--who", " "], "who"),
        (
            &[
                "--press",
                PRESS,
                "--done",
                "dust",
                "--who",
                WHO,
                "--on",
                "9999-01-01",
            ],
            "9999-01-01",
        ),
    ] {
        let refused = run(arguments);
        assert_eq!(
            (refused.status, refused.out.as_str()),
            (2, ""),
            "{arguments:?}"
        );
        assert!(refused.err.contains(part), "{part}: {}", refused.err);
    }
    assert_eq!(open_upkeep(home.path()).unwrap().log, log);
}

#[test]
fn the_window_lists_notes_and_changes() {
    for words in Language::ALL {
        let shop = folder();
        let home = tempfile::tempdir().unwrap();
        let preferences = format!(
            "(look: \"light\", language: {:?}, shop: {:?})",
            words.code(),
            shop.path().display().to_string()
        );
        let opened = || {
            let opening = Opening {
                preferences: &preferences,
                ..Opening::default()
            };
            let mut window = hand::open(home.path(), opening);
            press(&mut window, Modifiers::NONE, Key::F7);
            until(&mut window, "the shop", |window| {
                says(window, &words.shop_summary(1, 1))
            });
            click(&mut window, Role::Tab, words.upkeep_page());
            window
        };
        let mut window = opened();
        // What nobody noted is due; the visit's piece checked the jaws.
        for part in [
            words.upkeep_defaults(),
            words.upkeep_foot(),
            &words.gauge_named(GAUGE),
        ] {
            assert!(says(&window, part), "{part}");
        }
        // Every caution with its source, once somebody asks for them.
        push(&mut window, words.upkeep_all_points());
        for part in ["1910.242", words.caution(Caution::CompressedAir)] {
            assert!(says(&window, part), "{part}");
        }
        push(&mut window, words.upkeep_fewer_points());
        click_on(&mut window, &words.upkeep_later(1));
        let every = words.every_default(words.every_days(90));
        let checked = words.last_measured(every, "2026-11-01", words.marked_by_nobody());
        until(&mut window, "the check", |window| says(window, &checked));
        // No tick stands for a measured piece.
        let tick = words.upkeep_tick_of(words.task_jaw_check(), PRESS, "");
        let ticks = window.query_all_by_role(Role::CheckBox);
        let is_check = |node: &egui_kittest::Node<'_>| {
            let label = node.accesskit_node().label();
            label.is_some_and(|label| label.starts_with(&tick))
        };
        assert_eq!(ticks.filter(is_check).count(), 0);
        let measure = words.upkeep_measure_of(PRESS);
        window.get_by_role_and_label(Role::Button, &measure);
        let log = || open_upkeep(shop.path()).unwrap().log;
        let today = store::today();
        let never = |task: &str| words.upkeep_tick_of(task, PRESS, words.due_never());
        // Nothing is noted without a tick, a name and a day gone by: there is no
        // button without a tick.
        let note_none = words.upkeep_note_none();
        assert!(says(&window, note_none));
        enter_at(&mut window, words.find_who(), WHO);
        assert!(says(&window, note_none));
        assert!(says(&window, words.upkeep_note_needs()));
        click(&mut window, Role::CheckBox, &never(words.task_cover()));
        type_at(&mut window, words.upkeep_day(), "x");
        push(&mut window, &words.upkeep_note(1));
        window.run_steps(3);
        assert_eq!(log(), []);
        drop(window);
        // The daily tasks together, all others one by one; by one name and day.
        let mut window = opened();
        let daily = words.press_and(PRESS, words.upkeep_tick_daily(2));
        click(&mut window, Role::CheckBox, &daily);
        // Without a name the button leads to it, and notes nothing.
        push(&mut window, &words.upkeep_note_who(2));
        window.run_steps(3);
        let who = window.get_by_role_and_label(Role::TextInput, words.find_who());
        assert!(who.is_focused());
        assert_eq!(log(), []);
        for task in [
            words.task_oil_chains(),
            words.task_oil_slides(),
            words.task_oil_rods(),
            words.task_fluid(),
            words.task_clean_jaws(),
        ] {
            click(&mut window, Role::CheckBox, &never(task));
        }
        type_at(&mut window, words.find_who(), WHO);
        push(&mut window, &words.upkeep_note(7));
        until(&mut window, "the lines", |_| !log().is_empty());
        let usual = Upkeep::default().tasks().into_iter();
        let of_press = usual.filter(|task| !task.is_of_gauge() && task.key != "jaw-check");
        let mut noted: Vec<Entry> = of_press.map(|task| done(&task.key, &today)).collect();
        noted.sort_by(|a, b| format!("{:?}", a.noted).cmp(&format!("{:?}", b.noted)));
        assert_eq!(log(), noted);
        let due = day(&today).later(1).unwrap();
        until(&mut window, "the new day", |window| {
            says(window, &words.due_on(due))
        });
        assert!(says(&window, note_none), "nothing is ticked any more");
        // What was just noted can be taken back at once, and stays in the log.
        push(&mut window, &words.upkeep_undo(7));
        until(&mut window, "the lines taken back", |_| {
            log().iter().all(|line| line.taken_back.starts_with(WHO))
        });
        // Somebody else notes, and it shows.
        let calibrated = Noted::Done("gauge-calibration".into());
        let gauge = Whose::Gauge(GAUGE.into());
        let theirs = Entry::of(&gauge, calibrated, day("2020-01-01"), WHO);
        note(shop.path(), theirs.clone()).unwrap();
        // 365 days later, in a leap year.
        let since = day("2020-12-31");
        let days = day(&today).day_number() - since.day_number();
        let others = words.due_since(days, since);
        until(&mut window, "the other's line", |window| {
            says(window, &others)
        });
        // Another interval: no longer a default.
        click(&mut window, Role::Tab, words.upkeep_tasks());
        let change = words.upkeep_button_of(words.upkeep_change(), words.task_oil_slides());
        push(&mut window, &change);
        type_at(&mut window, words.upkeep_interval(), "4");
        push(&mut window, words.upkeep_keep());
        let changed = |task: &Task| task.every == Interval::Days(number(74)) && task.own;
        until(&mut window, "the interval", |_| {
            open_upkeep(shop.path())
                .unwrap()
                .tasks()
                .iter()
                .any(changed)
        });
        // Another at this press alone, and back to that of all presses.
        click(&mut window, Role::ComboBox, words.find_press());
        click(&mut window, Role::Button, PRESS);
        for kept in [Some(Interval::Days(number(745))), None] {
            click(&mut window, Role::Button, &change);
            match kept {
                Some(_) => {
                    // Where it is as on all of them, there is nothing to type.
                    let typed = window.query_all_by_role(Role::TextInput);
                    assert_eq!(typed.count(), 0);
                    click(&mut window, Role::RadioButton, words.task_own_interval());
                    type_at(&mut window, words.upkeep_interval(), "5");
                }
                None => {
                    let all = words.task_as_all(words.every_days(74));
                    click(&mut window, Role::RadioButton, &all);
                }
            }
            let keep = match kept {
                Some(_) => words.upkeep_keep_for_one(),
                None => words.upkeep_keep_as_all(),
            };
            click(&mut window, Role::Button, keep);
            until(&mut window, "the press's interval", |_| {
                let tasks = open_upkeep(shop.path()).unwrap().tasks();
                let slides = tasks.iter().find(|task| task.key == "oil-slides");
                slides.unwrap().presses.get(PRESS).copied() == kept
            });
            // The file is there a frame before the window hears of it.
            until(&mut window, "the form closed", |window| {
                !says(window, words.task_own_interval())
            });
        }
        // A mistake is taken back, while the message goes.
        let line = words.upkeep_line(&theirs, &Upkeep::default().tasks());
        click(&mut window, Role::Tab, words.upkeep_log());
        push(&mut window, &words.upkeep_take_back_of(line));
        push(&mut window, words.upkeep_take_back_now());
        until(&mut window, "the line taken back", |_| {
            log()[7].taken_back.starts_with(WHO)
        });
        // Damaged: said, and nothing to press.
        click(&mut window, Role::Tab, words.upkeep_due_part());
        fs::write(shop.path().join(UPKEEP_FILE), "(upkeep_format: 1, log: [").unwrap();
        until(&mut window, "the damage", |window| {
            says(window, "upkeep.ron")
        });
        until(&mut window, "no rows", |window| {
            !says(window, words.upkeep_note_none())
        });
    }
}
