//! Tables of the shop: headings over columns, rows that are pressed as a whole,
//! and rows that hold widgets.

use std::sync::Arc;

use eframe::egui::{
    Align, Align2, Color32, CornerRadius, Galley, Layout, Pos2, Rect, Response, Role, Sense,
    StrokeKind, TextWrapMode, Ui, Vec2, WidgetInfo,
};

use crate::window::theme::{self, Palette, size};

/// Room around what stands in a row, and between columns.
const AROUND: Vec2 = Vec2::new(12.0, 5.0);
const BETWEEN: f32 = 12.0;

/// Width of the mark at the edge of a row that stands out.
const MARK: f32 = 6.0;

/// A text of a cell.
pub struct Text<'a> {
    /// What it says.
    pub text: &'a str,
    /// Whether it is bold and of body size.
    pub bold: bool,
    /// Its colour.
    pub ink: Color32,
}

impl<'a> Text<'a> {
    /// Small text.
    pub fn small(text: &'a str, ink: Color32) -> Self {
        let bold = false;
        Self { text, bold, ink }
    }

    /// Bold text.
    pub fn bold(text: &'a str, ink: Color32) -> Self {
        let bold = true;
        Self { text, bold, ink }
    }
}

/// Left edge and width of each column; those without a share have none.
fn columns(left: f32, width: f32, shares: &[f32]) -> Vec<(f32, f32)> {
    let all: f32 = shares.iter().sum();
    let shown = shares.iter().filter(|share| **share > 0.0).count();
    let inner = width - 2.0 * AROUND.x - BETWEEN * shown.saturating_sub(1) as f32;
    let mut left = left + AROUND.x;
    let place = |share: &f32| {
        let wide = inner * share / all.max(f32::MIN_POSITIVE);
        let at = (left, wide);
        left += if wide > 0.0 { wide + BETWEEN } else { 0.0 };
        at
    };
    shares.iter().map(place).collect()
}

/// Names over columns, between bars where they stand in one text.
pub fn headings(ui: &mut Ui, palette: &Palette, shares: &[f32], names: &str) {
    let width = ui.available_width();
    let (left, top) = (ui.cursor().left(), ui.cursor().top());
    let at = columns(left, width, shares)
        .into_iter()
        .zip(names.split('|'));
    let laid = at.filter(|((_, wide), _)| *wide > 0.0);
    let laid: Vec<(Arc<Galley>, f32)> = laid
        .map(|((at, wide), text)| {
            let font = theme::regular(size::SMALL);
            let painter = ui.painter();
            let text = painter.layout(text.to_owned(), font, palette.muted, wide);
            (text, at)
        })
        .collect();
    let height = laid.iter().map(|(text, _)| text.size().y);
    let height = height.fold(0.0, f32::max);
    let room = Vec2::new(width, height);
    let (_, response) = ui.allocate_exact_size(room, Sense::hover());
    let said = names.replace('|', ", ");
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, &said));
    for (text, at) in laid {
        let at = Pos2::new(at, top + height - text.size().y);
        ui.painter().galley(at, text, palette.muted);
    }
}

/// A row that is pressed as a whole, at least so tall; what stands out has a
/// thick edge on its left. Answers where its cells are.
pub fn row(
    ui: &mut Ui,
    palette: &Palette,
    shares: &[f32],
    cells: &[Vec<Text<'_>>],
    (name, tall, stands_out): (&str, f32, bool),
) -> (Response, Vec<Rect>) {
    let width = ui.available_width();
    let places = columns(ui.cursor().left(), width, shares);
    let painter = ui.painter();
    let stacks = places.iter().zip(cells).map(|((_, wide), cell)| {
        let texts = cell.iter().filter(|text| !text.text.is_empty());
        let laid = texts.filter(|_| *wide > 0.0).map(|text| {
            let font = match text.bold {
                true => theme::bold(size::BODY),
                false => theme::regular(size::SMALL),
            };
            painter.layout(text.text.to_owned(), font, text.ink, *wide)
        });
        laid.collect()
    });
    let stacks: Vec<Vec<Arc<Galley>>> = stacks.collect();
    let high = |stack: &Vec<Arc<Galley>>| stack.iter().map(|text| text.size().y).sum::<f32>();
    let height = stacks
        .iter()
        .map(high)
        .fold(tall - 2.0 * AROUND.y, f32::max)
        + 2.0 * AROUND.y;
    let (rect, response) = ui.allocate_exact_size(Vec2::new(width, height), Sense::click());
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, name));
    let (fill, edge) = match response.hovered() || response.has_focus() {
        true => (palette.button_hover, theme::stroke(2.0, palette.present)),
        false => (palette.card, theme::stroke(1.0, palette.line)),
    };
    let painter = ui.painter();
    painter.rect(rect, CornerRadius::same(5), fill, edge, StrokeKind::Inside);
    if stands_out {
        let mark = rect.with_max_x(rect.left() + MARK);
        painter.rect_filled(mark, CornerRadius::same(3), palette.caution);
    }
    // That it opens something.
    let at = rect.right_center() - Vec2::new(3.0, 0.0);
    let font = theme::regular(size::TITLE);
    painter.text(at, Align2::RIGHT_CENTER, "›", font, palette.muted);
    for ((at, _), stack) in places.iter().zip(stacks) {
        let mut y = rect.center().y - high(&stack) / 2.0;
        for text in stack {
            let next = y + text.size().y;
            painter.galley(Pos2::new(*at, y), text, palette.ink);
            y = next;
        }
    }
    let within = rect.shrink2(AROUND).y_range();
    let cells = places.into_iter();
    let cells = cells.map(|(at, wide)| Rect::from_x_y_ranges(at..=at + wide, within));
    (response, cells.collect())
}

/// A row of widgets, each in the middle of its column, at least so high.
pub fn widgets(ui: &mut Ui, shares: &[f32], high: f32, mut cell: impl FnMut(&mut Ui, usize)) {
    let places = columns(ui.cursor().left(), ui.available_width(), shares);
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = BETWEEN;
        ui.add_space(AROUND.x);
        let shown = places.into_iter().enumerate();
        for (index, (_, wide)) in shown.filter(|(_, (_, wide))| *wide > 0.0) {
            let layout = Layout::left_to_right(Align::Center);
            ui.allocate_ui_with_layout(Vec2::new(wide, high), layout, |ui| {
                ui.set_width(wide);
                ui.style_mut().wrap_mode = Some(TextWrapMode::Wrap);
                cell(ui, index);
            });
        }
    });
}
