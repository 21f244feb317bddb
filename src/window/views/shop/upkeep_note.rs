//! Noting upkeep: who did it, and what stands above every list of it.

use eframe::egui::{Key, Ui};

use crate::session::{Caution, IsoDate};
use crate::shop::{Entry, Noted, UpkeepEdit, Whose};
use crate::window::shop::ShopWish;
use crate::window::views::Scene;
use crate::window::views::widgets::{button, field};

use super::ask;

/// Width of the field for a name.
pub(super) const FIELD: f32 = 280.0;

/// Cautions that stand above all tasks, not at each.
pub(super) const ABOVE: [Caution; 2] = [Caution::MadeSafe, Caution::JawBlocked];

/// Asks who; whether it is to be noted.
pub(super) fn who_form(ui: &mut Ui, scene: &mut Scene<'_>, note: &str) -> bool {
    let words = scene.words();
    let view = &mut scene.view.shop.upkeep;
    let (mut noted, mut cancelled) = (false, false);
    ui.horizontal_wrapped(|ui| {
        let typed = field(ui, words.find_who(), &mut view.who, FIELD);
        if std::mem::take(&mut view.wants_focus) {
            typed.request_focus();
        }
        let ready = !view.who.trim().is_empty() && !view.keeping;
        let entered = typed.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
        ui.add_enabled_ui(ready, |ui| {
            noted = (button(ui, note).clicked() || entered) && ready;
        });
        cancelled = button(ui, words.cancel()).clicked();
    });
    if cancelled {
        view.form = None;
    }
    noted
}

/// Notes lines about a press or gauge, as of a day each.
pub(super) fn note(scene: &mut Scene<'_>, whose: &Whose, lines: Vec<(Noted, IsoDate)>) {
    let who = scene.view.shop.upkeep.who.clone();
    let entries = lines
        .into_iter()
        .map(|(noted, day)| Entry::of(whose, noted, day, &who));
    let edit = UpkeepEdit::Note(entries.collect());
    ask(scene, ShopWish::Keep(edit));
}
