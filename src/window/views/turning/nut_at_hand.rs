//! The nut at hand on the turn card, in letters that can be read from two
//! metres: which, the way the wrench goes, how far, and how it was really turned.

use std::sync::Arc;

use eframe::egui::{
    Align, Align2, Button, Color32, CornerRadius, Galley, Pos2, Rect, Role, Sense, StrokeKind, Ui,
    Vec2, WidgetInfo, text::LayoutJob,
};

use crate::press::{ArmIndex, Notches};
use crate::report::NutTurn;
use crate::session::Step;
use crate::window::state::turn_card::{CardNut, Purpose, TurnCard};
use crate::window::theme::{self, Palette, TARGET};

use crate::window::views::Scene;
use crate::window::views::turning::lettering::{fitting, large, lesser};
use crate::window::views::turning::turn_card::all_done;
use crate::window::views::turning::wrench;

/// The nut at hand: letter, picture, which way, how far.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, card: &mut TurnCard, scale: f32) {
    let Some(nut) = card.current().cloned() else {
        return;
    };
    let words = scene.words();
    let palette = scene.palette;
    let rect = ui.available_rect_before_wrap();
    let response = ui.allocate_rect(rect, Sense::hover());
    wrench::plate(ui.painter(), palette, rect);
    let inner = rect.shrink((16.0 * scale).max(6.0));
    // What is done, or said to be, is no order any more.
    let done = nut.ticked || nut.differs();
    let turned = scene.session.press.wrench_way(nut.really);
    let turned = turned.filter(|_| !card.waits_for_answer());
    let way = turned.filter(|_| !done);
    let turn = match (nut.differs(), nut.ticked) {
        (true, _) => scene.figures.turned_and_plan(nut.really, nut.planned),
        (false, true) => words.card_nut_done().to_owned(),
        (false, false) => scene.figures.turn(nut.really),
    };
    let then = match (done, nut.is_turned()) {
        (true, _) => words.card_stands_at(nut.to()),
        (false, true) if card.otherwise => words.card_planned(nut.from, nut.to()),
        (false, true) => words.card_now_then(nut.from, nut.to()),
        (false, false) => words.card_now_stays(nut.from),
    };
    let seen = match (nut.really.0, card.purpose()) {
        (_, Purpose::Splice) if all_done(card) => words.card_after(),
        (_, Purpose::CoarseGap) if all_done(card) => words.card_after_gap(),
        _ if done => "",
        (0, _) => "",
        (1.., _) => words.out_backs_off(),
        (..0, _) => words.in_runs_in(),
    };
    let picture = way.map_or_else(
        || match done {
            true => words.nut_done_picture().to_owned(),
            false => words.nut_left_picture().to_owned(),
        },
        |way| words.wrench_picture(words.wrench(way)),
    );
    let arms = scene.session.press.arms.len();
    let nth = match scene.view.stands_behind {
        false => words.from_the_left(nut.arm.0),
        true => words.from_behind(arms.saturating_sub(nut.arm.0 + 1)),
    };
    let told = format!("{}, {nth}. {turn}, {then}. {picture}.", nut.arm);
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &told));

    // From the bottom up, so that the picture takes what is left.
    let mut bottom = inner.bottom();
    let width = inner.width();
    let mut line = |ui: &Ui, galley: Arc<Galley>, ink: Color32, least: f32| {
        let height = galley.size().y.max(least);
        bottom -= height;
        let middle = Pos2::new(inner.center().x, bottom + height / 2.0);
        let at = middle - galley.rect.center().to_vec2();
        ui.painter().galley(at, galley, ink);
        middle.y
    };
    // Lines that wrap stand in the middle like those that do not.
    let wrapped = |ui: &Ui, text: String, points: f32, ink: Color32| {
        let mut job = LayoutJob::simple(text, lesser(points, scale), ink, width);
        job.halign = Align::Center;
        ui.painter().layout_job(job)
    };
    for text in beware(scene, card, &nut).into_iter().rev() {
        let text = format!("⚠ {text}");
        let galley = wrapped(ui, text, 22.0, palette.caution);
        line(ui, galley, palette.caution, 0.0);
    }
    let galley = fitting(ui, then, lesser(40.0, scale), palette.ink, width);
    line(ui, galley, palette.ink, 0.0);
    let ink = match (nut.ticked, nut.really.0) {
        _ if nut.differs() => palette.ink,
        (true, _) => palette.good,
        (false, 0) => palette.muted,
        (false, _) if card.waits_for_answer() => palette.muted,
        (false, _) => palette.preview,
    };
    if card.otherwise {
        let height = (76.0 * scale).max(TARGET);
        let space = ui
            .painter()
            .layout_no_wrap(String::new(), lesser(12.0, scale), palette.ink);
        let middle = line(ui, space, palette.ink, height + 8.0);
        let row = Rect::from_center_size(
            Pos2::new(inner.center().x, middle),
            Vec2::new(width, height),
        );
        otherwise(ui, scene, card, &nut, row);
    }
    let galley = fitting(ui, turn, large(92.0, scale), ink, width);
    line(ui, galley, ink, 0.0);
    if card.otherwise {
        let asked = words.what_really(nut.arm);
        let galley = fitting(ui, asked, large(52.0, scale), palette.ink, width);
        line(ui, galley, palette.ink, 0.0);
    } else {
        let (points, ink) = match all_done(card) {
            true => (32.0, palette.ink),
            false => (24.0, palette.muted),
        };
        let galley = wrapped(ui, seen.to_owned(), points, ink);
        line(ui, galley, ink, 0.0);
    }
    if let Some(way) = way {
        let text = words.facing_the_rod(words.wrench(way));
        let galley = fitting(ui, text, large(30.0, scale), palette.preview, width);
        line(ui, galley, palette.preview, 0.0);
    }
    let top = Rect::from_min_max(inner.min, Pos2::new(inner.right(), bottom - 4.0));
    let turned = turned.map(|way| NutTurn {
        way,
        notches: nut.really.0.unsigned_abs(),
        done,
    });
    letter_and_nut(ui, palette, &nut, (nth, turned), (top, scale));
    row_of_arms(ui, scene, &nut, (top, scale));
}

/// Height of the room from which the row of arms is drawn under the letter.
const ROOM_FOR_ROW: f32 = 150.0;

/// Height of that row.
fn row_height(scale: f32) -> f32 {
    (36.0 * scale).max(24.0)
}

/// All arms as whoever stands there sees them, the one at hand filled, and a
/// button for whoever stands on the other side.
fn row_of_arms(ui: &mut Ui, scene: &mut Scene<'_>, nut: &CardNut, (top, scale): (Rect, f32)) {
    if top.height() < ROOM_FOR_ROW {
        return;
    }
    let (words, palette) = (scene.words(), scene.palette);
    let left = left_part(top);
    let behind = scene.view.stands_behind;
    let high = row_height(scale);
    let row = Rect::from_min_max(
        Pos2::new(left.left(), left.bottom() - TARGET - 6.0 - high),
        Pos2::new(left.right(), left.bottom() - TARGET - 6.0),
    );
    let mut arms: Vec<ArmIndex> = scene.session.press.indexed_arms().map(|it| it.0).collect();
    if behind {
        arms.reverse();
    }
    let each = (row.width() / arms.len().max(1) as f32).min(2.4 * high);
    let first = row.center().x - each * arms.len() as f32 / 2.0;
    for (place, arm) in arms.into_iter().enumerate() {
        let from = Pos2::new(first + each * place as f32, row.top());
        let rect = Rect::from_min_size(from, Vec2::new(each, high)).shrink2(Vec2::new(2.0, 0.0));
        let (fill, ink) = match arm == nut.arm {
            true => (palette.present, palette.on_present),
            false => (palette.button, palette.muted),
        };
        let edge = theme::stroke(1.0, palette.edge);
        let painter = ui.painter();
        painter.rect(rect, CornerRadius::same(4), fill, edge, StrokeKind::Inside);
        let font = theme::bold(high * 0.55);
        painter.text(rect.center(), Align2::CENTER_CENTER, arm, font, ink);
    }
    let side = match behind {
        true => words.stands_behind(),
        false => words.stands_in_front(),
    };
    let rect = Rect::from_min_max(Pos2::new(left.left(), left.bottom() - TARGET), left.max);
    let font = lesser(22.0, scale);
    let text = fitting(ui, side.to_owned(), font, palette.ink, rect.width() - 16.0);
    let button = ui.put(rect, Button::new(text).min_size(rect.size()));
    button.widget_info(|| WidgetInfo::selected(Role::Button, true, behind, side));
    if button.clicked() {
        scene.view.stands_behind = !behind;
    }
}

/// Where the letter stands, beside the picture of its nut.
fn left_part(top: Rect) -> Rect {
    let right = Pos2::new(top.left() + 0.4 * top.width(), top.bottom());
    Rect::from_min_max(top.min, right)
}

/// The letter beside the picture of its nut.
fn letter_and_nut(
    ui: &Ui,
    palette: &Palette,
    nut: &CardNut,
    (nth, turn): (String, Option<NutTurn>),
    (top, scale): (Rect, f32),
) {
    let mut left = left_part(top);
    if top.height() >= ROOM_FOR_ROW {
        left.max.y -= row_height(scale) + TARGET + 10.0;
    }
    let nth = fitting(ui, nth, lesser(30.0, scale), palette.muted, left.width());
    let room = left.height() - nth.size().y;
    let letter = (220.0 * scale).min(room * 0.85);
    if letter > 8.0 {
        ui.painter().text(
            Pos2::new(left.center().x, left.center().y - nth.size().y / 2.0),
            Align2::CENTER_CENTER,
            nut.arm,
            theme::bold(letter),
            palette.present,
        );
        let under = Pos2::new(
            left.center().x - nth.size().x / 2.0,
            left.center().y + letter * 0.58 - nth.size().y * 0.5,
        );
        ui.painter().galley(under, nth, palette.muted);
    }
    let right = Rect::from_min_max(Pos2::new(left.right() + 8.0, top.top()), top.max);
    let radius = (right.width().min(right.height()) / 2.0 - 2.0) / crate::report::NUT_REACH;
    if radius > 6.0 {
        wrench::show(ui.painter(), palette, right.center(), radius, turn);
    }
}

/// What to beware of at the nut at hand.
fn beware(scene: &Scene<'_>, card: &TurnCard, nut: &CardNut) -> Vec<String> {
    let mut said = Vec::new();
    let out_open = |other: &CardNut| other.really.0 > 0 && !other.ticked;
    if nut.really.0 < 0 && !nut.ticked && card.nuts().iter().any(out_open) {
        said.push(scene.figures.step(Step::OutsThenIns).text);
    }
    let press = &scene.session.press;
    let unlimited = press
        .arms
        .get(nut.arm.0)
        .is_some_and(|arm| arm.limits.is_none());
    if nut.is_turned() && unlimited {
        said.push(scene.words().limits_unknown().to_owned());
    }
    let pass = scene.session.passes.len().checked_sub(1);
    let mut turns = vec![Notches(0); card.nuts().len()];
    if let Some(turn) = turns.get_mut(nut.arm.0) {
        *turn = nut.really;
    }
    let troubles = scene
        .session
        .turn_troubles(pass.unwrap_or(usize::MAX), &turns);
    said.extend(
        troubles
            .iter()
            .map(|trouble| scene.figures.turn_trouble(trouble)),
    );
    said
}

/// The buttons that say how the nut was really turned, a notch each.
fn otherwise(ui: &mut Ui, scene: &Scene<'_>, card: &mut TurnCard, nut: &CardNut, row: Rect) {
    let words = scene.words();
    let (left, right) = row.split_left_right_at_x(row.center().x);
    for (rect, by, name) in [
        (left, -1, words.really_in(nut.arm)),
        (right, 1, words.really_out(nut.arm)),
    ] {
        let rect = rect.shrink2(Vec2::new(4.0, 0.0));
        // What it comes to, not a step towards it: that would read as an order.
        let text = match Notches(nut.really.0 + by) {
            Notches(0) => words.it_was_left().to_owned(),
            really => words.it_was(scene.figures.turn(really)),
        };
        let font = theme::bold((row.height() * 0.36).max(theme::size::BODY));
        let text = fitting(ui, text, font, scene.palette.ink, rect.width() - 16.0);
        let button = ui.put(rect, Button::new(text).min_size(rect.size()));
        button.widget_info(|| WidgetInfo::labeled(Role::Button, true, &name));
        if button.clicked() {
            card.turned_more(Notches(by));
        }
    }
}
