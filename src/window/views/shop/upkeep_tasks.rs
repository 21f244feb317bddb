//! The shop's tasks as a table: their words and intervals, in the shop's order;
//! the one that is changed gives way to its form.

use std::num::NonZeroU32;

use eframe::egui::{Response, RichText, Ui};

use crate::shop::{Interval, Task, Upkeep, UpkeepEdit};
use crate::window::action::Action;
use crate::window::shop::ShopWish;
use crate::window::state::upkeep::{TaskForm, UpkeepForm};
use crate::window::theme::{self, Palette, TARGET};
use crate::window::views::Scene;
use crate::window::views::dialog_room::{Answer, Foot};
use crate::window::views::widgets::{button, choice, field, muted, strong};
use crate::words::Language;

use super::row::{self, Text};
use super::upkeep;

/// Shares of the columns: task, how often, whose interval it is.
const SHARES: [f32; 3] = [0.5, 0.3, 0.2];

/// Widths of the fields for words and for a number.
const WORDS: f32 = 520.0;
const NUMBER: f32 = 80.0;

/// Draws the tasks: as they are of all presses, or of the one that is chosen.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, upkeep: &Upkeep) {
    let words = scene.words();
    let tasks = upkeep.tasks();
    ui.horizontal_wrapped(|ui| {
        upkeep::by_press(ui, scene, words.upkeep_all_presses());
        if button(ui, words.upkeep_add()).clicked() {
            scene.view.shop.upkeep.press = None;
            let new = TaskForm {
                own: true,
                ..TaskForm::default()
            };
            scene.view.shop.upkeep.open(UpkeepForm::Task(new));
        }
    });
    if tasks.iter().any(|task| !task.own && !task.hidden) {
        ui.label(muted(scene.palette, words.upkeep_defaults()));
    }
    let chosen = scene.view.shop.upkeep.press.clone();
    let desk = std::sync::Arc::clone(&scene.shop.upkeep);
    let mut presses = desk.presses.iter();
    let press = presses.find(|press| Some(words.press_name(press)) == chosen);
    if is_open(scene, None) {
        form(ui, scene, false, false);
    }
    row::headings(ui, scene.palette, &SHARES, words.task_columns());
    for (place, task) in tasks.iter().enumerate() {
        if press.is_some() && task.is_of_gauge() {
            continue;
        }
        ui.push_id(&task.key, |ui| match is_open(scene, Some(task)) {
            true => form(ui, scene, place > 0, place + 1 < tasks.len()),
            false => one(ui, scene, task, press),
        });
    }
}

fn is_open(scene: &Scene<'_>, task: Option<&Task>) -> bool {
    matches!(&scene.view.shop.upkeep.form, Some(UpkeepForm::Task(form))
        if form.was.as_ref().map(|was| &was.key) == task.map(|task| &task.key))
}

fn one(ui: &mut Ui, scene: &mut Scene<'_>, task: &Task, press: Option<&String>) {
    let words = scene.words();
    let palette = scene.palette;
    let what = words.upkeep_task(task).to_owned();
    let (shown, ink) = match task.hidden {
        true => (words.press_and(&what, words.task_hidden()), palette.muted),
        false => (what.clone(), palette.ink),
    };
    let beware = words.upkeep_beware(task);
    let here = press.map_or_else(|| task.clone(), |press| task.at(press));
    let every = words.upkeep_comes_round(here.every);
    let differs = task.presses.iter().filter(|_| press.is_none());
    let differs = differs.map(|(press, every)| {
        words.press_and(words.press_name(press), words.upkeep_comes_round(*every))
    });
    let differs = differs.collect::<Vec<_>>().join("\n");
    let from = match press {
        Some(press) if task.presses.contains_key(press) => words.task_from_press(),
        _ if here.own => words.task_from_shop(),
        _ => words.task_from_default(),
    };
    let cells = [
        vec![
            Text::bold(&shown, ink),
            Text::small(&beware, palette.caution),
        ],
        vec![Text::small(&every, ink), Text::small(&differs, ink)],
        vec![Text::small(from, ink)],
    ];
    let name = words.upkeep_button_of(words.upkeep_change(), &what);
    let (row, _) = row::row(ui, palette, &SHARES, &cells, (&name, TARGET, false));
    if row.clicked() {
        let (number, pieces) = in_fields(here.every);
        let form = TaskForm {
            was: Some(task.clone()),
            words: what,
            number,
            pieces,
            own: press.map_or(task.own, |press| task.presses.contains_key(press)),
            press: press.cloned(),
        };
        scene.view.shop.upkeep.open(UpkeepForm::Task(form));
    }
}

/// An interval as it is typed: its number, and whether it is one of pieces.
fn in_fields(every: Interval) -> (String, bool) {
    match every {
        Interval::Days(days) => (days.to_string(), false),
        Interval::Pieces(number) => (number.to_string(), true),
    }
}

/// The task as it is typed; whether it can go further up or down.
fn form(ui: &mut Ui, scene: &mut Scene<'_>, up: bool, down: bool) {
    let words = scene.words();
    let palette = scene.palette;
    let view = &mut scene.view.shop.upkeep;
    let keeping = view.keeping;
    let opened = std::mem::take(&mut view.wants_focus);
    let Some(UpkeepForm::Task(form)) = &mut view.form else {
        return;
    };
    let (mut answer, mut wish) = (None, None);
    let card = theme::card(palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        match (&form.press, &form.was) {
            (Some(press), _) => {
                let press = words.press_name(press);
                ui.label(strong(words.press_and(press, &form.words)));
            }
            (None, was) => {
                ui.label(strong(match was {
                    Some(_) => words.task_for_all(),
                    None => words.task_new(),
                }));
                ui.horizontal_wrapped(|ui| {
                    let wide = WORDS.min(ui.available_width() - 16.0);
                    let typed = field(ui, words.upkeep_words(), &mut form.words, wide);
                    if opened {
                        typed.request_focus();
                    }
                });
            }
        }
        let beware = words.upkeep_beware(&task(form, words));
        let beware = match form.was.is_some() || beware.is_empty() {
            true => beware,
            false => words.task_shown_with(beware),
        };
        ui.label(RichText::new(beware).color(palette.caution));
        let was = form.was.as_ref().map(|was| was.every);
        match (was, form.press.is_some()) {
            (Some(every), true) => of_press(ui, palette, words, (every, form)),
            (Some(was), false) => {
                interval(ui, palette, words, form);
                // Whoever changes the interval has it from somewhere better.
                let changed = typed(form).is_some_and(|every| was != every);
                form.own |= changed;
                ui.horizontal_wrapped(|ui| {
                    ui.label(words.upkeep_interval_from());
                    for (own, text) in [
                        (false, words.task_from_default()),
                        (true, words.task_from_shop()),
                    ] {
                        ui.add_enabled_ui(own || !changed, |ui| {
                            if choice(ui, palette, form.own == own, text).clicked() {
                                form.own = own;
                            }
                        });
                    }
                });
            }
            (None, _) => {
                interval(ui, palette, words, form);
            }
        }
        let keep = match (&form.press, form.own) {
            (Some(_), true) => words.upkeep_keep_for_one(),
            (Some(_), false) => words.upkeep_keep_as_all(),
            (None, _) if form.was.is_none() => words.upkeep_add_it(),
            (None, _) => words.upkeep_keep(),
        };
        let foot = Foot {
            leave: Some(words.cancel()),
            // Of nothing typed, and of nothing changed, there is nothing to keep.
            main: Some((
                keep,
                !keeping
                    && form.was.as_ref() != Some(&task(form, words))
                    && !form.words.trim().is_empty()
                    && !form.number.trim().is_empty(),
            )),
        };
        answer = foot.show(ui, palette, |ui| {
            if let Some(was) = form.was.as_ref().filter(|_| form.press.is_none()) {
                wish = order(ui, scene.figures.language, was, (up, down));
            }
        });
    });
    if opened {
        ui.scroll_to_rect(card.response.rect, None);
    }
    if let Some(edit) = wish {
        scene.ask(Action::Shop(ShopWish::Keep(edit)));
        return;
    }
    match answer {
        Some(Answer::Main) => {
            let asked = match (typed(form), &form.was) {
                (None, _) => Action::Complain(words.upkeep_no_number().to_owned()),
                (Some(every), None) => {
                    let text = form.words.trim().to_owned();
                    Action::Shop(ShopWish::Keep(UpkeepEdit::Add(text, every)))
                }
                (Some(_), Some(was)) => {
                    let edit = UpkeepEdit::Change(was.clone(), task(form, words));
                    Action::Shop(ShopWish::Keep(edit))
                }
            };
            scene.ask(asked);
        }
        Some(Answer::Leave | Answer::Lose) => view.form = None,
        None => {}
    }
}

/// How often a task comes round.
fn interval(ui: &mut Ui, palette: &Palette, words: Language, form: &mut TaskForm) -> Response {
    ui.horizontal_wrapped(|ui| {
        let typed = field(ui, words.upkeep_interval(), &mut form.number, NUMBER);
        for (pieces, text) in [
            (false, words.upkeep_days()),
            (true, words.upkeep_by_pieces()),
        ] {
            if choice(ui, palette, form.pieces == pieces, text).clicked() {
                form.pieces = pieces;
            }
        }
        typed
    })
    .inner
}

/// How often it comes round at one press: as at all of them, or by an interval
/// of its own, which is asked for only then.
fn of_press(
    ui: &mut Ui,
    palette: &Palette,
    words: Language,
    (every, form): (Interval, &mut TaskForm),
) {
    let all = words.task_as_all(words.upkeep_comes_round(every));
    let mut chosen = false;
    ui.horizontal_wrapped(|ui| {
        if choice(ui, palette, !form.own, &all).clicked() {
            form.own = false;
            (form.number, form.pieces) = in_fields(every);
        }
        if choice(ui, palette, form.own, words.task_own_interval()).clicked() {
            chosen = !form.own;
            form.own = true;
        }
    });
    if form.own {
        let typed = interval(ui, palette, words, form);
        if chosen {
            typed.request_focus();
        }
    }
}

/// Where the task stands in the shop's order, and whether it is in sight.
fn order(
    ui: &mut Ui,
    words: Language,
    task: &Task,
    (up, down): (bool, bool),
) -> Option<UpkeepEdit> {
    let mut wish = None;
    for (text, by, can) in [(words.upkeep_up(), -1, up), (words.upkeep_down(), 1, down)] {
        if ui
            .add_enabled_ui(can, |ui| button(ui, text))
            .inner
            .clicked()
        {
            wish = Some(UpkeepEdit::Move(task.key.clone(), by));
        }
    }
    let hide = match task.hidden {
        true => words.upkeep_show(),
        false => words.upkeep_hide(),
    };
    if button(ui, hide).clicked() {
        let hidden = Task {
            hidden: !task.hidden,
            ..task.clone()
        };
        wish = Some(UpkeepEdit::Change(task.clone(), hidden));
    }
    wish
}

fn typed(form: &TaskForm) -> Option<Interval> {
    let number: NonZeroU32 = form.number.trim().parse().ok()?;
    Some(match form.pieces {
        true => Interval::Pieces(number),
        false => Interval::Days(number),
    })
}

/// The task as it is typed; what cannot be read stays as it was.
fn task(form: &TaskForm, words: Language) -> Task {
    let every = typed(form).unwrap_or(Interval::Days(NonZeroU32::MIN));
    let mut task = form.was.clone().unwrap_or_else(|| Task::new("", every));
    match &form.press {
        Some(press) if form.own => {
            task.presses.insert(press.clone(), every);
        }
        Some(press) => {
            task.presses.remove(press);
        }
        None => {
            // Words left as they were stay the program's, in every language.
            let text = form.words.trim();
            if text != words.upkeep_task(&task) && !text.is_empty() {
                task.words = text.to_owned();
            }
            (task.every, task.own) = (every, form.own);
        }
    }
    task
}
