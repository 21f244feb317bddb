//! The tasks of one press or gauge, or one task of all of them, each with a box
//! to tick as done: what is late, what nobody noted, what is due soon, and
//! folded what is due later.

use eframe::egui::{CollapsingHeader, Color32, Role, Ui, WidgetInfo};

use crate::session::{IsoDate, MarkKind};
use crate::shop::{TaskDue, When, Whose};
use crate::window::theme::{self, TARGET};
use crate::window::views::Scene;
use crate::window::views::tick_box::tick_box;
use crate::window::views::widgets::{muted, title};

use super::row;

/// Presses and gauges on show up to which what nobody noted stands unfolded.
pub const FEW: usize = 2;

/// Shares of the columns: task, how it stands, how often and who did it last.
const SHARES: [f32; 3] = [0.38, 0.24, 0.38];

/// Shares of the card's head: its name, and ticking all.
const HEAD: [f32; 2] = [0.6, 0.4];

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
    theme::card(scene.palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 2.0;
        head(ui, scene, group, today);
        for (when, folded) in [
            (When::Now, false),
            (When::NotRecorded, !group.unfolded),
            (When::Soon, false),
            (When::Later, true),
        ] {
            let of = tasks.iter().copied().filter(|it| it.when(today) == when);
            let of: Vec<&TaskDue> = of.collect();
            if of.is_empty() {
                continue;
            }
            if !folded {
                rows(ui, scene, &of, (group.of_task, today));
                continue;
            }
            let heading = match when {
                When::NotRecorded => words.upkeep_unknown(of.len()),
                _ => words.upkeep_later(of.len()),
            };
            CollapsingHeader::new(muted(scene.palette, heading))
                .id_salt(when == When::Later)
                .show_unindented(ui, |ui| rows(ui, scene, &of, (group.of_task, today)));
        }
    });
}

/// Its name, and ticking all that is due.
fn head(ui: &mut Ui, scene: &mut Scene<'_>, group: &Group<'_>, today: IsoDate) {
    let words = scene.words();
    let due = group.tasks.iter();
    let due = due.filter(|task| task.when(today).is_due());
    let due: Vec<(Whose, String)> = due
        .map(|task| (task.whose.clone(), task.task.key.clone()))
        .collect();
    let ticked = &mut scene.view.shop.upkeep.ticked;
    let all = !due.is_empty() && due.iter().all(|task| ticked.contains(task));
    row::widgets(ui, &HEAD, TARGET, |ui, column| {
        if column == 0 {
            title(ui, &group.name);
            return;
        }
        if due.len() < 2 {
            return;
        }
        let kind = all.then_some(MarkKind::Done);
        let text = words.upkeep_tick_all(due.len());
        let width = ui.available_width();
        let response = tick_box(ui, scene.palette, &text, kind, width);
        let name = words.upkeep_tick_all_of(&group.name, due.len());
        response.widget_info(|| WidgetInfo::selected(Role::CheckBox, true, all, &name));
        if response.clicked() {
            for task in &due {
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

/// A task: a box to tick as done, how it stands, when it was last done.
fn one(ui: &mut Ui, scene: &mut Scene<'_>, task: &TaskDue, (of_task, today): (bool, IsoDate)) {
    let words = scene.words();
    let palette = scene.palette;
    let what = words.upkeep_task(&task.task);
    let whose = words.whose_name(&task.whose);
    let shown = if of_task { whose.as_str() } else { what };
    let due = words.upkeep_due(task.due, today);
    let (due_said, ink): (String, Color32) = match task.when(today) {
        When::Now => (format!("⚠ {due}"), palette.caution),
        _ => (due.clone(), palette.ink),
    };
    let id = (task.whose.clone(), task.task.key.clone());
    let ticked = &mut scene.view.shop.upkeep.ticked;
    let is_ticked = ticked.contains(&id);
    row::widgets(ui, &SHARES, TARGET, |ui, column| match column {
        0 => {
            let kind = is_ticked.then_some(MarkKind::Done);
            let width = ui.available_width();
            let response = tick_box(ui, palette, shown, kind, width);
            let name = words.upkeep_tick_of(what, &whose, &due);
            response.widget_info(|| WidgetInfo::selected(Role::CheckBox, true, is_ticked, &name));
            if response.clicked() && !ticked.remove(&id) {
                ticked.insert(id.clone());
            }
        }
        1 => {
            ui.colored_label(ink, &due_said);
        }
        _ => {
            ui.label(muted(palette, words.upkeep_last(task)));
        }
    });
}
