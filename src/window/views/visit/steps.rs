//! Steps as big boxes to tick, why and what to watch for, notes: at a stage, and
//! wherever the press is made safe.

use eframe::egui::{self, Button, Color32, Frame, Margin, Role, Ui, Vec2, WidgetInfo};

use crate::session::{Edit, Mark, MarkKind, SafeGroup, Stage, StepId};
use crate::window::action::Action;
use crate::window::theme::TARGET;

use crate::window::views::Scene;
use crate::window::views::hint::Hint;
use crate::window::views::tick_box::{INDENT, TickRow};
use crate::window::views::visit::noting::{
    is_unsigned, names, now, own_is_open, typed_over, waits,
};
use crate::window::views::visit::signer;
use crate::window::views::widgets::{button, line, muted, name_text, quiet, quiet_width, strong};

/// Height of a window from which steps are written large.
const LARGE: f32 = 840.0;

/// Draws steps as boxes to tick, each with what to watch for; why unfolds with its
/// note.
pub fn list(ui: &mut Ui, scene: &mut Scene<'_>, steps: &[StepId]) {
    // The keyboard goes to the first step; where that waits, to the way on.
    let mut first = true;
    let mut before = None;
    for step in steps {
        let group = match step {
            StepId::Fixed(step) => step.safe_group(),
            StepId::Own(_) => None,
        };
        if let Some(group) = group.filter(|group| before != Some(*group)) {
            let heading = scene.words().safe_group(group);
            // What proves all the others stands out.
            let ink = match group {
                SafeGroup::Proof => scene.palette.caution,
                _ => scene.palette.muted,
            };
            ui.label(strong(heading).color(ink));
        }
        before = group;
        let focus = first && scene.view.visit.wants_focus;
        first = false;
        ui.push_id(step, |ui| one(ui, scene, *step, focus));
    }
}

fn one(ui: &mut Ui, scene: &mut Scene<'_>, step: StepId, focus: bool) {
    let words = scene.words();
    let palette = scene.palette;
    let text = scene.figures.step_text(&scene.session.checklist, step);
    // Whoever hangs or takes off a lock of their own sees an open box beside the
    // names of those who did.
    let marks: Vec<Mark> = scene.session.marks_now(step).cloned().collect();
    let mark = marks.last().filter(|_| !own_is_open(scene, step)).cloned();
    let open = matches!(&scene.view.visit.note, Some((noted, _)) if *noted == step);
    // What is ticked may always be taken back.
    let locked = mark.is_none() && waits(scene, step);
    let more = match open {
        true => words.fold_step(),
        false => words.mark_note(),
    };
    let (why, watch) = match step {
        StepId::Fixed(step) => {
            let said = scene.figures.step(step);
            (words.why(said.why), said.watch)
        }
        StepId::Own(_) => (words.own_step().to_owned(), ""),
    };
    let locks = scene.session.locks();
    let watch = match step {
        StepId::Fixed(step) if step.brings_power() && !locks.is_empty() => {
            format!("{watch} {}", words.locks_on(names(scene, &locks)))
        }
        _ => watch.to_owned(),
    };
    let lines = marks.iter().map(|mark| mark_line(scene, step, mark));
    let marked = lines.reduce(|(all, ink), (line, _)| (format!("{all}\n{line}"), ink));
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 10.0;
        let row = TickRow {
            text: &text,
            kind: mark.as_ref().map(|mark| mark.kind),
            locked,
            watch: &watch,
            large: ui.ctx().content_rect().height() >= LARGE,
            marked,
            ..TickRow::default()
        };
        let width = ui.available_width() - quiet_width(ui, more) - 10.0;
        let ticked = row.show(ui, palette, width);
        if focus && !locked {
            scene.view.visit.wants_focus = false;
            ticked.request_focus();
        }
        if ticked.clicked() {
            let edit = if mark.is_some() {
                Edit::Untick(step)
            } else {
                tick(scene, vec![step], String::new())
            };
            scene.ask(Action::Edit(edit));
        }
        let more = quiet(ui, palette, more);
        let name = words.more_about(&text);
        more.widget_info(|| WidgetInfo::selected(Role::Button, true, open, &name));
        if more.hint(name).clicked() {
            let note = mark.as_ref().map_or("", |mark| &mark.note).to_owned();
            scene.view.visit.note = (!open).then_some((step, note));
            scene.view.visit.note_wants_focus = !open;
        }
    });
    if !open {
        return;
    }
    Frame::new()
        .inner_margin(Margin {
            left: INDENT as i8,
            bottom: 6,
            ..Margin::ZERO
        })
        .show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 2.0;
            ui.label(why);
            note(ui, scene, step);
        });
}

/// Whether a step makes the press safe.
fn makes_safe(scene: &Scene<'_>, step: StepId) -> bool {
    scene.session.checklist.stage_of(step) == Some(Stage::MakeSafe)
}

/// The edit that leaves a step out, with who and when.
fn skip(scene: &Scene<'_>, step: StepId, reason: String) -> Edit {
    Edit::Skip {
        steps: vec![step],
        reason,
        who: signer::name(scene),
        when: now(),
    }
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
fn mark_line(scene: &Scene<'_>, step: StepId, mark: &Mark) -> (String, Color32) {
    let words = scene.words();
    let palette = scene.palette;
    let who = if mark.who.is_empty() {
        words.marked_by_nobody()
    } else {
        &mark.who
    };
    let marked = words.marked_by(who, &mark.when);
    if mark.kind == MarkKind::Skipped {
        let reason = words.left_out_because(&mark.note);
        let ink = match scene.session.is_settled(step) {
            true => palette.ink,
            false => palette.caution,
        };
        return (format!("– {reason} ({marked})"), ink);
    }
    let note = match mark.note.as_str() {
        "" => String::new(),
        note => format!(" · {note}"),
    };
    (format!("✓ {marked}{note}"), palette.good)
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
        // What makes the press safe is left out for one reason only.
        if makes_safe(scene, step) && matches!(step, StepId::Fixed(_)) {
            if step.may_be_absent() {
                let absent = words.not_on_this_press();
                let out = ui.add_enabled_ui(signed, |ui| button(ui, absent)).inner;
                let asked = scene.figures.step_text(&scene.session.checklist, step);
                let name = words.step_not_here(asked);
                out.widget_info(|| WidgetInfo::labeled(Role::Button, signed, &name));
                if out.clicked() {
                    edit = Some(skip(scene, step, absent.to_owned()));
                }
                ui.label(muted(scene.palette, words.absent_means()));
            }
            return;
        }
        let out = ui.add_enabled_ui(signed, |ui| button(ui, words.leave_out()));
        if out.inner.clicked() {
            edit = Some(skip(scene, step, text.clone()));
        }
        if button(ui, words.hide_step()).clicked() {
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
