//! A box to tick with its words.

use eframe::egui::{
    Align2, CornerRadius, Pos2, Rect, Response, Role, Sense, StrokeKind, Ui, Vec2, WidgetInfo,
};

use crate::session::MarkKind;
use crate::window::theme::{self, Palette, TARGET, size};

/// Side of a box to tick.
const BOX: f32 = 26.0;

/// Where the words of a step begin.
pub const INDENT: f32 = BOX + 18.0;

/// A box to tick with its words; answers its response.
pub fn tick_box(
    ui: &mut Ui,
    palette: &Palette,
    text: &str,
    kind: Option<MarkKind>,
    width: f32,
) -> Response {
    let galley = ui.painter().layout(
        text.to_owned(),
        theme::bold(size::BODY),
        palette.ink,
        width - INDENT - 4.0,
    );
    let height = TARGET.max(galley.size().y + 12.0);
    let (rect, response) = ui.allocate_exact_size(Vec2::new(width, height), Sense::click());
    let done = kind == Some(MarkKind::Done);
    response.widget_info(|| WidgetInfo::selected(Role::CheckBox, true, done, text));
    let painter = ui.painter();
    if response.hovered() {
        let edge = theme::stroke(1.0, palette.present);
        let round = CornerRadius::same(6);
        painter.rect(rect, round, palette.button, edge, StrokeKind::Inside);
    }
    let square = Rect::from_center_size(
        Pos2::new(rect.left() + 8.0 + BOX / 2.0, rect.center().y),
        Vec2::splat(BOX),
    );
    let (fill, ink, mark) = match kind {
        Some(MarkKind::Done) => (palette.good_back, palette.good, "✓"),
        Some(MarkKind::Skipped) => (palette.button, palette.muted, "–"),
        None => (palette.field, palette.muted, ""),
    };
    painter.rect(
        square,
        CornerRadius::same(5),
        fill,
        theme::stroke(2.0, ink),
        StrokeKind::Inside,
    );
    painter.text(
        square.center(),
        Align2::CENTER_CENTER,
        mark,
        theme::bold(19.0),
        ink,
    );
    let top = rect.center().y - galley.size().y / 2.0;
    painter.galley(Pos2::new(rect.left() + INDENT, top), galley, palette.ink);
    response
}
