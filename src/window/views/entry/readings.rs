//! The readings grid, made for speed.
//!
//! Enter goes down to the next station, Tab to the next repeat, arrows go
//! where they point; a table pasted from a spreadsheet fills the cells from
//! the chosen one on; a gauge that types like a keyboard needs nothing else.

use crate::window::views::entry::columns::Columns;
use crate::window::views::entry::columns::LEAST_COLUMNS;
use eframe::egui::{self, RichText, Ui, Vec2};

use crate::session::Pass;
use crate::window::theme::{self, TARGET, size};

use crate::window::state::MarkedCell as At;
use crate::window::views::Scene;
use crate::window::views::entry::cells::{cell, keypad_of, turn_to};
use crate::window::views::entry::keypad;
use crate::window::views::hint::Hint;
use crate::window::views::widgets::{muted, title};

/// Width of a cell, least and most; of an arm's name and of a mean.
const CELL_WIDTH: (f32, f32) = (62.0, 92.0);
const NAME_WIDTH: f32 = 32.0;
const MEAN_WIDTH: f32 = 64.0;

/// Distance between the columns of the grid.
const COLUMN_GAP: f32 = 5.0;

/// Width of the card from which the keypad stands beside the grid, and what it
/// takes of it there.
const KEYPAD_BESIDE: f32 = 560.0;
const KEYPAD_ROOM: f32 = keypad::WIDTH + 24.0;

/// Height of the window below which the readings come first.
const LOW: f32 = 660.0;

/// How many repeat columns fit; the rest is a step away.
fn most_columns(width: f32) -> usize {
    let room = width - NAME_WIDTH - MEAN_WIDTH - COLUMN_GAP;
    ((room / (CELL_WIDTH.0 + COLUMN_GAP)) as usize).max(LEAST_COLUMNS)
}

/// Draws the card's contents.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let session = scene.session;
    // Before the first pass its cells stand there already: the first reading
    // opens it.
    let unread = Pass::unread(session.start_nuts.clone(), session.stations.len());
    let index = scene.outlook.pass.unwrap_or(0);
    let pass = session.passes.get(index).unwrap_or(&unread);
    title(ui, &words.readings_of_pass(index + 1));
    if session.passes.is_empty() {
        ui.label(words.nothing_laced_next());
    }
    // In a low window the readings come before everything about them.
    let low = ui.ctx().content_rect().height() < LOW;
    if !low {
        about(ui, scene);
    }
    let by_hand = scene.practicing.is_none();
    let beside = by_hand && ui.available_width() >= KEYPAD_BESIDE;
    let room = if beside {
        ui.available_width() - KEYPAD_ROOM
    } else {
        ui.available_width()
    };
    turn_to(scene, index);
    let columns = Columns::of(pass, scene, most_columns(room));
    scene.view.first_repeat = columns.first;
    columns.pager(ui, scene);
    if beside {
        ui.horizontal_top(|ui| {
            ui.vertical(|ui| {
                ui.set_width(room);
                grid(ui, scene, index, pass, &columns);
            });
            ui.vertical(|ui| keypad_of(ui, scene, (index, pass)));
        });
    } else {
        grid(ui, scene, index, pass, &columns);
        if by_hand {
            keypad_of(ui, scene, (index, pass));
        }
    }
    if low {
        about(ui, scene);
    }
    crate::window::views::entry::doubts::show(ui, scene, index);
    crate::window::views::entry::marks::lines(ui, scene, index);
    if !session.passes.is_empty() {
        crate::window::views::forms::belt::show(ui, scene, index);
    }
}

/// What the readings are taken with, and other ways of taking them.
fn about(ui: &mut Ui, scene: &mut Scene<'_>) {
    let step = scene.figures.plain(scene.session.gauge.step.length());
    let words = scene.words();
    let line = match scene.practicing {
        Some(_) => words.gauge_reads(gauge_name(scene), step),
        None => words.gauge_line(gauge_name(scene), step),
    };
    crate::window::views::forms::gauge::strip(ui, scene, line);
    if scene.practicing.is_none() {
        crate::window::views::entry::guided::openers(ui, scene);
    } else {
        ui.label(muted(scene.palette, scene.words().practice_by_acts()));
    }
}

fn gauge_name(scene: &Scene<'_>) -> String {
    let name = &scene.session.gauge.name;
    if name.is_empty() {
        scene.words().gauge().to_owned()
    } else {
        name.clone()
    }
}

fn grid(ui: &mut Ui, scene: &mut Scene<'_>, index: usize, pass: &Pass, columns: &Columns) {
    let palette = scene.palette;
    let words = scene.words();
    let (name_width, mean_width) = (NAME_WIDTH, MEAN_WIDTH);
    let room = ui.available_width() - name_width - mean_width - COLUMN_GAP;
    let cell_width = (room / columns.count as f32 - COLUMN_GAP).clamp(CELL_WIDTH.0, CELL_WIDTH.1);
    let profile = scene.session.sound_profile(index);
    egui::Grid::new("readings grid")
        .num_columns(columns.count + 2)
        .spacing(Vec2::new(COLUMN_GAP, 4.0))
        .min_col_width(0.0)
        .show(ui, |ui| {
            ui.add_sized(
                [name_width, 20.0],
                egui::Label::new(muted(palette, words.column_arm())),
            );
            for repeat in columns.shown() {
                ui.add_sized(
                    [cell_width, 20.0],
                    egui::Label::new(muted(palette, words.ordinal(repeat + 1))),
                );
            }
            ui.add_sized(
                [mean_width, 20.0],
                egui::Label::new(muted(palette, words.column_mean())),
            );
            ui.end_row();
            for station in 0..scene.session.stations.len() {
                let name = scene.session.station_name(station);
                let large = if name.len() > 2 {
                    size::SMALL
                } else {
                    size::SENTENCE
                };
                ui.add_sized(
                    [name_width, TARGET],
                    egui::Label::new(RichText::new(name).font(theme::bold(large))),
                );
                for repeat in columns.shown() {
                    let at = At {
                        pass: index,
                        station,
                        repeat,
                    };
                    cell(ui, scene, pass, at, (cell_width, columns));
                }
                let exact = profile.mean(station);
                let mean = exact.map_or_else(|| "–".to_owned(), |mean| scene.figures.mean(mean));
                let mut mean = ui.add_sized(
                    [mean_width, TARGET],
                    egui::Label::new(RichText::new(mean).font(theme::bold(size::BODY))),
                );
                if let Some(exact) = exact {
                    let exact = scene.figures.exact_mean(exact);
                    mean = mean.hint(words.exactly(exact));
                }
                crate::window::views::entry::marks::station(ui, scene, station, &mean);
                ui.end_row();
            }
        });
}
