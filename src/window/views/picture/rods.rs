//! The nuts on their rods from the side: how far in from flush each stands, and
//! its cotter pin where that is in. Distances are drawn, not measured.

use eframe::egui::{
    Align2, CornerRadius, Pos2, Rect, Role, Sense, Shape, StrokeKind, Ui, Vec2, WidgetInfo,
};

use crate::press::NutPosition;
use crate::window::theme::{self, size};

use crate::window::views::Scene;
use crate::window::views::picture::jaw_axis::JawAxis;

/// Least height of the picture, at which all has its least size; a nut, and a
/// notch at most.
const HEIGHT: f32 = 130.0;
const NUT: Vec2 = Vec2::new(46.0, 26.0);
const NOTCH: f32 = 6.0;

/// Draws the rods; `told` says what they show. Pins are drawn where they go in,
/// dashed until they are counted.
pub fn show(
    ui: &mut Ui,
    scene: &Scene<'_>,
    (nuts, pins): (&[NutPosition], Option<bool>),
    height: f32,
    told: &str,
) {
    let palette = scene.palette;
    let arms = nuts.len().max(1) as f32;
    let times = (height / HEIGHT).clamp(1.0, (ui.available_width() / arms / 64.0).max(1.0));
    let (nut_size, most) = (times * NUT, times * NOTCH);
    let room = Vec2::new(ui.available_width(), HEIGHT * times);
    let (rect, response) = ui.allocate_exact_size(room, Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, told));
    let painter = ui.painter_at(rect);
    let press = &scene.session.press;
    let axis = JawAxis {
        left: rect.left() + 30.0,
        right: rect.right() - 30.0,
        length_nm: press.jaw_length.length().nm_f64(),
    };
    let jaw = Rect::from_min_max(Pos2::new(rect.left(), rect.bottom() - 30.0), rect.max)
        .with_max_y(rect.bottom() - 12.0);
    let flush = rect.top() + 44.0 + 4.0 * times;
    let steel = |rect: Rect| {
        let edge = theme::stroke(1.5, palette.steel_edge);
        let round = CornerRadius::same(2);
        painter.rect(rect, round, palette.steel, edge, StrokeKind::Inside);
    };
    steel(jaw);
    let farthest = nuts.iter().map(|nut| nut.0.unsigned_abs()).max();
    let low = jaw.top() - nut_size.y - 4.0 - flush;
    let notch = (low / farthest.unwrap_or(0).max(1) as f32).min(most);
    let across = [rect.left(), rect.right()].map(|x| Pos2::new(x, flush));
    let line = theme::stroke(1.5, palette.band_edge);
    // Each nut's pin stands by itself: no two of them run into one line.
    let places: Vec<f32> = press
        .indexed_arms()
        .map(|(_, at)| axis.x(at.position.length().nm_f64()))
        .collect();
    let apart = places.iter().zip(places.iter().skip(1));
    let apart = apart.map(|(left, right)| 0.4 * (right - left));
    let reach = apart.fold(0.7 * nut_size.x, f32::min);
    let nut_size = Vec2::new(nut_size.x.min(1.7 * reach), nut_size.y);
    for ((arm, at), nut) in press.indexed_arms().zip(nuts) {
        let x = axis.x(at.position.length().nm_f64());
        // In is down, towards the jaw; further out than its rod none is drawn.
        let top = flush + (-nut.0 as f32 * notch).max(-10.0);
        let half = 9.0 * times;
        steel(Rect::from_x_y_ranges(
            x - half..=x + half,
            flush..=jaw.top(),
        ));
        let bold = theme::bold(size::TITLE);
        let above = Pos2::new(x, rect.top() + 1.0);
        painter.text(
            above,
            Align2::CENTER_TOP,
            arm,
            bold.clone(),
            palette.present,
        );
        if scene.session.lost.contains(&arm) {
            // It is drawn nowhere: nobody knows where it stands.
            let middle = Pos2::new(x + half + 10.0, (flush + jaw.top()) / 2.0);
            painter.text(middle, Align2::LEFT_CENTER, "?", bold, palette.caution);
            continue;
        }
        let body = Rect::from_min_size(Pos2::new(x - nut_size.x / 2.0, top), nut_size);
        steel(body);
        for slot in [-0.25, 0.25] {
            let slot = Pos2::new(x + slot * nut_size.x, top + 5.0 * times);
            let slot = Rect::from_center_size(slot, times * Vec2::new(6.0, 10.0));
            painter.rect_filled(slot, 0.0, palette.card);
        }
        if let Some(counted) = pins {
            let pin = theme::stroke(3.5, palette.present);
            let ends = [-reach, reach].map(|side| Pos2::new(x + side, top + 6.0 * times));
            match counted {
                true => {
                    painter.line_segment(ends, pin);
                    painter.circle(ends[0], 4.5 * times, palette.card, pin);
                }
                false => painter.extend(Shape::dashed_line(&ends, pin, 4.0, 5.0)),
            }
        }
        let beside = Pos2::new(body.right() + 5.0, body.bottom() - 6.0);
        let small = theme::regular(size::SMALL);
        painter.text(beside, Align2::LEFT_CENTER, nut, small, palette.ink);
    }
    painter.extend(Shape::dashed_line(&across, line, 6.0, 4.0));
    painter.text(
        Pos2::new(rect.left(), flush - 2.0),
        Align2::LEFT_BOTTOM,
        scene.words().flush_line(),
        theme::regular(size::SMALL),
        palette.band_edge,
    );
}
