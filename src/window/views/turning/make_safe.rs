//! Asks whether the press is made safe, before hands go in.

use eframe::egui::Ui;

use crate::session::{Edit, NextAct, SafeGroup, Step, StepId};
use crate::window::action::Action;
use crate::window::state::Before;

use crate::window::views::Scene;
use crate::window::views::dialog_room::{self, Answer, Foot};
use crate::window::views::turning::safety;
use crate::window::views::visit::noting::anothers_lock;
use crate::window::views::visit::{signer, stage, steps};
use crate::window::views::widgets::{button, strong};

/// Width of what cuts it off, as a share: it is more than what follows.
const FIRST: f32 = 0.56;

/// Draws the dialog. A tick counts at once, as at the stage: it is the same
/// list.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, before: &Before) {
    // The name has the keyboard until it is typed: a box that opens meanwhile was
    // not asked for.
    scene.view.visit.wants_focus = false;
    dialog_room::middle(ui, |ui| {
        asked(ui, scene, before);
        let steps = scene.session.checklist.safe_steps(before.hands());
        list(ui, scene, &steps, |ui, scene| safety::all_folded(ui, scene));
    });
    safety::cautions(ui, scene, Some(before.stage()));
    answers(ui, scene, before);
}

/// The steps that make the press safe, in dialog and stage alike: where there is
/// room, what cuts it off left, and right what comes once it is off, with what
/// is read `below` it.
pub fn list(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    steps: &[StepId],
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
    stage::beside(
        ui,
        scene,
        FIRST,
        |ui, scene| steps::list(ui, scene, &first),
        |ui, scene| {
            steps::list(ui, scene, &then);
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
    } else {
        ui.label(strong(words.next_stage(words.stage(before.stage()))));
    }
    let asked = scene.session.checklist.safe_steps(before.hands());
    let marked = |step| scene.session.mark_now(step).is_some();
    let begun = asked.iter().any(|step| marked(*step));
    if scene.session.locks_of_turning() {
        ui.label(words.locks_of_turning());
        if button(ui, words.power_was_on_since()).clicked() {
            // All that makes it safe waits for the first of it.
            let first = Step::OthersTold.into();
            scene.ask(Action::Edit(Edit::Untick(first)));
        }
    } else {
        ui.label(match begun {
            true => words.made_safe_still(),
            false => words.made_safe_why(),
        });
    }
    signer::ask(ui, scene);
}

fn answers(ui: &mut Ui, scene: &mut Scene<'_>, before: &Before) {
    let words = scene.words();
    let confirm = match before {
        Before::Turning(_) => words.confirm_and_turn(),
        Before::Hands(_) => words.confirm_made_safe(),
    };
    let asked = scene.session.checklist.safe_steps(before.hands());
    let missing = missing(scene, &asked);
    let foot = Foot {
        leave: Some(words.cancel()),
        main: Some((confirm, missing.is_none())),
    };
    let answer = foot.show(ui, scene.palette, |ui| {
        missing.map(|missing| ui.label(strong(missing)));
    });
    match answer {
        Some(Answer::Leave) => scene.ask(Action::Close),
        Some(_) => scene.ask(Action::MadeSafe(before.clone())),
        None => {}
    }
}

/// What is missing until the press is made safe: who signs, or steps.
pub fn missing(scene: &Scene<'_>, asked: &[StepId]) -> Option<String> {
    let words = scene.words();
    let is_open = |step: &&StepId| !scene.session.is_settled(**step);
    let open = asked.iter().filter(is_open).count();
    match (signer::name(scene).is_empty(), open) {
        (true, _) => Some(words.sign_first().to_owned()),
        (false, 0) => {
            let who = anothers_lock(scene)?;
            Some(words.own_lock_too(who))
        }
        (false, _) => Some(words.still_open(open, asked.len())),
    }
}
