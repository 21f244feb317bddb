//! How much of the tolerance a gauge uses up.

use crate::units::{Length, Unit};

use crate::splice::budget::MeanVariance;
use crate::splice::{GAUGE_PRESETS, GaugePreset, Scatter};

/// Standard deviations of readings that are set against the tolerance. Six,
/// as in the fourth edition of the AIAG manual (from memory; earlier editions
/// took 5.15).
pub const SPREAD_OF_READINGS: f64 = 6.0;

/// Whether a gauge serves for a tolerance, by the usual bounds of gauge
/// studies: up to 10 % of the tolerance it serves, up to 30 % it may do, above
/// it does not (AIAG, Measurement Systems Analysis, 4th ed. 2010; from
/// memory).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum GaugeFitness {
    /// At most 10 %.
    Serves,
    /// Above 10 % and at most 30 %.
    MayDo,
    /// Above 30 %.
    TooCoarse,
}

/// What one reading of a gauge uses up of a tolerance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GaugeShare {
    /// 6 s over the tolerance; 1 is all of it. The rounding to the step is in
    /// s and never left out, so that a gauge too coarse to scatter does not
    /// look good.
    pub share: f64,
    /// What that means.
    pub fitness: GaugeFitness,
}

impl GaugeFitness {
    /// Shares of the tolerance up to which a gauge serves, and up to which it
    /// may do.
    pub const UP_TO: [f64; 2] = [0.1, 0.3];
}

impl GaugeShare {
    /// The share for a gauge's repeatability and step; `None` unless the
    /// tolerance is positive and the scatter a number.
    pub fn of(repeatability_nm: f64, step: Length, tolerance: Length) -> Option<Self> {
        let reading = MeanVariance::of(repeatability_nm, step.nm_f64(), 1).total_nm2();
        let share = SPREAD_OF_READINGS * reading.sqrt() / tolerance.nm_f64();
        let usable = tolerance > Length::ZERO && share.is_finite();
        usable.then_some(Self {
            share,
            fitness: if share <= GaugeFitness::UP_TO[0] {
                GaugeFitness::Serves
            } else if share <= GaugeFitness::UP_TO[1] {
                GaugeFitness::MayDo
            } else {
                GaugeFitness::TooCoarse
            },
        })
    }
}

/// The coarsest gauge of the library, in `unit`, that would serve or do for a
/// tolerance with half a step of repeatability; `None` when none would.
pub fn gauge_that_would_do(tolerance: Length, unit: Unit) -> Option<GaugePreset> {
    GAUGE_PRESETS
        .into_iter()
        .filter(|preset| preset.unit == unit)
        .filter(|preset| {
            let assumed =
                Scatter::of_gauge(None, crate::splice::Pooled::default(), preset.step.nm_f64());
            GaugeShare::of(assumed.sd_nm, preset.step, tolerance)
                .is_some_and(|share| share.fitness <= GaugeFitness::MayDo)
        })
        .max_by_key(|preset| preset.step)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::splice::GaugeKind;

    #[test]
    fn a_caliper_uses_the_tolerance_up() {
        // 6 x 0.0004 / 0.003 = 0.8.
        let tolerance = Length::from_nm(76_200);
        let share = GaugeShare::of(10_160.0, Length::from_nm(12_700), tolerance).unwrap();
        assert!((share.share - 0.8).abs() < 1e-12, "{share:?}");
        assert_eq!(share.fitness, GaugeFitness::TooCoarse);
        // Readings that never differ leave the step: 6 x 0.0005 / sqrt 12 / 0.003.
        let share = GaugeShare::of(0.0, Length::from_nm(12_700), tolerance).unwrap();
        assert!((share.share - 0.288_675).abs() < 1e-6);
        assert_eq!(GaugeShare::of(1.0, Length::ZERO, Length::ZERO), None);
        assert_eq!(GaugeShare::of(f64::NAN, Length::ZERO, tolerance), None);
    }

    #[test]
    fn a_micrometer_would_do() {
        for unit in [Unit::Inch, Unit::Millimetre] {
            let found = gauge_that_would_do(Length::from_nm(76_200), unit).unwrap();
            assert_eq!(found.kind, GaugeKind::Micrometer);
        }
        assert_eq!(
            gauge_that_would_do(Length::from_nm(1_000), Unit::Inch),
            None
        );
    }
}
