//! One sentence that says how things stand.

use eframe::egui::{RichText, Ui};

use crate::splice::{Shape, Standing};
use crate::window::theme::{self, size};

use super::Scene;
use super::widgets::muted;

/// Draws the sentence and the line below it.
pub fn show(ui: &mut Ui, scene: &Scene<'_>) {
    let (sentence, below) = sentences(scene);
    theme::card(scene.palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 3.0;
        ui.label(RichText::new(sentence).font(theme::bold(size::SENTENCE)));
        ui.label(muted(scene.palette, below).size(size::BODY));
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
        Standing::Inside => words.stands_inside().to_owned(),
        Standing::InsideSoFar => {
            let unread: Vec<String> = spread
                .unread
                .iter()
                .map(|&station| scene.session.station_name(station))
                .collect();
            words.stands_inside_so_far(unread.join(", "))
        }
        Standing::Outside => figures.shape_sentence(&shape(scene)),
    };
    let mut second = words.spread_and_limit(shown, limit);
    let turns = scene.preview();
    if turns.iter().any(|turn| turn.0 != 0)
        && let Some(after) = scene.outlook.spread_after(scene.session, &turns)
    {
        second.push(' ');
        second.push_str(&words.turns_should_bring(
            figures.turns(&turns),
            figures.with_unit(&figures.predicted(after)),
        ));
    }
    (first, second)
}

/// The shape of the profile over the arms.
fn shape(scene: &Scene<'_>) -> Shape {
    let (means, u): (Vec<Option<f64>>, Vec<f64>) = scene
        .session
        .stations
        .iter()
        .zip(&scene.outlook.means_nm)
        .filter(|(station, _)| station.arm().is_some())
        .map(|(_, mean)| (*mean, scene.outlook.step_u_nm))
        .unzip();
    Shape::of(&scene.outlook.arms_nm, &means, &u)
}
