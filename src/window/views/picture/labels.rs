//! Where words go in the chart: beside what they name, and over nothing else.

use eframe::egui::{Pos2, Rect, Vec2};

/// Space between words and what they name.
const SPACE: f32 = 5.0;

/// What stands in a picture already.
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
    /// liked better, else on either side. Where all of these are taken, the
    /// place that covers least.
    pub fn beside(&mut self, at: Pos2, radius: f32, size: Vec2, above: bool) -> Rect {
        let off = radius + SPACE;
        let centred = |y: f32| Rect::from_center_size(Pos2::new(at.x, y), size);
        let over = centred(at.y - off - size.y / 2.0);
        let under = centred(at.y + off + size.y / 2.0);
        let middle = at.y - size.y / 2.0;
        let right = Rect::from_min_size(Pos2::new(at.x + off, middle), size);
        let left = Rect::from_min_size(Pos2::new(at.x - off - size.x, middle), size);
        let (first, second) = if above { (over, under) } else { (under, over) };
        // Beside a mark there may be a line; aslant there is not always one.
        let aslant = |x: f32| {
            let x = at.x + x * (size.x / 2.0 + radius);
            [first, second].map(|rect| rect.translate(Vec2::new(x - at.x, 0.0)))
        };
        let ([a, b], [c, d]) = (aslant(1.0), aslant(-1.0));
        self.place(&[first, second, right, left, a, b, c, d])
    }

    /// The first of some places that is free; where none is, the one that
    /// covers least.
    pub fn place(&mut self, wished: &[Rect]) -> Rect {
        let covered = |rect: &Rect| -> f32 {
            self.taken
                .iter()
                .map(|taken| taken.intersect(*rect))
                .filter(Rect::is_positive)
                .map(|both| both.area())
                .sum()
        };
        let best = wished
            .iter()
            .map(|rect| self.inside(*rect))
            .min_by(|a, b| covered(a).total_cmp(&covered(b)))
            .unwrap_or(self.frame);
        self.take(best);
        best
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
                    let rect = labels.beside(at, 6.0, size, above);
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
        let first = labels.beside(at, 6.0, size, true);
        let second = labels.beside(at, 6.0, size, true);
        assert!(first.bottom() < at.y && second.top() > at.y);
        let third = labels.beside(at, 6.0, size, true);
        assert!(third.left() > at.x);
        assert!(!third.intersects(first) && !third.intersects(second));
    }
}
