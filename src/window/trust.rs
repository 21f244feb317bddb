//! How far the readings of the pass on show can be trusted, worked out once
//! per state of the document.

use crate::session::Session;
use crate::splice::{BeltVariation, Cell, FlipProblem, FlipTest, LevelStanding, Misfit, Struck};

/// What is to be said about the readings of a pass.
#[derive(Debug, Default)]
pub struct Trust {
    /// Readings and stations that do not fit.
    pub misfits: Vec<Misfit>,
    /// Struck readings: station, repeat, who and why.
    pub struck: Vec<(usize, usize, Struck)>,
    /// How much the bare belt varies, where it was measured.
    pub belt: Option<BeltVariation>,
    /// What the flip test of this pass and the one before tells, where the
    /// belt end was turned round between them.
    pub flip: Option<Result<FlipTest, FlipProblem>>,
    /// How the level stands against the target; `None` before anything is
    /// read.
    pub level: Option<LevelStanding>,
}

impl Trust {
    /// Looks at a pass of a session.
    pub fn of(session: &Session, pass: usize) -> Self {
        let Some(read) = session.passes.get(pass) else {
            return Self::default();
        };
        let before = pass.checked_sub(1).filter(|_| read.flipped);
        Self {
            misfits: session.misfits(pass),
            struck: struck(&read.rows),
            belt: session.belt_variation(pass),
            flip: before.map(|before| session.flip_test(before, pass)),
            level: read.has_readings().then(|| session.level_of(pass)),
        }
    }

    /// Why a reading is marked.
    pub fn misfit(&self, station: usize, repeat: usize) -> Option<&Misfit> {
        let at = (station, Some(repeat));
        let mut misfits = self.misfits.iter();
        misfits.find(|misfit| (misfit.station, misfit.repeat) == at)
    }

    /// Why a station as a whole is marked.
    pub fn misfit_station(&self, station: usize) -> Option<&Misfit> {
        let at = (station, None);
        let mut misfits = self.misfits.iter();
        misfits.find(|misfit| (misfit.station, misfit.repeat) == at)
    }
}

fn struck(rows: &[Vec<Cell>]) -> Vec<(usize, usize, Struck)> {
    let mut found = Vec::new();
    for (station, row) in rows.iter().enumerate() {
        for (repeat, cell) in row.iter().enumerate() {
            let reading = cell.reading();
            if let Some(struck) = reading.and_then(|reading| reading.struck.as_ref()) {
                found.push((station, repeat, struck.clone()));
            }
        }
    }
    found
}
