//! The spread and the plain comparison with the tolerance.

use serde::{Deserialize, Serialize};

use crate::units::{ExactLength, Length};

use super::{Profile, Station};

/// Largest station mean minus smallest, over the stations that count and were
/// read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Spread {
    /// The spread itself.
    pub value: ExactLength,
    /// The smallest mean.
    pub least: ExactLength,
    /// Index of the thickest station; the leftmost among equals.
    pub thickest: usize,
    /// Index of the thinnest station; the leftmost among equals.
    pub thinnest: usize,
}

impl Spread {
    /// The spread of a profile; `None` before two counting stations are read,
    /// since one thickness has no spread.
    pub fn of(stations: &[Station], profile: &Profile) -> Option<Self> {
        let mut thickest: Option<(usize, ExactLength)> = None;
        let mut thinnest: Option<(usize, ExactLength)> = None;
        let mut read = 0;
        for (index, _) in stations
            .iter()
            .enumerate()
            .filter(|(_, station)| station.counts)
        {
            let Some(mean) = profile.mean(index) else {
                continue;
            };
            read += 1;
            if thickest.is_none_or(|(_, so_far)| mean > so_far) {
                thickest = Some((index, mean));
            }
            if thinnest.is_none_or(|(_, so_far)| mean < so_far) {
                thinnest = Some((index, mean));
            }
        }
        let ((thickest, most), (thinnest, least)) = thickest.zip(thinnest)?;
        (read >= 2).then(|| Self {
            value: most.minus(least),
            least,
            thickest,
            thinnest,
        })
    }

    /// The plain comparison, which is the trade's rule. Exactly the tolerance
    /// is within it.
    pub fn is_within(&self, tolerance: Length) -> bool {
        self.value <= tolerance.into()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::press::ArmIndex;
    use crate::splice::{Cell, Reading};
    use crate::units::{Sign, TypedLength, Unit};

    fn profile(texts: &[&str]) -> (Vec<Station>, Profile) {
        let rows: Vec<Vec<Cell>> = texts
            .iter()
            .map(|row| {
                row.split_whitespace()
                    .map(|text| TypedLength::parse(text, Unit::Inch, Sign::None).unwrap())
                    .map(|typed| Cell::Reading(Reading::new(typed)))
                    .collect()
            })
            .collect();
        let stations = (0..texts.len())
            .map(|arm| Station::at_arm(ArmIndex(arm)))
            .collect();
        (stations, Profile::of(&rows))
    }

    fn is_within(texts: &[&str], tolerance: &str) -> Option<bool> {
        let tolerance = TypedLength::parse(tolerance, Unit::Inch, Sign::None).unwrap();
        let (stations, profile) = profile(texts);
        Spread::of(&stations, &profile).map(|spread| spread.is_within(tolerance.length()))
    }

    #[test]
    fn exactly_the_tolerance_is_inside() {
        assert_eq!(is_within(&["0.2500", "0.2470"], "0.003"), Some(true));
        assert_eq!(is_within(&["0.25001", "0.2470"], "0.003"), Some(false));
        // The same means from repeats that float sums would miss: 0.1 mm is
        // another tolerance than 0.003 in (0.0762 mm) and is not converted.
        assert_eq!(
            is_within(&["0.2501 0.2500 0.2499", "0.2470"], "0.003"),
            Some(true)
        );
        assert_eq!(is_within(&["6.40mm", "6.30mm"], "0.1 mm"), Some(true));
        assert_eq!(is_within(&["6.40mm", "6.30mm"], "0.003"), Some(false));
    }

    #[test]
    fn one_thickness_has_no_spread() {
        assert_eq!(is_within(&["0.2500", "", "0.2490"], "0.003"), Some(true));
        assert_eq!(is_within(&["0.2500", "", ""], "0.003"), None);
    }

    #[test]
    fn ties_go_to_the_left() {
        let (stations, profile) = profile(&["0.25", "0.26", "0.26", "0.25"]);
        let spread = Spread::of(&stations, &profile).unwrap();
        assert_eq!((spread.thickest, spread.thinnest), (1, 0));
    }
}
