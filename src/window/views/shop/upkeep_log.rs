//! The log of the upkeep as a table, newest first, and among its lines the pieces
//! that visits measured, which check the jaws; a line is taken back by whoever
//! signs, and stays.

use std::cmp::Reverse;

use eframe::egui::{Color32, Role, Ui, WidgetInfo};

use crate::session::IsoDate;
use crate::shop::{Entry, Outcome, PressBook, Task, Upkeep, VisitSummary, Whose};
use crate::window::action::Action;
use crate::window::shop::ShopWish;
use crate::window::state::upkeep::{LogOf, UpkeepForm};
use crate::window::theme::{self, TARGET};
use crate::window::views::Scene;
use crate::window::views::dialog_room::{Answer, Foot};
use crate::window::views::visit::signer;
use crate::window::views::widgets::{choice, muted, quiet};

use super::{MOST_ROWS, ask, row, upkeep, upkeep_note};

/// Shares of the columns: date, press or gauge, what, who, what can be done.
const SHARES: [f32; 5] = [0.10, 0.20, 0.42, 0.17, 0.11];

/// A line: noted by hand, or a piece that a visit measured.
#[derive(Clone, Copy)]
enum Line<'a> {
    Noted(&'a Entry),
    Measured(&'a VisitSummary),
}

/// Draws the table.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, log: &Upkeep) {
    let words = scene.words();
    ui.horizontal_wrapped(|ui| {
        upkeep::narrowed(ui, scene);
        let of = &mut scene.view.shop.upkeep.log_of;
        for (which, text) in [
            (LogOf::Everything, words.log_everything()),
            (LogOf::Upkeep, words.log_upkeep()),
            (LogOf::Pieces, words.log_pieces()),
        ] {
            if choice(ui, scene.palette, *of == which, text).clicked() {
                *of = which;
            }
        }
    });
    let shop = std::sync::Arc::clone(&scene.shop.shop);
    let tasks = log.tasks();
    let lines = lines(scene, log, &tasks, &shop.books);
    if lines.is_empty() {
        ui.label(words.upkeep_log_empty());
        return;
    }
    theme::card(scene.palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 0.0;
        table(ui, scene, &lines, &tasks);
    });
    if let Some(more) = lines.len().checked_sub(MOST_ROWS).filter(|more| *more > 0) {
        ui.label(words.shop_more(more));
    }
}

/// The lines on show, newest day first, and of a day what was noted last.
fn lines<'a>(
    scene: &Scene<'_>,
    log: &'a Upkeep,
    tasks: &[Task],
    books: &'a [PressBook],
) -> Vec<(IsoDate, Line<'a>)> {
    let words = scene.words();
    let view = &scene.view.shop.upkeep;
    let chosen = view.task.as_ref().map(|chosen| {
        let of = |task: &&Task| words.upkeep_task(task) == chosen;
        tasks.iter().find(of)
    });
    let of_task = |key: Option<&str>| match chosen {
        Some(task) => task.map(|task| task.key.as_str()) == key,
        None => true,
    };
    let noted = log.log.iter().rev();
    let noted = noted.filter(|_| view.log_of != LogOf::Pieces);
    let noted = noted.filter(|it| of_task(it.task()) && upkeep::is_of_press(scene, &it.whose()));
    let check = tasks.iter().find(|task| task.is_jaw_check());
    let checks = check.is_some_and(|task| of_task(Some(&task.key)));
    let checks = checks && view.log_of != LogOf::Upkeep;
    let of_press = |book: &&PressBook| {
        let chosen = view.press.as_ref();
        chosen.is_none_or(|chosen| words.press_name(&book.press) == *chosen)
    };
    let books = books.iter().filter(|_| checks).filter(of_press);
    let measured = books.flat_map(|book| &book.visits);
    let measured = measured.filter(|visit| visit.checks_jaws());
    let measured = measured.filter_map(|visit| Some((visit.day?, Line::Measured(visit))));
    let noted = noted.map(|entry| (entry.day, Line::Noted(entry)));
    let mut all: Vec<(IsoDate, Line<'_>)> = noted.chain(measured).collect();
    // Stable: what was noted last on a day stays first.
    all.sort_by_key(|(day, _)| Reverse(*day));
    all
}

fn table(ui: &mut Ui, scene: &mut Scene<'_>, lines: &[(IsoDate, Line<'_>)], tasks: &[Task]) {
    let words = scene.words();
    row::headings(ui, scene.palette, &SHARES, words.log_columns());
    ui.add_space(4.0);
    // Of lines that are the same it is asked below the first.
    let mut asked = false;
    for (index, (day, line)) in lines.iter().take(MOST_ROWS).enumerate() {
        ui.push_id(index, |ui| {
            let entry = match line {
                Line::Noted(entry) => entry,
                Line::Measured(visit) => return measured(ui, scene, *day, visit),
            };
            let lesser = !entry.taken_back.is_empty();
            let ink = match lesser {
                true => scene.palette.muted,
                false => scene.palette.ink,
            };
            let texts = [
                entry.day.to_string(),
                words.whose_name(&entry.whose()),
                words.noted(entry, tasks),
                words.upkeep_who(entry).to_owned(),
            ];
            one(ui, scene, &texts, ink, |ui, scene| {
                if lesser {
                    let by = words.log_by(&entry.taken_back);
                    ui.label(muted(scene.palette, by));
                    return;
                }
                let name = words.upkeep_take_back_of(words.upkeep_line(entry, tasks));
                if act(ui, scene, words.upkeep_take_back(), &name) {
                    let form = UpkeepForm::TakeBack((*entry).clone());
                    scene.view.shop.upkeep.open(form);
                }
            });
            let form = &scene.view.shop.upkeep.form;
            let open = matches!(form, Some(UpkeepForm::TakeBack(of)) if of == *entry);
            if open && !std::mem::replace(&mut asked, true) {
                take_back(ui, scene, entry);
            }
        });
    }
}

/// A row: its texts, and what can be done.
fn one(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    texts: &[String],
    ink: Color32,
    mut act: impl FnMut(&mut Ui, &mut Scene<'_>),
) {
    row::widgets(ui, &SHARES, TARGET, |ui, column| match texts.get(column) {
        Some(text) => {
            ui.colored_label(ink, text);
        }
        None => act(ui, scene),
    });
    let line = theme::stroke(1.0, scene.palette.line);
    let (across, below) = (ui.max_rect().x_range(), ui.cursor().top());
    ui.painter().hline(across, below, line);
}

/// What can be done with a line, in words that can be pressed.
fn act(ui: &mut Ui, scene: &Scene<'_>, text: &str, name: &str) -> bool {
    let pressed = quiet(ui, scene.palette, text);
    pressed.widget_info(|| WidgetInfo::labeled(Role::Button, true, name));
    pressed.clicked()
}

/// A piece that a visit measured; the visit can be opened.
fn measured(ui: &mut Ui, scene: &mut Scene<'_>, day: IsoDate, visit: &VisitSummary) {
    let words = scene.words();
    let figures = scene.figures.of_visit(visit);
    let (sign, ink) = match visit.outcome() {
        Outcome::LeftOutside | Outcome::MeasuredOnce => ("✗ ", scene.palette.outside),
        _ => ("", scene.palette.ink),
    };
    let texts = [
        day.to_string(),
        words.whose_name(&Whose::Press(visit.press.clone())),
        format!("{sign}{}", words.log_measured(figures.outcome(visit))),
        visit.who.clone(),
    ];
    one(ui, scene, &texts, ink, |ui, scene| {
        let name = words.log_open_of(figures.visit_summary(visit));
        if act(ui, scene, words.log_open(), &name) {
            ask(scene, ShopWish::OpenFile(visit.file.clone()));
        }
    });
}

/// Asks whether a line is to be taken back, and by whom.
fn take_back(ui: &mut Ui, scene: &mut Scene<'_>, entry: &Entry) {
    let words = scene.words();
    let palette = scene.palette;
    let mut answer = None;
    let mut entered = false;
    theme::card(palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        let keeping = scene.view.shop.upkeep.keeping;
        ui.label(words.upkeep_take_back_ask());
        let foot = Foot {
            leave: Some(words.cancel()),
            main: Some((words.upkeep_take_back_now(), !keeping)),
        };
        answer = foot.show(ui, palette, |ui| {
            entered = upkeep_note::who(ui, scene, words.upkeep_taken_back_by());
        });
    });
    if entered {
        answer = Some(Answer::Main);
    }
    match answer {
        Some(Answer::Leave | Answer::Lose) => scene.view.shop.upkeep.form = None,
        Some(Answer::Main) if signer::name(scene).is_empty() => {
            scene.view.shop.upkeep.wants_focus = true;
            scene.ask(Action::Complain(words.upkeep_who_first().to_owned()));
        }
        Some(Answer::Main) => upkeep_note::take_back(scene, vec![entry.clone()]),
        None => {}
    }
}
