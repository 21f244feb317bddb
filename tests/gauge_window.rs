//! The gauge in the window, driven by label and by keyboard in both languages.

use std::path::Path;

use eframe::egui::{self, Key, Modifiers, Role};
use egui_kittest::Harness;
use egui_kittest::kittest::{By, Queryable};
use jawtrue::session::{Field, Session};
use jawtrue::splice::{GAUGE_PRESETS, GaugeKind};
use jawtrue::store::Folders;
use jawtrue::units::Unit;
use jawtrue::window::{App, Surroundings};
use jawtrue::words::{Figures, Language};

/// The window and the language it is driven in.
struct Driver {
    harness: Harness<'static, App>,
    words: Language,
}

impl Driver {
    /// A window in a folder of its own, on the sample that opens by itself.
    fn new(folder: &Path, words: Language) -> Self {
        let surroundings = Surroundings {
            folders: Some(Folders {
                recovery: folder.join("recovery"),
                preferences: folder.to_owned(),
            }),
            dialogs: false,
        };
        let mut harness = Harness::builder()
            .with_size([1400.0, 900.0])
            .with_theme(egui::Theme::Light)
            .build_eframe(move |cc| App::within(&cc.egui_ctx, None, surroundings));
        harness.run_steps(4);
        let mut driver = Self { harness, words };
        if words == Language::Spanish {
            driver.click(Language::Spanish.own_name());
        }
        driver
    }

    fn session(&self) -> &Session {
        self.harness.state().session()
    }

    fn press(&mut self, modifiers: Modifiers, key: Key) {
        self.harness.key_press_modifiers(modifiers, key);
        self.harness.run_steps(3);
    }

    fn enter(&mut self) {
        self.press(Modifiers::NONE, Key::Enter);
    }

    fn click_role(&mut self, role: Role, label: &str) {
        let node = self.harness.get_by_role_and_label(role, label);
        node.scroll_to_me();
        self.harness.run_steps(3);
        self.harness.get_by_role_and_label(role, label).click();
        self.harness.run_steps(3);
    }

    fn click(&mut self, label: &str) {
        self.click_role(Role::Button, label);
    }

    /// Types into a field, and stays there.
    fn type_at(&mut self, label: &str, text: &str) {
        let field = || By::new().label(label).role(Role::TextInput);
        self.harness.get(field()).focus();
        self.harness.run_steps(2);
        self.harness.get(field()).type_text(text);
        self.harness.run_steps(2);
    }

    /// Types in place of what stands in a field, and goes on.
    fn fill(&mut self, label: &str, text: &str) {
        let field = || By::new().label(label).role(Role::TextInput);
        self.harness.get(field()).focus();
        self.harness.run_steps(2);
        self.press(Modifiers::COMMAND, Key::A);
        self.press(Modifiers::NONE, Key::Backspace);
        if !text.is_empty() {
            self.harness.get(field()).type_text(text);
            self.harness.run_steps(2);
        }
        self.enter();
    }

    fn shows(&self, part: &str) -> bool {
        self.harness
            .query_all_by_label_contains(part)
            .next()
            .is_some()
    }

    fn close(&mut self) {
        let words = self.words;
        self.click(words.close());
    }
}

/// Every test that is cheap enough runs in both.
const BOTH: [Language; 2] = [Language::English, Language::Spanish];

#[test]
fn the_gauge_is_described_and_its_calibration_watched() {
    for words in BOTH {
        let folder = tempfile::tempdir().unwrap();
        let mut window = Driver::new(folder.path(), words);
        window.press(Modifiers::COMMAND, Key::G);
        window.harness.get_by_label(words.gauge_title());
        window.fill(&words.field(Field::GaugeName), "Caliper 4");
        window.fill(&words.field(Field::GaugeStep), "0.001");
        window.fill(&words.field(Field::GaugeLimit), "0.001");
        window.fill(&words.field(Field::GaugeRepeatability), "0.0004");
        window.fill(&words.field(Field::LacingScatter), "0.0005");
        let gauge = &window.session().gauge;
        assert_eq!(gauge.name, "Caliper 4");
        assert_eq!(gauge.step.text(), "0.001 in");
        assert_eq!(gauge.limit_of_error.as_ref().unwrap().length().nm(), 25_400);
        let known = gauge.repeatability.as_ref().unwrap();
        assert_eq!((known.sd.length().nm(), known.freedom), (10_160, None));
        let lacing = window.session().lacing_scatter.as_ref().unwrap();
        assert_eq!(lacing.sd.length().nm(), 12_700);

        let kind = words.gauge_kind_named(words.gauge_kind(GaugeKind::DialCaliper));
        window.click_role(Role::RadioButton, &kind);
        assert_eq!(window.session().gauge.kind, GaugeKind::DialCaliper);
        // 6 sqrt(0.0004^2 + 0.001^2 / 12) / 0.003 = 0.9866.
        let percent = match words {
            Language::English => "uses up 99 per cent of the tolerance",
            Language::Spanish => "consume el 99 por ciento de la tolerancia",
        };
        assert!(window.shows(percent));

        // What is no date stays to be mended; nothing is set.
        let due = words.field(Field::CalibrationDue);
        window.fill(&due, "31/12/2020");
        assert!(window.shows(&words.not_a_date("31/12/2020")));
        assert_eq!(window.session().gauge.calibration_due, None);
        window.fill(&due, "2999-12-31");
        assert!(window.shows(&words.calibration_holds("2999-12-31")));
        let overdue = words.calibration_overdue("2020-12-31");
        assert!(!window.shows(&overdue));
        window.fill(&due, "2020-12-31");
        assert!(window.shows(&overdue));
        window.close();
        // And beside the readings as long as it is past.
        assert!(window.shows(&overdue));
        window.press(Modifiers::COMMAND, Key::Z);
        assert!(!window.shows(&overdue));
    }
}

#[test]
fn a_date_typed_last_is_taken_when_the_dialog_is_closed() {
    let words = Language::English;
    let folder = tempfile::tempdir().unwrap();
    let mut window = Driver::new(folder.path(), words);
    window.click(words.gauge_button());
    let due = words.field(Field::CalibrationDue);
    window.type_at(&due, "2020-01-31");
    window.close();
    let due = window.session().gauge.calibration_due.unwrap();
    assert_eq!(due.to_string(), "2020-01-31");
}

#[test]
fn a_gauge_of_the_library_asks_before_it_overwrites() {
    for words in BOTH {
        let folder = tempfile::tempdir().unwrap();
        let mut window = Driver::new(folder.path(), words);
        window.press(Modifiers::COMMAND, Key::G);
        let micrometer = GAUGE_PRESETS[0];
        let figures = Figures::exact(words, Unit::Inch);
        let line = figures.preset_line(&micrometer);
        let source = words.published_in(micrometer.published_in.unwrap());
        let label = words.preset_from(line, source);
        let before = window.session().gauge.clone();

        window.fill(&words.field(Field::GaugeRepeatability), "0.0004");
        let typed = window.session().gauge.clone();
        assert_ne!(before, typed);
        window.click(&label);
        assert!(window.shows(&words.preset_overwrites(&label)));
        window.click(words.preset_keep());
        assert_eq!(window.session().gauge, typed);
        window.click(&label);
        window.click(words.preset_take());
        let gauge = &window.session().gauge;
        assert_eq!(gauge.kind, GaugeKind::Micrometer);
        assert_eq!(gauge.step.length(), micrometer.step);
        assert_eq!(gauge.repeatability, None);
        assert_eq!(gauge.name, typed.name);
        window.close();
        window.press(Modifiers::COMMAND, Key::Z);
        assert_eq!(window.session().gauge, typed);
    }
}
