//! The cells of the readings grid: what is typed into them, by keyboard,
//! keypad or a gauge.

use eframe::egui::{self, Key, Modifiers, RichText, Ui};

use crate::session::{Edit, Pass};
use crate::splice::Cell;
use crate::window::action::Action;
use crate::window::practicing::PracticeWish;
use crate::window::state::MarkedCell as At;
use crate::window::state::grid::{Editing, GridCell, Order, Shape, Typed};
use crate::window::theme::{self, size};

use crate::window::views::Scene;
use crate::window::views::entry::columns::{self, Columns, most_repeats};
use crate::window::views::entry::grid::{self, Look, editing_text, place_cursor};
use crate::window::views::entry::{keypad, marks};
use crate::window::views::hint::Hint;
use crate::window::views::turning::lettering::first_fitting;
use crate::window::views::widgets::toggle;

/// What tells the grid of readings from others.
const READING: &str = "reading";

/// The cells of a pass, as many columns of them on show as said.
fn shape(scene: &Scene<'_>, columns: usize) -> Shape {
    Shape {
        rows: scene.session.stations.len(),
        columns,
        most_columns: most_repeats(),
        order: Order::Down,
    }
}

/// Draws a cell, as wide as said, and takes what is typed into it.
pub fn cell(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    pass: &Pass,
    at: At,
    (width, columns): (f32, &Columns),
) {
    let held = pass.cell(at.station, at.repeat);
    if scene.practicing.is_some() {
        by_acts(ui, scene, pass, at, width);
        return;
    }
    let name = scene
        .words()
        .reading_label(at.repeat + 1, scene.session.station_name(at.station));
    let look = Look {
        salt: READING,
        name: &name,
        width,
        odd: scene.outlook.gate.doubt_at(at.station, at.repeat).is_some(),
        hidden: false,
        keeps: keypad::is_pressed(ui, scene.view.keypad),
    };
    let place = GridCell {
        row: at.station,
        column: at.repeat,
    };
    let mut cells = std::mem::take(&mut scene.view.readings.cells);
    let shape = shape(scene, columns.all);
    let entered = grid::cell(ui, scene, &mut cells, (shape, place), held, &look);
    scene.view.readings.cells = cells;
    marks::cell(ui, scene, at, held, &entered.response);
    if entered.response.gained_focus() && ui.input(egui::InputState::has_touch_screen) {
        scene.view.keypad.open = true;
    }
    if entered.away {
        ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape));
        scene.view.keypad.wants_focus = true;
    }
    take(scene, at.pass, entered.typed);
}

/// A cell of an exercise: what was read, and a button that reads where the next
/// reading goes.
fn by_acts(ui: &mut Ui, scene: &mut Scene<'_>, pass: &Pass, at: At, width: f32) {
    let held = pass.cell(at.station, at.repeat);
    let words = scene.words();
    let size = egui::vec2(width, theme::TARGET);
    let read = pass.rows.get(at.station).map_or(0, Vec::len);
    if at.repeat == read && at.pass + 1 == scene.session.passes.len() {
        let name = words.practice_read(scene.session.station_name(at.station));
        let button = ui.add_sized(size, egui::Button::new(words.practice_take()));
        button.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &name));
        if button.clicked() {
            let wish = PracticeWish::Read(at.station);
            scene.ask(Action::Practice(wish));
        }
        return;
    }
    let shown = grid::shown_text(scene, held);
    let name = words.reading_label(at.repeat + 1, scene.session.station_name(at.station));
    let text = RichText::new(&shown).font(theme::regular(size::BODY));
    let response = ui.add_sized(size, egui::Label::new(text));
    let said = match shown.as_str() {
        "" => name,
        shown => format!("{name}: {shown}"),
    };
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, &said));
    marks::cell(ui, scene, at, held, &response);
}

/// Takes what was typed into the cells of a pass that is no longer on show, and
/// goes on with this one.
pub fn turn_to(scene: &mut Scene<'_>, pass: usize) {
    if let Some((pass, typed)) = scene.view.readings.turn_to(pass) {
        take(scene, pass, Some(typed));
    }
}

/// Takes what is being typed: its grid goes out of sight.
pub fn keep_typed(scene: &mut Scene<'_>) {
    let typing = &mut scene.view.readings;
    let (pass, typed) = (typing.pass, typing.cells.finish());
    take(scene, pass, typed);
}

/// Takes what was typed or pasted into the session.
fn take(scene: &mut Scene<'_>, pass: usize, typed: Option<Typed>) {
    let bare = scene.figures.unit;
    let edit = match typed {
        None => return,
        Some(Typed::One(at, text)) => Edit::enter((pass, at.row, at.column), text, bare),
        Some(Typed::Table(at, rows)) => Edit::fill((pass, at.row, at.column), rows, bare),
    };
    scene.ask(Action::Edit(edit));
}

/// The button that shows the keypad.
pub fn keypad_button(ui: &mut Ui, scene: &mut Scene<'_>, pass: &Pass) {
    let words = scene.words();
    let open = scene.view.keypad.open;
    let show = toggle(ui, scene.palette, open, words.keypad());
    if std::mem::take(&mut scene.view.keypad.wants_focus) {
        show.request_focus();
    }
    if show.hint(words.keypad_hint()).clicked() {
        scene.view.keypad.open = !open;
        scene.view.keypad.place = None;
        if !open {
            // Where all is read, no further reading is asked for.
            let asked = columns::asked_of(pass);
            let at = first_unread(pass, scene.session.stations.len());
            let chosen = || scene.view.readings.cells.now.as_ref().map(|now| now.at);
            let at = (at.column < asked).then_some(at).or_else(chosen);
            go_to(ui, scene, at.unwrap_or(GridCell { row: 0, column: 0 }));
        }
    }
}

/// The keypad's keys, each so high.
pub fn keys(ui: &mut Ui, scene: &mut Scene<'_>, of: (usize, &Pass), high: f32) {
    let now = scene.view.readings.cells.now.as_ref().map(|now| now.at);
    let next = now.map(|at| (at, shape(scene, most_repeats()).enter(at, true)));
    let next = next
        .filter(|(at, next)| at != next)
        .map(|(_, next)| next.row);
    let keys = ui.vertical(|ui| keypad::show(ui, scene, high, next));
    scene.view.keypad.place = Some(keys.response.rect);
    if let Some(key) = keys.inner {
        key_pressed(ui, scene, of, key);
    }
}

fn go_to(ui: &Ui, scene: &mut Scene<'_>, at: GridCell) {
    scene.view.readings.cells.go_to(at);
    ui.ctx().request_repaint();
}

/// Which cell the keys type into, and what stands in it: the cell itself may
/// be out of sight.
pub fn typed_so_far(ui: &mut Ui, scene: &Scene<'_>) {
    let now = scene.view.readings.cells.now.as_ref();
    let Some(now) = now else { return };
    let name = scene.session.station_name(now.at.row);
    let repeat = now.at.column + 1;
    let label = scene.words().reading_label(repeat, &name);
    let ways = [
        format!("{label}: {}", now.text),
        format!("{name}, {}: {}", scene.words().ordinal(repeat), now.text),
    ];
    let font = theme::bold(size::BODY);
    let ways = ways.map(|text| (text, font.clone())).to_vec();
    let room = ui.available_width();
    if let Some(laid) = first_fitting(ui, ways, scene.palette.ink, room) {
        ui.label(laid);
    }
}

fn key_pressed(ui: &Ui, scene: &mut Scene<'_>, (index, pass): (usize, &Pass), key: keypad::Key) {
    let now = scene.view.readings.cells.now.take();
    let now = now.unwrap_or_else(|| {
        let at = first_unread(pass, scene.session.stations.len());
        Editing {
            at,
            text: editing_text(scene, pass.cell(at.row, at.column)),
            touched: false,
        }
    });
    let at = now.at;
    if key == keypad::Key::Next {
        scene.view.readings.cells.now = Some(now);
        let typed = scene.view.readings.cells.finish();
        let refused = grid::is_refused(scene, typed.as_ref());
        take(scene, index, typed);
        let below = shape(scene, most_repeats()).enter(at, true);
        if below != at || refused {
            go_to(ui, scene, if refused { at } else { below });
        }
        return;
    }
    let text = keypad::after(&now.text, key, !now.touched);
    place_cursor(ui, grid::id_of(READING, at), text.chars().count());
    scene.view.readings.cells.now = Some(Editing {
        at,
        text,
        touched: true,
    });
    go_to(ui, scene, at);
}

/// The first cell of a pass that is not read, down the stations first.
fn first_unread(pass: &Pass, stations: usize) -> GridCell {
    (0..most_repeats())
        .flat_map(|column| (0..stations).map(move |row| GridCell { row, column }))
        .find(|at| *pass.cell(at.row, at.column) == Cell::Empty)
        .unwrap_or(GridCell { row: 0, column: 0 })
}
