//! The window for every hand: nothing unnamed, nothing too small to press,
//! nothing cut off, and what a shop has set stays set.

use eframe::egui::{Key, Modifiers, Role};
use egui_kittest::kittest::Queryable;
use jawtrue::session::{OwnStep, Stage, Step, StepId};
use jawtrue::units::Unit;
use jawtrue::words::{Figures, Language};

#[path = "support/hand.rs"]
mod hand;

use hand::{Opening, Window, click, open, press, type_at};

/// Starts a session from the keyboard.
fn new_session(harness: &mut Window) {
    let words = Language::English;
    press(harness, Modifiers::COMMAND, Key::N);
    type_at(harness, words.field_jaw_length(), "48");
    type_at(harness, words.arm_positions(), "6 18 30 42");
    click(harness, Role::Button, words.start_session());
}

#[test]
fn the_shops_own_steps_stay_from_start_to_start() {
    let folder = tempfile::tempdir().unwrap();
    let words = Language::English;
    let mut harness = open(folder.path(), Opening::default());
    new_session(&mut harness);
    let stage = words.stage_and_state(
        words.stage(Stage::CloseOut),
        words.path_state(jawtrue::session::PathState::Todo),
    );
    click(&mut harness, Role::Tab, &stage);
    let filed = Figures::exact(words, Unit::Inch)
        .step(Step::RecordFiled)
        .text;
    click(&mut harness, Role::Button, &words.more_about(&filed));
    click(&mut harness, Role::Button, words.hide_step());
    harness.get_by_label(words.edit_steps()).click();
    harness.run_steps(20);
    type_at(&mut harness, words.new_step(), "Call the foreman");
    click(&mut harness, Role::Button, words.add_step());
    type_at(&mut harness, words.new_step(), "Forget this one");
    click(&mut harness, Role::Button, words.add_step());
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    // The program ends without a word, as at a power cut.
    drop(harness);

    let mut harness = open(folder.path(), Opening::default());
    // Work kept aside would be offered first.
    let later = harness.query_by_role_and_label(Role::Button, words.decide_later());
    if later.is_some() {
        click(&mut harness, Role::Button, words.decide_later());
    }
    new_session(&mut harness);
    let list = &harness.state().session().checklist;
    let own = OwnStep {
        stage: Stage::CloseOut,
        text: "Call the foreman".into(),
    };
    assert_eq!(list.own, [own]);
    assert_eq!(list.hidden, [StepId::Fixed(Step::RecordFiled)]);
    assert!(list.marks.is_empty());
}
