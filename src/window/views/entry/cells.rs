//! The cells of the readings grid: what is typed into them, by keyboard,
//! keypad or a gauge, and where the keyboard goes from them.

use eframe::egui::{
    self, Event, FocusDirection, Id, Key, Modifiers, RichText, TextEdit, Ui, WidgetInfo,
};

use crate::press::CountQuantity;
use crate::session::{Edit, Pass};
use crate::splice::Cell;
use crate::window::action::Action;
use crate::window::state::Editing;
use crate::window::theme::{self, size};

use crate::window::views::Scene;
use crate::window::views::entry::keypad;
use crate::window::views::entry::marks::MarkedCell as At;
use crate::window::views::entry::readings::Columns;
use crate::window::views::widgets::{choice, grid_field};

/// Most repeats there can be.
pub fn most_repeats() -> usize {
    usize::try_from(CountQuantity::Repeats.bounds().most).unwrap_or(usize::MAX)
}

/// The text field of a cell.
fn id_of(at: At) -> Id {
    Id::unique(("reading", at.station, at.repeat))
}

/// Draws a cell, as wide as said, and takes what is typed into it.
pub fn cell(
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
        // A dialog keeps the keyboard for one more frame after it has closed,
        // and a grid that has just come on show measures itself in its first.
        let free = ui.memory(|memory| memory.is_above_modal_layer(ui.layer_id()));
        if free && ui.is_enabled() && ui.is_visible() {
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
    if focused && keypad::is_pressed(ui, scene.view.keypad) {
        ui.memory_mut(|memory| memory.request_focus(id));
    }
    let label = scene
        .words()
        .reading_label(at.repeat + 1, scene.session.station_name(at.station));
    let value = text.clone();
    response.widget_info(|| {
        let mut info = WidgetInfo::text_edit(true, &before, &value, "");
        info.label = Some(label.clone());
        info
    });
    crate::window::views::entry::marks::cell(ui, scene, at, entered, &response);
    if response.gained_focus() && ui.input(egui::InputState::has_touch_screen) {
        scene.view.keypad.open = true;
    }
    let typed_on = |editing: &Editing| mine(editing) && editing.touched;
    if (response.gained_focus() || (focused && editing.is_none()))
        && !editing.as_ref().is_some_and(typed_on)
    {
        // The keyboard may have come here before the other cell could tell.
        keep_typed(scene, editing.take());
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
        let cancelled = matches!(step, Some(Step::Cancel));
        keep_typed(scene, editing.take().filter(|_| !cancelled));
    }
    scene.view.editing = editing;
    match step {
        Some(Step::To(station, repeat)) => go_to(ui, scene, columns, (station, repeat)),
        Some(Step::Away) => {
            ui.memory_mut(|memory| memory.surrender_focus(id));
            scene.view.keypad.wants_focus = true;
        }
        _ => {}
    }
}

/// Takes what was typed into a cell into the session.
pub fn keep_typed(scene: &mut Scene<'_>, typed: Option<Editing>) {
    if let Some(typed) = typed.filter(|typed| typed.touched) {
        scene.ask(Action::Edit(Edit::Enter {
            pass: typed.pass,
            station: typed.station,
            repeat: typed.repeat,
            text: typed.text,
            bare: scene.figures.unit,
        }));
    }
}

/// Gives a cell the keyboard at the next frame, and brings its column on show.
fn go_to(ui: &Ui, scene: &mut Scene<'_>, columns: &Columns, (station, repeat): (usize, usize)) {
    scene.view.wants_focus = Some((station, repeat));
    let first = scene.view.first_repeat;
    if repeat < first {
        scene.view.first_repeat = repeat;
    } else if repeat >= first + columns.count {
        scene.view.first_repeat = repeat + 1 - columns.count;
    }
    ui.ctx().request_repaint();
}

/// The button that shows the keypad, and the keypad.
pub fn keypad_of(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    (index, pass): (usize, &Pass),
    columns: &Columns,
) {
    let words = scene.words();
    let open = scene.view.keypad.open;
    let show = choice(ui, scene.palette, open, words.keypad());
    if std::mem::take(&mut scene.view.keypad.wants_focus) {
        show.request_focus();
    }
    if show.on_hover_text(words.keypad_hint()).clicked() {
        scene.view.keypad.open = !open;
        scene.view.keypad.place = None;
        if !open {
            let (station, repeat) = first_unread(pass, scene.session.stations.len());
            go_to(ui, scene, columns, (station, repeat));
        }
    }
    if !open || scene.view.guided.is_some() {
        return;
    }
    let keys = ui.vertical(|ui| {
        typed_so_far(ui, scene);
        keypad::show(ui, scene)
    });
    scene.view.keypad.place = Some(keys.response.rect);
    if let Some(key) = keys.inner {
        key_pressed(ui, scene, (index, pass), columns, key);
    }
}

/// Which cell the keys type into, and what stands in it: the cell itself may
/// be out of sight.
fn typed_so_far(ui: &mut Ui, scene: &Scene<'_>) {
    let text = scene
        .view
        .editing
        .as_ref()
        .map_or(String::new(), |editing| {
            let name = scene.session.station_name(editing.station);
            let label = scene.words().reading_label(editing.repeat + 1, name);
            format!("{label}: {}", editing.text)
        });
    ui.add(egui::Label::new(RichText::new(text).font(theme::bold(size::BODY))).truncate());
}

fn key_pressed(
    ui: &Ui,
    scene: &mut Scene<'_>,
    (index, pass): (usize, &Pass),
    columns: &Columns,
    key: keypad::Key,
) {
    let stations = scene.session.stations.len();
    let editing = scene.view.editing.take().unwrap_or_else(|| {
        let (station, repeat) = first_unread(pass, stations);
        Editing {
            pass: index,
            station,
            repeat,
            text: editing_text(scene, pass.cell(station, repeat)),
            touched: false,
        }
    });
    let at = At {
        pass: editing.pass,
        station: editing.station,
        repeat: editing.repeat,
    };
    if key == keypad::Key::Next {
        keep_typed(scene, Some(editing));
        if let Step::To(station, repeat) = below(at, stations) {
            go_to(ui, scene, columns, (station, repeat));
        }
        return;
    }
    let text = keypad::after(&editing.text, key, !editing.touched, scene.words());
    place_cursor(ui, id_of(at), text.chars().count());
    scene.view.editing = Some(Editing {
        text,
        touched: true,
        ..editing
    });
    go_to(ui, scene, columns, (at.station, at.repeat));
}

/// The first cell of a pass that is not read, down the stations first.
fn first_unread(pass: &Pass, stations: usize) -> (usize, usize) {
    (0..most_repeats())
        .flat_map(|repeat| (0..stations).map(move |station| (station, repeat)))
        .find(|(station, repeat)| *pass.cell(*station, *repeat) == Cell::Empty)
        .unwrap_or_default()
}

/// Where Enter goes from a cell.
fn below(at: At, stations: usize) -> Step {
    if at.station + 1 < stations {
        Step::To(at.station + 1, at.repeat)
    } else if at.repeat + 1 < most_repeats() {
        Step::To(0, at.repeat + 1)
    } else {
        Step::Stay
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
    /// To another cell.
    To(usize, usize),
    /// Nowhere: there is no such cell.
    Stay,
    /// Nowhere, and what was typed is given up.
    Cancel,
    /// Out of the grid, to what stands after or before it.
    Out(FocusDirection),
    /// Out of the grid, to what stands beside it.
    Away,
}

impl Step {
    fn inside(self) -> Self {
        match self {
            Self::Out(_) => Self::Stay,
            step => step,
        }
    }
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
    let down = below(at, scene.session.stations.len());
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
        Step::Out(FocusDirection::Next)
    };
    let left = match (at.station, at.repeat) {
        (0, 0) => Step::Out(FocusDirection::Previous),
        (station, 0) => Step::To(station - 1, columns - 1),
        (station, repeat) => Step::To(station, repeat - 1),
    };
    let step = ui.input_mut(|input| {
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
        // Arrows stay in the grid.
        if fresh && taken(Modifiers::NONE, Key::ArrowRight) {
            return Some(right.inside());
        }
        if fresh && taken(Modifiers::NONE, Key::ArrowLeft) {
            return Some(left.inside());
        }
        taken(Modifiers::NONE, Key::Escape).then_some(if fresh { Step::Away } else { Step::Cancel })
    });
    if let Some(Step::Out(direction)) = step {
        // The field, drawn next, hands the keyboard on.
        ui.memory_mut(|memory| memory.move_focus(direction));
    }
    step
}

/// Takes a pasted table out of the input; a single value is left to the text
/// field.
pub fn take_pasted_table(input: &mut egui::InputState) -> Option<Vec<Vec<String>>> {
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

/// Marks all of a field's text, so that what is typed takes its place.
pub fn select_all(ui: &Ui, id: Id, text: &str) {
    select(ui, id, 0, text.chars().count());
}

/// Puts the cursor of a field after so many characters.
pub fn place_cursor(ui: &Ui, id: Id, at: usize) {
    select(ui, id, at, at);
}

fn select(ui: &Ui, id: Id, from: usize, to: usize) {
    let mut state = TextEdit::load_state(ui.ctx(), id).unwrap_or_default();
    let range =
        egui::text::CCursorRange::two(egui::text::CCursor::new(from), egui::text::CCursor::new(to));
    state.cursor.set_char_range(Some(range));
    TextEdit::store_state(ui.ctx(), id, state);
}

/// What an idle cell shows: the thickness in the unit on show, with every
/// digit that was typed.
pub fn shown_text(scene: &Scene<'_>, cell: &Cell) -> String {
    match cell {
        Cell::Reading(reading) => scene.figures.reading_as_typed(&reading.typed),
        other => other.text().to_owned(),
    }
}

/// What a cell offers for editing: the text as it was typed, without a unit
/// that goes without saying.
pub fn editing_text(scene: &Scene<'_>, cell: &Cell) -> String {
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
