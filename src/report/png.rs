//! Paints a picture as PNG.

use skrifa::outline::OutlinePen;
use tiny_skia::{
    FillRule, Paint, Path, PathBuilder, Pixmap, PremultipliedColorU8, Stroke, StrokeDash, Transform,
};

use super::{Fonts, Ink, Mark, Page, Pen};

/// Why a picture could not be painted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PngProblem {
    /// Nothing, or more than a picture can hold.
    Size,
    /// It could not be packed; carries the packer's own words.
    NotWritten(String),
}

/// Paints a page as PNG on white, `per_point` pixels to the point.
///
/// # Errors
/// See [`PngProblem`].
pub fn png(page: &Page, fonts: &Fonts, per_point: f32) -> Result<Vec<u8>, PngProblem> {
    let pixels = |points: f32| (points * per_point).ceil().clamp(0.0, 20_000.0) as u32;
    let size = (pixels(page.width), pixels(page.height));
    let mut pixmap = Pixmap::new(size.0, size.1).ok_or(PngProblem::Size)?;
    if let Some(white) = PremultipliedColorU8::from_rgba(255, 255, 255, 255) {
        pixmap.pixels_mut().fill(white);
    }
    let scale = Transform::from_scale(per_point, per_point);
    for mark in &page.marks {
        match mark {
            Mark::Open(_) | Mark::Close => {}
            Mark::Text {
                at,
                size,
                face,
                ink,
                text,
            } => {
                let mut x = at.x;
                for glyph in fonts.glyphs(text, *face) {
                    let mut outline = Outline(PathBuilder::new());
                    fonts.outline(&glyph, &mut outline);
                    if let Some(path) = outline.0.finish() {
                        // Outlines grow upward, pages downward.
                        let place = scale.pre_translate(x, at.y).pre_scale(*size, -*size);
                        pixmap.fill_path(&path, &paint(*ink), FillRule::Winding, place, None);
                    }
                    x += size * glyph.advance;
                }
            }
            Mark::Path {
                points,
                closed,
                fill,
                pen,
            } => {
                let mut builder = PathBuilder::new();
                for (index, point) in points.iter().enumerate() {
                    match index {
                        0 => builder.move_to(point.x, point.y),
                        _ => builder.line_to(point.x, point.y),
                    }
                }
                if *closed {
                    builder.close();
                }
                draw(&mut pixmap, builder.finish(), *fill, *pen, scale);
            }
            Mark::Circle {
                at,
                radius,
                fill,
                pen,
            } => {
                let path = PathBuilder::from_circle(at.x, at.y, *radius);
                draw(&mut pixmap, path, *fill, *pen, scale);
            }
        }
    }
    pixmap
        .encode_png()
        .map_err(|problem| PngProblem::NotWritten(problem.to_string()))
}

fn draw(
    pixmap: &mut Pixmap,
    path: Option<Path>,
    fill: Option<Ink>,
    pen: Option<Pen>,
    scale: Transform,
) {
    let Some(path) = path else {
        return;
    };
    if let Some(ink) = fill {
        pixmap.fill_path(&path, &paint(ink), FillRule::Winding, scale, None);
    }
    if let Some(pen) = pen {
        let stroke = Stroke {
            width: pen.width,
            dash: pen
                .dash
                .and_then(|(dash, gap)| StrokeDash::new(vec![dash, gap], 0.0)),
            ..Stroke::default()
        };
        pixmap.stroke_path(&path, &paint(pen.ink), &stroke, scale, None);
    }
}

fn paint(ink: Ink) -> Paint<'static> {
    let [red, green, blue] = ink.rgb();
    let mut paint = Paint::default();
    paint.set_color_rgba8(red, green, blue, 255);
    paint.anti_alias = true;
    paint
}

/// The outline of a glyph as a path.
struct Outline(PathBuilder);

impl OutlinePen for Outline {
    fn move_to(&mut self, x: f32, y: f32) {
        self.0.move_to(x, y);
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.0.line_to(x, y);
    }

    fn quad_to(&mut self, cx: f32, cy: f32, x: f32, y: f32) {
        self.0.quad_to(cx, cy, x, y);
    }

    fn curve_to(&mut self, ax: f32, ay: f32, bx: f32, by: f32, x: f32, y: f32) {
        self.0.cubic_to(ax, ay, bx, by, x, y);
    }

    fn close(&mut self) {
        self.0.close();
    }
}
