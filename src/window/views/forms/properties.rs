//! Properties of press, stations, gauge and visit: editable at any time.

use crate::window::state::PropertiesForm;
use crate::window::state::properties::Part;

use eframe::egui::{FocusDirection, Ui};

use crate::window::action::Action;

use crate::window::views::Scene;
use crate::window::views::dialog_room::{self, Foot};
use crate::window::views::forms::{press_data, press_part, visit_part};
use crate::window::views::picture::press_sketch;
use crate::window::views::widgets::{muted, tab, tabs};

/// Height of picture and fields together, whichever part is on show, as a share of
/// the window's.
const TALL: f32 = 0.7;

/// Draws the dialog.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut PropertiesForm) {
    let words = scene.words();
    let mut part = form.part;
    let mut at_tab = None;
    tabs(ui, scene.palette, |ui| {
        for choose in Part::ALL {
            let name = match choose {
                Part::Press => words.part_press(),
                Part::Stations => words.part_stations(),
                Part::Visit => words.part_visit(),
                Part::JawAndRods => words.part_jaw_and_rods(),
            };
            let chosen = form.part == choose;
            let tab = tab(ui, scene.palette, chosen, name);
            if tab.clicked() {
                part = choose;
            }
            if tab.has_focus() {
                at_tab = Some(tab.id);
            }
        }
    });
    // The form is opened for its fields: the first of them has the keyboard.
    if let Some(tab) = at_tab.filter(|_| !form.asked) {
        form.asked = true;
        ui.memory_mut(|memory| {
            memory.surrender_focus(tab);
            memory.move_focus(FocusDirection::Next);
        });
    }
    let top = ui.cursor().top();
    match form.part {
        Part::Press | Part::Stations => press_sketch::press(ui, scene, form.measure),
        Part::JawAndRods => {
            let known = press_data::known(scene, form);
            press_sketch::section(ui, scene, form.measure, known);
        }
        Part::Visit => {}
    }
    let tall = TALL * ui.ctx().content_rect().height();
    let left = tall - (ui.cursor().top() - top);
    dialog_room::middle_of_height(ui, left, |ui| match form.part {
        Part::Press => press_part::show(ui, scene, form),
        Part::Stations => press_part::stations(ui, scene, &mut form.drafts),
        Part::Visit => visit_part::show(ui, scene, form),
        Part::JawAndRods => press_data::show(ui, scene, form),
    });
    // What is typed is taken before its part goes.
    if form.part != part {
        form.part = part;
        form.measure = None;
    }
    let foot = Foot {
        leave: None,
        main: Some((words.close(), true)),
    };
    let answer = foot.show(ui, scene.palette, |ui| {
        ui.label(muted(scene.palette, words.applies_at_once()));
    });
    if answer.is_some() {
        scene.ask(Action::Close);
    }
}
