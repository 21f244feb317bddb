//! Cells that are typed like the readings: Enter and Tab go on, arrows go
//! where they point, a table pasted from a spreadsheet fills what follows.

use eframe::egui::{self, FocusDirection, Id, Key, Modifiers, Response, Ui};

use crate::splice::Cell;

use crate::window::views::Scene;
use crate::window::views::entry::cells::{editing_text, select_all, shown_text, take_pasted_table};
use crate::window::views::widgets::grid_field;

/// A place in a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct SheetCell {
    /// Row, from 0.
    pub row: usize,
    /// Column, from 0.
    pub column: usize,
}

/// Where Enter goes from a cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Order {
    /// To the row below; Tab goes to the right.
    Down,
    /// To the next cell of one long list, as does Tab.
    Along,
}

/// How large a sheet is and how it is walked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Shape {
    /// Rows.
    pub rows: usize,
    /// Columns.
    pub columns: usize,
    /// Where Enter goes.
    pub order: Order,
}

/// What somebody typed or pasted.
#[derive(Debug, Clone, PartialEq)]
pub enum Typed {
    /// One cell.
    One(SheetCell, String),
    /// A table, its first cell here.
    Table(SheetCell, Vec<Vec<String>>),
}

/// The cell being typed in, and the one to be typed in next.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Typing {
    now: Option<(SheetCell, String, bool)>,
    next: Option<SheetCell>,
}

impl Typing {
    /// Whether a cell has the keyboard.
    pub fn is_going_on(&self) -> bool {
        self.now.is_some()
    }

    /// What was typed and not yet left.
    pub fn finish(&mut self) -> Option<Typed> {
        let (at, text, touched) = self.now.take()?;
        touched.then_some(Typed::One(at, text))
    }

    /// Gives a cell the keyboard at the next frame.
    pub fn go_to(&mut self, at: SheetCell) {
        self.next = Some(at);
    }
}

impl Shape {
    /// The cells a pasted table fills, or none where it does not fit. A list
    /// takes rows and columns alike, one cell after the other.
    pub fn placed(
        self,
        from: SheetCell,
        rows: Vec<Vec<String>>,
    ) -> Option<Vec<(SheetCell, String)>> {
        let mut placed = Vec::new();
        match self.order {
            Order::Along => {
                let first = from.row * self.columns + from.column;
                for (index, text) in rows.into_iter().flatten().enumerate() {
                    placed.push((self.nth(first + index)?, text));
                }
            }
            Order::Down => {
                for (row, texts) in (from.row..).zip(rows) {
                    for (column, text) in (from.column..).zip(texts) {
                        let at = SheetCell { row, column };
                        placed.push((self.holds(at).then_some(at)?, text));
                    }
                }
            }
        }
        Some(placed)
    }

    fn holds(self, at: SheetCell) -> bool {
        at.row < self.rows && at.column < self.columns
    }

    fn nth(self, index: usize) -> Option<SheetCell> {
        let columns = self.columns.max(1);
        let at = SheetCell {
            row: index / columns,
            column: index % columns,
        };
        self.holds(at).then_some(at)
    }

    /// The cell after or before one, row by row; the same at either end.
    fn along(self, at: SheetCell, forward: bool) -> SheetCell {
        let index = at.row * self.columns + at.column;
        let next = if forward {
            Some(index + 1)
        } else {
            index.checked_sub(1)
        };
        next.and_then(|next| self.nth(next)).unwrap_or(at)
    }

    /// The cell below or above one, column by column; the same at either end.
    fn down(self, at: SheetCell, forward: bool) -> SheetCell {
        let turned = Self {
            rows: self.columns,
            columns: self.rows,
            order: self.order,
        };
        let place = SheetCell {
            row: at.column,
            column: at.row,
        };
        let next = turned.along(place, forward);
        SheetCell {
            row: next.column,
            column: next.row,
        }
    }

    fn enter(self, at: SheetCell, forward: bool) -> SheetCell {
        match self.order {
            Order::Down => self.down(at, forward),
            Order::Along => self.along(at, forward),
        }
    }
}

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

#[cfg(test)]
mod tests {
    use super::*;

    const TABLE: Shape = Shape {
        rows: 3,
        columns: 2,
        order: Order::Down,
    };

    fn place(row: usize, column: usize) -> SheetCell {
        SheetCell { row, column }
    }

    #[test]
    fn enter_goes_down_and_on_to_the_next_column() {
        assert_eq!(TABLE.enter(place(1, 0), true), place(2, 0));
        assert_eq!(TABLE.enter(place(2, 0), true), place(0, 1));
        assert_eq!(TABLE.enter(place(2, 1), true), place(2, 1));
        assert_eq!(TABLE.enter(place(0, 1), false), place(2, 0));
        assert_eq!(TABLE.along(place(0, 1), true), place(1, 0));
        assert_eq!(TABLE.along(place(0, 0), false), place(0, 0));
    }

    #[test]
    fn a_table_fits_whole_or_not_at_all() {
        let rows = |text: &str| -> Vec<Vec<String>> {
            text.lines()
                .map(|line| line.split(' ').map(str::to_owned).collect())
                .collect()
        };
        let placed = TABLE.placed(place(1, 0), rows("a b\nc d")).unwrap();
        assert_eq!(placed.last(), Some(&(place(2, 1), "d".to_owned())));
        assert_eq!(TABLE.placed(place(1, 1), rows("a b")), None);
        assert_eq!(TABLE.placed(place(2, 0), rows("a\nb")), None);
        let list = Shape {
            order: Order::Along,
            ..TABLE
        };
        let placed = list.placed(place(0, 1), rows("a\nb\nc")).unwrap();
        assert_eq!(placed.last(), Some(&(place(1, 1), "c".to_owned())));
        assert_eq!(list.placed(place(2, 0), rows("a\nb\nc")), None);
    }
}
