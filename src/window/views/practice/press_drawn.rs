//! A press drawn from plain data: nuts, rods with their loads, the jaws with the
//! splice and its hooks between them, and the opening with the hook retainer.

use std::sync::Arc;

use eframe::egui::{
    Align2, Color32, CornerRadius, Galley, Mesh, Painter, Pos2, Rangef, Rect, Role, Sense, Shape,
    StrokeKind, Ui, Vec2, WidgetInfo,
};

use crate::practice::Retainer;
use crate::window::theme::{self, Palette};
use crate::window::views::picture::splice::{Fit, PLIES, hook_head, strip};
use crate::window::views::practice::press_compared::{self, Mark};

/// What is drawn. Lengths in nanometres; changes of the splice, thicker
/// positive.
pub struct PressDrawn<'a> {
    /// Where the arms stand.
    pub arms_nm: &'a [f64],
    /// Length of the jaw.
    pub jaw_nm: f64,
    /// Change of the splice all along the jaw, evenly spaced from end to end.
    pub along_nm: &'a [f64],
    /// Nut positions, in notches; on the way from one to the next between them.
    pub nuts: &'a [f64],
    /// Share of the load on each rod.
    pub rod_shares: &'a [f64],
    /// How the retainer comes out at each arm; empty where it is not drawn.
    pub retainer: &'a [Retainer],
    /// What is left of the opening at each arm, as a share of what a true press
    /// has.
    pub opening_left: &'a [f64],
    /// Between which changes of the splice hooks sit well: below they cut into
    /// the belt, above they stand up.
    pub sit_nm: [f64; 2],
    /// How many times larger changes are drawn than the jaw's length.
    pub exaggeration: f64,
    /// The profile it is compared with, evenly spaced like the splice; empty
    /// for none.
    pub before_nm: &'a [f64],
    /// Lower and upper end of the tolerance band.
    pub band_nm: Option<[f64; 2]>,
    /// Arms that are spoken of: the splice is dimmed elsewhere; all where empty.
    pub arms: &'a [usize],
    /// What is marked at the splice.
    pub marks: &'a [Mark],
}

/// What stands beside the drawing.
pub struct PressLabels<'a> {
    /// Size of the letters.
    pub font: f32,
    /// Name of the drawing for screen readers.
    pub name: &'a str,
    /// Every arm with what its nut is turned by.
    pub nuts: &'a [String],
    /// What the retainer does, for each arm.
    pub retainer: &'a [String],
    /// The load of each rod, in words and as short as can be: what has room
    /// between the rods is written.
    pub rods: [&'a [String]; 2],
    /// What is written on the stationary and on the moving jaw, and over the
    /// jaws opened.
    pub parts: [&'a str; 3],
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
    // The heads of the outermost hooks reach out of it a little.
    let painter = ui.painter_at(area.expand2(Vec2::new(4.0, 0.0)));
    let font = labels.font;
    let places = Places::of(area, font, drawn);
    rods(&painter, palette, drawn, labels, &places);
    splice(&painter, palette, drawn, &places);
    press_compared::show(&painter, palette, drawn, &places, font);
    let strip = !drawn.retainer.is_empty();
    if strip {
        opened(&painter, palette, drawn, labels, &places);
    }
    let small = theme::regular(font * 0.8);
    let [above, below, between] = labels.parts;
    let between = if strip { between } else { "" };
    let inset = places.left + font * 0.35;
    for (text, y) in [
        (above, places.jaw_top + font * 0.6),
        (below, places.moving.center().y),
        (between, places.moving.bottom() + font * 0.75),
    ] {
        let at = Pos2::new(inset, y);
        painter.text(at, Align2::LEFT_CENTER, text, small.clone(), palette.ink);
    }
}

/// Room for what stands under the splice, in letters: the moving jaw, and the
/// jaws opened with their words.
const MOVING: f32 = 1.2;
const OPENED: f32 = 4.9;

/// Room under the moving jaw, in letters, with the jaws opened below it or not.
fn below(strip: bool) -> f32 {
    if strip { OPENED } else { 0.4 }
}

/// Where the parts stand.
pub struct Places {
    area: Rect,
    pub left: f32,
    pub width: f32,
    jaw_nm: f64,
    /// Top of the stationary jaw, and its edge where the splice is unchanged.
    pub jaw_top: f32,
    edge: f32,
    /// Top of the moving jaw.
    pub bottom: f32,
    moving: Rect,
    points_per_nm: f64,
}

impl Places {
    fn of(area: Rect, font: f32, drawn: &PressDrawn<'_>) -> Self {
        let left = area.left() + font * ASIDE;
        let width = (area.width() - 2.0 * font * ASIDE).max(1.0);
        let below = font * below(!drawn.retainer.is_empty());
        let moving = Rect::from_min_max(
            Pos2::new(left, area.bottom() - below - font * MOVING),
            Pos2::new(left + width, area.bottom() - below),
        );
        let bottom = moving.top();
        let room = bottom - area.top();
        Self {
            area,
            left,
            width,
            jaw_nm: drawn.jaw_nm,
            jaw_top: area.top() + (room * 0.26).max(font * LEAST_ROD),
            edge: bottom - room * 0.32,
            bottom,
            moving,
            points_per_nm: drawn.exaggeration * f64::from(width) / drawn.jaw_nm,
        }
    }

    /// The tallest change that is drawn, in points.
    fn most(&self) -> f32 {
        (self.bottom - self.edge) - 4.0
    }

    pub fn x(&self, at_nm: f64) -> f32 {
        self.left + self.width * (at_nm / self.jaw_nm) as f32
    }

    /// The stationary jaw's lower edge where the splice changed so much.
    pub fn y(&self, change_nm: f64) -> f32 {
        let by = (change_nm * self.points_per_nm) as f32;
        self.edge - by.clamp(-self.most(), self.edge - self.jaw_top - 6.0)
    }
}

/// Where along the screen a place of the jaw is drawn, in a picture that begins
/// at `left` and is so wide.
pub fn place((left, width): (f32, f32), font: f32, (at_nm, jaw_nm): (f64, f64)) -> f32 {
    left + font * ASIDE + (width - 2.0 * font * ASIDE).max(1.0) * (at_nm / jaw_nm) as f32
}

/// Least room for letters, nuts and rods above the jaw: of a nut as far in as it
/// goes some rod is seen.
const LEAST_ROD: f32 = 4.8;

/// Room left and right of the jaw, in letters.
const ASIDE: f32 = 0.4;

/// How tall changes may be drawn in a picture so high, in points: for choosing
/// an exaggeration.
pub fn tallest(height: f32, font: f32, strip: bool) -> f32 {
    (height - font * (MOVING + below(strip))) * 0.29
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
        let nut_y = places.area.top() + font * 2.9 - (nut as f32 * font * 0.075);
        let half = half_width(share, even);
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
        castle_nut(painter, palette, Pos2::new(x, nut_y), font, nut != 0.0);
        let ink = if nut == 0.0 {
            palette.ink
        } else {
            palette.preview
        };
        let said = painter.text(
            Pos2::new(x, places.area.top() + 2.0),
            Align2::CENTER_TOP,
            labels.nuts.get(arm).map_or("", String::as_str),
            theme::bold(font),
            ink,
        );
        if drawn.arms.contains(&arm) {
            let ring = said.expand2(Vec2::new(font * 0.4, 1.0));
            let stroke = theme::stroke(2.0, palette.present);
            painter.rect_stroke(ring, CornerRadius::same(6), stroke, StrokeKind::Outside);
        }
    }
    let loads = labels.rods.into_iter().map(|texts| {
        let arms = drawn.arms_nm.iter().zip(drawn.rod_shares).zip(texts);
        let loads = arms.map(|((at, share), text)| {
            let aside = half_width(*share, even).max(font) + 3.0;
            Load::beside(
                painter,
                palette,
                places,
                (places.x(*at), aside),
                (text, *share, font),
            )
        });
        loads.collect::<Vec<_>>()
    });
    let apart = |loads: &Vec<Load>| {
        let mut pairs = loads.iter().zip(loads.iter().skip(1));
        pairs.all(|(one, next)| one.across.max < next.across.min)
    };
    // In words where none reaches another rod, else short, else not at all.
    for load in loads.into_iter().find(apart).into_iter().flatten() {
        painter.galley(load.at, load.galley, palette.ink);
    }
}

/// How far a rod reaches to either side, by its load and an even one.
fn half_width(share: f64, even: f64) -> f32 {
    (2.0 + 3.0 * (share / even) as f32).clamp(1.5, 12.0)
}

/// What is said of the load beside a rod.
struct Load {
    at: Pos2,
    galley: Arc<Galley>,
    /// From the rod to the end of the text.
    across: Rangef,
}

impl Load {
    /// So far aside of the rod, on the side where there is room.
    fn beside(
        painter: &Painter,
        palette: &Palette,
        places: &Places,
        (x, aside): (f32, f32),
        (text, share, font): (&str, f64, f32),
    ) -> Self {
        let ink = if share <= 0.0 {
            palette.caution
        } else {
            palette.ink
        };
        let galley = painter.layout_no_wrap(text.to_owned(), theme::regular(font * 0.75), ink);
        let end = aside + galley.size().x;
        let (left, across) = if x + end > places.area.right() {
            (x - end, Rangef::new(x - end, x + aside))
        } else {
            (x + aside, Rangef::new(x - aside, x + end))
        };
        Self {
            at: Pos2::new(left, places.jaw_top - 2.0 - galley.size().y),
            galley,
            across,
        }
    }
}

/// A castle nut from the side: a body with its slots.
fn castle_nut(painter: &Painter, palette: &Palette, at: Pos2, font: f32, turned: bool) {
    let size = Vec2::new(font * 1.9, font * 0.95);
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
    let mut mesh = Mesh::default();
    strip(&mut mesh, &edge, |_| places.bottom, palette.belt);
    painter.add(Shape::mesh(mesh));
    for ply in PLIES {
        let line = edge.iter();
        let line = line.map(|at| Pos2::new(at.x, at.y + (places.bottom - at.y) * ply));
        let stroke = theme::stroke(1.0, palette.belt_edge);
        painter.add(Shape::line(line.collect(), stroke));
    }
    hooks(painter, palette, drawn, places, &edge);
    let mut mesh = Mesh::default();
    strip(&mut mesh, &edge, |_| places.jaw_top, palette.steel);
    painter.add(Shape::mesh(mesh));
    press_compared::dim(painter, palette, drawn, places, &edge);
    painter.line(edge, theme::stroke(3.0, palette.present));
    painter.rect(
        places.moving,
        CornerRadius::same(2),
        palette.steel,
        theme::stroke(1.0, palette.steel_edge),
        StrokeKind::Inside,
    );
}

/// Hooks in the belt, as everywhere in the program.
fn hooks(
    painter: &Painter,
    palette: &Palette,
    drawn: &PressDrawn<'_>,
    places: &Places,
    edge: &[Pos2],
) {
    let wide = (places.width / edge.len().max(1) as f32 * 0.35).min(6.0);
    for (change, at) in drawn.along_nm.iter().zip(edge) {
        let fit = match *change {
            crushed if crushed <= drawn.sit_nm[0] => Fit::Crushed,
            loose if loose >= drawn.sit_nm[1] => Fit::Loose,
            _ => Fit::Good,
        };
        let (head, stroke) = hook_head(painter, palette, (*at, fit), (wide, 1.0));
        let leg = [Pos2::new(at.x, head), Pos2::new(at.x, places.bottom)];
        painter.line_segment(leg, stroke);
    }
}

/// The jaws opened, with the hook retainer being drawn out between them: where
/// the opening is used up the jaw stands in its way.
fn opened(
    painter: &Painter,
    palette: &Palette,
    drawn: &PressDrawn<'_>,
    labels: &PressLabels<'_>,
    places: &Places,
) {
    let font = labels.font;
    let top = places.moving.bottom() + font * 1.3;
    let gap = font * 0.9;
    let (bar_top, bar) = (top + font * 0.25 + gap, font * 0.6);
    let (left, right) = (places.left, places.left + places.width);
    let worst = drawn.retainer.iter().max().copied();
    let worst = worst.unwrap_or(Retainer::Slides);
    let (drawn_out, arrows) = match worst {
        Retainer::Slides => (font * 3.0, 3),
        Retainer::Drags => (font * 1.2, 1),
        Retainer::Sticks => (0.0, 0),
    };
    let ink = inked(palette, worst);
    let retainer = Rect::from_x_y_ranges(left + drawn_out..=right, bar_top..=bar_top + bar);
    let edge = theme::stroke(2.0, ink);
    let round = CornerRadius::same(2);
    painter.rect(retainer, round, palette.card, edge, StrokeKind::Inside);
    // The lower edge of the jaw above, straight between the arms.
    let y = |share: f64| bar_top - gap * share.clamp(-0.5, 1.25) as f32;
    let shares = || drawn.opening_left.iter().copied();
    let arms = drawn.arms_nm.iter().zip(shares());
    let arms = arms.map(|(at, share)| Pos2::new(places.x(*at), y(share)));
    let ends = [(left, shares().next()), (right, shares().next_back())];
    let [first, last] = ends.map(|(x, share)| Pos2::new(x, y(share.unwrap_or(1.0))));
    let line: Vec<Pos2> = [first].into_iter().chain(arms).chain([last]).collect();
    let mut mesh = Mesh::default();
    strip(&mut mesh, &line, |_| top, palette.steel);
    painter.add(Shape::mesh(mesh));
    painter.line(line, theme::stroke(2.0, palette.steel_edge));
    let below = Rect::from_x_y_ranges(left..=right, retainer.bottom()..=retainer.bottom() + 4.0);
    painter.rect_filled(below, round, palette.steel);
    // Which way it goes, as far as it does.
    for arrow in 0..arrows {
        let tip = Pos2::new(
            right - font * (0.6 + 1.1 * arrow as f32),
            retainer.center().y,
        );
        let half = bar * 0.3;
        let head = vec![
            tip,
            tip - Vec2::new(font * 0.6, half),
            tip - Vec2::new(font * 0.6, -half),
        ];
        painter.add(Shape::convex_polygon(head, ink, theme::stroke(0.0, ink)));
    }
    for (arm, at) in drawn.arms_nm.iter().enumerate() {
        let state = drawn.retainer.get(arm).copied();
        if let Some(said) = labels.retainer.get(arm) {
            painter.text(
                Pos2::new(places.x(*at), below.bottom() + font * 0.15),
                Align2::CENTER_TOP,
                said,
                theme::bold(font * 0.85),
                inked(palette, state.unwrap_or(Retainer::Slides)),
            );
        }
    }
}

/// The colour of what the retainer does.
fn inked(palette: &Palette, retainer: Retainer) -> Color32 {
    match retainer {
        Retainer::Slides => palette.good,
        Retainer::Drags => palette.outside,
        Retainer::Sticks => palette.caution,
    }
}
