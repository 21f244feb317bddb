//! Pages as PDF, looked at with poppler (Debian's `poppler-utils`): their text
//! is found, their fonts are embedded, they are tagged and of the right size,
//! in both languages, units and papers; and no turn stands on a card where
//! something is missing or doubtful.

mod common;

use std::path::Path;
use std::process::Command;

use common::{jawtrue, session};
use jawtrue::report::{Facts, Fonts, Mark, Page, Paper, Printed, Setting, turn_card};
use jawtrue::session::{Edit, PriorShelf, Session};
use jawtrue::store::{self, Expected, SampleSession};
use jawtrue::units::Unit;
use jawtrue::words::{Figures, Language};

/// What a program of poppler's prints about a file.
fn poppler(program: &str, arguments: &[&str], file: &Path) -> String {
    let output = Command::new(program)
        .args(arguments)
        .arg(file)
        .args(if program == "pdftotext" {
            &["-"][..]
        } else {
            &[]
        })
        .output()
        .unwrap_or_else(|error| panic!("{program}, of Debian's poppler-utils: {error}"));
    assert!(output.status.success(), "{program}: {output:?}");
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// Text with every run of blanks as one.
fn text_of(file: &Path) -> String {
    let text = poppler("pdftotext", &["-layout"], file);
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn figures(session: &Session, language: Language, unit: Unit) -> Figures {
    Figures {
        language,
        unit,
        step: session.gauge.step.length(),
        limit: Some(session.tolerance.length()),
    }
}

fn setting(session: &Session, language: Language, unit: Unit, paper: Paper) -> Setting {
    Setting {
        figures: figures(session, language, unit),
        paper,
        today: None,
        practice: false,
        printed: "2026-11-26 10:00".into(),
    }
}

/// The samples in every language, unit and paper.
fn each(mut look: impl FnMut(&Session, &Setting)) {
    for sample in SampleSession::ALL {
        let session = sample.session().unwrap();
        for language in Language::ALL {
            for (unit, paper) in [(Unit::Inch, Paper::Letter), (Unit::Millimetre, Paper::A4)] {
                look(&session, &setting(&session, language, unit, paper));
            }
        }
    }
}

#[test]
fn text_is_found_fonts_are_embedded_and_parts_are_tagged() {
    let folder = tempfile::tempdir().unwrap();
    let shelf = PriorShelf::default();
    each(|session, setting| {
        for what in [Printed::TurnCard, Printed::Report] {
            let file = folder.path().join("page.pdf");
            let bytes = what.document(session, None, setting, &shelf).unwrap();
            std::fs::write(&file, bytes).unwrap();
            let text = text_of(&file);
            let words = setting.figures.language;
            for expected in [
                what.title(words),
                &session.press.name,
                &session.notes.who,
                &session.id,
                words.report_invented(),
                "2026-11-26 10:00",
            ] {
                assert!(text.contains(expected), "{expected:?} in {what:?}: {text}");
            }
            let fonts = poppler("pdffonts", &[], &file);
            let lines: Vec<&str> = fonts.lines().skip(2).collect();
            assert!(!lines.is_empty());
            for line in lines {
                // Embedded, subset, and mapped to Unicode.
                assert!(line.contains("yes yes yes"), "{fonts}");
            }
            let info = poppler("pdfinfo", &[], &file);
            assert!(info.contains("Tagged:          yes"), "{info}");
            let (width, _) = setting.paper.size();
            assert!(
                info.contains(&format!("Page size:       {}", rounded(width))),
                "{info}"
            );
            let pages = poppler("pdfinfo", &[], &file);
            let pages = pages
                .lines()
                .find(|line| line.starts_with("Pages"))
                .unwrap();
            let most = if what == Printed::TurnCard { 1 } else { 2 };
            let count: usize = pages.split_whitespace().last().unwrap().parse().unwrap();
            assert!(count <= most, "{what:?} of {}: {pages}", session.press.name);
            let structure = poppler("pdfinfo", &["-struct-text"], &file);
            for part in ["H1", "Table", "P"] {
                assert!(structure.contains(part), "{part}: {structure}");
            }
        }
    });
}

fn rounded(points: f32) -> String {
    let text = format!("{points:.3}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// Every letter of a page.
fn letters(pages: &[Page]) -> String {
    let marks = pages.iter().flat_map(|page| &page.marks);
    let texts = marks.filter_map(|mark| match mark {
        Mark::Text { text, .. } => Some(text.as_str()),
        _ => None,
    });
    texts.collect::<Vec<_>>().join(" ")
}

fn card(session: &Session, language: Language) -> String {
    let fonts = Fonts::new();
    let facts = Facts::of(session, None, &PriorShelf::default());
    let setting = setting(session, language, Unit::Inch, Paper::Letter);
    letters(&turn_card(session, &facts, &setting, &fonts))
}

fn edited(session: &Session, station: usize, text: &str) -> Session {
    let edit = Edit::enter((0, station, 0), text, Unit::Inch);
    session.edited(&edit).unwrap()
}

#[test]
fn no_turn_stands_on_a_card_while_something_is_missing_or_doubtful() {
    let sound = session(&["0.2500", "0.2440", "0.2500", "0.2500"]);
    let missing = session(&["0.2500", "0.2440", "0.2500", ""]);
    let doubtful = edited(&sound, 3, "2.500");
    let unreadable = edited(&sound, 3, "o.25");
    let unlaced = Session::new("new".into(), Unit::Inch, sound.press.clone());
    let inside = session(&["0.2500", "0.2500", "0.2500", "0.2500"]);
    for language in Language::ALL {
        let figures = figures(&sound, language, Unit::Inch);
        let turned = card(&sound, language);
        let limit = sound.tolerance.length();
        let out = figures.turn(jawtrue::press::Notches(2));
        assert!(turned.contains(&out), "{turned}");
        assert!(!turned.contains(language.card_no_turns()), "{turned}");
        assert!(turned.contains(language.caution_heading()), "{turned}");
        for (session, first) in [
            (&missing, language.act_measure("D")),
            (&doubtful, "D".to_owned()),
            (&unreadable, language.act_type_again("D")),
            (&unlaced, language.act_lace_first("A")),
            (&inside, language.stands_inside(figures.limit(limit))),
        ] {
            let page = card(session, language);
            assert!(page.contains(language.card_no_turns()), "{page}");
            assert!(page.contains(&first), "{first}: {page}");
            for notches in -6..=6 {
                let turn = figures.turn(jawtrue::press::Notches(notches));
                let said = notches != 0 && page.contains(&turn);
                assert!(!said, "{turn}: {page}");
            }
        }
    }
}

#[test]
fn a_coarse_gauge_is_told_before_any_turn() {
    // A caliper of 0.0005 in steps on a limit of 0.003 in.
    let said = card(
        &SampleSession::Pinched.session().unwrap(),
        Language::English,
    );
    let doubt = said.find("First use a micrometer.");
    let safe = said.find("Tell everyone affected");
    let turn = said.find("OUT 3 notches");
    assert!(doubt.is_some() && doubt < safe && safe < turn, "{said}");
}

#[test]
fn outs_stand_before_ins_and_a_left_hand_thread_turns_the_arrow() {
    let mut session = session(&["0.2500", "0.2500", "0.2500", "0.2500"]);
    session = edited(&session, 0, "0.2560");
    session = edited(&session, 3, "0.2440");
    let fonts = Fonts::new();
    let shelf = PriorShelf::default();
    let turns = [-1, 0, 0, 2].map(jawtrue::press::Notches);
    let facts = Facts::of(&session, Some(&turns), &shelf);
    let english = setting(&session, Language::English, Unit::Inch, Paper::Letter);
    // Nobody looked at the thread: no way is printed.
    let page = letters(&turn_card(&session, &facts, &english, &fonts));
    assert!(
        !page.contains("clockwise") && page.contains("thread runs"),
        "{page}"
    );
    session.press.left_hand_thread = Some(false);
    let facts = Facts::of(&session, Some(&turns), &shelf);
    assert!(facts.may_turn(), "{:?}", facts.step);
    let order: Vec<usize> = facts.nuts_to_turn().iter().map(|(arm, _)| arm.0).collect();
    assert_eq!(order, [3, 0]);
    let english = setting(&session, Language::English, Unit::Inch, Paper::Letter);
    let page = letters(&turn_card(&session, &facts, &english, &fonts));
    let out = page.find("OUT 2 notches").unwrap();
    let inward = page.find("IN 1 notch").unwrap();
    assert!(out < inward, "{page}");
    // OUT backs a right-hand nut off, against the clock.
    let way =
        |page: &str| page.find("counterclockwise").unwrap() < page.find(" clockwise").unwrap();
    assert!(way(&page), "{page}");
    session.press.left_hand_thread = Some(true);
    let facts = Facts::of(&session, Some(&turns), &shelf);
    let page = letters(&turn_card(&session, &facts, &english, &fonts));
    assert!(!way(&page), "{page}");
    assert!(page.contains(Language::English.card_left_hand()), "{page}");
}

/// Nothing reaches past the edge of a page, whatever the press and its names.
#[test]
fn nothing_is_cut_off() {
    let fonts = Fonts::new();
    let long =
        "Prensa número siete del taller de arriba con un nombre que no termina nunca ".repeat(3);
    let mut wide = session(&["0.2500"; 12]);
    wide.press.name = long.clone();
    wide.notes.who = long.clone();
    wide.notes.belt = long.replace(' ', "");
    let wide = edited(&edited(&wide, 5, "0.2440"), 7, "0.2420");
    for language in Language::ALL {
        for paper in Paper::ALL {
            let facts = Facts::of(&wide, None, &PriorShelf::default());
            let setting = setting(&wide, language, Unit::Millimetre, paper);
            let card = turn_card(&wide, &facts, &setting, &fonts);
            let report = jawtrue::report::session_report(&wide, &facts, &setting, &fonts);
            for page in card.iter().chain(&report) {
                for mark in &page.marks {
                    let Mark::Text {
                        at,
                        size,
                        face,
                        text,
                        ..
                    } = mark
                    else {
                        continue;
                    };
                    let right = at.x + fonts.width(text.trim_end(), *size, *face);
                    let inside = at.x >= 0.0
                        && right <= page.width - 8.0
                        && at.y <= page.height - 8.0
                        && at.y - size >= 0.0;
                    assert!(inside, "{text:?} at {at:?}, to {right}");
                }
            }
        }
    }
}

#[test]
fn the_commands_write_what_is_asked_for_and_refuse_the_rest() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path();
    let found = session(&["0.2500", "0.2440", "0.2500", "0.2500"]);
    store::save(&path.join("p.jawtrue"), &found, Expected::Nothing).unwrap();
    let run = |line: &str| jawtrue(path, &line.split_whitespace().collect::<Vec<_>>());
    for (line, head) in [
        ("card p.jawtrue -o c.pdf", &b"%PDF-"[..]),
        (
            "report p.jawtrue -o r.pdf --language es --unit mm --paper a4",
            b"%PDF-",
        ),
        ("report p.jawtrue -o r.png", b"\x89PNG"),
        ("report p.jawtrue -o r.svg", b"<svg "),
        ("report p.jawtrue -o r.csv", b"file,session,"),
    ] {
        let ran = run(line);
        assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{line}");
        let name = line.split_whitespace().nth(3).unwrap();
        let bytes = std::fs::read(path.join(name)).unwrap();
        assert!(bytes.starts_with(head), "{line}");
    }
    assert!(text_of(&path.join("r.pdf")).contains("Informe de la visita"));
    for (line, sentence) in [
        ("card p.jawtrue", "-o is missing; this command needs it."),
        ("card -o c.pdf", "The name of a visit file is missing."),
        (
            "card p.jawtrue -o c.png",
            "c.png: the name must end in .pdf.",
        ),
        (
            "report p.jawtrue -o r.doc",
            "r.doc: the name must end in .pdf, .png, .svg, .csv.",
        ),
        (
            "report p.jawtrue -o r.pdf --paper A3",
            "--paper: must be letter or A4; this is “A3”.",
        ),
        (
            "report p.jawtrue -o no/r.pdf",
            "There is no such file or folder. File: no/r.pdf",
        ),
    ] {
        let ran = run(line);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{line}");
        assert!(ran.err.contains(sentence), "{line}: {}", ran.err);
    }
}
