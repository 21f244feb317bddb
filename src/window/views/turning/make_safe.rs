//! Asks whether the press is made safe, before hands go in.

use eframe::egui::{Ui, Vec2};

use crate::session::NextAct;
use crate::window::action::Action;
use crate::window::state::Before;

use crate::window::views::Scene;
use crate::window::views::dialog_room::{self, Answer, Foot};
use crate::window::views::turning::safety;
use crate::window::views::visit::{signer, steps};
use crate::window::views::widgets::{muted, strong};

/// Width of a window from which the cautions stand beside the steps.
const WIDE: f32 = 900.0;

/// Distance between them.
const COLUMN_GAP: f32 = 16.0;

/// Share of the width that the steps have.
const STEPS: f32 = 0.58;

/// Whether steps and cautions stand side by side in a window of such a size.
pub fn is_wide(room: Vec2) -> bool {
    room.x >= WIDE
}

/// Draws the dialog. A tick counts at once, as at the stage: it is the same
/// list.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, before: &Before) {
    let wide = is_wide(ui.ctx().content_rect().size());
    dialog_room::middle(ui, |ui| {
        if wide {
            let left = ((ui.available_width() - COLUMN_GAP) * STEPS).floor();
            let right = ui.available_width() - COLUMN_GAP - left;
            ui.horizontal_top(|ui| {
                ui.spacing_mut().item_spacing.x = COLUMN_GAP;
                ui.vertical(|ui| {
                    ui.set_width(left);
                    asked(ui, scene, before);
                });
                ui.vertical(|ui| {
                    ui.set_width(right);
                    safety::for_work(ui, scene, before.stage());
                });
            });
        } else {
            asked(ui, scene, before);
            safety::for_work(ui, scene, before.stage());
        }
    });
    safety::manual_first(ui, scene);
    answers(ui, scene, before);
}

/// What for, who, and the steps.
fn asked(ui: &mut Ui, scene: &mut Scene<'_>, before: &Before) {
    let words = scene.words();
    let palette = scene.palette;
    ui.spacing_mut().item_spacing.y = 3.0;
    if let Before::Turning(turning) = before {
        let turns = scene.figures.turns(&turning.turns);
        let ways = scene.figures.ways(&scene.session.press, &turning.turns);
        ui.label(strong(words.made_safe_then(turns, ways)));
        let step = scene.next_step();
        if step.act == NextAct::PutBack {
            let would = scene.spoken(&step, |of| scene.figures.headline(&step, of));
            let warning = strong(format!("⚠ {} {would}", words.not_advised()));
            ui.label(warning.color(palette.caution));
        }
    }
    let asked = scene.session.checklist.safe_steps(before.hands());
    let marked = |step| scene.session.mark_now(step).is_some();
    let begun = asked.iter().any(|step| marked(*step));
    ui.label(muted(
        palette,
        match (begun, scene.session.power_was_on()) {
            (true, _) => words.made_safe_still(),
            (false, true) => words.made_safe_why_again(),
            (false, false) => words.made_safe_why_first(),
        },
    ));
    signer::ask(ui, scene);
    steps::list(ui, scene, &asked, false);
}

fn answers(ui: &mut Ui, scene: &mut Scene<'_>, before: &Before) {
    let words = scene.words();
    let confirm = match before {
        Before::Turning(_) => words.confirm_and_turn(),
        Before::Hands(_) => words.confirm_made_safe(),
    };
    let asked = scene.session.checklist.safe_steps(before.hands());
    let open = asked
        .iter()
        .filter(|step| !scene.session.is_settled(**step));
    let open = open.count();
    let still_open = words.still_open(open, asked.len());
    let act = match (signer::name(scene).is_empty(), open) {
        (true, _) => (words.sign_first(), false),
        (false, 0) => (confirm, true),
        (false, _) => (&*still_open, false),
    };
    let foot = Foot {
        leave: Some(words.cancel()),
        main: Some(act),
    };
    match foot.show(ui, scene.palette, |_| {}) {
        Some(Answer::Leave) => scene.ask(Action::Close),
        Some(_) => scene.ask(Action::MadeSafe(before.clone())),
        None => {}
    }
}
