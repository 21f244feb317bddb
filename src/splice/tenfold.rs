//! Notices readings with a slipped decimal point.

use crate::units::Length;

/// How far, as a ratio, a reading may lie from its fellows before it is asked
/// about. Splices of one press differ by hundredths; a slipped point makes
/// ten. Halfway between in ratio, rounded up: a reading of another belt is
/// left in peace.
const FAR: f64 = 5.0;

/// Whether a reading lies so far from the others (their median) that it looks
/// as if its decimal point had slipped: at least five times as thick, or at
/// most a fifth. Never of a median that is no thickness.
pub fn looks_ten_times_off(reading: Length, others_median: Length) -> bool {
    let (reading, median) = (reading.nm_f64(), others_median.nm_f64());
    median > 0.0 && (reading >= median * FAR || reading * FAR <= median)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_is_far_off() {
        let off = |reading, median| {
            looks_ten_times_off(Length::from_nm(reading), Length::from_nm(median))
        };
        assert!(off(63_500_000, 6_350_000));
        assert!(off(635_000, 6_350_000));
        assert!(off(0, 6_350_000));
        assert!(!off(12_700_000, 6_350_000));
        assert!(!off(3_175_000, 6_350_000));
        assert!(!off(6_350_000, 0));
    }
}
