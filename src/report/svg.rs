//! Writes a picture as SVG 1.1. Its letters stay letters, in the fonts of
//! whoever looks at it, as wide as they were laid out here.

use std::fmt::Write;

use super::{Face, Fonts, Ink, Mark, Page, Part, Pen, Point};

/// Writes a page as SVG.
pub fn svg(page: &Page, fonts: &Fonts, title: &str) -> String {
    let mut out = String::new();
    let (width, height) = (page.width, page.height);
    line(
        &mut out,
        format_args!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}pt\" height=\"{height}pt\" \
             viewBox=\"0 0 {width} {height}\" font-family=\"'DejaVu Sans',Arial,sans-serif\" \
             font-stretch=\"condensed\" role=\"img\">"
        ),
    );
    line(&mut out, format_args!("<title>{}</title>", safe(title)));
    let figure = page.marks.iter().find_map(|mark| match mark {
        Mark::Open(Part::Figure(words)) => Some(words),
        _ => None,
    });
    if let Some(words) = figure {
        line(&mut out, format_args!("<desc>{}</desc>", safe(words)));
    }
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
                let weight = match face {
                    Face::Regular => "",
                    Face::Bold => " font-weight=\"bold\"",
                };
                let wide = fonts.width(text.trim_end(), *size, *face);
                line(
                    &mut out,
                    format_args!(
                        "<text x=\"{:.2}\" y=\"{:.2}\" font-size=\"{size}\"{weight} fill=\"{}\" \
                         textLength=\"{wide:.2}\" lengthAdjust=\"spacingAndGlyphs\">{}</text>",
                        at.x,
                        at.y,
                        hex(*ink),
                        safe(text.trim_end())
                    ),
                );
            }
            Mark::Path {
                points,
                closed,
                fill,
                pen,
            } => {
                let kind = if *closed { "polygon" } else { "polyline" };
                line(
                    &mut out,
                    format_args!(
                        "<{kind} points=\"{}\"{}/>",
                        places(points),
                        drawn(*fill, *pen)
                    ),
                );
            }
            Mark::Circle {
                at,
                radius,
                fill,
                pen,
            } => line(
                &mut out,
                format_args!(
                    "<circle cx=\"{:.2}\" cy=\"{:.2}\" r=\"{radius:.2}\"{}/>",
                    at.x,
                    at.y,
                    drawn(*fill, *pen)
                ),
            ),
        }
    }
    line(&mut out, format_args!("</svg>"));
    out
}

fn line(out: &mut String, text: std::fmt::Arguments<'_>) {
    // Writing into memory does not fail.
    let _ = writeln!(out, "{text}");
}

fn places(points: &[Point]) -> String {
    let places: Vec<String> = points
        .iter()
        .map(|point| format!("{:.2},{:.2}", point.x, point.y))
        .collect();
    places.join(" ")
}

fn drawn(fill: Option<Ink>, pen: Option<Pen>) -> String {
    let fill = fill.map_or_else(|| "none".to_owned(), hex);
    let mut out = format!(" fill=\"{fill}\"");
    if let Some(pen) = pen {
        let (ink, width) = (hex(pen.ink), pen.width);
        out.push_str(&format!(" stroke=\"{ink}\" stroke-width=\"{width:.2}\""));
        if let Some((dash, gap)) = pen.dash {
            out.push_str(&format!(" stroke-dasharray=\"{dash} {gap}\""));
        }
    }
    out
}

fn hex(ink: Ink) -> String {
    let [red, green, blue] = ink.rgb();
    format!("#{red:02x}{green:02x}{blue:02x}")
}

/// A text without what XML would take for its own, and without characters that
/// XML 1.0 does not allow at all.
fn safe(text: &str) -> String {
    text.chars()
        .map(|letter| match letter {
            '&' => "&amp;".to_owned(),
            '<' => "&lt;".to_owned(),
            '>' => "&gt;".to_owned(),
            '"' => "&quot;".to_owned(),
            letter if letter.is_control() || matches!(letter, '\u{fffe}' | '\u{ffff}') => {
                " ".to_owned()
            }
            letter => letter.to_string(),
        })
        .collect()
}
