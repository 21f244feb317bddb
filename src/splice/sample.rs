//! Scatter of repeated readings, from exact sums.

use crate::units::Length;

/// Largest distance between two readings of one sample, in nanometres: one
/// kilometre. With at most [`MOST_READINGS`] no sum below leaves `i128`.
const MOST_APART_NM: i128 = 1_000_000_000_000;

/// Most readings of one sample.
const MOST_READINGS: i128 = 1_000_000;

/// Repeated readings of one thing, reduced to exact sums.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sample {
    count: i128,
    /// The sums are of differences from the first reading.
    sum_nm: i128,
    sum_of_squares_nm2: i128,
}

impl Sample {
    /// The sample of some readings; `None` when there are none, more than a
    /// million, or any a kilometre from the first.
    pub fn of<I>(readings: I) -> Option<Self>
    where
        I: IntoIterator<Item = Length>,
    {
        let mut readings = readings.into_iter();
        let origin = readings.next()?;
        let mut sample = Self {
            count: 1,
            sum_nm: 0,
            sum_of_squares_nm2: 0,
        };
        for reading in readings {
            let apart = i128::from(reading.nm()) - i128::from(origin.nm());
            if apart.abs() > MOST_APART_NM || sample.count == MOST_READINGS {
                return None;
            }
            sample.count += 1;
            sample.sum_nm += apart;
            sample.sum_of_squares_nm2 += apart * apart;
        }
        Some(sample)
    }

    /// How many readings.
    pub fn count(&self) -> usize {
        usize::try_from(self.count).unwrap_or(usize::MAX)
    }

    /// Degrees of freedom of the scatter: readings less one.
    pub fn dof(&self) -> f64 {
        (self.count - 1) as f64
    }

    /// Sum of squared deviations from the mean, in square nanometres:
    /// (n sum d^2 - (sum d)^2) / n with d from the first reading, exact up to
    /// the one division.
    pub fn sum_of_squares_nm2(&self) -> f64 {
        let numerator = self.count * self.sum_of_squares_nm2 - self.sum_nm * self.sum_nm;
        numerator as f64 / self.count as f64
    }

    /// Standard deviation with n - 1, in nanometres; `None` for one reading.
    pub fn sd_nm(&self) -> Option<f64> {
        (self.count > 1).then(|| (self.sum_of_squares_nm2() / self.dof()).sqrt())
    }
}
