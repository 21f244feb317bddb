//! What must hold for a session before anything else reads it.

use crate::press::section::SectionError;
use crate::press::{
    ArmIndex, CountOutOfBounds, CountQuantity, LengthOutOfBounds, LengthQuantity, PressProblem,
};
use crate::units::{Length, holds};

use super::{ChecklistProblem, KnownResponseProblem, KnownScatter, PastVisitProblem, Session};

/// Why a session cannot be as it was described.
#[derive(Debug, Clone, PartialEq)]
pub enum SessionProblem {
    /// Something about the press.
    Press(PressProblem),
    /// A length outside its limits.
    Length(LengthOutOfBounds),
    /// A count outside its limits.
    Count(CountOutOfBounds),
    /// A reading outside its limits: pass, station, repeat.
    Reading {
        /// Pass index.
        pass: usize,
        /// Station index.
        station: usize,
        /// Repeat index.
        repeat: usize,
        /// The thickness found.
        found: Length,
    },
    /// A station outside the jaw: its position and the jaw's length.
    StationOutsideJaw(Length, Length),
    /// Two stations too close to each other: their positions.
    StationsTooClose(Length, Length),
    /// An arm without a station at its centre.
    ArmWithoutStation(ArmIndex),
    /// A station at an arm that the press does not have.
    StationAtNoArm(ArmIndex),
    /// An earlier visit, counted from zero, that cannot be one.
    EarlierVisit {
        /// Which.
        visit: usize,
        /// Why.
        problem: PastVisitProblem,
    },
    /// Section and rod data that make no sense.
    Section(SectionError),
    /// A known response that does not belong to these stations and arms.
    KnownResponse(KnownResponseProblem),
    /// A list with another number of entries than there are arms or stations:
    /// pass index (none for the start), expected and found.
    WrongCount {
        /// The pass, or the start of the session.
        pass: Option<usize>,
        /// What is counted.
        of: Counted,
        /// How many there should be.
        expected: usize,
        /// How many there are.
        found: usize,
    },
    /// Something about the steps of the visit.
    Checklist(ChecklistProblem),
    /// A trace of a change at a station or arm that is not there: pass index.
    TraceOfNothing(usize),
}

/// What a list of a pass has one entry for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Counted {
    /// Nut positions, one per arm.
    Nuts,
    /// Rows of readings, one per station.
    Stations,
    /// Cells of the bare belt, one per station where there are any.
    BareBelt,
}

holds! {
    SessionProblem {
        Section(SectionError),
        KnownResponse(KnownResponseProblem),
        Press(PressProblem),
        Length(LengthOutOfBounds),
        Count(CountOutOfBounds),
    }
}

impl Session {
    /// Checks everything the rest of the program counts on. Unreadable cells
    /// are no fault of the session: they wait to be mended.
    ///
    /// # Errors
    /// The first thing found wrong.
    pub fn check(&self) -> Result<(), SessionProblem> {
        self.press.check()?;
        LengthQuantity::Tolerance.check(self.tolerance.length())?;
        LengthQuantity::GaugeStep.check(self.gauge.step.length())?;
        if let Some(limit) = &self.gauge.limit_of_error {
            LengthQuantity::LimitOfError.check(limit.length())?;
        }
        Self::check_scatter(self.gauge.repeatability.as_ref())?;
        Self::check_scatter(self.lacing_scatter.as_ref())?;
        if let Some(target) = &self.target {
            LengthQuantity::Target.check(target.length())?;
        }
        self.check_stations()?;
        self.check_what_is_known()?;
        self.check_nuts(None)?;
        let arms = self.press.arms.len();
        if let Some(arm) = self.lost.iter().find(|arm| arm.0 >= arms) {
            return Err(SessionProblem::StationAtNoArm(*arm));
        }
        self.check_checklist()?;
        CountQuantity::Passes.check(self.passes.len() as i64)?;
        (0..self.passes.len()).try_for_each(|pass| self.check_pass(pass))
    }

    fn check_what_is_known(&self) -> Result<(), SessionProblem> {
        CountQuantity::EarlierVisits.check(self.earlier.len() as i64)?;
        for (visit, earlier) in self.earlier.iter().enumerate() {
            let in_visit = |problem| SessionProblem::EarlierVisit { visit, problem };
            earlier.check().map_err(in_visit)?;
        }
        if let Some(known) = &self.jaw_and_rods {
            known.kappa(&self.press)?;
        }
        if let Some(known) = &self.known_response {
            known.check(self.stations.len(), self.press.arms.len())?;
        }
        Ok(())
    }

    /// Checks a scatter against its limits.
    fn check_scatter(scatter: Option<&KnownScatter>) -> Result<(), SessionProblem> {
        if let Some(scatter) = scatter {
            LengthQuantity::Scatter.check(scatter.sd.length())?;
        }
        Ok(())
    }

    fn check_stations(&self) -> Result<(), SessionProblem> {
        let jaw = self.press.jaw_length.length();
        let between = self.stations.iter().filter(|at| at.arm().is_none());
        CountQuantity::StationsBetween.check(between.count() as i64)?;
        for (arm, _) in self.press.indexed_arms() {
            if !self.stations.iter().any(|at| at.arm() == Some(arm)) {
                return Err(SessionProblem::ArmWithoutStation(arm));
            }
        }
        let arms = self.press.arms.len();
        let mut at_arms = self.stations.iter().filter_map(|at| at.arm());
        if let Some(arm) = at_arms.find(|arm| arm.0 >= arms) {
            return Err(SessionProblem::StationAtNoArm(arm));
        }
        let mut before: Option<Length> = None;
        for station in &self.stations {
            let position = station.position(&self.press);
            if position < Length::ZERO || position > jaw {
                return Err(SessionProblem::StationOutsideJaw(position, jaw));
            }
            if let Some(left) = before
                && position.minus(left) < LengthQuantity::ArmGap.bounds().least
            {
                return Err(SessionProblem::StationsTooClose(left, position));
            }
            before = Some(position);
        }
        Ok(())
    }

    fn check_nuts(&self, pass: Option<usize>) -> Result<(), SessionProblem> {
        let nuts = pass.map_or(self.start_nuts.as_slice(), |pass| self.nuts_at(pass));
        if nuts.len() != self.press.arms.len() {
            return Err(SessionProblem::WrongCount {
                pass,
                of: Counted::Nuts,
                expected: self.press.arms.len(),
                found: nuts.len(),
            });
        }
        for nut in nuts {
            CountQuantity::NutPosition.check(nut.0.into())?;
        }
        Ok(())
    }

    fn check_pass(&self, index: usize) -> Result<(), SessionProblem> {
        self.check_nuts(Some(index))?;
        let Some(pass) = self.passes.get(index) else {
            return Ok(());
        };
        if let Some(handle) = &pass.handle {
            LengthQuantity::HandleMove.check(handle.length())?;
        }
        self.check_corrections(index, &pass.corrections)?;
        if pass.rows.len() != self.stations.len() {
            return Err(SessionProblem::WrongCount {
                pass: Some(index),
                of: Counted::Stations,
                expected: self.stations.len(),
                found: pass.rows.len(),
            });
        }
        if !pass.bare_belt.is_empty() && pass.bare_belt.len() != self.stations.len() {
            return Err(SessionProblem::WrongCount {
                pass: Some(index),
                of: Counted::BareBelt,
                expected: self.stations.len(),
                found: pass.bare_belt.len(),
            });
        }
        for reading in pass.bare_belt.iter().filter_map(|cell| cell.reading()) {
            LengthQuantity::BareBelt.check(reading.typed.length())?;
        }
        for (station, row) in pass.rows.iter().enumerate() {
            CountQuantity::Repeats.check(row.len() as i64)?;
            for (repeat, cell) in row.iter().enumerate() {
                if let Some(reading) = cell.reading() {
                    LengthQuantity::Reading
                        .check(reading.typed.length())
                        .map_err(|problem| SessionProblem::Reading {
                            pass: index,
                            station,
                            repeat,
                            found: problem.found,
                        })?;
                }
            }
        }
        Ok(())
    }
}
