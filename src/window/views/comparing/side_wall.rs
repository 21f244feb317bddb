//! The passes side by side on the whole screen, to be read across a shop.

use eframe::egui::{Align, Key, Layout, Modifiers, RichText, Ui, Vec2};

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
    let line = font * 1.3;
    side_chart::show(ui, scene, ui.available_height() - line, Some(font));
    ui.label(RichText::new(caption(scene)).font(bold));
}

/// The spread as found and as left, in one line.
fn caption(scene: &Scene<'_>) -> String {
    let words = scene.words();
    let figures = scene.figures;
    let tolerance = scene.session.tolerance.length();
    let passes = 0..scene.session.passes.len();
    let spreads = passes.filter_map(|pass| scene.session.spread_of(pass));
    let mut spreads = spreads.map(|spread| figures.spread(&spread, tolerance));
    let limit = figures.limit(tolerance);
    match (spreads.next(), spreads.next_back()) {
        (Some(found), Some(left)) => words.side_from_to(found, left, limit),
        (Some(only), None) => words.crew_spread(only, limit),
        (None, _) => words.crew_unread().to_owned(),
    }
}
