//! Chances, verdicts and what would settle them, in the window.

use std::path::Path;

use eframe::egui::accesskit::Toggled;
use eframe::egui::{Key, Modifiers, Role};
use egui_kittest::kittest::{NodeT, Queryable};
use jawtrue::session::{AcceptedBy, Confidence, Field};
use jawtrue::units::Unit;
use jawtrue::words::Language;

#[path = "support/hand.rs"]
mod hand;
mod sessions;

use hand::{Opening, Window, click, focus, open, paste_at, press, push, says, type_at};
use sessions::{found, set, with};

const ENGLISH: Language = Language::English;

/// Four arms, each read once with a step of 0.0005 in and a known
/// repeatability: inside by plain comparison, but not for sure.
fn window(folder: &Path) -> Window {
    let piece = found(&[".2500", ".2510", ".2524", ".2515"]);
    let too_close = with(&piece, &[set(Field::GaugeRepeatability, "0.00029")]);
    let mut harness = open(
        folder,
        Opening {
            size: [1400.0, 1800.0],
            file: Some(hand::file_of(folder, &too_close)),
            ..Opening::default()
        },
    );
    settle(&mut harness);
    harness
}

/// Lets jobs on other threads finish.
fn settle(harness: &mut Window) {
    hand::settle(harness, ENGLISH);
    hand::wait(harness, 150);
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
    let called = "too close to call, as 95% sure is asked for";
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
    push(&mut harness, "Copy as text");
    push(&mut harness, ENGLISH.close());

    // By keyboard it is left and opened again.
    assert!(!says(&harness, "This piece: "));
    focus(&mut harness, Role::Button, ENGLISH.how_sure());
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert!(says(&harness, "This piece: "));
    press(&mut harness, Modifiers::NONE, Key::Escape);

    // Once both are read again as advised, and to the same, it is settled.
    for (arm, text, times) in [("A", "0.2500", 8), ("C", "0.2524", 7)] {
        let cell = format!("Reading 2 at {arm}");
        paste_at(&mut harness, &cell, &vec![text; times].join("\t"));
        settle(&mut harness);
    }
    click(&mut harness, Role::Button, ENGLISH.how_sure());
    harness.get_by_label_contains("This piece: inside, at least 95% sure");
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
    hand::fill(&mut harness, field, "99");
    let confidence = harness.state().session().acceptance.confidence;
    assert_eq!(confidence, Confidence::from_per_mille(990).unwrap());
    push(&mut harness, ENGLISH.close());
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
        push(&mut harness, later);
    }
    press(&mut harness, Modifiers::COMMAND, Key::N);
    type_at(&mut harness, ENGLISH.field_jaw_length(), "48");
    type_at(&mut harness, ENGLISH.first_arm_at(), "6");
    push(&mut harness, ENGLISH.start_session());
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
