//! The window, driven by label through the whole way.

use std::path::Path;
use std::time::Duration;

use eframe::egui::{self, Key, Modifiers, Role};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use jawtrue::store::Folders;
use jawtrue::window::{App, Surroundings};

/// A window in a folder of its own.
fn window(folder: &Path, file: Option<&str>) -> Harness<'static, App> {
    let surroundings = Surroundings {
        folders: Some(Folders {
            recovery: folder.join("recovery"),
            preferences: folder.to_owned(),
        }),
        dialogs: false,
    };
    let file = file.map(|name| folder.join(name));
    let mut harness = Harness::builder()
        .with_size([1400.0, 900.0])
        .with_theme(egui::Theme::Light)
        .build_eframe(move |cc| App::within(&cc.egui_ctx, file, surroundings));
    harness.run_steps(4);
    harness
}

/// Lets jobs on other threads finish.
fn settle(harness: &mut Harness<'static, App>) {
    for _ in 0..40 {
        std::thread::sleep(Duration::from_millis(10));
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

fn type_at(harness: &mut Harness<'static, App>, label: &str, text: &str) {
    harness.get_by_label(label).focus();
    harness.run_steps(2);
    harness.get_by_label(label).type_text(text);
    harness.run_steps(2);
}

#[test]
fn from_readings_to_turned_nuts_and_back() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), None);
    assert_eq!(harness.state().session().passes.len(), 1);

    // Typing a reading and going on with Enter.
    type_at(&mut harness, "Reading 1 at B", "0.2460");
    press(&mut harness, Modifiers::NONE, Key::Enter);
    type_at(&mut harness, "Reading 1 at C", "0.2515");
    press(&mut harness, Modifiers::NONE, Key::Enter);
    let text = |harness: &Harness<'static, App>, station, repeat| {
        harness.state().session().passes[0]
            .cell(station, repeat)
            .text()
            .to_owned()
    };
    assert_eq!(text(&harness, 1, 0), "0.2460 in");
    assert_eq!(text(&harness, 2, 0), "0.2515 in");

    // Undo and redo.
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(text(&harness, 2, 0), "0.2510 in");
    press(&mut harness, Modifiers::COMMAND, Key::Y);
    assert_eq!(text(&harness, 2, 0), "0.2515 in");

    // Turning a nut by its button, then noting that it was turned.
    harness.get_by_label_contains("leave as is: spread").click();
    harness.run_steps(3);
    click(&mut harness, "Turn D in one notch");
    harness.get_by_label_contains("Castle nut D: IN 1 notch");
    click(&mut harness, "These were turned");
    let session = harness.state().session();
    assert_eq!(session.passes.len(), 2);
    assert_eq!(session.turns_before(1)[3].0, -1);

    // Saving under a typed path.
    press(&mut harness, Modifiers::COMMAND, Key::S);
    settle(&mut harness);
    let path = folder.path().join("kept.jawtrue");
    harness.get_by_label("Path of the file").focus();
    harness.run_steps(2);
    press(&mut harness, Modifiers::COMMAND, Key::A);
    let text = path.display().to_string();
    harness.get_by_label("Path of the file").type_text(&text);
    harness.run_steps(2);
    click(&mut harness, "Save it");
    settle(&mut harness);
    let saved = jawtrue::store::open(&path).unwrap().session;
    assert_eq!(&saved, harness.state().session());
    drop(harness);

    // And on the next day.
    let mut harness = window(folder.path(), Some("kept.jawtrue"));
    settle(&mut harness);
    assert_eq!(&saved, harness.state().session());
}
