//! Cells that are typed like the readings: Enter and Tab go on, arrows go
//! where they point, a table pasted from a spreadsheet fills what follows.

use crate::window::state::sheet::Shape;
use crate::window::state::sheet::SheetCell;
use crate::window::state::sheet::Typed;
use crate::window::state::sheet::Typing;
use eframe::egui::{self, FocusDirection, Id, Key, Modifiers, Response, Ui};

use crate::splice::Cell;

use crate::window::views::Scene;
use crate::window::views::entry::cells::{editing_text, select_all, shown_text, take_pasted_table};
use crate::window::views::widgets::grid_field;

/// How a cell is drawn.
pub struct Look<'a> {
    /// Tells the sheet from others.
    pub salt: &'static str,
    /// The cell's name for screen readers.
    pub name: &'a str,
    /// Its width.
    pub width: f32,
    /// Whether something is wrong with it.
    pub odd: bool,
}

/// Draws one cell and takes what is typed into it.
pub fn cell(
    ui: &mut Ui,
    scene: &Scene<'_>,
    typing: &mut Typing,
    (shape, at): (Shape, SheetCell),
    held: &Cell,
    look: &Look<'_>,
) -> (Response, Option<Typed>) {
    let palette = scene.palette;
    let id = Id::unique((look.salt, at.row, at.column));
    if typing.next == Some(at) {
        // Asked again until it was granted: a dialog that has just come up
        // does not keep the keyboard given to it in its first frame.
        if ui.memory(|memory| memory.has_focus(id)) {
            typing.next = None;
        } else {
            ui.memory_mut(|memory| memory.request_focus(id));
            ui.ctx().request_repaint();
        }
    }
    let focused = ui.memory(|memory| memory.has_focus(id));
    let mine = |typing: &Typing| matches!(&typing.now, Some((place, _, _)) if *place == at);
    // The keyboard may have gone without a word; what was typed is not lost.
    let stale = mine(typing) && !focused;
    let fresh = !matches!(&typing.now, Some((_, _, touched)) if *touched);
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
        Some((place, text, _)) if *place == at => text.clone(),
        _ => shown_text(scene, held),
    };
    let before = text.clone();
    let wrong = look.odd || matches!(held, Cell::Unreadable(_));
    let response = grid_field(ui, palette, id, &mut text, look.width, wrong);
    let value = text.clone();
    response.widget_info(|| {
        let mut info = egui::WidgetInfo::text_edit(true, &before, &value, "");
        info.label = Some(look.name.to_owned());
        info
    });
    let mut typed = if stale { typing.finish() } else { None };
    if response.gained_focus() || (focused && !mine(typing)) {
        typing.next = typing.next.filter(|next| *next == at);
        typed = typing.finish().or(typed);
        let offered = editing_text(scene, held);
        select_all(ui, id, &offered);
        typing.now = Some((at, offered, false));
    } else if let Some((_, kept, touched)) = &mut typing.now
        && focused
        && text != before
    {
        *kept = text;
        *touched = true;
    }
    let leaving = response.lost_focus() || step.is_some() || pasted.is_some();
    if leaving && mine(typing) {
        typed = typing.finish().filter(|_| step != Some(Step::Cancel));
    }
    if let Some(rows) = pasted {
        typed = Some(Typed::Table(at, rows));
    }
    if let Some(Step::To(next)) = step {
        typing.next = Some(next);
        ui.ctx().request_repaint();
    }
    if focused && step.is_none() && ui.input(|input| input.key_pressed(Key::Escape)) {
        ui.memory_mut(|memory| memory.surrender_focus(id));
    }
    (response, typed)
}

/// Where the keyboard goes from a cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Step {
    To(SheetCell),
    Cancel,
    /// Out of the sheet, to what stands after or before it.
    Out(FocusDirection),
}

/// Takes the keys that move between cells before the text field sees them.
fn keys(ui: &Ui, shape: Shape, at: SheetCell, fresh: bool) -> Option<Step> {
    ui.input_mut(|input| {
        let mut taken = |modifiers, key| input.consume_key(modifiers, key);
        let to = |place| Some(Step::To(place));
        let beyond = |place: SheetCell, way| {
            Some(if place == at {
                Step::Out(way)
            } else {
                Step::To(place)
            })
        };
        if taken(Modifiers::SHIFT, Key::Tab) {
            return beyond(shape.along(at, false), FocusDirection::Previous);
        }
        if taken(Modifiers::SHIFT, Key::Enter) {
            return to(shape.enter(at, false));
        }
        if taken(Modifiers::NONE, Key::Enter) {
            return to(shape.enter(at, true));
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
