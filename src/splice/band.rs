//! The tolerance band drawn over the profile.

/// A band of the tolerance's height. Only the spread is limited, so the band
/// floats: it is laid where it covers most of what it can.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// Lower edge in nanometres.
    pub low_nm: f64,
    /// Upper edge in nanometres.
    pub high_nm: f64,
}

impl Band {
    /// The band of height `tolerance_nm` that holds the most of the given
    /// station means (nm); among those, the highest, since thin arms are
    /// cured by turns out and the trade prefers these; centred on the means
    /// it holds. `None` without a mean.
    pub fn over(means_nm: &[f64], tolerance_nm: f64) -> Option<Self> {
        let mut sorted: Vec<f64> = means_nm.iter().copied().filter(|m| m.is_finite()).collect();
        sorted.sort_by(f64::total_cmp);
        let mut best: Option<(usize, f64, f64)> = None;
        for (first, &low) in sorted.iter().enumerate() {
            // A hair of slack: a spread of exactly the tolerance is held.
            let held = sorted
                .iter()
                .skip(first)
                .take_while(|&&mean| mean - low <= tolerance_nm + 1e-6);
            let (count, high) = held.fold((0, low), |(count, _), &mean| (count + 1, mean));
            if best.is_none_or(|(most, _, _)| count >= most) {
                best = Some((count, low, high));
            }
        }
        best.map(|(_, low, high)| {
            let centre = low + (high - low) / 2.0;
            Self {
                low_nm: centre - tolerance_nm / 2.0,
                high_nm: centre + tolerance_nm / 2.0,
            }
        })
    }

    /// Whether a mean lies inside the band.
    pub fn holds(&self, mean_nm: f64) -> bool {
        self.low_nm - 1e-6 <= mean_nm && mean_nm <= self.high_nm + 1e-6
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_covers_the_most_stations() {
        let band = Band::over(&[0.0, 10.0, 11.0, 12.0], 3.0).unwrap();
        assert_eq!((band.low_nm, band.high_nm), (9.5, 12.5));
        assert!(!band.holds(0.0) && band.holds(12.0));
        // In whatever order the stations stand.
        assert_eq!(Band::over(&[12.0, 0.0, 11.0, 10.0], 3.0), Some(band));
        // Means that spread by just the tolerance touch both edges.
        let just = Band::over(&[0.0, 3.0], 3.0).unwrap();
        assert!(just.holds(0.0) && just.holds(3.0));
        assert!(!just.holds(-1e-3) && !just.holds(3.001));
        // Of two that hold as many, the thicker.
        let upper = Band::over(&[0.0, 1.0, 9.0, 10.0], 3.0).unwrap();
        assert!(upper.holds(9.0) && !upper.holds(1.0));
        assert_eq!(Band::over(&[], 3.0), None);
    }
}
