//! The card with the one number: the spread and its verdict.

use eframe::egui::{CornerRadius, Frame, Margin, RichText, Ui};

use crate::session::Stands;
use crate::splice::LevelStanding;
use crate::units::Unit;
use crate::window::theme::{self, size};

use crate::window::views::Scene;
use crate::window::views::hint::Hint;
use crate::window::views::widgets::{muted, say_changes, title};
use crate::words::Word;

/// Draws the card; in a low column the figure and the verdict alone.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, low: bool) {
    let words = scene.words();
    let palette = scene.palette;
    let figures = scene.figures;
    theme::card(palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 5.0;
        if !low {
            title(ui, words.how_it_stands());
        }
        let tolerance = scene.session.tolerance.length();
        let shown = scene.outlook.gate.spread.as_ref().map_or_else(
            || "–".to_owned(),
            |spread| figures.spread(spread.value, tolerance),
        );
        let without = without(scene);
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.x = 6.0;
            let large = if low {
                size::FIGURE * 0.8
            } else {
                size::FIGURE
            };
            let figure = RichText::new(&shown).font(theme::bold(large));
            // Without every arm it is no verdict, and does not look like one.
            let ink = if without.is_some() {
                palette.muted
            } else {
                palette.present
            };
            let figure = ui.label(figure.color(ink));
            if let Some(spread) = &scene.outlook.gate.spread {
                figure.hint(words.exactly(figures.exact_mean(spread.value)));
            }
            let unit = words.unit_short(figures.unit);
            let unit = without.as_ref().map_or_else(
                || unit.to_owned(),
                |stations| words.figure_without(unit, stations),
            );
            let beside = match low {
                true => words.limit_beside(unit, figures.limit(tolerance)),
                false => unit,
            };
            ui.label(muted(palette, beside));
        });
        if low {
            verdict(ui, scene);
            return;
        }
        let mut other = figures;
        other.unit = figures.unit.other();
        let (limit, other) = (figures.limit(tolerance), other.limit(tolerance));
        // Averages beside it are rounded each by itself: who subtracts them
        // with a pencil finds the same here.
        let spread = scene.outlook.gate.spread.as_ref();
        let exact = spread.map(|spread| figures.exact_mean(spread.value));
        let exact = exact.filter(|exact| *exact != figures.with_unit(&shown));
        let line = match exact {
            Some(exact) => words.limit_and_exactly(words.exactly(exact), limit, other),
            None => words.limit_and_other(limit, other),
        };
        ui.label(muted(palette, line))
            .hint(words.explain(Word::Spread));
        verdict(ui, scene);
        lines(ui, scene);
    });
}

/// The stations that the figure stands without, where readings are missing or
/// doubtful.
fn without(scene: &Scene<'_>) -> Option<String> {
    let gate = &scene.outlook.gate;
    let doubtful = gate.doubtful.iter().map(|doubt| doubt.station);
    let mut stations: Vec<usize> = gate.missing.iter().copied().chain(doubtful).collect();
    stations.sort_unstable();
    stations.dedup();
    let names = stations.into_iter();
    let names: Vec<String> = names.map(|at| scene.session.station_name(at)).collect();
    (gate.spread.is_some() && !names.is_empty()).then(|| names.join(", "))
}

/// What a low column leaves out of [`show`].
pub fn rest(ui: &mut Ui, scene: &mut Scene<'_>) {
    if scene.outlook.verdicts.is_none() {
        return;
    }
    theme::card(scene.palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 5.0;
        title(ui, scene.words().how_it_stands());
        lines(ui, scene);
    });
}

/// How sure the verdict is, the level, and the limit in its own unit.
fn lines(ui: &mut Ui, scene: &mut Scene<'_>) {
    crate::window::views::explaining::verdict_lines::show(ui, scene);
    level(ui, scene);
    let (words, figures, palette) = (scene.words(), scene.figures, scene.palette);
    let limit = &scene.session.tolerance;
    if limit.unit() != figures.unit && figures.unit == Unit::Inch {
        ui.label(muted(palette, words.limit_in_force(limit.text())));
    }
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
                verdict.hint(words.explain(Word::ToleranceBand));
            });
        });
}
