//! What is due at every press and gauge; noting it; the log.

use std::collections::BTreeMap;
use std::sync::Arc;

use eframe::egui::{RichText, Ui};

use crate::session::IsoDate;
use crate::shop::{Entry, Noted, TaskDue, Upkeep, UpkeepEdit, When, Whose};
use crate::store::UPKEEP_FILE;
use crate::window::shop::ShopWish;
use crate::window::state::upkeep::{UpkeepForm, UpkeepPart};
use crate::window::upkeep::UpkeepDesk;
use crate::window::views::Scene;
use crate::window::views::visit::noting;
use crate::window::views::widgets::{button, choice, field, muted, strong, title};

use super::upkeep_note::{ABOVE, FIELD, note, who_form};
use super::upkeep_tasks::{self, opens};
use super::{MOST_ROWS, ask, find, upkeep_group};

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
        if view.part != UpkeepPart::Tasks {
            let names = desk.presses.iter().map(|name| words.press_name(name));
            let names: Vec<String> = names.collect();
            ui.add_space(12.0);
            let (any, name) = (words.find_any(), words.find_press());
            find::list_beside(ui, any, name, &names, &mut view.press);
        }
    });
}

/// Whether a press or gauge is on show.
fn is_shown(scene: &Scene<'_>, whose: &Whose) -> bool {
    let chosen = &scene.view.shop.upkeep.press;
    let name = match whose {
        Whose::Press(press) => Some(scene.words().press_name(press)),
        Whose::Gauge(_) => None,
    };
    chosen.is_none() || *chosen == name
}

/// What is due, press by press and gauge by gauge, and noting pieces laced in
/// production.
fn list(ui: &mut Ui, scene: &mut Scene<'_>, desk: &UpkeepDesk, today: IsoDate) {
    let words = scene.words();
    let mut groups: BTreeMap<&Whose, Vec<&TaskDue>> = BTreeMap::new();
    let shown = desk.list.iter().filter(|task| is_shown(scene, &task.whose));
    let mut count: BTreeMap<When, usize> = BTreeMap::new();
    for task in shown {
        groups.entry(&task.whose).or_default().push(task);
        *count.entry(task.when(today)).or_default() += 1;
    }
    let of = |when| count.get(&when).copied().unwrap_or(0);
    title(
        ui,
        &words.upkeep_heading(today, of(When::Now), of(When::Soon)),
    );
    if of(When::Now) == 0 {
        ui.label(words.upkeep_quiet());
    }
    let mut groups: Vec<(&Whose, Vec<&TaskDue>)> = groups.into_iter().collect();
    let first = |tasks: &[&TaskDue]| tasks.iter().map(|task| task.when(today)).min();
    // Stable: within each they stay by name, presses before gauges.
    groups.sort_by_key(|(_, tasks)| first(tasks));
    for (whose, tasks) in groups.iter().take(MOST_ROWS) {
        ui.push_id(whose_id(whose), |ui| {
            upkeep_group::show(ui, scene, desk, (whose, tasks), today);
        });
    }
    if let Some(more) = groups.len().checked_sub(MOST_ROWS).filter(|more| *more > 0) {
        ui.label(words.shop_more(more));
    }
    let one = scene.view.shop.upkeep.press.is_some();
    if desk.gauges_unnamed > 0 && !one {
        let text = words.upkeep_gauges_unnamed(desk.gauges_unnamed);
        ui.label(muted(scene.palette, text));
    }
    ui.separator();
    title(ui, words.upkeep_laced_heading());
    let alone = desk.presses.len() == 1;
    let press = desk
        .presses
        .iter()
        .find(|press| alone || (one && is_shown(scene, &Whose::Press((*press).clone()))));
    match press {
        Some(press) => laced(ui, scene, desk, press),
        None => {
            ui.label(words.upkeep_choose_press());
        }
    }
}

/// What tells one group of tasks from another.
fn whose_id(whose: &Whose) -> (&str, bool) {
    match whose {
        Whose::Press(name) => (name, false),
        Whose::Gauge(name) => (name, true),
    }
}

/// The log, newest first.
fn log(ui: &mut Ui, scene: &mut Scene<'_>, upkeep: &Upkeep) {
    let words = scene.words();
    let lines = upkeep.log.iter().rev();
    let lines: Vec<&Entry> = lines
        .filter(|line| is_shown(scene, &line.whose()))
        .collect();
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
        if open && !std::mem::replace(&mut asked, true) && who_form(ui, scene, words.upkeep_note())
        {
            let by = words.marked_by(scene.view.shop.upkeep.who.trim(), noting::now());
            let edit = UpkeepEdit::TakeBack((*entry).clone(), by);
            ask(scene, ShopWish::Keep(edit));
        }
    }
    if let Some(more) = lines.len().checked_sub(MOST_ROWS).filter(|more| *more > 0) {
        ui.label(words.shop_more(more));
    }
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
            Some(UpkeepForm::Done(..) | UpkeepForm::Start(_) | UpkeepForm::TakeBack(_))
        );
        if !asked {
            field(ui, words.find_who(), &mut view.who, FIELD);
        }
        noted = button(ui, words.upkeep_note_pieces()).clicked();
    });
    if let Some(day) = desk.day.filter(|_| noted) {
        let whose = Whose::Press(press.to_owned());
        match scene.view.shop.upkeep.laced.trim().parse() {
            Ok(pieces) => note(scene, &whose, vec![(Noted::Laced(pieces), day)]),
            Err(_) => scene.ask(crate::window::action::Action::Complain(
                words.upkeep_no_number().to_owned(),
            )),
        }
    }
}
