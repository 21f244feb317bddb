//! Asks whether the press is made safe, before hands go in.

use eframe::egui::{Ui, Vec2};

use crate::session::{Edit, MarkKind, NextAct, Stage, StepId};
use crate::window::action::Action;
use crate::window::state::{Before, MadeSafeForm};

use crate::window::views::Scene;
use crate::window::views::dialog_room;
use crate::window::views::tick_box::tick_box;
use crate::window::views::turning::safety;
use crate::window::views::visit::noting::{now, rules_of};
use crate::window::views::visit::signer;
use crate::window::views::widgets::{button, line, main_button, muted, name_text, strong};

/// Width of a window from which the cautions stand beside the steps.
const WIDE: f32 = 900.0;

/// Distance between them.
const COLUMN_GAP: f32 = 16.0;

/// Whether steps and cautions stand side by side in a window of such a size.
pub fn is_wide(room: Vec2) -> bool {
    room.x >= WIDE
}

/// Draws the dialog.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut MadeSafeForm) {
    let wide = is_wide(ui.ctx().content_rect().size());
    dialog_room::middle(ui, |ui| {
        if wide {
            let half = (ui.available_width() - COLUMN_GAP) / 2.0;
            ui.horizontal_top(|ui| {
                ui.spacing_mut().item_spacing.x = COLUMN_GAP;
                ui.vertical(|ui| {
                    ui.set_width(half);
                    steps(ui, scene, form);
                });
                ui.vertical(|ui| {
                    ui.set_width(half);
                    safety::in_full(ui, scene);
                });
            });
        } else {
            steps(ui, scene, form);
            safety::in_full(ui, scene);
        }
    });
    answers(ui, scene, form);
}

/// What for, who, and the steps.
fn steps(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut MadeSafeForm) {
    let words = scene.words();
    let palette = scene.palette;
    ui.label(match (&form.before, scene.session.power_was_on()) {
        (Before::Turning(turning), lapsed) => {
            let turns = scene.figures.turns(&turning.turns);
            let ways = scene.figures.ways(&scene.session.press, &turning.turns);
            match lapsed {
                true => words.made_safe_why_turn(turns, ways),
                false => words.made_safe_why_first(turns, ways),
            }
        }
        (Before::Hands(_), _) => words.made_safe_why_hands().to_owned(),
    });
    let step = scene.next_step();
    if matches!(form.before, Before::Turning(_)) && step.act == NextAct::PutBack {
        let would = scene.spoken(&step, |of| scene.figures.headline(&step, of));
        let warning = strong(format!("⚠ {} {would}", words.not_advised()));
        ui.label(warning.color(palette.caution));
    }
    signer::ask(ui, scene);
    let width = ui.available_width();
    ui.spacing_mut().item_spacing.y = 3.0;
    for (step, ticked, _) in &mut form.steps {
        one(ui, scene, *step, ticked, width);
    }
    let rules = words.rules_line(&rules_of(Stage::MakeSafe.steps()));
    ui.label(muted(palette, rules));
}

/// One step: its box, and when it was ticked where that still stands.
fn one(ui: &mut Ui, scene: &Scene<'_>, step: StepId, ticked: &mut bool, width: f32) {
    let words = scene.words();
    let palette = scene.palette;
    let list = &scene.session.checklist;
    let mark = list.mark(step);
    let kind = match (*ticked, mark.map(|mark| mark.kind)) {
        (true, Some(MarkKind::Skipped)) => Some(MarkKind::Skipped),
        (true, _) => Some(MarkKind::Done),
        (false, _) => None,
    };
    let text = scene.figures.step_text(list, step);
    if tick_box(ui, palette, &text, kind, width).clicked() {
        *ticked = !*ticked;
    }
    if let Some(mark) = mark {
        let said = match mark.kind {
            // Its place is kept, so that a tick moves no box under the pointer.
            _ if !*ticked => words.not_ticked_yet().to_owned(),
            MarkKind::Skipped => words.left_out_because(&mark.note),
            MarkKind::Done => words.made_safe_anew(&mark.when),
        };
        ui.label(muted(palette, said));
    }
}

fn answers(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut MadeSafeForm) {
    let words = scene.words();
    let confirm = match form.before {
        Before::Turning(_) => words.confirm_and_turn(),
        Before::Hands(_) => words.confirm_made_safe(),
    };
    let signed = !signer::name(scene).is_empty();
    let missing = match (signed, form.all_ticked()) {
        (false, _) => Some(words.sign_first()),
        (true, false) => Some(words.check_off_first()),
        (true, true) => None,
    };
    // Its place is kept, so that nothing moves when it is answered.
    let said = missing.map_or_else(String::new, |missing| format!("⚠ {missing}"));
    ui.label(muted(scene.palette, said).color(scene.palette.caution));
    if main_button(ui, scene.palette, confirm, missing.is_none()).clicked() {
        settle(scene, form);
    }
    let width = (ui.available_width() - 400.0).max(250.0);
    ui.horizontal_wrapped(|ui| {
        let hint = words.without_needs_reason();
        let reason = ui.add(line(&mut form.reason, width).hint_text(hint));
        name_text(&reason, hint, &form.reason);
        let ready = signed && !form.reason.trim().is_empty() && !form.all_ticked();
        let without = ui.add_enabled_ui(ready, |ui| button(ui, words.without_confirming()));
        if without.inner.clicked() {
            settle(scene, form);
        }
        if button(ui, words.cancel()).clicked() {
            scene.ask(Action::Close);
        }
    });
}

/// Notes what was ticked and, with the reason, what was not; then goes on.
fn settle(scene: &mut Scene<'_>, form: &MadeSafeForm) {
    let who = signer::name(scene);
    let ticked = form.newly();
    if !ticked.is_empty() {
        scene.ask(Action::Edit(Edit::Tick {
            steps: ticked,
            who: who.clone(),
            when: now(),
            note: String::new(),
        }));
    }
    let open = form.open();
    if !open.is_empty() {
        scene.ask(Action::Edit(Edit::Skip {
            steps: open,
            reason: form.reason.clone(),
            who,
            when: now(),
        }));
    }
    scene.ask(Action::MadeSafe(form.before.clone()));
}
