//! Files of the folder that are not counted: those that cannot be read, each
//! with its sentence, and practice.

use eframe::egui::{RichText, Ui};

use crate::window::theme::{self, size};
use crate::window::views::Scene;
use crate::window::views::widgets::strong;

/// Draws the page.
pub fn show(ui: &mut Ui, scene: &Scene<'_>) {
    let words = scene.words();
    let figures = scene.figures;
    let shop = &scene.shop.shop;
    if shop.unread.is_empty() && shop.practice.is_empty() && shop.closed.is_empty() {
        ui.label(words.shop_all_counted());
        return;
    }
    let closed = shop.closed.iter();
    let closed = closed.map(|(name, why)| (name, words.disk_refusal(*why)));
    let unread = shop.unread.iter();
    let unread = unread.map(|(name, why)| (name, figures.why_not_opened(why)));
    let all: Vec<(&String, String)> = closed.chain(unread).collect();
    if !all.is_empty() {
        ui.label(strong(words.shop_unreadable()));
    }
    for (name, why) in all {
        ui.label(RichText::new(name).font(theme::bold(size::BODY)));
        ui.label(format!("⚠ {why}"));
    }
    if !shop.practice.is_empty() {
        ui.label(strong(words.shop_practice("")));
        for name in &shop.practice {
            ui.label(name);
        }
    }
}
