//! The shop's tasks as a table: their words and intervals, in the shop's order;
//! the one that is changed gives way to its form.

use std::num::NonZeroU32;

use eframe::egui::{Label, Ui};

use crate::shop::{Interval, Task, Upkeep, UpkeepEdit};
use crate::window::action::Action;
use crate::window::shop::ShopWish;
use crate::window::state::upkeep::{TaskForm, UpkeepForm};
use crate::window::theme::{self, TARGET};
use crate::window::views::Scene;
use crate::window::views::dialog_room::{Answer, Foot};
use crate::window::views::widgets::{button, choice, field, muted};

use super::row::{self, Text};

/// Shares of the columns: task, how often, whose interval it is, changing it.
const SHARES: [f32; 4] = [0.44, 0.22, 0.2, 0.14];

/// Widths of the fields for words and for a number.
const WORDS: f32 = 520.0;
const NUMBER: f32 = 80.0;

/// Draws the tasks.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, upkeep: &Upkeep) {
    let words = scene.words();
    let tasks = upkeep.tasks();
    ui.horizontal(|ui| {
        if button(ui, words.upkeep_add()).clicked() {
            let new = TaskForm {
                own: true,
                ..TaskForm::default()
            };
            scene.view.shop.upkeep.open(UpkeepForm::Task(new));
        }
        if tasks.iter().any(|task| !task.own && !task.hidden) {
            let said = muted(scene.palette, words.upkeep_defaults());
            ui.add(Label::new(said).wrap());
        }
    });
    if is_open(scene, None) {
        form(ui, scene, false, false);
    }
    row::headings(ui, scene.palette, &SHARES, words.task_columns());
    for (place, task) in tasks.iter().enumerate() {
        ui.push_id(&task.key, |ui| match is_open(scene, Some(task)) {
            true => form(ui, scene, place > 0, place + 1 < tasks.len()),
            false => one(ui, scene, task),
        });
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
    let (shown, ink) = match task.hidden {
        true => (words.press_and(&what, words.task_hidden()), palette.muted),
        false => (what.clone(), palette.ink),
    };
    let beware = words.upkeep_beware(task);
    let every = words.upkeep_comes_round(task);
    let from = match task.own {
        true => words.task_from_shop(),
        false => words.task_from_default(),
    };
    let cells = [
        vec![
            Text::bold(&shown, ink),
            Text::small(&beware, palette.caution),
        ],
        vec![Text::small(&every, ink)],
        vec![Text::small(from, ink)],
        vec![Text::small(words.upkeep_change(), palette.present)],
    ];
    let name = words.upkeep_button_of(words.upkeep_change(), &what);
    let (row, _) = row::row(ui, palette, &SHARES, &cells, (&name, TARGET, false));
    if row.clicked() {
        let form = UpkeepForm::Task(form_of(task, what));
        scene.view.shop.upkeep.open(form);
    }
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
        let was = form.was.as_ref().map(|was| was.every);
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
        // Whoever changes the interval has it from somewhere better.
        let changed = typed(form).is_some_and(|every| was.is_some_and(|was| was != every));
        form.own |= changed;
        if was.is_some() {
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
        let foot = Foot {
            leave: Some(words.cancel()),
            main: Some((words.upkeep_keep(), !keeping)),
        };
        if was.is_some() {
            ui.label(muted(palette, words.upkeep_hidden_stays()));
        }
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
        own: form.own,
        ..was.clone()
    };
    UpkeepEdit::Change(was.clone(), task)
}
