//! Scatter pooled over several samples.

use super::Sample;

/// Scatter of samples that need not share a mean but share their scatter:
/// the sums of squares about each mean are added and divided by the degrees
/// of freedom added (GUM, JCGM 100:2008, 4.2.4 and H.3.6 note).
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Pooled {
    /// Sum of squared deviations from each sample's own mean, nm^2.
    pub sum_of_squares_nm2: f64,
    /// Degrees of freedom.
    pub dof: f64,
    /// Samples of two readings or more.
    pub samples: usize,
}

impl Pooled {
    /// The pool of some samples. Single readings say nothing about scatter
    /// and are passed over.
    pub fn of(samples: impl IntoIterator<Item = Sample>) -> Self {
        samples
            .into_iter()
            .filter(|sample| sample.count() > 1)
            .map(|sample| Self {
                sum_of_squares_nm2: sample.sum_of_squares_nm2(),
                dof: sample.dof(),
                samples: 1,
            })
            .fold(Self::default(), Self::and)
    }

    /// Both pools in one.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self {
            sum_of_squares_nm2: self.sum_of_squares_nm2 + other.sum_of_squares_nm2,
            dof: self.dof + other.dof,
            samples: self.samples + other.samples,
        }
    }
}
