//! Format 1 of session files.
//!
//! These structs are the format; the domain types know nothing of it. What a
//! later version adds as an optional field (`serde(default)`, left out when
//! there is nothing to say) keeps the number 1: old files open, and an old
//! program refuses the unknown field in words instead of dropping it when it
//! saves. The number must go up, with a struct of its own beside this one,
//! when a field that stands here changes its meaning, its form or its unit,
//! goes away, or when leaving out a new one would mislead.

pub(crate) mod acceptance;
pub(crate) mod cells;
pub(crate) mod checklist;
pub(crate) mod corrections;
pub(crate) mod effort;
pub(crate) mod known;
pub(crate) mod section;

use serde::de::Deserializer;
use serde::ser::Serializer;
use serde::{Deserialize, Serialize};

use crate::press::{Arm, ArmIndex, JawDrive, NutLimits, NutPosition, Press};
use crate::session::{KnownResponse, Pass, Session, SessionProblem, VisitNotes};
use crate::splice::{Station, StationPlace, Walk};
use crate::units::{TypedLength, Unit};

use super::damage::{no_name, no_unit};
use super::inline::{Inline, listed};
use super::length_text::{LengthText, MoveText, complaint};
use crate::store::v1::acceptance::AcceptanceV1;
use crate::store::v1::cells::{BareBeltV1, RowV1};
use crate::store::v1::checklist::ChecklistV1;
use crate::store::v1::corrections::{
    CorrectedNutV1, CorrectedReadingV1, corrections_v1, read_corrections,
};
use crate::store::v1::effort::EffortV1;
use crate::store::v1::known::{GaugeV1, KnownResponseV1, PastVisitV1, ScatterV1};
use crate::store::v1::section::JawAndRodsV1;

/// The number of this format.
pub(super) const FORMAT: u32 = 1;

/// What is wrong with a session that could be read letter by letter.
#[derive(Debug, Clone, PartialEq)]
pub enum Unsound {
    /// The session cannot be as it is described.
    Session(SessionProblem),
    /// A row of readings names another station than the one in its place.
    RowOfOtherStation {
        /// Index of the pass.
        pass: usize,
        /// The station in this place, as the list of stations names it.
        expected: String,
        /// The station the row names.
        found: String,
    },
    /// A remark on a reading that is not there.
    NoSuchReading {
        /// Index of the pass.
        pass: usize,
        /// The station, as the file names it.
        station: String,
        /// The number of the reading, from 1.
        reading: usize,
    },
    /// A remark on a reading of the bare belt that is not there.
    NoSuchBareReading {
        /// Index of the pass.
        pass: usize,
        /// The number of the reading, from 1.
        reading: usize,
    },
    /// The trace of a change at a station or arm that is not there.
    TraceOfNothing {
        /// Index of the pass.
        pass: usize,
    },
}

impl From<SessionProblem> for Unsound {
    fn from(problem: SessionProblem) -> Self {
        Self::Session(problem)
    }
}

/// A session as it stands in its file.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SessionV1 {
    pub(in crate::store) format: u32,
    session: String,
    #[serde(default, skip_serializing_if = "is_false")]
    invented: bool,
    unit: UnitV1,
    #[serde(default)]
    visit: VisitV1,
    press: PressV1,
    gauge: Inline<GaugeV1>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    lacing_scatter: Option<Inline<ScatterV1>>,
    tolerance: LengthText,
    #[serde(default, skip_serializing_if = "AcceptanceV1::is_usual")]
    acceptance: Inline<AcceptanceV1>,
    #[serde(default, skip_serializing_if = "EffortV1::is_usual")]
    effort: Inline<EffortV1>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    target: Option<LengthText>,
    #[serde(deserialize_with = "listed")]
    stations: Vec<Inline<StationV1>>,
    start_nuts: Inline<Vec<i32>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    jaw_and_rods: Option<JawAndRodsV1>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    known_response: Option<KnownResponseV1>,
    #[serde(
        default,
        deserialize_with = "listed",
        skip_serializing_if = "Vec::is_empty"
    )]
    earlier: Vec<PastVisitV1>,
    #[serde(default, skip_serializing_if = "ChecklistV1::is_empty")]
    checklist: ChecklistV1,
    #[serde(deserialize_with = "listed")]
    passes: Vec<PassV1>,
}

#[derive(Debug, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
struct VisitV1 {
    who: String,
    when: String,
    belt: String,
    hooks: String,
    notes: String,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PressV1 {
    #[serde(default)]
    name: String,
    jaw_length: LengthText,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    nut_travel: Option<LengthText>,
    /// Read, never written: in its place stand `drive_parts`.
    #[serde(default, skip_serializing)]
    idler_sprockets: Option<u32>,
    /// Read, never written: in its place stand `drive_parts`.
    #[serde(default, skip_serializing)]
    short_chains: Option<bool>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    drive_parts: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    drive_parts_before: String,
    #[serde(default, skip_serializing_if = "is_false")]
    left_hand_thread: bool,
    #[serde(deserialize_with = "listed")]
    arms: Vec<Inline<ArmV1>>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct ArmV1 {
    position: LengthText,
    notch_effect: LengthText,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    nut_limits: Option<LimitsV1>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    opening_margin: Option<LengthText>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct LimitsV1 {
    most_in: i32,
    most_out: i32,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct StationV1 {
    at: PlaceV1,
    #[serde(default = "yes", skip_serializing_if = "is_true")]
    counts: bool,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PassV1 {
    #[serde(default)]
    laced: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    note: String,
    nuts: Inline<Vec<i32>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    handle: Option<MoveText>,
    #[serde(default, skip_serializing_if = "WalkV1::is_straight")]
    walk: WalkV1,
    #[serde(default, skip_serializing_if = "is_false")]
    flipped: bool,
    #[serde(deserialize_with = "listed")]
    readings: Vec<Inline<RowV1>>,
    /// An entry per station.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    bare_belt: Option<Inline<BareBeltV1>>,
    #[serde(
        default,
        deserialize_with = "listed",
        skip_serializing_if = "Vec::is_empty"
    )]
    corrected_readings: Vec<Inline<CorrectedReadingV1>>,
    #[serde(
        default,
        deserialize_with = "listed",
        skip_serializing_if = "Vec::is_empty"
    )]
    corrected_nuts: Vec<Inline<CorrectedNutV1>>,
}

/// The way the readings were taken.
#[derive(Debug, Default)]
struct WalkV1(Walk);

/// A unit by its mark.
#[derive(Debug)]
pub(super) struct UnitV1(pub Unit);

impl Serialize for UnitV1 {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.0.mark())
    }
}

impl<'de> Deserialize<'de> for UnitV1 {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let mark = String::deserialize(deserializer)?;
        Unit::from_mark(&mark)
            .map(Self)
            .ok_or_else(|| no_unit(&mark))
    }
}

impl WalkV1 {
    const STRAIGHT: &'static str = "straight";
    const THERE_AND_BACK: &'static str = "there-and-back";

    fn is_straight(&self) -> bool {
        self.0 == Walk::Straight
    }
}

impl Serialize for WalkV1 {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(match self.0 {
            Walk::Straight => Self::STRAIGHT,
            Walk::ThereAndBack => Self::THERE_AND_BACK,
        })
    }
}

impl<'de> Deserialize<'de> for WalkV1 {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        match String::deserialize(deserializer)?.as_str() {
            Self::STRAIGHT => Ok(Self(Walk::Straight)),
            Self::THERE_AND_BACK => Ok(Self(Walk::ThereAndBack)),
            found => Err(no_name(found)),
        }
    }
}

/// A station's place: an arm's letter or a distance from the jaw's left end.
#[derive(Debug)]
pub(super) struct PlaceV1(pub StationPlace);

impl PlaceV1 {
    fn text(&self) -> String {
        place_text(&self.0)
    }
}

pub(super) fn place_text(place: &StationPlace) -> String {
    match place {
        StationPlace::Arm(arm) => arm.to_string(),
        StationPlace::Between(position) => position.text().to_owned(),
    }
}

impl Serialize for PlaceV1 {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.text())
    }
}

impl<'de> Deserialize<'de> for PlaceV1 {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        if let [letter @ b'A'..=b'Z'] = text.as_bytes() {
            return Ok(Self(StationPlace::Arm(ArmIndex(usize::from(
                letter - b'A',
            )))));
        }
        match LengthText::parse(&text) {
            Ok(position) => Ok(Self(StationPlace::Between(position.0))),
            Err(_) => Err(complaint(&text)),
        }
    }
}

fn yes() -> bool {
    true
}

// Serde hands fields over by reference.
#[expect(clippy::trivially_copy_pass_by_ref)]
fn is_true(value: &bool) -> bool {
    *value
}

#[expect(clippy::trivially_copy_pass_by_ref)]
pub(super) fn is_false(value: &bool) -> bool {
    !value
}

fn length_text(length: &TypedLength) -> LengthText {
    LengthText(length.clone())
}

fn notch_numbers(nuts: &[NutPosition]) -> Inline<Vec<i32>> {
    Inline(nuts.iter().map(|nut| nut.0).collect())
}

fn notches(numbers: Inline<Vec<i32>>) -> Vec<NutPosition> {
    numbers.0.into_iter().map(NutPosition).collect()
}

impl From<&Session> for SessionV1 {
    fn from(session: &Session) -> Self {
        let stations = &session.stations;
        Self {
            format: FORMAT,
            session: session.id.clone(),
            invented: session.invented,
            unit: UnitV1(session.unit),
            visit: VisitV1 {
                who: session.notes.who.clone(),
                when: session.notes.when.clone(),
                belt: session.notes.belt.clone(),
                hooks: session.notes.hooks.clone(),
                notes: session.notes.notes.clone(),
            },
            press: PressV1 {
                name: session.press.name.clone(),
                jaw_length: length_text(&session.press.jaw_length),
                nut_travel: session.press.nut_travel.as_ref().map(length_text),
                idler_sprockets: None,
                short_chains: None,
                drive_parts: session.press.drive.parts.clone(),
                drive_parts_before: session.press.drive.parts_before.clone(),
                left_hand_thread: session.press.left_hand_thread,
                arms: session.press.arms.iter().map(arm_v1).map(Inline).collect(),
            },
            gauge: Inline(GaugeV1::from(&session.gauge)),
            lacing_scatter: session
                .lacing_scatter
                .as_ref()
                .map(|scatter| Inline(scatter.into())),
            tolerance: length_text(&session.tolerance),
            acceptance: Inline(session.acceptance.into()),
            effort: Inline(session.effort.into()),
            target: session.target.as_ref().map(length_text),
            stations: stations.iter().map(station_v1).map(Inline).collect(),
            start_nuts: notch_numbers(&session.start_nuts),
            jaw_and_rods: session.jaw_and_rods.as_ref().map(JawAndRodsV1::from),
            known_response: session.known_response.as_ref().map(KnownResponseV1::from),
            earlier: session.earlier.iter().map(PastVisitV1::from).collect(),
            checklist: ChecklistV1::from(&session.checklist),
            passes: session
                .passes
                .iter()
                .map(|pass| pass_v1(pass, stations))
                .collect(),
        }
    }
}

fn arm_v1(arm: &Arm) -> ArmV1 {
    ArmV1 {
        position: length_text(&arm.position),
        notch_effect: length_text(&arm.notch_effect),
        nut_limits: arm.limits.map(|limits| LimitsV1 {
            most_in: limits.most_in.0,
            most_out: limits.most_out.0,
        }),
        opening_margin: arm.opening_margin.as_ref().map(length_text),
    }
}

fn station_v1(station: &Station) -> StationV1 {
    StationV1 {
        at: PlaceV1(station.place.clone()),
        counts: station.counts,
    }
}

fn pass_v1(pass: &Pass, stations: &[Station]) -> PassV1 {
    let (corrected_readings, corrected_nuts) = corrections_v1(&pass.corrections, stations);
    PassV1 {
        laced: pass.laced.clone(),
        note: pass.note.clone(),
        nuts: notch_numbers(&pass.nuts),
        handle: pass.handle.clone().map(MoveText),
        walk: WalkV1(pass.walk),
        flipped: pass.flipped,
        readings: pass
            .rows
            .iter()
            .zip(stations)
            .map(|(cells, station)| RowV1::of(cells, station))
            .map(Inline)
            .collect(),
        bare_belt: BareBeltV1::of(&pass.bare_belt).map(Inline),
        corrected_readings,
        corrected_nuts,
    }
}

impl TryFrom<SessionV1> for Session {
    type Error = Unsound;

    fn try_from(file: SessionV1) -> Result<Self, Unsound> {
        let stations: Vec<Station> = file.stations.into_iter().map(station).collect();
        let passes = file
            .passes
            .into_iter()
            .enumerate()
            .map(|(index, pass)| read_pass(pass, index, &stations))
            .collect::<Result<_, _>>()?;
        let drive = drive(&file.press);
        let session = Self {
            id: file.session,
            invented: file.invented,
            unit: file.unit.0,
            press: Press {
                name: file.press.name,
                jaw_length: file.press.jaw_length.0,
                arms: file.press.arms.into_iter().map(arm).collect(),
                nut_travel: file.press.nut_travel.map(|travel| travel.0),
                drive,
                left_hand_thread: file.press.left_hand_thread,
            },
            stations,
            start_nuts: notches(file.start_nuts),
            tolerance: file.tolerance.0,
            gauge: file.gauge.0.into(),
            lacing_scatter: file.lacing_scatter.map(|scatter| scatter.0.into()),
            acceptance: (&file.acceptance.0).into(),
            effort: (&file.effort.0).into(),
            target: file.target.map(|target| target.0),
            notes: VisitNotes {
                who: file.visit.who,
                when: file.visit.when,
                belt: file.visit.belt,
                hooks: file.visit.hooks,
                notes: file.visit.notes,
            },
            earlier: file.earlier.into_iter().map(Into::into).collect(),
            known_response: file
                .known_response
                .map(KnownResponse::try_from)
                .transpose()
                .map_err(SessionProblem::from)?,
            checklist: file.checklist.into(),
            jaw_and_rods: file.jaw_and_rods.map(Into::into),
            passes,
        };
        session.check()?;
        Ok(session)
    }
}

fn arm(Inline(arm): Inline<ArmV1>) -> Arm {
    Arm {
        position: arm.position.0,
        notch_effect: arm.notch_effect.0,
        limits: arm.nut_limits.map(|limits| NutLimits {
            most_in: NutPosition(limits.most_in),
            most_out: NutPosition(limits.most_out),
        }),
        opening_margin: arm.opening_margin.map(|margin| margin.0),
    }
}

fn station(Inline(station): Inline<StationV1>) -> Station {
    Station {
        place: station.at.0,
        counts: station.counts,
    }
}

fn read_pass(file: PassV1, index: usize, stations: &[Station]) -> Result<Pass, Unsound> {
    // A wrong number of rows is found by the check of the whole session.
    let rows = file
        .readings
        .into_iter()
        .enumerate()
        .map(|(row, Inline(cells))| cells.read(index, stations.get(row)))
        .collect::<Result<_, _>>()?;
    let bare_belt = match file.bare_belt {
        Some(Inline(belt)) => belt.read(index)?,
        None => Vec::new(),
    };
    let corrected = (file.corrected_readings, file.corrected_nuts);
    Ok(Pass {
        corrections: read_corrections(corrected, index, stations)?,
        nuts: notches(file.nuts),
        handle: file.handle.map(|handle| handle.0),
        rows,
        bare_belt,
        walk: file.walk.0,
        flipped: file.flipped,
        laced: file.laced,
        note: file.note,
    })
}

/// What drives the jaw. Files of before had a count and an answer; they become
/// words, so that nothing noted is lost.
fn drive(press: &PressV1) -> JawDrive {
    let idlers = press
        .idler_sprockets
        .map(|count| format!("idler sprockets: {count}"));
    let short_chains = press.short_chains.map(|fitted| {
        let fitted = if fitted { "fitted" } else { "none" };
        format!("short chains: {fitted}")
    });
    let noted = (!press.drive_parts.is_empty()).then(|| press.drive_parts.clone());
    let parts: Vec<String> = noted
        .into_iter()
        .chain(idlers)
        .chain(short_chains)
        .collect();
    JawDrive {
        parts: parts.join("; "),
        parts_before: press.drive_parts_before.clone(),
    }
}
