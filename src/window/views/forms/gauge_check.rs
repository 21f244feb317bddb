//! The gauge check: what to measure, the readings, what comes out of them.

use std::ops::Range;

use eframe::egui::{self, Button, Grid, Label, Role, ScrollArea, Ui, Vec2, WidgetInfo};

use crate::press::ArmIndex;
use crate::session::{Edit, KnownScatter};
use crate::splice::Scatter;
use crate::units::{Sign, TypedLength};
use crate::window::action::Action;
use crate::window::state::Dialog;
use crate::window::state::gauge_check::{
    CheckKind, Counts, Found, GaugeCheck, MOST_EACH, MOST_ROUNDS, Obstacle, Outcome,
};
use crate::window::theme::TARGET;

use crate::window::state::grid::{GridCell, Shape};
use crate::window::views::Scene;
use crate::window::views::dialog_room::{self, Answer, Foot};
use crate::window::views::entry::grid;
use crate::window::views::entry::grid::Look;
use crate::window::views::forms::gauge_check_result;
use crate::window::views::widgets::{button, choice, muted, quiet, strong};
use crate::words::Language;

/// Width of a cell, least and most, and of a row's name.
const CELL_WIDTH: (f32, f32) = (58.0, 104.0);
const NAME_WIDTH: f32 = 78.0;

/// Most width of a cell of the list, which fills the dialog.
const WRAPPED: f32 = 142.0;

/// The cell that has the keyboard at first.
const FIRST: GridCell = GridCell { row: 0, column: 0 };

/// Distance between the columns.
const COLUMN_GAP: f32 = 5.0;

/// Cells of the list in one line.
const LINE: usize = 5;

/// Draws the dialog.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let mut check = std::mem::take(&mut scene.view.gauge_check);
    kinds(ui, scene, &mut check);
    dialog_room::middle(ui, |ui| {
        ui.label(how(scene, check.kind));
        if check.kind == CheckKind::OneKnuckle {
            let now = scene
                .figures
                .uncertainty(scene.session.repeatability().sd_nm);
            ui.label(muted(scene.palette, words.check_gives(now)));
        }
        counts(ui, scene, &mut check);
        let unit = words.unit_short(scene.figures.unit);
        let hides = check.hides(scene.session);
        ui.horizontal(|ui| {
            ui.label(strong(words.check_readings_in(unit)));
            if hides && quiet(ui, scene.palette, words.check_show()).clicked() {
                check.shown = true;
            }
        });
        let outcome = check.outcome(scene.session);
        cells(ui, scene, &mut check, &outcome);
        remarks(ui, scene, &check, &outcome);
        if let Some(found) = &outcome.found {
            ui.separator();
            ui.label(strong(words.check_result()));
            gauge_check_result::result(ui, scene, &check, found);
            ui.label(muted(scene.palette, what_it_sets(words, found)));
        }
    });
    let outcome = check.outcome(scene.session);
    answers(ui, scene, &mut check, &outcome);
    scene.view.gauge_check = check;
}

/// Opens the dialog, ready for typing.
pub fn open(scene: &mut Scene<'_>) {
    scene.view.gauge_check.typing.go_to(FIRST);
    scene.ask(Action::Show(Box::new(Dialog::GaugeCheck)));
}

/// Keeps what was typed when the dialog is waved away.
pub fn leave(scene: &mut Scene<'_>) {
    let unit = scene.figures.unit;
    scene.view.gauge_check.finish(scene.session, unit);
}

fn kinds(ui: &mut Ui, scene: &mut Scene<'_>, check: &mut GaugeCheck) {
    let words = scene.words();
    ui.horizontal_wrapped(|ui| {
        for kind in CheckKind::ALL {
            let name = match kind {
                CheckKind::OneKnuckle => words.check_one_knuckle(),
                CheckKind::TwoLacings => words.check_two_lacings(),
                CheckKind::People => words.check_people(),
            };
            let chosen = kind == check.kind;
            let pressed = choice(ui, scene.palette, chosen, name);
            pressed.widget_info(|| WidgetInfo::selected(Role::RadioButton, true, chosen, name));
            if pressed.clicked() && !chosen {
                check.finish(scene.session, scene.figures.unit);
                check.kind = kind;
                check.typing.go_to(FIRST);
            }
        }
    });
}

fn how(scene: &Scene<'_>, kind: CheckKind) -> &'static str {
    let words = scene.words();
    match kind {
        CheckKind::OneKnuckle => words.check_one_knuckle_how(),
        CheckKind::TwoLacings => words.check_two_lacings_how(),
        CheckKind::People => words.check_people_how(),
    }
}

/// How large the check is, where that can be chosen.
fn counts(ui: &mut Ui, scene: &mut Scene<'_>, check: &mut GaugeCheck) {
    let words = scene.words();
    let mut counts = check.counts;
    let Counts {
        people,
        rounds,
        knuckles,
        each,
    } = &mut counts;
    let chosen = match check.kind {
        CheckKind::OneKnuckle => return,
        CheckKind::TwoLacings => vec![(words.count_each(), each, 1..=MOST_EACH)],
        CheckKind::People => vec![
            (words.count_people(), people, 1..=3),
            (words.count_rounds(), rounds, 2..=MOST_ROUNDS),
            (words.count_knuckles(), knuckles, 2..=10),
        ],
    };
    ui.horizontal_wrapped(|ui| {
        for (what, count, range) in chosen {
            let fewer = step(ui, "−", &words.one_fewer(what), *count > *range.start());
            ui.label(words.count_is(what, *count));
            let more = step(ui, "+", &words.one_more(what), *count < *range.end());
            if fewer {
                *count -= 1;
            } else if more {
                *count += 1;
            }
            ui.add_space(8.0);
        }
    });
    if counts != check.counts {
        check.finish(scene.session, scene.figures.unit);
        check.counts = counts;
    }
}

fn step(ui: &mut Ui, mark: &str, name: &str, enabled: bool) -> bool {
    let button = Button::new(mark).min_size(Vec2::splat(TARGET));
    let pressed = ui.add_enabled(enabled, button);
    pressed.widget_info(|| WidgetInfo::labeled(Role::Button, enabled, name));
    pressed.clicked()
}

fn cells(ui: &mut Ui, scene: &Scene<'_>, check: &mut GaugeCheck, outcome: &Outcome) {
    let shape = check.shape(scene.session);
    let wrapped = check.kind == CheckKind::OneKnuckle;
    let columns = if wrapped { LINE } else { shape.columns };
    let names = if wrapped {
        0.0
    } else {
        NAME_WIDTH + COLUMN_GAP
    };
    let room = (ui.available_width() - 14.0 - names) / columns as f32 - COLUMN_GAP;
    let most = if wrapped { WRAPPED } else { CELL_WIDTH.1 };
    let width = room.clamp(CELL_WIDTH.0, most);
    let hides = check.hides(scene.session);
    let mut typed = None;
    ScrollArea::horizontal().id_salt("check").show(ui, |ui| {
        Grid::new(("check", check.kind == CheckKind::People, columns))
            .spacing(Vec2::new(COLUMN_GAP, 4.0))
            .min_col_width(0.0)
            .min_row_height(0.0)
            .show(ui, |ui| {
                if !wrapped {
                    ui.label("");
                    heads(ui, scene, check, shape, width);
                }
                for row in 0..shape.rows {
                    row_name(ui, scene, check, row);
                    for column in 0..shape.columns {
                        if wrapped && column % LINE == 0 {
                            numbers(ui, scene, column..shape.columns.min(column + LINE), width);
                        }
                        let at = GridCell { row, column };
                        let name = place_name(scene, check, at);
                        let held = check.cell(at).clone();
                        let look = Look {
                            salt: "check",
                            name: &name,
                            width,
                            odd: is_odd(outcome, at),
                            keeps: false,
                            hidden: hides && held.text() != "" && !is_odd(outcome, at),
                        };
                        let cell =
                            grid::cell(ui, scene, &mut check.typing, (shape, at), &held, &look);
                        typed = cell.typed.or(typed.take());
                        if wrapped && column % LINE == LINE - 1 {
                            ui.end_row();
                        }
                    }
                    ui.end_row();
                }
            });
    });
    if let Some(typed) = typed {
        check.take(typed, shape, scene.figures.unit);
        ui.ctx().request_repaint();
    }
}

/// The numbers of the readings below.
fn numbers(ui: &mut Ui, scene: &Scene<'_>, columns: Range<usize>, width: f32) {
    for column in columns {
        let number = muted(scene.palette, (column + 1).to_string());
        ui.add_sized([width, 16.0], Label::new(number));
    }
    ui.end_row();
}

fn is_odd(outcome: &Outcome, at: GridCell) -> bool {
    let stray = outcome.strays.contains(&at);
    match &outcome.obstacle {
        Some(
            Obstacle::Unreadable(place)
            | Obstacle::OtherUnit(place, _)
            | Obstacle::DecimalSlip(place),
        ) => *place == at || stray,
        Some(Obstacle::Empty { .. }) | None => stray,
    }
}

fn heads(ui: &mut Ui, scene: &Scene<'_>, check: &GaugeCheck, shape: Shape, width: f32) {
    let words = scene.words();
    let counts = check.counts;
    for column in 0..shape.columns {
        let head = if check.kind == CheckKind::People {
            let (person, round) = (column / counts.rounds, column % counts.rounds);
            words.check_person_round(person + 1, round + 1)
        } else if column.is_multiple_of(counts.each) {
            words.check_knuckle_short(column / counts.each + 1)
        } else {
            words.check_again().to_owned()
        };
        let label = Label::new(muted(scene.palette, head)).wrap();
        ui.add_sized([width, 20.0], label);
    }
    ui.end_row();
}

fn row_name(ui: &mut Ui, scene: &Scene<'_>, check: &GaugeCheck, row: usize) {
    let words = scene.words();
    let arms = scene.session.press.arms.len().max(1);
    let name = match check.kind {
        CheckKind::OneKnuckle => return,
        CheckKind::People => words.check_knuckle_short(row + 1),
        CheckKind::TwoLacings => {
            if row.is_multiple_of(arms) {
                ui.label(strong(words.check_lacing_heading(row / arms + 1)));
                ui.end_row();
            }
            ArmIndex(row % arms).to_string()
        }
    };
    ui.add_sized([NAME_WIDTH, TARGET], Label::new(strong(name)));
}

/// A cell in words.
fn place_name(scene: &Scene<'_>, check: &GaugeCheck, at: GridCell) -> String {
    let words = scene.words();
    let Counts { rounds, each, .. } = check.counts;
    match check.kind {
        CheckKind::OneKnuckle => words.check_reading(at.column + 1),
        CheckKind::TwoLacings => {
            let arms = scene.session.press.arms.len().max(1);
            words.check_at_lacing(
                ArmIndex(at.row % arms),
                at.row / arms + 1,
                at.column / each + 1,
                at.column % each + 1,
            )
        }
        CheckKind::People => {
            let (person, round) = (at.column / rounds + 1, at.column % rounds + 1);
            words.check_at_person(person, round, at.row + 1)
        }
    }
}

/// What stands in the way, and what should be looked at again.
fn remarks(ui: &mut Ui, scene: &Scene<'_>, check: &GaugeCheck, outcome: &Outcome) {
    let words = scene.words();
    let unit = scene.figures.unit;
    let warn = |ui: &mut Ui, sentence: String| {
        let text = egui::RichText::new(format!("⚠ {sentence}"));
        ui.label(text.color(scene.palette.caution));
    };
    if check.pasted_beyond {
        warn(ui, words.check_pasted_beyond().to_owned());
    }
    match &outcome.obstacle {
        Some(Obstacle::Unreadable(at)) => {
            let name = place_name(scene, check, *at);
            let text = check.cell(*at).text();
            warn(
                ui,
                match TypedLength::parse(text, unit, Sign::None) {
                    Err(problem) => words.length_problem(&name, &problem, unit),
                    Ok(typed) => scene.figures.reading_refused(&name, typed.length()),
                },
            );
        }
        Some(Obstacle::OtherUnit(at, other)) => {
            let name = place_name(scene, check, *at);
            warn(ui, words.check_other_unit(name, words.unit_name(*other)));
        }
        Some(Obstacle::DecimalSlip(at)) => {
            warn(ui, words.check_slip(place_name(scene, check, *at)));
        }
        Some(Obstacle::Empty { .. }) | None => {}
    }
    for at in outcome.strays.iter().take(2) {
        warn(ui, words.check_stray(place_name(scene, check, *at)));
    }
    if outcome.all_equal && outcome.found.is_some() {
        ui.label(words.check_all_equal());
    }
}

/// What taking the result over is called.
fn use_of(words: Language, kind: CheckKind) -> &'static str {
    match kind {
        CheckKind::TwoLacings => words.check_use_both(),
        CheckKind::OneKnuckle | CheckKind::People => words.check_use(),
    }
}

/// What taking the result over sets.
fn what_it_sets(words: Language, found: &Found) -> &'static str {
    match found {
        Found::OneKnuckle(..) => words.check_use_repeatability(),
        Found::TwoLacings(study) if study.gauge.is_some() => words.check_use_lacing(),
        Found::TwoLacings(_) => words.check_use_lacing_only(),
        Found::People(_) => words.check_use_people(),
    }
}

/// What was found, as the session takes it over: repeatability, and the
/// variation from lacing to lacing.
fn taken_over(scene: &Scene<'_>, outcome: &Outcome) -> [Option<KnownScatter>; 2] {
    let known = |scatter: Scatter| KnownScatter::found(scatter, scene.session.unit);
    match outcome
        .found
        .as_ref()
        .filter(|_| outcome.obstacle.is_none())
    {
        Some(Found::OneKnuckle(scatter, _)) => [known(*scatter), None],
        Some(Found::TwoLacings(study)) => [study.gauge.and_then(known), known(study.next_lacing)],
        Some(Found::People(both)) => {
            let [_, variance] = &**both;
            [known(variance.in_differences), None]
        }
        None => [None, None],
    }
}

fn answers(ui: &mut Ui, scene: &mut Scene<'_>, check: &mut GaugeCheck, outcome: &Outcome) {
    let words = scene.words();
    let found = taken_over(scene, outcome);
    let ready = found.iter().any(Option::is_some);
    let foot = Foot {
        leave: Some(words.check_back()),
        main: Some((use_of(words, check.kind), ready)),
    };
    let answer = foot.show(ui, scene.palette, |ui| {
        if check.can_bring_back() {
            if button(ui, words.check_bring_back()).clicked() {
                check.bring_back();
            }
        } else if !check.is_empty() && button(ui, words.check_clear()).clicked() {
            check.clear();
        }
        if let Some(Obstacle::Empty { empty, all }) = outcome.obstacle {
            ui.label(muted(scene.palette, words.check_empty(empty, all)));
        }
    });
    let [repeatability, lacing] = found;
    match answer {
        Some(Answer::Leave) => check.finish(scene.session, scene.figures.unit),
        Some(Answer::Main) => {
            if repeatability.is_some() {
                scene.ask(Action::Edit(Edit::SetRepeatability(repeatability)));
            }
            if lacing.is_some() {
                scene.ask(Action::Edit(Edit::SetLacingScatter(lacing)));
            }
            check.clear();
        }
        Some(Answer::Lose) | None => return,
    }
    scene.ask(Action::Show(Box::new(Dialog::Gauge(Box::default()))));
}
