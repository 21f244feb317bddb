//! The castle nut and the way its wrench goes, painted as on paper.

use eframe::egui::{
    Align2, Color32, CornerRadius, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, Vec2,
};

use crate::report::{Ink, Mark, NutTurn, Pen, Point, castle_nut};
use crate::window::theme::{self, Palette};

/// Draws the nut, and where it is turned the way and by how many notches.
pub fn show(
    painter: &Painter,
    palette: &Palette,
    centre: Pos2,
    radius: f32,
    turn: Option<NutTurn>,
) {
    let place = |point: &Point| Pos2::new(point.x, point.y);
    let stroke = |pen: Option<Pen>| {
        pen.map_or(Stroke::NONE, |pen| {
            theme::stroke(pen.width.max(1.0), colour(palette, pen.ink))
        })
    };
    let area = |fill: Option<Ink>| fill.map_or(Color32::TRANSPARENT, |ink| colour(palette, ink));
    for mark in castle_nut(Point::new(centre.x, centre.y), radius, turn) {
        match mark {
            Mark::Path {
                points,
                closed,
                fill,
                pen,
            } => {
                let points: Vec<Pos2> = points.iter().map(place).collect();
                painter.add(match closed {
                    true => Shape::convex_polygon(points, area(fill), stroke(pen)),
                    false => Shape::line(points, stroke(pen)),
                });
            }
            Mark::Circle {
                at,
                radius,
                fill,
                pen,
            } => {
                painter.circle(place(&at), radius, area(fill), stroke(pen));
            }
            Mark::Text {
                at,
                size,
                text,
                ink,
                ..
            } => {
                let base = place(&at);
                let font = theme::bold(size);
                painter.text(
                    base - Vec2::new(0.0, 0.36 * size),
                    Align2::LEFT_CENTER,
                    text,
                    font,
                    colour(palette, ink),
                );
            }
            Mark::Open(_) | Mark::Close => {}
        }
    }
}

/// The colours that the picture uses, as this look has them.
fn colour(palette: &Palette, ink: Ink) -> Color32 {
    match ink {
        Ink::Steel => palette.steel,
        Ink::SteelEdge => palette.steel_edge,
        Ink::Preview => palette.preview,
        Ink::Paper => palette.card,
        _ => palette.ink,
    }
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
