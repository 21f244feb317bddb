//! Readings of a session that look typed in the wrong unit.

use crate::splice::{Reading, looks_typed_in_other_unit};
use crate::units::{Length, TypedLength};

use super::Session;

impl Session {
    /// Cells of a pass that look typed in the wrong unit against all other
    /// readings of the session that count: station, repeat and the reading in
    /// the other unit.
    pub fn slipped_units(&self, pass: usize) -> Vec<(usize, usize, TypedLength)> {
        let mut all: Vec<Length> = self
            .passes
            .iter()
            .flat_map(|pass| pass.rows.iter().flatten())
            .filter_map(|cell| cell.counting())
            .map(|reading| reading.typed.length())
            .collect();
        all.sort_unstable();
        let rows = self.passes.get(pass).map_or(&[][..], |pass| &pass.rows);
        rows.iter()
            .enumerate()
            .flat_map(|(station, row)| {
                row.iter()
                    .enumerate()
                    .filter_map(move |(repeat, cell)| Some((station, repeat, cell.counting()?)))
            })
            .filter_map(|(station, repeat, reading)| {
                Some((station, repeat, slipped(reading, &all)?))
            })
            .collect()
    }
}

/// The reading in the other unit, where it looks typed in the wrong one.
/// `all` holds every reading in order, this one included.
fn slipped(reading: &Reading, all: &[Length]) -> Option<TypedLength> {
    let own = reading.typed.length();
    let other = reading.typed.read_as(reading.typed.unit().other())?;
    let here = all.partition_point(|length| *length < own);
    let middle = all.len().saturating_sub(1) / 2;
    // The median of the others, as if this one were taken out of the list.
    let median = all.get(middle + usize::from(middle >= here)).copied();
    let others = if all.len() > 1 { median } else { None };
    looks_typed_in_other_unit(own, other.length(), others).then_some(other)
}
