//! Exact fractions of a nanometre: means of readings and their differences.

use std::cmp::Ordering;

use serde::{Deserialize, Serialize};

use super::{Length, Unit};

/// A length as an exact fraction of nanometres, for means and spreads.
///
/// The fraction is kept as sum over count and compared by cross
/// multiplication, so a mean of three readings never gains or loses a hair
/// against a limit. With at most 1 000 repeats of readings below one metre,
/// every product stays far inside `i128`.
#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
#[serde(try_from = "(i64, i64)", into = "(i64, i64)")]
pub struct ExactLength {
    numerator_nm: i128,
    denominator: i128,
}

impl ExactLength {
    /// The mean of some lengths; `None` when there are none.
    pub fn mean(lengths: impl IntoIterator<Item = Length>) -> Option<Self> {
        let (sum, count) = lengths
            .into_iter()
            .fold((0_i128, 0_i128), |(sum, count), length| {
                (sum + i128::from(length.nm()), count + 1)
            });
        (count > 0).then_some(Self {
            numerator_nm: sum,
            denominator: count,
        })
    }

    /// Numerator in nanometres and positive denominator.
    pub fn parts(self) -> (i128, i128) {
        (self.numerator_nm, self.denominator)
    }

    /// The difference of two exact lengths.
    pub fn minus(self, other: Self) -> Self {
        Self {
            numerator_nm: self.numerator_nm * other.denominator
                - other.numerator_nm * self.denominator,
            denominator: self.denominator * other.denominator,
        }
    }

    /// The sum of two exact lengths.
    pub fn plus(self, other: Self) -> Self {
        Self {
            numerator_nm: self.numerator_nm * other.denominator
                + other.numerator_nm * self.denominator,
            denominator: self.denominator * other.denominator,
        }
    }

    /// The nearest float in nanometres; exact for whole nanometres.
    pub fn nm_f64(self) -> f64 {
        self.numerator_nm as f64 / self.denominator as f64
    }

    /// The nearest float in `unit`.
    pub fn in_unit(self, unit: Unit) -> f64 {
        // One division of two exactly represented integers gives the
        // correctly rounded quotient: 0.003 in prints as 0.003.
        self.numerator_nm as f64 / (self.denominator * i128::from(unit.nm())) as f64
    }
}

/// Parts beyond `i64`, which no readings give, are taken for zero.
impl From<ExactLength> for (i64, i64) {
    fn from(exact: ExactLength) -> Self {
        let part = |part: i128| i64::try_from(part).ok();
        part(exact.numerator_nm)
            .zip(part(exact.denominator))
            .unwrap_or((0, 1))
    }
}

impl TryFrom<(i64, i64)> for ExactLength {
    type Error = &'static str;

    fn try_from((numerator_nm, denominator): (i64, i64)) -> Result<Self, Self::Error> {
        match denominator {
            1.. => Ok(Self {
                numerator_nm: numerator_nm.into(),
                denominator: denominator.into(),
            }),
            _ => Err("denominator below 1"),
        }
    }
}

impl From<Length> for ExactLength {
    fn from(length: Length) -> Self {
        Self {
            numerator_nm: i128::from(length.nm()),
            denominator: 1,
        }
    }
}

impl PartialEq for ExactLength {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for ExactLength {}

impl PartialOrd for ExactLength {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for ExactLength {
    fn cmp(&self, other: &Self) -> Ordering {
        (self.numerator_nm * other.denominator).cmp(&(other.numerator_nm * self.denominator))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mean_of_thirds_is_exact() {
        let thirds = ExactLength::mean([1, 1, 2].map(Length::from_nm)).unwrap();
        assert_eq!(thirds.parts(), (4, 3));
        assert!(thirds > Length::from_nm(1).into());
        assert!(thirds < Length::from_nm(2).into());
        assert_eq!(ExactLength::mean([]), None);
    }

    #[test]
    fn a_spread_of_exactly_the_limit_is_not_above_it() {
        // 0.2500 in and 0.2470 in; 1 in = 25.4 mm exactly (Federal Register,
        // 1 July 1959).
        let thick = ExactLength::from(Length::from_nm(6_350_000));
        let thin = ExactLength::from(Length::from_nm(6_273_800));
        let spread = thick.minus(thin);
        assert_eq!(spread, Length::from_nm(76_200).into());
        assert_eq!(spread.in_unit(Unit::Inch), 0.003);
    }
}
