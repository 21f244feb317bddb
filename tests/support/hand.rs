//! A window to drive: its size, zoom, language and look by preferences, its
//! folder of its own.

// Each test takes what it needs.
#![allow(dead_code)]

use std::fs;
use std::path::{Path, PathBuf};
use std::time::Duration;

use eframe::egui::{self, Key, Modifiers, Role};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use jawtrue::press::WrenchWay;
use jawtrue::session::{Session, Stage};
use jawtrue::store::{Expected, Folders, SampleSession, save};
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

/// A folder in place of the user's own.
pub fn surroundings(folder: &Path) -> Surroundings {
    Surroundings {
        folders: Some(Folders {
            recovery: folder.join("recovery"),
            preferences: folder.to_owned(),
        }),
        dialogs: false,
    }
}

/// Preferences of a language.
pub fn speaking(words: Language) -> String {
    format!("(look: \"light\", language: \"{}\")", words.code())
}

/// Saves a session for a window to open.
pub fn file_of(folder: &Path, session: &Session) -> PathBuf {
    let file = folder.join("visit.jawtrue");
    save(&file, session, Expected::Anything).unwrap();
    file
}

/// The usual sample as of one's own press, its first pass not read.
pub fn unread() -> Session {
    let mut session = SampleSession::default().session().unwrap();
    session.invented = false;
    for row in &mut session.passes[0].rows {
        row.clear();
    }
    session
}

/// The readings of a pass: blanks part repeats, bars stations; a dash is an
/// empty cell before one that was read.
pub fn cells(session: &Session, pass: usize) -> String {
    let rows = session.passes[pass].rows.iter();
    let texts = rows.map(|row| {
        let texts = row.iter().map(|cell| match cell.text() {
            "" => "-",
            text => text.trim_end_matches(" in"),
        });
        texts.collect::<Vec<_>>().join(" ")
    });
    texts.collect::<Vec<_>>().join(" | ")
}

/// Opens a window on a folder; preferences that are there already stay.
pub fn open(folder: &Path, opening: Opening<'_>) -> Window {
    open_paced(folder, opening, 0.25)
}

/// The same with so many seconds between its frames.
pub fn open_paced(folder: &Path, opening: Opening<'_>, seconds: f32) -> Window {
    let kept = folder.join("preferences.ron");
    if !kept.exists() {
        fs::write(kept, opening.preferences).unwrap();
    }
    let surroundings = surroundings(folder);
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
        .with_step_dt(seconds)
        .build_eframe(move |cc| App::within(&cc.egui_ctx, opening.file, surroundings));
    harness.run_steps(4);
    harness
}

/// Waits until the advice is worked out, on a thread of its own.
pub fn settle(harness: &mut Window, words: Language) {
    for _ in 0..1000 {
        let mut thinking = harness.query_all_by_label(words.thinking());
        if thinking.next().is_none() {
            break;
        }
        drop(thinking);
        wait(harness, 1);
    }
    harness.run_steps(3);
}

/// Gives other threads the time of some frames.
pub fn wait(harness: &mut Window, frames: usize) {
    for _ in 0..frames {
        std::thread::sleep(Duration::from_millis(5));
        harness.step();
    }
}

/// Steps until something is so.
pub fn until(harness: &mut Window, what: &str, so: impl Fn(&Window) -> bool) {
    for _ in 0..4000 {
        if so(harness) {
            harness.run_steps(4);
            return;
        }
        wait(harness, 1);
    }
    panic!("{what} never came");
}

/// Steps until a session of one's own is open.
pub fn until_opened(harness: &mut Window) {
    until(harness, "the file", |harness| {
        !harness.state().session().invented
    });
}

/// Whether anything on show says this.
pub fn says(harness: &Window, part: &str) -> bool {
    let mut found = harness.query_all_by_label_contains(part);
    found.next().is_some()
}

/// Something on show says this.
pub fn shows(harness: &Window, part: &str) {
    assert!(says(harness, part), "not shown: {part}");
}

/// Nothing on show says this.
pub fn hides(harness: &Window, part: &str) {
    assert!(!says(harness, part), "shown: {part}");
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

/// Clicks a button.
pub fn push(harness: &mut Window, label: &str) {
    click(harness, Role::Button, label);
}

/// Clicks whatever has a label, or a part of one, brought into sight first.
pub fn click_on(harness: &mut Window, part: &str) {
    harness.get_by_label_contains(part).scroll_to_me();
    harness.run_steps(3);
    harness.get_by_label_contains(part).click();
    harness.run_steps(3);
}

/// Gives the keyboard to something.
pub fn focus(harness: &mut Window, role: Role, label: &str) {
    harness.get_by_role_and_label(role, label).focus();
    harness.run_steps(2);
}

/// Types into a field.
pub fn type_at(harness: &mut Window, label: &str, text: &str) {
    focus(harness, Role::TextInput, label);
    type_text(harness, text);
}

/// Types into whatever has the keyboard, as a gauge does.
pub fn type_text(harness: &mut Window, text: &str) {
    harness.event(egui::Event::Text(text.to_owned()));
    harness.run_steps(2);
}

/// Types into a field and goes on.
pub fn enter_at(harness: &mut Window, label: &str, text: &str) {
    type_at(harness, label, text);
    press(harness, Modifiers::NONE, Key::Enter);
}

/// Types in place of what stands in a field and goes on.
pub fn fill(harness: &mut Window, label: &str, text: &str) {
    focus(harness, Role::TextInput, label);
    press(harness, Modifiers::COMMAND, Key::A);
    press(harness, Modifiers::NONE, Key::Delete);
    type_text(harness, text);
    press(harness, Modifiers::NONE, Key::Enter);
}

/// Pastes into a field.
pub fn paste_at(harness: &mut Window, label: &str, table: &str) {
    focus(harness, Role::TextInput, label);
    harness.event(egui::Event::Paste(table.to_owned()));
    harness.run_steps(3);
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
    // Of a press nobody looked at the thread is asked first.
    let out = words.thread_out(words.wrench_short(WrenchWay::Counterclockwise));
    let right = format!("{}. {out}", words.thread_right());
    if says(harness, &right) {
        click(harness, Role::Button, &right);
    }
    for _ in 0..12 {
        let all = harness.query_by_role_and_label(Role::Button, words.all_turned());
        if all.is_some() {
            break;
        }
        press(harness, Modifiers::NONE, Key::Enter);
    }
    click(harness, Role::Button, words.all_turned());
}
