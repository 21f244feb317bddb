//! What the window says and offers while readings are missing or doubtful, in
//! both languages: never a verdict, never turns, always one next act.

#[path = "common/mod.rs"]
mod common;
#[path = "support/hand.rs"]
mod hand;

use eframe::egui::{Key, Modifiers, Role};
use egui_kittest::kittest::{NodeT, Queryable};
use hand::{
    Opening, Window, click, enter_at, fill, open, press, push, shows, type_at, type_text, wait,
};
use jawtrue::press::ArmIndex;
use jawtrue::session::Session;
use jawtrue::store::SampleSession;
use jawtrue::words::Language;
use tempfile::TempDir;

/// A window on a session as of one's own press, and the folder it lives in.
fn window(session: &Session, words: Language) -> (Window, TempDir) {
    let session = &Session {
        invented: false,
        ..session.clone()
    };
    let folder = tempfile::tempdir().unwrap();
    let harness = open(
        folder.path(),
        Opening {
            preferences: &hand::speaking(words),
            file: Some(hand::file_of(folder.path(), session)),
            ..Opening::default()
        },
    );
    (settled(harness), folder)
}

/// Lets the threads of files and advice answer.
fn settled(mut harness: Window) -> Window {
    wait(&mut harness, 40);
    for words in Language::ALL {
        hand::settle(&mut harness, words);
    }
    harness
}

fn hides(harness: &Window, labels: &[&str]) {
    for label in labels {
        hand::hides(harness, label);
    }
}

fn offers(harness: &Window, act: &str) {
    let found = harness.query_all_by_role_and_label(Role::Button, act);
    assert!(found.count() > 0, "no button {act}");
}

/// Words that speak of a verdict or of turns to make.
const VERDICTS: [&str; 5] = [
    "The jaws are true",
    "inside so far",
    "put the pins back",
    "✓  inside",
    "Make safe and turn",
];

#[test]
fn a_passing_pass_that_loses_an_arm_passes_no_more() {
    let (mut harness, _folder) =
        window(&SampleSession::Inside.session().unwrap(), Language::English);
    shows(&harness, "The jaws are true");
    offers(&harness, "Make safe, close out");
    hides(
        &harness,
        &["Lace again without turns", "Make safe and turn"],
    );
    for cell in ["Reading 1 at A", "Reading 2 at A"] {
        fill(&mut harness, cell, "");
    }
    let harness = settled(harness);
    shows(&harness, "Not judged yet. Still to measure: A.");
    offers(&harness, "Measure A");
    hides(&harness, &VERDICTS);
}

#[test]
fn what_is_no_thickness_is_no_pass() {
    let (mut harness, _folder) =
        window(&SampleSession::Inside.session().unwrap(), Language::English);
    enter_at(&mut harness, "Reading 1 at B", "abc");
    let harness = settled(harness);
    shows(
        &harness,
        "Type the reading at B again: it is not a thickness.",
    );
    hides(&harness, &VERDICTS);
}

#[test]
fn what_is_no_thickness_keeps_the_keyboard_and_nuts_wait() {
    let (mut harness, _folder) = window(
        &SampleSession::default().session().unwrap(),
        Language::English,
    );
    enter_at(&mut harness, "Reading 1 at B", "?");
    let mut harness = settled(harness);
    let has_keyboard = |harness: &Window, label: &str| {
        let cell = harness.get_by_role_and_label(Role::TextInput, label);
        cell.accesskit_node().is_focused()
    };
    assert!(has_keyboard(&harness, "Reading 1 at B"));
    let out = harness.get_by_role_and_label(Role::Button, "Turn B out one notch");
    assert!(out.accesskit_node().is_disabled());
    // By keyboard neither.
    press(&mut harness, Modifiers::COMMAND, Key::T);
    press(&mut harness, Modifiers::NONE, Key::ArrowUp);
    hides(&harness, &["OUT 1 notch,", "IN 1 notch,"]);
    // What is typed next takes its place, and no good reading's.
    press(&mut harness, Modifiers::COMMAND, Key::R);
    type_at(&mut harness, "Reading 1 at B", "0.24x");
    press(&mut harness, Modifiers::NONE, Key::Tab);
    assert!(has_keyboard(&harness, "Reading 1 at B"));
    type_text(&mut harness, "0.2450");
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert!(has_keyboard(&harness, "Reading 1 at C"));
    let text = |harness: &Window, station: usize| {
        let pass = &harness.state().session().passes[0];
        pass.cell(station, 0).text().to_owned()
    };
    assert_eq!(
        [text(&harness, 1), text(&harness, 2)],
        ["0.2450 in", "0.2510 in"]
    );
    // An arrow, or Enter with nothing typed anew, goes on; what was typed stays.
    for (key, typed) in [(Key::ArrowDown, "x"), (Key::Enter, "y")] {
        type_at(&mut harness, "Reading 1 at C", typed);
        if key == Key::Enter {
            press(&mut harness, Modifiers::NONE, key);
        }
        press(&mut harness, Modifiers::NONE, key);
        assert!(has_keyboard(&harness, "Reading 1 at D"), "{key:?}");
        assert_eq!(text(&harness, 2), typed);
    }
}

#[test]
fn a_piece_that_passes_asks_for_no_turns() {
    let (mut harness, _folder) =
        window(&SampleSession::Taper.session().unwrap(), Language::English);
    shows(
        &harness,
        "Leave the nuts. Make safe, put the pins back, close out.",
    );
    offers(&harness, "Make safe, close out");
    hides(&harness, &["OUT 1: spread", "IN 1: spread"]);
    click(&mut harness, Role::DisclosureTriangle, "More ways, and why");
    harness.run_steps(20);
    shows(&harness, "These are about another one.");
    shows(&harness, "OUT 1: spread");
}

#[test]
fn slips_are_cured_with_one_click_each() {
    let session = common::session(&["2.50", "0.2500", "6.375", "0.2505", "0.2510"]);
    let (mut harness, _folder) = window(&session, Language::English);
    shows(&harness, "Check the reading at A: it can't be right.");
    hides(&harness, &VERDICTS);
    hides(&harness, &["thicker", "too open"]);
    push(&mut harness, "Change it to 0.2500″");
    push(&mut harness, "Change it to 6.375 mm");
    let harness = settled(harness);
    shows(&harness, "The jaws are true");
    let pass = &harness.state().session().passes[0];
    assert_eq!(pass.cell(0, 0).text(), "0.2500 in");
    assert_eq!(pass.cell(2, 0).text(), "6.375 mm");
}

#[test]
fn a_doubted_reading_can_be_kept_and_undone() {
    let session = common::session(&["0.2500", "0.4500", "0.2500", "0.2505"]);
    let (mut harness, _folder) = window(&session, Language::English);
    offers(&harness, "Check the reading at B");
    hides(&harness, &VERDICTS);
    push(&mut harness, "It is right: keep it");
    let mut harness = settled(harness);
    let kept = |harness: &Window| {
        let pass = &harness.state().session().passes[0];
        pass.cell(1, 0).reading().unwrap().kept.is_some()
    };
    assert!(kept(&harness));
    hides(&harness, &["it can't be right"]);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert!(!kept(&harness));
}

#[test]
fn readings_of_one_place_that_differ_are_measured_again() {
    let session = common::session(&[
        "0.2500 0.2505",
        "0.2510 0.2510",
        "0.2505 0.2500",
        "0.2530 0.2440",
    ]);
    let (mut harness, _folder) = window(&session, Language::English);
    shows(&harness, "Measure D again: its readings are too far apart.");
    hides(&harness, &VERDICTS);
    // The main button puts the keyboard on the next cell of D.
    let again = harness.query_all_by_role_and_label(Role::Button, "Measure D again");
    again.last().unwrap().click();
    harness.run_steps(4);
    type_text(&mut harness, "0.2530");
    press(&mut harness, Modifiers::NONE, Key::Enter);
    let pass = &harness.state().session().passes[0];
    assert_eq!(pass.cell(3, 2).text(), "0.2530 in");
}

#[test]
fn a_whole_piece_in_the_other_unit_is_one_click() {
    let inches = ["0.2400", "0.2480", "0.2490", "0.2500"].map(|text| format!("{text}mm"));
    let readings: Vec<&str> = inches.iter().map(String::as_str).collect();
    for (words, looks, cure) in [
        (
            Language::English,
            "The whole piece looks as if it was typed in inches",
            "Read the whole piece in inches",
        ),
        (
            Language::Spanish,
            "Toda la pieza parece escrita en pulgadas",
            "Leer toda la pieza en pulgadas",
        ),
    ] {
        let (harness, _folder) = window(&common::session(&readings), words);
        shows(&harness, looks);
        hides(&harness, &VERDICTS);
        hides(&harness, &["parejas", "99"]);
        // Under the readings, and on the main button.
        let cures = harness.query_all_by_role_and_label(Role::Button, cure);
        let cures: Vec<_> = cures.collect();
        assert_eq!(cures.len(), 2);
        cures[1].click();
        let harness = settled(harness);
        hides(&harness, &[looks]);
        let pass = &harness.state().session().passes[0];
        assert_eq!(pass.cell(0, 0).text(), "0.2400 in");
    }
}

#[test]
fn turns_that_would_do_harm_are_said_and_not_offered() {
    for (words, pinch, back, alike) in [
        (
            Language::English,
            "These turns would leave B pinched",
            "Drop this trial",
            "True: every arm",
        ),
        (
            Language::Spanish,
            "Estos giros dejarían B demasiado apretado",
            "Descartar estos giros",
            "Parejas: cada brazo",
        ),
    ] {
        let (mut harness, _folder) = window(&SampleSession::Inside.session().unwrap(), words);
        // On a piece that passes nuts are asked for.
        press(&mut harness, Modifiers::COMMAND, Key::T);
        let nut = words.turn_one_in(ArmIndex(1));
        for _ in 0..6 {
            push(&mut harness, &nut);
        }
        let mut harness = settled(harness);
        shows(&harness, pinch);
        offers(&harness, back);
        hides(&harness, &["The jaws are true"]);
        press(&mut harness, Modifiers::NONE, Key::F11);
        harness.run_steps(4);
        shows(&harness, pinch);
        hides(&harness, &[alike]);
        press(&mut harness, Modifiers::NONE, Key::Escape);
        push(&mut harness, back);
        let harness = settled(harness);
        hides(&harness, &[pinch]);
    }
}
