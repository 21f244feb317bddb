//! What the lines and patches of a chart mean, in as many rows as that takes.

use std::sync::Arc;

use eframe::egui::{Color32, Galley, Painter, Pos2, Rect, Sense, Shape, Ui, Vec2};
use egui_plot::LineStyle;

use crate::window::theme::{self, Palette, size};
use crate::window::views::picture::plot::Pen;

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
    /// A patch within an edge.
    Patch(Color32, Pen),
    /// Nothing: a caption.
    Caption,
}

/// Width of a sign with the space after it, and between entries.
const SIGN: f32 = 34.0;
const BETWEEN: f32 = 16.0;

/// A legend laid out in as many rows as its width takes.
pub struct Legend {
    rows: Vec<Vec<(Arc<Galley>, Sign)>>,
    row: f32,
}

impl Legend {
    /// Lays it out.
    pub fn of(ui: &Ui, palette: &Palette, width: f32, keys: Vec<Key>) -> Self {
        let font = theme::regular(size::SMALL);
        let mut rows: Vec<Vec<_>> = vec![Vec::new()];
        let mut used = 0.0;
        for key in keys {
            let galley = ui
                .painter()
                .layout_no_wrap(key.text, font.clone(), palette.muted);
            let wide = galley.size().x + key.sign.width() + BETWEEN;
            if used > 0.0 && used + wide - BETWEEN > width {
                rows.push(Vec::new());
                used = 0.0;
            }
            used += wide;
            if let Some(row) = rows.last_mut() {
                row.push((galley, key.sign));
            }
        }
        let row = size::SMALL * 1.4;
        Self { rows, row }
    }

    /// Its height.
    pub fn height(&self) -> f32 {
        self.row * self.rows.len() as f32
    }

    /// Draws it from `left` on.
    pub fn show(self, ui: &mut Ui, left: f32) {
        let room = Vec2::new(ui.available_width(), self.height());
        let (area, _) = ui.allocate_exact_size(room, Sense::hover());
        let painter = ui.painter();
        let mut y = area.top() + self.row / 2.0;
        for row in self.rows {
            let mut x = left;
            for (galley, sign) in row {
                sign.paint(painter, Pos2::new(x, y));
                x += sign.width();
                let wide = galley.size();
                painter.galley(Pos2::new(x, y - wide.y / 2.0), galley, Color32::PLACEHOLDER);
                x += wide.x + BETWEEN;
            }
            y += self.row;
        }
    }
}

impl Sign {
    fn width(self) -> f32 {
        if matches!(self, Self::Caption) {
            0.0
        } else {
            SIGN
        }
    }

    fn paint(self, painter: &Painter, at: Pos2) {
        let line = [at, at + Vec2::new(SIGN - 6.0, 0.0)];
        let dashed = |painter: &Painter, line: &[Pos2], pen: Pen| match pen.style {
            LineStyle::Solid => {
                painter.add(Shape::line(line.to_vec(), pen.stroke()));
            }
            _ => painter.extend(Shape::dashed_line(line, pen.stroke(), 7.0, 4.0)),
        };
        match self {
            Self::Caption => {}
            Self::Line(pen) => dashed(painter, &line, pen),
            Self::Patch(fill, pen) => {
                let size = Vec2::new(SIGN - 6.0, 10.0);
                let patch = Rect::from_min_size(at - Vec2::new(0.0, 5.0), size);
                painter.rect_filled(patch, 0.0, fill);
                for y in [patch.top(), patch.bottom()] {
                    let edge = [Pos2::new(patch.left(), y), Pos2::new(patch.right(), y)];
                    dashed(painter, &edge, pen);
                }
            }
        }
    }
}
