//! By how much predictions of a press missed more than they should.

use crate::stats::Innovation;
use crate::stats::chi_square_above;

/// A pass this improbable contradicts the others.
pub const CONTRADICTION: f64 = 0.001;

/// How far predictions of a press missed: squared distances of readings from
/// what was expected of them, chi-square distributed when the model holds.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Missed {
    /// Of all passes.
    all: Distances,
    /// Of the last pass that contradicted those before it, and of all since.
    since_contradiction: Distances,
}

/// A sum of squared distances and its degrees of freedom.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
struct Distances {
    chi_square: f64,
    dof: f64,
}

impl Distances {
    fn and(self, innovation: &Innovation) -> Self {
        Self {
            chi_square: self.chi_square + innovation.chi_square,
            dof: self.dof + innovation.dof as f64,
        }
    }

    /// Their mean, pooled with as many as expected.
    fn ratio(self, expected: f64) -> f64 {
        (expected + self.chi_square) / (expected + self.dof).max(1.0)
    }
}

impl Missed {
    /// With one more pass.
    #[must_use]
    pub fn with(self, innovation: &Innovation) -> Self {
        let contradicts = chi_square_above(innovation.chi_square, innovation.dof) < CONTRADICTION;
        Self {
            all: self.all.and(innovation),
            since_contradiction: if contradicts {
                Distances::default().and(innovation)
            } else if self.since_contradiction.dof > 0.0 {
                self.since_contradiction.and(innovation)
            } else {
                self.since_contradiction
            },
        }
    }

    /// The variance of what is said next, as a multiple of that which the model
    /// gives: the observed ratio, pooled with the model's as if
    /// `TRUSTED_FREEDOM` degrees of dof had shown it. A pass that
    /// contradicts those before it shows a press that is not as it is believed
    /// to be, such as one with a slack rod: then nothing speaks for the model
    /// but the passes since. Never below one.
    pub fn widening(self) -> f64 {
        let usual = self.all.ratio(TRUSTED_FREEDOM);
        let contradicted = self.since_contradiction.ratio(0.0);
        usual.max(contradicted).clamp(1.0, MOST_WIDENING)
    }
}

/// What the model counts for against what its predictions missed, in degrees of
/// freedom.
const TRUSTED_FREEDOM: f64 = 12.0;
/// However far predictions missed, nothing is held for less sure than this many
/// times the variance.
const MOST_WIDENING: f64 = 100.0;

#[cfg(test)]
mod tests {
    use super::*;

    /// Chi-square limits of four degrees of freedom by scipy:
    /// `scipy.stats.chi2.isf([.5, .001], 4)` gives 3.357 and 18.467.
    #[test]
    fn what_missed_more_than_it_should_widens_what_is_said_next() {
        let pass = |chi_square| Innovation {
            chi_square,
            dof: 4,
            log_density: 0.0,
        };
        let after = |passes: &[f64]| {
            let passes = passes.iter().map(|chi_square| pass(*chi_square));
            passes.fold(Missed::default(), |missed, pass| missed.with(&pass))
        };
        let check = |passes: &[f64], expected: f64| {
            let found = after(passes).widening();
            assert!((found - expected).abs() < 1e-12, "{passes:?}: {found}");
        };
        check(&[], 1.0);
        // Better than it should: the model is trusted no more for that.
        check(&[0.5, 1.0, 0.1], 1.0);
        // (12 + 24) / (12 + 8), and just below a contradiction.
        check(&[6.0, 18.0], 36.0 / 20.0);
        // Beyond it, nothing but that pass speaks, then those since.
        check(&[2.0, 20.0], 5.0);
        check(&[2.0, 20.0, 4.0, 3.0], 27.0 / 12.0);
        check(&[2.0, 1e9], MOST_WIDENING);
    }
}
