//! How the splice answers to turned nuts.

/// Thickness change at each station for one notch out at each arm, in
/// nanometres per notch: a matrix with a row per station (from the operator's
/// left) and a column per arm.
///
/// Nanometres keep every whole-nanometre response exact in `f64`, so that an
/// independent press is planned without rounding.
#[derive(Debug, Clone, PartialEq)]
pub struct Response {
    stations: usize,
    arms: usize,
    per_notch_nm: Vec<f64>,
}

impl Response {
    /// Builds the matrix from a function of (station, arm).
    pub fn from_fn(
        stations: usize,
        arms: usize,
        mut per_notch_nm: impl FnMut(usize, usize) -> f64,
    ) -> Self {
        let mut values = Vec::with_capacity(stations * arms);
        for station in 0..stations {
            for arm in 0..arms {
                values.push(per_notch_nm(station, arm));
            }
        }
        Self {
            stations,
            arms,
            per_notch_nm: values,
        }
    }

    /// The answer of these stations alone, in this order; zero for one that is
    /// not there.
    #[must_use]
    pub fn of_stations(&self, stations: &[usize]) -> Self {
        Self::from_fn(stations.len(), self.arms, |row, arm| {
            self.at(stations[row], arm)
        })
    }

    /// Number of stations (rows).
    pub fn stations(&self) -> usize {
        self.stations
    }

    /// Number of arms (columns).
    pub fn arms(&self) -> usize {
        self.arms
    }

    /// Change at `station` for one notch out at `arm`, in nanometres; zero
    /// outside the matrix.
    pub fn at(&self, station: usize, arm: usize) -> f64 {
        if arm >= self.arms {
            return 0.0;
        }
        self.per_notch_nm
            .get(station * self.arms + arm)
            .copied()
            .unwrap_or(0.0)
    }

    /// The row of one station: its answer to every nut. Empty outside the
    /// matrix.
    pub fn row(&self, station: usize) -> &[f64] {
        self.per_notch_nm
            .get(station * self.arms..(station + 1) * self.arms)
            .unwrap_or(&[])
    }

    /// All values, row by row.
    pub fn values(&self) -> &[f64] {
        &self.per_notch_nm
    }

    /// Thickness change at `station` for the given turns (notches, out
    /// positive; whole or fractional), in nanometres.
    pub fn change_at(&self, station: usize, turns: impl IntoIterator<Item = f64>) -> f64 {
        self.row(station)
            .iter()
            .zip(turns)
            .map(|(b, k)| b * k)
            .sum()
    }
}
