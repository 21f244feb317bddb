//! The lesson on reading the gauge: repeats, seating, zero and unit.

use crate::stats::{Draws, Purpose};
use crate::units::{Length, Unit};

use super::exercise::USUAL_NM;
use super::hidden::usual_scatter;
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
/// Where between two steps of the gauge the true thickness lies.
const BETWEEN_STEPS: f64 = 0.4;

/// Readings of a place, and what they show.
#[derive(Debug, Clone, PartialEq)]
pub enum GaugeStep {
    /// Where one reading is taken.
    Where,
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
        /// How thick the place truly is, in nanometres: between two steps.
        true_nm: f64,
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
        /// Their average, in nanometres.
        mean_nm: f64,
        /// That of the gauge seated square.
        square_nm: f64,
    },
    /// Not zeroed: every arm is off alike.
    ZeroOff {
        /// What it shows, arm by arm, of a level piece.
        shown: Vec<Length>,
        /// By how much, in nanometres.
        off_nm: f64,
    },
    /// Zero set halfway through: a level piece shows a step.
    ZeroHalfway {
        /// What it shows, arm by arm, of a level piece.
        shown: Vec<Length>,
        /// Largest less smallest.
        range: Length,
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
        /// What it shows on the way there, arm by arm.
        there: Vec<Length>,
        /// And on the way back.
        back: Vec<Length>,
        /// Mean of there and back, arm by arm.
        mean_nm: Vec<f64>,
        /// How much too thick they are, all alike, in nanometres.
        off_nm: f64,
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

/// How often readings are drawn until their scatter shows for what it is.
const TRIES: u64 = 200;

/// The steps, with a gauge that reads in a unit: the session's own where it
/// does, else the usual one.
pub(super) fn gauge_steps(shown: &ShownPress, unit: Unit) -> Vec<GaugeStep> {
    let session = shown.session();
    let arms = shown.arms();
    let step_nm = if unit == session.unit {
        session.gauge.step.length().nm_f64().max(1.0)
    } else {
        usual_scatter(unit).step_nm
    };
    let step = Length::from_nm(step_nm as i64);
    let scatter = Scatter {
        lacing_nm: 0.0,
        shift_nm: 0.0,
        tilt_nm: 0.0,
        repeatability_nm: 0.8 * step_nm,
        step_nm,
    };
    let whole = |nm: f64| (nm / step_nm).round().max(1.0) * step_nm;
    let (level_nm, zero_off_nm, creep_nm) = (
        (USUAL_NM / step_nm).round() * step_nm,
        whole(ZERO_OFF_NM),
        whole(CREEP_NM),
    );
    // Between two steps of the gauge, as thicknesses are.
    let true_nm = level_nm + BETWEEN_STEPS * step_nm;
    let drawn = |number: u64, thick: f64, scatter: &Scatter| -> Vec<Length> {
        let mut draws = Draws::new(Purpose::Practice([0, number, 2]));
        let shown = (0..REPEATS).map(|_| scatter.reading_nm(&mut draws, thick));
        shown.map(|nm| Length::from_nm(nm.round() as i64)).collect()
    };
    // Up and down, not one way: that would look like a zero that creeps.
    let wavers = |shown: &Vec<Length>| {
        let ways = shown.iter().zip(shown.iter().skip(1));
        let ways: Vec<bool> = ways
            .filter(|(one, next)| one != next)
            .map(|(one, next)| next > one)
            .collect();
        let turns = ways.iter().zip(ways.iter().skip(1));
        turns.filter(|(one, next)| one != next).count() >= 2
    };
    let repeated = |thick: f64, scatter: &Scatter, over: Length| {
        let mut tried = (0..TRIES).map(|number| drawn(number, thick, scatter));
        let found = tried.find(|shown| wavers(shown) && range(shown) > over);
        found.unwrap_or_else(|| drawn(0, thick, scatter))
    };
    let repeats = repeated(true_nm, &scatter, Length::ZERO);
    let loose = Scatter {
        repeatability_nm: NOT_SEATED_FACTOR * scatter.repeatability_nm,
        ..scatter
    };
    let unseated = repeated(true_nm + whole(NOT_SEATED_NM), &loose, range(&repeats));
    let steady = |nm: f64| Length::from_nm(nm.round() as i64);
    let zero_off = vec![steady(level_nm + zero_off_nm); arms];
    let halfway = arms / 2;
    let off_until = |arm: usize| if arm < halfway { zero_off_nm } else { 0.0 };
    let zero_halfway: Vec<Length> = (0..arms)
        .map(|arm| steady(level_nm + off_until(arm)))
        .collect();
    let creeping = |reading: usize| steady(level_nm + creep_nm * reading as f64);
    let creeps: Vec<Length> = (0..arms).map(creeping).collect();
    let back: Vec<Length> = (0..arms).map(|arm| creeping(2 * arms - 1 - arm)).collect();
    let mean_nm: Vec<f64> = creeps
        .iter()
        .zip(&back)
        .map(|(there, back)| 0.5 * (there.nm_f64() + back.nm_f64()))
        .collect();
    let tolerance = session.tolerance.length();
    let one_nm = (scatter.repeatability_nm.powi(2) + scatter.step_nm.powi(2) / 12.0).sqrt();
    let mean = |shown: &[Length]| {
        shown.iter().map(|shown| shown.nm_f64()).sum::<f64>() / shown.len().max(1) as f64
    };
    let seating = GaugeStep::Seating {
        mean_nm: mean(&unseated),
        square_nm: mean(&repeats),
        shown: unseated,
    };
    vec![
        GaugeStep::Where,
        GaugeStep::Once {
            shown: repeats.first().copied().unwrap_or(Length::ZERO),
        },
        GaugeStep::Repeats {
            range: range(&repeats),
            shown: repeats,
        },
        GaugeStep::Step {
            step,
            share: step_nm / tolerance.nm_f64().max(1.0),
            true_nm,
        },
        GaugeStep::Mean {
            one_nm,
            mean_nm: one_nm / (REPEATS as f64).sqrt(),
            of: REPEATS,
        },
        seating,
        GaugeStep::ZeroOff {
            shown: zero_off,
            off_nm: zero_off_nm,
        },
        GaugeStep::ZeroHalfway {
            range: range(&zero_halfway),
            shown: zero_halfway,
        },
        GaugeStep::ZeroCreeps {
            range: range(&creeps),
            shown: creeps.clone(),
        },
        GaugeStep::ThereAndBack {
            off_nm: mean_nm.first().map_or(0.0, |mean| mean - level_nm),
            mean_nm,
            there: creeps,
            back,
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
