//! Where words go in the chart: beside what they name, and over nothing else.

use eframe::egui::{Pos2, Rect, Vec2};

/// Space between words and what they name.
const SPACE: f32 = 5.0;

/// What stands in a picture already.
#[derive(Clone)]
pub struct Labels {
    frame: Rect,
    taken: Vec<Rect>,
}

impl Labels {
    /// An empty picture within a frame.
    pub fn within(frame: Rect) -> Self {
        Self {
            frame,
            taken: Vec::new(),
        }
    }

    /// Notes that something stands here.
    pub fn take(&mut self, rect: Rect) {
        self.taken.push(rect);
    }

    /// Notes that a mark of a radius stands here.
    pub fn take_mark(&mut self, at: Pos2, radius: f32) {
        self.take(Rect::from_center_size(at, Vec2::splat(2.0 * radius)));
    }

    /// Notes that a line passes through points.
    pub fn take_line(&mut self, points: &[Pos2]) {
        for pair in points.windows(2) {
            self.take(Rect::from_points(pair).expand(1.5));
        }
    }

    /// A place for words of a size beside a mark: above it or below it, as is
    /// liked better, else on either side, aslant or further off. None where all
    /// of these are taken.
    pub fn beside(&mut self, at: Pos2, radius: f32, size: Vec2, above: bool) -> Option<Rect> {
        let off = radius + SPACE;
        let placed = |x: f32, y: f32| {
            let reach = Vec2::new(x * (off + size.x / 2.0), y * (off + size.y / 2.0));
            Rect::from_center_size(at + reach, size)
        };
        let first = if above { -1.0 } else { 1.0 };
        let wished = [1.0, 1.8].into_iter().flat_map(|far| {
            let sides = [(0.0, first), (0.0, -first), (1.0, 0.0), (-1.0, 0.0)];
            let aslant = [(0.9, first), (-0.9, first), (0.9, -first), (-0.9, -first)];
            let all = sides.into_iter().chain(aslant);
            all.map(move |(x, y)| placed(x, y * far))
        });
        let mut wished = wished.map(|rect| self.inside(rect));
        let free = wished.find(|rect| {
            let over = |taken: &&Rect| taken.intersect(*rect).is_positive();
            self.taken.iter().find(over).is_none()
        })?;
        self.take(free);
        Some(free)
    }

    /// The rectangle moved into the frame.
    fn inside(&self, rect: Rect) -> Rect {
        let shift = |least: f32, most: f32, from: f32, to: f32| {
            if from < least {
                least - from
            } else if to > most {
                (most - to).max(least - from)
            } else {
                0.0
            }
        };
        rect.translate(Vec2::new(
            shift(
                self.frame.left(),
                self.frame.right(),
                rect.left(),
                rect.right(),
            ),
            shift(
                self.frame.top(),
                self.frame.bottom(),
                rect.top(),
                rect.bottom(),
            ),
        ))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn labels() -> Labels {
        Labels::within(Rect::from_min_size(Pos2::ZERO, Vec2::new(200.0, 100.0)))
    }

    #[test]
    fn words_stand_beside_their_mark_and_in_the_frame() {
        let size = Vec2::new(40.0, 16.0);
        for x in [0.0, 50.0, 200.0] {
            for y in [0.0, 30.0, 100.0] {
                for above in [true, false] {
                    let mut labels = labels();
                    let at = Pos2::new(x, y);
                    labels.take_mark(at, 6.0);
                    let rect = labels.beside(at, 6.0, size, above).unwrap();
                    assert!(labels.frame.contains_rect(rect), "{at:?} {rect:?}");
                    assert!(!rect.contains(at), "{at:?} {rect:?}");
                }
            }
        }
    }

    #[test]
    fn words_give_way_to_what_is_there() {
        let mut labels = labels();
        let at = Pos2::new(100.0, 50.0);
        labels.take_mark(at, 6.0);
        let size = Vec2::new(40.0, 16.0);
        let first = labels.beside(at, 6.0, size, true).unwrap();
        let second = labels.beside(at, 6.0, size, true).unwrap();
        assert!(first.bottom() < at.y && second.top() > at.y);
        let third = labels.beside(at, 6.0, size, true).unwrap();
        assert!(third.left() > at.x);
        assert!(!third.intersects(first) && !third.intersects(second));
    }

    #[test]
    fn words_never_lie_on_a_line() {
        let size = Vec2::new(40.0, 16.0);
        let at = Pos2::new(100.0, 50.0);
        // Across, through the mark: above and below are free.
        let mut labels = self::labels();
        labels.take_line(&[Pos2::new(0.0, 50.0), Pos2::new(200.0, 50.0)]);
        assert!(labels.beside(at, 6.0, size, false).unwrap().top() > 50.0);
        // Lines a word's height apart leave no room.
        let mut labels = self::labels();
        for y in 0..8 {
            let y = y as f32 * 14.0;
            labels.take_line(&[Pos2::new(0.0, y), Pos2::new(200.0, y)]);
        }
        assert_eq!(labels.beside(at, 6.0, size, true), None);
    }
}
