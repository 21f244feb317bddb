//! A page being drawn: letters, lines, boxes, and how much room is left.

use super::{Face, Fonts, Ink, Mark, Page, Part, Pen, Point};

/// Height of a line of letters, in sizes of the letters.
pub(super) const LEADING: f32 = 1.25;

/// How high letters stand over their base line, in sizes of the letters.
pub(super) const RISE: f32 = 0.95;

/// How letters look.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Style {
    pub size: f32,
    pub face: Face,
    pub ink: Ink,
}

impl Style {
    pub const fn regular(size: f32) -> Self {
        Self {
            size,
            face: Face::Regular,
            ink: Ink::Text,
        }
    }

    pub const fn bold(size: f32) -> Self {
        Self {
            face: Face::Bold,
            ..Self::regular(size)
        }
    }

    pub const fn ink(self, ink: Ink) -> Self {
        Self { ink, ..self }
    }

    pub fn leading(self) -> f32 {
        self.size * LEADING
    }
}

/// To which side of its place a line of letters stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Align {
    Left,
    Centre,
    Right,
}

/// A rectangle on a page.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Area {
    pub x: f32,
    pub y: f32,
    pub width: f32,
    pub height: f32,
}

impl Area {
    pub const fn new(x: f32, y: f32, width: f32, height: f32) -> Self {
        Self {
            x,
            y,
            width,
            height,
        }
    }

    pub fn right(&self) -> f32 {
        self.x + self.width
    }

    pub fn bottom(&self) -> f32 {
        self.y + self.height
    }

    pub fn centre(&self) -> Point {
        Point::new(self.x + self.width / 2.0, self.y + self.height / 2.0)
    }
}

/// A page being drawn.
pub(super) struct Sheet<'a> {
    pub fonts: &'a Fonts,
    pub page: Page,
}

impl<'a> Sheet<'a> {
    pub fn new(fonts: &'a Fonts, (width, height): (f32, f32)) -> Self {
        Self {
            fonts,
            page: Page {
                width,
                height,
                marks: Vec::new(),
            },
        }
    }

    pub fn open(&mut self, part: Part) {
        self.page.marks.push(Mark::Open(part));
    }

    pub fn close(&mut self) {
        self.page.marks.push(Mark::Close);
    }

    pub fn extend(&mut self, marks: impl IntoIterator<Item = Mark>) {
        self.page.marks.extend(marks);
    }

    /// A part that draws itself.
    pub fn part(&mut self, part: Part, draw: impl FnOnce(&mut Self)) {
        self.open(part);
        draw(self);
        self.close();
    }

    pub fn width(&self, text: &str, style: Style) -> f32 {
        self.fonts.width(text, style.size, style.face)
    }

    /// Letters in one line; `y` is its base line.
    pub fn text(&mut self, x: f32, y: f32, align: Align, style: Style, text: &str) {
        let width = self.width(text, style);
        let x = match align {
            Align::Left => x,
            Align::Centre => x - width / 2.0,
            Align::Right => x - width,
        };
        self.page.marks.push(Mark::Text {
            at: Point::new(x, y),
            size: style.size,
            face: style.face,
            ink: style.ink,
            text: text.chars().map(shown).collect(),
        });
    }

    /// The same as large as asked for, or as fits the width.
    pub fn fitting(
        &mut self,
        x: f32,
        y: f32,
        (align, width): (Align, f32),
        style: Style,
        text: &str,
    ) {
        let wide = self.width(text, style);
        let shrink = (width / wide.max(1.0)).min(1.0);
        let size = (style.size * shrink).max(4.0);
        self.text(x, y, align, Style { size, ..style }, text);
    }

    /// Letters in as many lines as they need, `y` being the upper edge. Answers
    /// the lower edge.
    pub fn lines(&mut self, x: f32, y: f32, width: f32, style: Style, text: &str) -> f32 {
        let mut y = y;
        for line in self.fonts.lines(text, style.size, style.face, width) {
            self.text(x, y + style.size * RISE, Align::Left, style, &line);
            y += style.leading();
        }
        y
    }

    /// The height that [`lines`](Self::lines) takes.
    pub fn height(&self, width: f32, style: Style, text: &str) -> f32 {
        let lines = self.fonts.lines(text, style.size, style.face, width);
        lines.len() as f32 * style.leading()
    }

    /// A paragraph of its own. Answers its lower edge.
    pub fn paragraph(&mut self, x: f32, y: f32, width: f32, style: Style, text: &str) -> f32 {
        self.open(Part::Paragraph);
        let below = self.lines(x, y, width, style, text);
        self.close();
        below
    }

    /// A heading. Answers its lower edge.
    pub fn heading(&mut self, level: u16, x: f32, y: f32, style: Style, text: &str) -> f32 {
        self.open(Part::Heading(level));
        self.text(x, y + style.size * RISE, Align::Left, style, text);
        self.close();
        y + style.leading()
    }

    pub fn line(&mut self, from: Point, to: Point, pen: Pen) {
        self.page.marks.push(Mark::Path {
            points: vec![from, to],
            closed: false,
            fill: None,
            pen: Some(pen),
        });
    }

    pub fn rule(&mut self, x: f32, y: f32, width: f32, pen: Pen) {
        self.line(Point::new(x, y), Point::new(x + width, y), pen);
    }

    pub fn frame(&mut self, area: Area, fill: Option<Ink>, pen: Option<Pen>) {
        self.page.marks.push(Mark::Path {
            points: vec![
                Point::new(area.x, area.y),
                Point::new(area.right(), area.y),
                Point::new(area.right(), area.bottom()),
                Point::new(area.x, area.bottom()),
            ],
            closed: true,
            fill,
            pen,
        });
    }

    /// An empty box to tick.
    pub fn tick_box(&mut self, x: f32, y: f32, side: f32) {
        let pen = Pen::new((side / 12.0).max(0.9), Ink::Text);
        self.frame(Area::new(x, y, side, side), Some(Ink::Paper), Some(pen));
    }
}

/// A letter as it may stand on a page: PDF/UA allows no control characters and
/// none whose meaning is private.
fn shown(letter: char) -> char {
    match letter {
        '\u{e000}'..='\u{f8ff}' | '\u{f0000}'.. | '\u{fffe}' | '\u{ffff}' | '\u{feff}' => '?',
        letter if letter.is_control() => ' ',
        letter => letter,
    }
}
