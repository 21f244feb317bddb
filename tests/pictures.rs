//! A few pictures of the window, compared with those kept in
//! `tests/snapshots`: a colour, a card or a line that moves shows. Before that
//! a light look has to be light and a dark one dark, whatever was kept. The
//! pictures of the readme are kept in `assets` and compared like the others, so
//! that they never show a program of yesterday.
//!
//! `UPDATE_SNAPSHOTS=1 cargo test --test pictures` makes them anew; look at
//! them before keeping them. They need a graphics adapter, a software one will
//! do; without any the comparison is left out, which is told even where the
//! words of a test are held back, but never where `CI` is set.

use std::io::Write;
use std::path::Path;

use eframe::egui::{self, Key, Modifiers, Role};
use eframe::wgpu;
use egui_kittest::kittest::Queryable;
use egui_kittest::{Harness, SnapshotOptions};
use jawtrue::report::{Facts, Fonts, Paper, Setting, png, turn_card};
use jawtrue::session::{IsoDate, PriorShelf};
use jawtrue::store::SampleSession;
use jawtrue::units::Unit;
use jawtrue::window::App;
use jawtrue::words::{Figures, Language};

#[path = "support/hand.rs"]
mod hand;

/// Smoothed edges may come out a little different on another adapter; whatever
/// moves by a point changes far more pixels than this.
const MOST_PIXELS_OFF: usize = 400;

fn has_adapter() -> bool {
    let instance = wgpu::Instance::default();
    let options = wgpu::RequestAdapterOptions::default();
    pollster::block_on(instance.request_adapter(&options)).is_ok()
}

/// The middle brightness of a picture, from 0 for black to 1 for white:
/// Rec. 709 weights of the plain pixel values, enough to tell light from dark.
fn middle_brightness(pixels: impl Iterator<Item = [u8; 4]>) -> f64 {
    let mut all: Vec<f64> = pixels
        .map(|pixel| {
            let [red, green, blue, _] = pixel.map(f64::from);
            (0.2126 * red + 0.7152 * green + 0.0722 * blue) / 255.0
        })
        .collect();
    all.sort_by(f64::total_cmp);
    all[all.len() / 2]
}

/// Whether pictures can be compared here.
fn compared(name: &str) -> bool {
    if has_adapter() {
        return true;
    }
    assert!(std::env::var_os("CI").is_none(), "no graphics adapter");
    let _ = writeln!(
        std::io::stderr(),
        "no graphics adapter: {name} is not compared"
    );
    false
}

/// What a picture shows.
struct Shot<'a> {
    name: &'a str,
    /// Where it is kept.
    kept: &'a str,
    look: &'a str,
    language: &'a str,
    size: [f32; 2],
    sample: SampleSession,
    /// Whether it is told that the sample is one.
    invented: bool,
    /// What is done before.
    keys: &'a [(Modifiers, Key)],
    /// The rows of pixels that tell the time: they are left out.
    moment: std::ops::Range<u32>,
}

impl Default for Shot<'_> {
    fn default() -> Self {
        Self {
            name: "",
            kept: "tests/snapshots",
            look: "light",
            language: "en",
            size: [1024.0, 640.0],
            sample: SampleSession::default(),
            invented: true,
            keys: &[],
            moment: 0..0,
        }
    }
}

impl Shot<'_> {
    fn theme(&self) -> egui::Theme {
        match self.look {
            "light" => egui::Theme::Light,
            _ => egui::Theme::Dark,
        }
    }

    fn words(&self) -> Language {
        Language::from_locale(self.language)
    }

    /// The window with its advice worked out.
    fn window(&self, folder: &Path) -> Harness<'static, App> {
        let preferences = format!("(look: \"{}\", language: \"{}\")", self.look, self.language);
        std::fs::write(folder.join("preferences.ron"), preferences).unwrap();
        let mut session = self.sample.session().unwrap();
        session.invented = self.invented;
        let file = hand::file_of(folder, &session);
        let surroundings = hand::surroundings(folder);
        let theme = self.theme();
        let mut harness: Harness<'static, App> = Harness::builder()
            .with_size(self.size)
            // The harness sets its own theme once the app is built, over the
            // one that the app chose.
            .with_theme(theme)
            .wgpu()
            .build_eframe(move |cc| {
                cc.egui_ctx
                    .all_styles_mut(|style| style.animation_time = 0.0);
                let app = App::within(&cc.egui_ctx, Some(file), surroundings);
                let chosen = cc.egui_ctx.options(|options| options.theme_preference);
                assert_eq!(chosen, theme.into());
                app
            });
        // The file, advice and chances come from other threads.
        let words = self.words();
        for _ in 0..1_000 {
            std::thread::sleep(std::time::Duration::from_millis(10));
            harness.step();
            let opened = harness.state().session().id == session.id;
            let folded = harness.query_by_label(words.how_sure()).is_some();
            let mut thinking = harness.query_all_by_label(words.thinking());
            if opened && folded && thinking.next().is_none() {
                break;
            }
        }
        if let Some(dismiss) = harness.query_by_role_and_label(Role::Button, words.dismiss()) {
            dismiss.click();
        }
        for (modifiers, key) in self.keys {
            hand::press(&mut harness, *modifiers, *key);
        }
        harness
    }

    /// Compares what is on show with the picture of that name.
    fn compare(&self, harness: &mut Harness<'static, App>) {
        harness.remove_cursor();
        harness.run_steps(60);
        let mut image = harness.render().unwrap();
        let shown = middle_brightness(image.pixels().map(|pixel| pixel.0));
        // The crew's picture is mostly belt and steel, a dialog dims the rest.
        let whole = self.keys.is_empty();
        let paper = if whole { 0.85 } else { 0.6 };
        let ground = if whole { 0.2 } else { 0.35 };
        let light = self.look == "light";
        assert!(
            if light { shown > paper } else { shown < ground },
            "{}: {shown}",
            self.name
        );
        for y in self.moment.clone() {
            (0..image.width()).for_each(|x| *image.get_pixel_mut(x, y) = image::Rgba([0; 4]));
        }
        egui_kittest::image_snapshot_options(&image, self.name, &options(self.kept));
    }

    fn taken(&self) {
        if compared(self.name) {
            let folder = tempfile::tempdir().unwrap();
            self.compare(&mut self.window(folder.path()));
        }
    }
}

fn options(kept: &str) -> SnapshotOptions {
    SnapshotOptions::new()
        .threshold(1.0)
        .max_failed_pixels(MOST_PIXELS_OFF)
        .output_path(kept)
}

#[test]
fn the_main_view_in_every_look() {
    for (look, language, name) in [
        ("light", "en", "main-light"),
        ("dark", "es", "main-dark"),
        ("high-contrast", "en", "main-high-contrast"),
    ] {
        let shot = Shot {
            name,
            look,
            language,
            ..Shot::default()
        };
        shot.taken();
    }
}

/// As a display of 1920 by 1080 shows it: in points that are larger.
#[test]
fn the_main_view_on_a_large_display() {
    Shot {
        name: "main-large",
        size: [1280.0, 720.0],
        invented: false,
        ..Shot::default()
    }
    .taken();
}

const CREW: (Modifiers, Key) = (Modifiers::NONE, Key::F11);
const ON: (Modifiers, Key) = (Modifiers::NONE, Key::ArrowRight);

#[test]
fn the_crew_view_tells_its_story() {
    for (look, language, name, keys) in [
        ("light", "en", "crew-wrong-light", &[CREW, ON][..]),
        ("light", "es", "crew-turns-light", &[CREW, ON, ON]),
        ("dark", "en", "crew-expected-dark", &[CREW, ON, ON, ON]),
    ] {
        let shot = Shot {
            name,
            look,
            language,
            keys,
            ..Shot::default()
        };
        shot.taken();
    }
}

#[test]
fn passes_stand_side_by_side() {
    for (look, language, name) in [
        ("light", "en", "passes-light"),
        ("high-contrast", "es", "passes-high-contrast"),
    ] {
        let shot = Shot {
            name,
            look,
            language,
            size: [1400.0, 900.0],
            sample: SampleSession::Taper,
            keys: &[(Modifiers::COMMAND, Key::B)],
            ..Shot::default()
        };
        shot.taken();
    }
}

#[test]
fn a_new_session_is_filled_in() {
    Shot {
        name: "new-session-light",
        size: [1400.0, 900.0],
        keys: &[(Modifiers::COMMAND, Key::N)],
        ..Shot::default()
    }
    .taken();
}

#[test]
fn a_nut_stands_on_the_turn_card() {
    let shot = Shot {
        name: "turn-card-dark",
        look: "dark",
        invented: false,
        keys: &[(Modifiers::COMMAND, Key::Enter)],
        moment: 44..70,
        ..Shot::default()
    };
    if !compared(shot.name) {
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    let mut harness = shot.window(folder.path());
    let words = shot.words();
    hand::make_safe(&mut harness, words, words.confirm_and_turn());
    shot.compare(&mut harness);
}

/// The pictures of the readme.
#[test]
fn the_readme_shows_the_program_as_it_is() {
    for (name, keys) in [("window", &[][..]), ("crew", &[CREW, ON])] {
        let shot = Shot {
            name,
            kept: "assets",
            size: [1400.0, 900.0],
            invented: false,
            keys,
            ..Shot::default()
        };
        shot.taken();
    }
}

/// The card as it is printed: no window, no graphics adapter.
#[test]
fn the_readme_shows_the_turn_card_as_it_is_printed() {
    let session = SampleSession::default().session().unwrap();
    let figures = Figures::exact(Language::English, Unit::Inch);
    let setting = Setting {
        figures: Figures {
            step: session.gauge.step.length(),
            limit: Some(session.tolerance.length()),
            ..figures
        },
        paper: Paper::usual(Unit::Inch),
        today: IsoDate::parse("2026-11-25").ok(),
        practice: false,
        printed: "2026-11-25 10:00".to_owned(),
    };
    let facts = Facts::of(&session, None, &PriorShelf::default());
    let fonts = Fonts::new();
    let card = turn_card(&session, &facts, &setting, &fonts);
    let bytes = png(&card[0], &fonts, 1.5).unwrap();
    let icon = eframe::icon_data::from_png_bytes(&bytes).unwrap();
    let image = image::RgbaImage::from_raw(icon.width, icon.height, icon.rgba).unwrap();
    egui_kittest::image_snapshot_options(&image, "turn-card", &options("assets"));
}
