//! What marks a practice session as one, whatever else is on show: a strip with
//! clock and tally along the top, and a frame around the window.

use eframe::egui::{self, Frame, Margin, Panel, RichText, Ui, Vec2};

use crate::practice::{Act, Cure, Refusal};
use crate::window::action::Action;
use crate::window::practicing::{PracticeWish, Practicing};
use crate::window::theme::{self, size};

use crate::window::views::Scene;
use crate::window::views::widgets::{button, muted, toggle};

/// Width of the frame around the window.
const FRAME: f32 = 6.0;

/// Draws the frame around the window, above everything.
pub fn frame(ctx: &egui::Context, palette: &theme::Palette) {
    let layer = egui::LayerId::new(egui::Order::Foreground, egui::Id::unique("practice frame"));
    let painter = ctx.layer_painter(layer);
    let edge = ctx.content_rect().shrink(0.5 * FRAME);
    let corners = [
        edge.left_top(),
        edge.right_top(),
        edge.right_bottom(),
        edge.left_bottom(),
        edge.left_top(),
    ];
    // Dashed, so that it is told from any frame by its pattern too.
    let stroke = theme::stroke(FRAME, palette.present);
    painter.extend(egui::Shape::dashed_line(&corners, stroke, 24.0, 12.0));
}

/// Keeps the room of the frame free, so that it lies on nothing.
pub fn room(ui: &mut Ui, palette: &theme::Palette) {
    for (side, name) in [
        (Panel::top as fn(&'static str) -> Panel, "frame top"),
        (Panel::bottom, "frame bottom"),
        (Panel::left, "frame left"),
        (Panel::right, "frame right"),
    ] {
        side(name)
            .exact_size(FRAME)
            .resizable(false)
            .show_separator_line(false)
            .frame(Frame::new().fill(palette.card))
            .show(ui, |_| {});
    }
}

/// Draws the strip along the top.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let Some(practicing) = scene.practicing else {
        return;
    };
    let strip = Frame::new()
        .fill(scene.palette.button)
        .inner_margin(Margin::symmetric(14, 4));
    Panel::top("practice").frame(strip).show(ui, |ui| {
        tally(ui, scene, practicing);
    });
}

/// Room below which clock and mark alone are told: a longer strip would leave no
/// room for the work.
const ROOM_FOR_TALLY: Vec2 = Vec2::new(1200.0, 600.0);

/// Width from which it is said that nothing here is real.
const ROOM_FOR_MARK: f32 = 900.0;

/// Mark, clock and what was used up; the acts that are not the next one unfold.
fn tally(ui: &mut Ui, scene: &mut Scene<'_>, practicing: &Practicing) {
    let words = scene.words();
    let practice = &practicing.practice;
    let room = ui.ctx().content_rect().size();
    let wide = room.x >= ROOM_FOR_TALLY.x && room.y >= ROOM_FOR_TALLY.y;
    let minutes = scene.figures.decimal(practice.minutes(), 0);
    let exercise = practice.exercise();
    let (mark, told) = if room.x >= ROOM_FOR_MARK {
        let clock = match wide {
            true => words.practice_used(minutes, practice.belt_ends(), practice.hooks()),
            false => words.practice_clock(minutes, practice.belt_ends()),
        };
        let which = words.practice_short(exercise.number);
        (words.practice_mark_long(), vec![which, clock])
    } else {
        (
            words.practice_mark(),
            vec![words.practice_clock_short(minutes)],
        )
    };
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(mark).font(theme::bold(size::TITLE)));
        told.into_iter().for_each(|told| drop(ui.label(told)));
        if practicing.looks_back && button(ui, words.practice_to_debrief()).clicked() {
            scene.ask(Action::Practice(PracticeWish::LookBack(false)));
        }
        if practice.ending().is_none() && !scene.view.is_turning() {
            ui.menu_button(words.practice_do(), |ui| {
                egui::ScrollArea::vertical()
                    .max_height(room.y - 3.0 * theme::TARGET)
                    .show(ui, |ui| acts(ui, scene, practicing));
            });
        }
        if wide && (!exercise.title.is_empty() || !exercise.note.is_empty()) {
            let told = format!("{} {}", exercise.title, exercise.note);
            ui.label(muted(scene.palette, told));
        }
    });
}

fn acts(ui: &mut Ui, scene: &mut Scene<'_>, practicing: &Practicing) {
    let words = scene.words();
    let wish = |scene: &mut Scene<'_>, act: Act| {
        scene.ask(Action::Practice(PracticeWish::Act(act)));
    };
    if button(ui, words.practice_zero()).clicked() {
        wish(scene, Act::ZeroGauge);
    }
    let beside = practicing.beside;
    if toggle(ui, scene.palette, beside, words.practice_beside()).clicked() {
        scene.ask(Action::Practice(PracticeWish::Beside(!beside)));
    }
    let flip = practicing.flip_next;
    if toggle(ui, scene.palette, flip, words.practice_flip()).clicked() {
        scene.ask(Action::Practice(PracticeWish::Flip(!flip)));
    }
    ui.menu_button(words.practice_see_to(), |ui| {
        for cure in Cure::ALL {
            if button(ui, words.cure(cure)).clicked() {
                wish(scene, Act::SeeTo(cure));
                ui.close();
            }
        }
    });
    let turns = scene.preview();
    if turns.iter().any(|turn| turn.0 != 0) && button(ui, words.practice_turn_now()).clicked() {
        scene.ask(Action::Practice(PracticeWish::TurnNow));
    }
    if button(ui, words.practice_accept()).clicked() {
        wish(scene, Act::Accept);
    }
    if button(ui, words.practice_stop()).clicked() {
        wish(scene, Act::GiveUp);
    }
}

/// The way to the advice of an exercise, where it may be seen: first a guess,
/// where the exercise asks for one.
pub fn advice(ui: &mut Ui, scene: &mut Scene<'_>) {
    let Some(practicing) = scene.practicing.filter(|it| !it.shows_advice()) else {
        return;
    };
    let words = scene.words();
    let act = match practicing.practice.may_see_advice() {
        Ok(()) => (words.practice_see_advice(), Act::SeeAdvice),
        Err(Refusal::GuessFirst) => {
            let turns = scene.preview().iter().map(|turn| turn.0).collect();
            (words.practice_guess(), Act::Guess(turns))
        }
        Err(_) => return,
    };
    if button(ui, act.0).clicked() {
        scene.ask(Action::Practice(PracticeWish::Act(act.1)));
    }
}
