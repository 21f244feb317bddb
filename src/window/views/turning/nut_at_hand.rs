//! The nut at hand on the turn card, in letters that can be read from two
//! metres: which, the way the wrench goes, how far, and how it was really turned.

use std::sync::Arc;

use eframe::egui::{
    Align, Align2, Button, Color32, CornerRadius, FontId, Galley, Pos2, Rect, Role, Sense,
    StrokeKind, Ui, Vec2, WidgetInfo, text::LayoutJob,
};

use crate::press::{ArmIndex, Notches};
use crate::report::NutTurn;
use crate::session::Step;
use crate::window::state::turn_card::{CardNut, Purpose, TurnCard};
use crate::window::theme::{self, Palette, TARGET};

use crate::window::views::Scene;
use crate::window::views::turning::lettering::{fitting, large, lesser};
use crate::window::views::turning::turn_card::all_done;
use crate::window::views::turning::{recount, wrench};

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
    let told = card.is_told();
    let done = nut.ticked || told;
    let turned = match done {
        true => nut.really,
        false => nut.rest(),
    };
    let way = scene.session.press.wrench_way(turned);
    let turn = match nut.ticked {
        _ if told => scene.figures.turn(nut.really),
        true if nut.differs() => scene.figures.turned_and_plan(nut.really, nut.planned),
        true => words.card_nut_done().to_owned(),
        false if nut.made.0 != 0 => words.turn_more(scene.figures.turn(turned)),
        false => scene.figures.turn(turned),
    };
    let then = match (done, nut.is_turned()) {
        _ if told => recount::stands(scene, card, &nut),
        (true, _) => words.card_stands_at(nut.to()),
        (false, true) => words.card_now_then(nut.now(), nut.to()),
        (false, false) => words.card_now_stays(nut.from),
    };
    let seen = match (turned.0, card.purpose()) {
        (_, Purpose::Splice) if all_done(card) => words.card_after(),
        (_, Purpose::CoarseGap) if all_done(card) => words.card_after_gap(),
        _ if done => "",
        (0, _) => "",
        (1.., _) => words.out_backs_off(),
        (..0, _) => words.in_runs_in(),
    };
    let picture = match way.filter(|_| !done) {
        Some(way) => words.wrench_picture(words.wrench(way)),
        None if done => words.nut_done_picture().to_owned(),
        None => words.nut_left_picture().to_owned(),
    };
    let arms = scene.session.press.arms.len();
    let nth = match scene.view.stands_behind {
        false => words.from_the_left(nut.arm.0),
        true => words.from_behind(arms.saturating_sub(nut.arm.0 + 1)),
    };
    let mut label = format!("{}, {nth}. {turn}, {then}. {picture}.", nut.arm);
    if told && nut.lost {
        label = format!("{label} {}", recount::lost(scene, &nut).join(" "));
    }
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &label));

    // From the bottom up, so that the picture takes what is left.
    let mut bottom = inner.bottom();
    let width = inner.width();
    for text in beware(scene, card, &nut).into_iter().rev() {
        let text = format!("⚠ {text}");
        let galley = wrapped(ui, &text, lesser(22.0, scale), palette.caution, width);
        bottom = centred(ui, inner, bottom, galley, palette.caution);
    }
    if told {
        let ask = recount::Ask {
            nut: &nut,
            turn,
            then,
            scale,
        };
        bottom = ask.show(
            ui,
            scene,
            card,
            Rect::from_min_max(inner.min, Pos2::new(inner.right(), bottom)),
        );
    } else {
        let mut line = |ui: &Ui, galley, ink| bottom = centred(ui, inner, bottom, galley, ink);
        let galley = fitting(ui, then, lesser(40.0, scale), palette.ink, width);
        line(ui, galley, palette.ink);
        let ink = match (nut.ticked, turned.0) {
            (true, _) if nut.differs() => palette.outside,
            (true, _) => palette.good,
            (false, 0) => palette.muted,
            (false, _) => palette.preview,
        };
        let galley = fitting(ui, turn, large(92.0, scale), ink, width);
        line(ui, galley, ink);
        let (points, ink) = match all_done(card) {
            true => (32.0, palette.ink),
            false => (24.0, palette.muted),
        };
        let galley = wrapped(ui, seen, lesser(points, scale), ink, width);
        line(ui, galley, ink);
        if let Some(way) = way.filter(|_| !done) {
            let text = words.facing_the_rod(words.wrench(way));
            let galley = fitting(ui, text, large(30.0, scale), palette.preview, width);
            line(ui, galley, palette.preview);
        }
    }
    let top = Rect::from_min_max(inner.min, Pos2::new(inner.right(), bottom - 4.0));
    let made = if done { 0 } else { nut.made.0 };
    let turned = way.map(|way| NutTurn {
        way,
        notches: turned.0.unsigned_abs(),
        from: made * turned.0.signum(),
        done,
    });
    letter_and_nut(ui, palette, &nut, (nth, turned), (top, scale));
    row_of_arms(ui, scene, &nut, (top, scale));
}

/// Draws a line of letters in the middle of so much room, above what stands at
/// its foot already; answers how far up it reaches.
pub fn centred(ui: &Ui, room: Rect, bottom: f32, galley: Arc<Galley>, ink: Color32) -> f32 {
    let top = bottom - galley.size().y;
    let middle = Pos2::new(room.center().x, (top + bottom) / 2.0);
    let at = middle - galley.rect.center().to_vec2();
    ui.painter().galley(at, galley, ink);
    top
}

/// Lines that wrap, in the middle like those that do not.
pub fn wrapped(ui: &Ui, text: &str, font: FontId, ink: Color32, width: f32) -> Arc<Galley> {
    let mut job = LayoutJob::simple(text.to_owned(), font, ink, width);
    job.halign = Align::Center;
    ui.painter().layout_job(job)
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
    let out_open = |other: &CardNut| other.rest().0 > 0 && !other.ticked;
    if nut.rest().0 < 0 && !nut.ticked && card.nuts().iter().any(out_open) {
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
