//! Cells that readings are typed into: Enter and Tab go on, arrows go where
//! they point, a table pasted from a spreadsheet fills what follows, and a
//! gauge that types like a keyboard needs nothing else.

use eframe::egui::{self, Event, FocusDirection, Id, Key, Modifiers, Response, TextEdit, Ui};

use crate::press::LengthQuantity;
use crate::splice::Cell;
use crate::window::state::grid::{Editing, GridCell, Shape, Typed, Typing};

use crate::window::views::Scene;
use crate::window::views::widgets::grid_field;

/// How a cell is drawn.
pub struct Look<'a> {
    /// Tells the grid from others.
    pub salt: &'static str,
    /// The cell's name for screen readers.
    pub name: &'a str,
    /// Its width.
    pub width: f32,
    /// Whether something is wrong with it.
    pub odd: bool,
    /// Whether what it holds is hidden while the keyboard is elsewhere.
    pub hidden: bool,
    /// Whether it keeps the keyboard though the pointer is pressed elsewhere.
    pub keeps: bool,
}

/// What came of a cell in this frame.
pub struct Entered {
    /// Its text field.
    pub response: Response,
    /// What was typed or pasted, into this cell or the one left for it.
    pub typed: Option<Typed>,
    /// Whether the keyboard left by Escape, with nothing typed to give up.
    pub away: bool,
}

/// The text field of a cell.
pub fn id_of(salt: &'static str, at: GridCell) -> Id {
    Id::unique((salt, at.row, at.column))
}

/// Draws one cell and takes what is typed into it.
pub fn cell(
    ui: &mut Ui,
    scene: &Scene<'_>,
    typing: &mut Typing,
    (shape, at): (Shape, GridCell),
    held: &Cell,
    look: &Look<'_>,
) -> Entered {
    let id = id_of(look.salt, at);
    if typing.next == Some(at) {
        take_keyboard(ui, scene, typing, id);
    }
    let focused = ui.memory(|memory| memory.has_focus(id));
    // The keyboard may have gone without a word; what was typed is not lost.
    let stale = typing.is_at(at) && !focused;
    let fresh = !typing.is_touched();
    let (pasted, step) = if focused {
        let pasted = ui.input_mut(take_pasted_table);
        let step = keys(ui, shape, at, fresh);
        if let Some(Step::Out(direction)) = step {
            // The field, drawn next, hands the keyboard on.
            ui.memory_mut(|memory| memory.move_focus(direction));
        }
        (pasted, step)
    } else {
        (None, None)
    };
    let mut text = match &typing.now {
        Some(now) if now.at == at => now.text.clone(),
        _ => shown_text(scene, held),
    };
    let before = text.clone();
    let wrong = look.odd || held.is_unreadable();
    let hidden = look.hidden && !focused;
    let manner = (wrong, hidden);
    let response = grid_field(ui, scene.palette, id, &mut text, look.width, manner);
    if focused && look.keeps {
        ui.memory_mut(|memory| memory.request_focus(id));
    }
    let value = text.clone();
    response.widget_info(|| {
        let shown = |text| if hidden { "•••" } else { text };
        let mut info = egui::WidgetInfo::text_edit(true, shown(&before), shown(&value), "");
        info.label = Some(look.name.to_owned());
        info
    });
    let unreadable = match &typing.now {
        Some(now) if now.at == at => false,
        _ => held.is_unreadable(),
    };
    if unreadable {
        ui.ctx().accesskit_node_builder(response.id, |node| {
            node.set_invalid(egui::accesskit::Invalid::True);
        });
    }
    let mut typed = if stale { typing.finish() } else { None };
    if !focused && text != before {
        // A screen reader has set it without going there.
        typed = Some(Typed::One(at, value.clone()));
    }
    // Keys of the keypad may have typed before the keyboard came.
    let going_on = typing.is_at(at) && typing.is_touched();
    // The keyboard may be promised to another cell and still be here.
    let promised = typing.next.is_some_and(|next| next != at);
    if (response.gained_focus() && !going_on) || (focused && !typing.is_at(at) && !promised) {
        typing.next = typing.next.filter(|next| *next == at);
        typed = typing.finish().or(typed);
        // What was typed comes back for editing, its unit included where it
        // is not the one on show.
        let text = editing_text(scene, held);
        select_all(ui, id, &text);
        typing.now = Some(Editing {
            at,
            text,
            touched: false,
        });
    } else if let Some(now) = &mut typing.now
        && focused
        && text != before
    {
        now.text = text;
        now.touched = true;
    }
    let leaving = response.lost_focus() || step.is_some() || pasted.is_some();
    if leaving && typing.is_at(at) {
        typed = typing.finish().filter(|_| step != Some(Step::Cancel));
    }
    if let Some(rows) = pasted {
        typed = Some(Typed::Table(at, rows));
    }
    // What is no thickness keeps the keyboard: what is typed next takes its
    // place, not that of a good reading.
    let next = match step {
        Some(Step::On(_)) if is_refused(scene, typed.as_ref()) => Some(at),
        Some(Step::On(next) | Step::To(next)) => Some(next),
        _ => None,
    };
    if next.is_some() {
        typing.next = next;
        ui.ctx().request_repaint();
    }
    let away = focused && step.is_none() && ui.input(|input| input.key_pressed(Key::Escape));
    if away {
        ui.memory_mut(|memory| memory.surrender_focus(id));
    }
    Entered {
        response,
        typed,
        away,
    }
}

/// Whether what was typed is no thickness.
pub fn is_refused(scene: &Scene<'_>, typed: Option<&Typed>) -> bool {
    let Some(Typed::One(_, text)) = typed else {
        return false;
    };
    Cell::typed(LengthQuantity::Reading, text, scene.figures.unit).is_unreadable()
}

/// Gives a cell the keyboard it was promised. Asked again until it is granted:
/// a dialog keeps the keyboard for one more frame after it has closed, and what
/// has just come on show does not keep it in its first one.
fn take_keyboard(ui: &Ui, scene: &Scene<'_>, typing: &mut Typing, id: Id) {
    if ui.memory(|memory| memory.has_focus(id)) {
        typing.next = None;
        return;
    }
    let above = ui.memory(|memory| memory.is_above_modal_layer(ui.layer_id()));
    if above && ui.is_enabled() && ui.is_visible() {
        ui.memory_mut(|memory| memory.request_focus(id));
    }
    if scene.view.dialog.is_none() {
        ui.ctx().request_repaint();
    }
}

/// Where the keyboard goes from a cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Step {
    /// Further, once what was typed is taken.
    On(GridCell),
    /// There, whatever was typed.
    To(GridCell),
    Cancel,
    /// Out of the sheet, to what stands after or before it.
    Out(FocusDirection),
}

/// Takes the keys that move between cells before the text field sees them.
fn keys(ui: &Ui, shape: Shape, at: GridCell, fresh: bool) -> Option<Step> {
    ui.input_mut(|input| {
        let mut taken = |modifiers, key| input.consume_key(modifiers, key);
        let to = |place| Some(Step::To(place));
        let beyond = |place: GridCell, way| {
            Some(if place == at {
                Step::Out(way)
            } else {
                Step::On(place)
            })
        };
        let on = |place| Some(Step::On(place));
        if taken(Modifiers::SHIFT, Key::Tab) {
            return beyond(shape.along(at, false), FocusDirection::Previous);
        }
        if taken(Modifiers::SHIFT, Key::Enter) {
            return on(shape.enter(at, false));
        }
        if taken(Modifiers::NONE, Key::Enter) {
            return on(shape.enter(at, true));
        }
        if taken(Modifiers::NONE, Key::Tab) {
            return beyond(shape.along(at, true), FocusDirection::Next);
        }
        if taken(Modifiers::NONE, Key::ArrowDown) {
            return to(shape.enter(at, true));
        }
        if taken(Modifiers::NONE, Key::ArrowUp) {
            return to(shape.enter(at, false));
        }
        if fresh && taken(Modifiers::NONE, Key::ArrowRight) {
            return to(shape.along(at, true));
        }
        if fresh && taken(Modifiers::NONE, Key::ArrowLeft) {
            return to(shape.along(at, false));
        }
        // With nothing typed to give up, it closes the dialog around.
        (!fresh && taken(Modifiers::NONE, Key::Escape)).then_some(Step::Cancel)
    })
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

/// Selects the name in a field's path, without folder and ending.
pub fn select_name(ui: &Ui, id: Id, path: &str) {
    let name = path.rfind(['/', '\\']).map_or(0, |slash| slash + 1);
    let end = path.rfind('.').filter(|end| *end > name);
    let letters = |bytes: usize| path.get(..bytes).map_or(0, |text| text.chars().count());
    select(ui, id, letters(name), letters(end.unwrap_or(path.len())));
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
/// that goes without saying. A reading typed in the unit that is not on show
/// stands in the one on show, as before the cell was entered; as long as nothing
/// is typed, what was typed stays.
pub fn editing_text(scene: &Scene<'_>, cell: &Cell) -> String {
    let text = cell.text();
    let mark = scene.figures.unit.mark();
    match cell {
        Cell::Reading(reading) if reading.typed.unit() != scene.figures.unit => {
            shown_text(scene, cell)
        }
        _ => text
            .strip_suffix(mark)
            .map_or(text, str::trim_end)
            .to_owned(),
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
