//! Asks whether the press is made safe, before hands go in.

use eframe::egui::Ui;

use crate::session::{NextAct, SafeGroup, StepId};
use crate::window::action::Action;
use crate::window::state::Before;

use crate::window::views::Scene;
use crate::window::views::dialog_room::{self, Answer, Foot};
use crate::window::views::turning::safety;
use crate::window::views::visit::{signer, stage, steps};
use crate::window::views::widgets::{muted, strong};

/// Height of all else in a dialog and around it.
const AROUND_LIST: f32 = 300.0;

/// Draws the dialog. A tick counts at once, as at the stage: it is the same
/// list.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, before: &Before) {
    dialog_room::middle(ui, |ui| {
        asked(ui, scene, before);
        let steps = scene.session.checklist.safe_steps(before.hands());
        let stage = before.stage();
        let room = ui.ctx().content_rect().height() - AROUND_LIST;
        list(ui, scene, (&steps, room), |ui, scene| {
            safety::for_work(ui, scene, stage);
        });
    });
    safety::manual_first(ui, scene);
    answers(ui, scene, before);
}

/// The steps that make the press safe, in dialog and stage alike: where there is
/// room, what cuts it off left, and right what comes once it is off, with what
/// is read `below` it.
pub fn list(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    (steps, room): (&[StepId], f32),
    below: impl FnOnce(&mut Ui, &mut Scene<'_>),
) {
    let goes_before = |step: &StepId| match step {
        StepId::Fixed(step) => matches!(
            step.safe_group(),
            Some(SafeGroup::Before | SafeGroup::CutOff)
        ),
        StepId::Own(_) => false,
    };
    let (first, then): (Vec<StepId>, Vec<StepId>) = steps.iter().partition(|it| goes_before(it));
    // Both columns with their reasons, or neither.
    let room = steps::room_for(room, first.len().max(then.len()));
    stage::beside(
        ui,
        scene,
        |ui, scene| steps::list(ui, scene, &first, room),
        |ui, scene| {
            steps::list(ui, scene, &then, room);
            below(ui, scene);
        },
    );
}

/// What for, and who.
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
    ui.add_space(6.0);
    signer::ask(ui, scene);
    ui.add_space(6.0);
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
