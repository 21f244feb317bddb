//! A castle nut as one sees it from the end of its rod, and the way the wrench
//! goes.

use std::f32::consts::TAU;

use eframe::egui::{CornerRadius, Painter, Pos2, Rect, Shape, StrokeKind, Vec2};

use crate::press::WrenchWay;
use crate::window::theme::{self, Palette};

/// Slots drawn in the nut.
const SLOTS: usize = 6;

/// Room the picture needs around the nut's centre, in its radii.
pub const REACH: f32 = 1.75;

/// Where the wrench starts, from straight up, and how far the arrow takes it,
/// in turns.
const START_AND_SWEEP: (f32, f32) = (1.0 / 6.0, 0.42);

/// Draws the nut, and wrench and arrow where it is turned.
pub fn show(
    painter: &Painter,
    palette: &Palette,
    centre: Pos2,
    radius: f32,
    way: Option<WrenchWay>,
) {
    if let Some(way) = way {
        wrench(painter, palette, centre, radius, way);
    }
    let line = theme::stroke((radius * 0.03).max(1.0), palette.steel_edge);
    // Castles, each parted by the slot that the pin passes through.
    for slot in 0..SLOTS {
        let outward = Vec2::angled(TAU * slot as f32 / SLOTS as f32 - TAU / 4.0);
        let part = |half: f32, from: f32, to: f32| {
            let aside = outward.rot90() * radius * half;
            let near = centre + outward * radius * from;
            let far = centre + outward * radius * to;
            vec![near - aside, far - aside, far + aside, near + aside]
        };
        let castle = part(0.31, 0.70, 1.0);
        painter.add(Shape::convex_polygon(castle, palette.steel, line));
        let slot = part(0.09, 0.72, 1.02);
        painter.add(Shape::convex_polygon(slot, palette.card, line));
    }
    painter.circle(centre, radius * 0.75, palette.steel, line);
    painter.circle(centre, radius * 0.35, palette.steel_edge, line);
    // The mark that was painted before the first turn.
    let mark = centre - Vec2::Y * radius * 0.55;
    painter.circle_filled(mark, (radius * 0.085).max(2.0), palette.ink);
}

/// The wrench where it starts, and an arrow the way it goes.
fn wrench(painter: &Painter, palette: &Palette, centre: Pos2, radius: f32, way: WrenchWay) {
    // On the screen angles grow clockwise.
    let side = match way {
        WrenchWay::Clockwise => 1.0,
        WrenchWay::Counterclockwise => -1.0,
    };
    let (start, sweep) = START_AND_SWEEP;
    let angle = |share: f32| TAU * (-0.25 - side * start + side * sweep * share);
    let handle = Vec2::angled(angle(0.0));
    painter.line_segment(
        [
            centre + handle * radius * 0.9,
            centre + handle * radius * REACH,
        ],
        theme::stroke(radius * 0.2, palette.steel_edge),
    );
    let at = |share: f32, out: f32| centre + Vec2::angled(angle(share)) * radius * out;
    let arc: Vec<Pos2> = (0..=32)
        .map(|step| at(0.08 + 0.80 * step as f32 / 32.0, 1.35))
        .collect();
    let ink = palette.preview;
    painter.add(Shape::line(arc, theme::stroke(radius * 0.11, ink)));
    let head = vec![at(1.0, 1.35), at(0.84, 1.16), at(0.84, 1.54)];
    painter.add(Shape::convex_polygon(head, ink, theme::stroke(0.0, ink)));
}

/// A frame behind the nut at hand.
pub fn plate(painter: &Painter, palette: &Palette, rect: Rect) {
    let edge = theme::stroke(2.0, palette.line);
    painter.rect(
        rect,
        CornerRadius::same(12),
        palette.card,
        edge,
        StrokeKind::Inside,
    );
}
