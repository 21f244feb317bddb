//! The gauge of a session and what is known of its scatter.

use serde::{Deserialize, Serialize};

use crate::codec::is_usual;
use crate::splice::{GaugeKind, GaugePreset, Scatter, ScatterSource};
use crate::units::{Length, TypedLength, Unit};

use super::IsoDate;

/// The gauge the splice is measured with.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Gauge {
    /// What the shop calls it.
    #[serde(default)]
    pub name: String,
    /// Its kind.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub kind: GaugeKind,
    /// Its step: the smallest change it shows.
    pub step: TypedLength,
    /// Its stated limit of error, either way. It matters to the level only:
    /// in differences a common error cancels.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub limit_of_error: Option<TypedLength>,
    /// Standard deviation of repeated readings, where it is known.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub repeatability: Option<KnownScatter>,
    /// Last day on which its calibration holds.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub calibration_due: Option<IsoDate>,
}

/// A standard deviation that was typed in or found by a check.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KnownScatter {
    /// The standard deviation.
    pub sd: TypedLength,
    /// Its degrees of freedom when it was found by a check; `None` when it
    /// was typed and is taken as known.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub dof: Option<u32>,
}

impl Gauge {
    /// A gauge of which only the step is known.
    pub fn with_step(name: String, step: TypedLength) -> Self {
        Self {
            name,
            kind: GaugeKind::Other,
            step,
            limit_of_error: None,
            repeatability: None,
            calibration_due: None,
        }
    }

    /// Takes a name, and the kind that it says where none was chosen.
    pub(crate) fn call(&mut self, name: &str) {
        name.clone_into(&mut self.name);
        if self.kind == GaugeKind::Other {
            self.kind = GaugeKind::called(name);
        }
    }

    /// Takes kind, step and limit of error from the library. What was known
    /// of another gauge's scatter is let go.
    pub(super) fn start_from(&mut self, preset: &GaugePreset) {
        let typed = |length| TypedLength::from_length(length, preset.unit);
        self.kind = preset.kind;
        self.step = typed(preset.step);
        // Limits are published in millimetres.
        self.limit_of_error = preset
            .limit_of_error
            .map(|limit| TypedLength::from_length(limit, Unit::Millimetre));
        self.repeatability = None;
    }

    /// Whether anybody said what gauge it is, or anything of it but its step.
    pub fn is_chosen(&self) -> bool {
        let known = self.limit_of_error.is_some() || self.repeatability.is_some();
        known || !self.name.trim().is_empty() || self.kind != GaugeKind::Other
    }

    /// The scatter of its readings, where it is known.
    pub fn stated_scatter(&self) -> Option<Scatter> {
        self.repeatability.as_ref().map(KnownScatter::scatter)
    }

    /// Whether the calibration has run out on a given day.
    pub fn is_overdue(&self, today: IsoDate) -> bool {
        self.calibration_due.is_some_and(|due| due < today)
    }

    /// Standard uncertainty of the gauge's scale in nanometres: the limit of
    /// error over sqrt 3 (JCGM 100:2008, 4.3.7), zero where none is stated.
    pub fn scale_u_nm(&self) -> f64 {
        let limit = self.limit_of_error.as_ref();
        limit.map_or(0.0, |limit| limit.length().nm_f64().abs() / 3_f64.sqrt())
    }
}

impl KnownScatter {
    /// A standard deviation found by a check, to the nearest nanometre, in
    /// `unit`; `None` when it is no number or absurdly large.
    pub fn found(scatter: Scatter, unit: Unit) -> Option<Self> {
        let nm = scatter.sd_nm.round();
        if !(0.0..1e12).contains(&nm) {
            return None;
        }
        Some(Self {
            sd: TypedLength::from_length(Length::from_nm(nm as i64), unit),
            // Degrees of freedom are rounded down, as JCGM 100:2008, G.4.1
            // advises, but one is left.
            dof: Some(scatter.dof.clamp(1.0, 1e6) as u32),
        })
    }

    /// As the reckoning uses it.
    pub fn scatter(&self) -> Scatter {
        Scatter {
            sd_nm: self.sd.length().nm_f64(),
            dof: self.dof.map_or(f64::INFINITY, f64::from),
            source: match self.dof {
                Some(_) => ScatterSource::GaugeCheck,
                None => ScatterSource::Typed,
            },
        }
    }
}
