//! What there is to practice: the lessons, and an exercise to begin.

use eframe::egui::{ComboBox, Key, Response, Ui};

use crate::practice::{Exercise, Fault, Help, LessonTopic, Level, PRACTICE_ARMS};
use crate::units::Unit;
use crate::window::action::Action;
use crate::window::practicing::PracticeWish;
use crate::window::state::dialog::Then;
use crate::window::state::{NoExercise, PracticeForm};
use crate::window::theme::size;

use crate::window::views::Scene;
use crate::window::views::widgets::{
    button, choice, field, line, main_button, muted, name_text, strong,
};

/// Draws the dialog.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut PracticeForm) {
    let words = scene.words();
    ui.label(muted(scene.palette, words.practice_mark_long()));
    ui.label(strong(words.practice_lessons()));
    for topic in LessonTopic::ALL {
        if button(ui, words.lesson_title(topic)).clicked() {
            scene.ask(Action::Practice(PracticeWish::Lesson(topic)));
        }
    }
    ui.separator();
    ui.label(strong(words.practice_exercise()));
    ui.horizontal_wrapped(|ui| {
        field(ui, words.practice_number(), &mut form.number, 90.0);
        field(ui, words.practice_trainee(), &mut form.trainee, 180.0);
    });
    ui.horizontal_wrapped(|ui| {
        let as_number = words.practice_as_number();
        let chosen = form.fault.map_or(as_number, |fault| words.fault(fault));
        named(ui, words.practice_fault(), |ui| {
            ComboBox::from_id_salt(words.practice_fault())
                .selected_text(chosen)
                .width(220.0)
                .show_ui(ui, |ui| {
                    ui.selectable_value(&mut form.fault, None, as_number);
                    for fault in Fault::ALL {
                        ui.selectable_value(&mut form.fault, Some(fault), words.fault(fault));
                    }
                })
                .response
        });
        let chosen = form.level.map_or(as_number, |level| words.level(level));
        named(ui, words.practice_level(), |ui| {
            ComboBox::from_id_salt(words.practice_level())
                .selected_text(chosen)
                .show_ui(ui, |ui| {
                    ui.selectable_value(&mut form.level, None, as_number);
                    for level in Level::ALL {
                        ui.selectable_value(&mut form.level, Some(level), words.level(level));
                    }
                })
                .response
        });
        let arms = form
            .arms
            .map_or_else(|| as_number.to_owned(), |arms| arms.to_string());
        named(ui, words.practice_arms(), |ui| {
            ComboBox::from_id_salt(words.practice_arms())
                .selected_text(arms)
                .show_ui(ui, |ui| {
                    ui.selectable_value(&mut form.arms, None, as_number);
                    for arms in PRACTICE_ARMS {
                        ui.selectable_value(&mut form.arms, Some(arms), arms.to_string());
                    }
                })
                .response
        });
    });
    ui.horizontal_wrapped(|ui| {
        for help in Help::ALL {
            let chosen = form.help == help;
            if choice(ui, scene.palette, chosen, words.help_grade(help)).clicked() {
                form.help = help;
            }
        }
    });
    ui.label(words.practice_own());
    let own = ui.add(line(&mut form.own, ui.available_width() - 20.0));
    name_text(&own, words.practice_own_place(), &form.own);
    let unit = scene.figures.unit;
    let (readings, off) = match unit {
        Unit::Inch => ("0.2480 0.2475 0.2510", "0 +0.004 -0.002"),
        Unit::Millimetre => ("6.30 6.29 6.38", "0 +0.10 -0.05"),
    };
    let hint = words.practice_own_hint(readings, off);
    ui.label(muted(scene.palette, hint));
    let exercise = form.exercise(unit);
    if let Err(problem) = &exercise {
        let sentence = match problem {
            NoExercise::Problem(problem) => words.exercise_problem(*problem),
            NoExercise::Length(problem) => {
                words.length_problem(words.practice_own_place(), problem, unit)
            }
        };
        ui.label(strong(sentence));
    }
    let exercise = exercise.ok();
    if main_button(
        ui,
        scene.palette,
        words.practice_begin(),
        exercise.is_some(),
    )
    .clicked()
        && let Some(exercise) = exercise.clone()
    {
        let then = Then::Practice(Box::new(exercise), form.trainee.clone());
        scene.ask(Action::Leave(then));
    }
    ui.add_space(size::SMALL);
    ui.label(muted(scene.palette, words.practice_hand_out_hint()));
    ui.horizontal_wrapped(|ui| {
        field(ui, words.practice_title(), &mut form.title, 180.0);
        field(ui, words.practice_note(), &mut form.note, 260.0);
    });
    ui.horizontal_wrapped(|ui| {
        if button(ui, words.practice_hand_out()).clicked()
            && let Some(exercise) = exercise
        {
            scene.ask(Action::Practice(PracticeWish::HandOut(Box::new(exercise))));
        }
        if button(ui, words.practice_open()).clicked() {
            scene.ask(Action::Leave(Then::Open));
        }
        if button(ui, words.cancel()).clicked() {
            scene.ask(Action::Close);
        }
    });
}

/// A choice after its name.
fn named(ui: &mut Ui, name: &str, choose: impl FnOnce(&mut Ui) -> Response) {
    let label = ui.label(name);
    choose(ui).labelled_by(label.id);
}

/// Asks who does an exercise that was handed out, before it begins.
pub fn handed_out(ui: &mut Ui, scene: &mut Scene<'_>, exercise: &Exercise, who: &mut String) {
    let words = scene.words();
    ui.label(muted(scene.palette, words.practice_mark_long()));
    let told = [&exercise.title, &exercise.note];
    for text in told.into_iter().filter(|text| !text.is_empty()) {
        ui.label(strong(text.as_str()));
    }
    let help = words.help_grade(exercise.help);
    ui.label(words.practice_which(exercise.number, help));
    ui.horizontal_wrapped(|ui| {
        field(ui, words.practice_trainee(), who, 220.0);
    });
    let ready = !who.trim().is_empty();
    if !ready {
        ui.label(muted(scene.palette, words.practice_who_first()));
    }
    let begin = main_button(ui, scene.palette, words.practice_begin(), ready);
    let entered = ui.input(|input| input.key_pressed(Key::Enter));
    if begin.clicked() || (ready && entered) {
        let then = Then::Practice(Box::new(exercise.clone()), who.trim().to_owned());
        scene.ask(Action::Leave(then));
    }
    if button(ui, words.cancel()).clicked() {
        scene.ask(Action::Close);
    }
}
