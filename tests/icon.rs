//! The icon: one drawing, `assets/icon.svg`, from which the picture of the
//! window is made (`UPDATE_SNAPSHOTS=1 cargo test --test icon`); what it shows
//! is to be seen at 16 pixels as well.

use std::path::Path;

use tiny_skia::{
    Color, FillRule, Paint, PathBuilder, Pixmap, PremultipliedColorU8, Rect, Stroke, Transform,
};

const DRAWING: &str = include_str!("../assets/icon.svg");

/// The text of an attribute of an element.
fn attribute<'a>(element: &'a str, name: &str) -> Option<&'a str> {
    let begins = format!(" {name}=\"");
    let value = element.split(&begins).nth(1)?;
    value.split('"').next()
}

fn number(element: &str, name: &str) -> f32 {
    attribute(element, name).unwrap().parse().unwrap()
}

fn color(text: &str) -> Color {
    let part = |at: usize| u8::from_str_radix(&text[at..at + 2], 16).unwrap();
    Color::from_rgba8(part(1), part(3), part(5), 255)
}

fn paint(text: &str) -> Paint<'static> {
    let mut paint = Paint::default();
    paint.set_color(color(text));
    paint
}

/// A rectangle with round corners: a quarter of a circle is a cubic whose
/// handles are 0.5523 of the radius long (error below 0.03 %).
fn round_rect(rect: Rect, radius: f32) -> PathBuilder {
    let (left, top, right, bottom) = (rect.left(), rect.top(), rect.right(), rect.bottom());
    let far = radius * (1.0 - 0.552_3);
    let mut path = PathBuilder::new();
    path.move_to(left + radius, top);
    path.line_to(right - radius, top);
    path.cubic_to(right - far, top, right, top + far, right, top + radius);
    path.line_to(right, bottom - radius);
    path.cubic_to(
        right,
        bottom - far,
        right - far,
        bottom,
        right - radius,
        bottom,
    );
    path.line_to(left + radius, bottom);
    path.cubic_to(
        left + far,
        bottom,
        left,
        bottom - far,
        left,
        bottom - radius,
    );
    path.line_to(left, top + radius);
    path.cubic_to(left, top + far, left + far, top, left + radius, top);
    path.close();
    path
}

/// Draws the three kinds of elements that the drawing has.
fn drawn(size: u32) -> Pixmap {
    let mut pixels = Pixmap::new(size, size).unwrap();
    let scale = Transform::from_scale(size as f32 / 256.0, size as f32 / 256.0);
    let mut elements = 0;
    for element in DRAWING.lines().filter(|line| line.ends_with("/>")) {
        elements += 1;
        let fill = attribute(element, "fill").unwrap();
        let mut path = PathBuilder::new();
        if element.starts_with("<rect") {
            let (x, y) = (number(element, "x"), number(element, "y"));
            let (width, height) = (number(element, "width"), number(element, "height"));
            let rect = Rect::from_xywh(x, y, width, height).unwrap();
            path = round_rect(rect, number(element, "rx"));
        } else if element.starts_with("<polygon") {
            let points = attribute(element, "points").unwrap();
            for (index, point) in points.split(' ').enumerate() {
                let (x, y) = point.split_once(',').unwrap();
                let (x, y) = (x.parse().unwrap(), y.parse().unwrap());
                if index == 0 {
                    path.move_to(x, y);
                } else {
                    path.line_to(x, y);
                }
            }
            path.close();
        } else {
            assert!(element.starts_with("<circle"), "{element}");
            path.push_circle(
                number(element, "cx"),
                number(element, "cy"),
                number(element, "r"),
            );
        }
        let path = path.finish().unwrap();
        if fill == "none" {
            let stroke = Stroke {
                width: number(element, "stroke-width"),
                ..Stroke::default()
            };
            let ink = paint(attribute(element, "stroke").unwrap());
            pixels.stroke_path(&path, &ink, &stroke, scale, None);
        } else {
            pixels.fill_path(&path, &paint(fill), FillRule::Winding, scale, None);
        }
    }
    assert_eq!(elements, DRAWING.lines().count() - 2);
    pixels
}

#[test]
fn the_picture_is_made_from_the_drawing() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/icon.png");
    let made = drawn(256).encode_png().unwrap();
    if std::env::var_os("UPDATE_SNAPSHOTS").is_some() {
        std::fs::write(&path, &made).unwrap();
    }
    let kept = Pixmap::decode_png(&std::fs::read(&path).unwrap()).unwrap();
    assert!(kept == drawn(256), "UPDATE_SNAPSHOTS=1 makes it anew");
}

/// A light jaw, the splice and the other jaw stand below each other, and the
/// upper jaw is tilted, in 16 pixels as in 256.
#[test]
fn jaws_and_splice_are_told_apart_at_every_size() {
    for size in [16, 32, 48, 256] {
        let pixels = drawn(size);
        let near = |pixel: PremultipliedColorU8, wanted: &str| {
            let wanted = color(wanted).to_color_u8();
            let apart = |a: u8, b: u8| a.abs_diff(b) < 56;
            apart(pixel.red(), wanted.red())
                && apart(pixel.green(), wanted.green())
                && apart(pixel.blue(), wanted.blue())
        };
        let rows = |x: u32, wanted: &str| -> Vec<u32> {
            let of = |y: &u32| near(pixels.pixel(x, *y).unwrap(), wanted);
            (0..size).filter(of).collect()
        };
        let (left, right) = (size * 3 / 16, size * 13 / 16);
        let tops = [left, right].map(|x| {
            let (steel, belt) = (rows(x, "#dbe3ea"), rows(x, "#e8963c"));
            let (first, last) = (belt[0], *belt.last().unwrap());
            assert!(steel[0] < first && *steel.last().unwrap() > last, "{size}");
            steel[0]
        });
        assert!(tops[1] < tops[0], "{size}: {tops:?}");
    }
}
