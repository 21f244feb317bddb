//! The cautions: in one or two lines wherever turns are shown, and in full
//! before hands go in.

use eframe::egui::{
    self, CornerRadius, RichText, Ui,
    text::{LayoutJob, TextFormat},
};

use crate::session::{Caution, Stage};
use crate::window::theme::{self, Palette, size};

use crate::window::views::Scene;
use crate::window::views::hint::keep_clear;
use crate::window::views::widgets::muted;

/// The cautions for the work of a stage, in few words; of none, those that stand
/// wherever turns are shown.
pub fn cautions(ui: &mut Ui, scene: &Scene<'_>, stage: Option<Stage>) {
    let said = ui.add(egui::Label::new(short(scene, stage)).wrap());
    keep_clear(ui.ctx(), said.rect);
}

/// A caution among other words. No hint covers it.
pub fn caution(ui: &mut Ui, palette: &Palette, text: &str) {
    let text = muted(palette, format!("⚠ {text}")).color(palette.caution);
    let said = ui.label(text);
    keep_clear(ui.ctx(), said.rect);
}

/// The same in one line, where a low window has no room for more: what is cut off
/// stands with the reasons, and below the pointer.
pub fn caution_line(ui: &mut Ui, palette: &Palette, text: &str) {
    let text = muted(palette, format!("⚠ {text}")).color(palette.caution);
    let said = ui.add(egui::Label::new(text).truncate());
    keep_clear(ui.ctx(), said.rect);
}

/// Height they take over the whole width of the window.
pub fn cautions_height(ui: &Ui, scene: &Scene<'_>) -> f32 {
    let mut text = short(scene, scene.view.visit.steps_on_show());
    text.wrap.max_width = ui.ctx().content_rect().width() - 24.0;
    ui.fonts_mut(|fonts| fonts.layout_job(text)).size().y + 10.0
}

fn short(scene: &Scene<'_>, stage: Option<Stage>) -> LayoutJob {
    let words = scene.words();
    let (heading, said, size) = match stage {
        Some(stage) => {
            let heading = format!("{}:", words.stage(stage));
            (heading, words.cautions_of(stage), size::BODY)
        }
        None => {
            let said = words.caution_text().to_owned();
            (words.caution_heading().to_owned(), said, size::SMALL)
        }
    };
    let mut text = LayoutJob::default();
    let mut part = |said: &str, font| {
        let format = TextFormat::simple(font, scene.palette.caution);
        text.append(said, 0.0, format);
    };
    part(&format!("⚠ {heading} "), theme::bold(size));
    part(&said, theme::regular(size));
    text
}

/// All that a very low window has room for.
pub fn shortest(ui: &mut Ui, scene: &Scene<'_>) {
    let text = RichText::new(format!("⚠ {}", scene.words().caution_shortest()));
    let text = text.font(theme::bold(size::SMALL));
    let said = ui.label(text.color(scene.palette.caution));
    keep_clear(ui.ctx(), said.rect);
}

/// Every caution with its source, below a heading that unfolds.
pub fn all_folded(ui: &mut Ui, scene: &Scene<'_>) {
    egui::CollapsingHeader::new(scene.words().all_cautions())
        .id_salt("all cautions")
        .show(ui, |ui| all(ui, scene));
}

/// Every caution with its source.
pub fn all(ui: &mut Ui, scene: &Scene<'_>) {
    for caution in Caution::ALL {
        one(ui, scene, caution);
    }
    let manual = RichText::new(scene.words().cautions_manual_first());
    let manual = manual.font(theme::bold(size::BODY));
    let said = ui.label(manual.color(scene.palette.caution));
    keep_clear(ui.ctx(), said.rect);
}

fn one(ui: &mut Ui, scene: &Scene<'_>, caution: Caution) {
    let words = scene.words();
    let palette = scene.palette;
    let part = TextFormat::simple;
    let mut text = LayoutJob::default();
    let body = theme::regular(size::BODY);
    text.append("• ", 0.0, part(body.clone(), palette.caution));
    text.append(words.caution(caution), 0.0, part(body, palette.ink));
    let source = format!(" ({})", words.caution_source(caution));
    let small = theme::regular(size::SMALL);
    text.append(&source, 0.0, part(small, palette.muted));
    ui.add(egui::Label::new(text).wrap());
}

/// The short ones as a card of a column.
pub fn cautions_card(ui: &mut Ui, scene: &Scene<'_>) {
    egui::Frame::new()
        .fill(scene.palette.caution_back)
        .corner_radius(CornerRadius::same(7))
        .inner_margin(egui::Margin::symmetric(12, 6))
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            cautions(ui, scene, scene.view.visit.steps_on_show());
        });
}
