//! The press beside the fields about it: the jaws with arms and nuts, or jaw
//! and rod cut across, with the measure that the field at hand means.

use eframe::egui::{
    Align2, Color32, CornerRadius, Painter, Pos2, Rect, Role, Sense, Shape, StrokeKind, Ui, Vec2,
    WidgetInfo,
};

use crate::press::ArmIndex;
use crate::session::Field;
use crate::window::state::properties::Measure;
use crate::window::theme::{self, Palette, size};

use crate::window::views::Scene;
use crate::window::views::picture::jaw_axis::JawAxis;
use crate::window::views::widgets::muted;

/// Height of the picture.
const HEIGHT: f32 = 120.0;

/// Height of a jaw, and of the gap between the jaws.
const JAW: f32 = 17.0;
const GAP: f32 = 15.0;

/// Length of an arrow's head.
const HEAD: f32 = 5.0;

/// Draws the press from its front, and says what is measured.
pub fn press(ui: &mut Ui, scene: &Scene<'_>, measure: Option<Measure>) {
    let mut told = sentence(scene, measure);
    if measure.is_none() {
        told = format!("{} {told}", scene.words().arms_from_left());
    }
    let (rect, painter) = place(ui, scene, &told);
    let palette = scene.palette;
    let press = &scene.session.press;
    let top = rect.top() + 42.0;
    let stationary = Rect::from_min_max(
        Pos2::new(rect.left() + 16.0, top),
        Pos2::new(rect.right() - 16.0, top + JAW),
    );
    let moving = stationary.translate(Vec2::new(0.0, JAW + GAP));
    let belt = Rect::from_min_max(stationary.left_bottom(), moving.right_top());
    painter.rect_filled(belt, 0.0, palette.belt);
    let axis = JawAxis {
        left: stationary.left(),
        right: stationary.right(),
        length_nm: press.jaw_length.length().nm_f64(),
    };
    let ink = |shown: bool| {
        if shown {
            palette.preview
        } else {
            palette.muted
        }
    };
    for (arm, properties) in press.indexed_arms() {
        let x = axis.x(properties.position.length().nm_f64());
        let meant = measure.is_some_and(|measure| is_at(measure, arm));
        let nut = Rect::from_center_size(Pos2::new(x, top - 10.0), Vec2::new(17.0, 11.0));
        let rod = Rect::from_x_y_ranges(x - 2.5..=x + 2.5, nut.top() - 7.0..=top);
        steel(&painter, palette, rod);
        steel(&painter, palette, nut);
        painter.text(
            Pos2::new(x, rect.top() + 1.0),
            Align2::CENTER_TOP,
            arm,
            theme::bold(size::BODY),
            ink(meant),
        );
        let beside = x + 16.0;
        match measure {
            Some(Measure::Limit(at)) if at == arm => {
                let ends = [nut.top() - 9.0, top - 1.0];
                let ends = ends.map(|y| Pos2::new(beside, y));
                arrow(&painter, ends, palette.preview);
            }
            Some(Measure::StartNut(at)) if at == arm => {
                let ends = [nut.center().y, top].map(|y| Pos2::new(beside, y));
                arrow(&painter, ends, palette.preview);
            }
            Some(Measure::NutTravel) => {
                let ends = [nut.top() - 3.0, nut.bottom() + 3.0];
                let ends = ends.map(|y| Pos2::new(beside, y));
                arrow(&painter, ends, palette.preview);
            }
            _ => {}
        }
    }
    steel(&painter, palette, stationary);
    steel(&painter, palette, moving);
    for (arm, properties) in press.indexed_arms() {
        let x = axis.x(properties.position.length().nm_f64());
        let of_all = measure == Some(Measure::NotchEffect(None));
        let here = [Measure::NotchEffect(Some(arm)), Measure::Margin(arm)];
        if of_all || measure.is_some_and(|measure| here.contains(&measure)) {
            let ends = [belt.top(), belt.bottom()].map(|y| Pos2::new(x, y));
            arrow(&painter, ends, palette.preview);
        }
    }
    // The length along the jaw, and which one.
    let y = moving.bottom() + 18.0;
    let (to, text) = match measure {
        Some(Measure::Position(arm)) => press.arms.get(arm.0).map_or_else(
            || (axis.right, String::new()),
            |arm| {
                let x = axis.x(arm.position.length().nm_f64());
                (x, scene.figures.in_field(&arm.position, false))
            },
        ),
        _ => (axis.right, scene.figures.in_field(&press.jaw_length, false)),
    };
    let along = matches!(measure, Some(Measure::Position(_) | Measure::JawLength));
    dimension(
        &painter,
        palette,
        [Pos2::new(axis.left, y), Pos2::new(to, y)],
        (&text, ink(along)),
    );
}

/// Draws the jaw cut across beside a rod, and says what is measured.
pub fn section(ui: &mut Ui, scene: &Scene<'_>, measure: Option<Measure>) {
    let told = sentence(scene, measure);
    let (rect, painter) = place(ui, scene, &told);
    let palette = scene.palette;
    let names = scene.words().jaw_and_rods_fields(scene.figures.unit);
    let named = |which: usize| {
        let name = names.get(which).map(String::as_str).unwrap_or_default();
        name.split(',').next().unwrap_or_default().to_owned()
    };
    let ink = |which| match measure == Some(Measure::Section(which)) {
        true => palette.preview,
        false => palette.muted,
    };
    let middle = rect.center();
    let jaw = Rect::from_center_size(
        Pos2::new(rect.left() + rect.width() * 0.25, middle.y - 14.0),
        Vec2::new(52.0, 74.0),
    );
    steel(&painter, palette, jaw);
    // Rods stand on it, the belt lies under it, and it closes downward.
    for share in [0.3, 0.7] {
        let x = jaw.left() + share * jaw.width();
        let rod = Rect::from_x_y_ranges(x - 3.0..=x + 3.0, rect.top()..=jaw.top());
        steel(&painter, palette, rod);
    }
    let belt = Rect::from_x_y_ranges(
        jaw.left() - 70.0..=jaw.left() - 6.0,
        jaw.bottom() - 8.0..=jaw.bottom(),
    );
    let way = [
        Pos2::new(belt.center().x, jaw.top()),
        Pos2::new(belt.center().x, belt.top()),
    ];
    painter.arrow(way[0], way[1] - way[0], theme::stroke(2.0, palette.muted));
    painter.rect_filled(belt, 0.0, palette.belt);
    let below = jaw.bottom() + 14.0;
    let across = [jaw.left(), jaw.right()].map(|x| Pos2::new(x, below));
    dimension(&painter, palette, across, (&named(1), ink(1)));
    let beside = jaw.right() + 14.0;
    let along = [jaw.top(), jaw.bottom()].map(|y| Pos2::new(beside, y));
    arrow(&painter, along, ink(2));
    let beside = Pos2::new(beside + 8.0, jaw.center().y);
    let font = theme::bold(size::SMALL);
    painter.text(beside, Align2::LEFT_CENTER, named(2), font.clone(), ink(2));
    let rod = Rect::from_center_size(
        Pos2::new(rect.left() + rect.width() * 0.78, middle.y - 8.0),
        Vec2::new(rect.width() * 0.24, 18.0),
    );
    for end in [rod.left(), rod.right()] {
        let nut = Rect::from_center_size(Pos2::new(end, rod.center().y), Vec2::new(14.0, 34.0));
        steel(&painter, palette, nut);
    }
    steel(&painter, palette, rod.shrink2(Vec2::new(7.0, 0.0)));
    let x = rod.center().x;
    let thick = [rod.top(), rod.bottom()].map(|y| Pos2::new(x, y));
    arrow(&painter, thick, ink(4));
    let over = Pos2::new(x, rod.top() - 5.0);
    painter.text(over, Align2::CENTER_BOTTOM, named(4), font, ink(4));
    let y = rod.bottom() + 26.0;
    let long = [rod.left() + 7.0, rod.right() - 7.0].map(|x| Pos2::new(x, y));
    dimension(&painter, palette, long, (&named(5), ink(5)));
}

/// Draws a splice along the jaw between belt's edge and knuckles, much
/// enlarged, and says what is measured.
pub fn splice(ui: &mut Ui, scene: &Scene<'_>, measure: Option<Measure>) {
    /// Thickness at a few places along the jaw, as shares of the height.
    const PROFILE: [f32; 7] = [0.62, 0.66, 0.74, 0.80, 0.78, 0.70, 0.66];
    let told = sentence(scene, measure);
    let (rect, painter) = place(ui, scene, &told);
    let palette = scene.palette;
    let ink = |shown| {
        if measure == Some(shown) {
            palette.preview
        } else {
            palette.muted
        }
    };
    let jaw = Rect::from_min_max(
        Pos2::new(rect.left() + 16.0, rect.bottom() - JAW),
        Pos2::new(rect.right() - 16.0, rect.bottom()),
    );
    let room = jaw.top() - rect.top();
    let at = |place: usize| {
        let share = place as f32 / (PROFILE.len() - 1) as f32;
        let thick = PROFILE.get(place).copied().unwrap_or_default();
        Pos2::new(jaw.left() + share * jaw.width(), jaw.top() - thick * room)
    };
    let line: Vec<Pos2> = (0..PROFILE.len()).map(at).collect();
    for pair in line.windows(2) {
        if let [from, to] = *pair {
            let below = |of: Pos2| Pos2::new(of.x, jaw.top());
            let strip = vec![from, to, below(to), below(from)];
            let none = theme::stroke(0.0, palette.belt);
            painter.add(Shape::convex_polygon(strip, palette.belt, none));
        }
    }
    // The band over what is thickest and thinnest.
    let (top, bottom) = (at(3).y - 3.0, at(0).y + 3.0);
    let band = Rect::from_x_y_ranges(jaw.x_range(), top..=bottom);
    let edge = theme::stroke(1.0, palette.band_edge);
    painter.rect(
        band,
        0,
        palette.band.gamma_multiply(0.6),
        edge,
        StrokeKind::Inside,
    );
    painter.add(Shape::line(line, theme::stroke(2.4, palette.present)));
    steel(&painter, palette, jaw);
    let x = jaw.left() + 0.12 * jaw.width();
    arrow(
        &painter,
        [Pos2::new(x, top), Pos2::new(x, bottom)],
        ink(Measure::Tolerance),
    );
    let x = jaw.left() + 0.72 * jaw.width();
    let middle = (top + bottom) / 2.0;
    let ends = [Pos2::new(x, middle), Pos2::new(x, jaw.top())];
    arrow(&painter, ends, ink(Measure::Target));
    // Each arrow with its name, on the belt to its right.
    let words = scene.words();
    let named = [
        (
            0.12,
            band.center().y,
            words.field(Field::Tolerance),
            Measure::Tolerance,
        ),
        (
            0.72,
            jaw.top() - 12.0,
            words.field(Field::Target),
            Measure::Target,
        ),
    ];
    for (share, y, name, measure) in named {
        let shown = match ink(measure) {
            ink if ink == palette.muted => palette.ink,
            ink => ink,
        };
        let font = theme::bold(size::SMALL);
        let galley = painter.layout_no_wrap(name, font, shown);
        let left = jaw.left() + share * jaw.width() + 10.0;
        let at = Pos2::new(left, y - galley.size().y / 2.0);
        let back = Rect::from_min_size(at, galley.size()).expand2(Vec2::new(4.0, 1.0));
        painter.rect_filled(back, 3.0, palette.card);
        painter.galley(at, galley, shown);
    }
    // The steps that the gauge reads, and one of them.
    if measure == Some(Measure::GaugeStep) {
        let x = jaw.left() + 0.5 * jaw.width();
        let step = room / 14.0;
        for tick in 8..14 {
            let y = jaw.top() - tick as f32 * step;
            let ends = [Pos2::new(x - 20.0, y), Pos2::new(x + 20.0, y)];
            painter.line_segment(ends, theme::stroke(1.6, palette.preview));
        }
    }
}

/// The picture's place, with what it shows said below it and to screen readers.
fn place(ui: &mut Ui, scene: &Scene<'_>, told: &str) -> (Rect, Painter) {
    let size = Vec2::new(ui.available_width(), HEIGHT);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    let label = scene.words().sketch_of_press(told);
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &label));
    ui.label(muted(scene.palette, told).size(size::BODY));
    (rect, ui.painter().clone())
}

fn is_at(measure: Measure, arm: ArmIndex) -> bool {
    match measure {
        Measure::Position(at)
        | Measure::NotchEffect(Some(at))
        | Measure::Limit(at)
        | Measure::Margin(at)
        | Measure::StartNut(at) => at == arm,
        Measure::NotchEffect(None) | Measure::NutTravel => true,
        _ => false,
    }
}

fn sentence(scene: &Scene<'_>, measure: Option<Measure>) -> String {
    let words = scene.words();
    match measure {
        None => words.means_nothing_yet().to_owned(),
        Some(Measure::JawLength) => words.means_jaw_length().to_owned(),
        Some(Measure::Position(arm)) => words.means_position(arm),
        Some(Measure::NotchEffect(_)) => words.means_notch_effect().to_owned(),
        Some(Measure::NutTravel) => words.means_nut_travel().to_owned(),
        Some(Measure::Limit(arm)) => words.means_limit(arm),
        Some(Measure::Margin(arm)) => words.means_margin(arm),
        Some(Measure::StartNut(arm)) => words.means_start_nut(arm),
        Some(Measure::Section(which)) => words.jaw_and_rods_meaning(which).to_owned(),
        Some(Measure::Tolerance) => words.means_tolerance().to_owned(),
        Some(Measure::Target) => words.means_target().to_owned(),
        Some(Measure::GaugeStep) => words.means_gauge_step().to_owned(),
    }
}

fn steel(painter: &Painter, palette: &Palette, rect: Rect) {
    let edge = theme::stroke(1.2, palette.steel_edge);
    let round = CornerRadius::same(2);
    painter.rect(rect, round, palette.steel, edge, StrokeKind::Inside);
}

/// An arrow with a head at either end.
fn arrow(painter: &Painter, ends: [Pos2; 2], ink: Color32) {
    let line = theme::stroke(2.0, ink);
    painter.line_segment(ends, line);
    let [from, to] = ends;
    let way = (to - from).normalized();
    for (tip, back) in [(from, way), (to, -way)] {
        for side in [back.rot90(), -back.rot90()] {
            painter.line_segment([tip, tip + (back + 0.7 * side) * HEAD], line);
        }
    }
}

/// An arrow along the jaw with its name in the middle.
fn dimension(painter: &Painter, palette: &Palette, ends: [Pos2; 2], (text, ink): (&str, Color32)) {
    arrow(painter, ends, ink);
    let galley = painter.layout_no_wrap(text.to_owned(), theme::bold(size::SMALL), ink);
    let middle = ends[0].lerp(ends[1], 0.5);
    let room = (ends[1].x - ends[0].x).abs() - 4.0 * HEAD;
    // Beside an arrow that is too short for its name.
    let at = if galley.size().x < room {
        middle - galley.size() / 2.0
    } else {
        Pos2::new(middle.x - galley.size().x / 2.0, middle.y + HEAD)
    };
    let back = Rect::from_min_size(at, galley.size()).expand2(Vec2::new(4.0, 0.0));
    painter.rect_filled(back, 0.0, palette.card);
    painter.galley(at, galley, ink);
}
