//! What single stages are about: where the nuts stand, what drives the jaw, which
//! turns are to be made.

use eframe::egui::{RichText, Ui};

use crate::press::{Notches, NutPosition};
use crate::session::{Edit, Field, NextAct, Stands, Step, StepId};
use crate::window::action::Action;
use crate::window::theme::{self, size};

use crate::window::views::Scene;
use crate::window::views::hint::Hint;
use crate::window::views::visit::noting::{draft_key, hands_may_go_in, set, typed_over};
use crate::window::views::visit::stage::caution;
use crate::window::views::widgets::{button, muted, strong};

/// Most width of the line for the parts of the jaw drive.
const PARTS: f32 = 420.0;

/// Whether a step of this stage is not to be done now: nuts brought back flush
/// after a piece was laced would undo what its readings rest on.
pub fn is_past(scene: &Scene<'_>, step: StepId) -> bool {
    step == StepId::Fixed(Step::NutsFlush) && !scene.session.passes.is_empty()
}

/// Where nuts stand, arm by arm.
fn stand(scene: &Scene<'_>, nuts: &[NutPosition]) -> String {
    let arms = scene.session.press.indexed_arms();
    let each: Vec<String> = arms
        .zip(nuts)
        .map(|((arm, _), nut)| format!("{arm} {nut}"))
        .collect();
    each.join(", ")
}

/// Where the nuts stand before the first pass, and that they stay there once
/// a piece is laced.
pub fn nuts(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let session = scene.session;
    if let Some(last) = session.passes.len().checked_sub(1) {
        let at = stand(scene, session.nuts_at(last));
        let flush = words.flush_not_now(last + 1, at);
        ui.label(strong(flush).color(scene.palette.caution));
        return;
    }
    ui.label(strong(
        words.nuts_noted_at(stand(scene, &session.start_nuts)),
    ));
    if session.start_nuts.iter().all(|nut| nut.0 == 0) {
        return;
    }
    let open = hands_may_go_in(scene);
    let flush = ui.add_enabled_ui(open, |ui| button(ui, words.note_all_flush()));
    if flush.inner.clicked() {
        for ((arm, _), nut) in session.press.indexed_arms().zip(&session.start_nuts) {
            if nut.0 != 0 {
                scene.ask(Action::Edit(Edit::SetNut {
                    pass: None,
                    arm,
                    position: NutPosition(0),
                }));
            }
        }
    }
}

/// Parts of the jaw drive, beside those of the last visit.
pub fn drive(ui: &mut Ui, scene: &mut Scene<'_>) {
    let open = hands_may_go_in(scene);
    let words = scene.words();
    let palette = scene.palette;
    let session = scene.session;
    let drive = &session.press.drive;
    let field = Field::DriveParts;
    let label = ui.label(words.field(field));
    let width = ui.available_width().min(PARTS);
    let field_key = draft_key(field);
    let typed = ui.add_enabled_ui(open, |ui| {
        typed_over(ui, scene, &field_key, &drive.parts, width, Some(label.id))
    });
    let (response, typed) = typed.inner;
    response.hint(words.drive_parts_hint());
    if let Some(typed) = typed {
        set(scene, field, typed);
    }
    if drive.parts_before.is_empty() {
        ui.label(muted(palette, words.drive_parts_hint()));
        return;
    }
    ui.label(muted(palette, words.drive_last_visit(&drive.parts_before)));
    if drive.differs() {
        ui.label(RichText::new(words.drive_differs()).color(palette.caution));
    } else if drive.parts.is_empty() {
        let same = ui.add_enabled_ui(open, |ui| button(ui, words.drive_same()));
        if same.inner.clicked() {
            set(scene, field, drive.parts_before.clone());
        }
    }
}

/// The turns to make, or what comes before any.
pub fn turns(ui: &mut Ui, scene: &mut Scene<'_>) {
    let palette = scene.palette;
    let turns = scene.preview();
    let step = scene.next_step();
    if step.act != NextAct::GoAndTurn || turns.iter().all(|turn| turn.0 == 0) {
        let said = scene.spoken(&step, |of| scene.figures.headline(&step, of));
        ui.label(strong(said));
        return;
    }
    for (arm, turn) in Notches::outs_first(&turns) {
        let Some(from) = scene.nuts().get(arm.0).filter(|_| turn.0 != 0) else {
            continue;
        };
        let way = scene.session.press.wrench_way(turn);
        let arrow = way.map_or("", |way| scene.words().wrench_arrow(way));
        let turned = scene.figures.turn(turn);
        let to = scene.words().from_to(*from, *from + turn);
        let text = format!("{arm} {turned} {arrow}, {to}");
        let text = RichText::new(text).font(theme::bold(size::SENTENCE));
        ui.label(text.color(palette.preview));
    }
}

/// That the press would be left outside its tolerance.
pub fn left_outside(ui: &mut Ui, scene: &mut Scene<'_>) {
    let stands = scene.session.last_gate().stands;
    if stands == Stands::Inside {
        return;
    }
    let palette = scene.palette;
    let said = match stands {
        Stands::Outside => scene.words().left_outside(),
        _ => scene.words().left_unmeasured(),
    };
    caution(palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.label(strong(format!("⚠ {said}")).color(palette.caution));
    });
}
