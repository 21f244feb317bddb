//! A castle nut per arm, under the chart and on its axis.

use std::f32::consts::TAU;

use eframe::egui::{
    self, Align2, CornerRadius, Painter, Pos2, Rect, Role, Sense, StrokeKind, Ui, Vec2, WidgetInfo,
};

use crate::press::{ArmIndex, Notches, NutPosition, WrenchWay};
use crate::window::action::Action;
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::picture::jaw_axis::JawAxis;
use crate::window::views::turning::nut_input;
use crate::window::views::turning::nut_input::{NOTCH_ANGLE, Round, SLOTS};

/// Movement of the pointer that turns a nut by one notch, in points.
const DRAG_POINTS: f32 = 14.0;

/// Width from which a nut has its buttons beside it and its words below.
const ROOMY: f32 = 2.0 * TARGET + 58.0;

/// Width from which its buttons stand beside each other; in less they stand
/// above and below it. Where arms are closer than a button is wide, buttons are
/// narrower than a finger: nuts are then better turned by dragging, wheel or
/// keys, which need no button.
const PAIRED: f32 = 2.0 * TARGET + 2.0;

/// Height of a plate, and what the limits take of it.
const PLATE: f32 = 106.0;
const LIMITS: f32 = 16.0;

/// Height of the window from which nuts show where their limits are.
const TALL: f32 = 600.0;

/// Height of the row of nuts, where the jaw is drawn `jaw_width` wide.
pub fn height(ui: &Ui, scene: &Scene<'_>, jaw_width: f32) -> f32 {
    let mut arms = scene.session.press.arms.iter();
    let tall = ui.ctx().content_rect().height() >= TALL;
    let limited = tall && arms.any(|arm| arm.limits.is_some());
    let jaw_nm = scene.session.press.jaw_length.length().nm_f64();
    let axis = JawAxis {
        left: 0.0,
        right: jaw_width,
        length_nm: jaw_nm,
    };
    match (plate_width(scene, axis) < PAIRED, limited) {
        (true, _) => 2.0 * TARGET + 46.0,
        (false, true) => PLATE + LIMITS,
        (false, false) => PLATE,
    }
}

/// Draws the nuts.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, axis: JawAxis, height: f32) {
    let (row, _) = ui.allocate_exact_size(Vec2::new(ui.available_width(), height), Sense::hover());
    let turns = scene.preview();
    let places = places(scene, axis, row);
    for (index, rect) in places.into_iter().enumerate() {
        let turn = turns.get(index).copied().unwrap_or_default();
        nut(ui, scene, ArmIndex(index), rect, turn);
    }
}

/// As wide as the room between the closest arms allows.
fn plate_width(scene: &Scene<'_>, axis: JawAxis) -> f32 {
    let arms = &scene.outlook.arms_nm;
    let closest = arms
        .iter()
        .zip(arms.iter().skip(1))
        .map(|(left, right)| axis.x(*right) - axis.x(*left))
        .fold(f32::INFINITY, f32::min);
    (closest - 6.0).clamp(30.0, 160.0)
}

/// Where each nut's plate goes: centred under its arm, as wide as the room
/// between neighbours allows.
fn places(scene: &Scene<'_>, axis: JawAxis, row: Rect) -> Vec<Rect> {
    let centres: Vec<f32> = scene.outlook.arms_nm.iter().map(|&x| axis.x(x)).collect();
    let width = plate_width(scene, axis);
    let half = width / 2.0;
    centres
        .into_iter()
        .map(|x| {
            let x = x.clamp(
                row.left() + half,
                (row.right() - half).max(row.left() + half),
            );
            Rect::from_min_max(
                Pos2::new(x - half, row.top()),
                Pos2::new(x + half, row.bottom() - 4.0),
            )
        })
        .collect()
}

fn nut(ui: &mut Ui, scene: &mut Scene<'_>, arm: ArmIndex, rect: Rect, turn: Notches) {
    let palette = scene.palette;
    let from = scene.nuts().get(arm.0).copied().unwrap_or_default();
    let to = from + turn;
    let id = ui.scope_id().with(("nut", arm.0));
    let plate = ui.interact(rect, id, Sense::click_and_drag());
    let label = scene
        .words()
        .nut_label(arm, position_words(scene, turn, from, to));
    plate.widget_info(|| WidgetInfo::slider(true, f64::from(to.0), &label));
    let ends = scene.outlook.bounds.get(arm.0);
    let ends = ends.map(|ends| [ends.least, ends.most].map(|end| from + Notches(end)));
    let said = position_words(scene, turn, from, to);
    nut_input::as_slider(ui, id, said, ends);
    if scene.view.nut_wants_focus && scene.view.nut.min(scene.session.press.arms.len() - 1) == arm.0
    {
        scene.view.nut_wants_focus = false;
        plate.request_focus();
    }
    if plate.clicked() || plate.drag_started() {
        plate.request_focus();
        scene.view.nut = arm.0;
    }
    if plate.hovered() {
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
        let last = scene.session.press.arms.len().saturating_sub(1);
        scene.view.nut = arm.0.saturating_add_signed(beside).min(last);
        scene.view.nut_wants_focus = true;
        ui.ctx().request_repaint();
    }

    let turned = turn.0 != 0;
    let outside = scene
        .outlook
        .bounds
        .get(arm.0)
        .is_some_and(|bounds| !(bounds.least..=bounds.most).contains(&turn.0));
    let edge = if turned {
        theme::stroke(2.0, palette.preview)
    } else {
        theme::stroke(1.0, palette.line)
    };
    let back = if turned {
        palette.preview_back
    } else {
        palette.button
    };
    ui.painter()
        .rect(rect, CornerRadius::same(6), back, edge, StrokeKind::Inside);
    by += if rect.width() >= PAIRED {
        worded(ui, scene, arm, rect, turn, from, to)
    } else {
        narrow(ui, scene, arm, rect, turn, to)
    };
    if outside {
        ui.painter().text(
            rect.left_top() + Vec2::new(6.0, 4.0),
            Align2::LEFT_TOP,
            "⚠",
            theme::bold(size::TITLE),
            palette.caution,
        );
    }
    // A plate with room for words says it all itself.
    if rect.width() < PAIRED {
        plate.on_hover_text(label);
    }
    if by != 0 {
        scene.view.nut = arm.0;
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
    if rect.width() >= ROOMY {
        return Round {
            centre: Pos2::new(rect.center().x, rect.top() + 32.0),
            radius: 23.0,
            out,
        };
    }
    if rect.width() >= PAIRED {
        return Round {
            centre: rect.left_top() + Vec2::new(15.0, TARGET + 16.0),
            radius: 11.0,
            out,
        };
    }
    let radius = (rect.width() / 2.0 - 5.0).min(10.0);
    Round {
        centre: Pos2::new(rect.center().x, rect.top() + TARGET + radius + 1.0),
        radius,
        out,
    }
}

/// A plate with room for words: minus, nut, plus, or the nut below both; turn
/// and positions below.
fn worded(
    ui: &mut Ui,
    scene: &Scene<'_>,
    arm: ArmIndex,
    rect: Rect,
    turn: Notches,
    from: NutPosition,
    to: NutPosition,
) -> i32 {
    let palette = scene.palette;
    let round = round_of(scene, rect);
    draw_nut(ui.painter(), scene, round, turn);
    let roomy = rect.width() >= ROOMY;
    let (button_width, middle) = if roomy {
        (TARGET, round.centre.y)
    } else {
        (rect.width() / 2.0, rect.top() + TARGET / 2.0)
    };
    let button = |side: f32| {
        let from_centre = side * (rect.width() - button_width) / 2.0;
        Rect::from_center_size(
            Pos2::new(rect.center().x + from_centre, middle),
            Vec2::new(button_width, TARGET),
        )
    };
    let by = press(ui, scene, arm, button(-1.0), -1) + press(ui, scene, arm, button(1.0), 1);
    let ink = if turn.0 == 0 {
        palette.muted
    } else {
        palette.preview
    };
    let (left, below) = if roomy {
        (rect.left(), 70.0)
    } else {
        (round.centre.x + round.radius, TARGET + 16.0)
    };
    let room = rect.right() - left - 6.0;
    let lay = |text, size| {
        let galley = ui.painter().layout_no_wrap(text, theme::bold(size), ink);
        (galley.size().x <= room).then_some(galley)
    };
    let turned = lay(scene.figures.turn(turn), size::BODY)
        .or_else(|| lay(scene.figures.turn_short(turn), size::BODY))
        .or_else(|| lay(scene.figures.turn_short(turn), size::LEAST))
        .or_else(|| lay(signed(turn), size::BODY));
    if let Some(turned) = turned {
        let middle = Pos2::new((left + rect.right()) / 2.0, rect.top() + below);
        ui.painter()
            .galley(middle - turned.size() / 2.0, turned, ink);
    }
    let words = scene.words();
    let position = if turn.0 == 0 {
        words.stays_at(from)
    } else {
        words.from_to(from, to)
    };
    ui.painter().text(
        Pos2::new(rect.center().x, rect.top() + 88.0),
        Align2::CENTER_CENTER,
        position,
        theme::regular(size::SMALL),
        palette.muted,
    );
    if rect.height() > PLATE {
        limits_bar(ui.painter(), scene, arm, rect, from, to);
    }
    by
}

/// The narrow plate: up, nut, down; the number below.
fn narrow(
    ui: &mut Ui,
    scene: &Scene<'_>,
    arm: ArmIndex,
    rect: Rect,
    turn: Notches,
    to: NutPosition,
) -> i32 {
    let palette = scene.palette;
    let upper = Rect::from_min_max(rect.min, Pos2::new(rect.right(), rect.top() + TARGET));
    let lower = Rect::from_min_max(Pos2::new(rect.left(), rect.bottom() - TARGET), rect.max);
    let by = press(ui, scene, arm, upper, 1) + press(ui, scene, arm, lower, -1);
    let middle = Rect::from_min_max(upper.left_bottom(), lower.right_top());
    draw_nut(ui.painter(), scene, round_of(scene, rect), turn);
    let words = scene.words();
    let (text, ink) = match turn.0 {
        0 => (to.to_string(), palette.muted),
        // Between close arms there is no room for the word.
        _ if rect.width() < TARGET => (signed(turn), palette.preview),
        out if out > 0 => (words.short_out(out), palette.preview),
        inward => (words.short_in(inward.unsigned_abs()), palette.preview),
    };
    ui.painter().text(
        Pos2::new(middle.center().x, middle.bottom() - 8.0),
        Align2::CENTER_CENTER,
        text,
        theme::bold(size::LEAST),
        ink,
    );
    by
}

/// A turn as a number: out is plus.
fn signed(turn: Notches) -> String {
    format!("{:+}", turn.0).replace('-', "−")
}

/// A button that turns the nut by one notch.
fn press(ui: &mut Ui, scene: &Scene<'_>, arm: ArmIndex, rect: Rect, by: i32) -> i32 {
    let palette = scene.palette;
    let id = ui.scope_id().with(("turn", arm.0, by));
    let button = ui.interact(rect, id, Sense::CLICK);
    let words = scene.words();
    let label = if by > 0 {
        words.turn_one_out(arm)
    } else {
        words.turn_one_in(arm)
    };
    button.widget_info(|| WidgetInfo::labeled(Role::Button, true, &label));
    let fill = if button.hovered() {
        palette.button_hover
    } else {
        palette.card
    };
    let painter = ui.painter();
    painter.rect(
        rect.shrink(3.0),
        CornerRadius::same(5),
        fill,
        theme::stroke(1.0, palette.edge),
        StrokeKind::Inside,
    );
    painter.text(
        rect.center(),
        Align2::CENTER_CENTER,
        if by > 0 { "+" } else { "−" },
        theme::bold(size::SENTENCE),
        palette.ink,
    );
    if button.on_hover_text(label).clicked() {
        by
    } else {
        0
    }
}

/// The nut seen from its rod's end: slots, the pin's hole, and a painted mark
/// that travels a slot per notch.
fn draw_nut(painter: &Painter, scene: &Scene<'_>, nut: Round, turn: Notches) {
    let palette = scene.palette;
    let Round {
        centre,
        radius,
        out,
    } = nut;
    let turned_by = out * turn.0 as f32 * NOTCH_ANGLE;
    painter.circle(
        centre,
        radius,
        palette.steel,
        theme::stroke(1.6, palette.steel_edge),
    );
    for slot in 0..SLOTS {
        let angle = slot as f32 * TAU / SLOTS as f32 + turned_by;
        let outward = Vec2::angled(angle);
        painter.line_segment(
            [centre + outward * radius * 0.56, centre + outward * radius],
            theme::stroke((radius * 0.24).max(2.0), palette.steel_edge),
        );
    }
    painter.circle(
        centre,
        radius * 0.40,
        palette.card,
        theme::stroke(1.6, palette.steel_edge),
    );
    let mark = Vec2::angled(-TAU / 4.0 + turned_by);
    let ink = if turn.0 == 0 {
        palette.muted
    } else {
        palette.preview
    };
    painter.circle_filled(centre + mark * radius * 0.78, (radius * 0.11).max(2.0), ink);
}

/// Where the nut stands between its limits.
fn limits_bar(
    painter: &Painter,
    scene: &Scene<'_>,
    arm: ArmIndex,
    rect: Rect,
    from: NutPosition,
    to: NutPosition,
) {
    let palette = scene.palette;
    let Some(limits) = scene
        .session
        .press
        .arms
        .get(arm.0)
        .and_then(|arm| arm.limits)
    else {
        return;
    };
    let span = (limits.most_out.0 - limits.most_in.0).max(1) as f32;
    let y = rect.bottom() - 9.0;
    let (left, right) = (rect.left() + 26.0, rect.right() - 26.0);
    let x = |position: NutPosition| {
        // Past an end the mark stands beyond it, where the number is.
        let share = (position.0 - limits.most_in.0) as f32 / span;
        let beyond = 12.0 / (right - left).max(1.0);
        left + (right - left) * share.clamp(-beyond, 1.0 + beyond)
    };
    painter.line_segment(
        [Pos2::new(left, y), Pos2::new(right, y)],
        theme::stroke(3.0, palette.line),
    );
    for (end, align, position) in [
        (left - 4.0, Align2::RIGHT_CENTER, limits.most_in),
        (right + 4.0, Align2::LEFT_CENTER, limits.most_out),
    ] {
        painter.text(
            Pos2::new(end, y),
            align,
            position,
            theme::regular(size::LEAST),
            palette.muted,
        );
    }
    painter.circle_filled(Pos2::new(x(from), y), 4.0, palette.present);
    if from != to && !limits.allow(to) {
        let at = Pos2::new(x(to), y);
        painter.circle_filled(at, 8.0, palette.caution_back);
        for side in [-1.0, 1.0] {
            let arm = Vec2::new(5.0, 5.0 * side);
            painter.line_segment([at - arm, at + arm], theme::stroke(2.5, palette.caution));
        }
    } else if from != to {
        painter.circle(
            Pos2::new(x(to), y),
            4.5,
            palette.card,
            theme::stroke(2.0, palette.preview),
        );
    }
}

/// A nut's turn and positions in one phrase.
fn position_words(scene: &Scene<'_>, turn: Notches, from: NutPosition, to: NutPosition) -> String {
    let words = scene.words();
    let turned = scene.figures.turn(turn);
    if turn.0 == 0 {
        format!("{turned}, {}", words.stays_at(from))
    } else {
        format!("{turned}, {}", words.from_to(from, to))
    }
}
