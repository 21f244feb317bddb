//! The nuts of a press as a table: where each stands, what its limits leave,
//! what it was turned in all, and what one notch of it does.

use eframe::egui::Ui;

use crate::session::Answers;
use crate::shop::{NINETY_FIVE, PressBook};
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

/// Draws the table; `answers` are those learnt last, once they are worked out.
pub fn show(
    ui: &mut Ui,
    palette: &Palette,
    book: &PressBook,
    answers: Option<&Answers>,
    figures: Figures,
) {
    let words = figures.language;
    title(ui, words.book_nuts());
    let nuts = book.nuts();
    if nuts.iter().any(|nut| nut.left.is_none()) {
        ui.label(strong(format!("⚠ {}", words.nut_no_limits())));
    }
    let past = nuts.iter().filter_map(|nut| {
        let (out, _) = nut.left?;
        (nut.at + out > 0).then(|| nut.arm.to_string())
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
        let answer = answers.and_then(|answers| answers.per_notch_nm.get(nut.arm.0));
        let cells = [
            nut.arm.to_string(),
            nut.at.to_string(),
            limits.map_or_else(none, |(from, to)| words.nut_from_to(from, to)),
            of(nut.left.map(|left| left.0)),
            of(nut.left.map(|left| left.1)),
            nut.turned.to_string(),
            answer.map_or_else(none, |(nm, sd)| figures.answer(*nm, NINETY_FIVE * sd)),
        ];
        row::widgets(ui, &SHARES, HIGH, |ui, column| {
            let text = cells.get(column).map_or("", String::as_str);
            match column {
                0 => ui.label(strong(text)),
                _ => ui.label(text),
            };
        });
    }
    ui.add_space(6.0);
    ui.label(muted(palette, words.nut_answer_is()));
}
