//! One test lacing.

use crate::press::NutPosition;
use crate::splice::{Cell, Profile, Walk};
use crate::units::TypedLength;

use super::Corrections;

/// One test lacing: the nut positions it was laced at and its readings.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Pass {
    /// Nut positions from flush, one per arm.
    pub nuts: Vec<NutPosition>,
    /// Move of the common handle since the pass before, as thickness at the
    /// splice, outward positive; none where it was left alone.
    pub handle: Option<TypedLength>,
    /// Cells of the readings grid, a row per station; trailing empty cells
    /// are not kept.
    pub rows: Vec<Vec<Cell>>,
    /// Thickness of the bare belt, a cell per station; empty where the bare
    /// belt was not measured.
    pub bare_belt: Vec<Cell>,
    /// The way along the jaw the readings were taken.
    pub walk: Walk,
    /// Whether the belt end lay the other way round than in the pass before.
    pub flipped: bool,
    /// Whether a nut stood where nobody knew: nothing is learnt from it.
    pub nut_lost: bool,
    /// When it was laced, as the user or the program wrote it.
    pub laced: String,
    /// Whatever should be remembered about it.
    pub note: String,
    /// What was changed in it after the next pass was laced.
    pub corrections: Corrections,
}

impl Pass {
    /// A pass with nothing read yet.
    pub fn unread(nuts: Vec<NutPosition>, stations: usize) -> Self {
        Self {
            nuts,
            rows: vec![Vec::new(); stations],
            ..Self::default()
        }
    }

    /// The station means.
    pub fn profile(&self) -> Profile {
        Profile::of(&self.rows)
    }

    /// The cell of a station and repeat; empty where nothing was entered.
    pub fn cell(&self, station: usize, repeat: usize) -> &Cell {
        const EMPTY: &Cell = &Cell::Empty;
        self.rows
            .get(station)
            .and_then(|row| row.get(repeat))
            .unwrap_or(EMPTY)
    }

    /// Whether any reading counts.
    pub fn has_readings(&self) -> bool {
        self.rows
            .iter()
            .flatten()
            .any(|cell| cell.counting().is_some())
    }
}
