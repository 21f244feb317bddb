//! How much readings of one place scatter, and how that is known.

use super::Pooled;

/// A standard deviation with what it rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scatter {
    /// The standard deviation in nanometres.
    pub sd_nm: f64,
    /// Its degrees of freedom; infinite where it is taken as known.
    pub freedom: f64,
    /// What it rests on.
    pub source: ScatterSource,
}

/// What a scatter rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ScatterSource {
    /// Typed in by the user, as known.
    Typed,
    /// Found by a check of the gauge.
    GaugeCheck,
    /// Found in repeated readings of splices, weighed with the assumption
    /// made before there were any: how many stations with repeats.
    Repeats(usize),
    /// Assumed until there are repeats.
    Assumed,
}

/// Degrees of freedom that the assumed repeatability weighs as much as.
const ASSUMED_FREEDOM: f64 = 2.0;

/// The assumed repeatability, in steps of the gauge.
const ASSUMED_STEPS: f64 = 0.5;

/// The lacing scatter assumed until it is found: 0.0003 in.
pub const ASSUMED_LACING: Scatter = Scatter {
    sd_nm: 7_620.0,
    freedom: f64::INFINITY,
    source: ScatterSource::Assumed,
};

impl Scatter {
    /// The repeatability of a gauge.
    ///
    /// What is `stated` (typed, or found by a gauge check) is used as it is.
    /// Without it, half a step is assumed and counted like two degrees of
    /// freedom, and repeats outweigh it as they come in:
    ///
    /// s^2 = (2 (step/2)^2 + sum of squares) / (2 + degrees of freedom),
    ///
    /// the mean-square form of the conjugate scaled inverse chi-square rule
    /// (Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, section 2.6).
    /// The result is never zero, even if all repeats are equal.
    ///
    /// `step_nm` and the sums must be finite and not negative; others count
    /// as zero.
    pub fn of_gauge(stated: Option<Self>, repeats: Pooled, step_nm: f64) -> Self {
        if let Some(stated) = stated.filter(|stated| stated.is_usable()) {
            return stated;
        }
        let assumed = ASSUMED_STEPS * or_zero(step_nm);
        let squares = ASSUMED_FREEDOM * assumed * assumed + or_zero(repeats.sum_of_squares_nm2);
        let freedom = ASSUMED_FREEDOM + or_zero(repeats.freedom);
        Self {
            sd_nm: (squares / freedom).sqrt(),
            freedom,
            source: if repeats.freedom > 0.0 {
                ScatterSource::Repeats(repeats.samples)
            } else {
                ScatterSource::Assumed
            },
        }
    }

    fn is_usable(&self) -> bool {
        self.sd_nm.is_finite() && self.sd_nm >= 0.0 && self.freedom > 0.0
    }
}

fn or_zero(value: f64) -> f64 {
    if value.is_finite() {
        value.max(0.0)
    } else {
        0.0
    }
}
