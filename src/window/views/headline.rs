//! One sentence that says how things stand.

use eframe::egui::{RichText, Ui};

use crate::window::theme::{self, size};

use super::Scene;
use super::widgets::muted;

/// Height of the window, in points, below which the sentence stands alone.
const LOW: f32 = 700.0;

/// Draws the sentence and the line below it.
pub fn show(ui: &mut Ui, scene: &Scene<'_>) {
    let (sentence, below) = sentences(scene);
    // In a low window the picture needs the room; the plan says it too.
    let low = ui.ctx().content_rect().height() < LOW;
    theme::card(scene.palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 3.0;
        let large = if low { size::TITLE } else { size::SENTENCE };
        let sentence = ui.label(RichText::new(sentence).font(theme::bold(large)));
        if low {
            sentence.on_hover_text(below);
        } else {
            ui.label(muted(scene.palette, below).size(size::BODY));
        }
    });
}

/// The one sentence, and what it rests on.
pub fn sentences(scene: &Scene<'_>) -> (String, String) {
    let step = scene.next_step();
    scene.spoken(&step, |of| {
        (
            scene.figures.headline(&step, of),
            scene.figures.below_headline(&step, of),
        )
    })
}
