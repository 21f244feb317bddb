//! Every press of the shop, the one that wants looking at first on top: how it
//! was left, when to look at it again and why; the worst that is true of any,
//! and the one next act; and what the shop laced and worked month by month.

use std::sync::Arc;

use eframe::egui::{
    Align, Align2, Button, Layout, Pos2, Rect, Response, RichText, Role, Sense, Ui, Vec2,
    WidgetInfo,
};

use crate::shop::{DueCounts, Month, Need, PressBook, PressOrder};
use crate::window::shop::ShopWish;
use crate::window::state::shop::{PressKey, ShopPage};
use crate::window::theme::{self, TARGET, size};
use crate::window::upkeep::UpkeepDesk;
use crate::window::views::Scene;
use crate::window::views::widgets::{choice, muted, strong, title};

use super::press_row::{self, PressLine};
use super::{MOST_ROWS, ask};

/// Months shown, the newest ones.
const MONTHS: usize = 12;

/// Height of a month, width of its name and of each of its figures.
const MONTH: (f32, f32, f32) = (22.0, 58.0, 52.0);

/// Width from which months stand beside the presses, and theirs.
const BESIDE: (f32, f32) = (1200.0, 330.0);

/// Width of the button that does the next act.
const NEXT_ACT: f32 = 230.0;

/// Presses that have room for larger pictures, and how tall a row is at least
/// where there are more, and at least and most where there are not; the room
/// above all rows.
const FEW: usize = 8;
const ROW: (f32, f32, f32) = (TARGET, 88.0, 132.0);
const ABOVE: f32 = 320.0;

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
    let desk = Arc::clone(&scene.shop.upkeep);
    head(ui, scene, &shop.books, &desk);
    let mut presses: Vec<&(usize, Vec<Need>)> = desk.by_need.iter().collect();
    scene.view.shop.order.sort(&shop.books, &mut presses);
    let presses = presses.into_iter();
    let presses = presses.filter_map(|(at, needs)| Some((shop.books.get(*at)?, needs.as_slice())));
    let books: Vec<(&PressBook, &[Need])> = presses.collect();
    let (from, aside) = BESIDE;
    let width = ui.available_width();
    if width < from {
        list(ui, scene, &books);
        beside(ui, scene, &desk.months);
        return;
    }
    let down = Layout::top_down(Align::Min);
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = theme::GAP;
        for (room, is_list) in [(width - aside - theme::GAP, true), (aside, false)] {
            ui.allocate_ui_with_layout(Vec2::new(room, 0.0), down, |ui| {
                ui.set_width(room);
                match is_list {
                    true => list(ui, scene, &books),
                    false => beside(ui, scene, &desk.months),
                }
            });
        }
    });
}

/// The worst that is true of any press, the press to begin with, and how the
/// upkeep stands.
fn head(ui: &mut Ui, scene: &mut Scene<'_>, books: &[PressBook], desk: &UpkeepDesk) {
    let words = scene.words();
    let palette = scene.palette;
    let said = scene
        .figures
        .shop_headline(books, &desk.by_need, scene.today);
    let worst = desk.by_need.first();
    let worst = worst.and_then(|(at, needs)| Some((books.get(*at)?, needs)));
    let presses = worst.is_some_and(|(_, needs)| needs.iter().any(|need| need.is_now()));
    let due = upkeep_due(scene);
    let (mut opens, mut upkeep) = (false, false);
    theme::card(palette).show(ui, |ui| {
        let width = ui.available_width();
        ui.set_width(width);
        ui.horizontal_top(|ui| {
            let room = Vec2::new((width - NEXT_ACT - 12.0).max(160.0), 0.0);
            ui.allocate_ui_with_layout(room, Layout::top_down(Align::Min), |ui| {
                ui.set_width(room.x);
                let sign = if presses { "⚠ " } else { "✓ " };
                let sentence = format!("{sign}{}", said.sentence);
                let ink = if presses {
                    palette.caution
                } else {
                    palette.good
                };
                ui.label(
                    RichText::new(sentence)
                        .font(theme::bold(size::SENTENCE))
                        .color(ink),
                );
                if let Some(first) = &said.first {
                    ui.label(first);
                }
                let now = words.shop_upkeep_now(words.upkeep_counts(due));
                match due.late {
                    0 if due == DueCounts::default() => ui.label(words.shop_upkeep_none()),
                    0 => ui.label(now),
                    _ => ui.label(strong(format!("⚠ {now}"))),
                };
            });
            ui.allocate_ui(Vec2::new(NEXT_ACT, TARGET), |ui| {
                ui.vertical(|ui| {
                    if let Some((book, _)) = worst {
                        let open = words.press_open_book(words.press_name(&book.press));
                        let open = strong(open).color(palette.on_present);
                        let open = Button::new(open).fill(palette.present);
                        opens = wide(ui, open.truncate()).clicked();
                    }
                    let open = Button::new(words.shop_upkeep_open());
                    upkeep = wide(ui, open).clicked();
                });
            });
        });
    });
    if let Some((book, _)) = worst.filter(|_| opens) {
        ask(scene, ShopWish::Show(ShopPage::Press(PressKey::of(book))));
    }
    if upkeep {
        scene.view.shop.upkeep.press = None;
        ask(scene, ShopWish::Show(ShopPage::Upkeep));
    }
}

/// A button as wide as there is room.
fn wide(ui: &mut Ui, button: Button<'_>) -> Response {
    let room = Vec2::new(ui.available_width(), TARGET);
    ui.add_sized(room, button.min_size(room))
}

fn list(ui: &mut Ui, scene: &mut Scene<'_>, books: &[(&PressBook, &[Need])]) {
    let words = scene.words();
    let visits = books
        .iter()
        .map(|(book, _)| book.visits.len())
        .sum::<usize>();
    ui.horizontal_wrapped(|ui| {
        ui.label(words.shop_summary(books.len(), visits));
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
    // Few presses share the height of the window.
    let share = (ui.ctx().content_rect().height() - ABOVE) / books.len().max(1) as f32;
    let tall = match books.len() <= FEW {
        true => share.clamp(ROW.1, ROW.2),
        false => ROW.0,
    };
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
        let pieces = figures.decimal(pieces * 12.0, 0);
        words.press_a_year(pieces, figures.decimal(minutes / 5.0, 0))
    });
    let (pressing, rest) = Need::pressing(needs);
    let line = PressLine {
        name: words.press_name(&book.press),
        visits: words.press_visits(day, book.visits.len()),
        ended: figures.outcome(last),
        month,
        act: figures.press_act(book, needs),
        when: match pressing {
            [] => figures.press_when(book, pressing, scene.today),
            _ => figures.press_whys(book, pressing, scene.today).join("\n"),
        },
        further: match rest {
            [] => String::new(),
            _ => figures.press_when(book, rest, scene.today),
        },
        trend: figures.trend_short(book),
        limit: figures.limit(last.tolerance),
    };
    if press_row::show(ui, scene.palette, book, &line, tall).clicked() {
        ask(scene, ShopWish::Show(ShopPage::Press(PressKey::of(book))));
    }
}

/// What is due of upkeep besides the checks that the sentence above asks for.
fn upkeep_due(scene: &Scene<'_>) -> DueCounts {
    let desk = &scene.shop.upkeep;
    let due = desk.day.map(|today| DueCounts::of(&desk.list, today));
    DueCounts {
        checks: 0,
        soon: 0,
        ..due.unwrap_or_default()
    }
}

/// The months, newest first.
fn beside(ui: &mut Ui, scene: &mut Scene<'_>, months: &[Month]) {
    let words = scene.words();
    let palette = scene.palette;
    theme::card(palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        title(ui, words.shop_months());
        // Months since the last visit say nothing one by one.
        let worked = months.iter().rposition(|month| month.visits > 0);
        let end = worked.map_or(0, |last| last + 1);
        let shown = months.get(end.saturating_sub(MONTHS)..end);
        let shown = shown.unwrap_or_default();
        let most = shown.iter().map(|month| month.pieces).max().unwrap_or(1);
        ui.spacing_mut().item_spacing.y = 2.0;
        let heads: Vec<String> = words
            .shop_month_heads()
            .split('|')
            .map(str::to_owned)
            .collect();
        month_row(ui, scene, &heads, None, words.shop_months());
        for month in shown.iter().rev() {
            bar(ui, scene, month, most);
        }
        if let Some(last) = shown.last().filter(|_| end < months.len()) {
            ui.label(words.months_none_since(&last.name));
        }
        ui.label(muted(palette, words.shop_hours_are()));
    });
}

/// A month: a bar of its pieces, and its figures.
fn bar(ui: &mut Ui, scene: &Scene<'_>, month: &Month, most: usize) {
    let hours = scene.figures.decimal(month.minutes / 60.0, 1);
    let text = scene
        .words()
        .shop_month(&month.name, month.pieces, &hours, month.visits);
    // A month without a visit is quiet.
    let shown = |text: String| {
        if month.visits > 0 {
            text
        } else {
            "–".to_owned()
        }
    };
    let figures = [
        month.name.clone(),
        shown(month.pieces.to_string()),
        shown(hours),
        shown(month.visits.to_string()),
    ];
    let share = month.pieces as f32 / most.max(1) as f32;
    month_row(ui, scene, &figures, Some(share), &text);
}

/// Name, bar and three figures, each in its column.
fn month_row(ui: &mut Ui, scene: &Scene<'_>, texts: &[String], share: Option<f32>, name: &str) {
    let palette = scene.palette;
    let (high, name_wide, figure) = MONTH;
    let width = ui.available_width();
    let (rect, response) = ui.allocate_exact_size(Vec2::new(width, high), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, name));
    let painter = ui.painter();
    let ink = if share.is_some() {
        palette.ink
    } else {
        palette.muted
    };
    let font = theme::regular(size::SMALL);
    let figures = figure * texts.len().saturating_sub(1) as f32;
    if let Some(share) = share {
        let room = (width - name_wide - figures).max(0.0);
        let long = Vec2::new(room * share, high - 6.0);
        let from = Pos2::new(rect.left() + name_wide, rect.top() + 3.0);
        painter.rect_filled(Rect::from_min_size(from, long), 2.0, palette.edge);
    }
    let y = rect.center().y;
    for (index, text) in texts.iter().enumerate() {
        let (at, side) = match index {
            0 => (rect.left(), Align2::LEFT_CENTER),
            _ => {
                let right = rect.right() - figure * (texts.len() - 1 - index) as f32;
                (right, Align2::RIGHT_CENTER)
            }
        };
        painter.text(Pos2::new(at, y), side, text, font.clone(), ink);
    }
}
