//! The gauge on a serial port while readings are taken arm by arm.

use eframe::egui::Ui;

use crate::window::action::Action;
use crate::window::gauge_port::PortEvent;
use crate::window::state::guided::Guided;
use crate::window::state::{Dialog, PortForm};

use crate::window::views::Scene;
use crate::window::views::entry::guided::take;
use crate::window::views::widgets::{button, toggle};

/// Takes what the gauge sent since the last frame.
pub(super) fn take_gauge_lines(scene: &mut Scene<'_>, guided: &mut Guided) {
    let words = scene.words();
    let Some(port) = &guided.port else { return };
    let name = scene
        .preferences
        .port
        .as_ref()
        .map(|settings| &settings.port);
    let name = name.cloned().unwrap_or_default();
    for event in port.take() {
        match event {
            PortEvent::Opened => {
                guided.port_open = true;
                guided.port_says = None;
            }
            PortEvent::Reading(text) => {
                take(scene, guided, &text);
            }
            PortEvent::Wrong(problem) => {
                guided.complaint = Some(words.gauge_line_problem(&problem));
            }
            PortEvent::NotOpened(problem) => {
                guided.port_says = Some(words.port_not_opened(&name, problem));
            }
            PortEvent::Gone { in_a_line } => {
                guided.port_open = false;
                guided.port_says = Some(if in_a_line {
                    words.port_gone_in_a_line(&name)
                } else {
                    words.port_gone(&name)
                });
            }
        }
    }
}

/// The way to the settings of the gauge's port.
pub(super) fn port(ui: &mut Ui, scene: &mut Scene<'_>, guided: &Guided) {
    let words = scene.words();
    let settings = scene.preferences.port.clone().unwrap_or_default();
    if toggle(ui, scene.palette, guided.port_open, words.port_button()).clicked() {
        let form = PortForm::new(settings.clone());
        scene.ask(Action::Show(Box::new(Dialog::GaugePort(Box::new(form)))));
    }
    if guided.port_says.is_some() && button(ui, words.port_listen()).clicked() {
        scene.ask(Action::UsePort(settings));
    }
}
