//! The session: one visit to one press.

use crate::plan::Effort;
use crate::press::{ArmIndex, Notches, NutPosition, Press, customary};
use crate::splice::{Spread, Station};
use crate::units::{TypedLength, Unit};

use super::{
    Acceptance, Checklist, Gauge, JawAndRods, KnownResponse, KnownScatter, Pass, PastVisit,
};

/// Who, when, on what.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct VisitNotes {
    /// Who does the work.
    pub who: String,
    /// When, as the user wrote it.
    pub when: String,
    /// The belt of the test pieces.
    pub belt: String,
    /// The hooks.
    pub hooks: String,
    /// Anything else.
    pub notes: String,
}

/// One visit to one press: a copy of the press as it was known then, gauge,
/// belt and passes.
#[derive(Debug, Clone, PartialEq)]
pub struct Session {
    /// Tells this visit from every other; learning replaces by it.
    pub id: String,
    /// Set in sessions that are made up: samples and exercises.
    pub invented: bool,
    /// The session's own unit. Which unit is shown is a setting of the view.
    pub unit: Unit,
    /// The press.
    pub press: Press,
    /// Stations from the operator's left; one at every arm's centre at least.
    pub stations: Vec<Station>,
    /// Nut positions before the first pass, one per arm.
    pub start_nuts: Vec<NutPosition>,
    /// Tolerance on the spread.
    pub tolerance: TypedLength,
    /// The gauge.
    pub gauge: Gauge,
    /// Scatter from one lacing to the next at one place with nothing turned,
    /// where it is known.
    pub lacing_scatter: Option<KnownScatter>,
    /// By which rule a piece is accepted, and the confidence of verdicts.
    pub acceptance: Acceptance,
    /// What the shop reckons the work at.
    pub effort: Effort,
    /// Thickness the splice should have, where the shop has one.
    pub target: Option<TypedLength>,
    /// Who, when, on what.
    pub notes: VisitNotes,
    /// The steps of the visit and what of them is ticked off.
    pub checklist: Checklist,
    /// What earlier visits to the press measured, oldest first.
    pub earlier: Vec<PastVisit>,
    /// Section of the jaw and size of the rods, where they are known.
    pub jaw_and_rods: Option<JawAndRods>,
    /// A response given outright, a row per station; nothing is then learnt
    /// about it.
    pub known_response: Option<KnownResponse>,
    /// The passes, as found first, as left last.
    pub passes: Vec<Pass>,
}

impl Session {
    /// A session on `press` with a station at every arm, the customary
    /// tolerance and gauge step of `unit`, every nut flush and no pass yet.
    pub fn new(id: String, unit: Unit, press: Press) -> Self {
        let arms = press.arms.len();
        let length = |length| TypedLength::from_length(length, unit);
        Self {
            id,
            invented: false,
            unit,
            press,
            stations: (0..arms)
                .map(|arm| Station::at_arm(ArmIndex(arm)))
                .collect(),
            start_nuts: vec![NutPosition(0); arms],
            tolerance: length(customary::tolerance(unit)),
            gauge: Gauge::with_step(String::new(), length(customary::gauge_step(unit))),
            lacing_scatter: None,
            acceptance: Acceptance::default(),
            effort: Effort::default(),
            target: None,
            notes: VisitNotes::default(),
            checklist: Checklist::default(),
            earlier: Vec::new(),
            jaw_and_rods: None,
            known_response: None,
            passes: Vec::new(),
        }
    }

    /// Nut positions of a pass; before the first pass, where the nuts started.
    pub fn nuts_at(&self, pass: usize) -> &[NutPosition] {
        self.passes
            .get(pass)
            .map_or(&self.start_nuts, |pass| &pass.nuts)
    }

    /// Nut positions as they stand after the last pass.
    pub fn nuts_now(&self) -> &[NutPosition] {
        self.passes
            .last()
            .map_or(&self.start_nuts, |pass| &pass.nuts)
    }

    /// Turns that led to a pass from the one before, or from the start.
    pub fn turns_before(&self, pass: usize) -> Vec<Notches> {
        let before = match pass.checked_sub(1) {
            Some(before) => self.nuts_at(before),
            None => &self.start_nuts,
        };
        self.nuts_at(pass)
            .iter()
            .zip(before)
            .map(|(after, before)| *after - *before)
            .collect()
    }

    /// The last pass with any reading that counts, and its index.
    pub fn last_read_pass(&self) -> Option<(usize, &Pass)> {
        self.passes
            .iter()
            .enumerate()
            .rev()
            .find(|(_, pass)| pass.has_readings())
    }

    /// The spread of a pass over the counting stations that hold nothing
    /// doubtful.
    pub fn spread_of(&self, pass: usize) -> Option<Spread> {
        Spread::of(&self.stations, &self.sound_profile(pass))
    }

    /// The name of a station, distances in the session's unit.
    pub fn station_name(&self, station: usize) -> String {
        self.stations.get(station).map_or_else(String::new, |at| {
            at.name(&self.press, self.unit).to_string()
        })
    }

    /// The stations that count towards the spread, as indices.
    pub(crate) fn counting(&self) -> impl Iterator<Item = usize> {
        let stations = self.stations.iter().enumerate();
        stations.filter(|(_, at)| at.counts).map(|(index, _)| index)
    }

    /// Positions of the stations from the jaw's left end, in nanometres.
    pub fn station_positions_nm(&self) -> Vec<f64> {
        self.stations
            .iter()
            .map(|station| station.position(&self.press).nm_f64())
            .collect()
    }
}
