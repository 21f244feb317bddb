//! A box to tick with its words.

use eframe::egui::{
    Align2, Color32, CornerRadius, Galley, Painter, Pos2, Rect, Response, Role, Sense, StrokeKind,
    Ui, Vec2, WidgetInfo,
    text::{LayoutJob, TextFormat},
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
    let row = TickRow {
        text,
        kind,
        ..TickRow::default()
    };
    row.show(ui, palette, width)
}

/// A box to tick with its words, and what is said of its mark.
#[derive(Default)]
pub struct TickRow<'a> {
    /// What it asks for.
    pub text: &'a str,
    /// What to beware of while it is done, below the words.
    pub beware: &'a str,
    /// How it is marked.
    pub kind: Option<MarkKind>,
    /// Whether it cannot be ticked yet; its words are in full ink all the same.
    pub locked: bool,
    /// What to watch for, as readable as the words; and what stands in its place
    /// once it is marked. The place is kept, so that a tick moves no box under the
    /// pointer.
    pub watch: &'a str,
    /// Whether both are as large as is read at arm's length.
    pub large: bool,
    pub marked: Option<(String, Color32)>,
}

impl TickRow<'_> {
    /// Draws it.
    pub fn show(self, ui: &mut Ui, palette: &Palette, width: f32) -> Response {
        let Self {
            text,
            beware,
            kind,
            locked,
            watch,
            large,
            marked,
        } = self;
        let (words_size, watch_size) = match large {
            true => (size::SENTENCE, size::TITLE),
            false => (size::BODY, size::BODY),
        };
        let room = width - INDENT - 4.0;
        let part = TextFormat::simple;
        let mut words = LayoutJob::default();
        words.wrap.max_width = room;
        let bold = theme::bold(words_size);
        words.append(text, 0.0, part(bold, palette.ink));
        if !beware.is_empty() {
            let small = theme::regular(size::LEAST);
            let beware = format!("\n{beware}");
            words.append(&beware, 0.0, part(small, palette.caution));
        }
        let words = ui.painter().layout_job(words);
        let body = || theme::regular(watch_size);
        let lay = |text: String, ink| ui.painter().layout(text, body(), ink, room);
        let said = watch;
        let watch = lay(said.to_owned(), palette.ink);
        let high = |galley: &Galley| match galley.text().is_empty() {
            true => 0.0,
            false => galley.size().y,
        };
        let kept = high(&watch);
        let below = marked.map_or(watch, |(text, ink)| lay(text, ink));
        let height = TARGET.max(words.size().y + kept.max(high(&below)) + 8.0);
        let sense = if locked {
            Sense::hover()
        } else {
            Sense::click()
        };
        let (rect, response) = ui.allocate_exact_size(Vec2::new(width, height), sense);
        let done = kind == Some(MarkKind::Done);
        response.widget_info(|| WidgetInfo::selected(Role::CheckBox, !locked, done, text));
        ui.ctx()
            .accesskit_node_builder(response.id, |node| node.set_description(said));
        let painter = ui.painter();
        if response.hovered() && !locked {
            let edge = theme::stroke(1.0, palette.present);
            let round = CornerRadius::same(6);
            painter.rect(rect, round, palette.button, edge, StrokeKind::Inside);
        }
        let square = Rect::from_center_size(
            Pos2::new(rect.left() + 8.0 + BOX / 2.0, rect.center().y),
            Vec2::splat(BOX),
        );
        box_of(painter, palette, square, kind, locked);
        let left = rect.left() + INDENT;
        let top = rect.center().y - (words.size().y + high(&below)) / 2.0;
        painter.galley(Pos2::new(left, top + words.size().y), below, palette.ink);
        painter.galley(Pos2::new(left, top), words, palette.ink);
        response
    }
}

/// The box itself, with the mark in it.
pub fn box_of(
    painter: &Painter,
    palette: &Palette,
    square: Rect,
    kind: Option<MarkKind>,
    locked: bool,
) {
    let (fill, ink, mark) = match kind {
        Some(MarkKind::Done) => (palette.good_back, palette.good, "✓"),
        Some(MarkKind::Skipped) => (palette.button, palette.muted, "–"),
        None if locked => (palette.button, palette.line, ""),
        None => (palette.field, palette.edge, ""),
    };
    let edge = theme::stroke(2.0, ink);
    painter.rect(
        square,
        CornerRadius::same(5),
        fill,
        edge,
        StrokeKind::Inside,
    );
    let font = theme::bold(0.73 * square.height());
    painter.text(square.center(), Align2::CENTER_CENTER, mark, font, ink);
    if kind.is_none() && locked {
        waits(painter, palette, square);
    }
}

/// Hatches a box that cannot be ticked yet. No lock: beside a step about one it
/// would read as done.
fn waits(painter: &Painter, palette: &Palette, square: Rect) {
    let line = theme::stroke(1.5, palette.line);
    let (from, to) = (square.shrink(4.0).min, square.shrink(4.0).max);
    for share in [0.34, 0.67, 1.0] {
        let reach = share * (to - from);
        let ends = [
            from + Vec2::new(0.0, reach.y),
            from + Vec2::new(reach.x, 0.0),
        ];
        painter.line_segment(ends, line);
    }
}
