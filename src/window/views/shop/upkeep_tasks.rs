//! The shop's tasks as a table: their words and intervals, in the shop's order;
//! the one that is changed gives way to its form.

use std::num::NonZeroU32;

use eframe::egui::Ui;

use crate::session::MarkKind;
use crate::shop::{Interval, Task, Upkeep, UpkeepEdit};
use crate::window::action::Action;
use crate::window::shop::ShopWish;
use crate::window::state::upkeep::{TaskForm, UpkeepForm};
use crate::window::theme::{self, TARGET};
use crate::window::views::Scene;
use crate::window::views::dialog_room::{Answer, Foot};
use crate::window::views::tick_box::tick_box;
use crate::window::views::widgets::{button, choice, field, muted, named_button, strong};

use super::row;

/// Shares of the columns: task, how often, whose interval it is, changing it.
const SHARES: [f32; 4] = [0.44, 0.22, 0.2, 0.14];

/// Widths of the fields for words and for a number, and of the box that says
/// whose interval it is.
const WORDS: f32 = 520.0;
const NUMBER: f32 = 80.0;

/// Draws the tasks.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, upkeep: &Upkeep) {
    let words = scene.words();
    let tasks = upkeep.tasks();
    theme::card(scene.palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        row::headings(ui, scene.palette, &SHARES, words.task_columns());
        for (place, task) in tasks.iter().enumerate() {
            ui.push_id(&task.key, |ui| match is_open(scene, Some(task)) {
                true => form(ui, scene, place > 0, place + 1 < tasks.len()),
                false => one(ui, scene, task),
            });
        }
    });
    if is_open(scene, None) {
        form(ui, scene, false, false);
    } else if button(ui, words.upkeep_add()).clicked() {
        let new = TaskForm {
            own: true,
            ..TaskForm::default()
        };
        scene.view.shop.upkeep.open(UpkeepForm::Task(new));
    }
    if tasks.iter().any(|task| !task.own && !task.hidden) {
        ui.label(muted(scene.palette, words.upkeep_defaults()));
    }
}

fn is_open(scene: &Scene<'_>, task: Option<&Task>) -> bool {
    matches!(&scene.view.shop.upkeep.form, Some(UpkeepForm::Task(form))
        if form.was.as_ref().map(|was| &was.key) == task.map(|task| &task.key))
}

fn one(ui: &mut Ui, scene: &mut Scene<'_>, task: &Task) {
    let words = scene.words();
    let palette = scene.palette;
    let what = words.upkeep_task(task).to_owned();
    row::widgets(ui, &SHARES, TARGET, |ui, column| {
        let text = match column {
            0 if !task.hidden => {
                ui.label(strong(&what));
                return;
            }
            0 => words.press_and(&what, words.task_hidden()),
            1 => words.upkeep_comes_round(task),
            2 if task.own => words.task_from_shop().to_owned(),
            2 => words.task_from_default().to_owned(),
            _ => {
                let name = words.upkeep_button_of(words.upkeep_change(), &what);
                if named_button(ui, words.upkeep_change(), &name) {
                    let form = UpkeepForm::Task(form_of(task, what.clone()));
                    scene.view.shop.upkeep.open(form);
                }
                return;
            }
        };
        ui.label(match task.hidden {
            true => muted(palette, text),
            false => text.into(),
        });
    });
}

fn form_of(task: &Task, words: String) -> TaskForm {
    let (number, pieces) = match task.every {
        Interval::Days(days) => (days, false),
        Interval::Pieces(number) => (number, true),
    };
    TaskForm {
        was: Some(task.clone()),
        words,
        number: number.to_string(),
        pieces,
        own: task.own,
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
        ui.horizontal_wrapped(|ui| {
            let wide = WORDS.min(ui.available_width() - 16.0);
            let typed = field(ui, words.upkeep_words(), &mut form.words, wide);
            if opened {
                typed.request_focus();
            }
        });
        ui.horizontal_wrapped(|ui| {
            field(ui, words.upkeep_interval(), &mut form.number, NUMBER);
            for (pieces, text) in [
                (false, words.upkeep_days()),
                (true, words.upkeep_by_pieces()),
            ] {
                if choice(ui, palette, form.pieces == pieces, text).clicked() {
                    form.pieces = pieces;
                }
            }
        });
        if form.was.is_some() {
            let kind = form.own.then_some(MarkKind::Done);
            let width = ui.available_width();
            if tick_box(ui, palette, words.upkeep_own(), kind, width).clicked() {
                form.own = !form.own;
            }
        }
        let foot = Foot {
            leave: Some(words.cancel()),
            main: Some((words.upkeep_keep(), !keeping)),
        };
        answer = foot.show(ui, palette, |ui| {
            if let Some(was) = &form.was {
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
            let asked = match typed(form) {
                Some(every) => Action::Shop(ShopWish::Keep(edit(form, every, words))),
                None => Action::Complain(words.upkeep_no_number().to_owned()),
            };
            scene.ask(asked);
        }
        Some(Answer::Leave | Answer::Lose) => view.form = None,
        None => {}
    }
}

/// Where the task stands in the shop's order, and whether it is in sight.
fn order(
    ui: &mut Ui,
    words: crate::words::Language,
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

fn edit(form: &TaskForm, every: Interval, words: crate::words::Language) -> UpkeepEdit {
    let text = form.words.trim();
    let Some(was) = &form.was else {
        return UpkeepEdit::Add(text.to_owned(), every);
    };
    // Words left as they were stay the program's, in every language.
    let changed = text != words.upkeep_task(was) && !text.is_empty();
    let task = Task {
        words: match changed {
            true => text.to_owned(),
            false => was.words.clone(),
        },
        every,
        own: form.own || every != was.every,
        ..was.clone()
    };
    UpkeepEdit::Change(was.clone(), task)
}
