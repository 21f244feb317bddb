//! The tasks of one press or gauge: what is due now, soon and later, and where
//! to start with what was never recorded.

use eframe::egui::{CollapsingHeader, RichText, Ui};

use crate::session::IsoDate;
use crate::shop::{Noted, TaskDue, When, Whose};
use crate::window::action::Action;
use crate::window::state::upkeep::{StartForm, UpkeepForm};
use crate::window::theme::{self, size};
use crate::window::upkeep::UpkeepDesk;
use crate::window::views::Scene;
use crate::window::views::widgets::{field, muted, strong, title};

use super::upkeep_note::{ABOVE, note, who_form};
use super::upkeep_tasks::opens;

/// Width of a field for a date.
const DATE: f32 = 180.0;

/// Draws the group as a card.
pub fn show(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    desk: &UpkeepDesk,
    (whose, tasks): (&Whose, &[&TaskDue]),
    today: IsoDate,
) {
    let words = scene.words();
    theme::card(scene.palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        let all_new = tasks.iter().all(|it| it.when(today) == When::NotRecorded);
        if all_new {
            start(ui, scene, (whose, tasks), today, true);
            return;
        }
        title(ui, &words.whose_name(whose));
        let of = |when| {
            tasks
                .iter()
                .copied()
                .filter(move |it| it.when(today) == when)
        };
        for (when, heading) in [
            (When::Now, words.upkeep_now()),
            (When::Soon, words.upkeep_soon()),
        ] {
            if of(when).next().is_some() {
                ui.label(muted(scene.palette, heading));
            }
            for task in of(when) {
                ui.push_id(&task.task.key, |ui| row(ui, scene, desk, task, when));
            }
        }
        let later: Vec<&TaskDue> = of(When::Later).collect();
        if !later.is_empty() {
            // What is being noted there stays open.
            let noted = |task: &&TaskDue| is_open(scene, task);
            let open = later.iter().any(noted).then_some(true);
            let heading = RichText::new(words.upkeep_later(later.len()));
            CollapsingHeader::new(heading.font(theme::regular(size::SMALL)))
                .id_salt("later")
                .open(open)
                .show_unindented(ui, |ui| {
                    for task in later {
                        ui.push_id(&task.task.key, |ui| {
                            row(ui, scene, desk, task, When::Later);
                        });
                    }
                });
        }
        let unrecorded: Vec<&TaskDue> = of(When::NotRecorded).collect();
        if !unrecorded.is_empty() {
            start(ui, scene, (whose, &unrecorded), today, false);
        }
    });
}

fn is_open(scene: &Scene<'_>, task: &TaskDue) -> bool {
    matches!(&scene.view.shop.upkeep.form, Some(UpkeepForm::Done(whose, key))
        if *whose == task.whose && *key == task.task.key)
}

/// A task: how it stands, what to beware of, and noting it as done.
fn row(ui: &mut Ui, scene: &mut Scene<'_>, desk: &UpkeepDesk, task: &TaskDue, when: When) {
    let words = scene.words();
    let palette = scene.palette;
    let what = words.upkeep_task(&task.task);
    ui.horizontal_top(|ui| {
        let name = words.upkeep_done_of(what, words.whose_name(&task.whose));
        let form = UpkeepForm::Done(task.whose.clone(), task.task.key.clone());
        // In a column of its own its text stands in its middle.
        ui.vertical(|ui| opens(ui, scene, words.upkeep_done(), &name, form));
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing.y = 1.0;
            let said = words.press_and(what, words.upkeep_due(task.due));
            match when {
                When::Now => ui.label(strong(format!("⚠ {said}")).color(palette.caution)),
                _ => ui.label(strong(said)),
            };
            ui.label(muted(palette, words.upkeep_last(task)));
            for caution in task.task.cautions() {
                if !ABOVE.contains(caution) {
                    let text = format!("⚠ {}", words.caution_with_source(*caution));
                    ui.label(RichText::new(text).size(size::SMALL));
                }
            }
        });
    });
    if is_open(scene, task)
        && who_form(ui, scene, words.upkeep_note())
        && let Some(today) = desk.day
    {
        let noted = Noted::Done(task.task.key.clone());
        note(scene, &task.whose, vec![(noted, today)]);
    }
}

/// What was never recorded, in one quiet line, and where to start with it; under
/// the name of the press or gauge where nothing of it is recorded.
fn start(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    (whose, tasks): (&Whose, &[&TaskDue]),
    today: IsoDate,
    named: bool,
) {
    let words = scene.words();
    let name = |key: &str| {
        let task = tasks.iter().find(|task| task.task.key == key);
        task.map_or_else(String::new, |task| words.upkeep_task(&task.task).to_owned())
    };
    let days = tasks.iter().map(|it| (it.task.key.clone(), String::new()));
    let form = StartForm {
        whose: whose.clone(),
        days: days.collect(),
    };
    let label = words.upkeep_start_of(words.whose_name(whose));
    ui.horizontal_top(|ui| {
        let form = UpkeepForm::Start(form);
        // In a column of its own its text stands in its middle.
        ui.vertical(|ui| opens(ui, scene, words.upkeep_start(), &label, form));
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing.y = 1.0;
            let number = words.upkeep_not_recorded(tasks.len());
            if named {
                ui.label(strong(words.whose_name(whose)));
                ui.label(muted(scene.palette, number));
                return;
            }
            let names: Vec<&str> = tasks.iter().map(|it| words.upkeep_task(&it.task)).collect();
            let text = words.press_and(number, names.join("; "));
            ui.label(muted(scene.palette, text));
        });
    });
    let Some(UpkeepForm::Start(form)) = &mut scene.view.shop.upkeep.form else {
        return;
    };
    if form.whose != *whose {
        return;
    }
    ui.label(words.upkeep_start_how());
    for (key, typed) in &mut form.days {
        ui.horizontal_wrapped(|ui| {
            field(ui, &words.upkeep_last_on(name(key)), typed, DATE);
            ui.label(muted(scene.palette, words.upkeep_date_hint()));
        });
    }
    let days = form.days.clone();
    if !who_form(ui, scene, words.upkeep_begin()) {
        return;
    }
    let lines = days.into_iter().map(|(key, typed)| match typed.trim() {
        "" => Ok((Noted::Begun(key), today)),
        typed => match IsoDate::parse(typed).ok().filter(|day| *day <= today) {
            Some(day) => Ok((Noted::Done(key), day)),
            None => Err(words.upkeep_no_date(typed)),
        },
    });
    match lines.collect() {
        Ok(lines) => note(scene, whose, lines),
        Err(sentence) => scene.ask(Action::Complain(sentence)),
    }
}
