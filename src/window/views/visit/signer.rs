//! Who signs: asked of whoever stands at the press now. A name that stands in
//! the file is offered and never taken, for whoever signs that a press is locked
//! out holds the key to the lock.

use eframe::egui::Ui;

use crate::session::{Edit, Field, Session, Stage};
use crate::window::action::Action;

use crate::window::views::Scene;
use crate::window::views::widgets::{button, field};

/// Width of the field.
const WIDTH: f32 = 150.0;

/// Names offered beside it.
const OFFERED: usize = 2;

/// The name that signs; empty until it is entered here.
pub fn name(scene: &Scene<'_>) -> String {
    scene.view.signer.trim().to_owned()
}

/// Asks who it is: typed, or chosen from those whom the session names.
pub fn ask(ui: &mut Ui, scene: &mut Scene<'_>) {
    ui.horizontal_wrapped(|ui| asked(ui, scene));
}

/// The same in a row of others.
pub fn asked(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let typed = field(ui, words.field_who(), &mut scene.view.signer, WIDTH);
    // Nothing of making safe is open before there is a name.
    let visit = &mut scene.view.visit;
    let first = visit.stage == Some(Stage::MakeSafe) && scene.view.signer.is_empty();
    if first && std::mem::take(&mut visit.wants_focus) {
        typed.request_focus();
    }
    // A screen reader sets a text without going there.
    let set = typed.changed() && !typed.has_focus();
    if typed.lost_focus() || set {
        note(scene);
    }
    for known in known(scene.session) {
        if name(scene) == known {
            continue;
        }
        if button(ui, words.sign_as(&known)).clicked() {
            scene.view.signer = known;
            note(scene);
        }
    }
}

/// The visit is that of whoever signs first.
fn note(scene: &mut Scene<'_>) {
    let who = name(scene);
    if scene.session.notes.who.is_empty() && !who.is_empty() {
        scene.ask(Action::Edit(Edit::set(Field::Who, who, scene.figures.unit)));
    }
}

/// Whom the session names: of the visit first, then who ticked, latest first.
fn known(session: &Session) -> Vec<String> {
    let marks = session.checklist.marks.iter().rev();
    let all = std::iter::once(&session.notes.who).chain(marks.map(|mark| &mark.who));
    let mut known: Vec<String> = Vec::new();
    for name in all.map(|name| name.trim()) {
        if !name.is_empty() && known.len() < OFFERED && !known.iter().any(|it| it == name) {
            known.push(name.to_owned());
        }
    }
    known
}
