//! Readings of a session that look mistyped: in the wrong unit, or with a
//! slipped decimal point.

use crate::splice::{Reading, looks_ten_times_off, looks_typed_in_other_unit};
use crate::units::{Length, TypedLength};

use super::Session;

/// What a reading looks like against all other readings of the session.
#[derive(Debug, Clone, PartialEq)]
pub enum Doubt {
    /// Typed in the wrong unit; the same digits in the other one.
    OtherUnit(TypedLength),
    /// Its decimal point slipped; what the others are about (their median).
    TenTimesOff(Length),
}

impl Session {
    /// Cells of a pass that look typed in the wrong unit against all other
    /// readings of the session that count: station, repeat and the reading in
    /// the other unit.
    pub fn slipped_units(&self, pass: usize) -> Vec<(usize, usize, TypedLength)> {
        let doubts = self.doubts(pass).into_iter();
        doubts
            .filter_map(|(station, repeat, doubt)| match doubt {
                Doubt::OtherUnit(other) => Some((station, repeat, other)),
                Doubt::TenTimesOff(_) => None,
            })
            .collect()
    }

    /// The reading in a cell, struck or not.
    pub fn reading_at(&self, pass: usize, station: usize, repeat: usize) -> Option<&TypedLength> {
        let cell = self.passes.get(pass)?.cell(station, repeat);
        cell.reading().map(|reading| &reading.typed)
    }

    /// Cells of a pass that look mistyped: station, repeat and why. They are
    /// only asked about, never refused or changed.
    pub fn doubts(&self, pass: usize) -> Vec<(usize, usize, Doubt)> {
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
            .filter_map(|(station, repeat, reading)| Some((station, repeat, doubt(reading, &all)?)))
            .collect()
    }
}

/// What a reading looks like. `all` holds every reading in order, this one
/// included.
fn doubt(reading: &Reading, all: &[Length]) -> Option<Doubt> {
    let own = reading.typed.length();
    let here = all.partition_point(|length| *length < own);
    let middle = all.len().saturating_sub(1) / 2;
    // The median of the others, as if this one were taken out of the list.
    let median = all.get(middle + usize::from(middle >= here)).copied();
    let others = if all.len() > 1 { median } else { None };
    let other = reading.typed.read_as(reading.typed.unit().other());
    if let Some(other) = other
        && looks_typed_in_other_unit(own, other.length(), others)
    {
        return Some(Doubt::OtherUnit(other));
    }
    // Most of the others have to say so: among few readings the median may be
    // the slip itself.
    let off = all
        .iter()
        .filter(|at| looks_ten_times_off(own, **at))
        .count();
    let most = 2 * off > all.len().saturating_sub(1);
    others
        .filter(|others| most && looks_ten_times_off(own, *others))
        .map(Doubt::TenTimesOff)
}
