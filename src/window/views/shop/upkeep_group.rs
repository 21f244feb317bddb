//! The tasks of one press or gauge, or one task of all of them, each with a box
//! to tick as done: what is late, what nobody noted, what is due soon, and
//! folded what is due later.

use std::num::NonZeroU32;

use eframe::egui::{CollapsingHeader, Color32, Role, Ui, WidgetInfo};

use crate::session::{IsoDate, MarkKind};
use crate::shop::{Interval, TaskDue, When, Whose};
use crate::window::shop::ShopWish;
use crate::window::state::shop::PressKey;
use crate::window::theme::{self, TARGET, size};
use crate::window::views::Scene;
use crate::window::views::forms::draft::is_narrow;
use crate::window::views::hint::Hint;
use crate::window::views::tick_box::{INDENT, TickRow};
use crate::window::views::widgets::{button, button_width, muted, strong, title};

use super::{ask, row};

/// Presses and gauges on show up to which what nobody noted stands unfolded.
pub const FEW: usize = 2;

/// Shares of the columns: task, how it stands, how often and who did it last.
const SHARES: [f32; 3] = [0.44, 0.22, 0.34];

/// What stands in a card.
pub struct Group<'a> {
    /// The press or gauge, or the task, by its name.
    pub name: String,
    /// Its tasks, or the task at each press or gauge.
    pub tasks: Vec<&'a TaskDue>,
    /// Whether it is one task, so that rows name press or gauge.
    pub of_task: bool,
    /// Whether what nobody noted stands unfolded.
    pub unfolded: bool,
}

/// Draws the group as a card.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, group: &Group<'_>, today: IsoDate) {
    let words = scene.words();
    let tasks = &group.tasks;
    let together = together(group, today);
    theme::card(scene.palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 2.0;
        title(ui, &group.name);
        ui.add_space(4.0);
        if group.of_task {
            tick_together(ui, scene, group, &together);
        }
        // The daily ones stand below the box that ticks them all.
        let daily = !group.of_task && group.unfolded && !together.is_empty();
        let is_daily = |task: &TaskDue| daily && together.contains(&task);
        for (when, folded) in [
            (When::Now, false),
            (When::NotRecorded, !group.unfolded),
            (When::Soon, false),
            (When::Later, true),
        ] {
            let of = tasks.iter().copied().filter(|it| it.when(today) == when);
            let of: Vec<&TaskDue> = of.filter(|it| !is_daily(it)).collect();
            let shown = (group.of_task, today);
            if !of.is_empty() && !folded {
                rows(ui, scene, &of, shown);
            } else if !of.is_empty() {
                let heading = match when {
                    When::NotRecorded => words.upkeep_unknown(of.len()),
                    _ => words.upkeep_later(of.len()),
                };
                CollapsingHeader::new(muted(scene.palette, heading))
                    .id_salt(when == When::Later)
                    .show_unindented(ui, |ui| rows(ui, scene, &of, shown));
            }
            if when == When::Now && !group.of_task {
                tick_together(ui, scene, group, &together);
                if daily {
                    rows(ui, scene, &together, shown);
                    ui.separator();
                }
            }
        }
    });
}

/// What is ticked in one go: one task everywhere, or a press's daily ones; none
/// where there is but one.
fn together<'a>(group: &Group<'a>, today: IsoDate) -> Vec<&'a TaskDue> {
    let daily = |task: &TaskDue| matches!(task.task.every, Interval::Days(NonZeroU32::MIN));
    let due = group.tasks.iter().copied().filter(|task| {
        let together = group.of_task || daily(task);
        together && task.when(today).is_due() && !task.task.is_jaw_check()
    });
    let due: Vec<&TaskDue> = due.collect();
    if due.len() < 2 { Vec::new() } else { due }
}

/// The box that ticks them all; what they are, where they do not stand below it.
fn tick_together(ui: &mut Ui, scene: &mut Scene<'_>, group: &Group<'_>, due: &[&TaskDue]) {
    let words = scene.words();
    if due.is_empty() {
        return;
    }
    let named = due.iter().map(|task| match group.of_task {
        true => words.whose_name(&task.whose),
        false => words.upkeep_task(&task.task).to_owned(),
    });
    let named: Vec<String> = match group.unfolded && !group.of_task {
        true => Vec::new(),
        false => named.collect(),
    };
    let ids = due.iter();
    let ids = ids.map(|task| (task.whose.clone(), task.task.key.clone()));
    let ids: Vec<(Whose, String)> = ids.collect();
    let ticked = &mut scene.view.shop.upkeep.ticked;
    let all = ids.iter().all(|task| ticked.contains(task));
    let text = match group.of_task {
        true => words.upkeep_tick_all(due.len()),
        false => words.upkeep_tick_daily(due.len()),
    };
    row::widgets(ui, &[1.0], TARGET, |ui, _| {
        let row = TickRow {
            text: &text,
            kind: all.then_some(MarkKind::Done),
            watch: &named.join(" + "),
            ..TickRow::default()
        };
        let width = ui.available_width();
        let response = row.show(ui, scene.palette, width);
        let name = words.press_and(&group.name, &text);
        response.widget_info(|| WidgetInfo::selected(Role::CheckBox, true, all, &name));
        if response.clicked() {
            for task in &ids {
                match all {
                    true => ticked.remove(task),
                    false => ticked.insert(task.clone()),
                };
            }
        }
    });
}

fn rows(ui: &mut Ui, scene: &mut Scene<'_>, tasks: &[&TaskDue], (of_task, today): (bool, IsoDate)) {
    for task in tasks {
        let id = match &task.whose {
            Whose::Press(name) => (&task.task.key, name, false),
            Whose::Gauge(name) => (&task.task.key, name, true),
        };
        ui.push_id(id, |ui| one(ui, scene, task, (of_task, today)));
    }
}

/// A task with what to beware of, how it stands, when it was last done; one
/// below the other where there is little room.
fn one(ui: &mut Ui, scene: &mut Scene<'_>, task: &TaskDue, (of_task, today): (bool, IsoDate)) {
    let words = scene.words();
    let palette = scene.palette;
    let due = words.upkeep_due(task, today);
    let id = (task.whose.clone(), task.task.key.clone());
    let ticked = scene.view.shop.upkeep.ticked.contains(&id);
    let (said, ink): (String, Color32) = match task.when(today) {
        _ if ticked => (words.upkeep_to_note().to_owned(), palette.good),
        When::Now => (format!("⚠ {due}"), palette.caution),
        When::NotRecorded => (format!("⚠ {due}"), palette.ink),
        When::Soon | When::Later => (due.clone(), palette.ink),
    };
    let last = words.upkeep_last(task);
    if is_narrow(ui) {
        what(ui, scene, task, of_task, &due);
        ui.indent("stands", |ui| {
            ui.colored_label(ink, &said);
            ui.label(muted(palette, last));
        });
        return;
    }
    row::widgets(ui, &SHARES, TARGET, |ui, column| match column {
        0 => what(ui, scene, task, of_task, &due),
        1 => {
            ui.colored_label(ink, &said);
        }
        _ => {
            ui.label(muted(palette, &last));
        }
    });
}

/// The task: a box to tick as done, or what measures it.
fn what(ui: &mut Ui, scene: &mut Scene<'_>, task: &TaskDue, of_task: bool, due: &str) {
    let words = scene.words();
    let palette = scene.palette;
    let what = words.upkeep_task(&task.task);
    let whose = words.whose_name(&task.whose);
    let shown = if of_task { whose.as_str() } else { what };
    let name = words.upkeep_tick_of(what, &whose, due);
    let width = ui.available_width();
    if task.task.is_jaw_check() {
        measured(ui, scene, task, (shown, &name));
        return;
    }
    let id = (task.whose.clone(), task.task.key.clone());
    let ticked = &mut scene.view.shop.upkeep.ticked;
    let is_ticked = ticked.contains(&id);
    let row = TickRow {
        text: shown,
        beware: &words.upkeep_beware(&task.task),
        kind: is_ticked.then_some(MarkKind::Done),
        ..TickRow::default()
    };
    let response = row.show(ui, palette, width);
    response.widget_info(|| WidgetInfo::selected(Role::CheckBox, true, is_ticked, &name));
    if response.clicked() && !ticked.remove(&id) {
        ticked.insert(id);
    }
}

/// The check of the jaws: no tick says what a measured piece does. It is measured
/// at the next visit, which begins here.
fn measured(ui: &mut Ui, scene: &mut Scene<'_>, task: &TaskDue, (shown, name): (&str, &str)) {
    let words = scene.words();
    let Whose::Press(press) = &task.whose else {
        return;
    };
    let book = scene.shop.shop.books.iter();
    let book = book.filter(|book| book.press == *press);
    let key = book.max_by_key(|book| book.last_day()).map(PressKey::of);
    let room = ui.available_width();
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        // Its name in line with those beside the boxes, what measures it after.
        ui.add_space(INDENT);
        let measure = button_width(ui, words.upkeep_measure(), theme::regular(size::BODY));
        ui.vertical(|ui| {
            ui.set_width(room - INDENT - measure);
            ui.spacing_mut().item_spacing.y = 0.0;
            let said = ui.label(strong(shown));
            said.widget_info(|| WidgetInfo::labeled(Role::Label, true, name));
            let beware = muted(scene.palette, words.upkeep_beware(&task.task));
            let beware = beware.font(theme::regular(size::LEAST));
            ui.label(beware.color(scene.palette.caution));
        });
        if let Some(key) = key {
            let of = words.upkeep_measure_of(words.press_name(press));
            let pressed = button(ui, words.upkeep_measure());
            pressed.widget_info(|| WidgetInfo::labeled(Role::Button, true, &of));
            if pressed.hint(words.upkeep_measured_only()).clicked() {
                ask(scene, ShopWish::NextVisit(key));
            }
        }
    });
}
