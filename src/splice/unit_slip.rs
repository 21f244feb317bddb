//! Notices readings typed in the other unit.

use crate::units::Length;

/// Largest thickness, in nanometres, that a hook splice plausibly has (about
/// 2 in), and the smallest (about 0.04 in). Common practice, no source; used
/// only to flag, never to refuse.
const PLAUSIBLE_NM: (i64, i64) = (1_000_000, 50_000_000);

/// How much closer to its fellows a reading must come by the other unit.
const CLOSER: f64 = 4.0;

/// Whether `reading` looks typed in the other unit: read in inches it would
/// be 25.4 times as thick as in millimetres.
///
/// With other readings to compare with (their median), it is flagged when the
/// other unit brings it at least four times closer to them in ratio;
/// alone, when it is implausible as it stands and plausible in the other
/// unit. `as_other` is the same digits read in the other unit.
pub fn looks_typed_in_other_unit(
    reading: Length,
    as_other: Length,
    others_median: Option<Length>,
) -> bool {
    let plausible = |length: Length| (PLAUSIBLE_NM.0..=PLAUSIBLE_NM.1).contains(&length.nm());
    match others_median.filter(|median| median.nm() > 0) {
        Some(median) => off_by(as_other, median) * CLOSER < off_by(reading, median),
        None => !plausible(reading) && plausible(as_other),
    }
}

/// The ratio of the larger to the smaller.
fn off_by(length: Length, median: Length) -> f64 {
    let ratio = length.nm_f64().max(1.0) / median.nm_f64();
    ratio.max(1.0 / ratio)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(reading_nm: i64, other_nm: i64, median_nm: Option<i64>, expected: bool) {
        let found = looks_typed_in_other_unit(
            Length::from_nm(reading_nm),
            Length::from_nm(other_nm),
            median_nm.map(Length::from_nm),
        );
        assert_eq!(found, expected, "{reading_nm} {other_nm} {median_nm:?}");
    }

    #[test]
    fn flags_millimetres_in_an_inch_session() {
        check(159_766_000, 6_290_000, None, true); // 6.29 typed, taken as in
        check(159_766_000, 6_290_000, Some(6_286_500), true);
        check(6_286_500, 247_500, None, false);
        check(247_500, 6_286_500, None, true); // 0.2475 typed, taken as mm
        // Ten times off is a slip of another kind.
        check(62_865_000, 2_475_000, Some(6_286_500), false);
    }
}
