//! Practice files and the text command: kept apart from the work in the shop,
//! and played by a script.

mod common;

use common::Shop;
use jawtrue::practice::{Act, Exercise, Fault, Help, Practice};
use jawtrue::store::{self, Expected, Instead, OpenProblem, OtherKind, PracticeFile};
use jawtrue::units::Unit;
use jawtrue::words::{Figures, Language};

fn exercise(number: u64, fault: Fault, arms: usize) -> Exercise {
    Exercise {
        fault,
        arms,
        ..Exercise::of_number(number, Unit::Inch)
    }
}

fn begun(exercise: Exercise) -> Practice {
    let mut practice =
        Practice::begin(exercise, "Practice hand".into(), "2026-11-26".into()).unwrap();
    practice.act(Act::Lace { flipped: false }).unwrap();
    practice.measure(2).unwrap();
    practice
}

#[test]
fn practice_files_are_kept_apart_from_the_work() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    let practice = begun(exercise(21, Fault::PinchedArm, 4));
    let notebook = practice.notebook(None);
    let file = PracticeFile::Work(Box::new(practice.clone()), Some(Box::new(notebook.clone())));
    let path = at("a.jawlesson");
    store::save_practice(&path, &file, Expected::Nothing).unwrap();
    let opened = store::open_practice(&path).unwrap();
    let PracticeFile::Work(again, written_down) = opened.file else {
        panic!("an exercise");
    };
    assert_eq!(again.acts(), practice.acts());
    assert_eq!(again.pieces(), practice.pieces());
    assert_eq!(written_down.as_deref(), Some(&notebook));
    // Not where a session or a press is wanted, and the other way round.
    let session = OpenProblem::OtherKind(OtherKind::Practice);
    assert_eq!(store::open(&path).unwrap_err(), session);
    let press = OpenProblem::NoPress(Instead::Practice);
    assert_eq!(store::open_press(&path).unwrap_err(), press);
    let sample = store::SampleSession::default().session().unwrap();
    store::save(&at("b.jawtrue"), &sample, Expected::Nothing).unwrap();
    let practice_wanted = OpenProblem::NoPractice(Instead::Session);
    assert_eq!(
        store::open_practice(&at("b.jawtrue")).unwrap_err(),
        practice_wanted
    );
    for (problem, words) in [
        (
            session,
            "what was practiced never counts as work in the shop",
        ),
        (press, "but a practice file"),
        (practice_wanted, "found a visit"),
    ] {
        for language in Language::ALL {
            let said = Figures::exact(language, Unit::Inch).why_not_opened(&problem);
            let english = language == Language::English;
            assert!(!english || said.contains(words), "{said}");
            assert!(said.contains("jawlesson") || said.len() > 40, "{said}");
        }
    }
    // Nothing is learnt from it, even by way of the notebook.
    let taught = store::teach(&at("c.jawpress"), &notebook).unwrap_err();
    assert!(
        matches!(taught, store::TeachProblem::Learn(_)),
        "{taught:?}"
    );
    assert!(!at("c.jawpress").exists());
    // Damaged, newer and impossible files are refused in words.
    let text = std::fs::read_to_string(&path).unwrap();
    let problem = |from: &str, to: &str| {
        assert!(text.contains(from), "{from}");
        std::fs::write(at("d.jawlesson"), text.replacen(from, to, 1)).unwrap();
        store::open_practice(&at("d.jawlesson")).unwrap_err()
    };
    assert_eq!(
        problem("lesson_format: 2", "lesson_format: 3"),
        OpenProblem::NewerFormat(3)
    );
    assert!(matches!(
        problem("pinched-arm", "pinched"),
        OpenProblem::Damaged(..)
    ));
    assert!(matches!(
        problem("\"zero\"", "\"zeros\""),
        OpenProblem::Damaged(..)
    ));
    assert!(matches!(
        problem("\"read 0\"", "\"read 9\""),
        OpenProblem::UnsoundPractice(_)
    ));
    assert!(matches!(
        problem("arms: 4", "arms: 40"),
        OpenProblem::UnsoundPractice(_)
    ));
    assert!(matches!(
        problem("number: 21", "numbers: 21"),
        OpenProblem::Damaged(..)
    ));
}

#[test]
fn a_script_plays_an_exercise() {
    let shop = Shop::new();
    let json = |line: &str| shop.json(line);
    let first = json("practice --exercise 21 --arms 4 --fault pinched-arm --assist full --json");
    let state = first["file"].as_str().unwrap().to_owned();
    assert_eq!(
        (first["piece"].as_i64(), first["inside"].as_bool()),
        (Some(1), Some(false))
    );
    assert_eq!(first["readings"].as_array().unwrap().len(), 4);
    // The same press, played in the room itself.
    let same = begun(Exercise {
        help: Help::Full,
        ..exercise(21, Fault::PinchedArm, 4)
    });
    let shown = same.pieces()[0].readings[2][1].shown.in_unit(Unit::Inch);
    assert_eq!(first["readings"][2][1].as_f64(), Some(shown));
    let mut now = first;
    while now["inside"] == false {
        let advised = json(&format!("practice {state} --advice --json"));
        let turns = advised["advice"]["turns"].to_string();
        let turns = turns.trim_matches(['[', ']']);
        now = json(&format!("practice {state} --turned {turns} --json"));
    }
    let line = format!("practice {state} --accept --reveal --record r.csv --json");
    let end = json(&line);
    assert_eq!(end["debrief"]["result"], "true");
    assert_eq!(end["debrief"]["faults"][0]["fault"], "pinched-arm");
    assert_eq!(end["debrief"]["remarks"].as_array().unwrap().len(), 0);
    let record = std::fs::read_to_string(shop.file("r.csv")).unwrap();
    assert_eq!(record.lines().count(), 2, "{record}");
    assert!(
        record.contains(",21,,pinched-arm,middling,4,full,true,"),
        "{record}"
    );
    // Revealed again, the line is not doubled.
    shop.out(&format!("practice {state} --reveal --record r.csv"));
    let record = std::fs::read_to_string(shop.file("r.csv")).unwrap();
    assert_eq!(record.lines().count(), 2, "{record}");
}

#[test]
fn practice_as_text() {
    let shop = Shop::new();
    let run = |line: &str| shop.run(line);
    let said = shop.out("practice --exercise 5 --who Ana");
    assert!(said.starts_with("PRACTICE: simulated press"), "{said}");
    let turned = shop.out("practice practice-5.jawlesson --careless safe --turned 1,0,0");
    assert!(turned.contains("before it was made safe"), "{turned}");
    let over = run("practice practice-5.jawlesson --turned 1,0,0");
    assert_eq!(over.status, 2);
    assert!(over.err.contains("This exercise is over"), "{over:?}");
    for language in ["en", "es"] {
        let line = format!("practice practice-5.jawlesson --reveal --language {language}");
        shop.out(&line);
    }
    // Never where a session is wanted.
    for command in ["judge", "plan"] {
        let refused = run(&format!("{command} practice-5.jawlesson"));
        assert_eq!(refused.status, 2);
        assert!(refused.err.contains("a practice file"), "{refused:?}");
    }
    let refused = run("learn practice-5.jawlesson --press p.jawpress");
    assert!(refused.err.contains("a practice file"), "{refused:?}");
    // A press of one's own.
    let own = shop.out("practice --exercise 9 --profile 0.248,0.251,0.249 own.jawlesson");
    assert!(own.contains("3 arms"), "{own}");
    // Handed out and begun from.
    shop.out("practice --exercise 8 hand.jawlesson --hand-out --title Monday");
    let begun = shop.out("practice --from hand.jawlesson mine.jawlesson");
    assert!(begun.contains("Monday"), "{begun}");
    for (line, words) in [
        ("practice", "--exercise"),
        ("practice --exercise 0", "count from 1"),
        ("practice --exercise 3 --arms 20", "2 to 8 arms, found 20"),
        ("practice --exercise 3 --fault gremlins", "found “gremlins”"),
        (
            "practice mine.jawlesson --arms 3",
            "goes with the beginning",
        ),
        (
            "practice mine.jawlesson --turned 1",
            "separated by commas, one per arm",
        ),
        ("practice hand.jawlesson --turned 1", "--from"),
        (
            "practice --exercise 8 hand.jawlesson",
            "already a file of this name",
        ),
    ] {
        let ran = run(line);
        assert_eq!(ran.status, 2, "{line}: {ran:?}");
        assert!(ran.err.contains(words), "{line}: {ran:?}");
    }
}

/// In the shop's folder a practice file is named for what it is and counted
/// nowhere, whatever its name ends in.
#[test]
fn the_shop_counts_no_practice() {
    let shop = Shop::new();
    let mut sample = store::SampleSession::default().session().unwrap();
    sample.invented = false;
    store::save(&shop.file("real.jawtrue"), &sample, Expected::Nothing).unwrap();
    let before = shop.run("shop . --json");
    let readings = shop.run("export . -o before.csv");
    assert_eq!(
        (before.status, readings.status),
        (0, 0),
        "{before:?} {readings:?}"
    );
    shop.out("practice --exercise 5 a.jawlesson");
    let practice = shop.file("a.jawlesson");
    std::fs::copy(&practice, shop.file("b.jawtrue")).unwrap();
    let after = shop.run("shop . --json");
    // Every press as before, and beside them what was not counted.
    for line in before.out.lines() {
        assert!(after.out.lines().any(|other| other == line), "{after:?}");
    }
    let presses = |out: &str| {
        out.lines()
            .filter(|line| line.contains("\"press\""))
            .count()
    };
    assert_eq!(presses(&after.out), presses(&before.out));
    for words in Language::ALL {
        let said = shop.run(&format!("shop . --language {}", words.code()));
        assert_eq!(said.status, 0, "{said:?}");
        let lines: Vec<&str> = said.out.lines().collect();
        let practice = words.shop_practice("a.jawlesson, b.jawtrue");
        for line in [words.shop_summary(1, 1), practice] {
            assert!(lines.contains(&line.as_str()), "{line}: {said:?}");
        }
    }
    shop.run("export . -o after.csv");
    let read = |name: &str| std::fs::read_to_string(shop.file(name)).unwrap();
    assert_eq!(read("before.csv"), read("after.csv"));
}
