//! Starting a session: only what cannot be guessed is asked for.

use crate::window::state::NewSessionForm;
use crate::window::state::numbers;
use eframe::egui::{self, Key, Response, RichText, Ui};

use crate::press::customary;
use crate::units::{TypedLength, Unit};
use crate::window::action::Action;

use crate::window::views::Scene;
use crate::window::views::dialog_room;
use crate::window::views::entry::grid::select_all;
use crate::window::views::picture::jaw_sketch;
use crate::window::views::widgets::{button, choice, field, line, main_button, muted, name_text};

/// Draws the form. Enter in any of its fields starts the session.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut NewSessionForm) {
    let words = scene.words();
    let palette = scene.palette;
    let entered = dialog_room::middle(ui, |ui| {
        ui.horizontal(|ui| {
            ui.label(words.session_unit());
            for unit in [Unit::Inch, Unit::Millimetre] {
                if ui.radio(form.unit == unit, words.unit_name(unit)).clicked() && form.unit != unit
                {
                    form.unit = unit;
                    form.take_customary();
                }
            }
        });
        let mut entered = false;
        let mut enter = |response: &Response| {
            entered |=
                response.lost_focus() && response.ctx.input(|input| input.key_pressed(Key::Enter));
        };
        egui::Grid::new("new session")
            .num_columns(2)
            .spacing([12.0, 8.0])
            .show(ui, |ui| {
                let name = field(ui, words.field_press_name(), &mut form.name, 340.0);
                if !form.asked {
                    // A dialog that has just come up keeps the keyboard only
                    // once it has been in front for a frame.
                    form.asked = name.has_focus();
                    name.request_focus();
                    ui.ctx().request_repaint();
                }
                enter(&name);
                ui.end_row();
                enter(&field(
                    ui,
                    words.field_jaw_length(),
                    &mut form.length,
                    160.0,
                ));
                ui.end_row();
            });
        ui.separator();
        arms(ui, scene, form, &mut enter);
        let arms = form.positions(words).unwrap_or_default();
        jaw_sketch::show(ui, scene, form.jaw(words).ok().as_ref(), &arms);
        ui.separator();
        ui.horizontal(|ui| enter(&field(ui, words.nuts_at_start(), &mut form.nuts, 160.0)));
        ui.label(muted(palette, words.nuts_at_start_hint()));
        egui::Grid::new("customary")
            .num_columns(2)
            .spacing([12.0, 8.0])
            .show(ui, |ui| {
                enter(&field(
                    ui,
                    words.field_tolerance(),
                    &mut form.tolerance,
                    160.0,
                ));
                ui.end_row();
                ui.label("");
                ui.vertical(|ui| tolerances(ui, scene, &mut form.tolerance));
                ui.end_row();
                enter(&field(
                    ui,
                    words.field_notch_effect_of_all(),
                    &mut form.notch,
                    160.0,
                ));
                ui.end_row();
                enter(&field(ui, words.field_gauge_step(), &mut form.step, 160.0));
                ui.end_row();
            });
        entered
    });
    if let Some(problem) = &form.problem {
        ui.label(RichText::new(format!("⚠ {problem}")).color(palette.caution));
    }
    ui.horizontal(|ui| {
        if button(ui, words.cancel()).clicked() {
            scene.ask(Action::Close);
        }
        let start = main_button(ui, palette, words.start_session(), true).clicked();
        if start || entered {
            match form.session(String::new(), scene.figures) {
                Ok(session) => scene.ask(Action::Start(Box::new(session))),
                Err(problem) => form.problem = Some(problem),
            }
        }
    });
}

/// Where the arms are: evenly from the first on, or one by one.
fn arms(
    ui: &mut Ui,
    scene: &Scene<'_>,
    form: &mut NewSessionForm,
    enter: &mut impl FnMut(&Response),
) {
    let words = scene.words();
    ui.horizontal_wrapped(|ui| {
        if form.one_by_one {
            let typed = ui.add(line(&mut form.arms, 340.0).hint_text(words.arm_positions_hint()));
            name_text(&typed, words.arm_positions(), &form.arms);
            if typed.gained_focus() {
                select_all(ui, typed.id, &form.arms);
            }
            enter(&typed);
        } else {
            for (label, text) in [
                (words.count_of_arms(), &mut form.count),
                (words.first_arm_at(), &mut form.first),
                (words.arm_spacing(), &mut form.spacing),
            ] {
                let typed = field(ui, label, text, 84.0);
                if typed.gained_focus() {
                    select_all(ui, typed.id, text);
                }
                enter(&typed);
            }
        }
    });
    ui.horizontal_wrapped(|ui| {
        for (one_by_one, text) in [
            (false, words.arms_evenly()),
            (true, words.arms_one_by_one()),
        ] {
            let chosen = form.one_by_one == one_by_one;
            if choice(ui, scene.palette, chosen, text).clicked() && !chosen {
                if let Ok(even) = form.positions(words)
                    && one_by_one
                {
                    form.arms = numbers(&even);
                }
                form.one_by_one = one_by_one;
            }
        }
    });
}

/// The two customary tolerances side by side, with what sets them apart.
pub fn tolerances(ui: &mut Ui, scene: &Scene<'_>, tolerance: &mut String) {
    let words = scene.words();
    ui.horizontal(|ui| {
        for unit in [Unit::Inch, Unit::Millimetre] {
            let text = TypedLength::from_length(customary::tolerance(unit), unit);
            if button(ui, text.text()).clicked() {
                text.text().clone_into(tolerance);
            }
        }
    });
    ui.label(muted(scene.palette, words.metric_tolerance_is_looser()));
}
