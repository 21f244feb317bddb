//! Changes about the gauge, struck readings and the bare belt.

use crate::press::LengthQuantity;
use crate::splice::{Cell, Reading, Struck};
use crate::units::Unit;

use super::apply::read_cell_of;
use super::edit::EditProblem;
use super::{KnownScatter, Session};

impl Session {
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
            *cell = read_cell_of(LengthQuantity::BareBelt, text, bare);
        }
        if pass.bare_belt.iter().all(|cell| *cell == Cell::Empty) {
            pass.bare_belt.clear();
        }
        Ok(())
    }

    /// Checks a scatter against its limits.
    pub(super) fn check_scatter(
        scatter: Option<&KnownScatter>,
    ) -> Result<(), super::SessionProblem> {
        if let Some(scatter) = scatter {
            LengthQuantity::Scatter.check(scatter.sd.length())?;
        }
        Ok(())
    }
}
