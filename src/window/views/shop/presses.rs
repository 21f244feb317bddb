//! Every press of the shop, the one that wants looking at first on top: how it
//! was left, when to look at it again and why; the one next act; and what the
//! shop laced and worked month by month.

use std::sync::Arc;

use eframe::egui::{Align, Align2, Layout, Pos2, Rect, Role, Sense, Ui, Vec2, WidgetInfo};

use crate::shop::{Month, Need, PressBook, PressOrder, When, Whose, in_order, months};
use crate::window::shop::ShopWish;
use crate::window::state::shop::{PressKey, ShopPage};
use crate::window::theme::{self, TARGET, size};
use crate::window::views::Scene;
use crate::window::views::widgets::{button, choice, main_button, muted, strong, title};

use super::press_row::{self, PressLine};
use super::{MOST_ROWS, ask};

/// Months shown, the newest ones.
const MONTHS: usize = 12;

/// Height of a month.
const MONTH: f32 = 24.0;

/// Width from which months and upkeep stand beside the presses, and theirs.
const BESIDE: (f32, f32) = (1200.0, 300.0);

/// Width of the button that does the next act.
const NEXT_ACT: f32 = 220.0;

/// Presses that have room for larger pictures, and how tall a row is at least
/// where there are more, and where there are not.
const FEW: usize = 8;
const ROW: (f32, f32) = (TARGET, 84.0);

/// Draws the page.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let shop = Arc::clone(&scene.shop.shop);
    if !scene.shop.read {
        return;
    }
    if shop.books.is_empty() {
        ui.label(words.shop_empty());
        return;
    }
    let order = scene.view.shop.order;
    let by_need = in_order(&shop.books, PressOrder::Need, scene.today);
    if let Some((book, needs)) = by_need.first() {
        next_act(ui, scene, book, needs);
    }
    let books = match order {
        PressOrder::Need => by_need,
        order => in_order(&shop.books, order, scene.today),
    };
    let (from, aside) = BESIDE;
    let width = ui.available_width();
    if width < from {
        list(ui, scene, &books, shop.sessions);
        ui.separator();
        beside(ui, scene, &shop.books);
        return;
    }
    let down = Layout::top_down(Align::Min);
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = 20.0;
        for (room, is_list) in [(width - aside - 20.0, true), (aside, false)] {
            ui.allocate_ui_with_layout(Vec2::new(room, 0.0), down, |ui| {
                ui.set_width(room);
                match is_list {
                    true => list(ui, scene, &books, shop.sessions),
                    false => beside(ui, scene, &shop.books),
                }
            });
        }
    });
}

/// The press to look at next, and why.
fn next_act(ui: &mut Ui, scene: &mut Scene<'_>, book: &PressBook, needs: &[Need]) {
    let words = scene.words();
    let palette = scene.palette;
    let name = words.press_name(&book.press);
    let presses = needs.iter().any(|need| need.is_now());
    let mut opens = false;
    theme::card(palette).fill(palette.paper).show(ui, |ui| {
        let width = ui.available_width();
        ui.set_width(width);
        ui.horizontal_top(|ui| {
            let said = Vec2::new((width - NEXT_ACT - 8.0).max(160.0), 0.0);
            ui.allocate_ui_with_layout(said, Layout::top_down(Align::Min), |ui| {
                ui.set_width(said.x);
                if presses {
                    title(ui, &words.press_look_next(&name));
                    ui.label(words.press_look_why(words.press_when(book, needs)));
                } else {
                    let day = book.last_day().map(|day| day.to_string());
                    let day = day.unwrap_or_else(|| words.press_no_day().to_owned());
                    ui.add_space(12.0);
                    ui.label(strong(words.press_look_calm(&name, day)));
                }
            });
            ui.allocate_ui(Vec2::new(NEXT_ACT, TARGET), |ui| {
                opens = main_button(ui, palette, words.press_open_book(), true).clicked();
            });
        });
    });
    if opens {
        ask(scene, ShopWish::Show(ShopPage::Press(PressKey::of(book))));
    }
}

fn list(ui: &mut Ui, scene: &mut Scene<'_>, books: &[(&PressBook, Vec<Need>)], sessions: usize) {
    let words = scene.words();
    ui.horizontal_wrapped(|ui| {
        ui.label(words.shop_summary(books.len(), sessions));
        ui.add_space(12.0);
        ui.label(words.press_sort());
        for (order, text) in [
            (PressOrder::Need, words.press_sort_need()),
            (PressOrder::Name, words.press_sort_name()),
            (PressOrder::LastVisit, words.press_sort_last()),
        ] {
            let chosen = scene.view.shop.order == order;
            if choice(ui, scene.palette, chosen, text).clicked() {
                scene.view.shop.order = order;
            }
        }
    });
    press_row::headings(ui, scene.palette, words);
    let tall = if books.len() <= FEW { ROW.1 } else { ROW.0 };
    for (book, needs) in books.iter().take(MOST_ROWS) {
        press(ui, scene, book, needs, tall);
    }
    if let Some(more) = books.len().checked_sub(MOST_ROWS).filter(|more| *more > 0) {
        ui.label(words.shop_more(more));
    }
}

fn press(ui: &mut Ui, scene: &mut Scene<'_>, book: &PressBook, needs: &[Need], tall: f32) {
    let words = scene.words();
    let Some(last) = book.visits.last() else {
        return;
    };
    let figures = scene.figures.of_visit(last);
    let day = match last.day {
        Some(day) => day.to_string(),
        None => words.press_no_day().to_owned(),
    };
    let month = scene.today.and_then(|today| book.a_month(today));
    let month = month.map_or_else(String::new, |(pieces, minutes)| {
        let pieces = figures.decimal(pieces, 1);
        words.press_a_month(pieces, figures.decimal(minutes / 60.0, 1))
    });
    let upkeep = upkeep_now(scene, Some(&book.press));
    let line = PressLine {
        name: words.press_name(&book.press),
        visits: words.press_visits(day, book.visits.len()),
        ended: figures.outcome(last),
        month,
        when: words.press_when(book, needs),
        trend: figures.trend_short(book),
        upkeep: (upkeep > 0).then(|| words.press_upkeep_due(upkeep)),
        presses: needs.iter().any(|need| need.is_now()),
    };
    if press_row::show(ui, scene.palette, book, &line, tall).clicked() {
        ask(scene, ShopWish::Show(ShopPage::Press(PressKey::of(book))));
    }
}

/// Tasks past their interval, of a press or of all presses and gauges.
pub fn upkeep_now(scene: &Scene<'_>, press: Option<&str>) -> usize {
    let desk = &scene.shop.upkeep;
    let Some(today) = desk.day else { return 0 };
    let of_press = |whose: &Whose| {
        press.is_none_or(|press| matches!(whose, Whose::Press(name) if name == press))
    };
    let now = desk.list.iter().filter(|task| of_press(&task.whose));
    now.filter(|task| task.when(today) == When::Now).count()
}

/// What is known of the whole shop: upkeep and months.
fn beside(ui: &mut Ui, scene: &mut Scene<'_>, books: &[PressBook]) {
    let words = scene.words();
    title(ui, words.upkeep_page());
    match upkeep_now(scene, None) {
        0 => ui.label(words.shop_upkeep_none()),
        now => {
            let text = format!("⚠ {}", words.shop_upkeep_now(now));
            ui.label(strong(text).color(scene.palette.caution))
        }
    };
    if button(ui, words.shop_upkeep_open()).clicked() {
        scene.view.shop.upkeep.press = None;
        ask(scene, ShopWish::Show(ShopPage::Upkeep));
    }
    ui.add_space(6.0);
    title(ui, words.shop_months());
    let months = months(books);
    let newest = months.len().saturating_sub(MONTHS);
    let shown = months.get(newest..).unwrap_or_default();
    let most = shown.iter().map(|month| month.pieces).max().unwrap_or(1);
    for month in shown.iter().rev() {
        bar(ui, scene, month, most);
    }
    ui.label(muted(scene.palette, words.shop_hours_are()));
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
