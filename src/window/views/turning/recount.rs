//! How a nut was really turned, where that was not as planned: the count by minus
//! and plus, what is still to turn, and what to do when the count is lost.

use eframe::egui::{Button, Pos2, Rect, Role, Ui, Vec2, WidgetInfo};

use crate::press::Notches;
use crate::window::state::turn_card::{CardNut, TurnCard};
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::turning::lettering::{fitting, large, lesser};
use crate::window::views::turning::nut_at_hand::{centred, wrapped};

/// Share of the width that a button of the count takes.
const BUTTON: f32 = 0.24;

/// Where the nut stands by the count, and what the plan still asks of it.
pub fn stands(scene: &Scene<'_>, card: &TurnCard, nut: &CardNut) -> String {
    let words = scene.words();
    if card.waits_for_answer() {
        return words.card_planned(nut.from, nut.to());
    }
    let (rest, planned) = (nut.rest(), scene.figures.turn_short(nut.planned));
    let turn = scene.figures.turn_short(rest);
    let goes_on = rest.0.signum() == nut.planned.0.signum();
    let rest = match goes_on {
        true => words.rest_to_plan(turn, planned),
        false => words.back_to_plan(turn, planned),
    };
    format!("{}. {rest}", words.card_stands_at(nut.to()))
}

/// What is asked, and in which letters.
pub struct Ask<'a> {
    pub nut: &'a CardNut,
    pub turn: String,
    pub then: String,
    pub scale: f32,
}

impl Ask<'_> {
    /// Draws it from the foot of a room up; answers how far up it reaches.
    pub fn show(self, ui: &mut Ui, scene: &Scene<'_>, card: &mut TurnCard, room: Rect) -> f32 {
        let (words, palette) = (scene.words(), scene.palette);
        let Self {
            nut,
            turn,
            then,
            scale,
        } = self;
        let width = room.width();
        let mut bottom = room.bottom();
        if nut.lost {
            for text in lost(scene, nut).into_iter().rev() {
                let text = wrapped(ui, &text, lesser(25.0, scale), palette.ink, width);
                bottom = centred(ui, room, bottom, text, palette.ink) - 4.0;
            }
        } else {
            let high = (56.0 * scale).max(TARGET);
            let size = Vec2::new(width * 0.5, high);
            let middle = Pos2::new(room.center().x, bottom - high / 2.0);
            let row = Rect::from_center_size(middle, size);
            if put(ui, scene, row, words.lost_count(), words.lost_count()) {
                card.lose_count();
            }
            bottom = row.top() - 6.0;
        }
        let then = fitting(ui, then, lesser(34.0, scale), palette.ink, width);
        bottom = centred(ui, room, bottom, then, palette.ink) - 4.0;
        bottom = count(ui, scene, card, (nut, turn), (room, bottom, scale));
        let asked = match nut.lost {
            true => words.count_lost_title(nut.arm),
            false => words.what_really(nut.arm),
        };
        let asked = fitting(ui, asked, large(46.0, scale), palette.ink, width);
        centred(ui, room, bottom, asked, palette.ink)
    }
}

/// The count between the button that makes it more IN and the one that makes it
/// more OUT; answers how far up it reaches.
fn count(
    ui: &mut Ui,
    scene: &Scene<'_>,
    card: &mut TurnCard,
    (nut, turn): (&CardNut, String),
    (room, bottom, scale): (Rect, f32, f32),
) -> f32 {
    let (words, palette) = (scene.words(), scene.palette);
    let high = (90.0 * scale).max(TARGET);
    let row = Rect::from_min_max(
        Pos2::new(room.left(), bottom - high),
        Pos2::new(room.right(), bottom),
    );
    let wide = Vec2::new(BUTTON * row.width(), high);
    let left = Rect::from_min_size(row.min, wide);
    let right = Rect::from_min_size(Pos2::new(row.right() - wide.x, row.top()), wide);
    if put(ui, scene, left, words.count_in(), &words.really_in(nut.arm)) {
        card.turned_more(Notches(-1));
    }
    if put(
        ui,
        scene,
        right,
        words.count_out(),
        &words.really_out(nut.arm),
    ) {
        card.turned_more(Notches(1));
    }
    // Until it is answered the plan is none to follow.
    let ink = match card.waits_for_answer() {
        true => palette.muted,
        false => palette.ink,
    };
    let between = row.width() - 2.0 * wide.x - 16.0;
    let turn = fitting(ui, turn, large(64.0, scale), ink, between);
    let middle = row.center() - turn.rect.center().to_vec2();
    ui.painter().galley(middle, turn, ink);
    row.top() - 6.0
}

/// A button in its place; whether it was pressed.
fn put(ui: &mut Ui, scene: &Scene<'_>, place: Rect, text: &str, name: &str) -> bool {
    let font = theme::bold((place.height() * 0.36).max(size::BODY));
    let text = fitting(
        ui,
        text.to_owned(),
        font,
        scene.palette.ink,
        place.width() - 16.0,
    );
    let button = ui.put(place, Button::new(text).min_size(place.size()));
    button.widget_info(|| WidgetInfo::labeled(Role::Button, true, name));
    button.clicked()
}

/// What to do when the count is lost.
pub fn lost(scene: &Scene<'_>, nut: &CardNut) -> [String; 3] {
    let words = scene.words();
    let planned = nut.from + nut.planned;
    let from_flush = match planned.0 {
        0 => words.count_at_flush().to_owned(),
        turn => words.count_from_flush(scene.figures.turn_short(Notches(turn)), planned),
    };
    [
        words.count_by_mark().to_owned(),
        from_flush,
        words.count_neither().to_owned(),
    ]
}
