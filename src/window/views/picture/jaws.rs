//! The two jaws edge-on, with the gap exaggerated.

use eframe::egui::{Align2, CornerRadius, Painter, Pos2, Rect, Sense, Shape, StrokeKind, Ui, Vec2};

use crate::window::theme::{self, size};

use crate::window::views::Scene;
use crate::window::views::picture::jaw_axis::JawAxis;

/// Height of the picture of the jaws where there is `room` for chart and jaws.
pub fn height(room: f32) -> f32 {
    (room * 0.34).clamp(62.0, 190.0)
}

/// Draws rods, stationary jaw, belt with its hooks, and moving jaw.
pub fn show(ui: &mut Ui, scene: &Scene<'_>, axis: JawAxis, height: f32) {
    let (area, _) = ui.allocate_exact_size(Vec2::new(ui.available_width(), height), Sense::hover());
    let palette = scene.palette;
    let painter = ui.painter();
    let parts = Parts::of(area, height);
    let depth = parts.jaw_bottom_most - parts.jaw_bottom_least;

    let after = scene.outlook.means_after(&scene.preview());
    let turned = scene.preview().iter().any(|turn| turn.0 != 0);
    let known: Vec<f64> = scene
        .outlook
        .means_nm
        .iter()
        .chain(if turned { after.as_slice() } else { &[] })
        .filter_map(|mean| *mean)
        .collect();
    let thickest = known.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let thinnest = known.iter().copied().fold(f64::INFINITY, f64::min);
    let tolerance_nm = scene.session.tolerance.length().nm_f64();
    let range = if known.is_empty() {
        tolerance_nm
    } else {
        (thickest - thinnest).max(tolerance_nm)
    };
    let range = range.max(scene.outlook.widest_nm);
    let exaggeration = round_down_125(f64::from(depth) / range / axis.points_per_nm());
    let points_per_nm = exaggeration * axis.points_per_nm();
    // Where the splice is thin the stationary jaw hangs low.
    // Beyond the outer arms the curve is only a guess and is kept in the jaw.
    let edge = |mean: f64| {
        let y = parts.jaw_bottom_least + ((thickest - mean) * points_per_nm) as f32;
        y.clamp(parts.jaw_bottom_least - 6.0, parts.jaw_bottom_most + 6.0)
    };

    for &arm in &scene.outlook.arms_nm {
        let x = axis.x(arm);
        let rod = Rect::from_min_max(
            Pos2::new(x - 5.0, area.top() - 4.0),
            Pos2::new(x + 5.0, parts.jaw_top),
        );
        painter.rect(
            rod,
            CornerRadius::ZERO,
            palette.steel,
            theme::stroke(1.0, palette.steel_edge),
            StrokeKind::Inside,
        );
    }
    let now = outline(
        scene,
        axis,
        &scene.outlook.means_nm,
        &edge,
        parts.jaw_bottom_least,
    );
    jaw_from_above(painter, scene, axis, parts.jaw_top, &now);
    if turned {
        let then = outline(scene, axis, &after, &edge, parts.jaw_bottom_least);
        painter.extend(Shape::dashed_line(
            &then,
            theme::stroke(2.4, palette.preview),
            8.0,
            5.0,
        ));
    }
    belt(painter, scene, axis, parts.belt);
    let lower = Rect::from_min_max(
        Pos2::new(axis.left, parts.lower_jaw_top),
        Pos2::new(axis.right, area.bottom()),
    );
    painter.rect(
        lower,
        CornerRadius::same(2),
        palette.steel,
        theme::stroke(1.0, palette.steel_edge),
        StrokeKind::Inside,
    );
    let words = scene.words();
    let font = theme::regular(if height < 120.0 {
        size::SMALL - 1.5
    } else {
        size::SMALL
    });
    painter.text(
        Pos2::new(axis.left + 7.0, parts.jaw_top + 1.0),
        Align2::LEFT_TOP,
        words.stationary_jaw(grouped(exaggeration)),
        font.clone(),
        palette.ink,
    );
    painter.text(
        Pos2::new(axis.left + 7.0, lower.center().y),
        Align2::LEFT_CENTER,
        words.moving_jaw(),
        font,
        palette.ink,
    );
}

/// Heights of the parts on the screen.
struct Parts {
    jaw_top: f32,
    jaw_bottom_least: f32,
    jaw_bottom_most: f32,
    belt: (f32, f32),
    lower_jaw_top: f32,
}

impl Parts {
    fn of(area: Rect, height: f32) -> Self {
        // In a low window every part gives way, so that the gap can be seen.
        let low = height < 120.0;
        let rod = if low {
            6.0
        } else {
            (height * 0.16).clamp(8.0, 26.0)
        };
        let jaw_top = area.top() + rod;
        let lower_jaw = if low {
            16.0
        } else {
            (height * 0.17).clamp(20.0, 30.0)
        };
        let lower_jaw_top = area.bottom() - lower_jaw;
        let belt = (height * 0.1).clamp(7.0, 16.0);
        let belt_bottom = lower_jaw_top - if low { 4.0 } else { 7.0 };
        let belt_top = belt_bottom - belt;
        let jaw_bottom_least = jaw_top + if low { 17.0 } else { 22.0 };
        Self {
            jaw_top,
            jaw_bottom_least,
            jaw_bottom_most: belt_top - if low { 3.0 } else { 6.0 },
            belt: (belt_top, belt_bottom),
            lower_jaw_top,
        }
    }
}

/// The lower edge of the stationary jaw from left to right.
pub(crate) fn outline(
    scene: &Scene<'_>,
    axis: JawAxis,
    means: &[Option<f64>],
    edge: &dyn Fn(f64) -> f32,
    flat: f32,
) -> Vec<Pos2> {
    let curve = crate::window::views::picture::curve::profile_curve(
        &scene.outlook.stations_nm,
        means,
        axis.length_nm,
    );
    if curve.is_empty() {
        return vec![Pos2::new(axis.left, flat), Pos2::new(axis.right, flat)];
    }
    curve
        .into_iter()
        .map(|[x, y]| Pos2::new(axis.x(x), edge(y)))
        .collect()
}

/// Fills the jaw from its straight back down to its worn or bent edge.
pub(crate) fn jaw_from_above(
    painter: &Painter,
    scene: &Scene<'_>,
    axis: JawAxis,
    top: f32,
    edge: &[Pos2],
) {
    let palette = scene.palette;
    let mut mesh = eframe::egui::Mesh::default();
    for point in edge {
        let next = mesh.vertices.len() as u32;
        mesh.colored_vertex(Pos2::new(point.x, top), palette.steel);
        mesh.colored_vertex(*point, palette.steel);
        if next >= 2 {
            mesh.add_triangle(next - 2, next - 1, next);
            mesh.add_triangle(next - 1, next, next + 1);
        }
    }
    painter.add(Shape::mesh(mesh));
    painter.add(Shape::line(
        edge.to_vec(),
        theme::stroke(2.2, palette.present),
    ));
    painter.line_segment(
        [Pos2::new(axis.left, top), Pos2::new(axis.right, top)],
        theme::stroke(1.0, palette.steel_edge),
    );
}

/// The belt edge-on, hooks through it.
pub(crate) fn belt(painter: &Painter, scene: &Scene<'_>, axis: JawAxis, (top, bottom): (f32, f32)) {
    let palette = scene.palette;
    let rect = Rect::from_min_max(Pos2::new(axis.left, top), Pos2::new(axis.right, bottom));
    painter.rect(
        rect,
        CornerRadius::same(2),
        palette.belt,
        theme::stroke(1.0, palette.belt_edge),
        StrokeKind::Inside,
    );
    let mut x = axis.left + 10.0;
    while x < axis.right - 4.0 {
        painter.line_segment(
            [Pos2::new(x, top - 4.0), Pos2::new(x, bottom + 4.0)],
            theme::stroke(1.4, palette.steel_edge),
        );
        x += 10.0;
    }
}

/// The largest of 1, 2, 5 times a power of ten that is not above `factor`.
pub(crate) fn round_down_125(factor: f64) -> f64 {
    if !factor.is_finite() || factor < 1.0 {
        return 1.0;
    }
    let mut best = 1.0;
    let mut power = 1.0;
    while power <= factor {
        for digit in [1.0, 2.0, 5.0] {
            if digit * power <= factor {
                best = digit * power;
            }
        }
        power *= 10.0;
    }
    best
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
