//! Finding visits: one box for words, and a list each for press, person, time,
//! belt and result.

use std::collections::BTreeSet;

use eframe::egui::{self, ComboBox, Ui};

use crate::session::Stands;
use crate::shop::VisitSummary;
use crate::window::shop::ShopWish;
use crate::window::theme::TARGET;
use crate::window::views::Scene;
use crate::window::views::widgets::{button, field};

use super::{MOST_ROWS, ask, row};

/// Results that can be looked for.
const RESULTS: [Stands; 4] = [
    Stands::Inside,
    Stands::Outside,
    Stands::Open,
    Stands::Unread,
];

/// Width of a list.
const LIST: f32 = 190.0;

/// Draws the page.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let shop = std::sync::Arc::clone(&scene.shop.shop);
    let visits: Vec<&VisitSummary> = shop.books.iter().flat_map(|book| &book.visits).collect();
    let width = ui.available_width().min(520.0);
    let wants_focus = std::mem::take(&mut scene.view.shop.wants_focus);
    let wanted = &mut scene.view.shop.wanted;
    ui.vertical(|ui| {
        let typed = field(ui, words.find_words(), &mut wanted.words, width);
        if wants_focus {
            typed.request_focus();
        }
    });
    let names = |of: &dyn Fn(&VisitSummary) -> String| -> Vec<String> {
        let all: BTreeSet<String> = visits.iter().map(|visit| of(visit)).collect();
        all.into_iter().filter(|name| !name.is_empty()).collect()
    };
    let presses = names(&|visit| visit.press.clone());
    let people = names(&|visit| visit.who.clone());
    let belts = names(&|visit| visit.belt.clone());
    let mut times = names(&|visit| {
        let day = visit.day.map(|day| day.to_string());
        day.and_then(|day| day.get(..7).map(str::to_owned))
            .unwrap_or_default()
    });
    let years: BTreeSet<String> = times
        .iter()
        .filter_map(|month| month.get(..4).map(str::to_owned))
        .collect();
    times.extend(years);
    times.sort_unstable_by(|a, b| b.cmp(a));
    ui.horizontal_wrapped(|ui| {
        let any = words.find_any();
        list(ui, any, words.find_press(), &presses, &mut wanted.press);
        list(ui, any, words.find_who(), &people, &mut wanted.who);
        list(ui, any, words.find_when(), &times, &mut wanted.when);
        list(ui, any, words.find_belt(), &belts, &mut wanted.belt);
        let named = |stands: Stands| words.shop_stands(stands).to_owned();
        let results: Vec<String> = RESULTS.into_iter().map(named).collect();
        let mut result = wanted.stands.map(named);
        list(ui, any, words.find_result(), &results, &mut result);
        wanted.stands = RESULTS
            .into_iter()
            .find(|stands| result == Some(named(*stands)));
        ui.add_enabled_ui(wanted.is_anything(), |ui| {
            if button(ui, words.find_clear()).clicked() {
                *wanted = Default::default();
            }
        });
    });
    let wanted = wanted.clone();
    let mut found: Vec<&VisitSummary> = visits
        .into_iter()
        .filter(|visit| wanted.fits(visit))
        .collect();
    found.sort_by(|a, b| (b.day, &b.file).cmp(&(a.day, &a.file)));
    ui.label(words.find_found(found.len()));
    for visit in found.iter().take(MOST_ROWS) {
        found_visit(ui, scene, visit, true);
    }
    if let Some(more) = found.len().checked_sub(MOST_ROWS).filter(|more| *more > 0) {
        ui.label(words.shop_more(more));
    }
}

/// A visit that opens its session; with the name of its press where that is not
/// said already.
pub fn found_visit(ui: &mut Ui, scene: &mut Scene<'_>, visit: &VisitSummary, named: bool) {
    let words = scene.words();
    let summary = scene.figures.visit_summary(visit);
    let first = match named {
        true => words.press_and(words.press_name(&visit.press), summary),
        false => summary,
    };
    let second = match visit.belt.as_str() {
        "" => visit.file.clone(),
        belt => words.press_and(&visit.file, belt),
    };
    if row::row(ui, scene.palette, &first, &second, false).clicked() {
        ask(scene, ShopWish::OpenFile(visit.file.clone()));
    }
}

/// A list of which one may be chosen, or any, below its name.
pub fn list(ui: &mut Ui, any: &str, name: &str, all: &[String], chosen: &mut Option<String>) {
    ui.allocate_ui(egui::vec2(LIST, TARGET + 22.0), |ui| {
        ui.vertical(|ui| list_beside(ui, any, name, all, chosen));
    });
}

/// The same, its name before it in whatever way the row runs.
pub fn list_beside(
    ui: &mut Ui,
    any: &str,
    name: &str,
    all: &[String],
    chosen: &mut Option<String>,
) {
    ui.label(name);
    let shown = chosen.clone().unwrap_or_else(|| any.to_owned());
    let list = ComboBox::from_id_salt(name)
        .width(LIST)
        .truncate()
        .selected_text(&shown)
        .show_ui(ui, |ui| {
            ui.selectable_value(chosen, None, any);
            for one in all {
                ui.selectable_value(chosen, Some(one.clone()), one);
            }
        });
    list.response.widget_info(|| {
        let mut info = egui::WidgetInfo::labeled(egui::Role::ComboBox, true, name);
        info.current_text_value = Some(shown.clone());
        info
    });
}
