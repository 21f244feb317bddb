//! The card with the one number: the spread and its verdict.

use eframe::egui::{CornerRadius, Frame, Margin, RichText, Ui};

use crate::session::Stands;
use crate::splice::LevelStanding;
use crate::units::Unit;
use crate::window::theme::{self, size};

use crate::window::views::Scene;
use crate::window::views::widgets::{muted, say_changes, title};
use crate::words::Word;

/// Draws the card.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let palette = scene.palette;
    let figures = scene.figures;
    theme::card(palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 5.0;
        title(ui, words.how_it_stands());
        let tolerance = scene.session.tolerance.length();
        let shown = scene.outlook.gate.spread.as_ref().map_or_else(
            || "–".to_owned(),
            |spread| figures.spread(spread.value, tolerance),
        );
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 6.0;
            let figure = RichText::new(shown).font(theme::bold(size::FIGURE));
            let figure = ui.label(figure.color(palette.present));
            if let Some(spread) = &scene.outlook.gate.spread {
                figure.on_hover_text(words.exactly(figures.exact_mean(spread.value)));
            }
            ui.label(muted(palette, words.unit_short(figures.unit)));
        });
        let mut other = figures;
        other.unit = figures.unit.other();
        ui.label(muted(
            palette,
            words.limit_and_other(figures.limit(tolerance), other.limit(tolerance)),
        ))
        .on_hover_text(words.explain(Word::Spread));
        verdict(ui, scene);
        crate::window::views::explaining::verdict_lines::show(ui, scene);
        level(ui, scene);
        if scene.session.tolerance.unit() != figures.unit && figures.unit == Unit::Inch {
            ui.label(muted(
                palette,
                words.limit_in_force(scene.session.tolerance.text()),
            ));
        }
    });
}

/// Height of the window from which an unjudged level is told here too.
const ROOMY: f32 = 860.0;

/// How the level stands against the target, and whether the common handle is
/// the remedy. That it is not judged stands with the reasons in a low window.
fn level(ui: &mut Ui, scene: &Scene<'_>) {
    if let Some(level) = &scene.outlook.trust.level {
        let roomy = ui.ctx().content_rect().height() >= ROOMY;
        if *level == LevelStanding::Unjudged && !roomy {
            return;
        }
        let sentence = scene.figures.level_sentence(level);
        ui.label(muted(scene.palette, sentence));
    }
}

fn verdict(ui: &mut Ui, scene: &Scene<'_>) {
    let words = scene.words();
    let palette = scene.palette;
    let (mark, text, ink, back) = match scene.outlook.gate.stands {
        Stands::NotLaced | Stands::Unread => {
            ("–", words.verdict_none(), palette.muted, palette.button)
        }
        Stands::Inside => ("✓", words.verdict_inside(), palette.good, palette.good_back),
        Stands::Open => ("…", words.verdict_open(), palette.muted, palette.button),
        Stands::Outside => (
            "✕",
            words.verdict_outside(),
            palette.outside,
            palette.outside_back,
        ),
    };
    Frame::new()
        .fill(back)
        .stroke(theme::stroke(1.5, ink))
        .corner_radius(CornerRadius::same(14))
        .inner_margin(Margin::symmetric(12, 5))
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.vertical_centered(|ui| {
                let verdict = ui.label(
                    RichText::new(format!("{mark}  {text}"))
                        .font(theme::bold(size::BODY))
                        .color(ink),
                );
                say_changes(&verdict);
                verdict.on_hover_text(words.explain(Word::ToleranceBand));
            });
        });
}
