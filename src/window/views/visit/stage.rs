//! The panel of one stage, in the middle of the window: its steps, what it
//! records, and the way on.

use eframe::egui::{self, Frame, Margin, RichText, ScrollArea, Ui};

use crate::session::{NextAct, OrderWarning, Session, Stage};
use crate::window::action::Action;
use crate::window::state::{Before, Dialog, MadeSafeForm};
use crate::window::theme::{self, Palette, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::hint::keep_clear;
use crate::window::views::turning::safety;
use crate::window::views::visit::noting::{hands_may_go_in, rules_of};
use crate::window::views::visit::{gap, path_bar, signer, stage_records, steps};
use crate::window::views::widgets::{button, main_button, muted};

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
                signer::ask(ui, scene);
                if stage == Stage::MakeSafe && signer::name(scene).is_empty() {
                    let first = RichText::new(format!("⚠ {}", scene.words().sign_first()));
                    ui.label(first.color(scene.palette.caution));
                }
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
        ui.label(muted(palette, words.checked_off(at)));
    });
    ui.spacing_mut().interact_size.y = height;
    ui.label(words.stage_purpose(stage));
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
    let shown = caution(palette).show(ui, |ui| {
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
                    let form = MadeSafeForm::new(scene.session, Before::Hands(stage));
                    scene.ask(Action::Show(Box::new(Dialog::MakeSafe(Box::new(form)))));
                }
            });
        }
        for warning in warnings {
            warn(ui, &words.order_warning(&warning));
        }
    });
    keep_clear(ui.ctx(), shown.response.rect);
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

/// The button that goes on.
fn way_on(ui: &mut Ui, scene: &mut Scene<'_>, stage: Stage) {
    let words = scene.words();
    if stage == Stage::CloseOut {
        if main_button(ui, scene.palette, words.command_save(), true).clicked() {
            scene.ask(Action::Save);
        }
    } else if stage == Stage::TestLace && scene.session.passes.is_empty() {
        if main_button(ui, scene.palette, words.next_first_pass(), true).clicked() {
            scene.ask(Action::LaceAgain);
        }
    } else if stage == Stage::Turn && scene.next_step().act == NextAct::GoAndTurn {
        if main_button(ui, scene.palette, words.go_and_turn(), true).clicked() {
            scene.ask(Action::Next(NextAct::GoAndTurn));
        }
    } else {
        let next = next(scene.session, stage);
        let text = words.next_stage(words.stage(next));
        if main_button(ui, scene.palette, &text, true).clicked() {
            scene.view.visit.go_to(next);
        }
    }
}

/// The stage that usually follows.
fn next(session: &Session, stage: Stage) -> Stage {
    match stage {
        Stage::Measure => match session.current_stage() {
            Some(Stage::CloseOut) | None => Stage::CloseOut,
            _ => Stage::Turn,
        },
        // Back to where the work is.
        Stage::MakeSafe => session
            .current_stage()
            .filter(|current| *current > Stage::MakeSafe)
            .unwrap_or(Stage::FreeNuts),
        Stage::Relace => Stage::Measure,
        stage => Stage::ALL
            .into_iter()
            .find(|later| *later > stage)
            .unwrap_or(Stage::CloseOut),
    }
}
