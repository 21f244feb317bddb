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
        let name = path.file_name().unwrap_or(path.as_os_str());
        let go_on = words.go_on_with(name.to_string_lossy());
        let go_on = main_button(ui, scene.palette, &go_on, true);
        if ui.memory(|memory| memory.focused().is_none()) {
            go_on.request_focus();
        }
        ui.label(muted(scene.palette, path.display().to_string()));
        if go_on.clicked() {
            scene.ask(Action::Leave(Then::OpenPath(path)));
        }
    }
    let size = Vec2::new(ui.available_width(), TARGET);
    let practice = Button::new(words.command_practice()).min_size(size);
    if ui.add(practice).clicked() {
        scene.ask(Action::Show(Box::new(Dialog::Practice(Box::default()))));
    }
    for (text, then) in [
        (words.command_new(), Some(Then::New)),
        (words.command_open(), Some(Then::Open)),
        // It is behind this card already.
        (words.look_at_example(), None),
    ] {
        let size = Vec2::new(ui.available_width(), TARGET);
        if ui.add(Button::new(text).min_size(size)).clicked() {
            scene.ask(then.map_or(Action::Close, Action::Leave));
        }
    }
}
