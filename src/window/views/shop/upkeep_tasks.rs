//! The shop's tasks: their words, intervals and order, in sight or hidden.

use std::num::NonZeroU32;

use eframe::egui::Ui;

use crate::session::MarkKind;
use crate::shop::{Interval, Task, Upkeep, UpkeepEdit};
use crate::window::action::Action;
use crate::window::shop::ShopWish;
use crate::window::state::upkeep::{TaskForm, UpkeepForm};
use crate::window::views::Scene;
use crate::window::views::tick_box::tick_box;
use crate::window::views::widgets::{button, choice, field, muted, named_button, strong};

use super::ask;

/// Draws the tasks, and the form of the one that is changed below it.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, upkeep: &Upkeep) {
    let words = scene.words();
    for task in upkeep.tasks() {
        ui.push_id(&task.key, |ui| one(ui, scene, &task));
        if is_open(scene, Some(&task)) {
            form(ui, scene);
        }
    }
    if button(ui, words.upkeep_add()).clicked() {
        let new = TaskForm {
            own: true,
            ..TaskForm::default()
        };
        scene.view.shop.upkeep.open(UpkeepForm::Task(new));
    }
    if is_open(scene, None) {
        form(ui, scene);
    }
}

fn is_open(scene: &Scene<'_>, task: Option<&Task>) -> bool {
    matches!(&scene.view.shop.upkeep.form, Some(UpkeepForm::Task(form))
        if form.was.as_ref().map(|was| &was.key) == task.map(|task| &task.key))
}

fn one(ui: &mut Ui, scene: &mut Scene<'_>, task: &Task) {
    let words = scene.words();
    let what = words.upkeep_task(task).to_owned();
    let of = |button: &str| words.upkeep_button_of(button, &what);
    ui.horizontal_wrapped(|ui| {
        let (number, pieces) = match task.every {
            Interval::Days(days) => (days, false),
            Interval::Pieces(number) => (number, true),
        };
        let change = TaskForm {
            was: Some(task.clone()),
            words: what.clone(),
            number: number.to_string(),
            pieces,
            own: task.own,
        };
        let text = words.upkeep_change();
        opens(ui, scene, text, &of(text), UpkeepForm::Task(change));
        for (text, by) in [(words.upkeep_up(), -1), (words.upkeep_down(), 1)] {
            if named_button(ui, text, &of(text)) {
                let edit = UpkeepEdit::Move(task.key.clone(), by);
                ask(scene, ShopWish::Keep(edit));
            }
        }
        let hide = match task.hidden {
            true => words.upkeep_show(),
            false => words.upkeep_hide(),
        };
        if named_button(ui, hide, &of(hide)) {
            let hidden = Task {
                hidden: !task.hidden,
                ..task.clone()
            };
            let edit = UpkeepEdit::Change(task.clone(), hidden);
            ask(scene, ShopWish::Keep(edit));
        }
        match task.hidden {
            true => ui.label(muted(scene.palette, &what)),
            false => ui.label(strong(&what)),
        };
        ui.label(words.upkeep_every(task));
    });
}

/// The task as it is typed.
fn form(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let palette = scene.palette;
    let view = &mut scene.view.shop.upkeep;
    let keeping = view.keeping;
    let wants_focus = std::mem::take(&mut view.wants_focus);
    let Some(UpkeepForm::Task(form)) = &mut view.form else {
        return;
    };
    let (mut keep, mut cancel) = (false, false);
    ui.vertical(|ui| {
        let width = ui.available_width().min(520.0);
        let typed = field(ui, words.upkeep_words(), &mut form.words, width);
        if wants_focus {
            typed.request_focus();
        }
        ui.horizontal_wrapped(|ui| {
            field(ui, words.upkeep_interval(), &mut form.number, 100.0);
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
            if tick_box(ui, palette, words.upkeep_own(), kind, width).clicked() {
                form.own = !form.own;
            }
        }
        ui.horizontal(|ui| {
            ui.add_enabled_ui(!keeping, |ui| {
                keep = button(ui, words.upkeep_keep()).clicked();
            });
            cancel = button(ui, words.cancel()).clicked();
        });
    });
    if keep {
        let asked = match typed(form) {
            Some(every) => Action::Shop(ShopWish::Keep(edit(form, every, words))),
            None => Action::Complain(words.upkeep_no_number().to_owned()),
        };
        scene.ask(asked);
    } else if cancel {
        view.form = None;
    }
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

/// A button that opens a form, named for what it is about.
pub fn opens(ui: &mut Ui, scene: &mut Scene<'_>, text: &str, name: &str, form: UpkeepForm) {
    if named_button(ui, text, name) {
        scene.view.shop.upkeep.open(form);
    }
}
