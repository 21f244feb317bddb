//! What a start of the program offers, once there is work to go on with.

use eframe::egui::{Button, Ui, Vec2};

use crate::window::action::Action;
use crate::window::state::Dialog;
use crate::window::state::dialog::Then;
use crate::window::theme::TARGET;

use crate::window::views::Scene;
use crate::window::views::widgets::{main_button, muted};

/// Draws the card.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    if let Some(path) = scene.preferences.recent.first().cloned() {
        let name = path.file_stem().unwrap_or(path.as_os_str());
        let go_on = words.go_on_with(name.to_string_lossy());
        let go_on = main_button(ui, scene.palette, &go_on, true);
        if ui.memory(|memory| memory.focused().is_none()) {
            go_on.request_focus();
        }
        if let Some(folder) = path.parent().filter(|it| !it.as_os_str().is_empty()) {
            let folder = scene.words().goes_into_folder(folder.display());
            ui.vertical_centered(|ui| ui.label(muted(scene.palette, folder)));
        }
        if go_on.clicked() {
            scene.ask(Action::Leave(Then::OpenPath(path)));
        }
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
