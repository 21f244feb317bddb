//! The readings grid, made for speed.
//!
//! Enter goes down to the next station, Tab to the next repeat, arrows go
//! where they point; a table pasted from a spreadsheet fills the cells from
//! the chosen one on; a gauge that types like a keyboard needs nothing else.

use eframe::egui::{
    self, Event, Id, Key, Modifiers, RichText, Role, TextEdit, Ui, Vec2, WidgetInfo,
};

use crate::session::{Edit, Pass};
use crate::splice::Cell;
use crate::window::action::Action;
use crate::window::state::Editing;
use crate::window::theme::{self, TARGET, size};

use super::Scene;
use super::marks::Place as At;
use super::widgets::{button, grid_field, muted, title};

/// Fewest repeat columns on show.
const LEAST_COLUMNS: usize = 2;

/// Width of a cell, least and most; of an arm's name and of a mean.
const CELL_WIDTH: (f32, f32) = (62.0, 92.0);
const NAME_WIDTH: f32 = 32.0;
const MEAN_WIDTH: f32 = 64.0;

/// Distance between the columns of the grid.
const COLUMN_GAP: f32 = 5.0;

/// How many repeat columns fit; the rest is a step away.
fn most_columns(width: f32) -> usize {
    let room = width - NAME_WIDTH - MEAN_WIDTH - COLUMN_GAP;
    ((room / (CELL_WIDTH.0 + COLUMN_GAP)) as usize).max(LEAST_COLUMNS)
}

/// Draws the card's contents.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let Some((index, pass)) = scene
        .outlook
        .pass
        .and_then(|index| Some((index, scene.session.passes.get(index)?)))
    else {
        title(ui, words.readings());
        ui.label(words.nothing_laced_next());
        if button(ui, words.first_pass()).clicked() {
            scene.ask(Action::LaceAgain);
        }
        return;
    };
    title(ui, &words.readings_of_pass(index + 1));
    let step = scene.figures.plain(scene.session.gauge.step.length());
    let line = words.gauge_line(gauge_name(scene), step);
    super::gauge::strip(ui, scene, line);
    super::guided::openers(ui, scene);
    let columns = Columns::of(pass, scene, most_columns(ui.available_width()));
    columns.pager(ui, scene);
    grid(ui, scene, index, pass, &columns);
    super::doubts::show(ui, scene, index);
    super::marks::lines(ui, scene, index);
    super::belt::show(ui, scene, index);
}

fn gauge_name(scene: &Scene<'_>) -> String {
    let name = &scene.session.gauge.name;
    if name.is_empty() {
        scene.words().gauge().to_owned()
    } else {
        name.clone()
    }
}

/// Which repeats are on show.
struct Columns {
    first: usize,
    count: usize,
    all: usize,
}

impl Columns {
    fn of(pass: &Pass, scene: &Scene<'_>, most: usize) -> Self {
        let used = pass.rows.iter().map(Vec::len).max().unwrap_or(0);
        let full = used > 0 && pass.rows.iter().all(|row| row.len() >= used);
        let editing = scene
            .view
            .editing
            .as_ref()
            .map_or(0, |editing| editing.repeat + 1);
        let all = (used + usize::from(full && used < most))
            .max(LEAST_COLUMNS)
            .max(editing);
        let count = all.min(most);
        let first = scene.view.first_repeat.min(all - count);
        Self { first, count, all }
    }

    fn shown(&self) -> std::ops::Range<usize> {
        self.first..self.first + self.count
    }

    /// Steps through the repeats where they do not all fit.
    fn pager(&self, ui: &mut Ui, scene: &mut Scene<'_>) {
        if self.all <= self.count {
            return;
        }
        let words = scene.words();
        ui.horizontal(|ui| {
            let back = ui.add_enabled(
                self.first > 0,
                egui::Button::new("◀").min_size(Vec2::splat(TARGET)),
            );
            back.widget_info(|| WidgetInfo::labeled(Role::Button, true, words.earlier_repeats()));
            if back.clicked() {
                scene.view.first_repeat = self.first.saturating_sub(1);
            }
            ui.label(words.repeats_shown(self.first + 1, self.first + self.count, self.all));
            let more = self.first + self.count < self.all;
            let on = ui.add_enabled(more, egui::Button::new("▶").min_size(Vec2::splat(TARGET)));
            on.widget_info(|| WidgetInfo::labeled(Role::Button, more, words.later_repeats()));
            if on.clicked() {
                scene.view.first_repeat = self.first + 1;
            }
        });
    }
}

fn grid(ui: &mut Ui, scene: &mut Scene<'_>, index: usize, pass: &Pass, columns: &Columns) {
    let palette = scene.palette;
    let words = scene.words();
    let (name_width, mean_width) = (NAME_WIDTH, MEAN_WIDTH);
    let room = ui.available_width() - name_width - mean_width - COLUMN_GAP;
    let cell_width = (room / columns.count as f32 - COLUMN_GAP).clamp(CELL_WIDTH.0, CELL_WIDTH.1);
    let profile = pass.profile();
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
                    mean = mean.on_hover_text(words.exactly(exact));
                }
                super::marks::station(ui, scene, station, &mean);
                ui.end_row();
            }
        });
}

/// The text field of a cell.
fn id_of(at: At) -> Id {
    Id::unique(("reading", at.station, at.repeat))
}

fn cell(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    pass: &Pass,
    at: At,
    (width, columns): (f32, &Columns),
) {
    let palette = scene.palette;
    let id = id_of(at);
    let entered = pass.cell(at.station, at.repeat);
    let mine = |editing: &Editing| {
        (editing.pass, editing.station, editing.repeat) == (at.pass, at.station, at.repeat)
    };
    if scene.view.wants_focus == Some((at.station, at.repeat)) {
        // A dialog keeps the keyboard for one more frame after it has closed.
        if ui.memory(|memory| memory.is_above_modal_layer(ui.layer_id())) {
            scene.view.wants_focus = None;
            ui.memory_mut(|memory| memory.request_focus(id));
        } else if scene.view.dialog.is_none() {
            ui.ctx().request_repaint();
        }
    }
    let focused = ui.memory(|memory| memory.has_focus(id));
    let mut editing = scene
        .view
        .editing
        .take()
        .filter(mine_or_other(focused, mine));
    let step = if focused {
        keys(ui, scene, at, columns.all, editing.as_ref())
    } else {
        None
    };
    let mut text = match &editing {
        Some(editing) if mine(editing) => editing.text.clone(),
        _ => shown_text(scene, entered),
    };
    let before = text.clone();
    let odd = scene.outlook.gate.doubt_at(at.station, at.repeat).is_some();
    let response = grid_field(ui, palette, id, &mut text, width, odd);
    let label = scene
        .words()
        .reading_label(at.repeat + 1, scene.session.station_name(at.station));
    let value = text.clone();
    response.widget_info(|| {
        let mut info = WidgetInfo::text_edit(true, &before, &value, "");
        info.label = Some(label.clone());
        info
    });
    super::marks::cell(ui, scene, at, entered, &response);
    if response.gained_focus() || (focused && editing.is_none()) {
        // What was typed comes back for editing, its unit included where it
        // is not the one on show.
        text = editing_text(scene, entered);
        select_all(ui, id, &text);
        editing = Some(Editing {
            pass: at.pass,
            station: at.station,
            repeat: at.repeat,
            text: text.clone(),
            touched: false,
        });
    } else if let Some(editing) = editing.as_mut().filter(|editing| mine(editing))
        && text != before
    {
        editing.touched = true;
        editing.text = text;
    }
    let leaving = response.lost_focus() || step.is_some();
    if leaving && editing.as_ref().is_some_and(mine) {
        let done = editing.take();
        let cancelled = matches!(step, Some(Step::Cancel));
        if let Some(done) = done.filter(|done| done.touched && !cancelled) {
            scene.ask(Action::Edit(Edit::Enter {
                pass: at.pass,
                station: at.station,
                repeat: at.repeat,
                text: done.text,
                bare: scene.figures.unit,
            }));
        }
    }
    scene.view.editing = editing;
    if let Some(Step::To(station, repeat)) = step {
        scene.view.wants_focus = Some((station, repeat));
        let first = scene.view.first_repeat;
        if repeat < first {
            scene.view.first_repeat = repeat;
        } else if repeat >= first + columns.count {
            scene.view.first_repeat = repeat + 1 - columns.count;
        }
        ui.ctx().request_repaint();
    }
}

/// Keeps the editing state of another cell; drops one of this cell that has
/// lost the keyboard without being told.
fn mine_or_other(focused: bool, mine: impl Fn(&Editing) -> bool) -> impl Fn(&Editing) -> bool {
    move |editing| focused || !mine(editing) || editing.touched
}

/// Where the keyboard goes from a cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Step {
    To(usize, usize),
    Stay,
    Cancel,
}

/// Takes the keys that move between cells before the text field sees them.
fn keys(
    ui: &Ui,
    scene: &mut Scene<'_>,
    at: At,
    columns: usize,
    editing: Option<&Editing>,
) -> Option<Step> {
    let last = scene.session.stations.len().saturating_sub(1);
    let fresh = editing.is_none_or(|editing| !editing.touched);
    let pasted = ui.input_mut(take_pasted_table);
    if let Some(rows) = pasted {
        scene.ask(Action::Edit(Edit::Fill {
            pass: at.pass,
            station: at.station,
            repeat: at.repeat,
            rows,
            bare: scene.figures.unit,
        }));
        return Some(Step::Cancel);
    }
    let down = if at.station < last {
        Step::To(at.station + 1, at.repeat)
    } else {
        Step::To(0, at.repeat + 1)
    };
    let up = match (at.station, at.repeat) {
        (0, 0) => Step::Stay,
        (0, repeat) => Step::To(last, repeat - 1),
        (station, repeat) => Step::To(station - 1, repeat),
    };
    let right = if at.repeat + 1 < columns {
        Step::To(at.station, at.repeat + 1)
    } else if at.station < last {
        Step::To(at.station + 1, 0)
    } else {
        Step::To(0, at.repeat + 1)
    };
    let left = match (at.station, at.repeat) {
        (0, 0) => Step::Stay,
        (station, 0) => Step::To(station - 1, columns - 1),
        (station, repeat) => Step::To(station, repeat - 1),
    };
    ui.input_mut(|input| {
        let mut taken = |modifiers, key| input.consume_key(modifiers, key);
        if taken(Modifiers::SHIFT, Key::Tab) {
            return Some(left);
        }
        if taken(Modifiers::SHIFT, Key::Enter) {
            return Some(up);
        }
        if taken(Modifiers::NONE, Key::Enter) {
            return Some(down);
        }
        if taken(Modifiers::NONE, Key::Tab) {
            return Some(right);
        }
        if taken(Modifiers::NONE, Key::ArrowDown) {
            return Some(down);
        }
        if taken(Modifiers::NONE, Key::ArrowUp) {
            return Some(up);
        }
        if fresh && taken(Modifiers::NONE, Key::ArrowRight) {
            return Some(right);
        }
        if fresh && taken(Modifiers::NONE, Key::ArrowLeft) {
            return Some(left);
        }
        taken(Modifiers::NONE, Key::Escape).then_some(Step::Cancel)
    })
}

/// Takes a pasted table out of the input; a single value is left to the text
/// field.
pub(super) fn take_pasted_table(input: &mut egui::InputState) -> Option<Vec<Vec<String>>> {
    let mut found = None;
    input.events.retain(|event| match event {
        Event::Paste(text) if found.is_none() => {
            found = table(text);
            found.is_none()
        }
        _ => true,
    });
    found
}

/// Rows of a pasted text: lines, cells parted by tabs or semicolons. `None`
/// for a single value.
fn table(text: &str) -> Option<Vec<Vec<String>>> {
    let rows: Vec<Vec<String>> = text
        .trim_end_matches(['\r', '\n'])
        .lines()
        .map(|line| {
            line.split(['\t', ';'])
                .map(|cell| cell.trim().to_owned())
                .collect()
        })
        .collect();
    let cells: usize = rows.iter().map(Vec::len).sum();
    (cells > 1).then_some(rows)
}

pub(super) fn select_all(ui: &Ui, id: Id, text: &str) {
    let mut state = TextEdit::load_state(ui.ctx(), id).unwrap_or_default();
    let range = egui::text::CCursorRange::two(
        egui::text::CCursor::new(0),
        egui::text::CCursor::new(text.chars().count()),
    );
    state.cursor.set_char_range(Some(range));
    TextEdit::store_state(ui.ctx(), id, state);
}

/// What an idle cell shows: the thickness in the unit on show, with every
/// digit that was typed.
pub(super) fn shown_text(scene: &Scene<'_>, cell: &Cell) -> String {
    match cell {
        Cell::Reading(reading) => scene.figures.reading_as_typed(&reading.typed),
        other => other.text().to_owned(),
    }
}

/// What a cell offers for editing: the text as it was typed, without a unit
/// that goes without saying.
pub(super) fn editing_text(scene: &Scene<'_>, cell: &Cell) -> String {
    let text = cell.text();
    let mark = scene.figures.unit.mark();
    match cell {
        Cell::Reading(reading) if reading.typed.unit() == scene.figures.unit => text
            .strip_suffix(mark)
            .map_or(text, str::trim_end)
            .to_owned(),
        _ => text.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::table;

    #[test]
    fn a_spreadsheet_becomes_rows() {
        let rows = table("0.25\t0.26\r\n0.27\t\r\n").unwrap();
        assert_eq!(rows, [["0.25", "0.26"], ["0.27", ""]]);
        assert_eq!(table("0.25"), None);
        assert_eq!(table("0.25\n"), None);
        assert_eq!(table("6,29;6,30").unwrap(), [["6,29", "6,30"]]);
    }
}
