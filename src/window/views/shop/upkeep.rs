//! The upkeep: what is due at every press and gauge and noting it, the shop's
//! tasks, the log.

use std::cmp::Reverse;
use std::collections::BTreeMap;
use std::sync::Arc;

use eframe::egui::text::{LayoutJob, TextFormat};
use eframe::egui::{Frame, Label, Margin, Panel, RichText, Ui};

use crate::session::{Caution, IsoDate};
use crate::shop::{Noted, PressBook, TaskDue, When, Whose, counted};
use crate::store::UPKEEP_FILE;
use crate::window::action::Action;
use crate::window::state::upkeep::UpkeepPart;
use crate::window::theme::{self, size};
use crate::window::upkeep::UpkeepDesk;
use crate::window::views::Scene;
use crate::window::views::hint::keep_clear;
use crate::window::views::visit::signer;
use crate::window::views::widgets::{button, field, muted, strong, tab, tabs, title};

use super::{MOST_ROWS, find, upkeep_group, upkeep_log, upkeep_note, upkeep_tasks};

/// Cautions that hold for whatever is done with hands in a press.
const ALWAYS: [Caution; 3] = [Caution::TellOthers, Caution::MadeSafe, Caution::JawBlocked];

/// Width of the field for pieces.
const PIECES: f32 = 100.0;

/// The cautions below what is due: those of every reach into a press, and
/// those of the tasks on show.
pub fn cautions(ui: &mut Ui, scene: &mut Scene<'_>) {
    let desk = Arc::clone(&scene.shop.upkeep);
    let due = scene.view.shop.upkeep.part == UpkeepPart::Due;
    if !scene.shop.read || !due || desk.kept.is_err() || desk.day.is_none() {
        return;
    }
    let words = scene.words();
    let ink = scene.palette.caution;
    let mut said = LayoutJob::default();
    let part = |font| TextFormat::simple(font, ink);
    let first = format!("⚠ {} ", words.cautions_manual_first());
    said.append(&first, 0.0, part(theme::bold(size::SMALL)));
    let mut all = ALWAYS.to_vec();
    let soon = |task: &&TaskDue| desk.day.is_some_and(|day| task.when(day) < When::Later);
    let shown = desk.list.iter().filter(|task| is_shown(scene, task));
    for caution in shown.filter(soon).flat_map(|task| task.task.cautions()) {
        if !all.contains(caution) {
            all.push(*caution);
        }
    }
    for caution in &all {
        let text = format!("{} ", words.caution(*caution));
        said.append(&text, 0.0, part(theme::regular(size::SMALL)));
    }
    let sources = format!("({})", words.caution_sources(&all));
    said.append(&sources, 0.0, part(theme::regular(size::SMALL)));
    let strip = Frame::new()
        .fill(scene.palette.caution_back)
        .inner_margin(Margin::symmetric(12, 5));
    Panel::bottom("upkeep cautions")
        .frame(strip)
        .show(ui, |ui| {
            let said = ui.add(Label::new(said).wrap());
            keep_clear(ui.ctx(), said.rect);
        });
}

/// What stays above the list: its parts, what is on show of it, and noting.
pub fn above(ui: &mut Ui, scene: &mut Scene<'_>) {
    let desk = Arc::clone(&scene.shop.upkeep);
    let Ok(upkeep) = &desk.kept else { return };
    let words = scene.words();
    tabs(ui, scene.palette, |ui| {
        for (part, text) in [
            (UpkeepPart::Due, words.upkeep_due_part()),
            (UpkeepPart::Tasks, words.upkeep_tasks()),
            (UpkeepPart::Log, words.upkeep_log()),
        ] {
            let chosen = scene.view.shop.upkeep.part == part;
            if tab(ui, scene.palette, chosen, text).clicked() {
                scene.view.shop.upkeep.part = part;
            }
        }
        let view = &mut scene.view.shop.upkeep;
        ui.spacing_mut().item_spacing.x = 8.0;
        ui.add_space(16.0);
        let any = words.find_any();
        if view.part != UpkeepPart::Tasks {
            let names = desk.presses.iter().map(|name| words.press_name(name));
            let names: Vec<String> = names.collect();
            find::list_beside(ui, any, words.find_press(), &names, &mut view.press);
        }
        if view.part == UpkeepPart::Due {
            let tasks = upkeep.tasks();
            let shown = tasks.iter().filter(|task| !task.hidden);
            let names: Vec<String> = shown.map(|it| words.upkeep_task(it).to_owned()).collect();
            find::list_beside(ui, any, words.upkeep_find_task(), &names, &mut view.task);
        }
    });
    let Some(today) = desk.day else { return };
    match scene.view.shop.upkeep.part {
        UpkeepPart::Due => upkeep_note::show(ui, scene, &desk, today),
        UpkeepPart::Log => {
            ui.horizontal(|ui| upkeep_note::who(ui, scene));
        }
        UpkeepPart::Tasks => {}
    }
}

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
    let Some(today) = desk.day else {
        ui.label(RichText::new(words.upkeep_no_day()).color(scene.palette.caution));
        return;
    };
    match scene.view.shop.upkeep.part {
        UpkeepPart::Due => list(ui, scene, &desk, today),
        UpkeepPart::Tasks => upkeep_tasks::show(ui, scene, upkeep),
        UpkeepPart::Log => upkeep_log::show(ui, scene, upkeep),
    }
}

/// Whether a press or gauge is on show: of one press its gauges are too.
pub fn is_of_press(scene: &Scene<'_>, whose: &Whose) -> bool {
    let words = scene.words();
    let Some(chosen) = &scene.view.shop.upkeep.press else {
        return true;
    };
    let is_chosen = |book: &&PressBook| words.press_name(&book.press) == *chosen;
    match whose {
        Whose::Press(press) => words.press_name(press) == *chosen,
        Whose::Gauge(gauge) => {
            let books = scene.shop.shop.books.iter().filter(is_chosen);
            let mut visits = books.flat_map(|book| &book.visits);
            visits.any(|visit| visit.gauge == *gauge)
        }
    }
}

fn is_shown(scene: &Scene<'_>, task: &TaskDue) -> bool {
    let chosen = &scene.view.shop.upkeep.task;
    let name = scene.words().upkeep_task(&task.task);
    chosen.as_ref().is_none_or(|chosen| chosen == name) && is_of_press(scene, &task.whose)
}

/// What is due, press by press and gauge by gauge, and noting pieces laced in
/// production.
fn list(ui: &mut Ui, scene: &mut Scene<'_>, desk: &UpkeepDesk, today: IsoDate) {
    let words = scene.words();
    let shown: Vec<&TaskDue> = desk.list.iter().filter(|it| is_shown(scene, it)).collect();
    let of = |when| shown.iter().filter(|it| it.when(today) == when).count();
    let (late, unknown, soon) = (of(When::Now), of(When::NotRecorded), of(When::Soon));
    let heading = words.upkeep_heading(today, late, unknown, soon);
    ui.label(strong(heading));
    let defaults = shown.iter().any(|task| !task.task.own);
    let groups = groups(scene, shown, today);
    for group in groups.iter().take(MOST_ROWS) {
        ui.push_id(&group.name, |ui| {
            upkeep_group::show(ui, scene, group, today);
        });
    }
    if let Some(more) = groups.len().checked_sub(MOST_ROWS).filter(|more| *more > 0) {
        ui.label(words.shop_more(more));
    }
    if desk.gauges_unnamed > 0 && scene.view.shop.upkeep.press.is_none() {
        let text = words.upkeep_gauges_unnamed(desk.gauges_unnamed);
        ui.label(muted(scene.palette, text));
    }
    if defaults {
        ui.label(muted(scene.palette, words.upkeep_defaults()));
    }
    laced(ui, scene, desk, today);
}

/// What is on show in cards: one of a task that was chosen, else one for each
/// press and gauge, what is most pressing first.
fn groups<'a>(
    scene: &Scene<'_>,
    shown: Vec<&'a TaskDue>,
    today: IsoDate,
) -> Vec<upkeep_group::Group<'a>> {
    let words = scene.words();
    if let Some(task) = &scene.view.shop.upkeep.task {
        return vec![upkeep_group::Group {
            name: task.clone(),
            tasks: shown,
            of_task: true,
            unfolded: true,
        }];
    }
    let mut of_each: BTreeMap<&Whose, Vec<&TaskDue>> = BTreeMap::new();
    for task in shown {
        of_each.entry(&task.whose).or_default().push(task);
    }
    let mut all: Vec<(&Whose, Vec<&TaskDue>)> = of_each.into_iter().collect();
    all.sort_by_cached_key(|(whose, tasks)| {
        let late = tasks
            .iter()
            .filter(|it| it.when(today) == When::Now)
            .count();
        let first = tasks.iter().map(|task| task.when(today)).min();
        let (name, is_gauge) = match whose {
            Whose::Press(name) => (name, false),
            Whose::Gauge(name) => (name, true),
        };
        (first, Reverse(late), is_gauge, counted(name))
    });
    let unfolded = all.len() <= upkeep_group::FEW;
    let groups = all.into_iter().map(|(whose, tasks)| upkeep_group::Group {
        name: words.whose_name(whose),
        tasks,
        of_task: false,
        unfolded,
    });
    groups.collect()
}

/// Notes pieces laced in production on a press: the one on show, else one that
/// is chosen.
fn laced(ui: &mut Ui, scene: &mut Scene<'_>, desk: &UpkeepDesk, today: IsoDate) {
    let words = scene.words();
    let named = desk
        .presses
        .iter()
        .map(|name| (words.press_name(name), name));
    let named: Vec<(String, &String)> = named.collect();
    let view = &mut scene.view.shop.upkeep;
    let only = match named.as_slice() {
        [(name, _)] => Some(name.clone()),
        _ => view.press.clone(),
    };
    let mut noted = false;
    theme::card(scene.palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        title(ui, words.upkeep_laced_heading());
        ui.horizontal_wrapped(|ui| {
            match &only {
                Some(name) => {
                    ui.label(name);
                }
                None => {
                    let names: Vec<String> = named.iter().map(|(name, _)| name.clone()).collect();
                    ui.push_id("laced", |ui| {
                        let none = words.upkeep_choose();
                        let of = words.upkeep_laced_press();
                        find::list_beside(ui, none, of, &names, &mut view.laced_press);
                    });
                }
            }
            field(ui, words.upkeep_pieces(), &mut view.laced, PIECES);
            noted = button(ui, words.upkeep_note_pieces()).clicked();
        });
    });
    if !noted {
        return;
    }
    let chosen = only.or_else(|| scene.view.shop.upkeep.laced_press.clone());
    let press = named.iter().find(|(name, _)| Some(name) == chosen.as_ref());
    let pieces = scene.view.shop.upkeep.laced.trim().parse();
    let why = match (press, pieces) {
        (Some((_, press)), Ok(pieces)) if !signer::name(scene).is_empty() => {
            if let Some(day) = upkeep_note::day(scene, today) {
                let whose = Whose::Press((*press).clone());
                upkeep_note::note(scene, vec![(whose, Noted::Laced(pieces))], day);
            }
            return;
        }
        (Some(_), Ok(_)) => words.upkeep_who_first(),
        (None, Ok(_)) => words.upkeep_choose_press(),
        (_, Err(_)) => words.upkeep_no_number(),
    };
    scene.ask(Action::Complain(why.to_owned()));
}
