//! The picture in the middle: profile, nuts and jaws over one jaw length.

use eframe::egui::{self, Ui};

use crate::window::theme::{self, GAP};

use crate::window::views::Scene;
use crate::window::views::picture::{chart, jaws, plot};
use crate::window::views::turning::{nut_care, nuts};

/// Least height of the chart, in a low window and where the picture scrolls.
const CHART: (f32, f32) = (96.0, 128.0);

/// Height of the jaws where the picture scrolls.
const JAWS: f32 = 84.0;

/// Draws the picture in a room of that height; where it is too low for chart,
/// nuts and jaws, it is drawn taller, with chart and nuts filling the room.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, room: f32) {
    let frame = theme::card(scene.palette);
    let around = frame.total_margin().sum().y;
    frame.show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        let room = room - around;
        let nuts_height = nuts::height(scene, ui.available_width() - plot::AXIS_WIDTH);
        let below_nuts = nuts_height + nut_care::HEIGHT;
        let mut jaws_height = jaws::height(room - below_nuts);
        let between = 3.0 * GAP;
        let mut chart_height = room - below_nuts - jaws_height - between;
        if scene.view.one_column && chart_height < CHART.1 {
            jaws_height = JAWS;
            // The chart at least is in sight whole.
            let least = CHART.1.min(room - between).max(CHART.0);
            chart_height = (room - nuts_height - between).max(least);
        }
        let axis = chart::show(ui, scene, chart_height.max(CHART.0));
        nuts::show(ui, scene, axis, nuts_height);
        nut_care::show(ui, scene, axis);
        jaws::show(ui, scene, axis, jaws_height);
        ui.allocate_space(egui::vec2(0.0, 0.0));
    });
}
