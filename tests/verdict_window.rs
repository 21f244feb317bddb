//! Chances, verdicts and what would settle them, in the window.

use std::path::Path;
use std::time::Duration;

use eframe::egui::accesskit::Toggled;
use eframe::egui::{Key, Modifiers, Role};
use egui_kittest::kittest::{NodeT, Queryable};
use jawtrue::press::{Arm, Press};
use jawtrue::session::{AcceptedBy, Confidence, Document, Edit, Field, Session};
use jawtrue::store::Expected;
use jawtrue::units::{Sign, TypedLength, Unit};
use jawtrue::words::Language;

#[path = "support/hand.rs"]
mod hand;

use hand::{Opening, Window, click, open, press, type_at};

const ENGLISH: Language = Language::English;

fn inch(text: &str) -> TypedLength {
    TypedLength::parse(text, Unit::Inch, Sign::None).unwrap()
}

/// Four arms, each read once with a step of 0.0005 in and a known
/// repeatability: inside by plain comparison, but not for sure.
fn too_close() -> Session {
    let arm = |position| Arm {
        position: inch(position),
        notch_effect: inch("0.004"),
        limits: None,
        opening_margin: None,
    };
    let press = Press {
        drive: Default::default(),
        left_hand_thread: false,
        name: String::new(),
        jaw_length: inch("48"),
        arms: ["6", "18", "30", "42"].map(arm).to_vec(),
        nut_travel: None,
    };
    let mut document = Document::unsaved(Session::new("test".to_owned(), Unit::Inch, press));
    let pass = Edit::AddPass {
        turns: Vec::new(),
        laced: String::new(),
    };
    let readings = [".2500", ".2510", ".2524", ".2515"];
    let fill = Edit::Fill {
        pass: 0,
        station: 0,
        repeat: 0,
        rows: readings.map(|text| vec![text.to_owned()]).to_vec(),
        bare: Unit::Inch,
    };
    document.apply(&pass).unwrap();
    document.apply(&fill).unwrap();
    let known = Edit::Set {
        field: Field::GaugeRepeatability,
        text: "0.00029".to_owned(),
        bare: Unit::Inch,
    };
    document.apply(&known).unwrap();
    document.session().clone()
}

fn window(folder: &Path) -> Window {
    let path = folder.join("close.jawtrue");
    jawtrue::store::save(&path, &too_close(), Expected::Nothing).unwrap();
    let mut harness = open(
        folder,
        Opening {
            size: [1400.0, 1800.0],
            file: Some(path),
            ..Opening::default()
        },
    );
    settle(&mut harness);
    harness
}

/// Lets jobs on other threads finish.
fn settle(harness: &mut Window) {
    hand::settle(harness, ENGLISH);
    for _ in 0..100 {
        std::thread::sleep(Duration::from_millis(10));
        harness.step();
    }
}

#[test]
fn what_is_too_close_to_call_says_what_to_measure_again() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path());
    // A plain line beside the verdict, the rest in a dialog of its own.
    harness.get_by_label("A close call: it may really be outside.");
    assert!(harness.query_by_label_contains("This piece: ").is_none());
    click(&mut harness, Role::Button, ENGLISH.how_sure());
    harness.get_by_label_contains("This piece: ");
    harness.get_by_label(
        "Too close to call. Measure A 8 more times, C 7 more times: that decides it in 8 of 10 cases.",
    );
    let called = "too close to call (95% sure is asked for)";
    assert_eq!(harness.get_all_by_label_contains(called).count(), 2);

    // Every figure behind it, to be checked by hand: a reading scatters
    // 0.00029, rounding included; twice that in squares is 0.00041.
    let worked_out = "How this was worked out";
    click(&mut harness, Role::DisclosureTriangle, worked_out);
    harness.run_steps(20);
    harness.get_by_label("Uncertainty of the spread, this press");
    assert_eq!(harness.get_all_by_label("0.00029″").count(), 4);
    harness.get_by_label_contains("root of the sum of squares: 0.00041″");
    let left_out = "Left out: the error of the gauge's scale";
    assert_eq!(harness.get_all_by_label_contains(left_out).count(), 2);
    harness.get_by_label_contains("JCGM 106:2012");
    click(&mut harness, Role::Button, "Copy as text");
    click(&mut harness, Role::Button, ENGLISH.close());

    // By keyboard it is left and opened again.
    assert!(harness.query_by_label_contains("This piece: ").is_none());
    let sure = harness.get_by_role_and_label(Role::Button, ENGLISH.how_sure());
    sure.focus();
    harness.run_steps(2);
    press(&mut harness, Modifiers::NONE, Key::Enter);
    harness.get_by_label_contains("This piece: ");
    press(&mut harness, Modifiers::NONE, Key::Escape);

    // Once both are read again as advised, and to the same, it is settled.
    for (arm, text, times) in [("A", "0.2500", 8), ("C", "0.2524", 7)] {
        let cell = format!("Reading 2 at {arm}");
        harness.get_by_label(&cell).focus();
        harness.run_steps(2);
        let row = vec![text; times].join("\t");
        harness.event(eframe::egui::Event::Paste(row));
        settle(&mut harness);
    }
    click(&mut harness, Role::Button, ENGLISH.how_sure());
    harness.get_by_label_contains("This piece: inside (95% sure is asked for)");
}

#[test]
fn the_shop_may_ask_for_its_confidence() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path());
    harness.get_by_label("The jaws are true: all arms within 0.003″.");
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Comma);
    harness.run_steps(3);
    click(&mut harness, Role::Tab, ENGLISH.part_visit());
    let strict = ENGLISH.accepted_when_sure();
    click(&mut harness, Role::RadioButton, strict);
    assert_eq!(
        harness.state().session().acceptance.by,
        AcceptedBy::Confidence
    );
    let field = ENGLISH.field_confidence();
    harness
        .get_by_role_and_label(Role::TextInput, field)
        .focus();
    harness.run_steps(2);
    press(&mut harness, Modifiers::COMMAND, Key::A);
    type_at(&mut harness, field, "99");
    press(&mut harness, Modifiers::NONE, Key::Enter);
    let confidence = harness.state().session().acceptance.confidence;
    assert_eq!(confidence, Confidence::from_per_mille(990).unwrap());
    click(&mut harness, Role::Button, ENGLISH.close());
    settle(&mut harness);
    harness.get_by_label_contains("asks for 99%");

    // It is the shop's: the next session starts with it.
    drop(harness);
    let mut harness = open(folder.path(), Opening::default());
    let later = ENGLISH.decide_later();
    if harness
        .query_by_role_and_label(Role::Button, later)
        .is_some()
    {
        click(&mut harness, Role::Button, later);
    }
    press(&mut harness, Modifiers::COMMAND, Key::N);
    type_at(&mut harness, ENGLISH.field_jaw_length(), "48");
    type_at(&mut harness, ENGLISH.first_arm_at(), "6");
    click(&mut harness, Role::Button, ENGLISH.start_session());
    assert!(harness.state().session().passes.is_empty());
    assert_eq!(harness.state().session().acceptance.confidence, confidence);
    assert_eq!(
        harness.state().session().acceptance.by,
        AcceptedBy::Confidence
    );
}

/// What judges is shown as it was typed, whatever the unit on show; the other
/// figure stands behind it, and which usual one is in force is marked.
#[test]
fn the_tolerance_in_force_is_never_converted() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path());
    click(
        &mut harness,
        Role::Button,
        ENGLISH.unit_short(Unit::Millimetre),
    );
    press(&mut harness, Modifiers::COMMAND, Key::Comma);
    click(&mut harness, Role::Tab, ENGLISH.part_visit());
    let tolerance = ENGLISH.field_tolerance();
    let shown = |harness: &Window| {
        let field = harness.get_by_role_and_label(Role::TextInput, tolerance);
        field.accesskit_node().value().unwrap_or_default()
    };
    let is_chosen = |harness: &Window, usual: &str| {
        let choice = harness.get_by_role_and_label(Role::RadioButton, usual);
        choice.accesskit_node().toggled() == Some(Toggled::True)
    };
    assert_eq!(shown(&harness), "0.003″");
    harness.get_by_label(&ENGLISH.tolerance_in_force("0.003″", "0.0762 mm"));
    assert!(is_chosen(&harness, "0.003″") && !is_chosen(&harness, "0.1 mm"));
    // Looked at and left, it is what it was.
    let before = harness.state().session().clone();
    let field = harness.get_by_role_and_label(Role::TextInput, tolerance);
    field.focus();
    harness.run_steps(2);
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert_eq!(harness.state().session(), &before);
    click(&mut harness, Role::RadioButton, "0.1 mm");
    assert_eq!(shown(&harness), "0.1 mm");
    assert!(is_chosen(&harness, "0.1 mm"));
    let nm = harness.state().session().tolerance.length().nm();
    assert_eq!(nm, 100_000);
}
