//! The log of the upkeep as a table, newest first; a line is taken back by
//! whoever signs, and stays.

use eframe::egui::Ui;

use crate::shop::{Entry, Task, Upkeep, UpkeepEdit};
use crate::window::action::Action;
use crate::window::shop::ShopWish;
use crate::window::state::upkeep::UpkeepForm;
use crate::window::theme::{self, TARGET};
use crate::window::views::Scene;
use crate::window::views::dialog_room::{Answer, Foot};
use crate::window::views::visit::{noting, signer};
use crate::window::views::widgets::{muted, named_button};

use super::{MOST_ROWS, ask, row, upkeep};

/// Shares of the columns: date, press or gauge, what, who, taking back.
const SHARES: [f32; 5] = [0.11, 0.22, 0.33, 0.22, 0.12];

/// Draws the table.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, log: &Upkeep) {
    let words = scene.words();
    let lines = log.log.iter().rev();
    let lines: Vec<&Entry> = lines
        .filter(|line| upkeep::is_of_press(scene, &line.whose()))
        .collect();
    if lines.is_empty() {
        ui.label(words.upkeep_log_empty());
        return;
    }
    theme::card(scene.palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        table(ui, scene, &lines, &log.tasks());
    });
    if let Some(more) = lines.len().checked_sub(MOST_ROWS).filter(|more| *more > 0) {
        ui.label(words.shop_more(more));
    }
}

fn table(ui: &mut Ui, scene: &mut Scene<'_>, lines: &[&Entry], tasks: &[Task]) {
    let words = scene.words();
    row::headings(ui, scene.palette, &SHARES, words.log_columns());
    // Of lines that are the same it is asked below the first.
    let mut asked = false;
    for (index, entry) in lines.iter().take(MOST_ROWS).enumerate() {
        ui.push_id(index, |ui| {
            let whose = words.whose_name(&entry.whose());
            let what = words.noted(entry, tasks);
            let line = words.upkeep_line(entry, tasks);
            row::widgets(ui, &SHARES, TARGET, |ui, column| {
                let text = match column {
                    0 => entry.day.to_string(),
                    1 => whose.clone(),
                    2 => what.clone(),
                    3 => words.upkeep_who(entry).to_owned(),
                    _ if !entry.taken_back.is_empty() => words.log_by(&entry.taken_back),
                    _ => {
                        let name = words.upkeep_take_back_of(&line);
                        if named_button(ui, words.upkeep_take_back(), &name) {
                            let form = UpkeepForm::TakeBack((*entry).clone());
                            scene.view.shop.upkeep.form = Some(form);
                        }
                        return;
                    }
                };
                match entry.taken_back.is_empty() {
                    true => ui.label(text),
                    false => ui.label(muted(scene.palette, text)),
                };
            });
            let form = &scene.view.shop.upkeep.form;
            let open = matches!(form, Some(UpkeepForm::TakeBack(of)) if of == *entry);
            if open && !std::mem::replace(&mut asked, true) {
                take_back(ui, scene, entry);
            }
        });
    }
}

/// Asks whether a line is to be taken back.
fn take_back(ui: &mut Ui, scene: &mut Scene<'_>, entry: &Entry) {
    let words = scene.words();
    let palette = scene.palette;
    let mut answer = None;
    theme::card(palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        let foot = Foot {
            leave: Some(words.cancel()),
            main: Some((
                words.upkeep_take_back_now(),
                !scene.view.shop.upkeep.keeping,
            )),
        };
        answer = foot.show(ui, palette, |ui| {
            ui.label(words.upkeep_take_back_ask());
        });
    });
    match answer {
        Some(Answer::Leave | Answer::Lose) => scene.view.shop.upkeep.form = None,
        Some(Answer::Main) if signer::name(scene).is_empty() => {
            scene.view.shop.upkeep.wants_focus = true;
            scene.ask(Action::Complain(words.upkeep_who_first().to_owned()));
        }
        Some(Answer::Main) => {
            let by = words.marked_by(signer::name(scene), noting::now());
            ask(
                scene,
                ShopWish::Keep(UpkeepEdit::TakeBack(entry.clone(), by)),
            );
        }
        None => {}
    }
}
