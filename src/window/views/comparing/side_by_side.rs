//! All passes of the visit side by side: profiles, what was foretold against
//! what was measured, spreads, and any two compared.

use eframe::egui::{self, Key, Modifiers, RichText, ScrollArea, Ui, Vec2};

use crate::window::action::Action;
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::comparing::{side_chart, side_compare, side_table, side_trace};
use crate::window::views::hint::Hint;
use crate::window::views::widgets::{button, muted};

/// Height below which the chart needs all of the width; what fades at its edge.
const LOW: f32 = 440.0;
const FADE: f32 = 20.0;

/// Share of the width that the charts take.
const CHARTS: f32 = 0.6;

/// Draws the view in all the room there is.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    // A list that is open takes the key for itself.
    let leave = !egui::Popup::is_any_open(ui.ctx())
        && scene.view.dialog.is_none()
        && !ui.ctx().text_edit_focused()
        && ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape));
    if leave {
        scene.ask(Action::Close);
        return;
    }
    theme::card(scene.palette).show(ui, |ui| {
        ui.set_min_size(ui.available_size());
        heading(ui, scene);
        if scene.session.passes.is_empty() {
            ui.label(scene.words().nothing_laced());
            return;
        }
        let lone = scene.session.passes.len() == 1 && !corrected(scene);
        if scene.view.one_column || (ui.available_height() < LOW && !lone) {
            one_column(ui, scene);
        } else if lone {
            alone(ui, scene);
        } else {
            columns(ui, scene);
        }
    });
}

/// Whether there is anything to tell of one pass beside its charts.
fn corrected(scene: &Scene<'_>) -> bool {
    let mut passes = scene.session.passes.iter();
    passes.any(|pass| !pass.corrections.is_empty())
}

/// One pass has nothing beside it: its chart has the room, and a line says what
/// comes with the next one.
fn alone(ui: &mut Ui, scene: &mut Scene<'_>) {
    ui.label(muted(scene.palette, scene.words().side_alone()).size(size::BODY));
    charts(ui, scene, ui.available_height());
}

/// Share of the height that the table takes at most.
const TABLE: f32 = 0.46;

/// The chart, and below it on the same axis the table, which scrolls where it is
/// long.
fn charts(ui: &mut Ui, scene: &mut Scene<'_>, room: f32) {
    ui.spacing_mut().item_spacing.y = 4.0;
    let below = side_table::height(scene).min(room * TABLE);
    let axis = side_chart::show(ui, scene, (room - below - 8.0).max(80.0), None);
    if let Some(axis) = axis {
        side_table::show(ui, scene, axis, below);
    }
}

/// Charts left, figures right.
fn columns(ui: &mut Ui, scene: &mut Scene<'_>) {
    let room = ui.available_size();
    let down = egui::Layout::top_down(egui::Align::Min);
    ui.with_layout(egui::Layout::left_to_right(egui::Align::Min), |ui| {
        ui.spacing_mut().item_spacing.x = 14.0;
        let left = Vec2::new((room.x * CHARTS).round(), room.y);
        ui.allocate_ui_with_layout(left, down, |ui| {
            ui.set_min_size(left);
            charts(ui, scene, room.y);
        });
        ScrollArea::vertical()
            .id_salt("side")
            .auto_shrink(false)
            .show(ui, |ui| ui.with_layout(down, |ui| in_figures(ui, scene)));
    });
}

/// Charts above, figures below, all of it scrolled.
fn one_column(ui: &mut Ui, scene: &mut Scene<'_>) {
    let height = ui.available_height();
    ui.spacing_mut().scroll = theme::lasting_scroll();
    ScrollArea::vertical()
        .id_salt("side")
        .auto_shrink(false)
        .show(ui, |ui| {
            let table = side_table::height(scene);
            // What fades at the lower edge is below them.
            let room = (height - FADE).max(180.0 + table).max(table / TABLE);
            charts(ui, scene, room);
            in_figures(ui, scene);
        });
}

/// Comparison and corrections.
fn in_figures(ui: &mut Ui, scene: &mut Scene<'_>) {
    // Room for the scroll bar.
    ui.set_max_width(ui.available_width() - 12.0);
    ui.spacing_mut().item_spacing = Vec2::new(8.0, 5.0);
    side_compare::show(ui, scene);
    side_trace::show(ui, scene);
}

fn heading(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let narrow = scene.view.one_column;
    let laced = scene.session.passes.len();
    let passes = scene.session.passes.iter();
    let read = passes.filter(|pass| pass.has_readings()).count();
    let pieces = muted(scene.palette, words.test_pieces(laced, read));
    ui.horizontal(|ui| {
        ui.set_min_height(TARGET);
        if !narrow {
            let title = RichText::new(words.side_title()).font(theme::bold(size::SENTENCE));
            ui.label(title);
            ui.label(pieces.clone());
        }
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            if button(ui, words.side_back()).clicked() {
                scene.ask(Action::Close);
            }
            if let Some(side) = &mut scene.view.side {
                ui.checkbox(&mut side.level, words.side_level())
                    .hint(words.side_level_hint());
            }
        });
    });
    if narrow {
        ui.label(pieces);
    }
}
