//! A small chart to paint on: two axes, kinds of lines, and names beside
//! lines that keep out of each other's way.

use eframe::egui::{Align2, Color32, FontId, Painter, Pos2, Rect, Shape, Stroke, Vec2};

use crate::window::theme;
use crate::words::Figures;

use crate::report::grid_step;

/// Maps values to a frame on the screen; y grows upward.
#[derive(Debug, Clone, Copy)]
pub struct Canvas {
    /// Where on the screen.
    pub frame: Rect,
    /// Values at the left and right edge.
    pub x: (f64, f64),
    /// Values at the lower and upper edge.
    pub y: (f64, f64),
}

/// How a line is drawn, so that colour is not all that tells lines apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineKind {
    /// Without gaps.
    Solid,
    /// Long dashes.
    Dashed,
    /// Short dashes.
    ShortDashed,
    /// Dots.
    Dotted,
}

impl Canvas {
    /// Where a value along x is drawn.
    pub fn x_at(&self, x: f64) -> f32 {
        let (low, high) = self.x;
        let share = (x - low) / (high - low).max(f64::MIN_POSITIVE);
        self.frame.left() + self.frame.width() * share as f32
    }

    /// Where a value along y is drawn.
    pub fn y_at(&self, y: f64) -> f32 {
        let (low, high) = self.y;
        let share = (y - low) / (high - low).max(f64::MIN_POSITIVE);
        self.frame.bottom() - self.frame.height() * share as f32
    }

    /// Where a point is drawn.
    pub fn at(&self, x: f64, y: f64) -> Pos2 {
        Pos2::new(self.x_at(x), self.y_at(y))
    }

    /// The point at a place on the screen along x and a value along y.
    pub fn at_height(&self, x: f32, y: f64) -> Pos2 {
        Pos2::new(x, self.y_at(y))
    }

    /// Draws a curve of (x, y) values.
    pub fn curve(&self, painter: &Painter, points: &[[f64; 2]], stroke: Stroke, kind: LineKind) {
        let points: Vec<Pos2> = points.iter().map(|&[x, y]| self.at(x, y)).collect();
        line(painter, points, stroke, kind);
    }

    /// Rules across the frame at round figures, with their numbers left of it
    /// where a font and an ink for these are given.
    pub fn rules(
        &self,
        painter: &Painter,
        figures: Figures,
        grid: Color32,
        numbers: Option<(&FontId, Color32)>,
    ) {
        let (step, decimals) = grid_step(self.y.1 - self.y.0, self.frame.height(), figures.unit);
        let first = (self.y.0 / step).ceil() as i64;
        let last = (self.y.1 / step).floor() as i64;
        for index in first..=last.min(first + 60) {
            let value = index as f64 * step;
            let y = self.y_at(value);
            let ends = [
                Pos2::new(self.frame.left(), y),
                Pos2::new(self.frame.right(), y),
            ];
            painter.line_segment(ends, theme::stroke(1.0, grid));
            if let Some((font, ink)) = numbers {
                let at = ends[0] - Vec2::new(5.0, 0.0);
                let number = figures.nm(value, decimals);
                painter.text(at, Align2::RIGHT_CENTER, number, font.clone(), ink);
            }
        }
    }
}

/// Draws a line through points on the screen.
pub fn line(painter: &Painter, points: Vec<Pos2>, stroke: Stroke, kind: LineKind) {
    let dashes = |dash, gap| Shape::dashed_line(&points, stroke, dash, gap);
    match kind {
        LineKind::Solid => {
            painter.add(Shape::line(points, stroke));
        }
        LineKind::Dashed => painter.extend(dashes(13.0, 6.0)),
        LineKind::ShortDashed => painter.extend(dashes(5.0, 4.0)),
        LineKind::Dotted => {
            let dots = Shape::dotted_line(&points, stroke.color, 6.0, stroke.width * 0.8);
            painter.extend(dots);
        }
    }
}

/// A name to be written beside the end of a line.
#[derive(Debug, Clone)]
pub struct EndLabel {
    /// The line's end on the screen.
    pub end: Pos2,
    /// The name.
    pub text: String,
    /// Its font.
    pub font: FontId,
    /// Its colour.
    pub ink: Color32,
    /// Written even where others must give way.
    pub needed: bool,
}

/// Writes names beside the ends of lines at `x`, moved apart so that none
/// covers another; those that are not needed give way where room is short.
pub fn end_labels(painter: &Painter, x: f32, (top, bottom): (f32, f32), mut labels: Vec<EndLabel>) {
    labels.sort_by(|a, b| a.end.y.total_cmp(&b.end.y));
    let height = |label: &EndLabel| label.font.size * 1.15;
    let room = bottom - top;
    let mut wanted: f32 = labels.iter().map(height).sum();
    while wanted > room {
        let Some(index) = labels.iter().position(|label| !label.needed) else {
            break;
        };
        wanted -= height(&labels.remove(index));
    }
    // Down from the top each below the one before, then up from the bottom.
    let mut places = Vec::with_capacity(labels.len());
    let mut next = top;
    for label in &labels {
        let half = height(label) / 2.0;
        let y = label.end.y.max(next + half);
        places.push(y);
        next = y + half;
    }
    let mut limit = bottom;
    for (label, y) in labels.iter().zip(&mut places).rev() {
        let half = height(label) / 2.0;
        *y = y.min(limit - half);
        limit = *y - half;
    }
    for (label, y) in labels.into_iter().zip(places) {
        let ends = [label.end + Vec2::new(8.0, 0.0), Pos2::new(x + 10.0, y)];
        painter.line_segment(ends, theme::stroke(1.0, label.ink.gamma_multiply(0.6)));
        let at = Pos2::new(x + 13.0, y);
        painter.text(at, Align2::LEFT_CENTER, label.text, label.font, label.ink);
    }
}
