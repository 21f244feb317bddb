//! A window to drive: its size, zoom, language and look by preferences, its
//! folder of its own.

// Each test takes what it needs.
#![allow(dead_code)]

use std::fs;
use std::path::{Path, PathBuf};

use eframe::egui::{self, Key, Modifiers, Role};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use jawtrue::store::Folders;
use jawtrue::window::{App, Surroundings};

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
    let mut harness = Harness::builder()
        .with_size(opening.size)
        .with_theme(egui::Theme::Light)
        .build_eframe(move |cc| App::within(&cc.egui_ctx, opening.file, surroundings));
    harness.run_steps(4);
    harness
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
