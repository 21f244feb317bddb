//! The picture of a castle nut as one sees it from the end of its rod, and of
//! the way the wrench goes. The window paints the same marks.

use std::f32::consts::TAU;

use crate::press::WrenchWay;

use super::{Ink, Mark, Pen, Point};

/// Slots of a castle nut, as it is drawn everywhere: a notch is one of them.
pub const SLOTS: usize = 6;

/// Room the picture needs around the nut's centre, in its radii.
pub const NUT_REACH: f32 = 1.75;

/// Where the wrench starts, from straight up, and how far the arrow takes it,
/// in turns.
const START_AND_SWEEP: (f32, f32) = (1.0 / 6.0, 0.42);

/// The nut, and wrench and arrow where it is turned.
pub fn castle_nut(centre: Point, radius: f32, way: Option<WrenchWay>) -> Vec<Mark> {
    let mut marks = Vec::new();
    if let Some(way) = way {
        marks.extend(wrench(centre, radius, way));
    }
    let pen = Some(Pen::new((radius * 0.03).max(0.6), Ink::SteelEdge));
    // Castles, each parted by the slot that the pin passes through.
    for slot in 0..SLOTS {
        let turn = slot as f32 / SLOTS as f32 - 0.25;
        let part = |half: f32, from: f32, to: f32, fill| Mark::Path {
            points: [(-half, from), (-half, to), (half, to), (half, from)]
                .into_iter()
                .map(|(aside, out)| at(centre, radius, turn, out, aside))
                .collect(),
            closed: true,
            fill: Some(fill),
            pen,
        };
        marks.push(part(0.31, 0.70, 1.0, Ink::Steel));
        marks.push(part(0.09, 0.72, 1.02, Ink::Paper));
    }
    let disc = |share: f32, fill| Mark::Circle {
        at: centre,
        radius: radius * share,
        fill: Some(fill),
        pen,
    };
    marks.push(disc(0.75, Ink::Steel));
    marks.push(disc(0.35, Ink::SteelEdge));
    // The mark that was painted before the first turn.
    marks.push(Mark::Circle {
        at: Point::new(centre.x, centre.y - radius * 0.55),
        radius: (radius * 0.085).max(1.0),
        fill: Some(Ink::Text),
        pen: None,
    });
    marks
}

/// The wrench where it starts, and an arrow the way it goes.
fn wrench(centre: Point, radius: f32, way: WrenchWay) -> [Mark; 3] {
    // On a page angles grow clockwise.
    let side = match way {
        WrenchWay::Clockwise => 1.0,
        WrenchWay::Counterclockwise => -1.0,
    };
    let (start, sweep) = START_AND_SWEEP;
    let turn = |share: f32| -0.25 - side * start + side * sweep * share;
    let along = |share: f32, out: f32| at(centre, radius, turn(share), out, 0.0);
    let handle = Mark::Path {
        points: vec![along(0.0, 0.9), along(0.0, NUT_REACH)],
        closed: false,
        fill: None,
        pen: Some(Pen::new(radius * 0.2, Ink::SteelEdge)),
    };
    let arc = Mark::Path {
        points: (0..=32)
            .map(|step| along(0.08 + 0.80 * step as f32 / 32.0, 1.35))
            .collect(),
        closed: false,
        fill: None,
        pen: Some(Pen::new(radius * 0.11, Ink::Preview)),
    };
    let head = Mark::Path {
        points: vec![along(1.0, 1.35), along(0.84, 1.16), along(0.84, 1.54)],
        closed: true,
        fill: Some(Ink::Preview),
        pen: None,
    };
    [handle, arc, head]
}

/// A place `out` radii from the centre in the direction of a share of a whole
/// turn, and `aside` radii to its right.
fn at(centre: Point, radius: f32, turn: f32, out: f32, aside: f32) -> Point {
    let angle = TAU * turn;
    let (sin, cos) = (libm::sinf(angle), libm::cosf(angle));
    Point::new(
        centre.x + radius * (out * cos - aside * sin),
        centre.y + radius * (out * sin + aside * cos),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Where the arrow's point and its shaft's first end lie.
    fn arrow(way: WrenchWay) -> (Point, Point) {
        let marks = castle_nut(Point::default(), 1.0, Some(way));
        let points = |index: usize| match &marks[index] {
            Mark::Path { points, .. } => points.clone(),
            other => panic!("{other:?}"),
        };
        (points(1)[0], points(2)[0])
    }

    #[test]
    fn the_arrow_goes_the_way_of_the_wrench() {
        // Clockwise, seen on a page: from the left over the top to the right.
        let (from, to) = arrow(WrenchWay::Clockwise);
        assert!(
            from.x < 0.0 && from.y < 0.0 && to.x > 0.0,
            "{from:?} {to:?}"
        );
        let (from, to) = arrow(WrenchWay::Counterclockwise);
        assert!(
            from.x > 0.0 && from.y < 0.0 && to.x < 0.0,
            "{from:?} {to:?}"
        );
    }
}
