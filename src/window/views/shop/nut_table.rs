//! The nuts of a press as a table: where each stands, what its limits leave,
//! what it was turned in all, and what one notch of it does.

use eframe::egui::Ui;

use crate::session::LOW_TRAVEL;
use crate::shop::{NINETY_FIVE, PressBook, Taught};
use crate::window::theme::Palette;
use crate::window::views::turning::safety::caution;
use crate::window::views::widgets::{muted, strong, title};
use crate::words::Figures;

use super::row;

/// Shares of the columns: arm, where it stands, its limits, notches left OUT
/// and IN, turned in all, what one notch does.
const SHARES: [f32; 7] = [0.08, 0.10, 0.18, 0.12, 0.13, 0.13, 0.26];

/// Height of a row.
const HIGH: f32 = 22.0;

/// Draws the table with what was learnt, once it is worked out. What runs low or
/// answers otherwise than it did is marked.
pub fn show(
    ui: &mut Ui,
    palette: &Palette,
    book: &PressBook,
    taught: Option<&Taught>,
    figures: Figures,
) {
    let words = figures.language;
    title(ui, words.book_nuts());
    let nuts = book.nuts();
    let answers = taught.and_then(|taught| taught.answers.last());
    let changed = taught.and_then(|taught| taught.changed.as_ref());
    if nuts.iter().any(|nut| nut.left.is_none()) {
        ui.label(strong(format!("⚠ {}", words.nut_no_limits())));
    }
    let past = nuts.iter().filter_map(|nut| {
        let (_, past) = nut.out_to_flush()?;
        past.then(|| nut.arm.to_string())
    });
    let past: Vec<String> = past.collect();
    if !past.is_empty() {
        caution(ui, palette, &words.limit_past_flush(past.join(", ")));
    }
    ui.spacing_mut().item_spacing.y = 3.0;
    row::headings(ui, palette, &SHARES, words.nut_columns());
    for nut in nuts {
        let none = || "–".to_owned();
        let of = |value: Option<i32>| value.map_or_else(none, |value| value.to_string());
        let limits = nut
            .left
            .map(|(out, inward)| (nut.at - inward, nut.at + out));
        let (out, inward) = (nut.out_to_flush(), nut.left.map(|left| left.1));
        let low = |left: Option<i32>| left.is_some_and(|left| i64::from(left) <= LOW_TRAVEL);
        let differs = changed.is_some_and(|changed| changed.arm == nut.arm);
        let marked = [low(out.map(|out| out.0)), low(inward), false, differs];
        let answer = answers.and_then(|answers| answers.per_notch_nm.get(nut.arm.0));
        let cells = [
            nut.arm.to_string(),
            nut.at.to_string(),
            limits.map_or_else(none, |(from, to)| words.nut_from_to(from, to)),
            match out {
                Some((out, true)) => words.nut_room_to_flush(out),
                out => of(out.map(|out| out.0)),
            },
            of(inward),
            nut.turned.to_string(),
            answer.map_or_else(none, |(nm, sd)| figures.answer(*nm, NINETY_FIVE * sd)),
        ];
        row::widgets(ui, &SHARES, HIGH, |ui, column| {
            let text = cells.get(column).map_or("", String::as_str);
            // Those that may be marked stand last.
            let mark = column.checked_sub(3).and_then(|column| marked.get(column));
            match (column, mark) {
                (_, Some(true)) => ui.colored_label(palette.caution, format!("⚠ {text}")),
                (0, _) => ui.label(strong(text)),
                _ => ui.label(text),
            };
        });
    }
    ui.add_space(6.0);
    let visits = taught.map_or(0, |taught| taught.answers.len());
    ui.label(muted(palette, words.nut_answer_is(visits)));
}
