//! The book of a press: what it wants, pictures of its visits, its nuts, and
//! the visits themselves; folded, how all that was worked out.

use std::ops::Range;
use std::sync::Arc;

use eframe::egui::{Align, Layout, RichText, Ui, Vec2};

use crate::shop::{PressBook, Taught, Trend, VisitSummary};
use crate::window::shop::ShopWish;
use crate::window::state::shop::{PressKey, ShopPage};
use crate::window::theme::{self, size};
use crate::window::views::Scene;
use crate::window::views::dialog_room::fold;
use crate::window::views::widgets::{button, main_of_width, muted, strong, title};
use crate::words::{Figures, as_sentence};

use super::{MOST_ROWS, ask, charts, find, nut_table};

/// Width from which pictures and text stand side by side.
const TWO_COLUMNS: f32 = 1100.0;

/// Width of the button that starts the next visit.
const NEXT_VISIT: f32 = 220.0;

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
        pictures(ui, scene, press, book, (figures, 0..1));
        nuts(ui, scene, press, book, figures);
        pictures(ui, scene, press, book, (figures, 1..3));
        told(ui, scene, press, book, figures);
        return;
    }
    let half = (width - theme::GAP) / 2.0;
    let down = Layout::top_down(Align::Min);
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = theme::GAP;
        for is_picture in [true, false] {
            ui.allocate_ui_with_layout(Vec2::new(half, 0.0), down, |ui| {
                ui.set_width(half);
                match is_picture {
                    true => pictures(ui, scene, press, book, (figures, 0..3)),
                    false => {
                        nuts(ui, scene, press, book, figures);
                        told(ui, scene, press, book, figures);
                    }
                }
            });
        }
    });
}

/// Which press it is, what it wants and where it is worst, and the next act.
fn head(ui: &mut Ui, scene: &mut Scene<'_>, press: &PressKey, book: &PressBook, figures: Figures) {
    let words = scene.words();
    let palette = scene.palette;
    let desk = std::sync::Arc::clone(&scene.shop.upkeep);
    let books = &scene.shop.shop.books;
    let mut of_each = desk.by_need.iter();
    let needs = of_each.find(|(at, _)| books.get(*at).is_some_and(|it| press.is_of(it)));
    let needs = needs.map_or(&[][..], |(_, needs)| needs);
    theme::card(palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        let name = words.press_name(&book.press);
        ui.label(RichText::new(name).font(theme::bold(size::SENTENCE)));
        let when = |needs| as_sentence(&figures.press_when(book, needs, scene.today));
        // A nut that may not hold comes before the next visit is started.
        let checks = needs.partition_point(|need| need.asks_check());
        let (checks, others) = needs.split_at(checks);
        for check in checks {
            let text = format!("⚠ {}", when(std::slice::from_ref(check)));
            ui.label(strong(text).color(palette.caution));
        }
        if checks.is_empty() || !others.is_empty() {
            ui.label(strong(when(others)));
        }
        ui.label(figures.jaw_sentence(book));
        let minutes = figures.decimal(book.minutes(), 0);
        let people = book.people().join(", ");
        let worked = words.book_of_press(book.visits.len(), book.pieces(), minutes, people);
        ui.label(muted(palette, worked));
        ui.horizontal_wrapped(|ui| {
            let next = (words.book_next_visit(), true);
            if main_of_width(ui, palette, next, NEXT_VISIT).clicked() {
                ask(scene, ShopWish::NextVisit(press.clone()));
            }
            if button(ui, words.shop_upkeep_of()).clicked() {
                scene.view.shop.upkeep.press = Some(words.press_name(&book.press));
                ask(scene, ShopWish::Show(ShopPage::Upkeep));
            }
            if button(ui, words.shop_to_presses()).clicked() {
                ask(scene, ShopWish::Show(ShopPage::Presses));
            }
        });
    });
}

/// What the press taught, once it is worked out; within, none where there is
/// nothing to learn from.
fn taught<'a>(scene: &'a Scene<'_>, press: &PressKey) -> Option<Option<&'a Taught>> {
    let (of, taught) = scene.view.shop.taught.as_ref()?;
    (of == press).then_some(taught.as_deref())
}

/// Some of the three pictures: spreads, jaw, answers.
fn pictures(
    ui: &mut Ui,
    scene: &Scene<'_>,
    press: &PressKey,
    book: &PressBook,
    (figures, which): (Figures, Range<usize>),
) {
    let answers = taught(scene, press).flatten().map(|taught| &taught.answers);
    for picture in which {
        theme::card(scene.palette).show(ui, |ui| {
            ui.set_width(ui.available_width());
            match (picture, answers) {
                (0, _) => charts::spreads(ui, scene, book, figures),
                (1, _) => charts::jaw(ui, scene, book, figures),
                (_, Some(answers)) => charts::answers(ui, scene.palette, answers, figures),
                (_, None) => {
                    ui.label(match taught(scene, press) {
                        Some(_) => scene.words().taught_nothing_yet(),
                        None => scene.words().thinking(),
                    });
                }
            }
        });
    }
}

/// The nuts, and what to beware of.
fn nuts(ui: &mut Ui, scene: &Scene<'_>, press: &PressKey, book: &PressBook, figures: Figures) {
    let words = scene.words();
    let palette = scene.palette;
    theme::card(palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        let taught = taught(scene, press);
        nut_table::show(ui, palette, book, taught.flatten(), figures);
        let repaired = book
            .visits
            .iter()
            .filter(|visit| !visit.repaired.is_empty());
        for visit in repaired {
            ui.label(words.book_repaired(&visit.when, &visit.repaired));
        }
    });
}

/// How it was worked out, and the visits.
fn told(ui: &mut Ui, scene: &mut Scene<'_>, press: &PressKey, book: &PressBook, figures: Figures) {
    let words = scene.words();
    let palette = scene.palette;
    theme::card(palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        fold(ui, words.worked_out_title(), |ui| {
            ui.label(strong(words.book_drift()));
            let station = |station: usize| book.station_name(station);
            for sentence in figures.drift_sentences(book, &station) {
                ui.label(sentence);
            }
            ui.label(figures.trend_sentence(Trend::of(&book.visits)));
            ui.label(strong(words.book_taught()));
            match taught(scene, press) {
                Some(Some(taught)) => {
                    for sentence in figures.taught_sentences(taught) {
                        ui.label(sentence);
                    }
                }
                Some(None) => {
                    ui.label(words.taught_nothing_yet());
                }
                None => {
                    ui.label(words.thinking());
                }
            }
        });
    });
    theme::card(palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        title(ui, words.book_visits());
        let newest = book.visits.iter().rev().take(MOST_ROWS);
        let newest: Vec<&VisitSummary> = newest.map(Arc::as_ref).collect();
        find::found_visits(ui, scene, &newest, false);
        if !book.copies.is_empty() {
            ui.label(words.shop_copies(book.copies.join(", ")));
        }
    });
}
