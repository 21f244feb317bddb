//! Readings of a session that look typed in the wrong unit.

use crate::splice::looks_typed_in_other_unit;
use crate::units::{Length, TypedLength};

use super::Session;

impl Session {
    /// The reading of a cell in the other unit, where it looks typed in the
    /// wrong one against all other readings of the session that count.
    pub fn slipped_unit(&self, pass: usize, station: usize, repeat: usize) -> Option<TypedLength> {
        let reading = self.passes.get(pass)?.cell(station, repeat).counting()?;
        let other = reading.typed.read_as(reading.typed.unit().other())?;
        let mut rest: Vec<Length> = self
            .passes
            .iter()
            .flat_map(|pass| pass.rows.iter().flatten())
            .filter_map(|cell| cell.counting())
            .map(|reading| reading.typed.length())
            .collect();
        // Of the readings equal to this one, one is this one.
        let own = reading.typed.length();
        if let Some(here) = rest.iter().position(|length| *length == own) {
            rest.swap_remove(here);
        }
        rest.sort();
        let median = rest.get(rest.len() / 2).copied();
        looks_typed_in_other_unit(own, other.length(), median).then_some(other)
    }

    /// All cells of a pass that look typed in the wrong unit: station, repeat
    /// and the reading in the other unit.
    pub fn slipped_units(&self, pass: usize) -> Vec<(usize, usize, TypedLength)> {
        let rows = self.passes.get(pass).map_or(&[][..], |pass| &pass.rows);
        rows.iter()
            .enumerate()
            .flat_map(|(station, row)| (0..row.len()).map(move |repeat| (station, repeat)))
            .filter_map(|(station, repeat)| {
                let other = self.slipped_unit(pass, station, repeat)?;
                Some((station, repeat, other))
            })
            .collect()
    }
}
