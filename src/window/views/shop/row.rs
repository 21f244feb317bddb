//! A row of two lines that is pressed as a whole.

use eframe::egui::{CornerRadius, Pos2, Response, Role, Sense, StrokeKind, Ui, Vec2, WidgetInfo};

use crate::window::theme::{self, Palette, TARGET, size};

/// Room around the text.
const AROUND: Vec2 = Vec2::new(10.0, 5.0);

/// Draws a row over the whole width; what stands out is marked by ground and
/// mark.
pub fn row(
    ui: &mut Ui,
    palette: &Palette,
    first: &str,
    second: &str,
    stands_out: bool,
) -> Response {
    let width = ui.available_width();
    let painter = ui.painter();
    let inner = width - 2.0 * AROUND.x;
    let shown = match stands_out {
        true => format!("⚠ {first}"),
        false => first.to_owned(),
    };
    let upper = painter.layout(shown, theme::bold(size::BODY), palette.ink, inner);
    let small = theme::regular(size::SMALL);
    let lower = painter.layout(second.to_owned(), small, palette.ink, inner);
    let height = upper.size().y + lower.size().y;
    let room = Vec2::new(width, TARGET.max(height + 2.0 * AROUND.y));
    let (rect, response) = ui.allocate_exact_size(room, Sense::click());
    let name = format!("{first}. {second}");
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, &name));
    let (fill, edge) = match (response.hovered() || response.has_focus(), stands_out) {
        (true, _) => (palette.button_hover, theme::stroke(2.0, palette.present)),
        (false, true) => (palette.caution_back, theme::stroke(1.5, palette.caution)),
        (false, false) => (palette.card, theme::stroke(1.0, palette.line)),
    };
    let painter = ui.painter();
    painter.rect(rect, CornerRadius::same(5), fill, edge, StrokeKind::Inside);
    let at = Pos2::new(rect.left() + AROUND.x, rect.center().y - height / 2.0);
    let below = at + Vec2::new(0.0, upper.size().y);
    painter.galley(at, upper, palette.ink);
    painter.galley(below, lower, palette.ink);
    response
}
