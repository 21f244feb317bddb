//! A castle nut as it stands on its plate, and where it stands between its
//! limits.

use std::f32::consts::TAU;

use eframe::egui::{Align2, Painter, Pos2, Rect, Vec2};

use crate::press::{ArmIndex, Notches, NutPosition};
use crate::report::SLOTS;
use crate::window::theme::{self, size};

use crate::window::views::Scene;
use crate::window::views::turning::nut_input::{NOTCH_ANGLE, Round};

/// The nut seen from its rod's end: slots, and the mark painted on nut and rod
/// before the first turn. The nut's travels a slot a notch, the rod's stays.
pub fn nut(painter: &Painter, scene: &Scene<'_>, nut: Round, turn: Notches) {
    let palette = scene.palette;
    let Round {
        centre,
        radius,
        out,
    } = nut;
    let turned_by = out * turn.0 as f32 * NOTCH_ANGLE;
    painter.circle(
        centre,
        radius,
        palette.steel,
        theme::stroke(1.6, palette.steel_edge),
    );
    for slot in 0..SLOTS {
        let angle = slot as f32 * TAU / SLOTS as f32 + turned_by;
        let outward = Vec2::angled(angle);
        painter.line_segment(
            [centre + outward * radius * 0.56, centre + outward * radius],
            theme::stroke((radius * 0.24).max(2.0), palette.steel_edge),
        );
    }
    painter.circle(
        centre,
        radius * 0.40,
        palette.card,
        theme::stroke(1.6, palette.steel_edge),
    );
    let up = Vec2::angled(-TAU / 4.0);
    let on_rod = [centre + up * radius * 0.12, centre + up * radius * 0.38];
    painter.line_segment(on_rod, theme::stroke((radius * 0.13).max(1.5), palette.ink));
    let mark = Vec2::angled(-TAU / 4.0 + turned_by);
    let ink = if turn.0 == 0 {
        palette.muted
    } else {
        palette.preview
    };
    painter.circle_filled(centre + mark * radius * 0.78, (radius * 0.11).max(2.0), ink);
}

/// Where the nut stands between its limits.
pub fn limits_bar(
    painter: &Painter,
    scene: &Scene<'_>,
    arm: ArmIndex,
    rect: Rect,
    from: NutPosition,
    to: NutPosition,
) {
    let palette = scene.palette;
    let Some(limits) = scene
        .session
        .press
        .arms
        .get(arm.0)
        .and_then(|arm| arm.limits)
    else {
        return;
    };
    let span = (limits.most_out.0 - limits.most_in.0).max(1) as f32;
    let y = rect.bottom() - 9.0;
    let (left, right) = (rect.left() + 26.0, rect.right() - 26.0);
    let x = |position: NutPosition| {
        // Past an end the mark stands beyond it, where the number is.
        let share = (position.0 - limits.most_in.0) as f32 / span;
        let beyond = 12.0 / (right - left).max(1.0);
        left + (right - left) * share.clamp(-beyond, 1.0 + beyond)
    };
    painter.line_segment(
        [Pos2::new(left, y), Pos2::new(right, y)],
        theme::stroke(3.0, palette.line),
    );
    for (end, align, position) in [
        (left - 4.0, Align2::RIGHT_CENTER, limits.most_in),
        (right + 4.0, Align2::LEFT_CENTER, limits.most_out),
    ] {
        painter.text(
            Pos2::new(end, y),
            align,
            position,
            theme::regular(size::LEAST),
            palette.muted,
        );
    }
    // Flush with the rod's end.
    if limits.allow(NutPosition(0)) {
        let flush = x(NutPosition(0));
        let tick = [Pos2::new(flush, y - 5.0), Pos2::new(flush, y + 5.0)];
        painter.line_segment(tick, theme::stroke(2.0, palette.muted));
    }
    painter.circle_filled(Pos2::new(x(from), y), 4.0, palette.present);
    if from != to && !limits.allow(to) {
        let at = Pos2::new(x(to), y);
        painter.circle_filled(at, 8.0, palette.caution_back);
        for side in [-1.0, 1.0] {
            let arm = Vec2::new(5.0, 5.0 * side);
            painter.line_segment([at - arm, at + arm], theme::stroke(2.5, palette.caution));
        }
    } else if from != to {
        painter.circle(
            Pos2::new(x(to), y),
            4.5,
            palette.card,
            theme::stroke(2.0, palette.preview),
        );
    }
}
