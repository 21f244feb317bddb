//! How much readings of one place scatter, and how that is known.

use super::{LacedAgain, Pooled};

/// A standard deviation with what it rests on. Of readings it is that of
/// readings as the gauge shows them, with their rounding to its step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scatter {
    /// The standard deviation in nanometres.
    pub sd_nm: f64,
    /// Its degrees of freedom; infinite where it is taken as known.
    pub dof: f64,
    /// What it rests on.
    pub source: ScatterSource,
}

/// What a scatter rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ScatterSource {
    /// Typed in by the user, as known.
    Typed,
    /// Found by a check of the gauge, weighed with what is assumed.
    GaugeCheck,
    /// Found in repeated readings of splices, weighed with the assumption
    /// made before there were any: how many stations with repeats.
    Repeats(usize),
    /// Found in passes laced again without a turn, weighed with the assumption
    /// made before there were any: how many lacings.
    Lacings(usize),
    /// Assumed until there are repeats.
    Assumed,
}

/// Degrees of freedom that the assumed repeatability weighs as much as.
const ASSUMED_FREEDOM: f64 = 2.0;

/// The repeatability assumed of a gauge, in nanometres: half a step, and its
/// rounding: s^2 = step^2 / 4 + step^2 / 12.
pub fn assumed_repeatability_nm(step_nm: f64) -> f64 {
    step_nm.abs() / 3_f64.sqrt()
}

/// The lacing scatter assumed until it is found: 0.0003 in, weighing as much as
/// four degrees of freedom, by which 0.0002 in and 0.0006 in are still likely.
pub const ASSUMED_LACING: Scatter = Scatter {
    sd_nm: 7_620.0,
    dof: 4.0,
    source: ScatterSource::Assumed,
};

impl Scatter {
    /// The repeatability of a gauge.
    ///
    /// What was typed is used as it is. What a check of the gauge found is
    /// pooled with a0 of [`assumed_repeatability_nm`], which counts like two
    /// degrees of freedom; without either, the repeats are, and outweigh it as
    /// they come in:
    ///
    /// s^2 = (2 a0^2 + sum of squares) / (2 + degrees of freedom),
    ///
    /// the mean-square form of the conjugate scaled inverse chi-square rule
    /// (Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, section 2.6).
    /// The result is never zero, even if all repeats are equal.
    ///
    /// `step_nm` and the sums must be finite and not negative; others count
    /// as zero.
    pub fn of_gauge(stated: Option<Self>, repeats: Pooled, step_nm: f64) -> Self {
        let assumed = Self {
            sd_nm: assumed_repeatability_nm(or_zero(step_nm)),
            dof: ASSUMED_FREEDOM,
            source: ScatterSource::Assumed,
        };
        if let Some(stated) = stated.filter(|stated| stated.is_usable()) {
            return stated.beside(assumed);
        }
        let squares = assumed.squares() + or_zero(repeats.sum_of_squares_nm2);
        let dof = assumed.dof + or_zero(repeats.dof);
        Self {
            sd_nm: (squares / dof).sqrt(),
            dof,
            source: if repeats.dof > 0.0 {
                ScatterSource::Repeats(repeats.samples)
            } else {
                ScatterSource::Assumed
            },
        }
    }

    /// The scatter from one lacing to the next: what was typed as it is; else
    /// what is assumed ([`ASSUMED_LACING`]), what a check found and what
    /// passes laced again without a turn show, pooled by their degrees of
    /// freedom as in [`of_gauge`](Self::of_gauge).
    pub fn of_lacing(stated: Option<Self>, again: LacedAgain) -> Self {
        let stated = stated.filter(|stated| stated.is_usable());
        let so_far = stated.map_or(ASSUMED_LACING, |stated| stated.beside(ASSUMED_LACING));
        let assumed = ASSUMED_LACING.sd_nm * ASSUMED_LACING.sd_nm;
        let (variance_nm2, dof) = again.variance_nm2(assumed);
        if dof <= 0.0 {
            return so_far;
        }
        let found = Self {
            sd_nm: variance_nm2.sqrt(),
            dof,
            source: ScatterSource::Lacings(again.lacings),
        };
        match so_far.source {
            ScatterSource::Assumed => found.beside(so_far),
            _ => so_far.beside(found),
        }
    }

    /// Pooled with another by degrees of freedom, under its own name; where it
    /// is taken as known, itself.
    fn beside(self, other: Self) -> Self {
        if self.dof == f64::INFINITY {
            return self;
        }
        let dof = self.dof + other.dof;
        Self {
            sd_nm: ((self.squares() + other.squares()) / dof).sqrt(),
            dof,
            ..self
        }
    }

    fn squares(&self) -> f64 {
        self.dof * self.sd_nm * self.sd_nm
    }

    fn is_usable(&self) -> bool {
        self.sd_nm.is_finite() && self.sd_nm >= 0.0 && self.dof > 0.0
    }
}

fn or_zero(value: f64) -> f64 {
    if value.is_finite() {
        value.max(0.0)
    } else {
        0.0
    }
}
