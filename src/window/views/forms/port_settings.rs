//! The dialog for a gauge over a serial port.

use eframe::egui::{self, RichText, Ui, Vec2};

use crate::store::{Framing, LineEnding, PORT_SPEEDS, PortSettings};
use crate::window::action::Action;
use crate::window::state::PortForm;
use crate::window::theme::TARGET;

use crate::window::views::Scene;
use crate::window::views::widgets::{button, choice, field, muted};

/// Speeds offered; any other can be typed.
const SPEEDS: [u32; 8] = [1_200, 2_400, 4_800, 9_600, 19_200, 38_400, 57_600, 115_200];

/// Draws the dialog's contents.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut PortForm) {
    let words = scene.words();
    if !std::mem::replace(&mut form.asked, true) {
        scene.ask(Action::LookForPorts);
    }
    ui.label(words.port_text());
    port_name(ui, scene, form);
    ui.horizontal_wrapped(|ui| {
        field(ui, words.port_speed(), &mut form.speed, 110.0);
        let shown = egui::containers::menu::MenuButton::from_button(
            egui::Button::new("▼").min_size(Vec2::splat(TARGET)),
        );
        shown.ui(ui, |ui| {
            for speed in SPEEDS {
                if ui.button(speed.to_string()).clicked() {
                    form.speed = speed.to_string();
                    ui.close();
                }
            }
        });
    });
    let speed = form.speed();
    if speed.is_none() {
        let (slowest, fastest) = PORT_SPEEDS;
        let sentence = words.port_speed_wrong(slowest, fastest, form.speed.trim());
        ui.label(RichText::new(format!("⚠ {sentence}")).color(scene.palette.caution));
    }
    ui.horizontal_wrapped(|ui| {
        ui.label(words.port_ending());
        for ending in LineEnding::ALL {
            let chosen = form.settings.ending == ending;
            if choice(ui, scene.palette, chosen, words.line_ending(ending)).clicked() {
                form.settings.ending = ending;
            }
        }
    });
    ui.horizontal_wrapped(|ui| {
        ui.label(words.port_framing());
        for framing in Framing::ALL {
            let chosen = form.settings.framing == framing;
            if choice(ui, scene.palette, chosen, framing.key()).clicked() {
                form.settings.framing = framing;
            }
        }
    });
    ui.separator();
    ui.horizontal_wrapped(|ui| {
        let named = !form.settings.port.trim().is_empty();
        let listen = egui::Button::new(words.port_listen()).min_size(Vec2::splat(TARGET));
        if ui.add_enabled(named && speed.is_some(), listen).clicked() {
            scene.ask(Action::UsePort(PortSettings {
                port: form.settings.port.trim().to_owned(),
                speed: speed.unwrap_or(form.settings.speed),
                in_use: true,
                ..form.settings.clone()
            }));
        }
        if form.settings.in_use && button(ui, words.port_leave()).clicked() {
            scene.ask(Action::UsePort(PortSettings {
                in_use: false,
                ..form.settings.clone()
            }));
        }
        if button(ui, words.cancel()).clicked() {
            scene.ask(Action::Close);
        }
    });
}

fn port_name(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut PortForm) {
    let words = scene.words();
    ui.horizontal_wrapped(|ui| {
        let typed = field(ui, words.port_name(), &mut form.settings.port, 260.0);
        if form.settings.port.is_empty() && ui.memory(|memory| memory.focused().is_none()) {
            typed.request_focus();
        }
    });
    let Some(ports) = scene.view.ports.clone() else {
        return;
    };
    ui.horizontal_wrapped(|ui| {
        if ports.is_empty() {
            ui.label(muted(scene.palette, words.port_none_found()));
        } else {
            ui.label(words.port_choose());
        }
        for port in ports {
            let chosen = form.settings.port == port;
            if choice(ui, scene.palette, chosen, &port).clicked() {
                form.settings.port = port;
            }
        }
        if button(ui, words.port_look_again()).clicked() {
            scene.ask(Action::LookForPorts);
        }
    });
}
