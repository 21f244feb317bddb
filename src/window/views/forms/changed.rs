//! Somebody else changed the file: what differs, and keeping both.

use eframe::egui::Ui;

use crate::window::action::Action;
use crate::window::state::changed::ChangedForm;
use crate::window::views::Scene;
use crate::window::views::widgets::{button, strong};

/// Differences that are told.
const MOST: usize = 30;

/// Draws the dialog.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, form: &ChangedForm) {
    let words = scene.words();
    ui.label(words.changed_on_disk_text());
    match (&form.unreadable, &form.differences) {
        (Some(why), _) => {
            ui.label(why);
        }
        (None, None) => {
            ui.label(words.changed_comparing());
        }
        (None, Some(differences)) => {
            ui.label(words.changed_by(&form.who));
            if differences.is_empty() {
                ui.label(words.changed_nothing());
            } else {
                ui.label(strong(words.changed_what()));
            }
            for difference in differences.iter().take(MOST) {
                ui.label(scene.figures.difference(difference));
            }
            if let Some(more) = differences.len().checked_sub(MOST).filter(|more| *more > 0) {
                ui.label(words.changed_more(more));
            }
        }
    }
    ui.horizontal_wrapped(|ui| {
        if button(ui, words.changed_keep_both()).clicked() {
            scene.ask(Action::SaveBeside);
        }
        if button(ui, words.command_save_as()).clicked() {
            scene.ask(Action::Close);
            scene.ask(Action::SaveAs);
        }
        if button(ui, words.save_over()).clicked() {
            scene.ask(Action::SaveOver);
        }
        if button(ui, words.cancel()).clicked() {
            scene.ask(Action::Close);
        }
    });
}
