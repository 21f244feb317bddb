//! One sentence that says how things stand.

use eframe::egui::{RichText, Ui};

use crate::splice::Standing;
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
    let words = scene.words();
    let figures = scene.figures;
    let Some((spread, standing)) = scene.outlook.spread.as_ref().zip(scene.outlook.standing) else {
        return if scene.session.passes.is_empty() {
            (
                words.nothing_laced().to_owned(),
                words.nothing_laced_next().to_owned(),
            )
        } else {
            (
                words.nothing_read().to_owned(),
                words.nothing_read_next().to_owned(),
            )
        };
    };
    let tolerance = scene.session.tolerance.length();
    let shown = figures.with_unit(&figures.spread(spread.value, tolerance));
    let limit = figures.limit(tolerance);
    let first = match standing {
        Standing::Inside => match not_sure_enough(scene) {
            Some(sentence) => sentence,
            None => words.stands_inside().to_owned(),
        },
        Standing::InsideSoFar => {
            let unread: Vec<String> = spread
                .unread
                .iter()
                .map(|&station| scene.session.station_name(station))
                .collect();
            words.stands_inside_so_far(unread.join(", "))
        }
        Standing::Outside => {
            let shape = scene.outlook.shape.as_ref();
            shape.map_or_else(String::new, |shape| figures.shape_sentence(shape))
        }
    };
    let mut second = words.spread_and_limit(shown, limit);
    let turns = scene.preview();
    let turned = turns.iter().any(|turn| turn.0 != 0);
    if let Some(forecast) = scene.outlook.forecast(&turns).filter(|_| turned) {
        // The spread as it is stands in large figures beside it.
        second = figures.promise(&turns, forecast);
    }
    (first, second)
}

/// Why a piece that is inside by plain comparison is not accepted, where the
/// shop asks for more.
fn not_sure_enough(scene: &Scene<'_>) -> Option<String> {
    let acceptance = scene.session.acceptance;
    let chance = scene.outlook.advice()?.choice.standing.this_piece;
    if acceptance.accepts(true, chance) {
        return None;
    }
    let chance = chance.unwrap_or(0.0);
    let figures = scene.figures;
    Some(figures.not_sure_enough_sentence(chance, acceptance.confidence))
}
