//! What is better done before any turn, where the readings are doubtful.

use eframe::egui::text::{LayoutJob, TextFormat};
use eframe::egui::{self, Role, Ui, Vec2, WidgetInfo};

use crate::session::{NextAct, Stage, TurnDoubt};
use crate::window::action::Action;
use crate::window::state::Dialog;
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::hint::keep_clear;
use crate::window::views::turning::safety;

/// What is better done before the turns below, and why: it is the act then, and
/// turning stands behind it.
pub fn first_of_all(ui: &mut Ui, scene: &mut Scene<'_>) {
    let Some(doubt) = scene.turn_doubt() else {
        return;
    };
    let palette = scene.palette;
    let [first, why] = scene.figures.before_turns(scene.session, &doubt);
    let mut text = LayoutJob::default();
    for (part, font) in [
        (format!("{first}\n"), theme::bold(size::BODY)),
        (format!("⚠ {why}"), theme::regular(size::LEAST)),
    ] {
        text.append(&part, 0.0, TextFormat::simple(font, palette.on_present));
    }
    let button = egui::Button::new(text)
        .wrap()
        .fill(palette.present)
        .min_size(Vec2::new(ui.available_width(), TARGET));
    let pressed = ui.add(button);
    if std::mem::take(&mut scene.view.plan_wants_focus) {
        pressed.request_focus();
    }
    keep_clear(ui.ctx(), pressed.rect);
    let name = scene.figures.before_turns_sentence(scene.session, &doubt);
    pressed.widget_info(|| WidgetInfo::labeled(Role::Button, true, &name));
    if pressed.clicked() {
        match doubt {
            TurnDoubt::Repeats { station, .. } => {
                scene.ask(Action::Next(NextAct::MeasureAgain(vec![station])));
            }
            TurnDoubt::NoGauge | TurnDoubt::Coarse(_) => {
                scene.ask(Action::Show(Box::new(Dialog::Gauge(Box::default()))));
            }
            TurnDoubt::Drive { .. } => scene.view.visit.go_to(Stage::JawDrive),
        }
    }
}

/// The same in one line, where a low window has no room for the button: that stands
/// with the plan.
pub fn first_in_a_line(ui: &mut Ui, scene: &Scene<'_>) {
    if let Some(doubt) = scene.turn_doubt() {
        let said = scene.figures.before_turns_sentence(scene.session, &doubt);
        safety::caution_line(ui, scene.palette, &said);
    }
}
