//! How far from level a press is to be expected, by what earlier visits found
//! and left.

use super::noise::{DRIFT_NM, LEAST_VARIANCE, MOST_SCATTER_NM, Noise};

/// What the assumptions count for against the history, in degrees of freedom:
/// about one visit to a press of four arms.
const ASSUMED_FREEDOM: f64 = 3.0;
/// How often a press comes back changed, as if so many visits of so many had
/// shown it.
const ASSUMED_CHANGES: f64 = 1.0;
const ASSUMED_RETURNS: f64 = 3.0;
/// However level a press was found before, it may be this far off the next
/// time, in nanometres: 0.0003 in.
const LEAST_DEVIATION_NM: f64 = 7_620.0;

/// One piece of an earlier visit.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PastPiece {
    /// Station means that were read, in nanometres.
    pub means_nm: Vec<f64>,
    /// Variance that lacing and reading add to each of them, in square
    /// nanometres.
    pub scatter_variance: f64,
}

/// The first and the last piece of an earlier visit; the same where there was
/// only one.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FoundAndLeft {
    /// As found.
    pub found: PastPiece,
    /// As left.
    pub left: PastPiece,
}

/// A sum of squares with its degrees of freedom.
#[derive(Debug, Clone, Copy, Default)]
struct Squares {
    sum: f64,
    dof: f64,
}

impl Squares {
    /// Deviations of a piece from its own mean; none with fewer than two
    /// stations or figures that are none.
    fn of(piece: &PastPiece) -> Self {
        let n = piece.means_nm.len() as f64;
        let mean = piece.means_nm.iter().sum::<f64>() / n;
        let squares = piece.means_nm.iter().map(|t| (t - mean) * (t - mean));
        let sum: f64 = squares.sum();
        if piece.means_nm.len() < 2 || !sum.is_finite() {
            return Self::default();
        }
        Self { sum, dof: n - 1.0 }
    }

    /// Takes in a share of others.
    fn take(&mut self, share: f64, others: Self) {
        self.sum += share * others.sum;
        self.dof += share * others.dof;
    }

    /// The same less a variance that does not come from the press.
    fn less(self, variance: f64) -> Self {
        Self {
            sum: (self.sum - self.dof * variance).max(0.0),
            ..self
        }
    }

    /// Pooled with a variance assumed.
    fn pooled(self, assumed: f64) -> f64 {
        (ASSUMED_FREEDOM * assumed + self.sum) / (ASSUMED_FREEDOM + self.dof)
    }

    /// Logarithm of the density of deviations of that variance, but for what is
    /// alike for every variance.
    fn log_density(self, variance: f64) -> f64 {
        let variance = variance.max(LEAST_VARIANCE);
        -0.5 * (self.dof * libm::log(variance) + self.sum / variance)
    }
}

impl Noise {
    /// The same, with the deviations from level that the press's history, the
    /// first visit first, makes likely.
    ///
    /// Without a visit nothing changes. Otherwise the press was left at the
    /// last visit about as level as at the others, and has drifted since, or
    /// has changed: knocked, repaired, worn, other hooks. Both are believed,
    /// and the readings of the visit say which ([`super::Posterior`]).
    ///
    /// If it has drifted, the variance expected is that of the pieces as left,
    /// plus that of the drift assumed; if it has changed, that of a change as
    /// large as assumed. Each counts as three degrees of freedom and is pooled
    /// with the pieces as found at every visit but the first, which tells of
    /// what was before all visits: a scaled inverse chi-square prior with
    /// normal data (Gelman et al., Bayesian Data Analysis, section 2.6; from
    /// memory). A piece counts for either by the density that it has there; how
    /// often a press changes is learnt likewise, from a beta prior. Pieces with
    /// fewer than two stations, and figures that are none, say nothing.
    #[must_use]
    pub fn with_history(self, visits: &[FoundAndLeft]) -> Self {
        let mut left = Squares::default();
        for visit in visits {
            // A visit ends with a piece that reads level, by luck as well:
            // the press is less level than that piece, by about its scatter,
            // so that is not taken off.
            left.take(1.0, Squares::of(&visit.left));
        }
        if left.dof == 0.0 {
            return self;
        }
        let drifted = left.sum / left.dof + DRIFT_NM * DRIFT_NM;
        let changed = self.changed_nm * self.changed_nm;
        let (mut small, mut large) = (Squares::default(), Squares::default());
        let (mut changes, mut returns) = (ASSUMED_CHANGES, ASSUMED_RETURNS);
        for visit in visits.iter().skip(1) {
            // A tilt from end to end adds a twelfth of its square at
            // stations spread evenly.
            let scatter = visit.found.scatter_variance + self.tilt_nm * self.tilt_nm / 12.0;
            let squares = Squares::of(&visit.found);
            if squares.dof == 0.0 {
                continue;
            }
            let odds = changes / (returns - changes);
            let gain =
                squares.log_density(changed + scatter) - squares.log_density(drifted + scatter);
            let share = 1.0 / (1.0 + libm::exp(-gain) / odds);
            small.take(1.0 - share, squares.less(scatter));
            large.take(share, squares.less(scatter));
            changes += share;
            returns += 1.0;
        }
        let within = |variance: f64| {
            let least = LEAST_DEVIATION_NM * LEAST_DEVIATION_NM;
            variance.max(least).sqrt().min(MOST_SCATTER_NM)
        };
        Self {
            deviation_nm: within(small.pooled(drifted)),
            changed_chance: changes / returns,
            changed_nm: within(large.pooled(changed)),
            ..self
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const INCH: f64 = 25.4e6;

    fn piece(thousandths: &[f64]) -> PastPiece {
        PastPiece {
            means_nm: thousandths.iter().map(|t| 0.001 * INCH * t).collect(),
            scatter_variance: 0.0,
        }
    }

    fn visit(found: &[f64], left: &[f64]) -> FoundAndLeft {
        FoundAndLeft {
            found: piece(found),
            left: piece(left),
        }
    }

    fn assumed() -> Noise {
        Noise {
            tilt_nm: 0.0,
            ..Noise::assumed(12_700.0)
        }
    }

    #[test]
    fn without_history_nothing_changes() {
        assert_eq!(assumed().with_history(&[]), assumed());
        for nothing in [&[250.0][..], &[f64::NAN, 1.0], &[]] {
            let visits = [visit(nothing, nothing)];
            assert_eq!(assumed().with_history(&visits), assumed());
        }
    }

    #[test]
    fn a_press_left_level_is_expected_level_but_for_its_drift() {
        let first = visit(&[240.0, 260.0, 240.0, 260.0], &[250.0; 4]);
        let posterior = assumed().with_history(std::slice::from_ref(&first));
        assert!((posterior.deviation_nm - DRIFT_NM).abs() < 1e-6);
        assert_eq!(posterior.changed_chance, ASSUMED_CHANGES / ASSUMED_RETURNS);
        // Found again with deviations of -1, 1, -1, 1, then of -10, 10, 10,
        // -10: sums of squares of 4 and 400, three degrees of freedom each. By
        // python3, in thousandths:
        //
        //   def d(v): return (2*pi*v)**-1.5 * exp(-ss/2/v)
        //   odds = a/(b-a); p = odds*d(36)/(odds*d(36) + d(1))
        //   a += p; b += 1; m += (1-p)*ss; k += (1-p)*3; M += p*ss; K += p*3
        //
        // from a, b = 1, 3; then a/b, sqrt((3+m)/(3+k)), sqrt((108+M)/(3+K)).
        let again = visit(&[249.0, 251.0, 249.0, 251.0], &[250.0; 4]);
        let changed = visit(&[240.0, 260.0, 260.0, 240.0], &[250.0; 4]);
        for (visits, expected) in [
            (
                vec![first.clone(), again.clone()],
                [1.0795041251284208, 0.2539805870305343, 5.954550886079618],
            ),
            (
                vec![first.clone(), again, changed],
                [1.0795041251284208, 0.40318446962442744, 9.16561375302256],
            ),
        ] {
            let posterior = assumed().with_history(&visits);
            let thousandth = 0.001 * INCH;
            let found = [
                posterior.deviation_nm / thousandth,
                posterior.changed_chance,
                posterior.changed_nm / thousandth,
            ];
            for (found, expected) in found.iter().zip(expected) {
                assert!((found - expected).abs() < 1e-9, "{found} {expected}");
            }
        }
        // Two hundred visits without drift.
        let mut visits = vec![visit(&[250.0; 4], &[250.0; 4]); 200];
        visits.insert(0, first);
        let posterior = assumed().with_history(&visits);
        assert!((posterior.deviation_nm - LEAST_DEVIATION_NM).abs() < 1e-6);
    }

    #[test]
    fn scatter_and_tilt_do_not_come_from_the_press() {
        // Left level, found again with deviations of -3, 3, -3, 3: a sum of
        // squares of 36, three degrees of freedom. Of a variance of 0.5 from
        // lacing and reading, and a tilt of 2 from end to end, 0.5 + 4 / 12 is
        // none of the press's. By python3, in thousandths:
        //
        //   def d(v): return (2*pi*v)**-1.5 * exp(-36/2/v)
        //   s = 0.5 + 4/12; p = d(36+s)/2 / (d(36+s)/2 + d(1+s)); r = 36 - 3*s
        //   sqrt((3+(1-p)*r)/(3+(1-p)*3)), (1+p)/4, sqrt((108+p*r)/(3+p*3))
        let first = visit(&[250.0; 4], &[250.0; 4]);
        let mut again = visit(&[247.0, 253.0, 247.0, 253.0], &[250.0; 4]);
        let thousandth = 0.001 * INCH;
        again.found.scatter_variance = 0.5 * thousandth * thousandth;
        // What the last piece of a visit scatters is left in.
        again.left.scatter_variance = 9.0 * thousandth * thousandth;
        let noise = Noise {
            tilt_nm: 2.0 * thousandth,
            ..assumed()
        };
        let posterior = noise.with_history(&[first, again]);
        for (found, expected) in [
            (posterior.deviation_nm / thousandth, 1.075_873_495_393_863),
            (posterior.changed_chance, 0.496_066_010_218_727_15),
            (posterior.changed_nm / thousandth, 4.866_395_191_889_583),
        ] {
            assert!((found - expected).abs() < 1e-9, "{found} {expected}");
        }
    }
}
