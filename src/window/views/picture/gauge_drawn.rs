//! A gauge on hook and belt, drawn from plain data: square, tilted, or on dirt.

use eframe::egui::{Align2, Painter, Pos2, Rect, Shape, StrokeKind, Vec2};

use crate::window::theme::{self, Palette};

/// How the gauge sits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seat {
    /// As it should.
    Square,
    /// Tilted.
    Tilted,
    /// With dirt under an anvil.
    OnDirt,
}

/// Names of belt, hook and anvil, where they are told.
pub type Parts<'a> = [&'a str; 3];

/// Room that it takes, in its own units, and how thick the belt and the wire of
/// the hook are drawn.
const ROOM: Vec2 = Vec2::new(13.0, 9.6);
const BELT: f32 = 2.0;
const WIRE: f32 = 0.45;

/// Where the anvils bear, from the belt's inside to its edge: on both legs, short
/// of the knuckle.
const ANVIL: (f32, f32) = (-1.4, 0.2);

/// Draws it in the middle of an area; `shows` stands on its display, without
/// which there is none. Answers what lies between its anvils.
pub fn paint(
    painter: &Painter,
    palette: &Palette,
    (area, font): (Rect, f32),
    seat: Seat,
    (shows, parts): (&str, Option<Parts<'_>>),
) -> Rect {
    let unit = (area.width() / ROOM.x).min(area.height() / ROOM.y);
    // Between belt at the left and display at the right.
    let centre = area.center() - Vec2::new(0.6 * unit, 0.0);
    let at = |x: f32, y: f32| centre + unit * Vec2::new(x, y);
    let edge = theme::stroke(1.2, palette.belt_edge);
    let belt = Rect::from_two_pos(at(-5.6, -BELT / 2.0), at(0.6, BELT / 2.0));
    painter.rect(belt, 0.0, palette.belt, edge, StrokeKind::Inside);
    for ply in [-0.33, 0.0, 0.33] {
        painter.hline(belt.x_range(), at(0.0, ply * BELT).y, edge);
    }
    hook(painter, palette, &at, unit);
    // How far it is turned, and how far each anvil stands off: tilted, both bear
    // on a corner; on dirt, the lower one on that.
    let (turn, off): (f32, [f32; 2]) = match seat {
        Seat::Square => (0.0, [0.0, 0.0]),
        Seat::Tilted => (0.14, [0.13, 0.13]),
        Seat::OnDirt => (0.0, [0.0, 0.34]),
    };
    let (sin, cos) = turn.sin_cos();
    let (from, to) = ANVIL;
    let middle = 0.5 * (from + to);
    let gauge = |x: f32, y: f32| {
        let x = x - middle;
        at(middle + x * cos - y * sin, x * sin + y * cos)
    };
    let block = |from: [f32; 2], to: [f32; 2]| {
        let corners = [
            [from[0], from[1]],
            [to[0], from[1]],
            [to[0], to[1]],
            [from[0], to[1]],
        ];
        let corners = corners.map(|[x, y]| gauge(x, y)).to_vec();
        let edge = theme::stroke(1.2, palette.steel_edge);
        painter.add(Shape::convex_polygon(corners, palette.steel, edge));
    };
    let face = BELT / 2.0 + WIRE;
    let (above, below) = (-face - off[0], face + off[1]);
    // Beam, arms and anvils.
    block([3.4, above - 3.0], [4.2, below + 3.0]);
    block([from, above - 3.0], [3.4, above - 2.2]);
    block([from, below + 2.2], [3.4, below + 3.0]);
    block([from, above - 2.2], [to, above]);
    block([from, below], [to, below + 2.2]);
    if seat == Seat::OnDirt {
        for (x, radius) in [(-0.4, 0.15), (0.05, 0.17), (0.45, 0.13)] {
            let under = at(middle + x, face + off[1] * 0.5);
            painter.circle_filled(under, unit * radius, palette.outside);
        }
    }
    if !shows.is_empty() {
        let display = Rect::from_center_size(gauge(4.8, 0.0), unit * Vec2::new(3.6, 1.5));
        let edge = theme::stroke(1.5, palette.edge);
        painter.rect(display, 3.0, palette.field, edge, StrokeKind::Inside);
        let letters = theme::bold((unit * 0.95).clamp(theme::size::LEAST, font * 1.4));
        painter.text(
            display.center(),
            Align2::CENTER_CENTER,
            shows,
            letters,
            palette.ink,
        );
    }
    let names = [(-4.4, 0.0), (-3.0, 2.2), (from - 0.4, -3.0)];
    for (text, (x, y)) in parts.into_iter().flatten().zip(names) {
        let align = match x {
            anvil if anvil > -2.0 => Align2::RIGHT_CENTER,
            _ => Align2::CENTER_CENTER,
        };
        painter.text(at(x, y), align, text, theme::regular(font), palette.ink);
    }
    Rect::from_two_pos(at(from, -face), at(to, face))
}

/// A wire hook in the end of the belt: its legs on both faces, their points in
/// it, the knuckle beyond.
fn hook(painter: &Painter, palette: &Palette, at: &dyn Fn(f32, f32) -> Pos2, unit: f32) {
    let lies = BELT / 2.0 + WIRE / 2.0;
    let mut wire = vec![at(-2.6, -0.3), at(-2.6, -lies), at(0.9, -lies)];
    wire.extend((1..12).map(|step| {
        let round = core::f32::consts::PI * (step as f32 / 12.0 - 0.5);
        at(0.9 + lies * round.cos(), lies * round.sin())
    }));
    wire.extend([at(0.9, lies), at(-3.4, lies), at(-3.4, 0.3)]);
    let stroke = theme::stroke(unit * WIRE, palette.steel_edge);
    painter.add(Shape::line(wire, stroke));
}
