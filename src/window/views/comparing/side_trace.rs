//! What was corrected in passes after the next one was laced.

use eframe::egui::Ui;

use crate::window::views::Scene;
use crate::window::views::widgets::{muted, title};

/// Draws the list, where there is anything to tell.
pub fn show(ui: &mut Ui, scene: &Scene<'_>) {
    let words = scene.words();
    if scene
        .session
        .passes
        .iter()
        .all(|pass| pass.corrections.is_empty())
    {
        return;
    }
    ui.separator();
    title(ui, words.trace_title());
    ui.label(muted(scene.palette, words.trace_why()));
    for line in scene.figures.corrections(scene.session) {
        ui.label(line);
    }
}
