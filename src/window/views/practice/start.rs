//! What there is to practice: the lessons, and an exercise to begin.

use eframe::egui::{Align, Button, ComboBox, Key, Layout, Rect, Ui, Vec2};

use crate::practice::{Exercise, Fault, Help, LessonTopic, Level, PRACTICE_ARMS};
use crate::press::{Notches, WrenchWay, customary};
use crate::report::NutTurn;
use crate::units::{Length, TypedLength, Unit};
use crate::window::action::Action;
use crate::window::practicing::PracticeWish;
use crate::window::state::dialog::Then;
use crate::window::state::{NoExercise, PracticeForm, PracticePage};
use crate::window::theme::{self, TARGET, size};
use crate::words::Figures;

use crate::window::views::Scene;
use crate::window::views::dialog_room::{self, Answer, Foot};
use crate::window::views::explaining::help;
use crate::window::views::forms::session_field::line_below;
use crate::window::views::picture::gauge_drawn::{self, Seat};
use crate::window::views::turning::wrench;
use crate::window::views::widgets::{
    button, choice, field, line, main_button, muted, name_text, strong, tab, tabs,
};

/// Height of a lesson's picture, and width from which lessons stand beside each
/// other.
const PICTURE: f32 = 230.0;
const BESIDE: f32 = 600.0;

/// Height of a page, where the window has it.
const PAGE: f32 = 470.0;

/// Draws the dialog, page by page.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut PracticeForm) {
    let words = scene.words();
    tabs(ui, scene.palette, |ui| {
        for (page, name) in [
            (PracticePage::Lessons, words.practice_lessons()),
            (PracticePage::Exercise, words.practice_exercise()),
            (PracticePage::Trainers, words.practice_trainers()),
        ] {
            if tab(ui, scene.palette, form.page == page, name).clicked() {
                (form.page, form.fault_shown) = (page, false);
            }
        }
    });
    let unit = form.unit.unwrap_or(scene.figures.unit);
    let exercise = form.exercise(unit);
    dialog_room::middle_of_height(ui, PAGE, |ui| match form.page {
        PracticePage::Lessons => lessons(ui, scene),
        PracticePage::Exercise => choose(ui, scene, form, unit),
        PracticePage::Trainers => {
            ui.label(words.practice_hand_out_hint());
            choose(ui, scene, form, unit);
            hand_out(ui, scene, form, exercise.as_ref().ok());
        }
    });
    let lessons = form.page == PracticePage::Lessons;
    if let (Err(problem), false) = (&exercise, lessons) {
        let sentence = match problem {
            NoExercise::Problem(problem) => words.exercise_problem(*problem),
            NoExercise::Length(problem) => {
                words.length_problem(words.practice_own_place(), problem, unit)
            }
        };
        ui.label(strong(sentence));
    }
    let exercise = exercise.ok();
    let begins = form.page == PracticePage::Exercise;
    let main = match begins {
        true => words.practice_begin(),
        false => words.practice_hand_out(),
    };
    let foot = Foot {
        leave: Some(match lessons {
            true => words.close(),
            false => words.cancel(),
        }),
        main: (!lessons).then_some((main, exercise.is_some())),
    };
    let mut open = false;
    let answer = foot.show(ui, scene.palette, |ui| {
        open = begins && button(ui, words.practice_open()).clicked();
    });
    match (answer, exercise) {
        (Some(Answer::Main), Some(exercise)) if begins => {
            let then = Then::Practice(Box::new(exercise), form.trainee.clone());
            scene.ask(Action::Leave(then));
        }
        (Some(Answer::Main), Some(exercise)) => {
            let wish = PracticeWish::HandOut(Box::new(exercise));
            scene.ask(Action::Practice(wish));
        }
        (Some(Answer::Leave), _) => scene.ask(Action::Close),
        _ if open => scene.ask(Action::Leave(Then::Open)),
        _ => {}
    }
}

/// A card for each lesson; that of the first not yet seen is the next.
fn lessons(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    ui.label(muted(scene.palette, words.practice_lessons_on()));
    let mut all = LessonTopic::ALL.into_iter();
    let next = all.find(|topic| !scene.view.lessons_seen.contains(topic));
    let count = match ui.available_width() < BESIDE {
        true => 1,
        false => LessonTopic::ALL.len(),
    };
    ui.columns(count, |columns| {
        for (index, topic) in LessonTopic::ALL.into_iter().enumerate() {
            let Some(ui) = columns.get_mut(index % count) else {
                return;
            };
            // Columns set their texts in block.
            ui.with_layout(Layout::top_down(Align::LEFT), |ui| {
                theme::card(scene.palette).show(ui, |ui| lesson(ui, scene, topic, next));
            });
        }
    });
}

fn lesson(ui: &mut Ui, scene: &mut Scene<'_>, topic: LessonTopic, next: Option<LessonTopic>) {
    let words = scene.words();
    let wide = ui.available_width();
    ui.set_width(wide);
    let (_, area) = ui.allocate_space(Vec2::new(wide, PICTURE));
    picture(ui, scene, topic, area);
    let title = words.lesson_title(topic);
    let begun = match next == Some(topic) {
        true => main_button(ui, scene.palette, title, true),
        false => ui.add(Button::new(title).min_size(Vec2::new(wide, TARGET))),
    };
    if begun.clicked() {
        scene.ask(Action::Practice(PracticeWish::Lesson(topic)));
    }
    ui.label(words.lesson_shows(topic));
    let mut about = words.lesson_minutes(topic.minutes());
    if scene.view.lessons_seen.contains(&topic) {
        about = format!("{about} · {}", words.lesson_seen());
    }
    ui.label(muted(scene.palette, about));
}

/// What a lesson is about, at a glance; what stands below it says it.
fn picture(ui: &Ui, scene: &Scene<'_>, topic: LessonTopic, area: Rect) {
    let palette = scene.palette;
    match topic {
        LessonTopic::ReadingTheGauge => {
            let at = (area, size::BODY);
            let shows = match scene.figures.unit {
                Unit::Inch => "0.2500",
                Unit::Millimetre => "6.35",
            };
            let _ = gauge_drawn::paint(ui.painter(), palette, at, Seat::Square, (shows, None));
        }
        LessonTopic::OverTightening => help::pinched(ui, scene, area, false),
        LessonTopic::WholeNotches => {
            let way = WrenchWay::of(Notches(1), false);
            let turn = way.map(|way| NutTurn {
                way,
                notches: 1,
                from: 0,
                done: false,
            });
            let radius = area.height() * 0.3;
            wrench::show(ui.painter(), palette, area.center(), radius, turn);
        }
    }
}

/// Which press and which help; what the number would draw may be chosen, or a
/// press of one's own.
fn choose(ui: &mut Ui, scene: &Scene<'_>, form: &mut PracticeForm, unit: Unit) {
    let words = scene.words();
    ui.horizontal_wrapped(|ui| {
        field(ui, words.practice_number(), &mut form.number, 70.0);
        for one in [Unit::Inch, Unit::Millimetre] {
            let chosen = unit == one;
            if choice(ui, scene.palette, chosen, words.unit_short(one)).clicked() {
                form.unit = Some(one);
            }
        }
        // Whoever hands it out does not do it.
        if form.page == PracticePage::Exercise {
            field(ui, words.practice_trainee(), &mut form.trainee, 170.0);
        }
    });
    let hint = match form.sets_down() {
        true => words.practice_number_open(),
        false => words.practice_number_hint(),
    };
    ui.label(muted(scene.palette, hint));
    let figures = Figures {
        unit,
        ..scene.figures
    };
    let judged = words.practice_judged(figures.plain(customary::tolerance(unit)));
    ui.label(match unit {
        Unit::Inch => judged,
        Unit::Millimetre => format!("{judged} {}", words.metric_tolerance_is_looser()),
    });
    ui.label(words.practice_whose_advice());
    ui.horizontal_wrapped(|ui| {
        for help in Help::ALL {
            let chosen = form.help == help;
            if choice(ui, scene.palette, chosen, words.help_grade(help)).clicked() {
                form.help = help;
            }
        }
    });
    let own = form.has_own_press();
    ui.horizontal_wrapped(|ui| {
        let any = match own {
            true => words.practice_no_other(),
            false => words.practice_any(),
        };
        let faults = Fault::ALL.map(|fault| (fault, words.fault(fault).to_owned()));
        one_of(ui, words.practice_fault(), any, &mut form.fault, &faults);
        // A press of one's own has its own.
        if own {
            ui.disable();
        }
        let any = words.practice_any();
        let levels = Level::ALL.map(|level| (level, words.level(level).to_owned()));
        one_of(ui, words.practice_level(), any, &mut form.level, &levels);
        let arms: Vec<_> = PRACTICE_ARMS.map(|arms| (arms, arms.to_string())).collect();
        one_of(ui, words.practice_arms(), any, &mut form.arms, &arms);
    });
    ui.label(words.practice_own());
    let typed = ui.add(line(&mut form.own, ui.available_width() - 20.0));
    name_text(&typed, words.practice_own_place(), &form.own);
    match form.exercise(unit).ok().as_ref() {
        Some(exercise) if own => ui.label(strong(understood(scene, exercise))),
        _ => {
            let (readings, off) = match unit {
                Unit::Inch => ("0.2480 0.2475 0.2510 0.2490", "0 +0.004 -0.002 0"),
                Unit::Millimetre => ("6.30 6.29 6.38 6.33", "0 +0.10 -0.05 0"),
            };
            let hint = words.practice_own_hint(readings, off);
            ui.label(muted(scene.palette, hint))
        }
    };
}

/// A press of one's own as it was understood.
fn understood(scene: &Scene<'_>, exercise: &Exercise) -> String {
    let lengths = exercise.profile.iter().map(TypedLength::length);
    let ends = lengths.clone().max().zip(lengths.min());
    let spread = ends.map_or(Length::ZERO, |(high, low)| high.minus(low));
    let figures = Figures {
        unit: exercise.unit,
        ..scene.figures
    };
    (scene.words()).practice_own_echo(exercise.arms, figures.plain(spread))
}

/// For trainers: the exercise as it is chosen, with what its file tells.
fn hand_out(ui: &mut Ui, scene: &Scene<'_>, form: &mut PracticeForm, exercise: Option<&Exercise>) {
    let words = scene.words();
    ui.horizontal_wrapped(|ui| {
        let wide = (ui.available_width() - 30.0) / 2.0;
        for (name, text) in [
            (words.practice_title(), &mut form.title),
            (words.practice_note(), &mut form.note),
        ] {
            line_below(ui, name, text, (wide, ""));
        }
    });
    if let Some(exercise) = exercise {
        let which = words.practice_which(exercise.number, words.help_grade(exercise.help));
        let press = match exercise.profile.is_empty() {
            true => words.practice_press(exercise.arms, words.level(exercise.level)),
            false => understood(scene, exercise),
        };
        let mut told = vec![which, words.unit_name(exercise.unit).to_owned(), press];
        let has_fault = exercise.profile.is_empty() || exercise.fault != Fault::Everyday;
        if has_fault && form.fault_shown {
            told.push(words.fault(exercise.fault).to_owned());
        }
        ui.horizontal_wrapped(|ui| {
            ui.label(strong(told.join("; ")));
            // Not to whoever only looks in.
            if has_fault && !form.fault_shown {
                form.fault_shown = button(ui, words.practice_show_fault()).clicked();
            }
        });
    }
    ui.label(muted(scene.palette, words.practice_hand_out_seen()));
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
