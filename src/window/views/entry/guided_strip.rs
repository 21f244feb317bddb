//! The strip of arms above the reading that is taken: which one is due, as seen
//! from the operator's left, and what each has measured so far.

use eframe::egui::{
    Align2, CornerRadius, Pos2, Rect, Role, Sense, StrokeKind, Ui, Vec2, WidgetInfo,
};

use crate::splice::WalkPlace;
use crate::window::state::guided::Guided;
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::hint::Hint;
use crate::window::views::widgets::muted;

/// Distance between the arms.
const GAP: f32 = 4.0;

/// Width of an arm from which its average stands in it.
const WITH_AVERAGE: f32 = 62.0;

/// Draws it, as wide as there is room; an arm that is pressed is measured next.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, guided: &mut Guided) {
    let palette = scene.palette;
    let words = scene.words();
    ui.label(muted(palette, words.from_operators_left()));
    let room = Vec2::new(ui.available_width(), TARGET);
    let (area, _) = ui.allocate_exact_size(room, Sense::hover());
    let due = guided.due(scene.session);
    let left = guided.left(scene.session);
    let stations = scene.session.stations.len();
    let profile = guided.pass.map(|pass| scene.session.sound_profile(pass));
    let step = (area.width() + GAP) / stations.max(1) as f32;
    for station in 0..stations {
        let corner = area.left_top() + Vec2::new(step * station as f32, 0.0);
        let place = Rect::from_min_size(corner, Vec2::new(step - GAP, TARGET));
        let is_due = due.is_some_and(|due| due.station == station);
        let next = left.iter().find(|place| place.station == station).copied();
        let again = WalkPlace { station, repeat: 0 };
        let go_to = due.filter(|_| is_due).or(next).unwrap_or(again);
        let id = ui.scope_id().with(("walk", station));
        let cell = ui.interact(place, id, Sense::click());
        let (fill, ink, edge) = match (is_due, cell.hovered()) {
            (true, _) => (palette.present, palette.on_present, palette.present),
            (false, true) => (palette.button_hover, palette.ink, palette.present),
            (false, false) => (palette.card, palette.ink, palette.edge),
        };
        let edge = theme::stroke(1.0, edge);
        let round = CornerRadius::same(5);
        let painter = ui.painter();
        painter.rect(place, round, fill, edge, StrokeKind::Inside);
        let name = scene.session.station_name(station);
        let mark = if next.is_none() { "✓ " } else { "" };
        let mean = profile.as_ref().and_then(|profile| profile.mean(station));
        // What was measured before is no figure to expect while the next is due.
        let read = guided.read_at(scene.session, station);
        let mean = match next {
            Some(_) if read > 0 => Some(words.guided_read_of(read, guided.rounds)),
            _ => mean.map(|mean| scene.figures.mean(mean)),
        };
        let below = mean.filter(|_| step >= WITH_AVERAGE);
        let up = if below.is_some() { 8.5 } else { 0.0 };
        painter.text(
            place.center() - Vec2::new(0.0, up),
            Align2::CENTER_CENTER,
            format!("{mark}{name}"),
            theme::bold(size::TITLE),
            ink,
        );
        if let Some(mean) = &below {
            painter.text(
                Pos2::new(place.center().x, place.center().y + 11.0),
                Align2::CENTER_CENTER,
                mean,
                theme::regular(size::SMALL),
                ink,
            );
        }
        let label = words.guided_place(&name, go_to.repeat + 1);
        cell.widget_info(|| WidgetInfo::selected(Role::RadioButton, true, is_due, &label));
        if cell.hint(label).clicked() {
            guided.go_to(scene.session, go_to);
            guided.wants_keyboard = true;
        }
    }
}
