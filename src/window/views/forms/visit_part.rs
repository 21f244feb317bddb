//! The visit's part of the form: who and when, belt and hooks, the gauge, and
//! how the pieces are judged.

use eframe::egui::{Label, Ui};

use crate::plan::Chore;
use crate::session::{AcceptedBy, Edit, Field};
use crate::units::Unit;
use crate::window::action::Action;
use crate::window::state::{Dialog, PropertiesForm};

use crate::window::views::Scene;
use crate::window::views::dialog_room::fold;
use crate::window::views::forms::draft::Kept;
use crate::window::views::forms::new_session::tolerances;
use crate::window::views::forms::session_field::{
    above, buttons_width, cell, length, set, stacked,
};
use crate::window::views::widgets::{button, choice, muted, quiet, strong};

/// Draws the part.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut PropertiesForm) {
    let words = scene.words();
    let session = scene.session;
    let notes = &session.notes;
    texts(
        ui,
        scene,
        form,
        words.section_who_and_when(),
        &[
            (Field::Who, &notes.who, 220.0),
            (Field::When, &notes.when, 150.0),
            (Field::Repaired, &notes.repaired, 220.0),
        ],
    );
    ui.label(strong(words.section_belt_and_hooks()));
    ui.horizontal_wrapped(|ui| {
        let (belt, hooks) = (notes.belt.as_str(), notes.hooks.as_str());
        above(ui, scene, &mut form.drafts, Field::Belt, belt, 260.0);
        above(ui, scene, &mut form.drafts, Field::Hooks, hooks, 220.0);
        let target = length(scene, Field::Target, session.target.as_ref());
        let target = target.or(words.target_not_set());
        above(ui, scene, &mut form.drafts, Field::Target, target, 180.0);
    });
    ui.label(strong(words.gauge_title()));
    ui.horizontal_wrapped(|ui| {
        let name = session.gauge.name.as_str();
        above(ui, scene, &mut form.drafts, Field::GaugeName, name, 260.0);
        let step = length(scene, Field::GaugeStep, Some(&session.gauge.step));
        above(ui, scene, &mut form.drafts, Field::GaugeStep, step, 130.0);
        let width = buttons_width(ui, &[words.gauge_more()]);
        stacked(ui, "", width, |ui, _| {
            if button(ui, words.gauge_more()).clicked() {
                scene.ask(Action::Show(Box::new(Dialog::Gauge(Box::default()))));
            }
        });
    });
    judging(ui, scene, form);
    texts(
        ui,
        scene,
        form,
        words.section_job(),
        &[(Field::Notes, &notes.notes, ui.available_width() - 20.0)],
    );
    unit(ui, scene);
    fold(ui, words.section_minutes(), |ui| minutes(ui, scene, form));
}

/// A group of texts below its name.
fn texts(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    form: &mut PropertiesForm,
    name: &str,
    fields: &[(Field, &String, f32)],
) {
    ui.label(strong(name));
    ui.horizontal_wrapped(|ui| {
        for (field, text, width) in fields {
            let mut kept = Kept::from(text.as_str());
            if *field == Field::Repaired {
                kept = kept.or(scene.words().repaired_hint());
            }
            above(ui, scene, &mut form.drafts, *field, kept, *width);
        }
    });
}

/// The tolerance with what is usual, and who decides by it.
fn judging(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut PropertiesForm) {
    let words = scene.words();
    let session = scene.session;
    ui.label(strong(words.section_judging()));
    let in_force = scene.figures.typed(&session.tolerance);
    let mut chosen = String::new();
    ui.horizontal_wrapped(|ui| {
        let tolerance = in_force.as_str();
        let field = Field::Tolerance;
        above(ui, scene, &mut form.drafts, field, tolerance, 130.0);
        tolerances(ui, scene, Some(&in_force), &mut chosen);
    });
    let figures = scene.figures;
    if session.tolerance.unit() != figures.unit {
        let shown = figures.limit(session.tolerance.length());
        ui.label(words.tolerance_in_force(&in_force, shown));
    }
    if !chosen.is_empty() {
        set(scene, Field::Tolerance, chosen);
    }
    let means = format!(
        "{} {} ({})",
        words.means_tolerance(),
        words.metric_tolerance_is_looser(),
        words.common_practice()
    );
    ui.add(Label::new(muted(scene.palette, means)).wrap());
    ui.label(words.accepted_by_label());
    ui.horizontal_wrapped(|ui| {
        for (by, text) in [
            (
                AcceptedBy::PlainComparison,
                words.accepted_by(AcceptedBy::PlainComparison),
            ),
            (AcceptedBy::Confidence, words.accepted_when_sure()),
        ] {
            let chosen = session.acceptance.by == by;
            if choice(ui, scene.palette, chosen, text).clicked() {
                scene.ask(Action::Edit(Edit::SetAcceptedBy(by)));
            }
        }
        let confidence = session.acceptance.confidence.to_string();
        let field = Field::Confidence;
        cell(ui, scene, &mut form.drafts, field, confidence, 60.0);
        ui.label(words.percent_sure());
    });
}

/// The unit that the session is written down in.
fn unit(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    ui.horizontal_wrapped(|ui| {
        ui.label(words.session_unit());
        for unit in [Unit::Inch, Unit::Millimetre] {
            let chosen = scene.session.unit == unit;
            if choice(ui, scene.palette, chosen, words.unit_name(unit)).clicked() {
                scene.ask(Action::Edit(Edit::SetUnit(unit)));
            }
        }
    });
    if scene.session.unit != scene.figures.unit {
        ui.label(muted(scene.palette, words.other_unit_on_show()));
    }
}

/// What the work takes.
fn minutes(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut PropertiesForm) {
    let words = scene.words();
    ui.label(muted(scene.palette, words.minutes_hint()));
    ui.horizontal_wrapped(|ui| {
        for chore in Chore::ALL {
            let minutes = scene.session.effort.of(chore).to_string();
            above(
                ui,
                scene,
                &mut form.drafts,
                Field::Effort(chore),
                minutes,
                110.0,
            );
        }
    });
    // What a change does, at once; nothing is advised in an exercise that hides it.
    if let Some(advice) = scene.outlook.advice().filter(|_| !scene.advises_nothing()) {
        let first = advice.recommended();
        let turns = scene.figures.turns(&advice.turns());
        let until = scene.figures.until_a_piece_passes(first);
        ui.label(words.ranked_first(turns, until));
    }
    let usual = |chore: &Chore| scene.session.effort.of(*chore) == chore.customary();
    if !Chore::ALL.iter().all(usual) && quiet(ui, scene.palette, words.minutes_usual()).clicked() {
        let bare = scene.figures.unit;
        let back = Chore::ALL.map(|chore| Edit::Set {
            field: Field::Effort(chore),
            text: chore.customary().to_string(),
            bare,
        });
        scene.ask(Action::Edit(Edit::Together(back.to_vec())));
    }
}
