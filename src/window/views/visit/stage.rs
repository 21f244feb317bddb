//! The panel of one stage, in the middle of the window: its steps, what it
//! records, and the way on.

use eframe::egui::{self, Frame, Margin, RichText, ScrollArea, Ui};

use crate::session::{OrderWarning, PathState, Stage, StageState};
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::hint::keep_clear;
use crate::window::views::turning::{make_safe, safety};
use crate::window::views::visit::noting::hands_wait;
use crate::window::views::visit::{path_bar, signer, stage_records, steps, way_on};
use crate::window::views::widgets::{muted, strong};

/// Height of a panel below which a stage goes without its purpose.
const LOW: f32 = 480.0;

/// Width of the panel from which picture and cautions stand beside the boxes.
pub const BESIDE: f32 = 670.0;

/// Distance between the two parts.
const COLUMN_GAP: f32 = 18.0;

/// Width of many boxes in a low window, as a share: with less of it they would be
/// higher than what is seen. The more of them, the more.
const BOXES_LOW: [f32; 2] = [0.62, 0.78];

/// Height of what is written below a stage's picture.
const CAPTION: f32 = 34.0;

/// Height of the way on, its rule included.
const WAY_ON: f32 = TARGET + 14.0;

/// Draws the panel: what the stage is for, then its boxes, and beside or below
/// them its picture and cautions.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, stage: Stage) {
    theme::card(scene.palette).show(ui, |ui| {
        ui.set_min_size(ui.available_size());
        ui.spacing_mut().item_spacing.y = 3.0;
        let low = ui.available_height() < LOW;
        // In a narrow window what is missing stands above the way on.
        let two_rows = stage == Stage::MakeSafe && ui.available_width() < BESIDE;
        let room = ui.available_height() - WAY_ON - if two_rows { TARGET } else { 0.0 };
        ScrollArea::vertical()
            .id_salt(("stage", stage))
            .max_height(room)
            .auto_shrink(false)
            .show(ui, |ui| {
                ui.spacing_mut().item_spacing.y = 4.0;
                // Room for the scroll bar.
                ui.set_max_width(ui.available_width() - 12.0);
                heading(ui, scene, stage, low);
                warnings(ui, scene, stage);
                let steps = stage_records::steps(scene, stage);
                let room = room - (ui.cursor().top() - ui.min_rect().top());
                if stage == Stage::MakeSafe {
                    let below = |ui: &mut Ui, scene: &mut Scene<'_>| aside(ui, scene, stage);
                    make_safe::list(ui, scene, &steps, below);
                    return;
                }
                let boxes = |ui: &mut Ui, scene: &mut Scene<'_>| {
                    // What is recorded of the drive comes last: it is its last step.
                    if stage != Stage::JawDrive {
                        stage_records::show(ui, scene, stage);
                    }
                    steps::list(ui, scene, &steps);
                    if stage == Stage::JawDrive {
                        stage_records::show(ui, scene, stage);
                    }
                    aside(ui, scene, stage);
                };
                let picture = |ui: &mut Ui, scene: &mut Scene<'_>| {
                    stage_records::picture(ui, scene, stage, room - CAPTION);
                };
                // Where there is height the picture has the whole width.
                if stage == Stage::Measure && !low {
                    boxes(ui, scene);
                    picture(ui, scene);
                } else {
                    let share = match stage {
                        Stage::CoarseGap | Stage::JawDrive if low => BOXES_LOW[0],
                        Stage::TestLace | Stage::Relace if low => BOXES_LOW[1],
                        _ => 0.5,
                    };
                    beside(ui, scene, share, boxes, picture);
                }
            });
        ui.add(egui::Separator::default().spacing(6.0));
        way_on::show(ui, scene, stage);
    });
}

/// What is read beside the boxes of a stage: every caution, and how the list is
/// changed.
fn aside(ui: &mut Ui, scene: &mut Scene<'_>, stage: Stage) {
    safety::all_folded(ui, scene);
    steps::change(ui, scene, stage);
}

/// Two parts, side by side where there is room, and in reading order.
pub fn beside(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    share: f32,
    first: impl FnOnce(&mut Ui, &mut Scene<'_>),
    second: impl FnOnce(&mut Ui, &mut Scene<'_>),
) {
    if ui.available_width() < BESIDE {
        first(ui, scene);
        second(ui, scene);
        return;
    }
    let width = ui.available_width() - COLUMN_GAP;
    let left = (share * width).floor();
    ui.horizontal_top(|ui| {
        let gap = std::mem::replace(&mut ui.spacing_mut().item_spacing.x, COLUMN_GAP);
        let column = |ui: &mut Ui, width: f32| {
            ui.spacing_mut().item_spacing.x = gap;
            ui.set_width(width);
        };
        ui.vertical(|ui| {
            column(ui, left);
            first(ui, scene);
        });
        ui.vertical(|ui| {
            column(ui, width - left);
            second(ui, scene);
        });
    });
}

/// Which stage, how it stands, what it is for; and who signs.
fn heading(ui: &mut Ui, scene: &mut Scene<'_>, stage: Stage, low: bool) {
    let words = scene.words();
    let palette = scene.palette;
    let path = path_bar::path(scene);
    let Some((number, at)) = (1..).zip(path).find(|(_, at)| at.stage == stage) else {
        return;
    };
    let shown = stage_records::steps(scene, stage);
    let marked = shown
        .iter()
        .filter(|step| scene.session.is_settled(**step))
        .count();
    let at = StageState {
        marked,
        steps: shown.len(),
        ..at
    };
    ui.horizontal_wrapped(|ui| {
        let name = format!("{number}. {}", words.stage(stage));
        ui.label(RichText::new(name).font(theme::bold(size::SENTENCE)));
        let mark = path_bar::mark(at.state);
        let state = strong(format!("{mark} {}", words.path_state(at.state)));
        ui.label(state.color(path_bar::state_ink(palette, at.state)));
        if !low || at.state != PathState::Passed {
            ui.label(muted(palette, words.checked_off(&at)));
        }
        signer::asked(ui, scene);
    });
    // Where there is little room the boxes have it; the stage's chip says it too. A
    // press that is not ready is not left as the stage means it.
    let not_ready = stage == Stage::CloseOut && stage_records::left_outside(scene).is_some();
    let finds = stage == Stage::Turn && !scene.session.lost.is_empty();
    if !low && !not_ready && !finds {
        ui.label(words.stage_purpose(stage));
    }
}

/// What stands against the work of a stage: what is dangerous in one frame, what is
/// only early as a line.
fn warnings(ui: &mut Ui, scene: &mut Scene<'_>, stage: Stage) {
    let words = scene.words();
    let palette = scene.palette;
    let outside = stage_records::left_outside(scene).filter(|_| stage == Stage::CloseOut);
    let mut danger: Vec<&str> = outside.into_iter().collect();
    danger.extend(outside.map(|_| words.lock_stays()));
    let asked = hands_wait(scene, stage);
    let mut unsafe_now = asked.then(|| words.still_made_safe().to_owned());
    let mut early = None;
    let power_on = matches!(stage, Stage::TestLace | Stage::Relace);
    if power_on {
        unsafe_now = Some(words.power_comes_back().to_owned());
    }
    for warning in scene.session.order_warnings(stage) {
        let said = words.order_warning(&warning);
        match warning {
            OrderWarning::NotMadeSafe { .. } if asked => unsafe_now = Some(said),
            OrderWarning::NotMadeSafe { .. } => {}
            // What is still open may have hands in it.
            OrderWarning::EarlierOpen(stages) if power_on => {
                unsafe_now = Some(words.power_too_early(words.stages(&stages)));
            }
            OrderWarning::EarlierOpen(_) => early = Some(said),
        }
    }
    danger.extend(unsafe_now.as_deref());
    if !danger.is_empty() {
        let frame = Frame::new()
            .fill(palette.caution_back)
            .stroke(theme::stroke(1.0, palette.caution))
            .corner_radius(6)
            .inner_margin(Margin::symmetric(10, 6));
        let shown = frame.show(ui, |ui| {
            ui.set_width(ui.available_width());
            for said in danger {
                ui.label(strong(format!("⚠ {said}")).color(palette.caution));
            }
        });
        keep_clear(ui.ctx(), shown.response.rect);
    }
    // The order is the user's to choose: no danger, and not in its colour.
    if let Some(early) = early.filter(|_| outside.is_none()) {
        ui.label(early);
    }
}
