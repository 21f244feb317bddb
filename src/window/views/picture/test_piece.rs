//! The test piece: where it is marked and what one reading takes in, as hooks
//! and belt are seen from above and from the side. Sizes are drawn, not measured.

use eframe::egui::{
    Align2, Color32, CornerRadius, Painter, Pos2, Rect, Role, Sense, Shape, StrokeKind, Ui, Vec2,
    WidgetInfo,
};

use crate::window::theme::{self, Palette, size};

use crate::window::views::Scene;
use crate::window::views::picture::gauge_drawn::{self, Seat};
use crate::window::views::picture::jaw_axis::JawAxis;

/// Least height of the piece with its marks.
const MARKED: f32 = 170.0;

/// Height of the gauge on hooks and belt, and the width from which all of it is
/// drawn larger, up to as many times.
const MEASURED: f32 = 180.0;
const LARGER: (f32, f32) = (360.0, 1.9);

/// How small it may be drawn where there is little height.
const LEAST: f32 = 0.75;

/// Height of the jaws over its hooks, and of a mark beside them.
const JAWS: f32 = 40.0;
const MARK: f32 = 34.0;

/// Width up to which the whole piece is drawn without words.
const NARROW: f32 = 280.0;

/// Distance between hooks, and how far each leg reaches into the belt.
const PITCH: f32 = 22.0;
const LEGS: [f32; 2] = [26.0, 46.0];

/// How far hooks stand out over the belt's edge.
const LOOP: f32 = 15.0;

/// Room for a picture as wide as there is, named for screen readers.
pub fn place(ui: &mut Ui, height: f32, told: &str) -> (Rect, Painter) {
    let size = Vec2::new(ui.available_width(), height);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, told));
    (rect, ui.painter_at(rect))
}

/// The whole piece from above, with a mark at every arm and at the operator's
/// left. In letters up to so many times as large as notes.
pub fn marked(ui: &mut Ui, scene: &Scene<'_>, height: f32, letters: f32) {
    let (palette, words) = (scene.palette, scene.words());
    let letters = letters.min(height / MARKED).max(1.0);
    let (rect, painter) = place(ui, height.max(MARKED), words.piece_marked());
    // From between the jaws the belt comes out to be marked.
    let jaws = Rect::from_min_size(
        rect.min + Vec2::new(0.0, 26.0 * letters),
        Vec2::new(rect.width(), JAWS * letters),
    );
    let belt = Rect::from_min_max(
        jaws.left_center() + Vec2::new(6.0, 0.0),
        rect.max - Vec2::new(6.0, 24.0 * letters),
    );
    painter.rect_filled(belt, 0.0, palette.belt);
    let mut x = belt.left() + 4.0;
    let mut long = false;
    while x < belt.right() - 2.0 {
        let leg = if long { 13.0 } else { 8.0 };
        let reach = (6.0 * letters, leg * letters);
        let edge = Pos2::new(x, belt.top());
        hook(&painter, palette, edge, reach, 1.6 * letters);
        (x, long) = (x + 7.0 * letters, !long);
    }
    let edge = theme::stroke(1.5, palette.steel_edge);
    let steel = palette.steel.gamma_multiply(0.8);
    painter.rect(jaws, 2.0, steel, edge, StrokeKind::Inside);
    // In a narrow picture the boxes say it.
    let wide = rect.width() > NARROW * letters;
    let no_hands = format!("✕ {}", words.no_hands_between());
    let font = |letters: f32| theme::regular(size::SMALL * letters);
    let fits = |letters: f32| {
        let laid = painter.layout_no_wrap(no_hands.clone(), font(letters), palette.outside);
        laid.size().x + 8.0 < jaws.width()
    };
    let bold = match fits(1.4 * letters) {
        true => 1.4 * letters,
        false => letters,
    };
    let middle = (bold, jaws.center(), Align2::CENTER_CENTER);
    let no_hands = if fits(bold) { &no_hands } else { "✕" };
    plated(&painter, palette, middle, no_hands, palette.caution);
    let press = &scene.session.press;
    let axis = JawAxis {
        left: belt.left(),
        right: belt.right(),
        length_nm: press.jaw_length.length().nm_f64(),
    };
    for (arm, at) in press.indexed_arms() {
        let x = axis.x(at.position.length().nm_f64());
        let ends = [jaws.bottom() + 3.0, jaws.bottom() + MARK * letters].map(|y| Pos2::new(x, y));
        painter.line_segment(ends, theme::stroke(4.0 * letters, palette.preview));
        let font = theme::bold(size::TITLE * letters);
        let above = Pos2::new(x, rect.top() + 1.0);
        painter.text(above, Align2::CENTER_TOP, arm, font, palette.preview);
    }
    let here = Pos2::new(belt.center().x, jaws.bottom() + (MARK + 16.0) * letters);
    let mark_here = format!("↑ {}", words.mark_outside());
    if wide {
        let here = (1.1 * letters, here, Align2::CENTER_CENTER);
        plated(&painter, palette, here, &mark_here, palette.preview);
    }
    let letter = theme::bold(size::LEAST * letters);
    let said = words.left_mark();
    let laid = painter.layout_no_wrap(said.to_owned(), letter.clone(), palette.card);
    let flag = Rect::from_min_size(
        Pos2::new(belt.left() + 3.0, belt.bottom() - 20.0 * letters),
        Vec2::new((laid.size().x + 8.0).max(20.0 * letters), 17.0 * letters),
    );
    painter.rect_filled(flag, 3.0, palette.preview);
    painter.text(
        flag.center(),
        Align2::CENTER_CENTER,
        said,
        letter,
        palette.card,
    );
    let below = Pos2::new(belt.left(), rect.bottom());
    note(
        &painter,
        (letters, below, Align2::LEFT_BOTTOM),
        words.operators_left(),
        palette.preview,
    );
}

/// The gauge across a short leg and the long one beside it: one reading. And
/// on one leg alone, which is none. In letters so many times as large as notes.
pub fn measured(ui: &mut Ui, scene: &Scene<'_>, letters: f32) {
    let (palette, words) = (scene.palette, scene.words());
    let times = (ui.available_width() / LARGER.0).clamp(1.0, LARGER.1 * letters);
    let times = times.min(ui.available_height() / MEASURED).max(LEAST);
    let (rect, painter) = place(ui, MEASURED * times, words.gauge_on_legs());
    let pitch = PITCH * times;
    let beside = rect.width() * 0.38;
    let above = Rect::from_min_max(rect.min, rect.max - Vec2::new(beside + 14.0, 0.0));
    let belt = Rect::from_min_max(
        above.min + Vec2::new(0.0, 24.0 * letters + 20.0 * times),
        above.max,
    )
    .with_max_y(above.bottom() - 22.0 * letters);
    painter.rect_filled(belt, 0.0, palette.belt);
    let count = ((belt.width() - 8.0) / pitch).floor().max(5.0);
    let first = belt.center().x - (count - 1.0) / 2.0 * pitch;
    let at = |place: f32| Pos2::new(first + place * pitch, belt.top());
    for place in 0..count as usize {
        let leg = LEGS.get(place % 2).copied().unwrap_or_default();
        let reach = (LOOP * times, leg * times);
        hook(&painter, palette, at(place as f32), reach, 5.0 * times);
    }
    // A short leg and the long one beside it, at the mark.
    let short = ((count - 1.0) / 4.0).floor() * 2.0;
    let pair = short + 0.5;
    let mark = at(pair).x;
    let ends = [belt.bottom() - 22.0 * times, belt.bottom()].map(|y| Pos2::new(mark, y));
    painter.line_segment(ends, theme::stroke(3.0, palette.preview));
    let beside = Pos2::new(mark + 8.0, belt.bottom() - 4.0);
    let beside = (letters, beside, Align2::LEFT_BOTTOM);
    plated(
        &painter,
        palette,
        beside,
        words.mark_of_arm(),
        palette.preview,
    );
    // As far inside the belt's edge as the anvils stand, seen from the side.
    let on = |place: f32, wide: f32| {
        let middle = at(place) + Vec2::new(0.0, 12.0 * times);
        Rect::from_center_size(middle, times * Vec2::new(wide, 16.0))
    };
    let both = on(pair, PITCH + 14.0);
    foot(&painter, both, palette.good);
    let over = Pos2::new(both.center().x, belt.top() - LOOP * times - 6.0);
    let said = format!("✓ {}", words.both_in_one());
    note(
        &painter,
        (letters, over, Align2::CENTER_BOTTOM),
        &said,
        palette.good,
    );
    let alone = short + 3.0;
    if alone + 0.5 < count {
        let alone = on(alone, 18.0);
        foot(&painter, alone, palette.outside);
        let beside = alone.center().x + 50.0 * letters;
        let lower = belt.top() + 58.0 * times + 34.0 * letters;
        let under = Pos2::new(beside.min(above.right()), lower);
        let said = format!("✕ {}", words.one_alone());
        let under = (letters, under, Align2::RIGHT_BOTTOM);
        plated(&painter, palette, under, &said, palette.outside);
        let from = Pos2::new(alone.center().x, alone.bottom());
        let line = [from, Pos2::new(from.x, lower - 16.0 * letters)];
        painter.line_segment(line, theme::stroke(1.5, palette.outside));
    }
    for (place, name, align) in [
        (short, words.short_leg(), Align2::RIGHT_TOP),
        (short + 1.0, words.long_leg(), Align2::LEFT_TOP),
    ] {
        let leg = LEGS.get(place as usize % 2).copied().unwrap_or_default();
        let named = at(place) + Vec2::new(0.0, 58.0 * times);
        let line = [at(place) + Vec2::new(0.0, leg * times + 3.0), named];
        painter.line_segment(line, theme::stroke(1.0, palette.ink));
        note(&painter, (letters, named, align), name, palette.ink);
    }
    let side = Rect::from_min_max(Pos2::new(above.right() + 14.0, rect.top()), rect.max);
    let drawn = side.with_max_y(side.bottom() - 22.0);
    let between = gauge_drawn::paint(
        &painter,
        palette,
        (drawn, size::SMALL),
        Seat::Square,
        ("", None),
    );
    // The same place in both: where it is green.
    foot(&painter, between, palette.good);
    let under = Pos2::new(side.center().x, rect.bottom());
    note(
        &painter,
        (letters, under, Align2::CENTER_BOTTOM),
        words.seen_from_side(),
        palette.muted,
    );
}

/// A hook from above: its loop over the belt's edge, its leg on the belt.
fn hook(painter: &Painter, palette: &Palette, edge: Pos2, (out, leg): (f32, f32), width: f32) {
    let wire = [edge - Vec2::new(0.0, out), edge + Vec2::new(0.0, leg)];
    painter.line_segment(wire, theme::stroke(width + 2.0, palette.steel_edge));
    painter.line_segment(wire, theme::stroke(width, palette.steel));
}

/// Where a jaw of the gauge lies.
fn foot(painter: &Painter, rect: Rect, ink: Color32) {
    let fill = ink.gamma_multiply(0.25);
    let edge = theme::stroke(2.5, ink);
    painter.rect(rect, CornerRadius::same(4), fill, edge, StrokeKind::Inside);
}

/// A note on belt or steel, on which its ink would be hard to read.
fn plated(painter: &Painter, palette: &Palette, at: (f32, Pos2, Align2), text: &str, ink: Color32) {
    let plate = painter.add(Shape::Noop);
    let written = note(painter, at, text, ink);
    let plain = Shape::rect_filled(written.expand(2.0), 2.0, palette.card);
    painter.set(plate, plain);
}

fn note(
    painter: &Painter,
    (letters, at, align): (f32, Pos2, Align2),
    text: &str,
    ink: Color32,
) -> Rect {
    painter.text(at, align, text, theme::regular(size::SMALL * letters), ink)
}
