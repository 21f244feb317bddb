//! The session: one visit to one press.

use serde::{Deserialize, Serialize};

use crate::codec::{a_line_each, bounded, is_usual, maybe_on_one_line, on_one_line};
use crate::plan::Effort;
use crate::press::{ArmIndex, Notches, NutPosition, Press, customary};
use crate::splice::{Spread, Station};
use crate::units::{TypedLength, Unit};

use super::{
    Acceptance, Checklist, Gauge, JawAndRods, KnownResponse, KnownScatter, Pass, PastVisit,
};

/// Who, when, on what.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
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
    /// What was repaired on the press since the visit before; empty where
    /// nothing was. Earlier visits then say nothing about it any more.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub repaired: String,
}

/// The number of the format that sessions are written in.
///
/// A field that is added as one that may be absent (`default`, left out when
/// there is nothing to say) keeps the number: old files open, and an old
/// program refuses the unknown field in words instead of dropping it when it
/// saves. The number must go up, with a struct of its own for the format that
/// is gone, when a field that stands here changes its meaning, its form or its
/// unit, goes away, or when leaving out a new one would mislead.
pub const FORMAT: u32 = 1;

/// One visit to one press: a copy of the press as it was known then, gauge,
/// belt and passes. The fields stand as in its file, in their order.
///
/// `P` is [`Pass`]; but in files, where every row of readings names its
/// station, it is [`PassInFile`](super::PassInFile).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, bound(deserialize = "P: Deserialize<'de>"))]
pub struct Session<P = Pass> {
    /// The format of its file, [`FORMAT`] in every session that was read.
    pub format: u32,
    /// Tells this visit from every other; learning replaces by it.
    #[serde(rename = "session")]
    pub id: String,
    /// Set in sessions that are made up: samples and exercises.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub invented: bool,
    /// The session's own unit. Which unit is shown is a setting of the view.
    pub unit: Unit,
    /// Who, when, on what.
    #[serde(rename = "visit", default)]
    pub notes: VisitNotes,
    /// The press.
    pub press: Press,
    /// The gauge.
    #[serde(serialize_with = "on_one_line")]
    pub gauge: Gauge,
    /// Scatter from one lacing to the next at one place with nothing turned,
    /// where it is known.
    #[serde(
        default,
        skip_serializing_if = "is_usual",
        serialize_with = "maybe_on_one_line"
    )]
    pub lacing_scatter: Option<KnownScatter>,
    /// Tolerance on the spread.
    pub tolerance: TypedLength,
    /// By which rule a piece is accepted, and the confidence of verdicts.
    #[serde(
        default,
        skip_serializing_if = "is_usual",
        serialize_with = "on_one_line"
    )]
    pub acceptance: Acceptance,
    /// What the shop reckons the work at.
    #[serde(
        default,
        skip_serializing_if = "is_usual",
        serialize_with = "on_one_line"
    )]
    pub effort: Effort,
    /// Thickness the splice should have, where the shop has one.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub target: Option<TypedLength>,
    /// Stations from the operator's left; one at every arm's centre at least.
    #[serde(with = "a_line_each")]
    pub stations: Vec<Station>,
    /// Nut positions before the first pass, one per arm.
    #[serde(serialize_with = "on_one_line")]
    pub start_nuts: Vec<NutPosition>,
    /// Nuts whose count was lost and that were not found since: nobody knows where
    /// they stand.
    #[serde(default, skip_serializing_if = "is_usual", with = "arm_letters")]
    pub lost: Vec<ArmIndex>,
    /// Section of the jaw and size of the rods, where they are known.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub jaw_and_rods: Option<JawAndRods>,
    /// A response given outright, a row per station; nothing is then learnt
    /// about it.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub known_response: Option<KnownResponse>,
    /// What earlier visits to the press measured, oldest first.
    #[serde(
        default,
        skip_serializing_if = "is_usual",
        deserialize_with = "bounded"
    )]
    pub earlier: Vec<PastVisit>,
    /// The steps of the visit and what of them is ticked off.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub checklist: Checklist,
    /// The passes, as found first, as left last.
    #[serde(deserialize_with = "bounded")]
    pub passes: Vec<P>,
}

impl<P> Session<P> {
    /// The same with its passes in another form.
    pub(super) fn with_passes<Q>(self, passes: Vec<Q>) -> Session<Q> {
        let Self {
            format,
            id,
            invented,
            unit,
            notes,
            press,
            gauge,
            lacing_scatter,
            tolerance,
            acceptance,
            effort,
            target,
            stations,
            start_nuts,
            lost,
            jaw_and_rods,
            known_response,
            earlier,
            checklist,
            passes: _,
        } = self;
        Session {
            format,
            id,
            invented,
            unit,
            notes,
            press,
            gauge,
            lacing_scatter,
            tolerance,
            acceptance,
            effort,
            target,
            stations,
            start_nuts,
            lost,
            jaw_and_rods,
            known_response,
            earlier,
            checklist,
            passes,
        }
    }
}

impl Session {
    /// A session on `press` with a station at every arm, the customary
    /// tolerance and gauge step of `unit`, every nut flush and no pass yet.
    pub fn new(id: String, unit: Unit, press: Press) -> Self {
        let arms = press.arms.len();
        let length = |length| TypedLength::from_length(length, unit);
        Self {
            format: FORMAT,
            id,
            invented: false,
            unit,
            press,
            stations: (0..arms)
                .map(|arm| Station::at_arm(ArmIndex(arm)))
                .collect(),
            start_nuts: vec![NutPosition(0); arms],
            lost: Vec::new(),
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

    /// Whether the press was repaired since the visit before.
    pub fn follows_repair(&self) -> bool {
        !self.notes.repaired.trim().is_empty()
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

/// Arms in files are letters, as everywhere.
mod arm_letters {
    use serde::{Deserializer, Serializer};

    use crate::codec::{Expected, bounded, on_one_line};
    use crate::press::ArmIndex;
    use crate::splice::StationPlace;

    pub fn serialize<S: Serializer>(arms: &[ArmIndex], to: S) -> Result<S::Ok, S::Error> {
        let places: Vec<StationPlace> = arms.iter().copied().map(StationPlace::Arm).collect();
        on_one_line(&places, to)
    }

    pub fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<ArmIndex>, D::Error> {
        let arm = |place| match place {
            StationPlace::Arm(arm) => Ok(arm),
            between @ StationPlace::Between(_) => Err(Expected::Name.not(&between.file_text())),
        };
        let places: Vec<StationPlace> = bounded(from)?;
        places.into_iter().map(arm).collect()
    }
}
