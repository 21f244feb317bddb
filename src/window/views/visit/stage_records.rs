//! What single stages record: where the nuts stand, what drives the jaw.

use eframe::egui::{RichText, Ui};

use crate::press::NutPosition;
use crate::session::{Edit, Field};
use crate::window::action::Action;

use crate::window::views::Scene;
use crate::window::views::hint::Hint;
use crate::window::views::visit::noting::{draft_key, hands_may_go_in, set, typed_over};
use crate::window::views::widgets::{button, muted};

/// Most width of the line for the parts of the jaw drive.
const PARTS: f32 = 420.0;

/// Where the nuts stand before the first pass.
pub fn nuts(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let session = scene.session;
    let nuts: Vec<String> = session
        .press
        .indexed_arms()
        .zip(&session.start_nuts)
        .map(|((arm, _), nut)| format!("{arm} {nut}"))
        .collect();
    ui.label(words.nuts_noted_at(nuts.join(", ")));
    let away = session.start_nuts.iter().any(|nut| nut.0 != 0);
    // Once a pass is laced, its turns count from where the nuts started.
    if !away || !session.passes.is_empty() {
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
    ui.add_enabled_ui(open, |ui| drive_as_found(ui, scene));
}

fn drive_as_found(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let palette = scene.palette;
    let session = scene.session;
    let drive = &session.press.drive;
    let field = Field::DriveParts;
    let label = ui.label(words.field(field));
    let width = ui.available_width().min(PARTS);
    let (response, typed) = typed_over(
        ui,
        scene,
        &draft_key(field),
        &drive.parts,
        width,
        Some(label.id),
    );
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
    } else if drive.parts.is_empty() && button(ui, words.drive_same()).clicked() {
        set(scene, field, drive.parts_before.clone());
    }
}
