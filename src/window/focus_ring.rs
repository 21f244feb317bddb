//! The ring around whatever has the keyboard: two colours, of which one stands
//! out from any ground.

use eframe::egui::{self, CornerRadius, StrokeKind};

use super::theme::{self, Palette};

/// Width of either of its lines, in points.
pub const LINE: f32 = 2.0;

/// Draws the ring outside what has the keyboard, in its own layer.
pub fn show(ctx: &egui::Context, palette: &Palette) {
    // To ask for a widget in the frame of a click beside it takes the keyboard
    // from it: what a click has just given it to would lose it again.
    if ctx.input(|input| input.pointer.any_click() || input.pointer.any_pressed()) {
        ctx.request_repaint();
        return;
    }
    let focused = ctx.memory(|memory| memory.focused());
    let Some(seen) = focused.and_then(|id| ctx.read_response(id)) else {
        return;
    };
    let inside = seen.rect.intersect(seen.interact_rect);
    if !inside.is_positive() {
        return;
    }
    let screen = ctx.content_rect();
    let painter = ctx.layer_painter(seen.layer_id).with_clip_rect(screen);
    for (outside, colour) in [(LINE, palette.card), (2.0 * LINE, palette.present)] {
        // At the window's edge it stays in sight.
        let ring = inside.expand(outside).intersect(screen);
        let round = CornerRadius::same(7);
        let line = theme::stroke(LINE, colour);
        painter.rect_stroke(ring, round, line, StrokeKind::Inside);
    }
}
