//! The panel of one stage, in the middle of the window: its steps, what it
//! records, and the way on.

use eframe::egui::{self, Frame, Margin, RichText, ScrollArea, Ui};

use crate::session::{OrderWarning, Stage, StepId};
use crate::window::theme::{self, Palette, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::hint::keep_clear;
use crate::window::views::turning::safety;
use crate::window::views::visit::noting::{hands_may_go_in, rules_of};
use crate::window::views::visit::{gap, path_bar, signer, stage_records, steps, way_on};
use crate::window::views::widgets::muted;

/// Height of the window below which a stage goes without its purpose.
const LOW: f32 = 700.0;

/// Height of the way on, its rule included.
const WAY_ON: f32 = TARGET + 14.0;

/// Draws the panel: first what the stage is for, then its boxes.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, stage: Stage) {
    theme::card(scene.palette).show(ui, |ui| {
        ui.set_min_size(ui.available_size());
        ui.spacing_mut().item_spacing.y = 3.0;
        ScrollArea::vertical()
            .id_salt(("stage", stage))
            .max_height(ui.available_height() - WAY_ON)
            .auto_shrink(false)
            .show(ui, |ui| {
                ui.spacing_mut().item_spacing.y = 4.0;
                // Room for the scroll bar.
                ui.set_max_width(ui.available_width() - 12.0);
                heading(ui, scene, stage);
                warnings(ui, scene, stage);
                match stage {
                    Stage::FreeNuts => stage_records::nuts(ui, scene),
                    Stage::CoarseGap => gap::show(ui, scene),
                    Stage::JawDrive => stage_records::drive(ui, scene),
                    Stage::Turn => stage_records::turns(ui, scene),
                    Stage::CloseOut => stage_records::left_outside(ui, scene),
                    _ => {}
                }
                signer::ask(ui, scene);
                let steps: Vec<StepId> = scene
                    .session
                    .steps_now(stage)
                    .into_iter()
                    .filter(|step| !stage_records::is_past(scene, *step))
                    .collect();
                steps::list(ui, scene, &steps, true);
                rules(ui, scene, stage);
                if matches!(stage, Stage::MakeSafe | Stage::TestLace | Stage::Relace) {
                    safety::for_work(ui, scene, stage);
                }
                steps::change(ui, scene, stage);
            });
        ui.add(egui::Separator::default().spacing(6.0));
        way_on::show(ui, scene, stage);
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
    // Where there is little room the boxes have it; the stage's chip says it too.
    if ui.ctx().content_rect().height() >= LOW {
        ui.label(words.stage_purpose(stage));
    }
}

/// Why it may be too early.
fn warnings(ui: &mut Ui, scene: &mut Scene<'_>, stage: Stage) {
    let words = scene.words();
    let palette = scene.palette;
    let mut warnings = scene.session.order_warnings(stage);
    let safe = |warning: &OrderWarning| matches!(warning, OrderWarning::NotMadeSafe { .. });
    let unsafe_now = warnings.iter().position(safe).map(|at| warnings.remove(at));
    if stage.hands_in_press() && !hands_may_go_in(scene) {
        let said = match unsafe_now {
            Some(warning) => words.order_warning(&warning),
            None => words.still_made_safe().to_owned(),
        };
        let shown = caution(palette).show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.label(RichText::new(format!("⚠ {said}")).color(palette.caution));
        });
        keep_clear(ui.ctx(), shown.response.rect);
    }
    // The order is the user's to choose: no danger, and not in its colour.
    for warning in warnings {
        ui.label(muted(palette, words.order_warning(&warning)));
    }
}

/// The frame around a caution.
pub fn caution(palette: &Palette) -> Frame {
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
