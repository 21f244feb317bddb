//! The upkeep: what is due at every press and gauge and noting it, the shop's
//! tasks, the log.

use std::cmp::Reverse;
use std::collections::BTreeMap;
use std::sync::Arc;

use eframe::egui::{Align, Frame, Label, Layout, Margin, Panel, RichText, Ui, Vec2};

use crate::session::IsoDate;
use crate::shop::{DueCounts, Noted, PressBook, TaskDue, Upkeep, When, Whose, counted};
use crate::store::UPKEEP_FILE;
use crate::window::action::Action;
use crate::window::state::upkeep::UpkeepPart;
use crate::window::theme::{self, TARGET, size};
use crate::window::upkeep::UpkeepDesk;
use crate::window::views::Scene;
use crate::window::views::hint::keep_clear;
use crate::window::views::turning::safety;
use crate::window::views::visit::signer;
use crate::window::views::widgets::{
    button, field, muted, quiet, quiet_width, strong, tab, tabs, title,
};
use crate::words::as_sentence;

use super::{MOST_ROWS, find, upkeep_group, upkeep_log, upkeep_note, upkeep_tasks};

/// Height of the window up to which noting scrolls with the list.
const LOW: f32 = 520.0;

fn is_low(ui: &Ui) -> bool {
    ui.ctx().content_rect().height() <= LOW
}

/// Width of the field for pieces.
const PIECES: f32 = 100.0;

/// What stays below what is due: noting what is ticked, and the cautions, in one
/// line until all are asked for.
pub fn below(ui: &mut Ui, scene: &mut Scene<'_>) {
    let desk = Arc::clone(&scene.shop.upkeep);
    let due = scene.view.shop.upkeep.part == UpkeepPart::Due;
    let (true, true, Some(today)) = (scene.shop.read && due, desk.kept.is_ok(), desk.day) else {
        return;
    };
    let palette = scene.palette;
    let strip = |fill| {
        let room = Margin::symmetric(12, 3);
        Frame::new().fill(fill).inner_margin(room)
    };
    Panel::bottom("upkeep cautions")
        .frame(strip(palette.caution_back))
        .resizable(false)
        .show(ui, |ui| cautions(ui, scene));
    if !is_low(ui) && !scene.view.shop.upkeep.cautions {
        Panel::bottom("upkeep note")
            .frame(strip(palette.card))
            .resizable(false)
            .show(ui, |ui| upkeep_note::show(ui, scene, &desk, today));
    }
}

fn cautions(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    // Where all of them are on show, they have their own way back.
    let more = (!scene.view.shop.upkeep.cautions).then(|| words.upkeep_all_points());
    ui.horizontal(|ui| {
        let beside = more.map_or(0.0, |more| quiet_width(ui, more) + 16.0);
        let room = ui.available_width() - beside;
        let said = RichText::new(format!("⚠ {}", words.upkeep_foot()));
        let said = said.font(theme::bold(size::SMALL));
        let said = Label::new(said.color(scene.palette.caution)).wrap();
        let left = Layout::left_to_right(Align::Center);
        let said = ui.allocate_ui_with_layout(Vec2::new(room, TARGET), left, |ui| {
            ui.set_width(room);
            ui.add(said)
        });
        keep_clear(ui.ctx(), said.inner.rect);
        if more.is_some_and(|more| quiet(ui, scene.palette, more).clicked()) {
            scene.view.shop.upkeep.cautions = true;
            ui.ctx().request_repaint();
        }
    });
}

/// Every caution under its title, with the way back to what is due.
fn all_points(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let mut back = false;
    theme::card(scene.palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.horizontal_wrapped(|ui| {
            back = button(ui, words.upkeep_fewer_points()).clicked();
            ui.add_space(8.0);
            let title = RichText::new(words.upkeep_all_points());
            ui.label(title.font(theme::bold(size::SENTENCE)));
        });
        ui.add_space(6.0);
        ui.spacing_mut().item_spacing.y = 9.0;
        safety::all(ui, scene);
    });
    if back {
        scene.view.shop.upkeep.cautions = false;
        ui.ctx().request_repaint();
    }
}

/// What stays above the list: its parts.
pub fn above(ui: &mut Ui, scene: &mut Scene<'_>) {
    if scene.shop.upkeep.kept.is_err() {
        return;
    }
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
                scene.view.shop.upkeep.cautions = false;
            }
        }
    });
}

/// What is on show, by press and task.
pub(super) fn narrowed(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let desk = Arc::clone(&scene.shop.upkeep);
    let any = words.find_any();
    by_press(ui, scene, any);
    let tasks = desk.kept.as_ref().map(Upkeep::tasks).unwrap_or_default();
    let tasks = tasks.iter().filter(|task| !task.hidden);
    let tasks: Vec<String> = tasks.map(|it| words.upkeep_task(it).to_owned()).collect();
    let task = &mut scene.view.shop.upkeep.task;
    find::list_beside(ui, any, words.upkeep_find_task(), &tasks, task);
}

/// The press on show, or `any`.
pub(super) fn by_press(ui: &mut Ui, scene: &mut Scene<'_>, any: &str) {
    let words = scene.words();
    let presses = scene.shop.upkeep.presses.iter();
    let presses: Vec<String> = presses.map(|name| words.press_name(name)).collect();
    let press = &mut scene.view.shop.upkeep.press;
    find::list_beside(ui, any, words.find_press(), &presses, press);
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
        UpkeepPart::Due if scene.view.shop.upkeep.cautions => all_points(ui, scene),
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
    let counts = DueCounts::of(shown.iter().copied(), today);
    let heading = match counts == DueCounts::default() {
        true => words.shop_upkeep_none().to_owned(),
        false => as_sentence(&words.upkeep_counts(counts)),
    };
    ui.horizontal_wrapped(|ui| {
        narrowed(ui, scene);
        ui.add_space(8.0);
        ui.label(strong(heading));
    });
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
    if is_low(ui) {
        upkeep_note::show(ui, scene, desk, today);
    }
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
