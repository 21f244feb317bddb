//! A page as a list of marks, in points from its upper left corner.

use super::{Face, Ink};

/// A place on a page, in points (1/72 inch), rightward and downward.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// From the left edge.
    pub x: f32,
    /// From the upper edge.
    pub y: f32,
}

impl Point {
    /// The place at `x` and `y`.
    pub const fn new(x: f32, y: f32) -> Self {
        Self { x, y }
    }
}

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pen {
    /// Width in points.
    pub width: f32,
    /// Its colour.
    pub ink: Ink,
    /// Lengths of dashes and of the gaps between them, where it is dashed.
    pub dash: Option<(f32, f32)>,
}

impl Pen {
    /// An unbroken line.
    pub const fn new(width: f32, ink: Ink) -> Self {
        Self {
            width,
            ink,
            dash: None,
        }
    }
}

/// What a part of a page is, for whoever has it read aloud.
#[derive(Debug, Clone, PartialEq)]
pub enum Part {
    /// A heading, the page's own being of level 1.
    Heading(u16),
    /// A paragraph.
    Paragraph,
    /// A picture, with the words that stand for it.
    Figure(String),
    /// A table; holds rows.
    Table,
    /// A row; holds cells.
    Row,
    /// A cell that names its column.
    ColumnHead,
    /// A cell that names its row.
    RowHead,
    /// A cell.
    Cell,
    /// The line at the foot of every page; not part of what is read.
    Foot,
}

/// One mark, or where a part begins or ends. Parts nest; what stands in none
/// adorns the page.
#[derive(Debug, Clone, PartialEq)]
pub enum Mark {
    /// A part begins.
    Open(Part),
    /// The part that began last ends.
    Close,
    /// Letters in one line.
    Text {
        /// Where the line begins on its base line.
        at: Point,
        /// Size in points.
        size: f32,
        /// The face.
        face: Face,
        /// The colour.
        ink: Ink,
        /// The letters.
        text: String,
    },
    /// A line through some points, or the area within.
    Path {
        /// The points.
        points: Vec<Point>,
        /// Whether the last point is joined to the first.
        closed: bool,
        /// What the area is filled with.
        fill: Option<Ink>,
        /// What the line is drawn with.
        pen: Option<Pen>,
    },
    /// A circle.
    Circle {
        /// Its centre.
        at: Point,
        /// Its radius in points.
        radius: f32,
        /// What it is filled with.
        fill: Option<Ink>,
        /// What its line is drawn with.
        pen: Option<Pen>,
    },
}

/// A page or a picture.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// Width in points.
    pub width: f32,
    /// Height in points.
    pub height: f32,
    /// The marks, later ones over earlier ones.
    pub marks: Vec<Mark>,
}
