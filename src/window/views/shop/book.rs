//! The book of a press: pictures of its visits, what they taught, its drift, its
//! nuts, and the visits themselves.

use eframe::egui::{Layout, Ui, Vec2};

use crate::shop::{PressBook, Trend};
use crate::window::shop::ShopWish;
use crate::window::state::shop::{PressKey, ShopPage};
use crate::window::theme::TARGET;
use crate::window::views::Scene;
use crate::window::views::widgets::{button, main_button, strong, title};
use crate::words::{Figures, as_sentence};

use super::{MOST_ROWS, ask, charts, find, presses};

/// Width from which pictures and text stand side by side.
const TWO_COLUMNS: f32 = 900.0;

/// Width of the button that starts the next visit.
const NEXT_VISIT: f32 = 260.0;

/// Draws the page.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, press: &PressKey) {
    let words = scene.words();
    let shop = std::sync::Arc::clone(&scene.shop.shop);
    let Some(book) = shop.books.iter().find(|book| press.is_of(book)) else {
        if button(ui, words.shop_to_presses()).clicked() {
            ask(scene, ShopWish::Show(ShopPage::Presses));
        }
        ui.label(words.book_gone());
        return;
    };
    let last = book.visits.last();
    let figures = last.map_or(scene.figures, |visit| scene.figures.of_visit(visit));
    head(ui, scene, press, book, figures);
    let width = ui.available_width();
    if width < TWO_COLUMNS {
        pictures(ui, scene, press, book, figures);
        told(ui, scene, press, book, figures);
        visits(ui, scene, book);
        return;
    }
    let half = (width - 16.0) / 2.0;
    let down = Layout::top_down(eframe::egui::Align::Min);
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = 16.0;
        ui.allocate_ui_with_layout(Vec2::new(half, 0.0), down, |ui| {
            ui.set_width(half);
            pictures(ui, scene, press, book, figures);
        });
        ui.allocate_ui_with_layout(Vec2::new(half, 0.0), down, |ui| {
            ui.set_width(half);
            told(ui, scene, press, book, figures);
            visits(ui, scene, book);
        });
    });
}

/// Which press it is, what it wants, and the next act.
fn head(ui: &mut Ui, scene: &mut Scene<'_>, press: &PressKey, book: &PressBook, figures: Figures) {
    let words = scene.words();
    title(ui, &words.press_name(&book.press));
    let when = words.press_when(book, &book.needs(scene.today));
    ui.label(strong(as_sentence(&when)));
    let minutes = figures.decimal(book.minutes(), 0);
    let people = book.people().join(", ");
    ui.label(words.book_of_press(book.visits.len(), book.pieces(), minutes, people));
    let upkeep = presses::upkeep_now(scene, Some(&book.press));
    ui.horizontal_wrapped(|ui| {
        let next = ui.allocate_ui(Vec2::new(NEXT_VISIT, TARGET), |ui| {
            main_button(ui, scene.palette, words.book_next_visit(), true)
        });
        if next.inner.clicked() {
            ask(scene, ShopWish::NextVisit(press.clone()));
        }
        if button(ui, words.shop_upkeep_of()).clicked() {
            scene.view.shop.upkeep.press = Some(words.press_name(&book.press));
            ask(scene, ShopWish::Show(ShopPage::Upkeep));
        }
        if button(ui, words.shop_to_presses()).clicked() {
            ask(scene, ShopWish::Show(ShopPage::Presses));
        }
        if upkeep > 0 {
            let text = format!("⚠ {}", words.press_upkeep_due(upkeep));
            ui.label(strong(text).color(scene.palette.caution));
        }
    });
    ui.separator();
}

/// The visits, newest first.
fn visits(ui: &mut Ui, scene: &mut Scene<'_>, book: &PressBook) {
    let words = scene.words();
    title(ui, words.book_visits());
    for visit in book.visits.iter().rev().take(MOST_ROWS) {
        find::found_visit(ui, scene, visit, false);
    }
    if !book.copies.is_empty() {
        ui.label(words.shop_copies(book.copies.join(", ")));
    }
}

fn pictures(ui: &mut Ui, scene: &Scene<'_>, press: &PressKey, book: &PressBook, figures: Figures) {
    charts::spreads(ui, scene, book, figures);
    charts::jaw(ui, scene, book, figures);
    if let Some((of, Some(taught))) = &scene.view.shop.taught
        && of == press
    {
        charts::answers(ui, scene, &taught.answers, figures);
    }
}

/// Everything in words.
fn told(ui: &mut Ui, scene: &Scene<'_>, press: &PressKey, book: &PressBook, figures: Figures) {
    let words = scene.words();
    title(ui, words.book_drift());
    let station = |station: usize| book.station_name(station);
    for sentence in figures.drift_sentences(book, &station) {
        ui.label(sentence);
    }
    ui.label(figures.trend_sentence(Trend::of(&book.visits)));
    title(ui, words.book_taught());
    match &scene.view.shop.taught {
        Some((of, taught)) if of == press => match taught {
            Some(taught) => {
                for sentence in figures.taught_sentences(taught) {
                    ui.label(sentence);
                }
            }
            None => {
                ui.label(words.taught_nothing_yet());
            }
        },
        _ => {
            ui.label(words.thinking());
        }
    }
    title(ui, words.book_nuts());
    for nut in book.nuts() {
        ui.label(figures.nut_book(&nut));
    }
    for visit in book
        .visits
        .iter()
        .filter(|visit| !visit.repaired.is_empty())
    {
        ui.label(words.book_repaired(&visit.when, &visit.repaired));
    }
}
