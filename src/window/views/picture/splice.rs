//! The splice edge-on between the jaws: one drawing for the strip under the
//! chart and for the wall. It takes plain data and knows no session.
//!
//! The stationary jaw hangs from its rods; its lower edge is the profile, with
//! differences of thickness drawn too large by a factor that its texts are told. Below it lies the belt with its plies and
//! hooks on the moving jaw. Where the splice is thinner than the band the plies
//! are crushed and the hooks driven in; where it is thicker there is daylight
//! over the belt and the hooks stand up.

use std::sync::Arc;

use eframe::egui::text::{LayoutJob, TextWrapping};
use eframe::egui::{
    Align2, Color32, CornerRadius, FontId, Galley, Mesh, Painter, Pos2, Rect, Shape, Stroke,
    StrokeKind, Vec2,
};

use crate::splice::Band;
use crate::window::theme::{self, Palette};

use crate::report::profile_curve;
use crate::window::views::picture::jaw_axis::JawAxis;

/// What the drawing shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shown {
    /// What was measured: whole lines.
    Measured,
    /// What is expected and nobody has measured: dashes, and a pale belt.
    Expected,
}

/// An arm with its rod and nut.
#[derive(Debug, Clone)]
pub struct ArmMark {
    /// Its letter.
    pub name: String,
    /// Where it stands, in nanometres from the left end of the jaw.
    pub at_nm: f64,
    /// The mean of its readings in nanometres, and as it is written.
    pub reading: Option<(f64, String)>,
    /// What its nut is turned by in notches, out positive, and how that is
    /// written where there is room.
    pub turn: Option<(i32, String)>,
}

/// All that is drawn.
pub struct Splice<'a> {
    /// Colours.
    pub palette: &'static Palette,
    /// Where the jaw lies along the screen.
    pub axis: JawAxis,
    /// Stations in nanometres from the left end of the jaw.
    pub stations_nm: &'a [f64],
    /// Thickness at each of them in nanometres.
    pub means_nm: &'a [Option<f64>],
    /// Another profile, a line over it: expected beside a measured one, measured
    /// beside an expected one.
    pub beside_nm: Option<&'a [Option<f64>]>,
    /// The tolerance band.
    pub band: Option<Band>,
    /// The least range of thickness in nanometres that the drawing leaves room
    /// for.
    pub range_nm: f64,
    /// Whether it was measured.
    pub shown: Shown,
    /// The arms from left to right.
    pub arms: &'a [ArmMark],
    /// Letters, nuts and readings in this font; without, rods only.
    pub marks: Option<FontId>,
    /// What is written on the stationary and on the moving jaw, told by what
    /// factor differences are drawn too large.
    pub texts: [&'a dyn Fn(&str) -> String; 2],
    /// In this font.
    pub font: FontId,
}

/// The thinnest and the thickest of some means, and the room between them.
fn range(splice: &Splice<'_>) -> (f64, f64) {
    let beside = splice.beside_nm.unwrap_or_default();
    let means = splice.means_nm.iter().chain(beside).flatten().copied();
    let edges = splice
        .band
        .iter()
        .flat_map(|band| [band.low_nm, band.high_nm]);
    let (low, high) = means
        .chain(edges)
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), nm| {
            (low.min(nm), high.max(nm))
        });
    let (low, high) = if low > high { (0.0, 0.0) } else { (low, high) };
    let more = (splice.range_nm - (high - low)).max(0.0) / 2.0;
    (low - more, high + more)
}

/// Heights of the parts on the screen, from top to bottom.
#[derive(Debug, Clone, Copy)]
struct Parts {
    nuts: f32,
    jaw_top: f32,
    thickest: f32,
    thinnest: f32,
    readings: f32,
    lower_top: f32,
    bottom: f32,
}

impl Parts {
    fn of(splice: &Splice<'_>, area: Rect, lower: f32, rows: usize) -> Self {
        let body = splice.font.size * 1.24;
        let (letters, nuts, row) = match &splice.marks {
            Some(font) if in_one_row(splice, font.size) => (0.0, font.size * 1.2, font.size * 1.22),
            Some(font) => (font.size * 1.2, font.size * 1.2, font.size * 1.22),
            None => (0.0, (area.height() * 0.1).clamp(4.0, 22.0), 0.0),
        };
        let jaw_top = area.top() + letters + nuts + row * 0.16;
        let lower_top = area.bottom() - lower;
        let readings = lower_top - row * rows as f32 - row * 0.1;
        // Where it is thinnest something of the belt is left.
        let thickest = (jaw_top + body).min(lower_top - 8.0);
        let left = (readings - thickest).max(6.0);
        Self {
            nuts: area.top() + letters,
            jaw_top,
            thickest,
            // The readings lie over the lowest of several rows.
            thinnest: match rows {
                0 => thickest + left * 0.72,
                1 => thickest + left * 0.94,
                _ => thickest + left + row * 0.7,
            },
            readings,
            lower_top,
            bottom: area.bottom(),
        }
    }
}

/// Whether letter and nut of every arm stand side by side.
fn in_one_row(splice: &Splice<'_>, font: f32) -> bool {
    pitch(splice, 1) >= font * 2.7
}

/// The least distance on the screen between an arm and the one so many further.
fn pitch(splice: &Splice<'_>, further: usize) -> f32 {
    let places = splice.arms.iter().map(|arm| splice.axis.x(arm.at_nm));
    let places: Vec<f32> = places.collect();
    let pairs = places.iter().zip(places.iter().skip(further));
    pairs
        .map(|(one, other)| other - one)
        .fold(splice.axis.right - splice.axis.left, f32::min)
}

/// Draws it into `area`, the moving jaw `lower` points high.
pub fn paint(painter: &Painter, area: Rect, lower: f32, splice: &Splice<'_>) {
    let palette = splice.palette;
    let axis = splice.axis;
    let boxes = splice
        .marks
        .as_ref()
        .map(|font| boxes(painter, splice, font));
    let rows = boxes.as_ref().map_or(0, |(rows, _)| *rows);
    let parts = Parts::of(splice, area, lower, rows);
    let (low, high) = range(splice);
    let room = f64::from(parts.thinnest - parts.thickest);
    let factor = round_down(room / (high - low).max(1.0) / axis.points_per_nm());
    let scale = factor * axis.points_per_nm();
    // In the middle of the room there is; what lies beyond it stays in sight.
    let top = parts.thickest + ((room - (high - low) * scale) / 2.0).max(0.0) as f32;
    let height = |nm: f64| {
        let y = top + ((high - nm) * scale) as f32;
        y.clamp(parts.thickest - 4.0, parts.thinnest + 4.0)
    };
    let outline = |means: &[Option<f64>]| -> Vec<Pos2> {
        let curve = profile_curve(splice.stations_nm, means, axis.length_nm);
        if curve.is_empty() {
            let flat = parts.thickest;
            return vec![Pos2::new(axis.left, flat), Pos2::new(axis.right, flat)];
        }
        let points = curve.into_iter();
        points
            .map(|[x, nm]| Pos2::new(axis.x(x), height(nm)))
            .collect()
    };
    let edge = outline(splice.means_nm);
    let known = splice.means_nm.iter().any(Option::is_some);
    let band = splice
        .band
        .map(|band| (height(band.high_nm), height(band.low_nm)));
    let lying = Lying {
        edge: &edge,
        band: band.filter(|_| known),
        bottom: parts.lower_top,
    };
    rods(painter, splice, area, parts);
    belt(painter, splice, &lying);
    if let Some((top, bottom)) = lying.band {
        across(painter, splice, (top, bottom));
    }
    hooks(painter, splice, &lying);
    jaw_from_above(painter, splice, parts.jaw_top, &edge);
    if let Some(beside) = splice.beside_nm {
        let (shown, ink) = match splice.shown {
            Shown::Measured => (Shown::Expected, palette.preview),
            Shown::Expected => (Shown::Measured, palette.ink),
        };
        outlined(painter, shown, outline(beside), theme::stroke(2.4, ink));
    }
    let lower = Rect::from_min_max(
        Pos2::new(axis.left, parts.lower_top),
        Pos2::new(axis.right, parts.bottom),
    );
    steel(painter, palette, lower);
    let factor = grouped(factor);
    let [upper_text, lower_text] = splice
        .texts
        .map(|say| elided(painter, splice, &say(&factor)));
    let inset = splice.font.size * 0.35;
    let at = Pos2::new(axis.left + inset, parts.jaw_top + inset * 0.2);
    painter.galley(at, upper_text, palette.ink);
    let at = Pos2::new(
        axis.left + inset,
        lower.center().y - lower_text.size().y / 2.0,
    );
    painter.galley(at, lower_text, palette.ink);
    if let (Some((_, boxes)), Some(font)) = (boxes, &splice.marks) {
        nuts(painter, splice, area, parts, font);
        readings(painter, splice, (area, parts), font, boxes);
    }
}

fn steel(painter: &Painter, palette: &Palette, rect: Rect) {
    let edge = theme::stroke(1.0, palette.steel_edge);
    let round = CornerRadius::same(2);
    painter.rect(rect, round, palette.steel, edge, StrokeKind::Inside);
}

/// How the belt lies under the jaw.
struct Lying<'a> {
    /// The jaw's lower edge.
    edge: &'a [Pos2],
    /// Upper and lower edge of the band.
    band: Option<(f32, f32)>,
    /// The moving jaw.
    bottom: f32,
}

/// How a place of the splice stands to the band.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Fit {
    Crushed,
    Good,
    Loose,
}

impl Lying<'_> {
    fn fit(&self, y: f32) -> Fit {
        match self.band {
            Some((top, _)) if y < top - 0.5 => Fit::Loose,
            Some((_, bottom)) if y > bottom + 0.5 => Fit::Crushed,
            _ => Fit::Good,
        }
    }

    /// The top of the belt under the jaw's edge: it reaches no higher than the
    /// band.
    fn belt_top(&self, y: f32) -> f32 {
        self.band.map_or(y, |(top, _)| y.max(top))
    }

    /// The jaw's edge at a place along the screen.
    fn edge_at(&self, x: f32) -> f32 {
        let after = self.edge.iter().position(|point| point.x >= x);
        let pair = after.and_then(|after| {
            let right = self.edge.get(after)?;
            let left = self.edge.get(after.checked_sub(1)?)?;
            Some((left, right))
        });
        match (pair, self.edge.first(), self.edge.last()) {
            (Some((left, right)), ..) => {
                let share = (x - left.x) / (right.x - left.x).max(f32::EPSILON);
                left.y + (right.y - left.y) * share
            }
            (None, Some(first), _) if x <= first.x => first.y,
            (None, _, Some(last)) => last.y,
            (None, ..) => self.bottom,
        }
    }
}

/// Plies of the belt.
const PLIES: [f32; 3] = [0.25, 0.5, 0.75];

/// The belt between the jaws, with its plies pressed together where it is thin.
fn belt(painter: &Painter, splice: &Splice<'_>, lying: &Lying<'_>) {
    let palette = splice.palette;
    let fill = match splice.shown {
        Shown::Measured => palette.belt,
        Shown::Expected => mixed(palette.belt, palette.card),
    };
    let tops: Vec<Pos2> = lying
        .edge
        .iter()
        .map(|point| Pos2::new(point.x, lying.belt_top(point.y)))
        .collect();
    let mut mesh = Mesh::default();
    strip(&mut mesh, &tops, |_| lying.bottom, fill);
    painter.add(Shape::mesh(mesh));
    let thin = theme::stroke(1.0, palette.belt_edge);
    for ply in PLIES {
        let line: Vec<Pos2> = tops
            .iter()
            .map(|point| Pos2::new(point.x, point.y + (lying.bottom - point.y) * ply))
            .collect();
        outlined(painter, splice.shown, line, thin);
    }
    let edge = theme::stroke(2.0, palette.belt_edge);
    outlined(painter, splice.shown, tops, edge);
}

/// A line whole where it was measured, dashed where it is expected.
fn outlined(painter: &Painter, shown: Shown, points: Vec<Pos2>, stroke: Stroke) {
    match shown {
        Shown::Measured => {
            painter.add(Shape::line(points, stroke));
        }
        Shown::Expected => painter.extend(Shape::dashed_line(&points, stroke, 10.0, 6.0)),
    }
}

/// A colour half way between two.
fn mixed(one: Color32, other: Color32) -> Color32 {
    one.lerp_to_gamma(other, 0.55)
}

/// Fills what lies between a line and what is below it.
fn strip(mesh: &mut Mesh, line: &[Pos2], below: impl Fn(&Pos2) -> f32, fill: Color32) {
    let first = mesh.vertices.len() as u32;
    for (index, point) in (0_u32..).zip(line) {
        mesh.colored_vertex(*point, fill);
        mesh.colored_vertex(Pos2::new(point.x, below(point)), fill);
        if index > 0 {
            let next = first + 2 * index;
            mesh.add_triangle(next - 2, next - 1, next);
            mesh.add_triangle(next - 1, next, next + 1);
        }
    }
}

/// The tolerance band across the jaw.
fn across(painter: &Painter, splice: &Splice<'_>, (top, bottom): (f32, f32)) {
    let palette = splice.palette;
    let axis = splice.axis;
    let rect = Rect::from_x_y_ranges(axis.left..=axis.right, top..=bottom);
    painter.rect_filled(rect, 0.0, palette.band.gamma_multiply(0.72));
    for y in [top, bottom] {
        let ends = [Pos2::new(axis.left, y), Pos2::new(axis.right, y)];
        let stroke = theme::stroke(2.0, palette.band_edge);
        painter.extend(Shape::dashed_line(&ends, stroke, 10.0, 7.0));
    }
}

/// Hooks through the belt: upright with a loop over it where they are loose,
/// flush where it is good, driven in with a flattened head where it is crushed.
fn hooks(painter: &Painter, splice: &Splice<'_>, lying: &Lying<'_>) {
    let palette = splice.palette;
    let axis = splice.axis;
    let font = splice.marks.as_ref().map_or(30.0, |font| font.size);
    let step = (font * 0.34).clamp(9.0, 40.0);
    let wide = step * 0.3;
    let count = ((axis.right - axis.left) / step).floor().max(1.0);
    let pitch = (axis.right - axis.left) / count;
    for index in 0..count as usize {
        let x = axis.left + pitch * (index as f32 + 0.5);
        let jaw = lying.edge_at(x);
        let fit = lying.fit(jaw);
        let (ink, width) = match fit {
            Fit::Good => (palette.steel_edge, 1.6),
            Fit::Crushed | Fit::Loose => (palette.preview, 2.2),
        };
        let width = width * (font / 40.0).clamp(0.8, 2.5);
        let stroke = theme::stroke(width, ink);
        let head = match fit {
            // A loop that stands up to the jaw.
            Fit::Loose => {
                let top = jaw + wide;
                painter.circle_stroke(Pos2::new(x, top), wide, stroke);
                top + wide
            }
            Fit::Good => jaw + 1.0,
            // A head hammered flat, sunk into the belt.
            Fit::Crushed => {
                let sunk = jaw + wide;
                let ends = [Pos2::new(x - wide, sunk), Pos2::new(x + wide, sunk)];
                painter.line_segment(ends, theme::stroke(width * 1.9, ink));
                sunk
            }
        };
        let leg = [Pos2::new(x, head), Pos2::new(x, lying.bottom)];
        match splice.shown {
            Shown::Measured => {
                painter.line_segment(leg, stroke);
            }
            Shown::Expected => painter.extend(Shape::dashed_line(&leg, stroke, 5.0, 5.0)),
        }
    }
}

/// Fills the jaw from its straight back down to its worn or bent edge.
fn jaw_from_above(painter: &Painter, splice: &Splice<'_>, top: f32, edge: &[Pos2]) {
    let palette = splice.palette;
    let back: Vec<Pos2> = edge.iter().map(|point| Pos2::new(point.x, top)).collect();
    let mut mesh = Mesh::default();
    let lower = Lying {
        edge,
        band: None,
        bottom: top,
    };
    strip(
        &mut mesh,
        &back,
        |point| lower.edge_at(point.x),
        palette.steel,
    );
    painter.add(Shape::mesh(mesh));
    let ink = match splice.shown {
        Shown::Measured => palette.present,
        Shown::Expected => palette.preview,
    };
    outlined(
        painter,
        splice.shown,
        edge.to_vec(),
        theme::stroke(3.0, ink),
    );
    let axis = splice.axis;
    let ends = [Pos2::new(axis.left, top), Pos2::new(axis.right, top)];
    painter.line_segment(ends, theme::stroke(1.0, palette.steel_edge));
}

fn rods(painter: &Painter, splice: &Splice<'_>, area: Rect, parts: Parts) {
    let font = splice.marks.as_ref().map_or(40.0, |font| font.size);
    let half = (font * 0.13).clamp(4.0, 16.0);
    for arm in splice.arms {
        let x = splice.axis.x(arm.at_nm);
        let top = if splice.marks.is_some() {
            parts.nuts
        } else {
            area.top() - 4.0
        };
        let rod = Rect::from_x_y_ranges(x - half..=x + half, top..=parts.jaw_top);
        steel(painter, splice.palette, rod);
    }
}

/// A line of text on a jaw, cut off with dots where it has no room.
fn elided(painter: &Painter, splice: &Splice<'_>, text: &str) -> Arc<Galley> {
    let room = splice.axis.right - splice.axis.left - splice.font.size * 0.7;
    let (font, ink) = (splice.font.clone(), splice.palette.ink);
    let mut job = LayoutJob::simple_singleline(text.to_owned(), font, ink);
    job.wrap = TextWrapping::truncate_at_width(room);
    painter.layout_job(job)
}

/// Letters and nuts, each nut that turns with its arrow and how far.
fn nuts(painter: &Painter, splice: &Splice<'_>, area: Rect, parts: Parts, font: &FontId) {
    let palette = splice.palette;
    let beside = in_one_row(splice, font.size);
    let room = pitch(splice, 1) * 0.96;
    let middle = parts.nuts + font.size * 0.6;
    for arm in splice.arms {
        let x = splice.axis.x(arm.at_nm);
        let letter = painter.layout_no_wrap(arm.name.clone(), font.clone(), palette.ink);
        let letter_room = if beside {
            letter.size().x + font.size * 0.2
        } else {
            0.0
        };
        let (ink, fill, width) = match arm.turn {
            Some(_) => (palette.preview, palette.preview_back, 3.0),
            None => (palette.steel_edge, palette.steel, 1.5),
        };
        let said = arm.turn.as_ref().map(|(turn, said)| {
            let short = turn.unsigned_abs().to_string();
            let lay =
                |text: &str| painter.layout_no_wrap(text.to_owned(), font.clone(), palette.preview);
            let long = lay(said);
            let arrow = font.size * 0.62;
            let fits = long.size().x + arrow + font.size * 0.16 + letter_room <= room;
            (*turn > 0, if fits { long } else { lay(&short) })
        });
        let content = said.as_ref().map_or(font.size * 0.7, |(_, said)| {
            said.size().x + font.size * 0.62
        });
        let size = Vec2::new(content + font.size * 0.16, font.size * 1.06);
        let mut centre = Pos2::new(x, middle);
        let least = area.left() + letter_room + size.x / 2.0;
        let most = area.right() - size.x / 2.0;
        centre.x = centre.x.min(most).max(least);
        let plate = Rect::from_center_size(centre, size);
        painter.rect(
            plate,
            CornerRadius::same(5),
            fill,
            theme::stroke(width, ink),
            StrokeKind::Inside,
        );
        if let Some((out, said)) = said {
            let at = Pos2::new(plate.left() + font.size * 0.36, plate.center().y);
            arrow(painter, at, font.size * 0.36, out, palette.preview);
            let text = Align2::LEFT_CENTER.anchor_size(
                Pos2::new(plate.left() + font.size * 0.66, plate.center().y),
                said.size(),
            );
            painter.galley(text.min, said, palette.preview);
        }
        let anchor = if beside {
            Align2::RIGHT_CENTER.anchor_size(
                Pos2::new(plate.left() - font.size * 0.16, middle),
                letter.size(),
            )
        } else {
            let above = Pos2::new(x, parts.nuts - font.size * 0.02);
            Align2::CENTER_BOTTOM.anchor_size(above, letter.size())
        };
        painter.galley(anchor.min, letter, palette.ink);
    }
}

/// An arrow up where a nut is turned out and the jaw opens, down where it is
/// turned in.
fn arrow(painter: &Painter, centre: Pos2, reach: f32, up: bool, ink: Color32) {
    let way = if up { -1.0 } else { 1.0 };
    let tip = centre + Vec2::new(0.0, way * reach);
    let neck = centre;
    let half = reach * 0.62;
    let head = vec![
        tip,
        neck + Vec2::new(half, 0.0),
        neck - Vec2::new(half, 0.0),
    ];
    painter.add(Shape::convex_polygon(head, ink, Stroke::NONE));
    let tail = [neck, centre - Vec2::new(0.0, way * reach)];
    painter.line_segment(tail, theme::stroke(reach * 0.42, ink));
}

/// A reading laid out, and its row.
type Laid = (Arc<Galley>, usize);

/// The readings laid out in as few rows as keep them apart.
fn boxes(painter: &Painter, splice: &Splice<'_>, font: &FontId) -> (usize, Vec<Option<Laid>>) {
    let laid: Vec<_> = splice
        .arms
        .iter()
        .map(|arm| {
            let (nm, text) = arm.reading.as_ref()?;
            let outside = splice.band.is_some_and(|band| !band.holds(*nm));
            let ink = match (splice.shown, outside) {
                (Shown::Expected, _) | (_, true) => splice.palette.preview,
                (Shown::Measured, false) => splice.palette.ink,
            };
            Some(painter.layout_no_wrap(text.clone(), font.clone(), ink))
        })
        .collect();
    let widest = laid
        .iter()
        .flatten()
        .map(|galley| galley.size().x)
        .fold(0.0, f32::max);
    if laid.iter().all(Option::is_none) {
        return (0, Vec::new());
    }
    let room = widest + font.size * 0.3;
    let rows = (1..4)
        .find(|rows| pitch(splice, *rows) >= room)
        .unwrap_or(4);
    let laid = laid.into_iter().enumerate();
    let placed = laid.map(|(index, galley)| Some((galley?, index % rows)));
    (rows, placed.collect())
}

/// The reading of every arm on the belt, those outside the band in a heavier
/// frame.
fn readings(
    painter: &Painter,
    splice: &Splice<'_>,
    (area, parts): (Rect, Parts),
    font: &FontId,
    boxes: Vec<Option<Laid>>,
) {
    let palette = splice.palette;
    let row = font.size * 1.22;
    for (arm, laid) in splice.arms.iter().zip(boxes) {
        let (Some((galley, at)), Some((nm, _))) = (laid, &arm.reading) else {
            continue;
        };
        let outside = splice.band.is_some_and(|band| !band.holds(*nm));
        let size = Vec2::new(galley.size().x + font.size * 0.24, font.size * 1.12);
        let half = size.x / 2.0;
        let x = splice.axis.x(arm.at_nm);
        let x = x.min(area.right() - half).max(area.left() + half);
        let y = parts.readings + row * (at as f32 + 0.5);
        let plate = Rect::from_center_size(Pos2::new(x, y), size);
        let fill = if outside {
            palette.preview_back
        } else {
            palette.card
        };
        painter.rect_filled(plate, 6.0, fill);
        let (ink, width) = if outside {
            (palette.preview, 3.0)
        } else {
            (palette.line, 1.5)
        };
        let stroke = theme::stroke(width, ink);
        match splice.shown {
            Shown::Measured => {
                let round = CornerRadius::same(6);
                painter.rect_stroke(plate, round, stroke, StrokeKind::Inside);
            }
            Shown::Expected => {
                let corners = [
                    plate.left_top(),
                    plate.right_top(),
                    plate.right_bottom(),
                    plate.left_bottom(),
                    plate.left_top(),
                ];
                let stroke = theme::stroke(2.5, palette.preview);
                painter.extend(Shape::dashed_line(&corners, stroke, 8.0, 6.0));
            }
        }
        let text = Align2::CENTER_CENTER.anchor_size(plate.center(), galley.size());
        painter.galley(text.min, galley, palette.ink);
    }
}

/// Figures a factor begins with, so that it can be said.
const ROUND: [f64; 9] = [1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0];

/// The largest round number that is not above `factor`; at least 1.
pub(crate) fn round_down(factor: f64) -> f64 {
    if !factor.is_finite() || factor < 1.0 {
        return 1.0;
    }
    if factor < 10.0 {
        return factor.floor();
    }
    let power = libm::pow(10.0, libm::floor(libm::log10(factor)));
    let fitting = ROUND.iter().rfind(|digit| **digit * power <= factor);
    fitting.map_or(power, |digit| digit * power)
}

/// A round number with thin spaces between its thousands.
pub(crate) fn grouped(number: f64) -> String {
    let digits = format!("{number:.0}");
    let mut text = String::new();
    for (index, digit) in digits.chars().enumerate() {
        if index > 0 && (digits.len() - index).is_multiple_of(3) {
            text.push('\u{a0}');
        }
        text.push(digit);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn factors_are_round_and_never_larger() {
        let cases = [
            (0.4, 1.0),
            (7.9, 7.0),
            (10.0, 10.0),
            (19.9, 15.0),
            (1_000.0, 1_000.0),
            (799.0, 600.0),
            (f64::NAN, 1.0),
            (f64::INFINITY, 1.0),
        ];
        for (factor, round) in cases {
            assert_eq!(round_down(factor), round, "{factor}");
        }
        assert_eq!(grouped(12_500.0), "12\u{a0}500");
    }
}
