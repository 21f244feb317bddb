//! Starting a session: only what cannot be guessed is asked for.

use crate::window::state::{NewSessionForm, number, usual_text};
use eframe::egui::{Key, Response, Ui};

use crate::press::customary;
use crate::session::Field;
use crate::units::Unit;
use crate::window::action::Action;

use crate::window::views::Scene;
use crate::window::views::dialog_room::{self, Answer, Foot};
use crate::window::views::entry::grid::select_all;
use crate::window::views::forms::session_field::{
    buttons_width, line_below, per_arm, stacked, stepped,
};
use crate::window::views::picture::jaw_sketch;
use crate::window::views::widgets::{button, choice, choice_text, line, name_text, strong};

/// Draws the form. Enter in any of its fields starts the session.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut NewSessionForm) {
    let words = scene.words();
    let palette = scene.palette;
    form.take_up_arms();
    let entered = dialog_room::middle(ui, |ui| {
        // Names as long as these need room between them.
        ui.spacing_mut().item_spacing.x = 18.0;
        let mut entered = false;
        let mut enter = |response: &Response| {
            entered |=
                response.lost_focus() && response.ctx.input(|input| input.key_pressed(Key::Enter));
        };
        ui.horizontal_wrapped(|ui| {
            let units = [Unit::Inch, Unit::Millimetre];
            let names = units.map(|unit| choice_text(true, words.unit_name(unit)));
            let width = buttons_width(ui, &names);
            stacked(ui, words.session_unit(), width, |ui, _| {
                ui.horizontal(|ui| {
                    for unit in units {
                        let chosen = form.unit == unit;
                        let pressed = choice(ui, palette, chosen, words.unit_name(unit));
                        if pressed.clicked() && !chosen {
                            form.unit = unit;
                            form.take_customary();
                        }
                    }
                });
            });
            let name = line_below(ui, words.field_press_name(), &mut form.name, (340.0, ""));
            if !form.asked {
                // A dialog that has just come up keeps the keyboard only
                // once it has been in front for a frame.
                form.asked = name.has_focus();
                name.request_focus();
                ui.ctx().request_repaint();
            }
            enter(&name);
            let unit = words.unit_short(form.unit);
            let name = words.field_jaw_length();
            let length = line_below(ui, name, &mut form.length, (130.0, unit));
            enter(&length);
        });
        arms(ui, scene, form, &mut enter);
        let arms = form.positions(words).unwrap_or_default();
        let jaw = form.jaw(words).ok();
        jaw_sketch::show(ui, scene, jaw.as_ref(), (&arms, form.arms_typed()));
        ui.separator();
        nuts(ui, scene, form, &mut enter);
        ui.horizontal_wrapped(|ui| {
            // What nobody measured is no fact that stands in a field.
            let usual = usual_text(customary::NOTCH_EFFECT, form.unit);
            let usual = words.not_measured_usual(usual);
            for (name, text, room) in [
                (
                    words.field_notch_effect_of_all(),
                    &mut form.notch,
                    (190.0, usual.as_str()),
                ),
                (words.field_gauge_step(), &mut form.step, (120.0, "")),
                (words.field_tolerance(), &mut form.tolerance, (120.0, "")),
            ] {
                enter(&line_below(ui, name, text, room));
            }
            let now = form.tolerance.clone();
            tolerances(ui, scene, Some(&now), &mut form.tolerance);
        });
        let usual = [words.start_is_usual(), words.metric_tolerance_is_looser()];
        ui.label(usual.join(" "));
        entered
    });
    let made = form.session(String::new(), scene.figures);
    // What comes first is missing first.
    let missing = match (form.length.trim(), &made) {
        (_, Ok(_)) => None,
        ("", Err(_)) => Some(strong(words.start_needs_length())),
        (_, Err(problem)) => Some(strong(format!("⚠ {problem}")).color(palette.caution)),
    };
    let foot = Foot {
        leave: Some(words.cancel()),
        main: Some((words.start_session(), made.is_ok())),
    };
    let answer = foot.show(ui, palette, |ui| {
        missing.map(|missing| ui.label(missing));
    });
    if answer == Some(Answer::Leave) {
        scene.ask(Action::Close);
    }
    if let Ok(session) = made
        && (entered || answer == Some(Answer::Main))
    {
        scene.ask(Action::Start(Box::new(session)));
    }
}

/// Where the nuts stand, a field for each between − and +.
fn nuts(
    ui: &mut Ui,
    scene: &Scene<'_>,
    form: &mut NewSessionForm,
    enter: &mut impl FnMut(&Response),
) {
    let words = scene.words();
    let arms = form.arms_typed();
    // Each is told by itself: nobody says of all at one press that they are flush.
    ui.label(words.nuts_at_start());
    per_arm(ui, arms, 170.0, |ui, arm| {
        let Some(text) = form.nuts.get_mut(arm.0) else {
            return;
        };
        let (by, _) = stepped(
            ui,
            |mark| words.start_nut_step(arm, mark),
            |ui| {
                let field = ui.add(line(text, 52.0));
                name_text(&field, &format!("{} {arm}", words.nut_at_start()), text);
                if field.gained_focus() {
                    select_all(ui, field.id, text);
                }
                enter(&field);
            },
        );
        if by != 0 {
            let now = text.trim().replace('−', "-");
            *text = match (now.parse::<i32>(), now.is_empty()) {
                (Ok(now), _) => now.saturating_add(by).to_string(),
                // The first press says that it is known.
                (_, true) => "0".to_owned(),
                _ => now,
            };
        }
    });
    ui.label(words.nuts_at_start_hint());
}

/// Where the arms are: evenly from the first on, or one by one.
fn arms(
    ui: &mut Ui,
    scene: &Scene<'_>,
    form: &mut NewSessionForm,
    enter: &mut impl FnMut(&Response),
) {
    let words = scene.words();
    let unit = words.unit_short(form.unit);
    ui.horizontal_wrapped(|ui| {
        let mut field = |ui: &mut Ui, label: &str, text: &mut String| {
            let hint = if label == words.count_of_arms() {
                ""
            } else {
                unit
            };
            let typed = line_below(ui, label, text, (110.0, hint));
            if typed.gained_focus() {
                select_all(ui, typed.id, text);
            }
            enter(&typed);
        };
        field(ui, words.count_of_arms(), &mut form.count);
        if !form.one_by_one {
            field(ui, words.first_arm_at(), &mut form.first);
            field(ui, words.arm_spacing(), &mut form.spacing);
        }
        let ways = [words.arms_evenly(), words.arms_one_by_one()];
        let width = buttons_width(ui, &ways);
        stacked(ui, words.arms_stand(), width, |ui, _| {
            ui.horizontal(|ui| how_arms_stand(ui, scene, form));
        });
    });
    let hint = match form.one_by_one {
        true => words.arms_from_left_end(),
        false => words.arms_even_hint(),
    };
    if form.one_by_one {
        let arms = form.arms_typed();
        per_arm(ui, arms, 132.0, |ui, arm| {
            let Some(text) = form.arms.get_mut(arm.0) else {
                return;
            };
            let typed = ui.add(line(text, 110.0).hint_text(unit));
            name_text(&typed, &words.field(Field::ArmPosition(arm)), text);
            if typed.gained_focus() {
                select_all(ui, typed.id, text);
            }
            enter(&typed);
        });
    }
    ui.label(hint);
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
                form.arms = even.iter().map(number).collect();
            }
            form.one_by_one = one_by_one;
        }
    }
}

/// The two customary tolerances side by side; marked as a choice where one is in
/// force `now`.
pub fn tolerances(ui: &mut Ui, scene: &Scene<'_>, now: Option<&str>, tolerance: &mut String) {
    let texts = [Unit::Inch, Unit::Millimetre];
    let texts = texts.map(|unit| usual_text(customary::tolerance(unit), unit));
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
