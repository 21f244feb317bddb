//! The long gauge check: neighbouring knuckles at every arm, laced again
//! without a turn of any nut.

use super::variance::{Component, Squares, TwoWay, mean};
use super::{Scatter, ScatterSource};

/// Why a check cannot be reckoned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LacingStudyProblem {
    /// There must be two arms or more.
    Arms(usize),
    /// There must be two lacings or more.
    Lacings(usize),
    /// There must be two knuckles or more at an arm.
    Knuckles(usize),
    /// There must be one reading or more of a knuckle.
    Readings(usize),
    /// An arm and lacing with other counts than the first, or with something
    /// that is no number.
    Unequal {
        /// The arm, from 0.
        arm: usize,
        /// The lacing, from 0.
        lacing: usize,
    },
}

/// Where the scatter comes from, as standard deviations in nanometres.
///
/// Model: y = arm + lacing shift + e_lacing(arm, lacing) + e_knuckle + e_gauge.
/// The arms are what the press is and no scatter; a shift that a whole lacing
/// shares cancels in the spread and is taken out; a tilt stays in the lacing
/// scatter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LacingStudy {
    /// One reading to the next of one knuckle; `None` when every knuckle was
    /// read once: then it is within the knuckle's scatter.
    pub gauge: Option<Scatter>,
    /// One knuckle to its neighbour in one lacing at one arm.
    pub knuckle: Component,
    /// One lacing to the next at one arm.
    pub lacing: Component,
    /// What one knuckle of the next lacing scatters: lacing and knuckle
    /// together. A pass reads one knuckle per arm, and another one after
    /// every lacing.
    pub next_lacing: Scatter,
}

impl LacingStudy {
    /// Reckons a check from readings in nanometres: `readings[arm][lacing]
    /// [knuckle][repeat]`, all counts equal.
    ///
    /// Balanced nested analysis of variance with random effects (Searle,
    /// Casella, McCulloch, Variance Components, 1992, chapter 3): with K
    /// knuckles and R readings the mean squares expect
    ///
    /// gauge: g^2; knuckle: g^2 + R k^2; lacing: g^2 + R k^2 + K R l^2.
    ///
    /// # Errors
    /// See [`LacingStudyProblem`].
    pub fn of(readings: &[Vec<Vec<Vec<f64>>>]) -> Result<Self, LacingStudyProblem> {
        let counts = counts(readings)?;
        let (mut within, mut between) = (0.0, 0.0);
        let mut cells: Vec<Vec<Vec<f64>>> = Vec::with_capacity(counts.arms);
        for arm in readings {
            let mut row = Vec::with_capacity(counts.lacings);
            for lacing in arm {
                let means: Vec<f64> = lacing.iter().map(|repeats| centre(repeats)).collect();
                for (repeats, mean) in lacing.iter().zip(&means) {
                    within += squares_about(repeats, *mean);
                }
                between += counts.repeats as f64 * squares_about(&means, centre(&means));
                row.push(means);
            }
            cells.push(row);
        }
        let sites = counts.arms * counts.lacings;
        let gauge = Squares {
            sum: within,
            freedom: (sites * counts.knuckles * (counts.repeats - 1)) as f64,
        };
        let knuckle = Squares {
            sum: between,
            freedom: (sites * (counts.knuckles - 1)) as f64,
        };
        // `counts` has made the table balanced; its interaction is in units
        // of knuckle means, each the mean of so many readings.
        let unequal = LacingStudyProblem::Unequal { arm: 0, lacing: 0 };
        let table = TwoWay::of(&cells).ok_or(unequal)?;
        let lacing = Squares {
            sum: table.interaction.sum * counts.repeats as f64,
            freedom: table.interaction.freedom,
        };
        let per_lacing = counts.knuckles * counts.repeats;
        Ok(Self::from_squares(
            gauge,
            knuckle,
            lacing,
            counts.repeats,
            per_lacing,
        ))
    }

    fn from_squares(
        gauge: Squares,
        knuckle: Squares,
        lacing: Squares,
        repeats: usize,
        per_lacing: usize,
    ) -> Self {
        let knuckle_part = Component::between(&knuckle, &gauge, repeats);
        let lacing_part = Component::between(&lacing, &knuckle, per_lacing);
        let (k, l) = (1.0 / repeats as f64, 1.0 / per_lacing as f64);
        let next_variance = knuckle_part.variance() + lacing_part.variance();
        // Satterthwaite, Biometrics Bulletin 2 (1946) 110, with the weights
        // the mean squares have in l^2 + k^2.
        let doubt: f64 = [(l, lacing), (k - l, knuckle), (-k, gauge)]
            .into_iter()
            .filter(|(_, squares)| squares.freedom > 0.0)
            .map(|(weight, squares)| (weight * squares.mean()).powi(2) / squares.freedom)
            .sum();
        let freedom = next_variance * next_variance / doubt;
        Self {
            gauge: (gauge.freedom > 0.0).then(|| Scatter {
                sd_nm: gauge.mean().sqrt(),
                freedom: gauge.freedom,
                source: ScatterSource::GaugeCheck,
            }),
            knuckle: knuckle_part,
            lacing: lacing_part,
            next_lacing: Scatter {
                sd_nm: next_variance.sqrt(),
                // Never less than one: that much the study has measured.
                freedom: if freedom > 1.0 { freedom } else { 1.0 },
                source: ScatterSource::GaugeCheck,
            },
        }
    }
}

struct Counts {
    arms: usize,
    lacings: usize,
    knuckles: usize,
    repeats: usize,
}

fn counts(readings: &[Vec<Vec<Vec<f64>>>]) -> Result<Counts, LacingStudyProblem> {
    let first_arm = readings.first();
    let first_site = first_arm.and_then(|arm| arm.first());
    let first_knuckle = first_site.and_then(|site| site.first());
    let counts = Counts {
        arms: readings.len(),
        lacings: first_arm.map_or(0, Vec::len),
        knuckles: first_site.map_or(0, Vec::len),
        repeats: first_knuckle.map_or(0, Vec::len),
    };
    if counts.arms < 2 {
        return Err(LacingStudyProblem::Arms(counts.arms));
    }
    if counts.lacings < 2 {
        return Err(LacingStudyProblem::Lacings(counts.lacings));
    }
    if counts.knuckles < 2 {
        return Err(LacingStudyProblem::Knuckles(counts.knuckles));
    }
    if counts.repeats < 1 {
        return Err(LacingStudyProblem::Readings(counts.repeats));
    }
    for (index, arm) in readings.iter().enumerate() {
        if arm.len() != counts.lacings {
            return Err(LacingStudyProblem::Unequal {
                arm: index,
                lacing: arm.len().min(counts.lacings),
            });
        }
        for (lacing, site) in arm.iter().enumerate() {
            let usable = |value: &f64| value.is_finite() && value.abs() < 1e12;
            let equal = site.len() == counts.knuckles
                && site
                    .iter()
                    .all(|knuckle| knuckle.len() == counts.repeats && knuckle.iter().all(usable));
            if !equal {
                return Err(LacingStudyProblem::Unequal { arm: index, lacing });
            }
        }
    }
    Ok(counts)
}

/// The mean, reckoned from the first value so that a common offset costs no
/// digits.
fn centre(values: &[f64]) -> f64 {
    let origin = values.first().copied().unwrap_or(0.0);
    origin + mean(values.iter().map(|value| value - origin))
}

fn squares_about(values: &[f64], mean: f64) -> f64 {
    values
        .iter()
        .map(|value| (value - mean) * (value - mean))
        .sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn calcium_in_turnip_leaves() {
        // Snedecor & Cochran, Statistical Methods, 6th ed., table 10.17.1 (from
        // memory, recomputed with numpy 2.4): 4 plants, 3 leaves each, 2
        // determinations each. Nested components: leaves 0.161060, plants
        // 0.365223, determinations 0.006655. Plants stand for arm and lacing.
        let plants = [
            [[3.28, 3.09], [3.52, 3.48], [2.88, 2.80]],
            [[2.46, 2.44], [1.87, 1.92], [2.19, 2.19]],
            [[2.77, 2.66], [3.74, 3.44], [2.55, 2.55]],
            [[3.78, 3.87], [4.07, 4.12], [3.31, 3.31]],
        ];
        let plant_means: Vec<f64> = plants
            .iter()
            .map(|leaves| centre(leaves.as_flattened()))
            .collect();
        let leaf_squares: f64 = plants
            .iter()
            .zip(&plant_means)
            .flat_map(|(leaves, mean)| {
                leaves
                    .iter()
                    .map(move |leaf| 2.0 * (centre(leaf) - mean).powi(2))
            })
            .sum();
        let gauge: f64 = plants
            .iter()
            .flatten()
            .map(|leaf| squares_about(leaf, centre(leaf)))
            .sum();
        let found = LacingStudy::from_squares(
            Squares {
                sum: gauge,
                freedom: 12.0,
            },
            Squares {
                sum: leaf_squares,
                freedom: 8.0,
            },
            Squares {
                sum: 6.0 * squares_about(&plant_means, centre(&plant_means)),
                freedom: 3.0,
            },
            2,
            6,
        );
        let gauge = found.gauge.unwrap();
        assert!((gauge.sd_nm * gauge.sd_nm - 0.006654).abs() < 5e-6);
        assert!((found.knuckle.raw_variance - 0.161060).abs() < 5e-6);
        assert!((found.lacing.raw_variance - 0.365223).abs() < 5e-6);
    }
}
