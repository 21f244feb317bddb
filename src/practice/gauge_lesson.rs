//! The lesson on reading the gauge: repeats, seating, zero and unit.

use crate::stats::{Draws, Purpose};
use crate::units::{Length, Unit};

use super::exercise::USUAL_NM;
use super::shown_press::ShownPress;
use super::simulated::Scatter;

/// How much thicker a reading is with the gauge not seated square, and how much
/// more it scatters. Assumed (common practice, no source).
const NOT_SEATED_NM: f64 = 0.002 * 25.4e6;
const NOT_SEATED_FACTOR: f64 = 3.0;
/// How far a gauge that was not zeroed is off, and how far it creeps from
/// reading to reading. Assumed (common practice, no source).
const ZERO_OFF_NM: f64 = 0.0015 * 25.4e6;
const CREEP_NM: f64 = 0.0005 * 25.4e6;
/// Repeats that are shown.
const REPEATS: usize = 6;

/// Readings of a place, and what they show.
#[derive(Debug, Clone, PartialEq)]
pub enum GaugeStep {
    /// One reading of a place.
    Once {
        /// What the gauge shows.
        shown: Length,
    },
    /// The same place again and again.
    Repeats {
        /// What it shows.
        shown: Vec<Length>,
        /// Largest less smallest.
        range: Length,
    },
    /// The step of the gauge.
    Step {
        /// The step.
        step: Length,
        /// Share of the tolerance that it is.
        share: f64,
    },
    /// The mean of several is steadier.
    Mean {
        /// Standard deviation of one reading, in nanometres.
        one_nm: f64,
        /// And of the mean of [`of`](Self::Mean::of).
        mean_nm: f64,
        /// How many.
        of: usize,
    },
    /// Not seated square.
    Seating {
        /// What it shows.
        shown: Vec<Length>,
        /// How much thicker on average, in nanometres.
        thicker_nm: f64,
    },
    /// Not zeroed: every arm is off alike.
    ZeroOff {
        /// What it shows, arm by arm, of a level piece.
        shown: Vec<Length>,
        /// By how much, in nanometres.
        off_nm: f64,
    },
    /// A zero that creeps looks like a taper.
    ZeroCreeps {
        /// What it shows, arm by arm, of a level piece.
        shown: Vec<Length>,
        /// Largest less smallest.
        range: Length,
    },
    /// There and back cancels a creep.
    ThereAndBack {
        /// Mean of there and back, arm by arm.
        mean_nm: Vec<f64>,
        /// Largest less smallest, in nanometres.
        range_nm: f64,
    },
    /// The unit, and the tolerance in it.
    Unit {
        /// The tolerance in the session's unit.
        tolerance: Length,
        /// The figure that is in use in the other one, which is not the same.
        other: Length,
        /// The session's unit.
        unit: Unit,
    },
    /// The rule to take home.
    Rule,
}

pub(super) fn gauge_steps(shown: &ShownPress) -> Vec<GaugeStep> {
    let session = shown.session();
    let arms = shown.arms();
    let step = session.gauge.step.length();
    let scatter = Scatter {
        lacing_nm: 0.0,
        shift_nm: 0.0,
        tilt_nm: 0.0,
        repeatability_nm: 0.8 * step.nm_f64(),
        step_nm: step.nm_f64().max(1.0),
    };
    let mut draws = Draws::new(Purpose::Practice([0, 0, 2]));
    let mut read = |thick: f64, scatter: &Scatter| {
        Length::from_nm(scatter.reading_nm(&mut draws, thick).round() as i64)
    };
    let repeats: Vec<Length> = (0..REPEATS).map(|_| read(USUAL_NM, &scatter)).collect();
    let loose = Scatter {
        repeatability_nm: NOT_SEATED_FACTOR * scatter.repeatability_nm,
        ..scatter
    };
    let unseated: Vec<Length> = (0..REPEATS)
        .map(|_| read(USUAL_NM + NOT_SEATED_NM, &loose))
        .collect();
    let steady = Scatter {
        repeatability_nm: 0.0,
        ..scatter
    };
    let zero_off: Vec<Length> = (0..arms)
        .map(|_| read(USUAL_NM + ZERO_OFF_NM, &steady))
        .collect();
    let creeping = |reading: usize| USUAL_NM + CREEP_NM * reading as f64;
    let creeps: Vec<Length> = (0..arms).map(|arm| read(creeping(arm), &steady)).collect();
    let back: Vec<Length> = (0..arms)
        .map(|arm| read(creeping(2 * arms - 1 - arm), &steady))
        .collect();
    let mean_nm: Vec<f64> = creeps
        .iter()
        .zip(&back)
        .map(|(there, back)| 0.5 * (there.nm_f64() + back.nm_f64()))
        .collect();
    let tolerance = session.tolerance.length();
    let one_nm = (scatter.repeatability_nm.powi(2) + scatter.step_nm.powi(2) / 12.0).sqrt();
    let thicker_nm =
        unseated.iter().map(|shown| shown.nm_f64()).sum::<f64>() / REPEATS as f64 - USUAL_NM;
    vec![
        GaugeStep::Once {
            shown: repeats.first().copied().unwrap_or(Length::ZERO),
        },
        GaugeStep::Repeats {
            range: range(&repeats),
            shown: repeats,
        },
        GaugeStep::Step {
            step,
            share: step.nm_f64() / tolerance.nm_f64().max(1.0),
        },
        GaugeStep::Mean {
            one_nm,
            mean_nm: one_nm / (REPEATS as f64).sqrt(),
            of: REPEATS,
        },
        GaugeStep::Seating {
            shown: unseated,
            thicker_nm,
        },
        GaugeStep::ZeroOff {
            shown: zero_off,
            off_nm: ZERO_OFF_NM,
        },
        GaugeStep::ZeroCreeps {
            range: range(&creeps),
            shown: creeps,
        },
        GaugeStep::ThereAndBack {
            range_nm: super::simulated::spread_nm(&mean_nm),
            mean_nm,
        },
        GaugeStep::Unit {
            tolerance,
            other: crate::press::customary::tolerance(session.unit.other()),
            unit: session.unit,
        },
        GaugeStep::Rule,
    ]
}

fn range(shown: &[Length]) -> Length {
    let largest = shown.iter().max().copied().unwrap_or(Length::ZERO);
    largest.minus(shown.iter().min().copied().unwrap_or(Length::ZERO))
}
