//! The buttons that turn a nut by one notch: which way it opens or closes the
//! jaw, and which way the wrench goes.

use eframe::egui::{
    Align2, CornerRadius, Pos2, Rect, Response, Role, Sense, StrokeKind, Ui, Vec2, WidgetInfo,
};

use crate::press::{ArmIndex, Notches, WrenchWay};
use crate::window::action::Action;
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::hint::Hint;
use crate::window::views::turning::chosen_nut;
use crate::window::views::turning::lettering::first_fitting;

/// Width of a button beside its nut.
pub const WIDTH: f32 = 58.0;

/// Width of a button below the plates: its share of the row, least and most.
const BELOW: (f32, f32, f32) = (0.3, 84.0, 190.0);

/// A button that turns the nut by one notch; notches asked for.
pub fn press(ui: &mut Ui, scene: &Scene<'_>, arm: ArmIndex, rect: Rect, by: i32) -> i32 {
    let words = scene.words();
    let name = match by {
        1.. => words.turn_one_out(arm),
        _ => words.turn_one_in(arm),
    };
    let way = scene.session.press.wrench_way(Notches(by));
    let sense = match scene.nuts_wait() {
        true => Sense::hover(),
        false => Sense::CLICK,
    };
    let button = one_notch(ui, scene, (arm, by), rect, (&name, way, sense));
    let seen = scene.figures.one_notch(&scene.session.press, arm, by);
    match button.hint(seen).clicked() {
        true => by,
        false => 0,
    }
}

/// The button itself, the same wherever nuts are turned, lessons included: IN
/// at the left and OUT at the right, each with the way its wrench goes.
pub fn one_notch(
    ui: &mut Ui,
    scene: &Scene<'_>,
    (arm, by): (ArmIndex, i32),
    rect: Rect,
    (name, way, sense): (&str, Option<WrenchWay>, Sense),
) -> Response {
    let palette = scene.palette;
    let words = scene.words();
    let id = ui.scope_id().with(("turn", arm.0, by));
    let enabled = sense.senses_click() && ui.is_enabled();
    let button = ui.interact(rect, id, sense);
    let word = match by {
        1.. => words.word_out(),
        _ => words.word_in(),
    };
    button.widget_info(|| WidgetInfo::labeled(Role::Button, enabled, name));
    let (fill, ink) = match (enabled, button.hovered()) {
        (false, _) => (palette.paper, palette.muted),
        (true, true) => (palette.button_hover, palette.ink),
        (true, false) => (palette.card, palette.ink),
    };
    let ring = if enabled { palette.edge } else { palette.line };
    let edge = theme::stroke(1.0, ring);
    let round = CornerRadius::same(5);
    let painter = ui.painter();
    painter.rect(rect.shrink(2.0), round, fill, edge, StrokeKind::Inside);
    let way = way.map_or("", |way| {
        // Both ways in words, or neither.
        let ways = [WrenchWay::Clockwise, WrenchWay::Counterclockwise];
        let font = || theme::regular(size::LEAST);
        let wide = |way| {
            let text = words.wrench_short(way).to_owned();
            ui.painter().layout_no_wrap(text, font(), ink).size().x + 8.0
        };
        match ways.into_iter().all(|way| wide(way) <= rect.width()) {
            true => words.wrench_short(way),
            false => words.wrench_arrow(way),
        }
    });
    let lines = [
        (-9.0, word, theme::bold(size::LEAST)),
        (9.0, way, theme::regular(size::LEAST)),
    ];
    for (below, text, font) in lines {
        let at = rect.center() + Vec2::new(0.0, below);
        painter.text(at, Align2::CENTER_CENTER, text, font, ink);
    }
    button
}

/// The buttons of the nut that is chosen, and what is done with it between
/// them; where nuts are `stepped` along, the way to the next.
pub fn of_chosen(ui: &mut Ui, scene: &mut Scene<'_>, row: Rect, stepped: bool) {
    let words = scene.words();
    let palette = scene.palette;
    let arm = chosen_nut::chosen(scene);
    let (share, least, most) = BELOW;
    // Where they are stepped along, the words between need the room.
    let wide = match stepped {
        true => least,
        false => (row.width() * share).clamp(least, most),
    };
    let left = Rect::from_min_size(row.min, Vec2::new(wide, row.height()));
    let right = left.translate(Vec2::new(row.width() - wide, 0.0));
    let mut between = Rect::from_min_max(left.right_top(), right.left_bottom());
    if stepped {
        for (by, mark, name, side) in [
            (-1, "◀", words.nut_before(), between.left()),
            (1, "▶", words.nut_after(), between.right() - TARGET),
        ] {
            let place = Rect::from_min_size(Pos2::new(side, row.top()), Vec2::splat(TARGET));
            let id = ui.scope_id().with(("nut beside", by));
            let button = ui.interact(place, id, Sense::CLICK);
            button.widget_info(|| WidgetInfo::labeled(Role::Button, true, name));
            let ink = if button.hovered() {
                palette.present
            } else {
                palette.ink
            };
            let font = theme::bold(size::TITLE);
            ui.painter()
                .text(place.center(), Align2::CENTER_CENTER, mark, font, ink);
            if button.clicked() {
                chosen_nut::step(scene, by);
            }
        }
        between = between.shrink2(Vec2::new(TARGET, 0.0));
    }
    let turn = scene.preview().get(arm.0).copied().unwrap_or_default();
    let from = scene.nuts().get(arm.0).copied().unwrap_or_default();
    let limits = scene
        .session
        .press
        .arms
        .get(arm.0)
        .and_then(|arm| arm.limits);
    let room = between.width() - 4.0;
    let figures = scene.figures;
    let at = from + turn;
    let moves = match turn.0 {
        0 => words.stays_at(at),
        _ => words.from_to(from, at),
    };
    let [long, short] = match turn.0 == 0 && scene.nuts_wait() {
        true => [String::new(), String::new()],
        false => [figures.turn(turn), figures.turn_short(turn)],
    };
    let lines = [
        (
            vec![
                (format!("{arm}  {long}"), theme::bold(size::BODY)),
                (format!("{arm}  {short}"), theme::bold(size::BODY)),
            ],
            if turn.0 == 0 {
                palette.ink
            } else {
                palette.preview
            },
        ),
        (
            vec![
                match limits {
                    Some(limits) => words.nut_limits(&moves, limits.most_in, limits.most_out),
                    None => words.nut_no_limits_entered(&moves),
                },
                moves,
            ]
            .into_iter()
            .map(|text| (text, theme::regular(size::SMALL)))
            .collect(),
            palette.muted,
        ),
    ];
    for ((ways, ink), below) in lines.into_iter().zip([-9.0, 9.0]) {
        if let Some(laid) = first_fitting(ui, ways, ink, room) {
            let at = between.center() + Vec2::new(0.0, below) - laid.size() / 2.0;
            ui.painter().galley(at, laid, ink);
        }
    }
    let edge = theme::stroke(1.5, palette.present);
    let round = CornerRadius::same(6);
    ui.painter()
        .rect_stroke(row, round, edge, StrokeKind::Outside);
    let by = press(ui, scene, arm, left, -1) + press(ui, scene, arm, right, 1);
    if by != 0 {
        scene.view.nut = Some(arm.0);
        scene.ask(Action::TurnNut(arm, Notches(by)));
    }
}
