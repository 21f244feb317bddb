//! What a frame really shows: every line of text, where it is cut off, what
//! it lies over; and what a screen reader and a finger find.

// Each test takes what it needs.
#![allow(dead_code)]

use eframe::egui::accesskit::Action;
use eframe::egui::{Pos2, Rect, Role, Shape, Vec2};
use egui_kittest::kittest::NodeT;

use super::hand::Window;

#[path = "inches.rs"]
mod inches;

use inches::read_as_in;

/// Height of what is pressed, in points.
const TARGET: f32 = 44.0;

/// How far a line may reach beyond its clip, in points: accents and rounding.
const LEEWAY: f32 = 1.5;

/// Height from which a clip is that of a scrolled column rather than of a
/// button or cell.
const COLUMN: f32 = 72.0;

/// Height of the top bar.
const TOP_BAR: f32 = 60.0;

/// A line of text as it is painted.
#[derive(Debug, Clone)]
struct Line {
    text: String,
    rect: Rect,
    clip: Rect,
}

impl Line {
    fn seen(&self) -> Rect {
        self.rect.intersect(self.clip)
    }
}

/// Whether columns may be cut off at their lower and upper ends, as they are
/// where they scroll.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Columns {
    Scroll,
    FitWhole,
}

/// Every text of the last frame that is cut off, covered or overlapped.
pub fn unreadable(window: &Window, columns: Columns) -> Vec<String> {
    let screen = window.ctx.content_rect();
    let mut lines: Vec<Line> = Vec::new();
    let mut found = Vec::new();
    for clipped in &window.output().shapes {
        walk(&clipped.shape, &mut |shape| match shape {
            Shape::Rect(rect) if rect.fill.a() > 0 => {
                if rect.rect.contains_rect(screen.shrink(1.0)) {
                    // What is behind a dialog is out of use.
                    lines.clear();
                    found.clear();
                } else if rect.fill.a() >= 200 {
                    let cover = rect.rect.intersect(clipped.clip_rect);
                    covered(&mut lines, cover, &mut found);
                }
            }
            Shape::Text(text) => {
                let galley = &text.galley;
                // The heading in the top bar gives way; it is said whole on
                // hover and to a screen reader.
                if galley.elided && text.pos.y > TOP_BAR {
                    found.push(format!("shortened: {:?}", galley.text()));
                }
                for row in &galley.rows {
                    // Without the space between lines, and without what a
                    // text that goes on after another leaves free before it.
                    let mut rect = row.rect().translate(text.pos.to_vec2());
                    if let Some(first) = row.row.glyphs.first() {
                        rect.min.x += first.pos.x;
                    }
                    let line = Line {
                        text: row.row.text(),
                        rect: rect.shrink2(Vec2::new(0.0, 3.0)),
                        clip: clipped.clip_rect,
                    };
                    if line.text.trim().is_empty() {
                        continue;
                    }
                    if read_as_in(&line.text) {
                        found.push(format!("inches that read as IN: {:?}", line.text));
                    }
                    cut_off(&line, screen, columns, &mut found);
                    let seen = line.seen();
                    if seen.is_positive() {
                        overlapped(&lines, &line, &mut found);
                        lines.push(line);
                    }
                }
            }
            _ => {}
        });
    }
    found.sort();
    found.dedup();
    found
}

fn walk(shape: &Shape, see: &mut impl FnMut(&Shape)) {
    match shape {
        Shape::Vec(shapes) => shapes.iter().for_each(|shape| walk(shape, see)),
        shape => see(shape),
    }
}

fn cut_off(line: &Line, screen: Rect, columns: Columns, found: &mut Vec<String>) {
    let Line { text, rect, clip } = line;
    // The row of stages scrolls sideways, and is the only one that does.
    let row_of_stages = clip.height() < COLUMN && clip.top() < 120.0 && clip.width() > 300.0;
    if row_of_stages && !line.seen().is_positive() {
        return;
    }
    if !line.seen().is_positive() {
        // All of it is scrolled away, unless nothing scrolls.
        if columns == Columns::FitWhole && !screen.intersects(*rect) {
            found.push(format!("off the window: {text:?} at {rect:?}"));
        }
        return;
    }
    let sideways = rect.left() < clip.left() - LEEWAY || rect.right() > clip.right() + LEEWAY;
    let upward = rect.top() < clip.top() - LEEWAY || rect.bottom() > clip.bottom() + LEEWAY;
    // A text longer than its field moves in it.
    let field = clip.height() <= TARGET;
    if sideways && !row_of_stages && !field {
        found.push(format!(
            "cut off sideways: {text:?} at {rect:?} by {clip:?}"
        ));
    }
    // What stands in a column that scrolls may be cut there by the column; how
    // it stands by itself shows where every column is whole.
    let scrolls = columns == Columns::Scroll && *clip != screen;
    if upward && !scrolls {
        found.push(format!("cut off: {text:?} at {rect:?} by {clip:?}"));
    }
    if !screen.expand(LEEWAY).contains_rect(line.seen()) {
        found.push(format!("off the window: {text:?} at {rect:?}"));
    }
}

/// Text under something painted later; part of it is hidden.
fn covered(lines: &mut Vec<Line>, cover: Rect, found: &mut Vec<String>) {
    lines.retain(|line| {
        let both = line.seen().shrink(1.0).intersect(cover);
        if !both.is_positive() {
            return true;
        }
        found.push(format!(
            "covered: {:?} at {:?} by {cover:?}",
            line.text, line.rect
        ));
        false
    });
}

fn overlapped(lines: &[Line], line: &Line, found: &mut Vec<String>) {
    for other in lines {
        let both = other.seen().shrink(1.0).intersect(line.seen().shrink(1.0));
        if both.is_positive() {
            found.push(format!(
                "on each other: {:?} and {:?} at {:?}",
                other.text, line.text, both.min
            ));
        }
    }
}

/// Everything that takes keyboard or pointer and has no name.
pub fn unnamed(window: &Window) -> Vec<String> {
    window
        .root()
        .children_recursive()
        .map(|node| node.accesskit_node())
        .filter(|node| !node.is_hidden())
        .filter(|node| {
            node.data().supports_action(Action::Focus) || node.data().supports_action(Action::Click)
        })
        // An empty line of a grid is nothing.
        .filter(|node| {
            let width = node
                .raw_bounds()
                .map_or(0.0, |bounds| bounds.x1 - bounds.x0);
            width > 0.0 || !matches!(node.role(), Role::Label)
        })
        // A scroll bar is known by its role, and what scrolls by what stands
        // in it.
        .filter(|node| node.role() != Role::ScrollBar)
        .filter(|node| {
            let named = |text: Option<String>| text.is_some_and(|text| !text.trim().is_empty());
            // Text says itself.
            let text = matches!(node.role(), Role::Label | Role::TextRun);
            !(named(node.label()) || text && named(node.value()))
        })
        .map(|node| format!("{:?} at {:?}", node.role(), node.raw_bounds()))
        .collect()
}

/// Everything pressed that is lower than a finger in a glove.
///
/// Text that can be marked is no button, and the points of the chart that can
/// be dragged have the nuts below them, which do the same and are larger.
pub fn too_small(window: &Window) -> Vec<String> {
    window
        .root()
        .children_recursive()
        .map(|node| node.accesskit_node())
        .filter(|node| !node.is_hidden())
        .filter(|node| node.data().supports_action(Action::Click))
        .filter(|node| {
            let role = node.role();
            !matches!(
                role,
                Role::Label | Role::TextRun | Role::Unknown | Role::ScrollBar
            )
        })
        .filter_map(|node| {
            let bounds = node.raw_bounds()?;
            let rect = Rect::from_min_max(
                Pos2::new(bounds.x0 as f32, bounds.y0 as f32),
                Pos2::new(bounds.x1 as f32, bounds.y1 as f32),
            );
            (rect.height() < TARGET - 0.5)
                .then(|| format!("{:?} {:?} at {rect:?}", node.role(), node.label()))
        })
        .collect()
}
