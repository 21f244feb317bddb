//! The splice edge-on between the jaws: one drawing for the strip under the
//! chart and for the wall. It takes plain data and knows no session.
//!
//! The stationary jaw hangs from its rods; its lower edge is the profile, with
//! differences of thickness drawn too large by a factor that its texts are told. Below it lies the belt with its plies and
//! hooks on the moving jaw. Where the splice is thinner than the band the plies
//! are crushed and the hooks driven in; where it is thicker there is daylight
//! over the belt and the hooks stand up.

mod marks;
mod parts;

use std::sync::Arc;

use eframe::egui::text::{LayoutJob, TextWrapping};
use eframe::egui::{
    Color32, CornerRadius, FontId, Galley, Mesh, Painter, Pos2, Rangef, Rect, Shape, Stroke,
    StrokeKind,
};

use crate::window::theme::{self, Palette};

use crate::report::{curve, profile_curve};

use marks::{boxes, nuts, patches, readings};
use parts::{Parts, range};

pub use parts::{ArmMark, Shown, Splice, grouped, round_down};

/// A spread below this, a thousandth of an inch, is not drawn any larger: a level
/// splice looks level.
const LEAST_SHOWN_NM: f64 = 25_400.0;

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
    let factor = round_down(room / (high - low).max(LEAST_SHOWN_NM) / axis.points_per_nm());
    let scale = factor * axis.points_per_nm();
    // In the middle of the room there is; what lies beyond it stays in sight.
    let top = parts.thickest + ((room - (high - low) * scale) / 2.0).max(0.0) as f32;
    let height = |nm: f64| {
        let y = top + ((high - nm) * scale) as f32;
        y.clamp(parts.thickest - 4.0, parts.thinnest + 4.0)
    };
    let outline = |means: &[Option<f64>]| -> Vec<Pos2> {
        let whole = profile_curve(splice.stations_nm, means, axis.length_nm);
        if whole.is_empty() {
            let flat = parts.thickest;
            return vec![Pos2::new(axis.left, flat), Pos2::new(axis.right, flat)];
        }
        let points = whole.into_iter();
        points
            .map(|[x, nm]| Pos2::new(axis.x(x), height(nm)))
            .collect()
    };
    let edge = outline(splice.means_nm);
    let on_screen = |pieces: Vec<Vec<[f64; 2]>>| -> Vec<Vec<Pos2>> {
        let points = |piece: Vec<[f64; 2]>| {
            let points = piece.into_iter();
            points
                .map(|[x, nm]| Pos2::new(axis.x(x), height(nm)))
                .collect()
        };
        pieces.into_iter().map(points).collect()
    };
    let (between, beyond) = curve(splice.stations_nm, splice.means_nm, axis.length_nm);
    let drawn = [on_screen(between), on_screen(beyond)];
    let known = splice.means_nm.iter().any(Option::is_some);
    let band = splice
        .band
        .map(|band| (height(band.high_nm), height(band.low_nm)));
    let read = splice.stations_nm.iter().zip(splice.means_nm);
    let mut measured = Rangef::NOTHING;
    for (at, _) in read.filter(|(_, mean)| mean.is_some()) {
        // An arm in the middle of a hook has that hook.
        let x = axis.x(*at);
        measured = Rangef::new(measured.min.min(x - 4.0), measured.max.max(x + 4.0));
    }
    let lying = Lying {
        edge: &edge,
        band: band.filter(|_| known),
        bottom: parts.lower_top,
        measured,
    };
    rods(painter, splice, area, parts);
    if known {
        belt(painter, splice, &lying);
    }
    if let Some((top, bottom)) = lying.band {
        across(painter, splice, (top, bottom));
    }
    // Of a piece that is not read nothing is known to lie there.
    if known {
        hooks(painter, splice, &lying);
    }
    jaw_from_above(painter, splice, (parts.jaw_top, &edge), drawn);
    if let Some((top, bottom)) = lying.band.filter(|_| splice.bitten) {
        bite(painter, &lying, (top, bottom), palette.outside);
    }
    if let Some(edges) = splice.likely_nm {
        let edges = edges.each_ref().map(|edge| {
            let (between, _) = curve(splice.stations_nm, edge, axis.length_nm);
            on_screen(between)
        });
        likely(painter, palette, edges);
    }
    if let Some((beside, shown)) = splice.beside_nm {
        let ink = match shown {
            Shown::Expected => palette.preview,
            Shown::Measured => palette.ink,
        };
        // No further than it was measured.
        let (beside, _) = curve(splice.stations_nm, beside, axis.length_nm);
        for piece in on_screen(beside) {
            outlined(painter, shown, piece, theme::stroke(2.4, ink));
        }
    }
    let lower = Rect::from_min_max(
        Pos2::new(axis.left, parts.lower_top),
        Pos2::new(axis.right, parts.bottom),
    );
    steel(painter, palette, lower);
    let factor = grouped(factor);
    let [upper_font, lower_font] = &splice.fonts;
    let [say_upper, say_lower] = splice.texts;
    let inset = upper_font.size * 0.35;
    let at = Pos2::new(axis.left + inset, parts.jaw_top + inset * 0.2);
    let upper_text = elided(painter, splice, upper_font, &say_upper(&factor));
    let upper_wide = upper_text.size();
    painter.galley(at, upper_text, palette.ink);
    let lower_text = elided(painter, splice, lower_font, &say_lower(&factor));
    let lower_wide = lower_text.size();
    let middle = lower.center().y - lower_wide.y / 2.0;
    painter.galley(
        Pos2::new(axis.left + inset, middle),
        lower_text,
        palette.ink,
    );
    let right = |font: &FontId, text: &str, used: f32, middle: f32| {
        let galley = painter.layout_no_wrap(text.to_owned(), font.clone(), palette.ink);
        let x = axis.right - inset - galley.size().x;
        if !text.is_empty() && x > axis.left + used + 3.0 * inset {
            let at = Pos2::new(x, middle - galley.size().y / 2.0);
            painter.galley(at, galley, palette.ink);
        }
    };
    let [upper_end, lower_end] = splice.ends;
    let upper_middle = at.y + upper_wide.y / 2.0;
    right(lower_font, upper_end, upper_wide.x, upper_middle);
    right(lower_font, lower_end, lower_wide.x, lower.center().y);
    if let Some(said) = splice.patches.filter(|_| known) {
        patches(painter, splice, &lying, said);
    }
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
    /// From the first to the last station that was measured.
    measured: Rangef,
}

/// How a place of the splice stands to the band.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fit {
    /// Thinner than the band.
    Crushed,
    /// Within it.
    Good,
    /// Thicker than the band.
    Loose,
}

impl Lying<'_> {
    /// How it stands at a place; beyond the stations nobody has measured it.
    fn fit(&self, Pos2 { x, y }: Pos2) -> Fit {
        match self.band {
            _ if !self.measured.contains(x) => Fit::Good,
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
pub const PLIES: [f32; 3] = [0.25, 0.5, 0.75];

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
pub fn strip(mesh: &mut Mesh, line: &[Pos2], below: impl Fn(&Pos2) -> f32, fill: Color32) {
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

/// Where nine in ten pieces come out: a breath of colour within thin edges.
fn likely(painter: &Painter, palette: &Palette, [low, high]: [Vec<Vec<Pos2>>; 2]) {
    for (low, high) in low.iter().zip(&high) {
        let below = |at: &Pos2| {
            let under = low.iter().find(|point| point.x >= at.x);
            under.map_or(at.y, |point| point.y)
        };
        let mut mesh = Mesh::default();
        strip(&mut mesh, high, below, palette.preview.gamma_multiply(0.2));
        painter.add(Shape::mesh(mesh));
        for edge in [low, high] {
            let pen = theme::stroke(1.6, palette.preview);
            painter.add(Shape::line(edge.clone(), pen));
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

/// What the jaw's edge lacks to the band, and what it is beyond it, filled.
fn bite(painter: &Painter, lying: &Lying<'_>, (top, bottom): (f32, f32), ink: Color32) {
    let measured = lying.edge.iter().filter(|at| lying.measured.contains(at.x));
    let measured: Vec<Pos2> = measured.copied().collect();
    let mut mesh = Mesh::default();
    let within = |at: &Pos2| at.y.clamp(top, bottom);
    strip(&mut mesh, &measured, within, ink.gamma_multiply(0.55));
    painter.add(Shape::mesh(mesh));
}

/// Hooks through the belt.
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
        let thick = (font / 40.0).clamp(0.8, 2.5);
        let at = Pos2::new(x, jaw);
        let fit = lying.fit(at);
        let (head, stroke) = hook_head(painter, palette, (at, fit), (wide, thick));
        let leg = [Pos2::new(x, head), Pos2::new(x, lying.bottom)];
        match splice.shown {
            Shown::Measured => {
                painter.line_segment(leg, stroke);
            }
            Shown::Expected => painter.extend(Shape::dashed_line(&leg, stroke, 5.0, 5.0)),
        }
    }
}

/// The head of a hook under the jaw's edge: a loop that stands up to it where the
/// hook is loose, flush where it is good, hammered flat and sunk into the belt
/// where it is crushed. `wide` is half its width, `thick` the factor of its lines.
/// Answers where its leg begins, and how that is drawn.
pub fn hook_head(
    painter: &Painter,
    palette: &Palette,
    (at, fit): (Pos2, Fit),
    (wide, thick): (f32, f32),
) -> (f32, Stroke) {
    let (ink, width) = match fit {
        Fit::Good => (palette.steel_edge, 1.6),
        Fit::Crushed | Fit::Loose => (palette.outside, 2.2),
    };
    let width = width * thick;
    let stroke = theme::stroke(width, ink);
    let head = match fit {
        Fit::Loose => {
            let top = at.y + wide;
            painter.circle_stroke(Pos2::new(at.x, top), wide, stroke);
            top + wide
        }
        Fit::Good => at.y + 1.0,
        Fit::Crushed => {
            let sunk = at.y + wide;
            let ends = [Pos2::new(at.x - wide, sunk), Pos2::new(at.x + wide, sunk)];
            painter.line_segment(ends, theme::stroke(width * 1.9, ink));
            sunk
        }
    };
    (head, stroke)
}

/// Fills the jaw from its straight back down to its worn or bent edge.
/// Its edge is a line between stations that were read, and dots where nobody
/// has measured it.
fn jaw_from_above(
    painter: &Painter,
    splice: &Splice<'_>,
    (top, edge): (f32, &[Pos2]),
    [between, beyond]: [Vec<Vec<Pos2>>; 2],
) {
    let palette = splice.palette;
    let back: Vec<Pos2> = edge.iter().map(|point| Pos2::new(point.x, top)).collect();
    let mut mesh = Mesh::default();
    let lower = Lying {
        edge,
        band: None,
        bottom: top,
        measured: Rangef::EVERYTHING,
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
    for piece in between {
        outlined(painter, splice.shown, piece, theme::stroke(3.0, ink));
    }
    for piece in beyond {
        painter.extend(Shape::dotted_line(&piece, ink, 7.0, 1.6));
    }
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
fn elided(painter: &Painter, splice: &Splice<'_>, font: &FontId, text: &str) -> Arc<Galley> {
    let room = splice.axis.right - splice.axis.left - font.size * 0.7;
    let ink = splice.palette.ink;
    let mut job = LayoutJob::simple_singleline(text.to_owned(), font.clone(), ink);
    job.wrap = TextWrapping::truncate_at_width(room);
    painter.layout_job(job)
}
