//! A few pictures of the window, compared with those kept in
//! `tests/snapshots`: a colour, a card or a line that moves shows. Before that
//! a light look has to be light and a dark one dark, whatever was kept.
//!
//! `UPDATE_SNAPSHOTS=1 cargo test --test pictures` makes them anew; look at
//! them before keeping them. They need a graphics adapter, a software one will
//! do; without any the comparison is left out, which is told even where the
//! words of a test are held back, but never where `CI` is set.

use std::io::Write;

use eframe::egui;
use eframe::wgpu;
use egui_kittest::kittest::Queryable;
use egui_kittest::{Harness, SnapshotOptions};
use jawtrue::store::Folders;
use jawtrue::window::{App, Surroundings};
use jawtrue::words::Language;

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

/// Compares the window after some keys with the picture of that name.
fn picture(look: &str, theme: egui::Theme, language: &str, name: &str, keys: &[egui::Key]) {
    if !has_adapter() {
        assert!(std::env::var_os("CI").is_none(), "no graphics adapter");
        let _ = writeln!(
            std::io::stderr(),
            "no graphics adapter: {name} is not compared"
        );
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    let preferences = format!("(look: \"{look}\", language: \"{language}\")");
    std::fs::write(folder.path().join("preferences.ron"), preferences).unwrap();
    let surroundings = Surroundings {
        folders: Some(Folders {
            recovery: folder.path().join("recovery"),
            preferences: folder.path().to_owned(),
        }),
        dialogs: false,
    };
    let mut harness: Harness<'_, App> = Harness::builder()
        .with_size([1024.0, 640.0])
        // The harness sets its own theme once the app is built, over the one
        // that the app chose.
        .with_theme(theme)
        .wgpu()
        .build_eframe(move |cc| {
            cc.egui_ctx
                .all_styles_mut(|style| style.animation_time = 0.0);
            let app = App::within(&cc.egui_ctx, None, surroundings);
            let chosen = cc.egui_ctx.options(|options| options.theme_preference);
            assert_eq!(chosen, theme.into());
            app
        });
    // Advice and chances come from another thread.
    let words = Language::from_locale(language);
    for _ in 0..1_000 {
        std::thread::sleep(std::time::Duration::from_millis(10));
        harness.step();
        let folded = harness.query_by_label(words.how_sure()).is_some();
        if folded
            && harness
                .query_all_by_label(words.thinking())
                .next()
                .is_none()
        {
            break;
        }
    }
    for key in keys {
        harness.key_press(*key);
        harness.run_steps(3);
    }
    harness.remove_cursor();
    harness.run_steps(60);
    let image = harness.render().unwrap();
    let shown = middle_brightness(image.pixels().map(|pixel| pixel.0));
    let light = theme == egui::Theme::Light;
    // The crew's picture is mostly belt and steel.
    let paper = if keys.is_empty() { 0.85 } else { 0.7 };
    let ground = if keys.is_empty() { 0.2 } else { 0.35 };
    assert!(
        if light { shown > paper } else { shown < ground },
        "{shown}"
    );
    let options = SnapshotOptions::new()
        .threshold(1.0)
        .max_failed_pixels(MOST_PIXELS_OFF);
    harness.snapshot_options(name, &options);
}

#[test]
fn the_main_view_in_the_light_look() {
    picture("light", egui::Theme::Light, "en", "main-light", &[]);
}

#[test]
fn the_main_view_in_the_dark_look() {
    picture("dark", egui::Theme::Dark, "es", "main-dark", &[]);
}

#[test]
fn the_main_view_in_high_contrast() {
    let name = "main-high-contrast";
    picture("high-contrast", egui::Theme::Dark, "en", name, &[]);
}

const CREW: egui::Key = egui::Key::F11;
const ON: egui::Key = egui::Key::ArrowRight;

#[test]
fn the_crew_view_tells_what_is_wrong() {
    let keys = [CREW, ON];
    picture("light", egui::Theme::Light, "en", "crew-wrong-light", &keys);
}

#[test]
fn the_crew_view_tells_what_is_turned() {
    let keys = [CREW, ON, ON];
    picture("light", egui::Theme::Light, "es", "crew-turns-light", &keys);
}

#[test]
fn the_crew_view_tells_what_is_expected() {
    let keys = [CREW, ON, ON, ON];
    picture("dark", egui::Theme::Dark, "en", "crew-expected-dark", &keys);
}
