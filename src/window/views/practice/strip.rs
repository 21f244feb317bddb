//! What marks a practice session as one, whatever else is on show: a strip with
//! clock and tally along the top, and a frame around the window.

use eframe::egui::{self, Frame, Margin, Panel, RichText, Ui, Vec2};

use crate::practice::{Act, Cure, Refusal};
use crate::window::action::Action;
use crate::window::practicing::{PracticeWish, Practicing};
use crate::window::theme::{self, size};

use crate::window::views::Scene;
use crate::window::views::widgets::{button, choice, muted};

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

/// Draws the strip along the top.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let Some(practicing) = scene.practicing else {
        return;
    };
    let strip = Frame::new()
        .fill(scene.palette.button)
        .inner_margin(Margin::symmetric(14, 8));
    Panel::top("practice").frame(strip).show(ui, |ui| {
        tally(ui, scene, practicing);
    });
}

/// Room below which the acts stand in a menu: a strip of buttons would leave no
/// room for the work.
const ROOM_FOR_ACTS: Vec2 = Vec2::new(1200.0, 600.0);

fn tally(ui: &mut Ui, scene: &mut Scene<'_>, practicing: &Practicing) {
    let words = scene.words();
    let practice = &practicing.practice;
    let room = ui.ctx().content_rect().size();
    let wide = room.x >= ROOM_FOR_ACTS.x && room.y >= ROOM_FOR_ACTS.y;
    let going_on = practice.ending().is_none() && !scene.view.is_turning();
    let bold = |text: &str| RichText::new(text).font(theme::bold(size::TITLE));
    ui.horizontal_wrapped(|ui| {
        if !wide {
            ui.label(bold(words.practice_mark()));
            ui.label(words.practice_clock(scene.figures.decimal(practice.minutes(), 0)));
            if going_on {
                read(ui, scene, practicing);
                ui.menu_button(words.practice_do(), |ui| {
                    egui::ScrollArea::vertical()
                        .max_height(room.y - 3.0 * theme::TARGET)
                        .show(ui, |ui| acts(ui, scene, practicing));
                });
            }
            return;
        }
        ui.label(bold(words.practice_mark_long()));
        let exercise = practice.exercise();
        ui.label(words.practice_which(exercise.number, words.help_grade(exercise.help)));
        ui.label(words.practice_used(
            scene.figures.decimal(practice.minutes(), 0),
            practice.belt_ends(),
            practice.hooks(),
        ));
        if !exercise.title.is_empty() || !exercise.note.is_empty() {
            let told = format!("{} {}", exercise.title, exercise.note);
            ui.label(muted(scene.palette, told));
        }
    });
    if wide && going_on {
        ui.horizontal_wrapped(|ui| {
            read(ui, scene, practicing);
            acts(ui, scene, practicing);
        });
    }
}

/// The next reading.
fn read(ui: &mut Ui, scene: &mut Scene<'_>, practicing: &Practicing) {
    if let Some(station) = practicing.next_station() {
        let name = scene.session.station_name(station);
        let read = button(ui, scene.words().practice_next(name));
        // What gives the first cell the keyboard at a real press gives it here.
        if scene.view.dialog.is_none() && scene.view.readings.cells.next.take().is_some() {
            read.request_focus();
        }
        if read.clicked() {
            scene.ask(Action::Practice(PracticeWish::Read(station)));
        }
    }
}

fn acts(ui: &mut Ui, scene: &mut Scene<'_>, practicing: &Practicing) {
    let words = scene.words();
    let practice = &practicing.practice;
    let wish = |scene: &mut Scene<'_>, act: Act| {
        scene.ask(Action::Practice(PracticeWish::Act(act)));
    };
    if button(ui, words.practice_zero()).clicked() {
        wish(scene, Act::ZeroGauge);
    }
    let beside = practicing.beside;
    if choice(ui, scene.palette, beside, words.practice_beside()).clicked() {
        scene.ask(Action::Practice(PracticeWish::Beside(!beside)));
    }
    let flip = practicing.flip_next;
    if choice(ui, scene.palette, flip, words.practice_flip()).clicked() {
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
    let may_see = practice.may_see_advice();
    if may_see == Err(Refusal::GuessFirst) && button(ui, words.practice_guess()).clicked() {
        let turns = scene.preview().iter().map(|turn| turn.0).collect();
        wish(scene, Act::Guess(turns));
    }
    if may_see.is_ok()
        && !practicing.shows_advice()
        && button(ui, words.practice_see_advice()).clicked()
    {
        wish(scene, Act::SeeAdvice);
    }
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
