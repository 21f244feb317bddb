//! Noting upkeep: who did it and on which day, asked once for all that is
//! ticked.

use eframe::egui::{Key, Ui};

use crate::session::IsoDate;
use crate::shop::{Entry, Noted, UpkeepEdit, Whose};
use crate::window::action::Action;
use crate::window::shop::ShopWish;
use crate::window::upkeep::UpkeepDesk;
use crate::window::views::Scene;
use crate::window::views::hint::Hint;
use crate::window::views::visit::{noting, signer};
use crate::window::views::widgets::{field, main_of_width, muted, quiet};

use super::ask;

/// Widths of the fields for a name and for a day, and of the button.
const WHO: f32 = 210.0;
const DAY: f32 = 110.0;
const NOTE: f32 = 180.0;

/// Asks who it is: the one who signs everything else here; whether Enter was
/// pressed there.
pub(super) fn who(ui: &mut Ui, scene: &mut Scene<'_>, label: &str) -> bool {
    let typed = field(ui, label, &mut scene.view.signer, WHO);
    if std::mem::take(&mut scene.view.shop.upkeep.wants_focus) {
        typed.request_focus();
    }
    typed.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter))
}

/// Who and when, and noting what is ticked: without a name its button leads there.
pub(super) fn show(ui: &mut Ui, scene: &mut Scene<'_>, desk: &UpkeepDesk, today: IsoDate) {
    let words = scene.words();
    let ticked: Vec<(Whose, String)> = scene.view.shop.upkeep.ticked.iter().cloned().collect();
    let mut pressed = false;
    ui.horizontal_wrapped(|ui| {
        pressed |= who(ui, scene, words.find_who());
        let view = &mut scene.view.shop.upkeep;
        let mut day = view.day.clone().unwrap_or_else(|| today.to_string());
        let typed = field(ui, words.upkeep_day(), &mut day, DAY);
        let typed = typed.hint(words.upkeep_day_hint());
        if typed.changed() {
            view.day = Some(day);
        }
        pressed |= typed.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
        let named = !signer::name(scene).is_empty();
        let text = match ticked.len() {
            0 => {
                ui.label(muted(scene.palette, words.upkeep_note_none()));
                undo(ui, scene);
                return;
            }
            number if named => words.upkeep_note(number),
            number => words.upkeep_note_who(number),
        };
        let main = (text.as_str(), !scene.view.shop.upkeep.keeping);
        pressed |= main_of_width(ui, scene.palette, main, NOTE).clicked();
    });
    if !pressed || scene.view.shop.upkeep.keeping {
        return;
    }
    if signer::name(scene).is_empty() {
        // It leads where the name is typed.
        scene.view.shop.upkeep.wants_focus = true;
        ui.ctx().request_repaint();
        return;
    }
    if ticked.is_empty() {
        scene.ask(Action::Complain(words.upkeep_note_needs().to_owned()));
        return;
    }
    let Some(day) = day(scene, today) else { return };
    let lines = ticked.into_iter().filter(|(whose, key)| {
        let mut list = desk.list.iter();
        list.any(|due| due.whose == *whose && due.task.key == *key)
    });
    let lines = lines.map(|(whose, key)| (whose, Noted::Done(key)));
    note(scene, lines.collect(), day);
}

/// Takes back what was noted last, until something else is done.
fn undo(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let noted = scene.view.shop.upkeep.noted.clone();
    let named = !signer::name(scene).is_empty();
    if noted.is_empty() || !named || !scene.view.shop.upkeep.ticked.is_empty() {
        return;
    }
    if quiet(ui, scene.palette, &words.upkeep_undo(noted.len())).clicked() {
        take_back(scene, noted);
    }
}

/// Takes lines of the log back, signed.
pub(super) fn take_back(scene: &mut Scene<'_>, lines: Vec<Entry>) {
    let by = scene.words().marked_by(signer::name(scene), noting::now());
    let edit = UpkeepEdit::TakeBack(lines, by);
    ask(scene, ShopWish::Keep(edit));
}

/// The day typed; complains where it is none up to today.
pub(super) fn day(scene: &mut Scene<'_>, today: IsoDate) -> Option<IsoDate> {
    let Some(typed) = scene.view.shop.upkeep.day.clone() else {
        return Some(today);
    };
    let day = IsoDate::parse(&typed).ok().filter(|day| *day <= today);
    if day.is_none() {
        let sentence = scene
            .words()
            .upkeep_no_date(crate::words::shortened(&typed));
        scene.ask(Action::Complain(sentence));
    }
    day
}

/// Notes lines about presses or gauges, as of a day.
pub(super) fn note(scene: &mut Scene<'_>, lines: Vec<(Whose, Noted)>, day: IsoDate) {
    let who = signer::name(scene);
    let entries = lines
        .into_iter()
        .map(|(whose, noted)| Entry::of(&whose, noted, day, &who));
    let edit = UpkeepEdit::Note(entries.collect());
    ask(scene, ShopWish::Keep(edit));
}
