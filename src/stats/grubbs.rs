//! Published tests for values that do not fit.

use super::variance::mean;
use crate::stats::student_critical;

/// One step of a test: the value furthest from the mean.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Furthest {
    /// Index of the value.
    pub index: usize,
    /// Its distance from the mean in standard deviations.
    pub statistic: f64,
    /// What scatter alone exceeds with probability alpha.
    pub critical: f64,
}

impl Furthest {
    /// Whether the value does not fit.
    pub fn does_not_fit(&self) -> bool {
        self.statistic > self.critical
    }
}

/// Grubbs' test, two-sided: whether the value furthest from the mean fits a
/// normal sample.
///
/// G = max |x - mean| / s against the critical value of
/// [`grubbs_critical`]. Source: Grubbs, Technometrics 11 (1969) 1; formula as
/// in the NIST/SEMATECH e-Handbook, 1.3.5.17.1.
///
/// `rounding_u` is the standard uncertainty of the values' rounding, step over
/// sqrt 12, in their unit; s is taken as sqrt(s^2 + rounding_u^2). Zero gives
/// the published test. Without it two readings that happen to show the same
/// step make any third one a stray.
///
/// `None` below three values, when all are equal, when one is not finite, or
/// for an `alpha` outside 0 to 1.
pub fn grubbs(values: &[f64], rounding_u: f64, alpha: f64) -> Option<Furthest> {
    let (index, statistic) = furthest(values, rounding_u)?;
    Some(Furthest {
        index,
        statistic,
        critical: grubbs_critical(values.len(), alpha)?,
    })
}

/// Critical value of Grubbs' test, two-sided:
///
/// (n - 1) / sqrt n x sqrt(t^2 / (n - 2 + t^2)), with t the value Student's t
/// with n - 2 degrees of freedom exceeds with probability alpha / (2n).
///
/// `None` below three values or for an `alpha` outside 0 to 1.
pub fn grubbs_critical(count: usize, alpha: f64) -> Option<f64> {
    if count < 3 {
        return None;
    }
    let n = count as f64;
    let t = student_critical(alpha / n, n - 2.0)?;
    // As t^2 / (n - 2 + t^2) = 1 / (1 + (n - 2) / t^2), which a huge t leaves
    // a number.
    Some((n - 1.0) / n.sqrt() / (1.0 + (n - 2.0) / (t * t)).sqrt())
}

/// The generalised extreme studentised deviate test for up to `most` values
/// that do not fit: the indices that are out, the furthest first.
///
/// The furthest value is taken out `most` times; the number out is the largest
/// i whose statistic exceeds its critical value, so that two stray values do
/// not hide each other. Source: Rosner, Technometrics 25 (1983) 165; formula
/// as in the NIST/SEMATECH e-Handbook, 1.3.5.17.3, which calls it accurate
/// from 15 values up. `rounding_u` as for [`grubbs`].
pub fn generalised_esd(values: &[f64], rounding_u: f64, most: usize, alpha: f64) -> Vec<Furthest> {
    let mut left: Vec<(usize, f64)> = values.iter().copied().enumerate().collect();
    let mut steps: Vec<Furthest> = Vec::new();
    while steps.len() < most {
        let now: Vec<f64> = left.iter().map(|(_, value)| *value).collect();
        // The critical value of step i is Grubbs' at the n - i + 1 values
        // still in.
        let Some(found) = grubbs(&now, rounding_u, alpha) else {
            break;
        };
        let (index, _) = left.remove(found.index);
        steps.push(Furthest { index, ..found });
    }
    let out = steps.iter().rposition(Furthest::does_not_fit);
    steps.truncate(out.map_or(0, |last| last + 1));
    steps
}

/// The value furthest from the mean, the first among equals, and its distance
/// in standard deviations.
fn furthest(values: &[f64], rounding_u: f64) -> Option<(usize, f64)> {
    let origin = *values.first()?;
    let centre = mean(values.iter().map(|value| value - origin));
    let away = |value: &f64| value - origin - centre;
    let squares: f64 = values.iter().map(|value| away(value) * away(value)).sum();
    let variance = squares / (values.len() - 1).max(1) as f64;
    let sd = (variance + rounding_u * rounding_u).sqrt();
    if !(sd.is_finite() && sd > 0.0) {
        return None;
    }
    let distances = values.iter().map(|value| away(value).abs());
    let (index, most) = distances
        .enumerate()
        .reduce(|best, next| if next.1 > best.1 { next } else { best })?;
    Some((index, most / sd))
}
