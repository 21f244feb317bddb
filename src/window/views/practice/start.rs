//! What there is to practice: the lessons, and an exercise to begin.

use eframe::egui::{Button, ComboBox, Key, Label, Pos2, Sense, Ui, Vec2};

use crate::practice::{Exercise, Fault, Help, LessonTopic, Level, PRACTICE_ARMS};
use crate::units::{Length, TypedLength, Unit};
use crate::window::action::Action;
use crate::window::practicing::PracticeWish;
use crate::window::state::dialog::Then;
use crate::window::state::{NoExercise, PracticeForm};
use crate::window::theme::{self, TARGET};
use crate::words::Figures;

use crate::window::views::Scene;
use crate::window::views::dialog_room::{self, Answer, Foot, fold};
use crate::window::views::widgets::{button, choice, field, line, muted, name_text, strong};

/// Width of a lesson's button.
const LESSON: f32 = 200.0;

/// Draws the dialog.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut PracticeForm) {
    let words = scene.words();
    let unit = form.unit.unwrap_or(scene.figures.unit);
    dialog_room::middle(ui, |ui| {
        ui.label(strong(words.practice_lessons()));
        for topic in LessonTopic::ALL {
            ui.horizontal(|ui| {
                let title = Button::new(words.lesson_title(topic));
                if ui.add(title.min_size(Vec2::new(LESSON, TARGET))).clicked() {
                    scene.ask(Action::Practice(PracticeWish::Lesson(topic)));
                }
                let mut about = vec![
                    words.lesson_shows(topic).to_owned(),
                    words.lesson_minutes(topic.minutes()),
                ];
                if scene.view.lessons_seen.contains(&topic) {
                    about.push(words.lesson_seen().to_owned());
                }
                ui.add(Label::new(muted(scene.palette, about.join(" · "))).wrap());
            });
        }
        ui.separator();
        ui.label(strong(words.practice_exercise()));
        ui.label(muted(scene.palette, words.practice_mark_long()));
        ui.horizontal_wrapped(|ui| {
            field(ui, words.practice_number(), &mut form.number, 70.0);
            for one in [Unit::Inch, Unit::Millimetre] {
                let chosen = unit == one;
                if choice(ui, scene.palette, chosen, words.unit_short(one)).clicked() {
                    form.unit = Some(one);
                }
            }
            field(ui, words.practice_trainee(), &mut form.trainee, 170.0);
        });
        let hint = match form.sets_down() {
            true => words.practice_number_open(),
            false => words.practice_number_hint(),
        };
        ui.label(muted(scene.palette, hint));
        ui.label(words.practice_whose_advice());
        ui.horizontal_wrapped(|ui| {
            for help in Help::ALL {
                let chosen = form.help == help;
                if choice(ui, scene.palette, chosen, words.help_grade(help)).clicked() {
                    form.help = help;
                }
            }
        });
        fold(ui, words.practice_choose(), |ui| choose(ui, scene, form));
        let trainers = words.practice_trainers();
        fold(ui, trainers, |ui| hand_out(ui, scene, form));
        ui.add_space(4.0);
        ui.separator();
    });
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
    let foot = Foot {
        leave: Some(words.cancel()),
        main: Some((words.practice_begin(), exercise.is_some())),
    };
    let mut open = false;
    let answer = foot.show(ui, scene.palette, |ui| {
        open = button(ui, words.practice_open()).clicked();
    });
    match (answer, exercise) {
        (Some(Answer::Main), Some(exercise)) => {
            let then = Then::Practice(Box::new(exercise), form.trainee.clone());
            scene.ask(Action::Leave(then));
        }
        (Some(Answer::Leave), _) => scene.ask(Action::Close),
        _ if open => scene.ask(Action::Leave(Then::Open)),
        _ => {}
    }
}

/// What the number would draw, chosen instead: fault, level and arms, or a
/// press of the trainer's own.
fn choose(ui: &mut Ui, scene: &Scene<'_>, form: &mut PracticeForm) {
    let words = scene.words();
    let any = words.practice_any();
    ui.horizontal_wrapped(|ui| {
        let faults = Fault::ALL.map(|fault| (fault, words.fault(fault).to_owned()));
        one_of(ui, words.practice_fault(), any, &mut form.fault, &faults);
        let levels = Level::ALL.map(|level| (level, words.level(level).to_owned()));
        one_of(ui, words.practice_level(), any, &mut form.level, &levels);
        let arms: Vec<_> = PRACTICE_ARMS.map(|arms| (arms, arms.to_string())).collect();
        one_of(ui, words.practice_arms(), any, &mut form.arms, &arms);
    });
    ui.label(words.practice_own());
    let own = ui.add(line(&mut form.own, ui.available_width() - 20.0));
    name_text(&own, words.practice_own_place(), &form.own);
    let unit = form.unit.unwrap_or(scene.figures.unit);
    if let Ok(exercise) = form.exercise(unit)
        && !exercise.profile.is_empty()
    {
        echo(ui, scene, &exercise);
        return;
    }
    let (readings, off) = match unit {
        Unit::Inch => ("0.2480 0.2475 0.2510", "0 +0.004 -0.002"),
        Unit::Millimetre => ("6.30 6.29 6.38", "0 +0.10 -0.05"),
    };
    let hint = words.practice_own_hint(readings, off);
    ui.label(muted(scene.palette, hint));
}

/// A press as it was understood: drawn, with its arms and their spread.
fn echo(ui: &mut Ui, scene: &Scene<'_>, exercise: &Exercise) {
    let words = scene.words();
    let lengths = exercise.profile.iter().map(TypedLength::length);
    let ends = lengths
        .clone()
        .fold(None, |ends: Option<(Length, Length)>, length| {
            let (low, high) = ends.unwrap_or((length, length));
            Some((low.min(length), high.max(length)))
        });
    let (low, high) = ends.unwrap_or((Length::ZERO, Length::ZERO));
    let figures = Figures {
        unit: exercise.unit,
        ..scene.figures
    };
    let said = words.practice_own_echo(exercise.arms, figures.plain(high.minus(low)));
    ui.horizontal(|ui| {
        let (area, _) = ui.allocate_exact_size(Vec2::new(150.0, 34.0), Sense::hover());
        let across = area.shrink(6.0);
        let range = high.minus(low).nm_f64().max(1.0);
        let last = exercise.arms.saturating_sub(1).max(1) as f32;
        let at = |(arm, length): (usize, Length)| {
            let up = (length.minus(low).nm_f64() / range) as f32;
            let x = across.left() + across.width() * arm as f32 / last;
            Pos2::new(x, across.bottom() - across.height() * up)
        };
        let places: Vec<Pos2> = lengths.enumerate().map(at).collect();
        let ink = scene.palette.present;
        for place in &places {
            ui.painter().circle_filled(*place, 3.5, ink);
        }
        ui.painter().line(places, theme::stroke(2.0, ink));
        ui.label(strong(said));
    });
}

/// For trainers: the exercise as it is chosen, in a file.
fn hand_out(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut PracticeForm) {
    let words = scene.words();
    ui.label(muted(scene.palette, words.practice_hand_out_hint()));
    ui.horizontal_wrapped(|ui| {
        field(ui, words.practice_title(), &mut form.title, 260.0);
    });
    let label = ui.label(words.practice_note());
    let wide = ui.available_width() - 20.0;
    ui.add(line(&mut form.note, wide)).labelled_by(label.id);
    if button(ui, words.practice_hand_out()).clicked()
        && let Ok(exercise) = form.exercise(scene.figures.unit)
    {
        scene.ask(Action::Practice(PracticeWish::HandOut(Box::new(exercise))));
    }
}

/// A choice after its name; none leaves it to the number.
fn one_of<T: Copy + PartialEq>(
    ui: &mut Ui,
    name: &str,
    any: &str,
    chosen: &mut Option<T>,
    all: &[(T, String)],
) {
    let label = ui.label(name);
    let now = all.iter().find(|(one, _)| Some(*one) == *chosen);
    ComboBox::from_id_salt(name)
        .selected_text(now.map_or(any, |(_, text)| text))
        .show_ui(ui, |ui| {
            ui.selectable_value(chosen, None, any);
            for (one, text) in all {
                ui.selectable_value(chosen, Some(*one), text);
            }
        })
        .response
        .labelled_by(label.id);
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
    let foot = Foot {
        leave: Some(words.cancel()),
        main: Some((words.practice_begin(), ready)),
    };
    let answer = foot.show(ui, scene.palette, |_| {});
    let entered = ui.input(|input| input.key_pressed(Key::Enter));
    if answer == Some(Answer::Main) || (ready && entered) {
        let then = Then::Practice(Box::new(exercise.clone()), who.trim().to_owned());
        scene.ask(Action::Leave(then));
    }
    if answer == Some(Answer::Leave) {
        scene.ask(Action::Close);
    }
}
