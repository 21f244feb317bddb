//! How many pieces, and how many minutes, until one passes.

/// However small a chance looks, it counts for so much when pieces to come are
/// reckoned: what is not foreseen may help too.
pub(super) const LEAST_CHANCE: f64 = 0.05;

/// What follows a piece that did not pass, on average.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(test, derive(Default))]
pub(super) struct Later {
    /// Chance of the best plan made then.
    pub chance: f64,
    /// Minutes that its turns take.
    pub effort: f64,
    /// Chance of every plan after that one.
    pub settled: f64,
}

impl Later {
    /// Pieces until one passes.
    pub fn pieces(self) -> f64 {
        let fails = 1.0 - self.chance;
        1.0 + fails / self.settled.max(self.chance).max(LEAST_CHANCE)
    }

    /// Minutes that takes, a piece taking `piece`.
    pub fn minutes(self, piece: f64) -> f64 {
        (piece + self.effort) * self.pieces()
    }
}

/// Further pieces and minutes until one passes, when turns that take `turning`
/// minutes make the next piece pass with so much chance.
pub(super) fn until_a_piece_passes(
    chance: f64,
    turning: f64,
    piece: f64,
    later: Later,
) -> (f64, f64) {
    let fails = 1.0 - chance;
    let pieces = 1.0 + fails * later.pieces();
    (pieces, turning + piece + fails * later.minutes(piece))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked by hand. One nut is turned out (1 min), a piece takes 20 min and
    /// passes in 3 of 5 cases. When it does not, plans made anew pass in 4 of 5
    /// cases and take 2 min of turning; later ones pass in 9 of 10. Then
    ///
    /// ```text
    /// pieces after a failure   1 + (1/5) / (9/10)     = 11/9
    /// minutes after a failure  (20 + 2) 11/9          = 242/9
    /// pieces                   1 + (2/5) (11/9)       = 67/45
    /// minutes                  1 + 20 + (2/5) (242/9) = 1429/45
    /// ```
    #[test]
    fn minutes_as_worked_by_hand() {
        let later = Later {
            chance: 0.8,
            effort: 2.0,
            settled: 0.9,
        };
        let (pieces, minutes) = until_a_piece_passes(0.6, 1.0, 20.0, later);
        assert!((pieces - 67.0 / 45.0).abs() < 1e-12, "{pieces}");
        assert!((minutes - 1_429.0 / 45.0).abs() < 1e-12, "{minutes}");
    }

    /// However hopeless it looks, twenty pieces are enough.
    #[test]
    fn there_is_an_end() {
        let never = Later {
            chance: 0.0,
            effort: 0.0,
            settled: 0.0,
        };
        assert_eq!(never.pieces(), 21.0);
    }
}
