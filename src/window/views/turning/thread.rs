//! Which way the thread of the nuts runs: looked at on the press before the first
//! nut is turned, because every arrow of a wrench goes by it.

use eframe::egui::{
    Align2, CornerRadius, Pos2, Rect, Role, Sense, StrokeKind, Ui, Vec2, WidgetInfo,
};

use crate::press::{Notches, WrenchWay};
use crate::session::Edit;
use crate::window::action::Action;
use crate::window::theme;

use crate::window::views::Scene;
use crate::window::views::forms::session_field::{buttons_width, name_size, stacked};
use crate::window::views::hint::Hint;
use crate::window::views::turning::lettering::{fitting, large, lesser};
use crate::window::views::turning::nut_at_hand::{centred, wrapped};
use crate::window::views::turning::safety::caution;
use crate::window::views::widgets::{button, choice, choice_text, losing};

/// Either hand, and whether it is the left.
const HANDS: [bool; 2] = [false, true];

/// Turns of its thread that are drawn of a rod.
const DRAWN: usize = 7;

/// Says which way a wrench goes for OUT on such a thread.
fn out_goes(scene: &Scene<'_>, left: bool) -> &'static str {
    let way = WrenchWay::of(Notches(1), left);
    way.map_or("", |way| scene.words().wrench_short(way))
}

/// The same as an arrow.
fn out_arrow(scene: &Scene<'_>, left: bool) -> &'static str {
    let way = WrenchWay::of(Notches(1), left);
    way.map_or("", |way| scene.words().wrench_arrow(way))
}

/// Asks it in all the room of the turn card, in its letters.
pub fn ask(ui: &mut Ui, scene: &mut Scene<'_>, scale: f32) {
    let words = scene.words();
    let palette = scene.palette;
    let room = ui.available_rect_before_wrap();
    let said = [
        (words.thread_first(), large(46.0, scale), palette.ink),
        (words.thread_how(), lesser(32.0, scale), palette.ink),
        (words.thread_unlike(), lesser(28.0, scale), palette.caution),
    ];
    let told = said.each_ref().map(|(text, ..)| *text).join(" ");
    let mut top = room.top();
    for (text, font, ink) in said {
        let laid = wrapped(ui, text, font, ink, room.width() - 2.0 * theme::GAP);
        let foot = top + laid.size().y;
        centred(ui, room, foot, laid, ink);
        top = foot + 12.0 * scale;
    }
    ui.allocate_rect(room, Sense::hover())
        .widget_info(|| WidgetInfo::labeled(Role::Label, true, &told));
    let width = (room.width() - theme::GAP) / 2.0;
    for (place, left) in HANDS.into_iter().enumerate() {
        let from = Pos2::new(room.left() + place as f32 * (width + theme::GAP), top);
        let rect = Rect::from_min_max(from, Pos2::new(from.x + width, room.bottom()));
        hand(ui, scene, rect.shrink(4.0), left, scale);
    }
}

/// One of the two, drawn as it is seen with the end of the rod up.
fn hand(ui: &mut Ui, scene: &mut Scene<'_>, rect: Rect, left: bool, scale: f32) {
    let palette = scene.palette;
    let name = scene.words().thread_hand(left);
    let out = scene.words().thread_out(out_goes(scene, left));
    let id = ui.scope_id().with(("thread", left));
    let response = ui.interact(rect, id, Sense::click());
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("{name}. {out}")));
    let fill = match response.hovered() {
        true => palette.button_hover,
        false => palette.button,
    };
    let edge = theme::stroke(2.0, palette.edge);
    let painter = ui.painter();
    painter.rect(rect, CornerRadius::same(10), fill, edge, StrokeKind::Inside);
    let inner = rect.shrink(12.0);
    let out = fitting(ui, out, lesser(34.0, scale), palette.muted, inner.width());
    let foot = centred(ui, inner, inner.bottom(), out, palette.muted);
    let font = large(44.0, scale);
    let name = fitting(ui, name.to_owned(), font, palette.ink, inner.width());
    let foot = centred(ui, inner, foot, name, palette.ink) - 8.0;
    // The rod, its end up; what is seen of its thread climbs to one side.
    let high = foot - inner.top();
    let wide = (0.4 * high).min(0.5 * inner.width());
    let rod = Align2::CENTER_TOP.align_size_within_rect(Vec2::new(wide, high), inner);
    let line = theme::stroke((4.0 * scale).max(2.0), palette.ink);
    let painter = ui.painter().with_clip_rect(rod);
    painter.rect(
        rod,
        CornerRadius::same(4),
        palette.card,
        line,
        StrokeKind::Inside,
    );
    // Of a right-hand helix (cos t, sin t, t) whoever stands outside sees the half
    // that climbs to the right.
    let climbs = match left {
        true => -0.25 * wide,
        false => 0.25 * wide,
    };
    for turn in 0..=DRAWN {
        let y = rod.top() + high * turn as f32 / DRAWN as f32;
        let ends = [
            Pos2::new(rod.left(), y + climbs),
            Pos2::new(rod.right(), y - climbs),
        ];
        painter.line_segment(ends, line);
    }
    if response.clicked() {
        scene.ask(Action::Edit(Edit::SetLeftHandThread(left)));
    }
}

/// The two as a choice, in a form and at a stage; answers what was chosen anew.
pub fn choose(ui: &mut Ui, scene: &Scene<'_>) -> Option<bool> {
    let words = scene.words();
    let now = scene.session.press.left_hand_thread;
    let texts = texts(scene);
    let width = choice_width(ui, scene);
    let mut anew = None;
    stacked(ui, words.thread(), width, |ui, _| {
        ui.horizontal(|ui| {
            for (left, text) in HANDS.into_iter().zip(&texts) {
                let chosen = now == Some(left);
                let pressed = choice(ui, scene.palette, chosen, text);
                if pressed.hint(words.thread_hint()).clicked() && !chosen {
                    anew = Some(left);
                }
            }
        });
    });
    anew
}

fn texts(scene: &Scene<'_>) -> [String; 2] {
    HANDS.map(|left| scene.words().thread_short(left, out_arrow(scene, left)))
}

/// Width that [`choose`] takes.
pub fn choice_width(ui: &Ui, scene: &Scene<'_>) -> f32 {
    let buttons = texts(scene).each_ref().map(|text| choice_text(true, text));
    buttons_width(ui, &buttons).max(name_size(ui, scene.words().thread()).x)
}

/// Asks whether it was seen on the press, for it flips every arrow.
pub fn confirm(ui: &mut Ui, scene: &mut Scene<'_>, asked: &mut Option<bool>) {
    let words = scene.words();
    let Some(left) = *asked else {
        return;
    };
    caution(
        ui,
        scene.palette,
        &words.thread_flips(out_goes(scene, left)),
    );
    ui.horizontal_wrapped(|ui| {
        if button(ui, words.thread_keep()).clicked() {
            *asked = None;
        }
        let seen = words.thread_seen(words.thread_hand(left));
        if losing(ui, scene.palette, &seen).clicked() {
            *asked = None;
            scene.ask(Action::Edit(Edit::SetLeftHandThread(left)));
        }
    });
}
