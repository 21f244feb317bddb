//! A press drawn from plain data: nuts, rods with their loads, the jaws with the
//! splice and its hooks between them, and the opening with the hook retainer.

use eframe::egui::{
    Align2, Color32, CornerRadius, Painter, Pos2, Rect, Role, Sense, Shape, StrokeKind, Ui, Vec2,
    WidgetInfo,
};

use crate::practice::Retainer;
use crate::press::ArmIndex;
use crate::window::theme::{self, Palette};

/// What is drawn. Lengths in nanometres; changes of the splice, thicker
/// positive.
pub struct PressDrawn<'a> {
    /// Where the arms stand.
    pub arms_nm: &'a [f64],
    /// Length of the jaw.
    pub jaw_nm: f64,
    /// Change of the splice all along the jaw, evenly spaced from end to end.
    pub along_nm: &'a [f64],
    /// Nut positions.
    pub nuts: &'a [i32],
    /// Share of the load on each rod.
    pub rod_shares: &'a [f64],
    /// How the retainer comes out at each arm.
    pub retainer: &'a [Retainer],
    /// What is left of the opening at each arm, as a share of what a true press
    /// has.
    pub opening_left: &'a [f64],
    /// From how much thinner the hooks cut into the belt.
    pub cuts_from_nm: f64,
    /// How many times larger changes are drawn than the jaw's length.
    pub exaggeration: f64,
}

/// What stands beside the drawing.
pub struct PressLabels<'a> {
    /// Size of the letters.
    pub font: f32,
    /// Name of the drawing for screen readers.
    pub name: &'a str,
    /// What the retainer does, for each arm.
    pub retainer: &'a [String],
    /// The load of each rod.
    pub rods: &'a [String],
    /// The scale.
    pub scale: &'a str,
}

/// Draws it, `height` points high.
pub fn show(
    ui: &mut Ui,
    palette: &Palette,
    drawn: &PressDrawn<'_>,
    labels: &PressLabels<'_>,
    height: f32,
) {
    let size = Vec2::new(ui.available_width(), height);
    let (area, response) = ui.allocate_exact_size(size, Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, labels.name));
    let painter = ui.painter_at(area);
    let font = labels.font;
    let places = Places::of(area, font, drawn);
    rods(&painter, palette, drawn, labels, &places);
    splice(&painter, palette, drawn, &places);
    retainers(&painter, palette, drawn, labels, &places);
    painter.text(
        Pos2::new(area.right() - font * 0.3, places.moving.center().y),
        Align2::RIGHT_CENTER,
        labels.scale,
        theme::regular(font * 0.8),
        palette.ink,
    );
}

/// Where the parts stand.
struct Places {
    area: Rect,
    left: f32,
    width: f32,
    jaw_nm: f64,
    /// Top of the stationary jaw, and its edge where the splice is unchanged.
    jaw_top: f32,
    edge: f32,
    /// Top of the moving jaw.
    bottom: f32,
    moving: Rect,
    points_per_nm: f64,
}

impl Places {
    fn of(area: Rect, font: f32, drawn: &PressDrawn<'_>) -> Self {
        let left = area.left() + font * 0.4;
        let width = (area.width() - font * 0.8).max(1.0);
        let below = font * 3.4;
        let moving = Rect::from_min_max(
            Pos2::new(left, area.bottom() - below - font * 1.2),
            Pos2::new(left + width, area.bottom() - below),
        );
        let bottom = moving.top();
        let room = bottom - area.top();
        Self {
            area,
            left,
            width,
            jaw_nm: drawn.jaw_nm,
            jaw_top: area.top() + room * 0.34,
            edge: bottom - room * 0.3,
            bottom,
            moving,
            points_per_nm: drawn.exaggeration * f64::from(width) / drawn.jaw_nm,
        }
    }

    /// The tallest change that is drawn, in points.
    fn most(&self) -> f32 {
        (self.bottom - self.edge) - 4.0
    }

    fn x(&self, at_nm: f64) -> f32 {
        self.left + self.width * (at_nm / self.jaw_nm) as f32
    }

    /// The stationary jaw's lower edge where the splice changed so much.
    fn y(&self, change_nm: f64) -> f32 {
        let by = (change_nm * self.points_per_nm) as f32;
        self.edge - by.clamp(-self.most(), self.edge - self.jaw_top - 6.0)
    }
}

/// How tall changes may be drawn in a picture so high, in points: for choosing
/// an exaggeration.
pub fn tallest(height: f32, font: f32) -> f32 {
    (height - font * 4.6) * 0.26
}

fn rods(
    painter: &Painter,
    palette: &Palette,
    drawn: &PressDrawn<'_>,
    labels: &PressLabels<'_>,
    places: &Places,
) {
    let font = labels.font;
    let even = 1.0 / drawn.arms_nm.len().max(1) as f64;
    for (arm, at) in drawn.arms_nm.iter().enumerate() {
        let x = places.x(*at);
        let nut = drawn.nuts.get(arm).copied().unwrap_or_default();
        let share = drawn.rod_shares.get(arm).copied().unwrap_or_default();
        let slack = share <= 0.0;
        let nut_y = places.area.top() + font * 2.5 - (nut as f32 * font * 0.09);
        let half = (2.0 + 3.0 * (share / even) as f32).clamp(1.5, 12.0);
        if slack {
            let line = [Pos2::new(x, nut_y), Pos2::new(x, places.jaw_top)];
            let stroke = theme::stroke(2.0, palette.steel_edge);
            painter.extend(Shape::dashed_line(&line, stroke, 6.0, 5.0));
        } else {
            let rod = Rect::from_x_y_ranges(x - half..=x + half, nut_y..=places.jaw_top);
            let edge = theme::stroke(1.0, palette.steel_edge);
            painter.rect(
                rod,
                CornerRadius::ZERO,
                palette.steel,
                edge,
                StrokeKind::Inside,
            );
        }
        castle_nut(painter, palette, Pos2::new(x, nut_y), font, nut != 0);
        let ink = if nut == 0 {
            palette.ink
        } else {
            palette.preview
        };
        painter.text(
            Pos2::new(x, places.area.top()),
            Align2::CENTER_TOP,
            format!("{} {nut:+}", ArmIndex(arm)),
            theme::bold(font),
            ink,
        );
        if let Some(load) = labels.rods.get(arm) {
            // On the side where there is room.
            let aside = half.max(4.0) + 3.0;
            let (aside, align) = if x > places.area.center().x {
                (-aside, Align2::RIGHT_BOTTOM)
            } else {
                (aside, Align2::LEFT_BOTTOM)
            };
            painter.text(
                Pos2::new(x + aside, places.jaw_top - 2.0),
                align,
                load,
                theme::regular(font * 0.75),
                if slack { palette.caution } else { palette.ink },
            );
        }
    }
}

/// A castle nut from the side: a body with its slots.
fn castle_nut(painter: &Painter, palette: &Palette, at: Pos2, font: f32, turned: bool) {
    let size = Vec2::new(font * 1.5, font * 0.75);
    let body = Rect::from_center_size(at, size);
    let ink = if turned {
        palette.preview
    } else {
        palette.steel_edge
    };
    let edge = theme::stroke(1.5, ink);
    painter.rect(
        body,
        CornerRadius::same(2),
        palette.button,
        edge,
        StrokeKind::Inside,
    );
    for slot in [-0.25, 0.0, 0.25] {
        let x = at.x + slot * size.x;
        let line = [Pos2::new(x, body.top()), Pos2::new(x, at.y)];
        painter.line_segment(line, edge);
    }
}

fn splice(painter: &Painter, palette: &Palette, drawn: &PressDrawn<'_>, places: &Places) {
    let last = drawn.along_nm.len().saturating_sub(1).max(1) as f64;
    let edge: Vec<Pos2> = drawn
        .along_nm
        .iter()
        .enumerate()
        .map(|(index, change)| {
            let x = places.x(places.jaw_nm * index as f64 / last);
            Pos2::new(x, places.y(*change))
        })
        .collect();
    // Belt first, jaw over it: strips, since neither outline is convex.
    for pair in edge.windows(2) {
        let &[left, right] = pair else { continue };
        let strip = |top: [Pos2; 2], bottom: f32, fill: Color32| {
            let down = |at: Pos2| Pos2::new(at.x, bottom);
            let corners = vec![top[0], top[1], down(top[1]), down(top[0])];
            painter.add(Shape::convex_polygon(
                corners,
                fill,
                theme::stroke(0.0, fill),
            ));
        };
        strip([left, right], places.bottom, palette.belt);
        let top = [left, right].map(|at| Pos2::new(at.x, places.jaw_top));
        let corners = vec![top[0], top[1], right, left];
        let fill = palette.steel;
        painter.add(Shape::convex_polygon(
            corners,
            fill,
            theme::stroke(0.0, fill),
        ));
    }
    hooks(painter, palette, drawn, places, &edge);
    painter.line(edge, theme::stroke(2.5, palette.steel_edge));
    painter.rect(
        places.moving,
        CornerRadius::same(2),
        palette.steel,
        theme::stroke(1.0, palette.steel_edge),
        StrokeKind::Inside,
    );
}

/// Wire hooks in the belt: a loop each; where the splice is crushed their points
/// have cut in and stand crossed.
fn hooks(
    painter: &Painter,
    palette: &Palette,
    drawn: &PressDrawn<'_>,
    places: &Places,
    edge: &[Pos2],
) {
    for (change, at) in drawn.along_nm.iter().zip(edge).skip(1).step_by(2) {
        let (top, bottom) = (at.y + 3.0, places.bottom - 3.0);
        let half = (places.width / edge.len().max(1) as f32 * 0.5).min(7.0);
        let cut = *change <= -drawn.cuts_from_nm;
        let (width, ink) = if cut {
            (2.2, palette.caution)
        } else {
            (1.6, palette.belt_edge)
        };
        let stroke = theme::stroke(width, ink);
        let middle = 0.5 * (top + bottom);
        let (left, right) = (at.x - half, at.x + half);
        painter.line_segment([Pos2::new(left, top), Pos2::new(right, top)], stroke);
        painter.line_segment([Pos2::new(left, bottom), Pos2::new(right, bottom)], stroke);
        // The legs' points: apart in a sound splice, through each other where
        // they have cut in.
        let reach = if cut { 3.0 } else { -3.0 };
        let upper = Pos2::new(right, middle + reach);
        painter.line_segment([Pos2::new(right, top), upper], stroke);
        let lower = Pos2::new(left, middle - reach);
        painter.line_segment([Pos2::new(left, bottom), lower], stroke);
    }
}

fn retainers(
    painter: &Painter,
    palette: &Palette,
    drawn: &PressDrawn<'_>,
    labels: &PressLabels<'_>,
    places: &Places,
) {
    let font = labels.font;
    let top = places.moving.bottom() + font * 0.3;
    let (width, height) = (font * 2.2, font * 1.3);
    for (arm, at) in drawn.arms_nm.iter().enumerate() {
        let x = places.x(*at);
        let state = drawn.retainer.get(arm).copied().unwrap_or(Retainer::Slides);
        let left = drawn.opening_left.get(arm).copied().unwrap_or(1.0);
        let ink = match state {
            Retainer::Slides => palette.good,
            Retainer::Drags => palette.outside,
            Retainer::Sticks => palette.caution,
        };
        // The open jaw from the side: two edges, and the retainer between.
        let gap = (0.35 + 0.45 * left.clamp(-0.35, 1.0) as f32) * height;
        let middle = top + 0.5 * height;
        for edge in [middle - 0.5 * gap, middle + 0.5 * gap] {
            let line = [
                Pos2::new(x - 0.5 * width, edge),
                Pos2::new(x + 0.5 * width, edge),
            ];
            painter.line_segment(line, theme::stroke(3.0, palette.steel_edge));
        }
        let shift = match state {
            Retainer::Slides => 0.45,
            Retainer::Drags => 0.2,
            Retainer::Sticks => 0.0,
        };
        let centre = Pos2::new(x + shift * width, middle);
        painter.rect(
            Rect::from_center_size(centre, Vec2::new(width * 0.8, height * 0.35)),
            CornerRadius::same(2),
            palette.card,
            theme::stroke(2.0, ink),
            StrokeKind::Inside,
        );
        if let Some(said) = labels.retainer.get(arm) {
            painter.text(
                Pos2::new(x, top + height + font * 0.15),
                Align2::CENTER_TOP,
                said,
                theme::bold(font * 0.85),
                ink,
            );
        }
    }
}
