//! Contrast as WCAG 2.2 has it, of colours and of what is really drawn.

// Each test takes what it needs.
#![allow(dead_code)]

use std::collections::HashMap;

use eframe::egui::{Color32, Rect, Role, Shape, Vec2};
use eframe::wgpu;
use egui_kittest::kittest::NodeT;

use super::hand::Window;

/// Size in points from which text counts as large, and from which it does where
/// it is bold: 18 and 14 points of print (WCAG 2.2, "large scale").
const LARGE: (f32, f32) = (24.0, 18.66);

/// Relative luminance (WCAG 2.2, "relative luminance").
fn luminance([red, green, blue]: [u8; 3]) -> f64 {
    let linear = |value: u8| {
        let value = f64::from(value) / 255.0;
        if value <= 0.040_45 {
            value / 12.92
        } else {
            ((value + 0.055) / 1.055).powf(2.4)
        }
    };
    0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue)
}

fn ratio_of(one: [u8; 3], other: [u8; 3]) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

fn rgb(colour: Color32) -> [u8; 3] {
    [colour.r(), colour.g(), colour.b()]
}

/// Contrast ratio of two colours (WCAG 2.2, "contrast ratio").
pub fn ratio(one: Color32, other: Color32) -> f64 {
    ratio_of(rgb(one), rgb(other))
}

/// Whether pictures can be drawn here.
pub fn has_adapter() -> bool {
    let instance = wgpu::Instance::default();
    let options = wgpu::RequestAdapterOptions::default();
    pollster::block_on(instance.request_adapter(&options)).is_ok()
}

/// A text as it is painted.
struct Painted {
    text: String,
    seen: Rect,
    ink: Color32,
    large: bool,
}

/// Every text on show that stands out too little from what is really behind
/// it. What is out of use and what is behind a dialog may be faint.
pub fn faint(window: &mut Window) -> Vec<String> {
    let screen = window.ctx.content_rect();
    let mut texts: Vec<Painted> = Vec::new();
    for clipped in &window.output().shapes {
        walk(&clipped.shape, &mut |shape| match shape {
            Shape::Rect(rect) if rect.fill.a() > 0 => {
                let cover = rect.rect.intersect(clipped.clip_rect);
                if rect.rect.contains_rect(screen.shrink(1.0)) {
                    texts.clear();
                } else if rect.fill.a() >= 200 {
                    texts.retain(|text| !text.seen.intersect(cover).is_positive());
                }
            }
            Shape::Text(text) => {
                for section in &text.galley.job.sections {
                    let size = section.format.font_id.size;
                    let bold = format!("{:?}", section.format.font_id.family).contains("bold");
                    let mut ink = section.format.color;
                    if ink == Color32::PLACEHOLDER {
                        ink = text.fallback_color;
                    }
                    let ink = text.override_text_color.unwrap_or(ink);
                    let ink = ink.gamma_multiply(text.opacity_factor);
                    if text.galley.job.sections.len() > 1 {
                        // Parts share their lines; each is looked at elsewhere.
                        continue;
                    }
                    for row in &text.galley.rows {
                        let rect = row.rect().translate(text.pos.to_vec2());
                        let seen = rect.intersect(clipped.clip_rect).intersect(screen);
                        let said = row.row.text();
                        if said.trim().is_empty() || seen.width() < 3.0 || seen.height() < 8.0 {
                            continue;
                        }
                        texts.push(Painted {
                            text: said,
                            seen,
                            ink,
                            large: size >= if bold { LARGE.1 } else { LARGE.0 },
                        });
                    }
                }
            }
            _ => {}
        });
    }
    let out_of_use: Vec<Rect> = window
        .root()
        .children_recursive()
        .filter(|node| node.accesskit_node().is_disabled())
        .filter(|node| node.accesskit_node().role() != Role::GenericContainer)
        .map(|node| node.rect())
        .collect();
    let image = window.render().unwrap();
    let scale = image.width() as f32 / screen.width();
    let mut found = Vec::new();
    for text in texts {
        if (out_of_use.iter()).any(|rect| rect.expand(2.0).contains(text.seen.center())) {
            continue;
        }
        // The ground is what most of the text's place is.
        let place = text.seen.shrink2(Vec2::new(0.0, 1.0)) * scale;
        let mut counts: HashMap<[u8; 3], usize> = HashMap::new();
        for y in place.top() as u32..(place.bottom() as u32).min(image.height()) {
            for x in place.left() as u32..(place.right() as u32).min(image.width()) {
                let [red, green, blue, _] = image.get_pixel(x, y).0;
                *counts.entry([red, green, blue]).or_default() += 1;
            }
        }
        let Some((ground, _)) = counts.into_iter().max_by_key(|(_, count)| *count) else {
            continue;
        };
        let ink = text.ink;
        if ink.a() < 250 {
            // Faded on purpose: a hint that goes, or scrolled to the edge.
            continue;
        }
        let ratio = ratio_of(rgb(ink), ground);
        let least = if text.large { 3.0 } else { 4.5 };
        if ratio < least {
            found.push(format!(
                "{:?} {ratio:.2}, {ink:?} on {ground:?} at {:?}",
                text.text, text.seen.min
            ));
        }
    }
    found
}

fn walk(shape: &Shape, see: &mut impl FnMut(&Shape)) {
    match shape {
        Shape::Vec(shapes) => shapes.iter().for_each(|shape| walk(shape, see)),
        shape => see(shape),
    }
}
