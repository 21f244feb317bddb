//! How sure the plain comparison is: a plain line, and folded below it the
//! chances of this piece and this press and what would settle them.

use eframe::egui::{CollapsingHeader, RichText, Ui, Vec2};

use crate::session::{Stands, Verdicts};
use crate::splice::Verdict;
use crate::window::action::Action;
use crate::window::state::Dialog;
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::hint::Hint;
use crate::window::views::widgets::muted;

/// Draws the line and what is folded below it; nothing before the chances are
/// worked out.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let Some(verdicts) = scene.outlook.verdicts.as_deref() else {
        return;
    };
    let words = scene.words();
    let gate = &scene.outlook.gate;
    if gate.is_clear() {
        let inside = gate.stands == Stands::Inside;
        ui.label(words.how_close(inside, verdicts.piece.verdict));
    }
    let heading = RichText::new(words.how_sure()).font(theme::regular(size::SMALL));
    let folded = CollapsingHeader::new(heading)
        .id_salt("how sure")
        .open(Some(scene.view.how_sure))
        .show_unindented(ui, |ui| {
            chances(ui, scene, verdicts);
            worked_out_button(ui, scene);
        });
    if folded.header_response.clicked() {
        scene.view.how_sure = !scene.view.how_sure;
    }
}

/// Whose chance is how large, and what would settle it.
fn chances(ui: &mut Ui, scene: &Scene<'_>, verdicts: &Verdicts) {
    let words = scene.words();
    let figures = scene.figures;
    let confidence = verdicts.confidence;
    line(
        ui,
        scene,
        words.short_piece(),
        verdicts.piece.chance,
        Some(verdicts.piece.verdict),
        &figures.piece_verdict_sentence(verdicts.piece, confidence),
    );
    line(
        ui,
        scene,
        words.short_press(),
        verdicts.press.chance,
        Some(verdicts.press.verdict),
        &figures.press_verdict_sentence(verdicts.press, confidence),
    );
    line(
        ui,
        scene,
        words.short_next_piece(),
        verdicts.next_piece,
        None,
        &figures.next_piece_sentence(verdicts, scene.accepted()),
    );
    for sentence in figures.settling_sentences(scene.session, verdicts) {
        ui.label(RichText::new(sentence).font(theme::regular(size::SMALL)));
    }
}

/// The button that opens every figure behind the verdicts.
fn worked_out_button(ui: &mut Ui, scene: &mut Scene<'_>) {
    if scene.outlook.pass.is_none() {
        return;
    }
    let text = RichText::new(scene.words().worked_out_title()).font(theme::regular(size::SMALL));
    let wide = Vec2::new(ui.available_width(), TARGET);
    let button = eframe::egui::Button::new(text).min_size(wide).wrap();
    if ui.add(button).clicked() {
        scene.ask(Action::Show(Box::new(Dialog::WorkedOut)));
    }
}

/// Whose chance, the chance, and what it is called where it is judged; the
/// whole sentence is its name.
fn line(
    ui: &mut Ui,
    scene: &Scene<'_>,
    whose: &str,
    chance: f64,
    verdict: Option<Verdict>,
    sentence: &str,
) {
    let words = scene.words();
    let palette = scene.palette;
    let row = ui.scope(|ui| {
        // A row of words needs less height than one of buttons.
        ui.spacing_mut().interact_size.y = 16.0;
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.x = 5.0;
            ui.label(muted(palette, whose));
            let chance = RichText::new(scene.figures.percentage(chance));
            ui.label(chance.font(theme::bold(size::SMALL)));
            let Some(verdict) = verdict else { return };
            let (mark, ink) = match verdict {
                Verdict::Inside => ("✓", palette.good),
                Verdict::Outside => ("✕", palette.outside),
                Verdict::TooClose => ("≈", palette.caution),
            };
            let called = format!("{mark} {}", words.verdict(verdict));
            ui.label(
                RichText::new(called)
                    .font(theme::bold(size::SMALL))
                    .color(ink),
            );
        });
    });
    row.response.hint(sentence);
}
