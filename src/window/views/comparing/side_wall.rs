//! The passes side by side on the whole screen, to be read across a shop.

use eframe::egui::{Align, Color32, Key, Layout, Modifiers, Ui, Vec2};

use crate::splice::{Spread, Verdict};
use crate::window::action::Action;
use crate::window::theme;

use crate::window::views::Scene;
use crate::window::views::comparing::side_chart;
use crate::window::views::picture::legend::Legend;
use crate::window::views::wall;

/// Draws the view in all the room there is.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let free = scene.view.dialog.is_none();
    if free && ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape)) {
        scene.ask(Action::Close);
    }
    let font = wall::font(ui);
    let bold = theme::bold(font);
    ui.spacing_mut().item_spacing = Vec2::new(10.0, 4.0);
    ui.horizontal(|ui| {
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if wall::button(ui, font, "✕", words.crew_leave_view(), true) {
                scene.ask(Action::Close);
            }
            let left = ui.max_rect().left();
            let keys = side_chart::keys(scene, true);
            let width = ui.available_width();
            let legend = Legend::of_wall(ui, scene.palette, font, width, keys);
            ui.with_layout(Layout::top_down(Align::Min), |ui| legend.show(ui, left));
        });
    });
    let (said, ink) = caption(scene);
    let turned = turned(scene);
    let small = theme::bold(font * TURNED);
    let width = ui.available_width();
    let notes = &scene.session.notes;
    let press = [scene.session.press.name.as_str(), notes.when.as_str()];
    let press = press.map(str::trim).join(" · ");
    let lines = [
        (press, small.clone(), scene.palette.ink),
        (turned, small, scene.palette.preview),
        (said, bold, ink),
    ];
    let lines = lines.map(|(text, font, ink)| ui.painter().layout(text, font, ink, width));
    let below: f32 = lines.iter().map(|line| line.size().y + 4.0).sum();
    side_chart::show(
        ui,
        scene,
        (ui.available_height() - below).max(80.0),
        Some(font),
    );
    for line in lines {
        ui.label(line);
    }
}

/// Size of what was turned, in sizes of the font.
const TURNED: f32 = 0.6;

/// What was turned between the passes.
pub fn turned(scene: &Scene<'_>) -> String {
    let passes = 1..scene.session.passes.len();
    let turns = passes.map(|pass| {
        let turns = scene.figures.turns(&scene.session.turns_before(pass));
        scene.words().side_turned_before(pass + 1, turns)
    });
    let turns: Vec<String> = turns.collect();
    match turns.is_empty() {
        true => String::new(),
        false => scene.words().side_turned(turns.join("; ")),
    }
}

/// The spread as found and as left, in one line.
pub fn caption(scene: &Scene<'_>) -> (String, Color32) {
    let (words, palette, figures) = (scene.words(), scene.palette, scene.figures);
    let tolerance = scene.session.tolerance.length();
    let passes = 0..scene.session.passes.len();
    let spreads = passes.filter_map(|pass| scene.session.spread_of(pass));
    let spreads: Vec<Spread> = spreads.collect();
    let shown = |spread: &Spread| figures.spread(spread, tolerance);
    let limit = figures.limit(tolerance);
    match &spreads[..] {
        [found, .., left] => {
            let (verdict, ink) = match left.value <= tolerance.into() {
                true => (Verdict::Inside, palette.good),
                false => (Verdict::Outside, palette.outside),
            };
            let verdict = words.verdict(verdict);
            (
                words.side_from_to(shown(found), shown(left), verdict, limit),
                ink,
            )
        }
        [only] => (words.crew_spread(shown(only), limit), palette.ink),
        [] => (words.crew_unread().to_owned(), palette.ink),
    }
}
