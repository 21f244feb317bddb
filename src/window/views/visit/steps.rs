//! The steps of a stage: big boxes to tick, why and what to watch for, notes.

use crate::window::views::tick_box::INDENT;
use crate::window::views::tick_box::tick_box;
use eframe::egui::{self, Button, Frame, Margin, RichText, Role, Ui, Vec2, WidgetInfo};

use crate::session::{Edit, Mark, MarkKind, Stage, StepId};
use crate::window::action::Action;
use crate::window::theme::{self, TARGET, size};
use crate::words::Language;

use crate::window::views::Scene;
use crate::window::views::hint::Hint;
use crate::window::views::visit::noting::{is_unsigned, now, typed_over, waits};
use crate::window::views::visit::signer;
use crate::window::views::widgets::{button, line, muted, name_text};

/// Width of the button that opens a step's note.
const NOTE_WIDTH: f32 = 56.0;

/// Draws the steps in sight.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, stage: Stage) {
    for step in scene.session.checklist.steps(stage) {
        ui.push_id(step, |ui| one(ui, scene, step));
    }
}

fn one(ui: &mut Ui, scene: &mut Scene<'_>, step: StepId) {
    let words = scene.words();
    let text = scene.figures.step_text(&scene.session.checklist, step);
    let mark = scene.session.checklist.mark(step).cloned();
    let kind = mark.as_ref().map(|mark| mark.kind);
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        let width = ui.available_width() - NOTE_WIDTH - 4.0;
        // What is ticked may always be taken back.
        let waits = mark.is_none() && waits(scene, step);
        let tick_box =
            ui.add_enabled_ui(!waits, |ui| tick_box(ui, scene.palette, &text, kind, width));
        let tick_box = tick_box.inner;
        if std::mem::take(&mut scene.view.visit.wants_focus) {
            tick_box.request_focus();
        }
        if tick_box.clicked() {
            let edit = if mark.is_some() {
                Edit::Untick(step)
            } else {
                tick(scene, vec![step], String::new())
            };
            scene.ask(Action::Edit(edit));
        }
        let open = matches!(&scene.view.visit.note, Some((noted, _)) if *noted == step);
        let size = Vec2::new(NOTE_WIDTH, TARGET);
        let more = ui.add(
            Button::new(RichText::new(words.mark_note()).font(theme::regular(size::SMALL)))
                .selected(open)
                .min_size(size),
        );
        let name = words.more_about(&text);
        more.widget_info(|| WidgetInfo::selected(Role::Button, true, open, &name));
        if more.hint(name).clicked() {
            let note = mark.as_ref().map_or("", |mark| &mark.note).to_owned();
            scene.view.visit.note = (!open).then_some((step, note));
            scene.view.visit.note_wants_focus = !open;
        }
    });
    Frame::new()
        .inner_margin(Margin {
            left: INDENT as i8,
            bottom: 6,
            ..Margin::ZERO
        })
        .show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 2.0;
            mark_line(ui, scene, step, mark.as_ref());
            reasons(ui, scene, step);
            note(ui, scene, step);
        });
}

/// The edit that ticks steps off, with who and when.
pub fn tick(scene: &Scene<'_>, steps: Vec<StepId>, note: String) -> Edit {
    Edit::Tick {
        steps,
        who: signer::name(scene),
        when: now(),
        note,
    }
}

/// Who marked the step, when, and with which note.
fn mark_line(ui: &mut Ui, scene: &Scene<'_>, step: StepId, mark: Option<&Mark>) {
    let words = scene.words();
    let palette = scene.palette;
    let (text, ink) = match mark {
        Some(mark) if mark.kind == MarkKind::Skipped => {
            let reason = words.left_out_because(&mark.note);
            (
                format!("– {reason} ({})", who_and_when(words, mark)),
                palette.ink,
            )
        }
        Some(mark) => {
            let mut text = format!("✓ {}", who_and_when(words, mark));
            if !mark.note.is_empty() {
                text.push_str(" · ");
                text.push_str(&mark.note);
            }
            (text, palette.good)
        }
        None => match scene.session.checklist.lapsed_mark(step) {
            Some(mark) => {
                let last = words.was_marked(who_and_when(words, mark));
                (format!("↻ {last}"), palette.caution)
            }
            // Its place is kept, so that a tick moves no box under the pointer.
            None => (words.not_ticked_yet().to_owned(), palette.muted),
        },
    };
    ui.label(
        RichText::new(text)
            .font(theme::regular(size::SMALL))
            .color(ink),
    );
}

fn who_and_when(words: Language, mark: &Mark) -> String {
    let who = if mark.who.is_empty() {
        words.marked_by_nobody()
    } else {
        &mark.who
    };
    words.marked_by(who, &mark.when)
}

/// Why, and what to watch for.
fn reasons(ui: &mut Ui, scene: &Scene<'_>, step: StepId) {
    let words = scene.words();
    let palette = scene.palette;
    match step {
        StepId::Fixed(step) => {
            let said = scene.figures.step(step);
            ui.label(muted(palette, words.why(said.why)));
            ui.label(muted(palette, words.watch_for(said.watch)));
        }
        StepId::Own(_) => {
            ui.label(muted(palette, words.own_step()));
        }
    }
}

/// The open note of a step: tick with it, or leave the step out for it.
fn note(ui: &mut Ui, scene: &mut Scene<'_>, step: StepId) {
    let words = scene.words();
    let Some((noted, mut text)) = scene.view.visit.note.take() else {
        return;
    };
    if noted != step {
        scene.view.visit.note = Some((noted, text));
        return;
    }
    let width = ui.available_width().min(420.0);
    let field = ui.add(line(&mut text, width).hint_text(words.mark_note()));
    name_text(&field, words.note_text(), &text);
    if std::mem::take(&mut scene.view.visit.note_wants_focus) {
        field.request_focus();
    }
    let mut edit = None;
    ui.horizontal_wrapped(|ui| {
        let ready = !waits(scene, step);
        let keep = ui.add_enabled_ui(ready, |ui| button(ui, words.keep_note()));
        if keep.inner.clicked() {
            edit = Some(tick(scene, vec![step], text.clone()));
        }
        let signed = !is_unsigned(scene, step);
        let out = ui.add_enabled_ui(signed, |ui| button(ui, words.leave_out()));
        if out.inner.clicked() {
            edit = Some(Edit::Skip {
                steps: vec![step],
                reason: text.clone(),
                who: signer::name(scene),
                when: now(),
            });
        }
        let energy = matches!(step, StepId::Fixed(fixed) if fixed.isolates_energy());
        if !energy && button(ui, words.hide_step()).clicked() {
            edit = Some(Edit::HideStep(step));
        }
    });
    // A note that is refused (no reason given) stays open.
    let taken = edit
        .as_ref()
        .is_some_and(|edit| scene.session.edited(edit).is_ok());
    if !taken {
        scene.view.visit.note = Some((step, text));
    }
    if let Some(edit) = edit {
        scene.ask(Action::Edit(edit));
    }
}

/// Changing the list: the shop's own steps, and those it hides.
pub fn change(ui: &mut Ui, scene: &mut Scene<'_>, stage: Stage) {
    let words = scene.words();
    egui::CollapsingHeader::new(words.edit_steps())
        .id_salt(("change steps", stage))
        .show(ui, |ui| {
            ui.horizontal_wrapped(|ui| {
                let label = ui.label(words.new_step());
                let width = (ui.available_width() - 100.0).clamp(120.0, 320.0);
                typed_over(ui, scene, "new step", "", width, Some(label.id));
                let text = scene.view.visit.drafts.get("new step").cloned();
                if button(ui, words.add_step()).clicked() {
                    let edit = Edit::AddStep {
                        stage,
                        text: text.unwrap_or_default(),
                    };
                    if scene.session.edited(&edit).is_ok() {
                        scene.view.visit.drafts.remove("new step");
                    }
                    scene.ask(Action::Edit(edit));
                }
            });
            for step in scene.session.checklist.hidden_steps(stage) {
                let text = scene.figures.step_text(&scene.session.checklist, step);
                let back = Button::new(words.bring_back(text))
                    .wrap()
                    .min_size(Vec2::splat(TARGET));
                if ui.add(back).clicked() {
                    scene.ask(Action::Edit(Edit::ShowStep(step)));
                }
            }
        });
}
