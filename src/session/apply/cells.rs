//! Changes of readings: cells of the grid, struck ones, the bare belt.

use crate::press::{CountQuantity, LengthQuantity};
use crate::session::{EditProblem, Session, SessionProblem};
use crate::splice::{Cell, Reading, Struck};
use crate::units::Unit;

impl Session {
    pub(in crate::session) fn cell_mut(
        &mut self,
        pass: usize,
        station: usize,
        repeat: usize,
    ) -> Result<&mut Cell, EditProblem> {
        // The check of the whole session comes too late for a repeat number
        // that would first have to be filled up to.
        CountQuantity::Repeats
            .check((repeat + 1) as i64)
            .map_err(SessionProblem::Count)?;
        let row = self
            .pass_mut(pass)?
            .rows
            .get_mut(station)
            .ok_or(EditProblem::NothingThere)?;
        if row.len() <= repeat {
            row.resize(repeat + 1, Cell::Empty);
        }
        row.get_mut(repeat).ok_or(EditProblem::NothingThere)
    }

    /// Types into one cell.
    pub(super) fn enter(
        &mut self,
        (pass, station, repeat): (usize, usize, usize),
        text: &str,
        bare: Unit,
    ) -> Result<(), EditProblem> {
        *self.cell_mut(pass, station, repeat)? = Cell::typed(LengthQuantity::Reading, text, bare);
        self.trim_row(pass, station);
        Ok(())
    }

    fn trim_row(&mut self, pass: usize, station: usize) {
        if let Some(row) = self
            .passes
            .get_mut(pass)
            .and_then(|pass| pass.rows.get_mut(station))
        {
            while row.last() == Some(&Cell::Empty) {
                row.pop();
            }
        }
    }

    pub(super) fn fill(
        &mut self,
        pass: usize,
        station: usize,
        repeat: usize,
        rows: &[Vec<String>],
        bare: Unit,
    ) -> Result<(), EditProblem> {
        let fit = self.stations.len().saturating_sub(station);
        if rows.len() > fit {
            return Err(EditProblem::TooManyRows {
                offered: rows.len(),
                fit,
            });
        }
        for (row, station) in rows.iter().zip(station..) {
            for (text, repeat) in row.iter().zip(repeat..) {
                *self.cell_mut(pass, station, repeat)? =
                    Cell::typed(LengthQuantity::Reading, text, bare);
            }
            self.trim_row(pass, station);
        }
        Ok(())
    }

    /// Takes a reading out of the reckoning; it stays where it is.
    pub(super) fn strike(
        &mut self,
        place: (usize, usize, usize),
        struck: Option<Struck>,
    ) -> Result<(), EditProblem> {
        self.reading_mut(place)?.struck = struck;
        Ok(())
    }

    fn reading_mut(
        &mut self,
        (pass, station, repeat): (usize, usize, usize),
    ) -> Result<&mut Reading, EditProblem> {
        let row = self
            .passes
            .get_mut(pass)
            .and_then(|pass| pass.rows.get_mut(station));
        match row.and_then(|row| row.get_mut(repeat)) {
            Some(Cell::Reading(reading)) => Ok(reading),
            _ => Err(EditProblem::NothingThere),
        }
    }

    /// Types the bare belt's thickness at one station.
    pub(super) fn enter_belt(
        &mut self,
        pass: usize,
        station: usize,
        text: &str,
        bare: Unit,
    ) -> Result<(), EditProblem> {
        let stations = self.stations.len();
        if station >= stations {
            return Err(EditProblem::NothingThere);
        }
        let pass = self.passes.get_mut(pass).ok_or(EditProblem::NothingThere)?;
        pass.bare_belt.resize(stations, Cell::Empty);
        if let Some(cell) = pass.bare_belt.get_mut(station) {
            *cell = Cell::typed(LengthQuantity::BareBelt, text, bare);
        }
        if pass.bare_belt.iter().all(|cell| *cell == Cell::Empty) {
            pass.bare_belt.clear();
        }
        Ok(())
    }
}
