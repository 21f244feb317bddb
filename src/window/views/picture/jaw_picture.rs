//! The picture in the middle: profile, nuts and jaws over one jaw length.

use eframe::egui::{self, Ui};

use crate::session::Stands;
use crate::window::theme::{self, GAP};

use crate::window::views::Scene;
use crate::window::views::picture::{chart, jaws, plot, test_piece};
use crate::window::views::turning::{nut_care, nuts};
use crate::window::views::visit::stage_records;

/// Least height of the chart with its legend, in a low window and where the
/// picture scrolls.
const CHART: (f32, f32) = (120.0, 150.0);

/// Height of the picture below which its card is drawn tighter.
const LOW: f32 = 380.0;

/// Height of the chart that comes before any picture of the jaws.
const CHART_FIRST: f32 = 200.0;

/// Height of the jaws, least and most; where the picture scrolls, the least.
const JAWS: (f32, f32) = (76.0, 190.0);

/// Share of the room that the first piece, still to be laced, is drawn in with its
/// marks; how it is measured has the rest.
const MARKED: f32 = 0.4;

/// Draws the picture in a room of that height; where it is too low for chart,
/// nuts and jaws, it is drawn taller, with chart and nuts filling the room.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, room: f32) {
    let mut frame = theme::card(scene.palette);
    if room < LOW {
        frame.inner_margin.top = 4;
        frame.inner_margin.bottom = 6;
    }
    let around = frame.total_margin().sum().y;
    frame.show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        // Without readings there is no profile to show and nothing to turn for.
        let unread = scene.outlook.gate.stands == Stands::Unread;
        if scene.session.passes.is_empty() || (unread && scene.practicing.is_none()) {
            if !scene.session.lost.is_empty() {
                return stage_records::nuts_drawn(ui, scene, None, room - around);
            }
            test_piece::marked(ui, scene, (room - around) * MARKED, 1.0);
            test_piece::measured(ui, scene, 1.0);
            return;
        }
        // Whoever goes to the nuts of a piece that passes asks for more ways.
        scene.view.more |= scene.view.nut_wants_focus && scene.asks_for_no_turns();
        let turned = !scene.asks_for_no_turns() || scene.view.more;
        let nuts_height = match turned {
            true => nuts::height(ui, scene, ui.available_width() - plot::AXIS_WIDTH),
            false => 0.0,
        };
        let care = nut_care::is_shown(scene);
        let care_height = if care { nut_care::HEIGHT } else { 0.0 };
        let left = room - around - nuts_height - care_height - GAP;
        // The jaws give way first.
        let mut jaws_height = Some((left - CHART_FIRST).min(left * 0.4).min(JAWS.1));
        jaws_height = jaws_height.filter(|height| *height >= JAWS.0);
        let mut chart_height = left - jaws_height.unwrap_or(0.0);
        if scene.view.one_column && chart_height < CHART.1 {
            jaws_height = Some(JAWS.0);
            // The chart at least is in sight whole.
            let least = CHART.1.min(room - around - GAP).max(CHART.0);
            chart_height = (room - around - nuts_height - GAP).max(least);
        }
        let axis = chart::show(ui, scene, chart_height.max(CHART.0));
        if turned {
            nuts::show(ui, scene, axis, nuts_height);
        }
        if care {
            nut_care::show(ui, scene, axis);
        }
        if let Some(height) = jaws_height {
            jaws::show(ui, scene, axis, height);
        }
        ui.allocate_space(egui::vec2(0.0, 0.0));
    });
}
