//! Finding visits: one box for words, and a list each for press, person, time,
//! belt and result; what is found stands in a table.

use std::collections::BTreeSet;
use std::sync::Arc;

use eframe::egui::{self, Align, ComboBox, Layout, Ui};

use crate::session::{IsoDate, Stands};
use crate::shop::{VisitSummary, counted};
use crate::window::shop::ShopWish;
use crate::window::theme::TARGET;
use crate::window::views::Scene;
use crate::window::views::hint::Hint;
use crate::window::views::widgets::{button, field, strong};

use super::row::{self, Text};
use super::{MOST_ROWS, ask};

/// Results that can be looked for.
const RESULTS: [Stands; 4] = [
    Stands::Inside,
    Stands::Outside,
    Stands::Open,
    Stands::Unread,
];

/// Width of a list, and least and most of the box for words, which has what five
/// lists leave.
const LIST: f32 = 140.0;
const WORDS: (f32, f32) = (140.0, 340.0);

/// Room for the button that clears them.
const CLEAR: f32 = 76.0;

/// Shares of the columns: date, press, belt, found, left, result, pieces, who.
const SHARES: [f32; 8] = [0.13, 0.20, 0.15, 0.09, 0.09, 0.17, 0.06, 0.16];

/// Draws the page.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let shop = std::sync::Arc::clone(&scene.shop.shop);
    let visits = shop.books.iter().flat_map(|book| &book.visits);
    let visits: Vec<&VisitSummary> = visits.map(Arc::as_ref).collect();
    let wants_focus = std::mem::take(&mut scene.view.shop.wants_focus);
    let wanted = &mut scene.view.shop.wanted;
    let names = |of: fn(&VisitSummary) -> &str| -> Vec<String> {
        let all = visits.iter().map(|visit| of(visit));
        let all: BTreeSet<&str> = all.filter(|name| !name.is_empty()).collect();
        let mut all: Vec<&str> = all.into_iter().collect();
        all.sort_by_cached_key(|name| counted(name));
        all.into_iter().map(str::to_owned).collect()
    };
    let presses = names(|visit| &visit.press);
    let people = names(|visit| &visit.who);
    let belts = names(|visit| &visit.belt);
    let days: BTreeSet<IsoDate> = visits.iter().filter_map(|visit| visit.day).collect();
    let times = days.into_iter().flat_map(|day| {
        let day = day.to_string();
        ["2026", "2026-11"].map(|part| day.get(..part.len()).map(str::to_owned))
    });
    let times: BTreeSet<String> = times.flatten().collect();
    let times: Vec<String> = times.into_iter().rev().collect();
    let row = Layout::left_to_right(Align::Min).with_main_wrap(true);
    let room = egui::vec2(ui.available_width(), 0.0);
    let gap = ui.spacing().item_spacing.x;
    let left = room.x - 5.0 * (LIST + gap) - CLEAR - 2.0 * gap;
    let wide = left.clamp(WORDS.0, WORDS.1);
    ui.allocate_ui_with_layout(room, row, |ui| {
        let any = words.find_any();
        above(ui, wide, |ui| {
            let typed = field(ui, words.find_words(), &mut wanted.words, wide);
            if wants_focus {
                typed.request_focus();
            }
        });
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
        above(ui, CLEAR, |ui| {
            // On one line with the lists, whose names stand above them.
            let name = ui.text_style_height(&egui::TextStyle::Body);
            ui.add_space(name + ui.spacing().item_spacing.y);
            ui.add_enabled_ui(wanted.is_anything(), |ui| {
                if button(ui, words.find_clear()).clicked() {
                    *wanted = Default::default();
                }
            });
        });
    });
    let wanted = wanted.clone();
    let mut found: Vec<&VisitSummary> = visits
        .into_iter()
        .filter(|visit| wanted.fits(visit))
        .collect();
    found.sort_by(|a, b| (b.day, &b.file).cmp(&(a.day, &a.file)));
    ui.label(strong(words.find_found(found.len())));
    found_visits(ui, scene, &found, true);
}

/// Visits as a table, each row opens its file; with the names of their presses
/// where these are not said already.
pub fn found_visits(ui: &mut Ui, scene: &mut Scene<'_>, visits: &[&VisitSummary], named: bool) {
    let words = scene.words();
    let palette = scene.palette;
    let mut shares = SHARES;
    if let (false, [_, press, ..]) = (named, &mut shares) {
        *press = 0.0;
    }
    row::headings(ui, palette, &shares, words.find_columns());
    for visit in visits.iter().take(MOST_ROWS) {
        let figures = scene.figures.of_visit(visit);
        let (found, left) = figures.found_and_left(visit);
        let left = if visit.was_left() {
            left.as_str()
        } else {
            "–"
        };
        let ended = words.ended_short(visit.outcome());
        let pieces = visit.pieces.to_string();
        let press = words.press_name(&visit.press);
        let ink = match visit.stands {
            Stands::Outside => palette.outside,
            _ => palette.ink,
        };
        let plain = |text| vec![Text::small(text, palette.ink)];
        // Outside as found says something though it was left inside.
        let beyond = visit
            .found
            .is_some_and(|found| !found.is_within(visit.tolerance));
        let (found, found_ink) = match beyond {
            true => (format!("✗ {found}"), palette.outside),
            false => (found, palette.ink),
        };
        let cells = [
            vec![Text::bold(&visit.when, palette.ink)],
            plain(&press),
            plain(&visit.belt),
            vec![Text::small(&found, found_ink)],
            plain(left),
            vec![Text::small(&ended, ink)],
            plain(&pieces),
            plain(&visit.who),
        ];
        let mut name = scene.figures.visit_summary(visit);
        if named {
            name = words.press_and(&press, name);
        }
        let (response, _) = row::row(ui, palette, &shares, &cells, (&name, TARGET, false));
        if response.hint(&visit.file).clicked() {
            ask(scene, ShopWish::OpenFile(visit.file.clone()));
        }
    }
    if let Some(more) = visits.len().checked_sub(MOST_ROWS).filter(|more| *more > 0) {
        ui.label(words.shop_more(more));
    }
}

/// A list of which one may be chosen, or any, below its name.
pub fn list(ui: &mut Ui, any: &str, name: &str, all: &[String], chosen: &mut Option<String>) {
    above(ui, LIST, |ui| {
        list_beside(ui, any, name, all, chosen);
    });
}

/// Room for something below its name.
pub fn above(ui: &mut Ui, width: f32, add: impl FnOnce(&mut Ui)) {
    let down = Layout::top_down(Align::Min);
    ui.allocate_ui_with_layout(egui::vec2(width, TARGET + 22.0), down, add);
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
