//! What a start of the program offers, once there is work to go on with.

use eframe::egui::{Button, Ui, Vec2};

use crate::session::Stands;
use crate::window::action::Action;
use crate::window::state::dialog::Then;
use crate::window::state::{Dialog, LastVisit};
use crate::window::theme::TARGET;

use crate::window::views::Scene;
use crate::window::views::hint::{Hint, keep_clear};
use crate::window::views::widgets::{main_button, strong};

/// Where the work of a visit stands, and what of it is in doubt.
pub fn stands(ui: &mut Ui, scene: &Scene<'_>, last: &LastVisit) {
    let words = scene.words();
    let stands = match last.stands {
        // Nothing is missing where a reading is in doubt.
        Stands::Open if last.doubtful > 0 => words.verdict_open(),
        stands => words.shop_stands(stands),
    };
    ui.label(words.last_visit(&last.when, last.passes, stands));
    if last.doubtful > 0 {
        let doubt = format!("⚠ {}", words.readings_in_doubt(last.doubtful));
        ui.label(strong(doubt).color(scene.palette.caution));
    }
}

/// The same, and whether the press was left locked out: whoever comes back to it
/// may put a hand in.
pub fn where_it_stands(ui: &mut Ui, scene: &Scene<'_>, last: &LastVisit) {
    let words = scene.words();
    stands(ui, scene, last);
    let lock = match last.locked_out {
        true => words.last_locked_out(),
        false => words.last_not_locked_out(),
    };
    let lock = strong(format!("⚠ {lock}")).color(scene.palette.caution);
    let said = ui.label(lock);
    keep_clear(ui.ctx(), said.rect);
}

/// Draws the card.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    if let Some(path) = scene.preferences.recent.first().cloned() {
        let name = path.file_stem().unwrap_or(path.as_os_str());
        let last = scene.view.last_visit.clone();
        let name = match &last {
            Some(last) if !last.press.is_empty() => last.press.as_str().into(),
            _ => name.to_string_lossy(),
        };
        if let Some(last) = &last {
            where_it_stands(ui, scene, last);
        }
        let go_on = main_button(ui, scene.palette, &words.go_on_with(name), true);
        if ui.memory(|memory| memory.focused().is_none()) {
            go_on.request_focus();
        }
        if go_on.hint(path.display().to_string()).clicked() {
            scene.ask(Action::Leave(Then::OpenPath(path)));
        }
        ui.add_space(6.0);
    }
    let practice = || Action::Show(Box::new(Dialog::Practice(Box::default())));
    for (text, action) in [
        (words.command_new(), Action::Leave(Then::New)),
        (words.command_open(), Action::Leave(Then::Open)),
        (words.command_practice(), practice()),
        // It is behind this card already.
        (words.look_at_example(), Action::Close),
    ] {
        let size = Vec2::new(ui.available_width(), TARGET);
        let choice = Button::new(text).min_size(size);
        if ui.vertical_centered(|ui| ui.add(choice)).inner.clicked() {
            scene.ask(action);
        }
    }
}
