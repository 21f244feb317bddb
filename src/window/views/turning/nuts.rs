//! A castle nut per arm, under the chart and on its axis. Where there is room,
//! each has its buttons beside it; where there is not, one row below has those of
//! the nut that is chosen, and a plate chooses it.

use eframe::egui::{
    self, Align2, CornerRadius, Pos2, Rect, Sense, StrokeKind, Ui, Vec2, WidgetInfo,
};

use crate::press::{ArmIndex, Notches, NutPosition, WrenchWay};
use crate::session::Stands;
use crate::window::action::Action;
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::hint::Hint;
use crate::window::views::picture::jaw_axis::JawAxis;
use crate::window::views::turning::lettering::first_fitting;
use crate::window::views::turning::nut_input::{self, Round};
use crate::window::views::turning::{chosen_nut, nut_buttons, nut_drawn};

/// Movement of the pointer that turns a nut by one notch, in points.
const DRAG_POINTS: f32 = 14.0;

/// Width from which a nut has its buttons beside it.
const ROOMY: f32 = 2.0 * nut_buttons::WIDTH + 36.0;

/// Width from which a plate without buttons has its words beside the nut.
const WORDED: f32 = 84.0;

/// Height of a plate with buttons, and what the limits take of it; of one
/// without.
const PLATE: f32 = 94.0;
const LIMITS: f32 = 16.0;
const PLAIN: f32 = 48.0;

/// Space between the plates and the buttons below them, and under both.
const BETWEEN: f32 = 4.0;

/// Height of the window from which nuts show where their limits are.
const TALL: f32 = 600.0;

/// Height of the row of nuts, where the jaw is drawn `jaw_width` wide.
pub fn height(ui: &Ui, scene: &Scene<'_>, jaw_width: f32) -> f32 {
    let jaw_nm = scene.session.press.jaw_length.length().nm_f64();
    let axis = JawAxis {
        left: 0.0,
        right: jaw_width,
        length_nm: jaw_nm,
    };
    if plate_width(scene, axis) < ROOMY {
        return PLAIN + BETWEEN + TARGET + BETWEEN;
    }
    let mut arms = scene.session.press.arms.iter();
    let tall = ui.ctx().content_rect().height() >= TALL;
    let limits = match tall && arms.any(|arm| arm.limits.is_some()) {
        true => LIMITS,
        false => 0.0,
    };
    PLATE + limits + BETWEEN
}

/// Draws the nuts. An exercise is measured before anything is turned.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, axis: JawAxis, height: f32) {
    let unread = matches!(scene.outlook.gate.stands, Stands::NotLaced | Stands::Unread);
    let live = scene.practicing.is_none() || !unread;
    ui.add_enabled_ui(live, |ui| row(ui, scene, axis, height));
}

fn row(ui: &mut Ui, scene: &mut Scene<'_>, axis: JawAxis, height: f32) {
    let (row, _) = ui.allocate_exact_size(Vec2::new(ui.available_width(), height), Sense::hover());
    let turns = scene.preview();
    let width = plate_width(scene, axis);
    let roomy = width >= ROOMY;
    let bottom = match roomy {
        true => row.bottom() - BETWEEN,
        false => row.top() + PLAIN,
    };
    let plates = row.with_max_y(bottom);
    seen_from(ui, scene, row.with_max_x(axis.left));
    for (index, rect) in places(scene, axis, width, plates).into_iter().enumerate() {
        let turn = turns.get(index).copied().unwrap_or_default();
        nut(ui, scene, ArmIndex(index), rect, turn);
    }
    if !roomy {
        let below = Rect::from_x_y_ranges(
            axis.left..=axis.right.max(axis.left + 1.0),
            bottom + BETWEEN..=bottom + BETWEEN + TARGET,
        );
        // Plates narrower than a finger are stepped along.
        nut_buttons::of_chosen(ui, scene, below, width < TARGET);
    }
}

/// From where the arrows are seen, left of the nuts.
fn seen_from(ui: &Ui, scene: &Scene<'_>, left: Rect) {
    if scene.session.press.wrench_way(Notches(1)).is_none() {
        return;
    }
    let text = scene.words().arrows_seen().to_owned();
    let (font, ink) = (theme::regular(size::LEAST), scene.palette.muted);
    let laid = ui.painter().layout(text, font, ink, left.width() - 2.0);
    let at = left.center() - laid.size() / 2.0;
    ui.painter().galley(at, laid, ink);
}

/// As wide as the room between the closest arms allows.
fn plate_width(scene: &Scene<'_>, axis: JawAxis) -> f32 {
    let arms = &scene.outlook.arms_nm;
    let closest = arms
        .iter()
        .zip(arms.iter().skip(1))
        .map(|(left, right)| axis.x(*right) - axis.x(*left))
        .fold(f32::INFINITY, f32::min);
    // The outer plates lean inward at the edge, and keep off their neighbours.
    let ends = arms.first().zip(arms.last());
    let edge = ends.map_or(f32::INFINITY, |(first, last)| {
        (axis.x(*first) - axis.left).min(axis.right - axis.x(*last))
    });
    let leaning = (closest - 6.0 + edge) / 1.5;
    (closest - 6.0).min(leaning).clamp(26.0, 180.0)
}

/// Where each nut's plate goes: centred under its arm, as wide as the room
/// between neighbours allows.
fn places(scene: &Scene<'_>, axis: JawAxis, width: f32, row: Rect) -> Vec<Rect> {
    let centres = scene.outlook.arms_nm.iter().map(|&x| axis.x(x));
    let half = width / 2.0;
    centres
        .map(|x| {
            let least = axis.left + half;
            let x = x.clamp(least, (axis.right - half).max(least));
            Rect::from_x_y_ranges(x - half..=x + half, row.y_range())
        })
        .collect()
}

fn nut(ui: &mut Ui, scene: &mut Scene<'_>, arm: ArmIndex, rect: Rect, turn: Notches) {
    let palette = scene.palette;
    let from = scene.nuts().get(arm.0).copied().unwrap_or_default();
    let to = from + turn;
    let roomy = rect.width() >= ROOMY;
    let id = ui.scope_id().with(("nut", arm.0));
    let wait = scene.nuts_wait();
    let sense = match wait {
        true => Sense::CLICK,
        false => Sense::click_and_drag(),
    };
    let plate = ui.interact(rect, id, sense);
    let said = match scene.session.lost.contains(&arm) {
        true => scene.words().nut_not_known().to_owned(),
        false => position_words(scene, turn, from, to),
    };
    let known = Some(from).filter(|_| !scene.session.lost.contains(&arm));
    let label = scene.words().nut_label(arm, &said);
    let live = ui.is_enabled();
    plate.widget_info(|| WidgetInfo::slider(live, f64::from(to.0), &label));
    let ends = scene.outlook.bounds.get(arm.0);
    let ends = ends.map(|ends| [ends.least, ends.most].map(|end| from + Notches(end)));
    nut_input::as_slider(ui, id, said, ends);
    let is_chosen = chosen_nut::chosen(scene) == arm;
    if scene.view.nut_wants_focus && is_chosen {
        scene.view.nut_wants_focus = false;
        plate.request_focus();
    }
    if plate.clicked() || plate.drag_started() {
        plate.request_focus();
        scene.view.nut = Some(arm.0);
    }
    if plate.hovered() && !wait {
        ui.ctx().set_cursor_icon(egui::CursorIcon::ResizeVertical);
    }
    let by = [
        nut_input::dragged_nut(ui, &plate, round_of(scene, rect), DRAG_POINTS),
        nut_input::scrolled_notches(ui, &plate),
        nut_input::keyed_notches(ui, &plate, -turn.0),
        nut_input::set_notches(ui, &plate, to, ends),
    ];
    let mut by: i32 = by.into_iter().flatten().sum();
    if let Some(beside) = nut_input::keyed_beside(ui, &plate) {
        chosen_nut::step(scene, beside);
        ui.ctx().request_repaint();
    }

    let outside = scene
        .outlook
        .bounds
        .get(arm.0)
        .is_some_and(|bounds| !(bounds.least..=bounds.most).contains(&turn.0));
    let (back, ink) = match turn.0 {
        0 => (palette.button, palette.line),
        _ => (palette.preview_back, palette.preview),
    };
    let edge = theme::stroke(if turn.0 == 0 { 1.0 } else { 2.0 }, ink);
    let round = CornerRadius::same(6);
    ui.painter()
        .rect(rect, round, back, edge, StrokeKind::Inside);
    if roomy {
        by += with_buttons(ui, scene, arm, rect, (turn, known, to));
    } else {
        if is_chosen {
            // Joined to its buttons below.
            let joined = Rect::from_x_y_ranges(
                rect.x_range(),
                rect.bottom() - 4.0..=rect.bottom() + BETWEEN,
            );
            ui.painter().rect_filled(joined, 0.0, palette.present);
        }
        without_buttons(ui, scene, rect, (turn, known, to));
    }
    if outside {
        ui.painter().text(
            rect.left_top() + Vec2::new(4.0, 2.0),
            Align2::LEFT_TOP,
            "⚠",
            theme::bold(size::TITLE),
            palette.caution,
        );
    }
    if !roomy {
        plate.hint(label);
    }
    if by != 0 {
        scene.view.nut = Some(arm.0);
        scene.ask(Action::TurnNut(arm, Notches(by)));
    }
}

/// Where the nut is drawn on its plate.
fn round_of(scene: &Scene<'_>, rect: Rect) -> Round {
    // On the screen angles grow with the clock.
    let out = match scene.session.press.wrench_way(Notches(1)) {
        Some(WrenchWay::Clockwise) => 1.0,
        _ => -1.0,
    };
    let (centre, radius) = if rect.width() >= ROOMY {
        (rect.center_top() + Vec2::new(0.0, 23.0), 17.0)
    } else if rect.width() >= WORDED {
        (rect.left_center() + Vec2::new(14.0, 0.0), 10.0)
    } else {
        (rect.center_top() + Vec2::new(0.0, 15.0), 10.0)
    };
    Round {
        centre,
        radius,
        out,
    }
}

/// The turn, and from where to where; none where nobody knows.
type Turned = (Notches, Option<NutPosition>, NutPosition);

/// A plate with its buttons: in, nut, out; turn and positions below.
fn with_buttons(
    ui: &mut Ui,
    scene: &Scene<'_>,
    arm: ArmIndex,
    rect: Rect,
    (turn, from, to): Turned,
) -> i32 {
    let size = Vec2::new(nut_buttons::WIDTH, TARGET);
    let inward = Rect::from_min_size(rect.left_top(), size);
    let outward = Rect::from_min_size(rect.right_top() - Vec2::new(size.x, 0.0), size);
    nut_drawn::nut(ui.painter(), scene, round_of(scene, rect), turn);
    let by = nut_buttons::press(ui, scene, arm, inward, -1)
        + nut_buttons::press(ui, scene, arm, outward, 1);
    words_in(
        ui,
        scene,
        (rect.center().x, rect.width()),
        (rect.top() + 58.0, rect.top() + 77.0),
        (turn, from, to),
    );
    if let Some(from) = from.filter(|_| rect.height() > PLATE) {
        nut_drawn::limits_bar(ui.painter(), scene, arm, rect, from, to);
    }
    by
}

/// A plate without: the nut, and as many words as fit beside or below it.
fn without_buttons(ui: &Ui, scene: &Scene<'_>, rect: Rect, (turn, from, to): Turned) {
    let palette = scene.palette;
    let round = round_of(scene, rect);
    nut_drawn::nut(ui.painter(), scene, round, turn);
    if rect.width() >= WORDED {
        let left = round.centre.x + round.radius + 2.0;
        let middle = (left + rect.right() - 2.0) / 2.0;
        let width = rect.right() - left;
        let (upper, lower) = (rect.center().y - 8.5, rect.center().y + 9.0);
        words_in(ui, scene, (middle, width), (upper, lower), (turn, from, to));
        return;
    }
    let (text, ink) = match (turn.0, from) {
        (_, None) => ("?".to_owned(), palette.caution),
        (0, _) => (to.to_string(), palette.muted),
        (turned, _) => (format!("{turned:+}").replace('-', "−"), palette.preview),
    };
    let at = Pos2::new(rect.center().x, rect.bottom() - 13.0);
    let font = theme::bold(size::LEAST);
    ui.painter()
        .text(at, Align2::CENTER_CENTER, text, font, ink);
}

/// The turn and the positions in so much room, a line each.
fn words_in(
    ui: &Ui,
    scene: &Scene<'_>,
    (middle, width): (f32, f32),
    (upper, lower): (f32, f32),
    (turn, from, to): Turned,
) {
    let palette = scene.palette;
    let words = scene.words();
    let figures = scene.figures;
    let ink = match turn.0 {
        0 => palette.muted,
        _ => palette.preview,
    };
    let way = scene.session.press.wrench_way(turn);
    let way = way.map_or("", |way| words.wrench_arrow(way));
    let [long, short] = match turn.0 == 0 && scene.nuts_wait() {
        true => ["–", "–"].map(str::to_owned),
        false => [figures.turn(turn), figures.turn_short(turn)],
    };
    let (position, least) = match (turn.0, from) {
        (_, None) => (words.nut_not_known().to_owned(), "?".to_owned()),
        // Nothing is said yet of what becomes of it.
        (0, Some(from)) if scene.nuts_wait() => (from.to_string(), from.to_string()),
        (0, Some(from)) => (words.stays_at(from), from.to_string()),
        (_, Some(from)) => (words.from_to(from, to), format!("{from} → {to}")),
    };
    let bold = |text: String, size| (text, theme::bold(size));
    let regular = |text: String, size| (text, theme::regular(size));
    let lines = [
        (
            upper,
            ink,
            vec![
                bold(format!("{long} {way}"), size::BODY),
                bold(format!("{short} {way}"), size::BODY),
                bold(format!("{short} {way}"), size::LEAST),
                bold(short, size::LEAST),
            ],
        ),
        (
            lower,
            palette.muted,
            vec![
                regular(position.clone(), size::SMALL),
                regular(position, size::LEAST),
                regular(least, size::LEAST),
            ],
        ),
    ];
    for (y, ink, ways) in lines {
        if let Some(laid) = first_fitting(ui, ways, ink, width - 6.0) {
            let at = Pos2::new(middle, y) - laid.size() / 2.0;
            ui.painter().galley(at, laid, ink);
        }
    }
}

/// A nut's turn, its positions and the way of the wrench in one phrase.
fn position_words(scene: &Scene<'_>, turn: Notches, from: NutPosition, to: NutPosition) -> String {
    let words = scene.words();
    let turned = scene.figures.turn(turn);
    if turn.0 == 0 {
        return format!("{turned}, {}", words.stays_at(from));
    }
    let positions = words.from_to(from, to);
    match scene.session.press.wrench_way(turn) {
        Some(way) => format!("{turned}, {positions}, {}", words.wrench(way)),
        None => format!("{turned}, {positions}, {}", words.thread_unseen()),
    }
}
