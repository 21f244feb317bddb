//! What there is to practice: the lessons, and an exercise to begin.

use eframe::egui::{ComboBox, Ui};

use crate::practice::{Fault, Help, LessonTopic, Level, PRACTICE_ARMS};
use crate::window::action::Action;
use crate::window::practicing::PracticeWish;
use crate::window::state::PracticeForm;
use crate::window::state::dialog::Then;
use crate::window::theme::size;

use crate::window::views::Scene;
use crate::window::views::widgets::{button, choice, field, main_button, muted, strong};

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
        ComboBox::from_label(words.practice_fault())
            .selected_text(chosen)
            .width(220.0)
            .show_ui(ui, |ui| {
                ui.selectable_value(&mut form.fault, None, as_number);
                for fault in Fault::ALL {
                    ui.selectable_value(&mut form.fault, Some(fault), words.fault(fault));
                }
            });
        let chosen = form.level.map_or(as_number, |level| words.level(level));
        ComboBox::from_label(words.practice_level())
            .selected_text(chosen)
            .show_ui(ui, |ui| {
                ui.selectable_value(&mut form.level, None, as_number);
                for level in Level::ALL {
                    ui.selectable_value(&mut form.level, Some(level), words.level(level));
                }
            });
        let arms = form
            .arms
            .map_or_else(|| as_number.to_owned(), |arms| arms.to_string());
        ComboBox::from_label(words.practice_arms())
            .selected_text(arms)
            .show_ui(ui, |ui| {
                ui.selectable_value(&mut form.arms, None, as_number);
                for arms in PRACTICE_ARMS {
                    ui.selectable_value(&mut form.arms, Some(arms), arms.to_string());
                }
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
    let exercise = form.exercise(scene.figures.unit);
    if exercise.is_none() {
        ui.label(words.exercise_number());
    }
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
