//! What is known of gauge, lacing and press, in format 1 of session files.

use serde::de::Deserializer;
use serde::ser::Serializer;
use serde::{Deserialize, Serialize};

use crate::press::NutPosition;
use crate::session::{
    Gauge, IsoDate, KnownResponse, KnownResponseProblem, KnownScatter, PastMean, PastPass,
    PastVisit,
};
use crate::splice::GaugeKind;
use crate::units::{TypedLength, Unit};

use crate::store::damage::{no_date, no_name};
use crate::store::inline::{Inline, listed};
use crate::store::length_text::{LengthText, MoveText};
use crate::store::v1::UnitV1;

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::store) struct GaugeV1 {
    #[serde(default)]
    name: String,
    #[serde(default, skip_serializing_if = "KindV1::is_other")]
    kind: KindV1,
    step: LengthText,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    limit_of_error: Option<LengthText>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    repeatability: Option<ScatterV1>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    calibration_due: Option<DateV1>,
}

/// A standard deviation, with its degrees of freedom where it was found by a
/// check.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::store) struct ScatterV1 {
    sd: LengthText,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    dof: Option<u32>,
}

#[derive(Debug, Default)]
struct KindV1(GaugeKind);

#[derive(Debug)]
struct DateV1(IsoDate);

/// What an earlier visit measured.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::store) struct PastVisitV1 {
    session: String,
    #[serde(default)]
    when: String,
    arms: Inline<Vec<LengthText>>,
    stations: Inline<Vec<LengthText>>,
    gauge_step: LengthText,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    repeatability: Option<LengthText>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    lacing_scatter: Option<LengthText>,
    #[serde(deserialize_with = "listed")]
    passes: Vec<Inline<PastPassV1>>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PastPassV1 {
    nuts: Vec<i32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    handle: Option<MoveText>,
    means: Vec<Option<PastMeanV1>>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PastMeanV1 {
    mean: LengthText,
    repeats: u32,
}

/// A response given outright: a row per station, a value per arm.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::store) struct KnownResponseV1 {
    unit: UnitV1,
    per_notch_out: Vec<Inline<Vec<String>>>,
}

impl KindV1 {
    fn is_other(&self) -> bool {
        self.0 == GaugeKind::Other
    }

    const fn name(kind: GaugeKind) -> &'static str {
        match kind {
            GaugeKind::Micrometer => "micrometer",
            GaugeKind::DigitalCaliper => "digital caliper",
            GaugeKind::DialCaliper => "dial caliper",
            GaugeKind::Other => "other",
        }
    }
}

impl Serialize for KindV1 {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(Self::name(self.0))
    }
}

impl<'de> Deserialize<'de> for KindV1 {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let name = String::deserialize(deserializer)?;
        GaugeKind::ALL
            .into_iter()
            .find(|kind| Self::name(*kind) == name)
            .map(Self)
            .ok_or_else(|| no_name(&name))
    }
}

impl Serialize for DateV1 {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(&self.0)
    }
}

impl<'de> Deserialize<'de> for DateV1 {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        IsoDate::parse(&text).map(Self).map_err(|_| no_date(&text))
    }
}

fn length_text(length: &TypedLength) -> LengthText {
    LengthText(length.clone())
}

fn length_texts(lengths: &[TypedLength]) -> Inline<Vec<LengthText>> {
    Inline(lengths.iter().map(length_text).collect())
}

fn typed(Inline(texts): Inline<Vec<LengthText>>) -> Vec<TypedLength> {
    texts.into_iter().map(|text| text.0).collect()
}

impl From<&Gauge> for GaugeV1 {
    fn from(gauge: &Gauge) -> Self {
        Self {
            name: gauge.name.clone(),
            kind: KindV1(gauge.kind),
            step: length_text(&gauge.step),
            limit_of_error: gauge.limit_of_error.as_ref().map(length_text),
            repeatability: gauge.repeatability.as_ref().map(ScatterV1::from),
            calibration_due: gauge.calibration_due.map(DateV1),
        }
    }
}

impl From<GaugeV1> for Gauge {
    fn from(file: GaugeV1) -> Self {
        Self {
            name: file.name,
            kind: file.kind.0,
            step: file.step.0,
            limit_of_error: file.limit_of_error.map(|limit| limit.0),
            repeatability: file.repeatability.map(KnownScatter::from),
            calibration_due: file.calibration_due.map(|due| due.0),
        }
    }
}

impl From<&KnownScatter> for ScatterV1 {
    fn from(scatter: &KnownScatter) -> Self {
        Self {
            sd: length_text(&scatter.sd),
            dof: scatter.dof,
        }
    }
}

impl From<ScatterV1> for KnownScatter {
    fn from(file: ScatterV1) -> Self {
        Self {
            sd: file.sd.0,
            dof: file.dof,
        }
    }
}

impl From<&PastVisit> for PastVisitV1 {
    fn from(visit: &PastVisit) -> Self {
        Self {
            session: visit.session.clone(),
            when: visit.when.clone(),
            arms: length_texts(&visit.arms),
            stations: length_texts(&visit.stations),
            gauge_step: length_text(&visit.gauge_step),
            repeatability: visit.repeatability.as_ref().map(length_text),
            lacing_scatter: visit.lacing_scatter.as_ref().map(length_text),
            passes: visit.passes.iter().map(past_pass).map(Inline).collect(),
        }
    }
}

fn past_pass(pass: &PastPass) -> PastPassV1 {
    // A mean was never typed; a millimetre holds every nanometre.
    let mean = |mean: &PastMean| PastMeanV1 {
        mean: LengthText(TypedLength::from_length(mean.mean, Unit::Millimetre)),
        repeats: mean.repeats,
    };
    PastPassV1 {
        nuts: pass.nuts.iter().map(|nut| nut.0).collect(),
        handle: pass.handle.clone().map(MoveText),
        means: pass.means.iter().map(|at| at.as_ref().map(mean)).collect(),
    }
}

impl From<PastVisitV1> for PastVisit {
    fn from(file: PastVisitV1) -> Self {
        let mean = |mean: PastMeanV1| PastMean {
            mean: mean.mean.0.length(),
            repeats: mean.repeats,
        };
        let pass = |Inline(pass): Inline<PastPassV1>| PastPass {
            nuts: pass.nuts.into_iter().map(NutPosition).collect(),
            handle: pass.handle.map(|handle| handle.0),
            means: pass.means.into_iter().map(|at| at.map(mean)).collect(),
        };
        Self {
            session: file.session,
            when: file.when,
            arms: typed(file.arms),
            stations: typed(file.stations),
            gauge_step: file.gauge_step.0,
            repeatability: file.repeatability.map(|scatter| scatter.0),
            lacing_scatter: file.lacing_scatter.map(|scatter| scatter.0),
            passes: file.passes.into_iter().map(pass).collect(),
        }
    }
}

impl From<&KnownResponse> for KnownResponseV1 {
    fn from(known: &KnownResponse) -> Self {
        Self {
            unit: UnitV1(known.unit()),
            per_notch_out: known.texts().iter().cloned().map(Inline).collect(),
        }
    }
}

impl TryFrom<KnownResponseV1> for KnownResponse {
    type Error = KnownResponseProblem;

    fn try_from(file: KnownResponseV1) -> Result<Self, KnownResponseProblem> {
        let table: Vec<Vec<String>> = file.per_notch_out.into_iter().map(|row| row.0).collect();
        Self::from_table(&table, file.unit.0)
    }
}
