//! The picture of a castle nut as one sees it from the end of its rod, and of
//! the way its wrench goes. The window paints the same marks.

use std::f32::consts::TAU;

use crate::press::WrenchWay;

use super::{Face, Ink, Mark, Pen, Point};

/// Slots drawn in the nut. One slot is one notch.
pub const SLOTS: usize = 6;

/// Room the picture needs around the nut's centre, in its radii.
pub const NUT_REACH: f32 = 1.5;

/// How far the arrow goes at most, in turns: never into its own tail.
const MOST_SWEEP: f32 = 0.88;

/// Length of the arrow's head, in turns.
const HEAD: f32 = 0.06;

/// Least height of a digit in points; smaller ones are left out.
const LEAST_DIGIT: f32 = 12.0;

/// A turn as its nut is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NutTurn {
    /// The way the wrench goes.
    pub way: WrenchWay,
    /// By how many notches.
    pub notches: u32,
    /// How many notches that way its mark has gone before.
    pub from: i32,
    /// Whether it is done: then the nut is drawn as it stands.
    pub done: bool,
}

/// The nut; where it is to be turned, an arrow the way the wrench goes, as far as
/// it goes, the notches counted at their slots, and a ring where the painted
/// mark ends.
pub fn castle_nut(centre: Point, radius: f32, turn: Option<NutTurn>) -> Vec<Mark> {
    let mut marks = Vec::new();
    let done = turn.is_some_and(|turn| turn.done);
    if let Some(turn) = turn.filter(|turn| !turn.done) {
        marks.extend(arrow(centre, radius, turn));
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
    // The line that was painted over rod and nut before the first turn; the
    // nut's half of it goes round with the nut, slot by slot.
    let width = (radius * 0.07).max(1.0);
    let stands = turn.map_or(0.0, |turn| slot(turn, 0));
    let ends = turn.map_or(0.0, |turn| slot(turn, turn.notches));
    let line = |turn: f32, ends: [f32; 2]| Mark::Path {
        points: ends
            .map(|out| at(centre, radius, turn - 0.25, out, 0.0))
            .to_vec(),
        closed: false,
        fill: None,
        pen: Some(Pen::new(width, Ink::Text)),
    };
    marks.push(line(0.0, [0.10, 0.32]));
    marks.push(line(if done { ends } else { stands }, [0.38, 0.70]));
    if turn.is_some() && !done {
        marks.push(Mark::Circle {
            at: at(centre, radius, ends - 0.25, 0.55, 0.0),
            radius: (radius * 0.15).max(1.5),
            fill: Some(Ink::Paper),
            pen: Some(Pen::new(width, Ink::Preview)),
        });
    }
    // Past a whole turn the digits would lie on each other.
    let size = radius * 0.24;
    let counted = turn.filter(|turn| !turn.done && size >= LEAST_DIGIT);
    if let Some(turn) = counted.filter(|turn| turn.notches < SLOTS as u32) {
        for notch in 1..=turn.notches {
            let middle = at(centre, radius, slot(turn, notch) - 0.25, 0.55, 0.0);
            marks.push(Mark::Text {
                at: Point::new(middle.x - 0.29 * size, middle.y + 0.36 * size),
                size,
                face: Face::Bold,
                ink: Ink::Preview,
                text: notch.to_string(),
            });
        }
    }
    marks
}

/// Where the nut's mark is that many notches into a turn, as a share of a round.
fn slot(turn: NutTurn, notches: u32) -> f32 {
    let gone = i64::from(turn.from) + i64::from(notches);
    side(turn.way) * gone.rem_euclid(SLOTS as i64) as f32 / SLOTS as f32
}

/// On a page angles grow clockwise.
fn side(way: WrenchWay) -> f32 {
    match way {
        WrenchWay::Clockwise => 1.0,
        WrenchWay::Counterclockwise => -1.0,
    }
}

/// An arrow round the nut, from the painted mark to where it ends.
fn arrow(centre: Point, radius: f32, turn: NutTurn) -> [Mark; 2] {
    let sweep = (turn.notches as f32 / SLOTS as f32).min(MOST_SWEEP);
    let along = |turns: f32, out: f32| {
        let turned = slot(turn, 0) + side(turn.way) * turns;
        at(centre, radius, turned - 0.25, out, 0.0)
    };
    let shaft = sweep - HEAD;
    let arc = Mark::Path {
        points: (0..=32)
            .map(|step| along(shaft * step as f32 / 32.0, 1.25))
            .collect(),
        closed: false,
        fill: None,
        pen: Some(Pen::new(radius * 0.13, Ink::Preview)),
    };
    let head = Mark::Path {
        points: vec![along(sweep, 1.25), along(shaft, 1.04), along(shaft, 1.46)],
        closed: true,
        fill: Some(Ink::Preview),
        pen: None,
    };
    [arc, head]
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

    fn drawn(way: WrenchWay, notches: u32, done: bool) -> Vec<Mark> {
        let turn = NutTurn {
            way,
            notches,
            from: 0,
            done,
        };
        castle_nut(Point::default(), 1.0, Some(turn))
    }

    /// Where the arrow's shaft begins and its point lies.
    fn arrow(way: WrenchWay) -> (Point, Point) {
        let marks = drawn(way, 1, false);
        let points = |index: usize| match &marks[index] {
            Mark::Path { points, .. } => points.clone(),
            other => panic!("{other:?}"),
        };
        (points(0)[0], points(1)[0])
    }

    /// Where the mark stands after a turn, in degrees clockwise from the top.
    fn stands(way: WrenchWay, notches: u32) -> f32 {
        let degrees = |at: &Point| at.x.atan2(-at.y).to_degrees();
        let marks = drawn(way, notches, false);
        let mut circles = marks.iter().filter_map(|mark| match mark {
            Mark::Circle { at, .. } => Some(degrees(at)),
            _ => None,
        });
        let ring = circles.next_back().unwrap();
        // Once it is done the nut's half of the line lies there.
        let line = match drawn(way, notches, true).last().unwrap() {
            Mark::Path { points, .. } => degrees(&points[1]),
            other => panic!("{other:?}"),
        };
        assert!(
            (ring - line)
                .rem_euclid(360.0)
                .min(360.0 - (ring - line).rem_euclid(360.0))
                < 0.1
        );
        ring
    }

    #[test]
    fn the_mark_goes_a_slot_a_notch() {
        // A slot of six is 60 degrees.
        for (way, notches, degrees) in [
            (WrenchWay::Clockwise, 1, 60.0),
            (WrenchWay::Counterclockwise, 2, -120.0),
            (WrenchWay::Clockwise, 7, 60.0),
        ] {
            let found = stands(way, notches);
            assert!((found - degrees).abs() < 0.01, "{way:?} {notches}: {found}");
        }
        let half = stands(WrenchWay::Counterclockwise, 3).abs();
        assert!((half - 180.0).abs() < 0.01, "{half}");
    }

    #[test]
    fn the_arrow_goes_the_way_of_the_wrench() {
        // Clockwise, seen on a page: from the top to the right.
        for (way, side) in [
            (WrenchWay::Clockwise, 1.0),
            (WrenchWay::Counterclockwise, -1.0),
        ] {
            let (from, to) = arrow(way);
            assert!(from.x.abs() < 0.01 && from.y < 0.0, "{from:?}");
            assert!(side * to.x > 0.5, "{to:?}");
        }
    }

    #[test]
    fn a_turn_gone_on_with_starts_where_it_was_left() {
        let way = WrenchWay::Clockwise;
        for (from, done, degrees) in [(2, false, 120.0), (2, true, 180.0), (-1, false, -60.0)] {
            let turn = NutTurn {
                way,
                notches: 1,
                from,
                done,
            };
            let marks = castle_nut(Point::default(), 1.0, Some(turn));
            let mut lines = marks.iter().filter_map(|mark| match mark {
                Mark::Path { points, .. } if points.len() == 2 => points.last(),
                _ => None,
            });
            let mark = lines.next_back().unwrap();
            let off = mark.x.atan2(-mark.y).to_degrees() - degrees;
            let off = off.rem_euclid(360.0).min((-off).rem_euclid(360.0));
            assert!(off < 0.1, "{from} {done}: {off}");
        }
    }

    #[test]
    fn notches_are_counted_where_a_digit_can_be_read() {
        let digits = |notches, radius| {
            let turn = NutTurn {
                way: WrenchWay::Clockwise,
                notches,
                from: 0,
                done: false,
            };
            let marks = castle_nut(Point::default(), radius, Some(turn));
            let texts = marks.into_iter().filter_map(|mark| match mark {
                Mark::Text { text, .. } => Some(text),
                _ => None,
            });
            texts.collect::<Vec<_>>().join("")
        };
        assert_eq!(digits(3, 60.0), "123");
        assert_eq!(
            (digits(3, 40.0), digits(7, 60.0)),
            (String::new(), String::new())
        );
    }
}
