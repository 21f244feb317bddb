//! What the program just said, along the lower edge.

use eframe::egui::{self, Align2, Area, Frame, Margin, Order, RichText};

use crate::window::messages::{Messages, Tone};
use crate::window::theme::{self, Palette, TARGET, size};
use crate::words::Language;

use super::widgets::say_changes;

/// Draws the newest message still in sight; answers whether it was dismissed.
pub fn show(
    ctx: &egui::Context,
    words: Language,
    palette: &Palette,
    messages: &Messages,
    now: f64,
) -> bool {
    let Some(message) = messages.in_sight(now) else {
        return false;
    };
    let (mark, ink, back) = match message.tone {
        Tone::Done => ("✓", palette.good, palette.good_back),
        Tone::Problem => ("⚠", palette.caution, palette.caution_back),
    };
    let mut dismissed = false;
    Area::new(egui::Id::unique("toast"))
        .order(Order::Foreground)
        .anchor(Align2::CENTER_BOTTOM, [0.0, -58.0])
        .show(ctx, |ui| {
            Frame::new()
                .fill(back)
                .stroke(theme::stroke(1.5, ink))
                .corner_radius(8)
                .inner_margin(Margin::symmetric(14, 6))
                .show(ui, |ui| {
                    ui.horizontal(|ui| {
                        ui.set_max_width(ctx.content_rect().width() * 0.8);
                        let text = RichText::new(format!("{mark}  {}", message.text))
                            .font(theme::regular(size::BODY))
                            .color(ink);
                        say_changes(&ui.add(egui::Label::new(text).wrap()));
                        let close = ui.add(
                            egui::Button::new(words.dismiss()).min_size(egui::Vec2::splat(TARGET)),
                        );
                        dismissed = close.clicked();
                    });
                });
        });
    dismissed
}
