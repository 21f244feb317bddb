//! Figures of a session: for people as text, for programs as numbers.

use serde_json::{Value, json};

use crate::plan::EQUAL_SPREAD_NM;
use crate::session::{Advice, Gate, Plan, Session};
use crate::units::Unit;
use crate::words::{Figures, Language};

use super::many::without_nothing;

/// Figures in the session's own unit.
pub(super) fn figures_of(session: &Session, language: Language) -> Figures {
    Figures {
        language,
        unit: session.unit,
        step: session.gauge.step.length(),
        limit: Some(session.tolerance.length()),
    }
}

/// A predicted length in nanometres as a number in a unit.
///
/// Predictions are known to [`EQUAL_SPREAD_NM`] at best; rounded to it, one
/// that is a whole number of nanometres is the shortest decimal again.
pub(super) fn predicted_in(nm: f64, unit: Unit) -> f64 {
    let steps = (nm / EQUAL_SPREAD_NM).round();
    let per_nm = (1.0 / EQUAL_SPREAD_NM).round();
    steps / per_nm / unit.nm() as f64
}

/// The spread that a plan promises as a number in a unit; for one that leaves
/// every nut, the very spread that was read.
pub(super) fn promised_in(plan: &Plan, advice: &Advice, unit: Unit) -> f64 {
    if plan.leaves_all() {
        let spread = advice.gate.spread.as_ref();
        spread.map_or(0.0, |spread| spread.value.in_unit(unit))
    } else {
        predicted_in(plan.spread_nm, unit)
    }
}

/// The doubtful readings behind a gate, for other programs: the reading counted
/// from 1, and what it likely is where that can be told.
pub(super) fn doubt_lines(session: &Session, gate: &Gate) -> Vec<Value> {
    let lines = gate.doubtful.iter().map(|doubt| {
        let line = json!({
            "station": session.station_name(doubt.station),
            "reading": doubt.repeat + 1,
            "likely": doubt.likely.as_ref().map(|likely| likely.text()),
        });
        without_nothing(line, &["likely"])
    });
    lines.collect()
}

/// The names of the counting stations that are not read.
pub(super) fn missing_names(session: &Session, gate: &Gate) -> Vec<String> {
    let missing = gate.missing.iter();
    missing
        .map(|station| session.station_name(*station))
        .collect()
}
