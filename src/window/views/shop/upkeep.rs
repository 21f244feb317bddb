//! What is due at every press, what is due longest on top; noting it; the log.

use std::sync::Arc;

use eframe::egui::{Key, RichText, Ui};

use crate::session::{Caution, IsoDate};
use crate::shop::{Entry, Noted, TaskDue, Upkeep, UpkeepEdit};
use crate::store::UPKEEP_FILE;
use crate::window::shop::ShopWish;
use crate::window::state::upkeep::{UpkeepForm, UpkeepPart};
use crate::window::theme::size;
use crate::window::upkeep::UpkeepDesk;
use crate::window::views::Scene;
use crate::window::views::visit::noting;
use crate::window::views::widgets::{button, choice, field, muted, strong, title};

use super::upkeep_tasks::{self, opens};
use super::{MOST_ROWS, ask, find};

/// Cautions that stand above all tasks, not at each.
const ABOVE: [Caution; 2] = [Caution::MadeSafe, Caution::JawBlocked];

/// Width of a field.
const FIELD: f32 = 280.0;

/// Draws the page.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let desk = Arc::clone(&scene.shop.upkeep);
    if !scene.shop.read {
        return;
    }
    let upkeep = match &desk.kept {
        Ok(upkeep) => upkeep,
        Err(problem) => {
            let path = scene.shop.path(UPKEEP_FILE);
            let why = scene.figures.open_problem(problem, &path);
            let why = format!("⚠ {}", words.upkeep_unreadable(why));
            ui.label(RichText::new(why).color(scene.palette.caution));
            return;
        }
    };
    ui.label(strong(words.cautions_manual_first()));
    for caution in ABOVE {
        ui.label(words.caution_with_source(caution));
    }
    if upkeep.tasks().iter().any(|task| !task.own && !task.hidden) {
        ui.label(words.upkeep_defaults());
    }
    let Some(today) = desk.day else {
        ui.label(RichText::new(words.upkeep_no_day()).color(scene.palette.caution));
        return;
    };
    parts(ui, scene, &desk);
    match scene.view.shop.upkeep.part {
        UpkeepPart::Due => list(ui, scene, &desk, today),
        UpkeepPart::Tasks => upkeep_tasks::show(ui, scene, upkeep),
        UpkeepPart::Log => log(ui, scene, upkeep),
    }
}

/// What is to be on show, and of which press.
fn parts(ui: &mut Ui, scene: &mut Scene<'_>, desk: &UpkeepDesk) {
    let words = scene.words();
    let view = &mut scene.view.shop.upkeep;
    ui.horizontal_wrapped(|ui| {
        for (part, text) in [
            (UpkeepPart::Due, words.upkeep_due_part()),
            (UpkeepPart::Tasks, words.upkeep_tasks()),
            (UpkeepPart::Log, words.upkeep_log()),
        ] {
            if choice(ui, scene.palette, view.part == part, text).clicked() {
                view.part = part;
            }
        }
    });
    if view.part != UpkeepPart::Tasks {
        let names = desk.presses.iter().map(|name| words.press_name(name));
        let names: Vec<String> = names.collect();
        ui.horizontal_wrapped(|ui| {
            find::list(
                ui,
                words.find_any(),
                words.find_press(),
                &names,
                &mut view.press,
            );
        });
    }
}

/// Whether a press is on show.
fn is_shown(scene: &Scene<'_>, press: &str) -> bool {
    let chosen = &scene.view.shop.upkeep.press;
    let name = scene.words().press_name(press);
    chosen.as_ref().is_none_or(|chosen| *chosen == name)
}

/// What is due, and noting pieces laced in production.
fn list(ui: &mut Ui, scene: &mut Scene<'_>, desk: &UpkeepDesk, today: IsoDate) {
    let words = scene.words();
    let rows = desk.list.iter().filter(|task| is_shown(scene, &task.press));
    let rows: Vec<&TaskDue> = rows.collect();
    let to_do = rows.iter().filter(|task| task.due.wants_doing()).count();
    title(ui, &words.upkeep_heading(today, to_do));
    for task in rows.iter().take(MOST_ROWS) {
        ui.push_id((&task.press, &task.task.key), |ui| {
            row(ui, scene, desk, task)
        });
    }
    if let Some(more) = rows.len().checked_sub(MOST_ROWS).filter(|more| *more > 0) {
        ui.label(words.shop_more(more));
    }
    ui.separator();
    title(ui, words.upkeep_laced_heading());
    let one = scene.view.shop.upkeep.press.is_some();
    let press = desk
        .presses
        .iter()
        .find(|press| one && is_shown(scene, press));
    match press {
        Some(press) => laced(ui, scene, desk, press),
        None => {
            ui.label(words.upkeep_choose_press());
        }
    }
}

/// The log, newest first.
fn log(ui: &mut Ui, scene: &mut Scene<'_>, upkeep: &Upkeep) {
    let words = scene.words();
    let lines = upkeep.log.iter().rev();
    let lines: Vec<&Entry> = lines.filter(|line| is_shown(scene, &line.press)).collect();
    if lines.is_empty() {
        ui.label(words.upkeep_log_empty());
    }
    let tasks = upkeep.tasks();
    let mut asked = false;
    for (index, entry) in lines.iter().take(MOST_ROWS).enumerate() {
        let line = words.upkeep_line(entry, &tasks);
        ui.push_id(index, |ui| {
            ui.horizontal_wrapped(|ui| {
                let name = words.upkeep_take_back_of(&line);
                let form = UpkeepForm::TakeBack((*entry).clone());
                if entry.taken_back.is_empty() {
                    opens(ui, scene, words.upkeep_take_back(), &name, form);
                }
                ui.label(&line);
            });
        });
        let form = &scene.view.shop.upkeep.form;
        // Of lines that are the same it is asked below the first.
        let open = matches!(form, Some(UpkeepForm::TakeBack(of)) if of == *entry);
        if open && !std::mem::replace(&mut asked, true) && who_form(ui, scene) {
            let by = words.marked_by(scene.view.shop.upkeep.who.trim(), noting::now());
            let edit = UpkeepEdit::TakeBack((*entry).clone(), by);
            ask(scene, ShopWish::Keep(edit));
        }
    }
    if let Some(more) = lines.len().checked_sub(MOST_ROWS).filter(|more| *more > 0) {
        ui.label(words.shop_more(more));
    }
}

/// A task of a press: how it stands, what to beware of, and noting it as done.
fn row(ui: &mut Ui, scene: &mut Scene<'_>, desk: &UpkeepDesk, task: &TaskDue) {
    let words = scene.words();
    let press = words.press_name(&task.press);
    let what = words.upkeep_task(&task.task);
    let form = UpkeepForm::Done(task.press.clone(), task.task.key.clone());
    let open = scene.view.shop.upkeep.form.as_ref() == Some(&form);
    ui.horizontal_top(|ui| {
        let name = words.upkeep_done_of(what, &press);
        // In a column of its own its text stands in its middle.
        ui.vertical(|ui| opens(ui, scene, words.upkeep_done(), &name, form));
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing.y = 1.0;
            let due = words.upkeep_due(task.due);
            let said = format!("{}: {due}", words.press_and(&press, what));
            match task.due.wants_doing() {
                true => ui.label(strong(format!("⚠ {said}")).color(scene.palette.caution)),
                false => ui.label(strong(said)),
            };
            ui.label(muted(scene.palette, words.upkeep_last(task)));
            for caution in task.task.cautions() {
                if !ABOVE.contains(caution) {
                    let text = format!("⚠ {}", words.caution_with_source(*caution));
                    ui.label(RichText::new(text).size(size::SMALL));
                }
            }
        });
    });
    if open && who_form(ui, scene) {
        let noted = Noted::Done(task.task.key.clone());
        note(scene, desk, &task.press, noted);
    }
}

/// Asks who; whether it is to be noted.
fn who_form(ui: &mut Ui, scene: &mut Scene<'_>) -> bool {
    let words = scene.words();
    let view = &mut scene.view.shop.upkeep;
    let (mut noted, mut cancelled) = (false, false);
    ui.horizontal_wrapped(|ui| {
        let typed = field(ui, words.find_who(), &mut view.who, FIELD);
        if std::mem::take(&mut view.wants_focus) {
            typed.request_focus();
        }
        let ready = !view.who.trim().is_empty() && !view.keeping;
        let entered = typed.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
        ui.add_enabled_ui(ready, |ui| {
            noted = (button(ui, words.upkeep_note()).clicked() || entered) && ready;
        });
        cancelled = button(ui, words.cancel()).clicked();
    });
    if cancelled {
        view.form = None;
    }
    noted
}

fn note(scene: &mut Scene<'_>, desk: &UpkeepDesk, press: &str, noted: Noted) {
    let Some(day) = desk.day else { return };
    let entry = Entry {
        press: press.to_owned(),
        noted,
        day,
        who: scene.view.shop.upkeep.who.trim().to_owned(),
        taken_back: String::new(),
    };
    ask(scene, ShopWish::Keep(UpkeepEdit::Note(entry)));
}

/// Notes pieces laced in production on the press on show.
fn laced(ui: &mut Ui, scene: &mut Scene<'_>, desk: &UpkeepDesk, press: &str) {
    let words = scene.words();
    let view = &mut scene.view.shop.upkeep;
    let mut noted = false;
    ui.horizontal_wrapped(|ui| {
        field(ui, words.upkeep_pieces(), &mut view.laced, 100.0);
        // An open form that asks who asks it once.
        let asked = matches!(
            view.form,
            Some(UpkeepForm::Done(..) | UpkeepForm::TakeBack(_))
        );
        if !asked {
            field(ui, words.find_who(), &mut view.who, FIELD);
        }
        noted = button(ui, words.upkeep_note()).clicked();
    });
    if noted {
        match scene.view.shop.upkeep.laced.trim().parse() {
            Ok(pieces) => note(scene, desk, press, Noted::Laced(pieces)),
            Err(_) => scene.ask(crate::window::action::Action::Complain(
                words.upkeep_no_number().to_owned(),
            )),
        }
    }
}
