//! What the lines and patches of a chart mean, in as many rows as that takes.

use std::sync::Arc;

use eframe::egui::{Color32, FontId, Galley, Painter, Pos2, Rect, Sense, Shape, Ui, Vec2};
use egui_plot::{LineStyle, MarkerShape};

use crate::window::theme::{self, Palette, size};
use crate::window::views::picture::plot::Pen;
use crate::window::views::picture::splice::{Fit, hook_head};

/// An entry of a legend.
pub struct Key {
    /// What it says.
    pub text: String,
    /// Drawn before it: a line, or a patch of a colour.
    pub sign: Sign,
}

/// What stands before the words of a legend.
#[derive(Clone, Copy)]
pub enum Sign {
    /// A line.
    Line(Pen),
    /// A line with a mark on it, in the line's colour or open.
    Marked(Pen, MarkerShape, Color32),
    /// A patch within an edge.
    Patch(Color32, Pen),
    /// A hook that stands so.
    Hook(Fit, &'static Palette),
    /// Nothing: a caption.
    Caption,
}

/// Width of a sign, the space after it, and between entries, in sizes of the
/// font.
const SIGN: f32 = 2.3;
const AFTER: f32 = 0.5;
const BETWEEN: f32 = 1.3;

/// On a wall, where letters are large, signs are so much tighter.
const WALL: f32 = 0.62;

/// A legend laid out in as many rows as its width takes.
pub struct Legend {
    rows: Vec<Vec<(Arc<Galley>, Sign)>>,
    /// Height of the letters.
    size: f32,
    /// What widths are reckoned from.
    unit: f32,
}

impl Legend {
    /// Lays it out.
    pub fn of(ui: &Ui, palette: &Palette, width: f32, keys: Vec<Key>) -> Self {
        let font = theme::regular(size::SMALL);
        Self::laid(ui, palette.muted, (font, 1.0), width, keys)
    }

    /// The same in the letters of a wall.
    pub fn of_wall(ui: &Ui, palette: &Palette, font: f32, width: f32, keys: Vec<Key>) -> Self {
        Self::laid(ui, palette.ink, (theme::bold(font), WALL), width, keys)
    }

    fn laid(
        ui: &Ui,
        ink: Color32,
        (font, tight): (FontId, f32),
        width: f32,
        keys: Vec<Key>,
    ) -> Self {
        let mut rows: Vec<Vec<_>> = vec![Vec::new()];
        let mut used = 0.0;
        let unit = font.size * tight;
        let between = BETWEEN * unit;
        for key in keys {
            let galley = ui.painter().layout_no_wrap(key.text, font.clone(), ink);
            let wide = galley.size().x + key.sign.width(unit) + between;
            if used > 0.0 && used + wide - between > width {
                rows.push(Vec::new());
                used = 0.0;
            }
            used += wide;
            if let Some(row) = rows.last_mut() {
                row.push((galley, key.sign));
            }
        }
        let size = font.size;
        Self { rows, size, unit }
    }

    /// Its height.
    pub fn height(&self) -> f32 {
        self.row() * self.rows.len() as f32
    }

    fn row(&self) -> f32 {
        self.size * 1.4
    }

    /// Draws it from `left` on.
    pub fn show(self, ui: &mut Ui, left: f32) {
        let room = Vec2::new(ui.available_width(), self.height());
        let (area, _) = ui.allocate_exact_size(room, Sense::hover());
        let painter = ui.painter();
        let (row_height, unit) = (self.row(), self.unit);
        let mut y = area.top() + row_height / 2.0;
        for row in self.rows {
            let mut x = left;
            for (galley, sign) in row {
                sign.paint(painter, Pos2::new(x, y), unit);
                x += sign.width(unit);
                let wide = galley.size();
                painter.galley(Pos2::new(x, y - wide.y / 2.0), galley, Color32::PLACEHOLDER);
                x += wide.x + BETWEEN * unit;
            }
            y += row_height;
        }
    }
}

impl Sign {
    fn width(self, size: f32) -> f32 {
        match self {
            Self::Caption => 0.0,
            Self::Hook(..) => (1.0 + AFTER) * size,
            _ => (SIGN + AFTER) * size,
        }
    }

    /// Draws it from a point on, in sizes of a font.
    pub fn paint(self, painter: &Painter, at: Pos2, size: f32) {
        let wide = SIGN * size;
        let line = [at, at + Vec2::new(wide, 0.0)];
        let dashed = |painter: &Painter, line: &[Pos2], pen: Pen| match pen.style {
            LineStyle::Solid => {
                painter.add(Shape::line(line.to_vec(), pen.stroke()));
            }
            LineStyle::Dashed { .. } => {
                painter.extend(Shape::dashed_line(line, pen.stroke(), 7.0, 4.0));
            }
            LineStyle::Dotted { .. } => painter.extend(Shape::dotted_line(line, pen.ink, 4.0, 1.4)),
        };
        match self {
            Self::Caption => {}
            Self::Hook(fit, palette) => {
                let half = 0.45 * size;
                let top = at + Vec2::new(half, -1.2 * half);
                let (head, stroke) = hook_head(painter, palette, (top, fit), (half, 1.0));
                let leg = [Pos2::new(top.x, head), Pos2::new(top.x, at.y + 1.4 * half)];
                painter.line_segment(leg, stroke);
            }
            Self::Line(pen) => dashed(painter, &line, pen),
            Self::Marked(pen, shape, fill) => {
                dashed(painter, &line, pen);
                let centre = at + Vec2::new(wide / 2.0, 0.0);
                mark(painter, (shape, fill), centre, size * 0.36, pen);
            }
            Self::Patch(fill, pen) => {
                let half = size * 0.4;
                let patch =
                    Rect::from_min_size(at - Vec2::new(0.0, half), Vec2::new(wide, 2.0 * half));
                painter.rect_filled(patch, 0.0, fill);
                for y in [patch.top(), patch.bottom()] {
                    let edge = [Pos2::new(patch.left(), y), Pos2::new(patch.right(), y)];
                    dashed(painter, &edge, pen);
                }
            }
        }
    }
}

/// A mark as the charts draw it.
fn mark(
    painter: &Painter,
    (shape, fill): (MarkerShape, Color32),
    centre: Pos2,
    radius: f32,
    pen: Pen,
) {
    let corners: &[[f32; 2]] = match shape {
        MarkerShape::Square => &[[-0.8, -0.8], [0.8, -0.8], [0.8, 0.8], [-0.8, 0.8]],
        MarkerShape::Diamond => &[[0.0, -1.0], [1.0, 0.0], [0.0, 1.0], [-1.0, 0.0]],
        MarkerShape::Up => &[[0.0, -1.0], [0.9, 0.6], [-0.9, 0.6]],
        MarkerShape::Down => &[[0.0, 1.0], [-0.9, -0.6], [0.9, -0.6]],
        _ => {
            painter.circle(centre, radius, fill, pen.stroke());
            return;
        }
    };
    let points = corners
        .iter()
        .map(|[x, y]| centre + radius * Vec2::new(*x, *y));
    painter.add(Shape::convex_polygon(points.collect(), fill, pen.stroke()));
}
