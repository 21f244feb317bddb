//! The panel of one stage, in the middle of the window: its steps, what it
//! records, and the way on.

use std::collections::{BTreeMap, BTreeSet};
use std::time::SystemTime;

use eframe::egui::{self, Frame, Margin, RichText, ScrollArea, Ui};

use crate::session::{Edit, Field, OrderWarning, Rule, Session, Stage, Step, StepId};
use crate::store;
use crate::window::action::{Action, Before};
use crate::window::state::Dialog;
use crate::window::theme::{self, Palette, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::turning::{make_safe, safety};
use crate::window::views::visit::{gap, path_bar, stage_records, steps};
use crate::window::views::widgets::{button, line, main_button, muted};

/// The passing state of the visit's views.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct VisitView {
    /// The stage on show; none until the window has chosen one.
    pub stage: Option<Stage>,
    /// Whether the steps are shown where the picture has its place.
    pub steps: bool,
    /// The step whose note is open, and what is typed there.
    pub note: Option<(StepId, String)>,
    /// The stage whose chip was last scrolled into sight.
    pub seen: Option<Stage>,
    /// Whether it was answered here that the press is made safe, before hands
    /// go in at this stage.
    pub made_safe: bool,
    /// Set when the first step is to have the keyboard.
    pub wants_focus: bool,
    /// Set when the open note is to have it.
    pub note_wants_focus: bool,
    /// Fields being typed in, by name.
    pub drafts: BTreeMap<String, String>,
    /// Which of them hold something that was refused.
    pub refused: BTreeSet<String>,
}

impl VisitView {
    /// Shows a stage.
    pub fn go_to(&mut self, stage: Stage) {
        if self.stage != Some(stage) {
            *self = Self {
                stage: Some(stage),
                wants_focus: true,
                ..Self::default()
            };
        }
    }

    /// Changes between the picture and the steps of a stage.
    pub fn switch(&mut self) {
        match self.stage {
            Some(Stage::Measure | Stage::Turn) | None => {
                self.steps = !self.steps;
                self.wants_focus = self.steps;
            }
            Some(_) => self.go_to(Stage::Measure),
        }
    }

    /// Shows the stage before or after the one on show.
    pub fn step_by(&mut self, by: isize) {
        let here = self.stage.unwrap_or(Stage::Measure);
        let index = Stage::ALL.iter().position(|stage| *stage == here);
        let next = index.and_then(|index| index.checked_add_signed(by));
        if let Some(stage) = next.and_then(|next| Stage::ALL.get(next)) {
            self.go_to(*stage);
        }
    }
}

/// The stage the window opens on: the main job where there is anything to
/// measure, the stage at hand before that.
pub fn opening(session: &Session) -> Stage {
    if session.passes.is_empty() {
        session.current_stage().unwrap_or(Stage::Measure)
    } else {
        Stage::Measure
    }
}

/// The stage whose steps stand in front; none while the picture does.
pub fn in_front(scene: &mut Scene<'_>) -> Option<Stage> {
    let session = scene.session;
    let visit = &mut scene.view.visit;
    let stage = *visit.stage.get_or_insert_with(|| opening(session));
    let has_picture = matches!(stage, Stage::Measure | Stage::Turn);
    (visit.steps || !has_picture).then_some(stage)
}

/// Height of the way on, its rule included.
const WAY_ON: f32 = TARGET + 14.0;

/// Draws the panel.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, stage: Stage) {
    theme::card(scene.palette).show(ui, |ui| {
        ui.set_min_size(ui.available_size());
        ui.spacing_mut().item_spacing.y = 3.0;
        ScrollArea::vertical()
            .id_salt(("stage", stage))
            .max_height(ui.available_height() - WAY_ON)
            .auto_shrink(false)
            .show(ui, |ui| {
                ui.spacing_mut().item_spacing.y = 5.0;
                // Room for the scroll bar.
                ui.set_max_width(ui.available_width() - 12.0);
                heading(ui, scene, stage);
                warnings(ui, scene, stage);
                // What isolates energy stands behind its rules, everything
                // else before them.
                if stage == Stage::MakeSafe {
                    rules(ui, scene, stage);
                }
                ui.add_space(4.0);
                steps::show(ui, scene, stage);
                if stage != Stage::MakeSafe {
                    rules(ui, scene, stage);
                }
                match stage {
                    Stage::FreeNuts => stage_records::nuts(ui, scene),
                    Stage::CoarseGap => gap::show(ui, scene),
                    Stage::JawDrive => stage_records::drive(ui, scene),
                    Stage::MakeSafe | Stage::TestLace | Stage::Relace => {
                        safety::in_full(ui, scene);
                    }
                    _ => {}
                }
                steps::change(ui, scene, stage);
            });
        ui.add(egui::Separator::default().spacing(6.0));
        way_on(ui, scene, stage);
    });
}

fn heading(ui: &mut Ui, scene: &Scene<'_>, stage: Stage) {
    let words = scene.words();
    let palette = scene.palette;
    let path = scene.outlook.path.clone();
    let Some((number, at)) = (1..).zip(&path).find(|(_, at)| at.stage == stage) else {
        return;
    };
    // A row of words needs less height than one of buttons.
    let height = std::mem::replace(&mut ui.spacing_mut().interact_size.y, 26.0);
    ui.horizontal_wrapped(|ui| {
        let name = format!("{number}. {}", words.stage(stage));
        ui.label(RichText::new(name).font(theme::bold(size::SENTENCE)));
        let state = format!(
            "{} {}",
            path_bar::mark(at.state),
            words.path_state(at.state)
        );
        let ink = path_bar::state_ink(palette, at.state);
        ui.label(
            RichText::new(state)
                .font(theme::bold(size::BODY))
                .color(ink),
        );
        ui.label(muted(palette, words.steps_marked(at.marked, at.steps)));
    });
    ui.spacing_mut().interact_size.y = height;
    ui.label(words.stage_purpose(stage));
}

/// Whether it is answered, here and as things stand, that the press is made
/// safe: what is done with hands in it may be noted.
pub fn hands_may_go_in(scene: &Scene<'_>) -> bool {
    scene.view.visit.made_safe && scene.session.made_safe_answered()
}

/// Whether a step waits for that.
pub fn waits_for_made_safe(scene: &Scene<'_>, step: StepId) -> bool {
    let hands = match step {
        StepId::Fixed(step) => step.hands_in_press(),
        StepId::Own(_) => false,
    };
    hands && !hands_may_go_in(scene)
}

/// Room for the button beside a warning.
const MAKE_SAFE_WIDTH: f32 = 116.0;

/// Why it may be too early, with the way to make the press safe.
fn warnings(ui: &mut Ui, scene: &mut Scene<'_>, stage: Stage) {
    let words = scene.words();
    let palette = scene.palette;
    let mut warnings = scene.session.order_warnings(stage);
    let safe = |warning: &OrderWarning| matches!(warning, OrderWarning::NotMadeSafe { .. });
    let unsafe_now = warnings.iter().position(safe).map(|at| warnings.remove(at));
    let ask = stage.hands_in_press() && !hands_may_go_in(scene);
    if !ask && warnings.is_empty() {
        return;
    }
    caution(palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        let warn = |ui: &mut Ui, text: &str| {
            ui.label(RichText::new(format!("⚠ {text}")).color(palette.caution));
        };
        if ask {
            ui.horizontal(|ui| {
                let width = (ui.available_width() - MAKE_SAFE_WIDTH).max(120.0);
                ui.vertical(|ui| {
                    ui.set_width(width);
                    match unsafe_now {
                        Some(warning) => warn(ui, &words.order_warning(&warning)),
                        None => warn(ui, words.still_made_safe()),
                    }
                });
                let make_safe = button(ui, words.make_safe_now());
                if std::mem::take(&mut scene.view.visit.wants_focus) {
                    make_safe.request_focus();
                }
                if make_safe.clicked() {
                    let form = make_safe::MadeSafeForm::new(scene.session, Before::Hands(stage));
                    scene.ask(Action::Show(Box::new(Dialog::MakeSafe(Box::new(form)))));
                }
            });
        }
        for warning in warnings {
            warn(ui, &words.order_warning(&warning));
        }
    });
}

/// The frame around a caution.
fn caution(palette: &Palette) -> Frame {
    Frame::new()
        .fill(palette.caution_back)
        .stroke(theme::stroke(1.0, palette.caution))
        .corner_radius(6)
        .inner_margin(Margin::symmetric(10, 6))
}

/// The published rules behind the steps of a stage.
fn rules(ui: &mut Ui, scene: &Scene<'_>, stage: Stage) {
    let rules = rules_of(stage.steps());
    if !rules.is_empty() {
        let line = scene.words().rules_line(&rules);
        ui.label(muted(scene.palette, line).color(scene.palette.caution));
    }
}

/// The rules behind some steps, each once.
pub fn rules_of(steps: impl Iterator<Item = Step>) -> Vec<Rule> {
    let mut rules = Vec::new();
    for rule in steps.flat_map(|step| step.rules()) {
        if !rules.contains(rule) {
            rules.push(*rule);
        }
    }
    rules
}

/// Who does the work, and the button that goes on.
fn way_on(ui: &mut Ui, scene: &mut Scene<'_>, stage: Stage) {
    let words = scene.words();
    ui.horizontal(|ui| {
        let narrow = ui.available_width() < 520.0;
        let label = ui.label(words.field(Field::Who));
        let text = scene.session.notes.who.clone();
        let width = if narrow { 130.0 } else { 190.0 };
        let typed = typed_over(ui, scene, "who", &text, width, Some(label.id));
        if let Some(text) = typed.1 {
            set(scene, Field::Who, text);
        }
        if stage == Stage::CloseOut {
            if main_button(ui, scene.palette, words.command_save(), true).clicked() {
                scene.ask(Action::Save);
            }
        } else if stage == Stage::TestLace && scene.session.passes.is_empty() {
            if main_button(ui, scene.palette, words.next_first_pass(), true).clicked() {
                scene.ask(Action::LaceAgain);
            }
        } else {
            let next = next(scene.session, stage);
            let text = words.next_stage(words.stage(next));
            if main_button(ui, scene.palette, &text, true).clicked() {
                scene.view.visit.go_to(next);
            }
        }
    });
}

/// The stage that usually follows.
fn next(session: &Session, stage: Stage) -> Stage {
    match stage {
        Stage::Measure => match session.current_stage() {
            Some(Stage::CloseOut) | None => Stage::CloseOut,
            _ => Stage::Turn,
        },
        Stage::Relace => Stage::Measure,
        stage => Stage::ALL
            .into_iter()
            .find(|later| *later > stage)
            .unwrap_or(Stage::CloseOut),
    }
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
    let left = response.lost_focus() && typed != text;
    if response.lost_focus() && typed == text {
        visit.drafts.remove(key);
    }
    (response, left.then_some(typed))
}

/// Sets a field of the session; a draft that is taken is let go.
pub fn set(scene: &mut Scene<'_>, field: Field, text: String) {
    let edit = Edit::Set {
        field,
        text,
        bare: scene.figures.unit,
    };
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
    match field {
        Field::Who => "who".to_owned(),
        field => format!("{field:?}"),
    }
}

/// Who ticks: what stands in the field, taken up or not yet.
pub fn who(scene: &Scene<'_>) -> String {
    let drafts = &scene.view.visit.drafts;
    drafts
        .get("who")
        .unwrap_or(&scene.session.notes.who)
        .clone()
}

/// The time a tick is noted at.
pub fn now() -> String {
    store::moment_of(SystemTime::now())
}
