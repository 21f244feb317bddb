//! The picture in the middle: profile, nuts and jaws over one jaw length.

use eframe::egui::{self, Ui};

use crate::window::theme::{self, GAP};

use super::{Scene, chart, jaws, nut_care, nuts};

/// Maps a place along the jaw to the screen; handed from the chart to the
/// nuts and the jaws, so that all three stand on the same axis.
#[derive(Debug, Clone, Copy)]
pub struct JawAxis {
    /// Left edge on the screen.
    pub left: f32,
    /// Right edge on the screen.
    pub right: f32,
    /// Jaw length in nanometres.
    pub length_nm: f64,
}

impl JawAxis {
    /// Where a place along the jaw (nm from its left end) is drawn.
    pub fn x(&self, position_nm: f64) -> f32 {
        let share = position_nm / self.length_nm.max(1.0);
        self.left + (self.right - self.left) * share as f32
    }

    /// Screen points per nanometre along the jaw.
    pub fn points_per_nm(&self) -> f64 {
        f64::from(self.right - self.left) / self.length_nm.max(1.0)
    }
}

/// Draws the picture in all the room there is.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    theme::card(scene.palette).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        let room = ui.available_size();
        let nuts_height = nuts::height(scene, room.x - chart::AXIS_WIDTH);
        let jaws_height = jaws::height(room.y - nuts_height - nut_care::HEIGHT);
        let taken = nuts_height + nut_care::HEIGHT + jaws_height;
        let chart_height = (room.y - taken - 3.0 * GAP).max(96.0);
        let axis = chart::show(ui, scene, chart_height);
        nuts::show(ui, scene, axis, nuts_height);
        nut_care::show(ui, scene, axis);
        jaws::show(ui, scene, axis, jaws_height);
        ui.allocate_space(egui::vec2(0.0, 0.0));
    });
}
