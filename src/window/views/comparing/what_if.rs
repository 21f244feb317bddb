//! Previews kept by hand: named, compared with the plan and with each other,
//! shown again, thrown away.

use crate::window::state::KeptTurns;
use eframe::egui::{self, CornerRadius, Role, Ui, Vec2, WidgetInfo};

use crate::press::{ArmIndex, Notches};
use crate::window::action::Action;
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::explaining::plan_row::{Line, plan_row};
use crate::window::views::hint::{Hint, keep_clear};
use crate::window::views::widgets::{button, line, muted, name_text, strong};

/// Draws what is kept beside the plan, where anything is.
pub fn kept(ui: &mut Ui, scene: &mut Scene<'_>) {
    let arms = scene.session.press.arms.len();
    let of_pass = scene.view.what_if.of(scene.outlook.pass, arms);
    let kept: Vec<(usize, KeptTurns)> =
        of_pass.map(|(index, kept)| (index, kept.clone())).collect();
    if kept.is_empty() {
        return;
    }
    let words = scene.words();
    ui.label(strong(words.what_if_title()));
    if let Some(plan) = scene.outlook.recommended_turns() {
        let name = words.what_if_the_plan();
        if row(ui, scene, name, &plan) {
            scene.ask(Action::PreviewRecommended);
        }
    }
    for (index, kept) in kept {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 4.0;
            let width = ui.available_width() - TARGET - 4.0;
            ui.allocate_ui(Vec2::new(width, TARGET), |ui| {
                ui.set_max_width(width);
                if row(ui, scene, &kept.name, &kept.turns) {
                    scene.ask(Action::Preview(kept.turns.clone()));
                }
            });
            let drop = ui.add(egui::Button::new("✕").min_size(Vec2::splat(TARGET)));
            let name = words.what_if_drop(&kept.name);
            drop.widget_info(|| WidgetInfo::labeled(Role::Button, true, &name));
            if drop.hint(&name).clicked() {
                scene.ask(Action::DropPreview(index));
            }
        });
    }
}

/// The name for what is kept next, and the button that keeps it.
pub fn keep(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let suggested = suggested(scene);
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        let galley = ui.painter().layout_no_wrap(
            words.what_if_keep().to_owned(),
            theme::regular(size::BODY),
            scene.palette.ink,
        );
        let width = (ui.available_width() - galley.size().x - 32.0).max(60.0);
        let typed = &mut scene.view.what_if.name;
        let field = ui.add(line(typed, width).hint_text(suggested));
        name_text(&field, words.what_if_name(), typed);
        let entered = field.lost_focus() && ui.input(|input| input.key_pressed(egui::Key::Enter));
        let keep = button(ui, words.what_if_keep());
        let keep = keep.hint(words.command_keep_preview());
        if keep.clicked() || entered {
            scene.ask(Action::KeepPreview);
        }
    });
}

/// The name that the turns on show are kept under when none is typed.
pub fn suggested(scene: &Scene<'_>) -> String {
    let turns = scene.preview();
    let planned = scene.outlook.recommended_turns().as_ref() == Some(&turns);
    let name = scene.words().suggested_name(&turns, planned);
    format!("{}: {name}", scene.view.what_if.free_number())
}

/// One way by its name; answers whether it was pressed.
fn row(ui: &mut Ui, scene: &Scene<'_>, name: &str, turns: &[Notches]) -> bool {
    let Some(forecast) = scene.outlook.forecast(turns) else {
        ui.label(muted(
            scene.palette,
            format!("{name}: {}", scene.words().thinking()),
        ));
        return false;
    };
    let line = Line {
        turns,
        forecast,
        note: name.to_owned(),
        shown: scene.preview() == turns,
        said: false,
    };
    plan_row(ui, scene, &line)
}

/// What would go wrong with the turns on show, and what they would do to the
/// rods.
pub fn troubles(ui: &mut Ui, scene: &Scene<'_>) {
    let words = scene.words();
    let palette = scene.palette;
    let turns = scene.preview();
    let troubles = scene
        .session
        .turn_troubles(scene.outlook.pass.unwrap_or(usize::MAX), &turns);
    if !troubles.is_empty() {
        let text = |text: &str| {
            egui::RichText::new(format!("⚠ {text}"))
                .font(theme::bold(size::SMALL))
                .color(palette.caution)
        };
        let said = egui::Frame::new()
            .fill(palette.caution_back)
            .stroke(theme::stroke(1.5, palette.caution))
            .corner_radius(CornerRadius::same(5))
            .inner_margin(6)
            .show(ui, |ui| {
                ui.set_width(ui.available_width());
                ui.label(text(words.trouble_title()));
                for trouble in &troubles {
                    ui.label(
                        muted(palette, scene.figures.turn_trouble(trouble)).color(palette.caution),
                    );
                }
            });
        keep_clear(ui.ctx(), said.response.rect);
    }
    let slack = scene.outlook.rods().map_or(&[][..], |rods| &rods.slack);
    if !slack.is_empty() {
        let arms: Vec<String> = slack.iter().map(ArmIndex::to_string).collect();
        ui.label(muted(palette, words.trouble_slack(arms.join(", "))));
    }
}
