//! Asks whether the press is made safe, before hands go in.

use eframe::egui::{ScrollArea, Ui};

use crate::session::{Edit, Field, MarkKind, Session, Stage, StepId};
use crate::window::action::Action;

use super::Scene;
use super::stage::{now, rules_of};
use super::steps::tick_box;
use super::widgets::{button, field, line, main_button, muted, name_text, strong, title};

/// What it is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// Nuts were turned.
    Turned,
    /// Hands are about to go in.
    Hands,
}

/// What was ticked so far.
#[derive(Debug, Clone, PartialEq)]
pub struct Form {
    /// What it is asked for.
    pub why: Why,
    /// The steps, whether each is ticked, and whether it was so before.
    steps: Vec<(StepId, bool, bool)>,
    who: String,
    reason: String,
}

impl Form {
    /// A form on the steps as they stand.
    pub fn new(session: &Session, why: Why) -> Self {
        let list = &session.checklist;
        Self {
            why,
            steps: list
                .steps(Stage::MakeSafe)
                .into_iter()
                .map(|step| (step, list.mark(step).is_some()))
                .map(|(step, marked)| (step, marked, marked))
                .collect(),
            who: session.notes.who.clone(),
            reason: String::new(),
        }
    }

    fn all_ticked(&self) -> bool {
        self.steps.iter().all(|(_, ticked, _)| *ticked)
    }

    /// The steps that are ticked, or not, and were not marked before.
    fn newly(&self, wanted: bool) -> Vec<StepId> {
        self.steps
            .iter()
            .filter(|(_, ticked, before)| *ticked == wanted && !before)
            .map(|(step, _, _)| *step)
            .collect()
    }
}

/// Draws the dialog.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut Form) {
    let words = scene.words();
    let palette = scene.palette;
    title(ui, words.made_safe_title());
    ui.label(match (form.why, scene.session.power_was_on()) {
        (Why::Turned, true) => words.made_safe_why_turn(),
        (Why::Turned, false) => words.made_safe_why_first(),
        (Why::Hands, _) => words.made_safe_why_hands(),
    });
    let height = ui.ctx().content_rect().height() - 250.0;
    ScrollArea::vertical().max_height(height).show(ui, |ui| {
        let width = ui.available_width();
        for (step, ticked, _) in &mut form.steps {
            let text = scene.figures.step_text(&scene.session.checklist, *step);
            let left_out = scene
                .session
                .checklist
                .mark(*step)
                .filter(|mark| mark.kind == MarkKind::Skipped);
            let kind = match (*ticked, left_out) {
                (true, Some(_)) => Some(MarkKind::Skipped),
                (true, None) => Some(MarkKind::Done),
                (false, _) => None,
            };
            if tick_box(ui, palette, &text, kind, width).clicked() {
                *ticked = !*ticked;
            }
            if let Some(mark) = left_out {
                ui.label(muted(palette, words.left_out_because(&mark.note)));
            }
        }
        ui.label(muted(
            palette,
            words.rules_line(&rules_of(Stage::MakeSafe.steps())),
        ));
        if form.why == Why::Turned {
            ui.label(strong(words.turn_reminder()));
        }
    });
    ui.horizontal_wrapped(|ui| {
        field(ui, words.field_who(), &mut form.who, 170.0);
    });
    answers(ui, scene, form);
}

fn answers(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut Form) {
    let words = scene.words();
    let confirm = match form.why {
        Why::Turned => words.confirm_and_open(),
        Why::Hands => words.confirm_made_safe(),
    };
    if main_button(ui, scene.palette, confirm, form.all_ticked()).clicked() {
        settle(scene, form);
    }
    let width = (ui.available_width() - 330.0).max(250.0);
    ui.horizontal_wrapped(|ui| {
        let hint = words.without_needs_reason();
        let reason = ui.add(line(&mut form.reason, width).hint_text(hint));
        name_text(&reason, hint, &form.reason);
        let ready = !form.reason.trim().is_empty() && !form.newly(false).is_empty();
        let without = ui.add_enabled_ui(ready, |ui| button(ui, words.without_confirming()));
        if without.inner.clicked() {
            settle(scene, form);
        }
        if button(ui, words.cancel()).clicked() {
            scene.ask(Action::CloseDialog);
        }
    });
}

/// Notes what was ticked and, with the reason, what was not; then goes on.
fn settle(scene: &mut Scene<'_>, form: &Form) {
    let who = form.who.trim().to_owned();
    if who != scene.session.notes.who {
        scene.ask(Action::Edit(Edit::Set {
            field: Field::Who,
            text: who.clone(),
            bare: scene.figures.unit,
        }));
    }
    let ticked = form.newly(true);
    if !ticked.is_empty() {
        scene.ask(Action::Edit(Edit::Tick {
            steps: ticked,
            who: who.clone(),
            when: now(),
            note: String::new(),
        }));
    }
    let open = form.newly(false);
    if !open.is_empty() {
        scene.ask(Action::Edit(Edit::Skip {
            steps: open,
            reason: form.reason.clone(),
            who,
            when: now(),
        }));
    }
    scene.ask(match form.why {
        Why::Turned => Action::NoteTurned,
        Why::Hands => Action::CloseDialog,
    });
}
