//! Every press of the shop, the one that is due first on top; and what the
//! shop laced and worked month by month.

use eframe::egui::{Align2, Pos2, Rect, Role, Sense, Ui, Vec2, WidgetInfo};

use crate::session::Stands;
use crate::shop::{Month, PressBook, Trend, by_need, months};
use crate::window::shop::ShopWish;
use crate::window::state::shop::{PressKey, ShopPage};
use crate::window::theme::{self, size};
use crate::window::views::Scene;
use crate::window::views::widgets::{muted, title};

use super::{MOST_ROWS, ask, row};

/// Months shown, the newest ones.
const MONTHS: usize = 12;

/// Height of a month.
const MONTH: f32 = 24.0;

/// Draws the page.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let shop = std::sync::Arc::clone(&scene.shop.shop);
    if !scene.shop.read {
        return;
    }
    if shop.books.is_empty() {
        ui.label(words.shop_empty());
        return;
    }
    ui.label(words.shop_summary(shop.books.len(), shop.sessions));
    let mut books: Vec<&PressBook> = shop.books.iter().collect();
    books.sort_by(|a, b| by_need(a, b));
    for book in books.iter().take(MOST_ROWS) {
        press(ui, scene, book);
    }
    if let Some(more) = books.len().checked_sub(MOST_ROWS).filter(|more| *more > 0) {
        ui.label(words.shop_more(more));
    }
    ui.separator();
    title(ui, words.shop_months());
    let months = months(&shop.books);
    let newest = months.len().saturating_sub(MONTHS);
    let shown = months.get(newest..).unwrap_or_default();
    let most = shown.iter().map(|month| month.pieces).max().unwrap_or(1);
    for month in shown.iter().rev() {
        bar(ui, scene, month, most);
    }
    ui.label(muted(scene.palette, words.shop_hours_are()));
}

fn press(ui: &mut Ui, scene: &mut Scene<'_>, book: &PressBook) {
    let words = scene.words();
    let name = words.press_name(&book.press);
    let mut remarks = Vec::new();
    let due = scene.today.is_some_and(|today| book.is_due(today));
    if let Some(day) = book.check_by() {
        remarks.push(match due {
            true => words.press_due(day),
            false => words.press_check_by(day),
        });
    }
    let worse = Trend::of(&book.visits).is_some_and(|trend| trend.is_worse());
    if worse {
        remarks.push(words.press_worse().to_owned());
    }
    let last = book.visits.last();
    let outside = last.is_some_and(|visit| visit.stands == Stands::Outside);
    if outside {
        remarks.push(words.press_outside().to_owned());
    }
    let first = match remarks.is_empty() {
        true => name,
        false => words.press_and(name, remarks.join(", ")),
    };
    let second = scene.figures.press_line(book);
    let stands_out = due || worse || outside;
    if row::row(ui, scene.palette, &first, &second, stands_out).clicked() {
        let page = ShopPage::Press(PressKey::of(book));
        ask(scene, ShopWish::Show(page));
    }
}

/// A month as a bar of its pieces, with its figures.
fn bar(ui: &mut Ui, scene: &Scene<'_>, month: &Month, most: usize) {
    let words = scene.words();
    let palette = scene.palette;
    let hours = scene.figures.decimal(month.minutes / 60.0, 1);
    let text = words.shop_month(&month.name, month.pieces, hours, month.visits);
    let font = theme::regular(size::SMALL);
    let width = ui.available_width();
    let galley = ui
        .painter()
        .layout(text.clone(), font, palette.ink, width - 12.0);
    let room = Vec2::new(width, MONTH.max(galley.size().y + 4.0));
    let (rect, response) = ui.allocate_exact_size(room, Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, &text));
    let share = month.pieces as f32 / most.max(1) as f32;
    let long = Rect::from_min_size(rect.min, Vec2::new(width * share, rect.height()));
    let painter = ui.painter();
    painter.rect_filled(long.shrink2(Vec2::new(0.0, 1.5)), 3.0, palette.band);
    let at = Pos2::new(rect.left() + 6.0, rect.center().y);
    let at = Align2::LEFT_CENTER.anchor_size(at, galley.size()).min;
    painter.galley(at, galley, palette.ink);
}
