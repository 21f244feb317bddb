//! Passes side by side, the crew's view and what-ifs by hand, driven by label
//! and by keyboard.

use std::path::Path;

use eframe::egui::{self, Key, Modifiers, Role};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use jawtrue::session::Session;
use jawtrue::store::{Expected, Folders, Sample, save, session_from_text, session_text};
use jawtrue::window::{App, Surroundings};
use jawtrue::words::Language;

fn window_of(folder: &Path, session: &Session, size: [f32; 2]) -> Harness<'static, App> {
    let file = folder.join("visit.jawtrue");
    save(&file, session, Expected::Anything).unwrap();
    let surroundings = Surroundings {
        folders: Some(Folders {
            recovery: folder.join("recovery"),
            preferences: folder.to_owned(),
        }),
        dialogs: false,
    };
    let mut harness = Harness::builder()
        .with_size(size)
        .with_theme(egui::Theme::Light)
        .build_eframe(move |cc| App::within(&cc.egui_ctx, Some(file), surroundings));
    settle(&mut harness);
    harness
}

fn window(folder: &Path, sample: Sample) -> Harness<'static, App> {
    window_of(folder, &sample.session().unwrap(), [1400.0, 900.0])
}

/// Lets threads finish and what they found arrive.
fn settle(harness: &mut Harness<'static, App>) {
    for _ in 0..60 {
        std::thread::sleep(std::time::Duration::from_millis(10));
        harness.step();
    }
}

fn press(harness: &mut Harness<'static, App>, modifiers: Modifiers, key: Key) {
    harness.key_press_modifiers(modifiers, key);
    harness.run_steps(3);
}

fn click(harness: &mut Harness<'static, App>, label: &str) {
    harness.get_by_role_and_label(Role::Button, label).click();
    harness.run_steps(3);
}

fn session(harness: &Harness<'static, App>) -> Session {
    harness.state().session().clone()
}

fn type_at(harness: &mut Harness<'static, App>, label: &str, text: &str) {
    harness.get_by_label(label).focus();
    harness.run_steps(2);
    harness.get_by_label(label).type_text(text);
    harness.run_steps(2);
    press(harness, Modifiers::NONE, Key::Enter);
}

#[test]
fn passes_stand_side_by_side_and_any_two_compare() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), Sample::Taper);
    press(&mut harness, Modifiers::COMMAND, Key::B);
    settle(&mut harness);
    harness.get_by_label("Passes side by side");
    harness.get_by_label("Test pieces used: 3, measured: 3");
    // Every pass is in the picture, and in its words.
    let picture = harness.get_by_label_contains("Every pass over the jaw: ");
    let words = picture.accesskit_node().label().unwrap_or_default();
    for part in [
        "1 as found: A 0.24775",
        "2: A 0.25300",
        "3 as left: A 0.25625",
    ] {
        assert!(words.contains(part), "{words}");
    }
    // The last two, with what was foretold from the one before.
    harness.get_by_label("Turned between them: A OUT 1.");
    harness.get_by_label("Spread 0.00475″, then 0.00225″.");
    harness.get_by_label_contains("3 foretold");
    harness.get_by_label_contains("Pass 3, spread 0.00225″, foretold ");
    harness.get_by_label_contains("Pass 2: A OUT 2, B OUT 1\nforetold ");
    // As found with as left, chosen by keyboard.
    harness
        .get_by_role_and_label(Role::ComboBox, "First pass compared")
        .focus();
    harness.run_steps(2);
    press(&mut harness, Modifiers::NONE, Key::Enter);
    harness
        .get_by_role_and_label(Role::Button, "1 as found")
        .focus();
    harness.run_steps(2);
    press(&mut harness, Modifiers::NONE, Key::Enter);
    harness.get_by_label("Turned between them: A OUT 3, B OUT 1.");
    harness.get_by_label("Spread 0.01000″, then 0.00225″.");
    harness.get_by_label("+0.00850");
    press(&mut harness, Modifiers::NONE, Key::Escape);
    if harness.query_by_label("Two passes compared").is_some() {
        press(&mut harness, Modifiers::NONE, Key::Escape);
    }
    harness.get_by_label("What to do");
    click(&mut harness, "Side by side");
    harness.get_by_label("Two passes compared");
    click(&mut harness, "Back to the picture");
    harness.get_by_label("What to do");
}

#[test]
fn a_correction_is_traced_shown_saved_and_undone() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), Sample::Taper);
    press(&mut harness, Modifiers::ALT, Key::PageUp);
    press(&mut harness, Modifiers::ALT, Key::PageUp);
    type_at(&mut harness, "Reading 1 at B", "0.2515");
    harness.get_by_label_contains("Pass 1, as found ✎");
    press(&mut harness, Modifiers::COMMAND, Key::B);
    settle(&mut harness);
    let trace = harness.get_by_label_contains("Pass 1, B, reading 1: was 0.2510 in; changed 20");
    let text = trace
        .accesskit_node()
        .value()
        .or(trace.accesskit_node().label());
    assert!(text.unwrap().ends_with("by R. Alder (invented)."));
    let kept = session(&harness);
    assert_eq!(kept.passes[0].corrections.len(), 1);
    let text = session_text(&kept).unwrap();
    assert!(text.contains("corrected_readings: ["), "{text}");
    assert_eq!(session_from_text(&text).unwrap(), kept);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert!(session(&harness).passes[0].corrections.is_empty());
    let gone = harness.query_by_label_contains("Pass 1, B, reading 1");
    assert!(gone.is_none());
}

#[test]
fn side_by_side_speaks_spanish_and_takes_one_pass_or_none() {
    let folder = tempfile::tempdir().unwrap();
    let mut one = Sample::Pinched.session().unwrap();
    one.passes.truncate(1);
    let mut none = one.clone();
    none.passes.clear();
    for (session, sentence) in [
        (one, Language::Spanish.foretold_none_yet()),
        (none, Language::Spanish.nothing_laced()),
    ] {
        let mut harness = window_of(folder.path(), &session, [1024.0, 640.0]);
        click(&mut harness, "Español");
        press(&mut harness, Modifiers::COMMAND, Key::B);
        settle(&mut harness);
        harness.get_by_label("Pasadas lado a lado");
        harness.get_by_label(sentence);
        std::fs::remove_file(folder.path().join("preferences.ron")).ok();
    }
}
