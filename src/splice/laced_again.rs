//! Lacing scatter from lacings that nothing was turned between.

use crate::stats::{Squares, mean};

/// Station means of several lacings with the same nuts, at the stations read
/// in all of them.
#[derive(Debug, Clone, PartialEq)]
pub struct LacedAlike {
    /// Places of the stations along the jaw, in any unit.
    pub along: Vec<f64>,
    /// By station and lacing, in nanometres.
    pub means_nm: Vec<Vec<f64>>,
    /// Mean variance that reading adds to one of them, in square nanometres.
    pub reading_nm2: f64,
}

/// What lacings with the same nuts say of the lacing scatter.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct LacedAgain {
    /// Sum of squares that neither station, shift nor tilt explains, nm^2.
    sum_of_squares_nm2: f64,
    /// Its degrees of freedom.
    dof: f64,
    /// Of the sum of squares, what reading makes of it.
    reading_nm2: f64,
    /// How many lacings.
    pub lacings: usize,
}

impl LacedAgain {
    /// Takes several groups of lacings together; each may have nuts of its
    /// own. Groups of one lacing, of fewer than three stations, or with
    /// something that is no number say nothing.
    pub fn of(groups: &[LacedAlike]) -> Self {
        groups.iter().fold(Self::default(), |sum, group| {
            let squares = without_tilt(&group.means_nm, &group.along);
            let finite = squares.sum.is_finite() && group.reading_nm2.is_finite();
            if squares.dof <= 0.0 || !finite {
                return sum;
            }
            Self {
                sum_of_squares_nm2: sum.sum_of_squares_nm2 + squares.sum,
                dof: sum.dof + squares.dof,
                reading_nm2: sum.reading_nm2 + squares.dof * group.reading_nm2,
                lacings: sum.lacings + group.means_nm.first().map_or(0, Vec::len),
            }
        })
    }

    /// The lacing variance found, not below zero, and the degrees of freedom
    /// it is worth beside an assumed one.
    ///
    /// The mean square M, with f degrees of freedom, expects lacing^2 + u^2,
    /// u^2 the variance of reading. Its own variance is 2 M^2 / f, so what is
    /// left for the lacing tells as much of it as
    ///
    /// f (assumed / (assumed + u^2))^2
    ///
    /// degrees of freedom would (Satterthwaite, Biometrics Bulletin 2 (1946)
    /// 110, at the assumed variance: at the one found, a low estimate would
    /// count for nothing).
    pub(super) fn variance_nm2(&self, assumed_nm2: f64) -> (f64, f64) {
        if self.dof <= 0.0 {
            return (0.0, 0.0);
        }
        let reading = self.reading_nm2 / self.dof;
        let found = (self.sum_of_squares_nm2 / self.dof - reading).max(0.0);
        let share = assumed_nm2 / (assumed_nm2 + reading);
        (found, self.dof * share * share)
    }
}

/// What is left of `cells`, by station and lacing, once every station has its
/// own level and every lacing its own shift and tilt: the sum of squares about
/// both, with (lacings - 1)(stations - 2) degrees of freedom. None are left of
/// two stations, which a tilt explains whatever they read.
///
/// `along` are the stations' places; the table must be complete, and without
/// two different places there is no tilt to take out.
pub(super) fn without_tilt(cells: &[Vec<f64>], along: &[f64]) -> Squares {
    let lacings = cells.first().map_or(0, Vec::len);
    let stations = cells.len();
    let complete = along.len() == stations && cells.iter().all(|row| row.len() == lacings);
    let middle = mean(along.iter().copied());
    let width: f64 = along.iter().map(|x| (x - middle) * (x - middle)).sum();
    if !complete || lacings < 2 || stations < 3 || !(width > 0.0) {
        return Squares { sum: 0.0, dof: 0.0 };
    }
    let about_station: Vec<Vec<f64>> = cells
        .iter()
        .map(|row| {
            let origin = row.first().copied().unwrap_or(0.0);
            let level = mean(row.iter().map(|value| value - origin));
            row.iter().map(|value| value - origin - level).collect()
        })
        .collect();
    let mut sum = 0.0;
    for lacing in 0..lacings {
        let column = || about_station.iter().map(|row| row[lacing]);
        let shift = mean(column());
        let placed = || along.iter().map(|x| x - middle).zip(column());
        let tilt = placed().map(|(x, value)| x * value).sum::<f64>() / width;
        sum += placed()
            .map(|(x, value)| (value - shift - tilt * x).powi(2))
            .sum::<f64>();
    }
    Squares {
        sum,
        dof: ((lacings - 1) * (stations - 2)) as f64,
    }
}
