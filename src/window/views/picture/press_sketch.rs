//! The press beside the fields about it: the jaws with arms and nuts, or jaw
//! and rod cut across, with the measure that the field at hand means.

use eframe::egui::{
    Align2, Color32, CornerRadius, Painter, Pos2, Rect, Role, Sense, StrokeKind, Ui, Vec2,
    WidgetInfo,
};

use crate::press::ArmIndex;
use crate::window::state::properties::Measure;
use crate::window::theme::{self, Palette, size};

use crate::window::views::Scene;
use crate::window::views::picture::jaw_axis::JawAxis;
use crate::window::views::widgets::muted;

/// Height of the picture in a window of the least height; it grows with it.
const HEIGHT: f32 = 106.0;
const LEAST_WINDOW: f32 = 640.0;

/// How much larger it becomes at most; that of jaw and rods, whose fields are few,
/// grows faster.
const MOST: f32 = 1.4;
const MOST_SECTION: f32 = 2.0;

/// Height of a jaw, and of the gap between the jaws.
const JAW: f32 = 14.0;
const GAP: f32 = 15.0;

/// Length of an arrow's head.
const HEAD: f32 = 5.0;

/// How much larger than least the window lets the picture be.
fn scale(ui: &Ui, most: f32) -> f32 {
    let larger = ui.ctx().content_rect().height() / LEAST_WINDOW - 1.0;
    (1.0 + larger * (most - 1.0) / (MOST - 1.0)).clamp(1.0, most)
}

/// Draws the press from its front, and says what is measured.
pub fn press(ui: &mut Ui, scene: &Scene<'_>, measure: Option<Measure>) {
    let mut told = sentence(scene, measure);
    if measure.is_none() {
        told = format!("{} {told}", scene.words().arms_from_left());
    }
    let k = scale(ui, MOST);
    let (rect, painter) = place(ui, scene, k, &told);
    let palette = scene.palette;
    let press = &scene.session.press;
    let top = rect.top() + 26.0 + 16.0 * k;
    let stationary = Rect::from_min_max(
        Pos2::new(rect.left() + 16.0, top),
        Pos2::new(rect.right() - 16.0, top + JAW * k),
    );
    let moving = stationary.translate(Vec2::new(0.0, (JAW + GAP) * k));
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
        let nut = Rect::from_center_size(Pos2::new(x, top - 10.0 * k), Vec2::new(17.0, 11.0) * k);
        let rod = Rect::from_x_y_ranges(x - 2.5 * k..=x + 2.5 * k, nut.top() - 7.0 * k..=top);
        steel(&painter, palette, rod);
        steel(&painter, palette, nut);
        painter.text(
            Pos2::new(x, rect.top() + 1.0),
            Align2::CENTER_TOP,
            arm,
            theme::bold(size::BODY),
            ink(meant),
        );
        let beside = x + 16.0 * k;
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
    let y = moving.bottom() + 14.0;
    let (to, text) = match measure {
        Some(Measure::Position(arm)) => press.arms.get(arm.0).map_or_else(
            || (axis.right, String::new()),
            |arm| {
                let x = axis.x(arm.position.length().nm_f64());
                (x, scene.figures.in_field(&arm.position))
            },
        ),
        _ => (axis.right, scene.figures.in_field(&press.jaw_length)),
    };
    let along = matches!(measure, Some(Measure::Position(_) | Measure::JawLength));
    dimension(
        &painter,
        palette,
        [Pos2::new(axis.left, y), Pos2::new(to, y)],
        (&text, ink(along)),
    );
}

/// Draws the jaws cut across beside a rod, and says what is measured; below it, how
/// many of the six are `known`.
pub fn section(ui: &mut Ui, scene: &Scene<'_>, measure: Option<Measure>, known: usize) {
    let words = scene.words();
    let told = format!(
        "{} {}",
        words.section_known(known),
        sentence(scene, measure)
    );
    // One below the other where they have no room beside each other.
    let narrow = ui.available_width() < 760.0;
    let (k, tall) = match narrow {
        true => (1.0, 1.75),
        false => [scale(ui, MOST_SECTION); 2].into(),
    };
    let (rect, painter) = place(ui, scene, tall, &told);
    let palette = scene.palette;
    let names = words.jaw_and_rods_fields(scene.figures.unit);
    let named = |which: usize| {
        let name = names.get(which).map(String::as_str).unwrap_or_default();
        name.split(',').next().unwrap_or_default().to_owned()
    };
    let is = |which| measure == Some(Measure::Section(which));
    let ink = |which| match is(which) {
        true => palette.preview,
        false => palette.muted,
    };
    let made_of = |rect: Rect, which| {
        steel(&painter, palette, rect);
        if is(which) {
            let edge = theme::stroke(3.0, palette.preview);
            painter.rect_stroke(rect, 2, edge, StrokeKind::Inside);
        }
    };
    let label = |at: Pos2, side: Align2, text: &str, ink: Color32| {
        painter.text(at, side, text, theme::bold(size::SMALL), ink);
    };
    // The stationary jaw hangs on its rods; below it the belt, and the moving jaw
    // that closes on it.
    let jaw = Rect::from_min_size(
        match narrow {
            true => Pos2::new(rect.center().x - 42.0, rect.top() + 18.0),
            false => Pos2::new(rect.left() + rect.width() * 0.25, rect.top() + 18.0 * k),
        },
        Vec2::new(84.0, 50.0) * k,
    );
    for share in [0.3, 0.7] {
        let x = jaw.left() + share * jaw.width();
        let half = 3.0 * k;
        made_of(
            Rect::from_x_y_ranges(x - half..=x + half, rect.top()..=jaw.top()),
            3,
        );
    }
    let rods = Pos2::new(jaw.left() + 0.3 * jaw.width() - 12.0, jaw.top() - 9.0 * k);
    label(rods, Align2::RIGHT_CENTER, words.rods(), palette.muted);
    made_of(jaw, 0);
    let belt = Rect::from_x_y_ranges(
        jaw.left() - 50.0 * k..=jaw.right() + 50.0 * k,
        jaw.bottom()..=jaw.bottom() + 9.0 * k,
    );
    painter.rect_filled(belt, 0.0, palette.belt);
    let beside = Pos2::new(belt.right() + 6.0, belt.center().y);
    label(
        beside,
        Align2::LEFT_CENTER,
        words.section_belt(),
        palette.muted,
    );
    let moving = Rect::from_x_y_ranges(jaw.x_range(), belt.bottom()..=belt.bottom() + 28.0 * k);
    steel(&painter, palette, moving);
    let closes = Pos2::new(jaw.left() - 14.0, moving.bottom());
    let up = Vec2::new(0.0, -22.0 * k);
    painter.arrow(closes, up, theme::stroke(2.0, palette.muted));
    let closes = closes + 0.5 * up - Vec2::new(10.0, 0.0);
    label(
        closes,
        Align2::RIGHT_CENTER,
        words.section_closes(),
        palette.muted,
    );
    let y = jaw.bottom() - 12.0 * k;
    let across = [jaw.left(), jaw.right()].map(|x| Pos2::new(x, y));
    arrow(&painter, across, ink(1));
    label(
        Pos2::new(jaw.left() - 8.0, y),
        Align2::RIGHT_CENTER,
        &named(1),
        ink(1),
    );
    let beside = jaw.right() + 14.0;
    let along = [jaw.top(), jaw.bottom()].map(|y| Pos2::new(beside, y));
    arrow(&painter, along, ink(2));
    label(
        Pos2::new(beside + 8.0, jaw.center().y),
        Align2::LEFT_CENTER,
        &named(2),
        ink(2),
    );
    // One rod by itself.
    let rod = Rect::from_center_size(
        match narrow {
            true => Pos2::new(rect.center().x, rect.bottom() - 46.0),
            false => Pos2::new(rect.left() + rect.width() * 0.78, rect.center().y - 8.0),
        },
        Vec2::new(rect.width() * 0.24, 18.0 * k),
    );
    for end in [rod.left(), rod.right()] {
        let nut = Vec2::new(14.0, 34.0) * k;
        steel(
            &painter,
            palette,
            Rect::from_center_size(Pos2::new(end, rod.center().y), nut),
        );
    }
    made_of(rod.shrink2(Vec2::new(7.0 * k, 0.0)), 3);
    let x = rod.center().x;
    let thick = [rod.top(), rod.bottom()].map(|y| Pos2::new(x, y));
    arrow(&painter, thick, ink(4));
    let over = Pos2::new(x, rod.top() - 5.0);
    label(over, Align2::CENTER_BOTTOM, &named(4), ink(4));
    let y = rod.bottom() + 22.0 * k;
    let long = [rod.left() + 7.0 * k, rod.right() - 7.0 * k].map(|x| Pos2::new(x, y));
    dimension(&painter, palette, long, (&named(5), ink(5)));
}

/// The picture's place, with what it shows said below it and to screen readers.
fn place(ui: &mut Ui, scene: &Scene<'_>, scale: f32, told: &str) -> (Rect, Painter) {
    let size = Vec2::new(ui.available_width(), HEIGHT * scale);
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
