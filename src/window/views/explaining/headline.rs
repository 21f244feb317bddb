//! One sentence that says how things stand.

use eframe::egui::{RichText, Ui};

use crate::session::Says;
use crate::window::theme::{self, size};

use crate::window::views::Scene;
use crate::window::views::hint::Hint;
use crate::window::views::widgets::{muted, say_changes};
use crate::words::Word;

/// Height of the window, in points, below which the sentence stands alone.
const LOW: f32 = 700.0;

/// Draws the sentence and the line below it.
pub fn show(ui: &mut Ui, scene: &Scene<'_>) {
    let step = scene.next_step();
    let (sentence, below) = scene.spoken(&step, |of| {
        (
            scene.figures.headline(&step, of),
            scene.figures.below_headline(&step, of),
        )
    });
    // In a low window the picture needs the room, and the plan says it too;
    // but nowhere else stands what holds it up, or what may be chosen.
    let low = ui.ctx().content_rect().height() < LOW;
    let said_elsewhere = !matches!(
        step.says,
        Says::Doubtful | Says::Passes { .. } | Says::Unread { .. }
    );
    theme::card(scene.palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 3.0;
        // Rather smaller than with a word or two in a second line.
        let lines = |size: f32| {
            let font = theme::bold(size);
            let (wide, ink) = (ui.available_width(), scene.palette.ink);
            let laid = ui.painter().layout(sentence.clone(), font, ink, wide);
            laid.rows.len()
        };
        let small = low || lines(size::SENTENCE) > lines(size::TITLE);
        let large = if small { size::TITLE } else { size::SENTENCE };
        let sentence = ui.label(RichText::new(sentence).font(theme::bold(large)));
        say_changes(&sentence);
        if low && said_elsewhere {
            sentence.hint(below);
        } else {
            ui.label(muted(scene.palette, below).size(size::BODY));
            let explained = [Word::Splice, Word::JawsTrue];
            sentence.hint(explained.map(|word| scene.words().explain(word)).join("\n"));
        }
    });
}
