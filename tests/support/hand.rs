//! A window to drive: its size, zoom, language and look by preferences, its
//! folder of its own.

// Each test takes what it needs.
#![allow(dead_code)]

use std::fs;
use std::path::{Path, PathBuf};

use eframe::egui::{self, Key, Modifiers, Role};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use jawtrue::session::Stage;
use jawtrue::store::Folders;
use jawtrue::units::Unit;
use jawtrue::window::{App, Surroundings};
use jawtrue::words::{Figures, Language};

/// A driven window.
pub type Window = Harness<'static, App>;

/// How a window is opened.
pub struct Opening<'a> {
    /// Width and height in pixels.
    pub size: [f32; 2],
    /// The preferences file, as text.
    pub preferences: &'a str,
    /// The session file.
    pub file: Option<PathBuf>,
}

impl Default for Opening<'_> {
    fn default() -> Self {
        Self {
            size: [1400.0, 900.0],
            preferences: "(look: \"light\", language: \"en\")",
            file: None,
        }
    }
}

/// Opens a window on a folder; preferences that are there already stay.
pub fn open(folder: &Path, opening: Opening<'_>) -> Window {
    let kept = folder.join("preferences.ron");
    if !kept.exists() {
        fs::write(kept, opening.preferences).unwrap();
    }
    let surroundings = Surroundings {
        folders: Some(Folders {
            recovery: folder.join("recovery"),
            preferences: folder.to_owned(),
        }),
        dialogs: false,
    };
    // The harness sets its own theme over the one that the program chose.
    let dark = ["dark", "high-contrast"];
    let dark = dark.map(|look| opening.preferences.contains(&format!("look: \"{look}\"")));
    let theme = if dark.contains(&true) {
        egui::Theme::Dark
    } else {
        egui::Theme::Light
    };
    let mut harness = Harness::builder()
        .with_size(opening.size)
        .with_theme(theme)
        .build_eframe(move |cc| App::within(&cc.egui_ctx, opening.file, surroundings));
    harness.run_steps(4);
    harness
}

/// Waits until the advice is worked out, on a thread of its own.
pub fn settle(harness: &mut Window, words: Language) {
    for _ in 0..1000 {
        if harness
            .query_all_by_label(words.thinking())
            .next()
            .is_none()
        {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(5));
        harness.step();
    }
    harness.run_steps(3);
}

/// Presses a key.
pub fn press(harness: &mut Window, modifiers: Modifiers, key: Key) {
    harness.key_press_modifiers(modifiers, key);
    harness.run_steps(3);
}

/// Clicks what has a label, brought into sight first.
pub fn click(harness: &mut Window, role: Role, label: &str) {
    harness.get_by_role_and_label(role, label).scroll_to_me();
    harness.run_steps(3);
    harness.get_by_role_and_label(role, label).click();
    harness.run_steps(3);
}

/// Types into a field.
pub fn type_at(harness: &mut Window, label: &str, text: &str) {
    let field = |harness: &Window| {
        harness
            .get_by_role_and_label(Role::TextInput, label)
            .focus()
    };
    field(harness);
    harness.run_steps(2);
    harness
        .get_by_role_and_label(Role::TextInput, label)
        .type_text(text);
    harness.run_steps(2);
}

/// Who signs in tests.
pub const SIGNER: &str = "Ann";

/// Types who signs, in the dialog in front or at the stage, where nobody does
/// yet.
pub fn sign(harness: &mut Window, words: Language) {
    let last = |harness: &Window| -> String {
        let fields = harness.query_all_by_role_and_label(Role::TextInput, words.field_who());
        let field = fields.last().expect("a field for who signs");
        field.focus();
        field.value().unwrap_or_default()
    };
    let signed = last(harness);
    harness.run_steps(2);
    if signed.is_empty() {
        let fields = harness.query_all_by_role_and_label(Role::TextInput, words.field_who());
        fields.last().expect("a field").type_text(SIGNER);
        harness.run_steps(2);
    }
}

/// Signs, ticks in the dialog in front what makes the press safe and is not
/// ticked yet, and confirms it.
pub fn make_safe(harness: &mut Window, words: Language, confirm: &str) {
    tick_safe(harness, words, usize::MAX);
    click(harness, Role::Button, confirm);
}

/// Signs, and ticks the first so many steps of the list.
pub fn tick_safe(harness: &mut Window, words: Language, most: usize) {
    sign(harness, words);
    for step in Stage::MakeSafe.steps().take(most) {
        let open = harness
            .state()
            .session()
            .checklist
            .mark(step.into())
            .is_none();
        let text = Figures::exact(words, Unit::Inch).step(step).text;
        // Not every hand is asked for all of them.
        let asked = harness.query_all_by_role_and_label(Role::CheckBox, &text);
        if asked.count() > 0 && open {
            tick(harness, &text);
        }
    }
}

/// Ticks a box; of several, the one in front.
pub fn tick(harness: &mut Window, text: &str) {
    let last = |harness: &Window, act: fn(&egui_kittest::Node<'_>)| {
        let boxes = harness.query_all_by_role_and_label(Role::CheckBox, text);
        act(&boxes.last().expect("a box to tick"));
    };
    last(harness, |node| node.scroll_to_me());
    harness.run_steps(3);
    last(harness, |node| node.click());
    harness.run_steps(3);
}

/// Ticks every nut on the turn card that is not done, and notes them.
pub fn turn_all(harness: &mut Window, words: Language) {
    for _ in 0..12 {
        let all = harness.query_by_role_and_label(Role::Button, words.all_turned());
        if all.is_some() {
            break;
        }
        press(harness, Modifiers::NONE, Key::Enter);
    }
    click(harness, Role::Button, words.all_turned());
}
