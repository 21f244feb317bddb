//! A few pictures of the window, compared with those kept in
//! `tests/snapshots`: a colour, a card or a line that moves shows.
//!
//! `UPDATE_SNAPSHOTS=1 cargo test --test pictures` makes them anew; look at
//! them before keeping them. They need a graphics adapter, a software one will
//! do; without any the comparison is left out, but never where `CI` is set.

use eframe::egui;
use eframe::wgpu;
use egui_kittest::kittest::Queryable;
use egui_kittest::{Harness, SnapshotOptions};
use jawtrue::store::Folders;
use jawtrue::window::{App, Surroundings};

/// Smoothed edges may come out a little different on another adapter; whatever
/// moves by a point changes far more pixels than this.
const MOST_PIXELS_OFF: usize = 400;

fn has_adapter() -> bool {
    let instance = wgpu::Instance::default();
    let options = wgpu::RequestAdapterOptions::default();
    pollster::block_on(instance.request_adapter(&options)).is_ok()
}

fn picture(look: &str, language: &str, keys: &[(egui::Modifiers, egui::Key)], name: &str) {
    if std::env::var_os("CI").is_none() && !has_adapter() {
        eprintln!("no graphics adapter: {name} is not compared");
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
        .wgpu()
        .build_eframe(move |cc| {
            cc.egui_ctx
                .all_styles_mut(|style| style.animation_time = 0.0);
            App::within(&cc.egui_ctx, None, surroundings)
        });
    // Advice and chances come from another thread.
    for _ in 0..400 {
        std::thread::sleep(std::time::Duration::from_millis(10));
        harness.step();
        if harness.query_all_by_label("1 %").next().is_some() {
            break;
        }
    }
    for &(modifiers, key) in keys {
        harness.key_press_modifiers(modifiers, key);
        harness.run_steps(3);
    }
    harness.remove_cursor();
    harness.run_steps(60);
    let options = SnapshotOptions::new()
        .threshold(1.0)
        .max_failed_pixels(MOST_PIXELS_OFF);
    harness.snapshot_options(name, &options);
}

#[test]
fn the_main_view_in_the_light_look() {
    picture("light", "en", &[], "main-light");
}

#[test]
fn the_main_view_in_the_dark_look() {
    picture("dark", "es", &[], "main-dark");
}

#[test]
fn the_main_view_in_high_contrast() {
    picture("high-contrast", "en", &[], "main-high-contrast");
}
