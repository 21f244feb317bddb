//! The tolerance band drawn over the profile.

/// A band of the tolerance's height. Only the spread is limited, so the band
/// floats: it is laid where the least has to be turned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// Lower edge in nanometres.
    pub low_nm: f64,
    /// Upper edge in nanometres.
    pub high_nm: f64,
}

impl Band {
    /// The band of height `tolerance_nm` that leaves the least of the given
    /// station means (nm) outside, each mean above it counting twice: it is
    /// cured by turning in, which plans reckon at twice the minutes of turning
    /// out, and so what lies outside is what they turn. Among equals the highest; centred on the means it holds.
    /// `None` without a mean.
    pub fn over(means_nm: &[f64], tolerance_nm: f64) -> Option<Self> {
        let mut sorted: Vec<f64> = means_nm.iter().copied().filter(|m| m.is_finite()).collect();
        sorted.sort_by(f64::total_cmp);
        let mut best: Option<(usize, f64, f64)> = None;
        let all = sorted.len();
        for (first, &low) in sorted.iter().enumerate() {
            // A hair of slack: a spread of exactly the tolerance is held.
            let held = sorted
                .iter()
                .skip(first)
                .take_while(|&&mean| mean - low <= tolerance_nm + 1e-6);
            let (count, high) = held.fold((0, low), |(count, _), &mean| (count + 1, mean));
            let work = first + 2 * (all - first - count);
            if best.is_none_or(|(least, _, _)| work <= least) {
                best = Some((work, low, high));
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

    /// The band moved as little as it takes to hold `others` (nm) too, without
    /// letting go of what it holds of `means_nm`; `None` where it cannot hold all of
    /// the others that way.
    pub fn holding(self, means_nm: &[f64], others: &[f64]) -> Option<Self> {
        let held = means_nm.iter().copied().filter(|mean| self.holds(*mean));
        let all = held.chain(others.iter().copied());
        let (low, high) = all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), nm| {
            (low.min(nm), high.max(nm))
        });
        let moved = (high - self.high_nm).max(0.0) + (low - self.low_nm).min(0.0);
        let band = Self {
            low_nm: self.low_nm + moved,
            high_nm: self.high_nm + moved,
        };
        (band.holds(low) && band.holds(high)).then_some(band)
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
    fn it_moves_to_hold_the_next_piece_too() {
        let means = [0.0, 10.0, 11.0];
        // Over 10 and 11 it lies from 9 to 12, and may lie from 8 to 13.
        let band = Band::over(&means, 3.0).unwrap();
        let over = |others: &[f64]| {
            let moved = band.holding(&means, others)?;
            Some((moved.low_nm, moved.high_nm))
        };
        assert_eq!(over(&[10.0, 11.5]), Some((9.0, 12.0)));
        assert_eq!(over(&[11.0, 13.0]), Some((10.0, 13.0)));
        assert_eq!(over(&[8.0]), Some((8.0, 11.0)));
        assert_eq!(over(&[11.0, 13.5]), None);
        assert_eq!(over(&[8.0, 12.0]), None);
    }

    #[test]
    fn what_lies_outside_is_what_turns_cure() {
        let band = Band::over(&[0.0, 10.0, 11.0, 12.0], 3.0).unwrap();
        assert_eq!((band.low_nm, band.high_nm), (9.5, 12.5));
        assert!(!band.holds(0.0) && band.holds(12.0));
        // In whatever order the stations stand.
        assert_eq!(Band::over(&[12.0, 0.0, 11.0, 10.0], 3.0), Some(band));
        // Means that spread by just the tolerance touch both edges.
        let just = Band::over(&[0.0, 3.0], 3.0).unwrap();
        assert!(just.holds(0.0) && just.holds(3.0));
        assert!(!just.holds(-1e-3) && !just.holds(3.001));
        // One proud arm is called too thick, not the others too thin.
        let proud = Band::over(&[0.0, 1.0, 2.0, 9.0], 3.0).unwrap();
        assert!(proud.holds(0.0) && !proud.holds(9.0));
        // Along a taper the thin end is outside: it is turned out.
        let taper = Band::over(&[0.0, 1.25, 2.75, 4.75], 3.0).unwrap();
        assert!(taper.holds(2.75) && taper.holds(4.75) && !taper.holds(1.25));
        // Of two that hold as many, the thicker.
        let upper = Band::over(&[0.0, 1.0, 9.0, 10.0], 3.0).unwrap();
        assert!(upper.holds(9.0) && !upper.holds(1.0));
        assert_eq!(Band::over(&[], 3.0), None);
    }
}
