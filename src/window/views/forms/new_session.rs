//! Starting a session: only what cannot be guessed is asked for.

use crate::window::state::NewSessionForm;
use crate::window::state::{numbers, usual_text};
use eframe::egui::{Align2, Key, Response, RichText, Ui, Vec2};

use crate::press::{ArmIndex, Notches, NutPosition, customary};
use crate::units::Unit;
use crate::window::action::Action;

use crate::window::theme::{self, size};
use crate::window::views::Scene;
use crate::window::views::dialog_room::{self, Answer, Foot};
use crate::window::views::entry::grid::select_all;
use crate::window::views::forms::session_field::{buttons_width, line_below, stacked};
use crate::window::views::picture::jaw_sketch;
use crate::window::views::widgets::{button, choice, choice_text, muted, strong};

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
        // Names as long as these need room between them.
        ui.spacing_mut().item_spacing.x = 18.0;
        let mut entered = false;
        let mut enter = |response: &Response| {
            entered |=
                response.lost_focus() && response.ctx.input(|input| input.key_pressed(Key::Enter));
        };
        ui.horizontal_wrapped(|ui| {
            let name = line_below(ui, words.field_press_name(), &mut form.name, 340.0);
            if !form.asked {
                // A dialog that has just come up keeps the keyboard only
                // once it has been in front for a frame.
                form.asked = name.has_focus();
                name.request_focus();
                ui.ctx().request_repaint();
            }
            enter(&name);
            let length = line_below(ui, words.field_jaw_length(), &mut form.length, 130.0);
            unit_within(ui, scene, (&form.length, form.unit), &length);
            enter(&length);
        });
        arms(ui, scene, form, &mut enter);
        let arms = form.positions(words).unwrap_or_default();
        let jaw = form.jaw(words).ok();
        let ghosts = form.count.trim().parse().unwrap_or_default();
        jaw_sketch::show(ui, scene, jaw.as_ref(), (&arms, ghosts));
        ui.separator();
        enter(&line_below(
            ui,
            words.nuts_at_start(),
            &mut form.nuts,
            160.0,
        ));
        nuts_read_back(ui, scene, form, arms.len().max(ghosts));
        ui.label(muted(palette, words.nuts_at_start_hint()));
        ui.horizontal_wrapped(|ui| {
            for (name, text) in [
                (words.field_notch_effect_of_all(), &mut form.notch),
                (words.field_gauge_step(), &mut form.step),
                (words.field_tolerance(), &mut form.tolerance),
            ] {
                enter(&line_below(ui, name, text, 120.0));
            }
            let now = form.tolerance.clone();
            tolerances(ui, scene, Some(&now), &mut form.tolerance);
        });
        ui.label(muted(palette, words.metric_tolerance_is_looser()));
        entered
    });
    if let Some(problem) = &form.problem {
        ui.label(RichText::new(format!("⚠ {problem}")).color(palette.caution));
    }
    let known = !form.length.trim().is_empty();
    let foot = Foot {
        leave: Some(words.cancel()),
        main: Some(match known {
            true => (words.start_session(), true),
            false => (words.start_needs_length(), false),
        }),
    };
    let answer = foot.show(ui, palette, |_| {});
    if answer == Some(Answer::Leave) {
        scene.ask(Action::Close);
    }
    if entered || answer == Some(Answer::Main) {
        match form.session(String::new(), scene.figures) {
            Ok(session) => scene.ask(Action::Start(Box::new(session))),
            Err(problem) => form.problem = Some(problem),
        }
    }
}

/// The unit that bare numbers are in, within their field.
fn unit_within(ui: &Ui, scene: &Scene<'_>, (text, unit): (&str, Unit), field: &Response) {
    if text
        .chars()
        .any(|letter| letter.is_alphabetic() || "″\"'".contains(letter))
    {
        return;
    }
    ui.painter().text(
        field.rect.right_center() - Vec2::new(9.0, 0.0),
        Align2::RIGHT_CENTER,
        scene.words().unit_short(unit),
        theme::regular(size::SMALL),
        scene.palette.muted,
    );
}

/// How the nut positions are understood, arm by arm: a slip shows at once.
fn nuts_read_back(ui: &mut Ui, scene: &Scene<'_>, form: &NewSessionForm, arms: usize) {
    let words = scene.words();
    let said = match form.nuts(arms, words) {
        Ok(nuts) if nuts.is_empty() => return,
        Ok(nuts) if nuts.len() == arms => {
            let at = |nut: NutPosition| match nut.0 {
                0 => words.nut_flush().to_owned(),
                notches => scene.figures.turn_short(Notches(notches)),
            };
            let each = nuts.into_iter().enumerate();
            let each: Vec<String> = each
                .map(|(arm, nut)| format!("{} {}", ArmIndex(arm), at(nut)))
                .collect();
            ui.label(strong(words.nuts_read_as(each.join(", "))));
            return;
        }
        Ok(nuts) => words.nuts_of_arms(nuts.len(), arms),
        Err(problem) => problem,
    };
    ui.label(RichText::new(format!("⚠ {said}")).color(scene.palette.caution));
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
        let mut field = |ui: &mut Ui, label: &str, text: &mut String, width| {
            let typed = line_below(ui, label, text, width);
            if label != words.count_of_arms() {
                unit_within(ui, scene, (text, form.unit), &typed);
            }
            if typed.gained_focus() {
                select_all(ui, typed.id, text);
            }
            enter(&typed);
        };
        if form.one_by_one {
            let example = match form.unit {
                Unit::Inch => "6  18  30  42",
                Unit::Millimetre => "150  450  750  1050",
            };
            let label = words.arm_positions(example);
            field(ui, &label, &mut form.arms, 340.0);
        } else {
            for (label, text) in [
                (words.count_of_arms(), &mut form.count),
                (words.first_arm_at(), &mut form.first),
                (words.arm_spacing(), &mut form.spacing),
            ] {
                field(ui, label, text, 110.0);
            }
        }
        let ways = [words.arms_evenly(), words.arms_one_by_one()];
        let width = buttons_width(ui, &ways);
        stacked(ui, words.arms_stand(), width, |ui, _| {
            ui.horizontal(|ui| how_arms_stand(ui, scene, form));
        });
    });
    if !form.one_by_one {
        ui.label(muted(scene.palette, words.arms_even_hint()));
    }
}

/// Evenly, or one by one.
fn how_arms_stand(ui: &mut Ui, scene: &Scene<'_>, form: &mut NewSessionForm) {
    let words = scene.words();
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
}

/// The two customary tolerances side by side; marked as a choice where one is in
/// force `now`.
pub fn tolerances(ui: &mut Ui, scene: &Scene<'_>, now: Option<&str>, tolerance: &mut String) {
    let unit = scene.figures.unit;
    let texts = [unit, unit.other()].map(|unit| usual_text(customary::tolerance(unit), unit));
    let width = buttons_width(ui, &texts.each_ref().map(|text| choice_text(true, text)));
    stacked(ui, scene.words().tolerance_usual(), width, |ui, _| {
        ui.horizontal(|ui| {
            for text in texts {
                let pressed = match now {
                    Some(now) => choice(ui, scene.palette, now == text, &text),
                    None => button(ui, &text),
                };
                if pressed.clicked() {
                    *tolerance = text;
                }
            }
        });
    });
}
