//! Cells in rows and columns: how they are walked, what is typed into them.

/// A place in a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct GridCell {
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
    /// Columns on show.
    pub columns: usize,
    /// Columns there can be: Enter goes on to those that are not on show.
    pub most_columns: usize,
    /// Where Enter goes.
    pub order: Order,
}

impl Shape {
    /// The cells a pasted table fills, or none where it does not fit. A list
    /// takes rows and columns alike, one cell after the other.
    pub fn placed(self, from: GridCell, rows: Vec<Vec<String>>) -> Option<Vec<(GridCell, String)>> {
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
                        let at = GridCell { row, column };
                        placed.push((self.holds(at).then_some(at)?, text));
                    }
                }
            }
        }
        Some(placed)
    }

    fn holds(self, at: GridCell) -> bool {
        at.row < self.rows && at.column < self.most_columns
    }

    fn nth(self, index: usize) -> Option<GridCell> {
        let columns = self.columns.max(1);
        let at = GridCell {
            row: index / columns,
            column: index % columns,
        };
        self.holds(at).then_some(at)
    }

    /// The cell after or before one, row by row; the same at either end.
    pub fn along(self, at: GridCell, forward: bool) -> GridCell {
        let index = at.row * self.columns + at.column;
        let next = if forward {
            Some(index + 1)
        } else {
            index.checked_sub(1)
        };
        next.and_then(|next| self.nth(next)).unwrap_or(at)
    }

    /// The cell below or above one, column by column; the same at either end.
    fn down(self, at: GridCell, forward: bool) -> GridCell {
        let turned = Self {
            rows: self.most_columns,
            columns: self.rows,
            most_columns: self.rows,
            order: self.order,
        };
        let place = GridCell {
            row: at.column,
            column: at.row,
        };
        let next = turned.along(place, forward);
        GridCell {
            row: next.column,
            column: next.row,
        }
    }

    pub fn enter(self, at: GridCell, forward: bool) -> GridCell {
        match self.order {
            Order::Down => self.down(at, forward),
            Order::Along => self.along(at, forward),
        }
    }
}

/// What somebody typed or pasted.
#[derive(Debug, Clone, PartialEq)]
pub enum Typed {
    /// One cell.
    One(GridCell, String),
    /// A table, its first cell here.
    Table(GridCell, Vec<Vec<String>>),
}

/// A cell being typed in.
#[derive(Debug, Clone, PartialEq)]
pub struct Editing {
    /// The cell.
    pub at: GridCell,
    /// What stands in it so far.
    pub text: String,
    /// Whether anything was typed since it was entered.
    pub touched: bool,
}

/// The cell being typed in, and the one to be typed in next.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Typing {
    /// The cell that has the keyboard.
    pub now: Option<Editing>,
    /// The cell that is to have it.
    pub next: Option<GridCell>,
}

impl Typing {
    /// Whether a cell has the keyboard.
    pub fn is_going_on(&self) -> bool {
        self.now.is_some()
    }

    /// Whether this cell has it.
    pub fn is_at(&self, at: GridCell) -> bool {
        self.now.as_ref().is_some_and(|now| now.at == at)
    }

    /// Whether something was typed that is not taken yet.
    pub fn is_touched(&self) -> bool {
        self.now.as_ref().is_some_and(|now| now.touched)
    }

    /// What was typed and not yet left.
    pub fn finish(&mut self) -> Option<Typed> {
        let now = self.now.take()?;
        now.touched.then_some(Typed::One(now.at, now.text))
    }

    /// Gives a cell the keyboard at the next frame.
    pub fn go_to(&mut self, at: GridCell) {
        self.next = Some(at);
    }
}

/// What is being typed into the cells of a pass.
#[derive(Debug, Default)]
pub struct PassTyping {
    /// Pass index.
    pub pass: usize,
    /// Its cells.
    pub cells: Typing,
}

impl PassTyping {
    /// Goes on with a pass; answers what was typed into another one that was
    /// on show before, and its index.
    pub fn turn_to(&mut self, pass: usize) -> Option<(usize, Typed)> {
        let before = std::mem::replace(&mut self.pass, pass);
        if before == pass {
            return None;
        }
        Some((before, self.cells.finish()?))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TABLE: Shape = Shape {
        rows: 3,
        columns: 2,
        most_columns: 2,
        order: Order::Down,
    };

    fn place(row: usize, column: usize) -> GridCell {
        GridCell { row, column }
    }

    #[test]
    pub fn enter_goes_down_and_on_to_the_next_column() {
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
