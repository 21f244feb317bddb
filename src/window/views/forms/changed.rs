//! Somebody else changed the file: what differs, and keeping both.

use eframe::egui::{Grid, Label, Ui};

use crate::session::Difference;
use crate::store;

use crate::window::action::Action;
use crate::window::state::changed::ChangedForm;
use crate::window::views::Scene;
use crate::window::views::dialog_room::{self, Answer, Foot};
use crate::window::views::widgets::{muted, strong};

/// Differences that are told.
const MOST: usize = 30;

/// Least height of a row.
const ROW: f32 = 26.0;

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
            }
            dialog_room::middle(ui, |ui| table(ui, scene, form, differences));
            ui.add_space(12.0);
            if let Some(name) = &form.beside {
                ui.label(words.changed_beside(name));
            }
        }
    }
    let foot = Foot {
        leave: Some(words.cancel()),
        main: Some((words.changed_keep_both(), true)),
    };
    match foot.decide(ui, scene.palette, Some(words.save_over())) {
        Some(Answer::Leave) => scene.ask(Action::Close),
        Some(Answer::Main) => scene.ask(Action::SaveBeside),
        Some(Answer::Lose) => scene.ask(Action::SaveOver),
        None => {}
    }
}

/// Theirs and one's own beside each other: readings first, which decide what
/// is turned.
fn table(ui: &mut Ui, scene: &Scene<'_>, form: &ChangedForm, differences: &[Difference]) {
    let words = scene.words();
    let mut told: Vec<&Difference> = differences.iter().collect();
    told.sort_by_key(|difference| !matches!(difference, Difference::Reading { .. }));
    let column = (ui.available_width() - 2.0 * ui.spacing().item_spacing.x) / 3.0;
    let shown = told.len().min(MOST);
    Grid::new("what differs")
        .num_columns(3)
        .min_col_width(column)
        .max_col_width(column)
        .min_row_height(ROW)
        .show(ui, |ui| {
            if !told.is_empty() {
                ui.label(muted(scene.palette, words.changed_what()));
                let theirs = form.saved_at.map(store::moment_of);
                let theirs = theirs.map(|when| words.differs_theirs_at(when));
                let theirs = theirs.unwrap_or_else(|| words.differs_theirs().to_owned());
                ui.add(Label::new(muted(scene.palette, theirs)).wrap());
                ui.label(muted(scene.palette, words.differs_mine()));
                ui.end_row();
            }
            for difference in told.iter().take(MOST) {
                let (place, values) = scene.figures.difference(difference);
                ui.add(Label::new(place).wrap());
                for value in values.into_iter().flatten() {
                    ui.add(Label::new(strong(value)).wrap());
                }
                ui.end_row();
            }
        });
    if told.len() > shown {
        ui.label(words.changed_more(told.len() - shown));
    }
}
