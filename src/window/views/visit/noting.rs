//! What the stages share: fields over drafts, who notes what and when, and
//! what waits for the press to be made safe.

use std::time::SystemTime;

use eframe::egui::{self, Ui};

use crate::session::{Edit, Field, Pass, Stage, Step, StepId};
use crate::store;
use crate::window::action::Action;

use crate::window::views::Scene;
use crate::window::views::visit::signer;
use crate::window::views::widgets::line;

/// Whether it is answered, here and as things stand, that the press is made
/// safe for the work of the stage on show, behind the lock of whoever signs: what
/// is done with hands in it may be noted.
pub fn hands_may_go_in(scene: &Scene<'_>) -> bool {
    let here = scene.view.visit.stage.map(Stage::hands);
    let safe = here.is_some_and(|hands| scene.session.is_made_safe_for(hands));
    scene.view.visit.made_safe && safe && anothers_lock(scene).is_none()
}

/// Whether hands go into the press at a stage that may not yet.
pub fn hands_wait(scene: &Scene<'_>, stage: Stage) -> bool {
    hands_go_in(scene, stage) && !hands_may_go_in(scene)
}

/// Whether hands have anything to do at a stage: where power comes back only until
/// its piece is laced.
pub fn hands_go_in(scene: &Scene<'_>, stage: Stage) -> bool {
    let open = |step: &StepId| {
        let hands = matches!(step, StepId::Fixed(step) if step.hands_in_press());
        hands && !scene.session.is_settled(*step)
    };
    let any_open = || scene.session.steps_now(stage).iter().any(open);
    let passes = &scene.session.passes;
    let unread = !passes.last().is_some_and(Pass::has_readings);
    match stage {
        Stage::CloseOut => any_open(),
        Stage::TestLace => passes.len() < 2 && unread && any_open(),
        Stage::Relace => passes.len() > 1 && unread && any_open(),
        stage => stage.hands_in_press(),
    }
}

/// Whose locks hang there, where that of whoever signs now does not: nobody works
/// behind the lock of another.
pub fn anothers_lock(scene: &Scene<'_>) -> Option<String> {
    let locks = scene.session.locks();
    let signer = signer::name(scene);
    let other = !locks.is_empty() && !locks.iter().any(|lock| lock.trim() == signer);
    other.then(|| names(scene, &locks))
}

/// Names in a row; none where nobody gave one.
pub fn names(scene: &Scene<'_>, names: &[&str]) -> String {
    let nobody = scene.words().marked_by_nobody();
    let named = names.iter().map(|name| match name.trim() {
        "" => nobody,
        name => name,
    });
    named.collect::<Vec<_>>().join(", ")
}

/// Whether whoever signs has still to do what everybody does for themselves, and
/// others did: to hang a lock, or take it off.
pub fn own_is_open(scene: &Scene<'_>, step: StepId) -> bool {
    let StepId::Fixed(fixed) = step else {
        return false;
    };
    let signer = signer::name(scene);
    let mut marks = scene.session.marks_now(step);
    let others = fixed.is_everybodys_own() && !marks.any(|mark| mark.who.trim() == signer);
    let done = match fixed {
        Step::LockedOut => signer.is_empty(),
        _ => scene.session.is_settled(step),
    };
    others && !done
}

/// Whether a step waits for that, or for another step that is asked; or, where it
/// makes the press safe, for the name of whoever signs it.
pub fn waits(scene: &Scene<'_>, step: StepId) -> bool {
    let StepId::Fixed(fixed) = step else {
        return is_unsigned(scene, step);
    };
    let asked = scene.session.checklist.steps(fixed.stage());
    let mut first = fixed.waits_for().iter().map(|first| StepId::Fixed(*first));
    let early = first.any(|first| asked.contains(&first) && !scene.session.is_settled(first));
    // Each lock is taken off by the one whose it is.
    let not_theirs = fixed.brings_power() && anothers_lock(scene).is_some();
    let hands = fixed.hands_in_press() && !hands_may_go_in(scene);
    is_unsigned(scene, step) || early || not_theirs || hands
}

/// Whether a step makes the press safe and nobody has signed yet.
pub fn is_unsigned(scene: &Scene<'_>, step: StepId) -> bool {
    let stage = scene.session.checklist.stage_of(step);
    stage == Some(Stage::MakeSafe) && signer::name(scene).is_empty()
}

/// A line of text over a draft; answers the text when the keyboard leaves it
/// changed. A text that would be refused stays in the field, coloured, so that
/// it can be mended.
pub fn typed_over(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    key: &str,
    text: &str,
    width: f32,
    label: Option<egui::Id>,
) -> (egui::Response, Option<String>) {
    let visit = &mut scene.view.visit;
    let kept = visit.drafts.get(key).map_or(text, String::as_str);
    let mut typed = kept.to_owned();
    let mut field = line(&mut typed, width).id_salt(key);
    if visit.refused.contains(key) {
        field = field.text_color(scene.palette.caution);
    }
    let mut response = ui.add(field);
    if let Some(label) = label {
        response = response.labelled_by(label);
    }
    if response.changed() {
        visit.refused.remove(key);
        visit.drafts.insert(key.to_owned(), typed.clone());
    }
    // A screen reader sets a text without going there.
    let set = response.changed() && !response.has_focus();
    let left = response.lost_focus() || set;
    if typed == text && !response.has_focus() {
        visit.drafts.remove(key);
    }
    (response, (left && typed != text).then_some(typed))
}

/// Sets a field of the session; a draft that is taken is let go.
pub fn set(scene: &mut Scene<'_>, field: Field, text: String) {
    let edit = Edit::set(field, text, scene.figures.unit);
    let key = draft_key(field);
    if scene.session.edited(&edit).is_ok() {
        scene.view.visit.drafts.remove(&key);
    } else {
        scene.view.visit.refused.insert(key);
    }
    scene.ask(Action::Edit(edit));
}

/// The name of a field's draft.
pub fn draft_key(field: Field) -> String {
    format!("{field:?}")
}

/// The time a tick is noted at.
pub fn now() -> String {
    store::moment_of(SystemTime::now())
}
