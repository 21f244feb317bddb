//! The long gauge check: neighbouring knuckles at every arm, laced again
//! without a turn of any nut.

use super::laced_again::without_tilt;
use super::{Scatter, ScatterSource};
use crate::stats::{Component, Squares, TwoWay, mean};

/// What a check is reckoned with besides its readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StudiedOn<'a> {
    /// Places of the arms along the jaw, in shares of its length.
    pub along: &'a [f64],
    /// Tilt of one lacing against the next, from one end of the jaw to the
    /// other, as a standard deviation in nanometres: what is reckoned with
    /// where two arms cannot tell it from scatter.
    pub tilt_nm: f64,
    /// Repeatability of the gauge, for a check that read every knuckle once.
    pub gauge: Scatter,
}

/// Where the scatter comes from, as standard deviations in nanometres.
///
/// Model: y is the sum of the arm, the lacing's shift, the lacing's tilt times
/// the place, and the errors of lacing (at an arm), knuckle and gauge. The arms
/// are what the press is and no scatter; a shift that a whole lacing shares
/// cancels in the spread, and its tilt is reckoned with apart wherever lacings
/// are: both are taken out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LacingStudy {
    /// One reading to the next of one knuckle; `None` when every knuckle was
    /// read once: then the gauge's known repeatability is taken off the
    /// knuckle's.
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
    /// Casella, McCulloch, Variance Components, 1992, chapter 4; from memory): with K
    /// knuckles and R readings the mean squares expect
    ///
    /// gauge: g^2; knuckle: g^2 + R k^2; lacing: g^2 + R k^2 + K R l^2.
    ///
    /// With g^2 that of `on` where R is one. The lacing mean square is that of
    /// the interaction of arms and lacings without each lacing's tilt; of two
    /// arms, that of the interaction, less what the tilt of `on` makes of it.
    ///
    /// None of fewer than two arms, lacings or knuckles, of no reading, of
    /// unequal counts, or of what is no number within a kilometre.
    pub fn of(readings: &[Vec<Vec<Vec<f64>>>], on: &StudiedOn<'_>) -> Option<Self> {
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
        let read_once = counts.repeats == 1;
        let gauge = if read_once {
            // What is taken as known is as good as that.
            let dof = on.gauge.dof.min(1e9);
            Squares {
                sum: on.gauge.sd_nm * on.gauge.sd_nm * dof,
                dof,
            }
        } else {
            Squares {
                sum: within,
                dof: (sites * counts.knuckles * (counts.repeats - 1)) as f64,
            }
        };
        let knuckle = Squares {
            sum: between,
            dof: (sites * (counts.knuckles - 1)) as f64,
        };
        let means: Vec<Vec<f64>> = cells
            .iter()
            .map(|row| row.iter().map(|knuckles| centre(knuckles)).collect())
            .collect();
        let per_lacing = counts.knuckles * counts.repeats;
        let found = without_tilt(&means, on.along);
        let lacing = if found.dof > 0.0 {
            found
        } else {
            let singles: Vec<Vec<Vec<f64>>> = means
                .iter()
                .map(|row| row.iter().map(|mean| vec![*mean]).collect())
                .collect();
            let interaction = TwoWay::of(&singles)?.interaction;
            let tilt = tilt_variance(on.along, on.tilt_nm) * interaction.dof;
            Squares {
                sum: (interaction.sum - tilt).max(0.0),
                ..interaction
            }
        };
        // Of means of so many readings each.
        let lacing = Squares {
            sum: lacing.sum * per_lacing as f64,
            ..lacing
        };
        let mut study = Self::from_squares(gauge, knuckle, lacing, counts.repeats, per_lacing);
        if read_once {
            study.gauge = None;
        }
        Some(study)
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
            .filter(|(_, squares)| squares.dof > 0.0)
            .map(|(weight, squares)| (weight * squares.mean()).powi(2) / squares.dof)
            .sum();
        let dof = next_variance * next_variance / doubt;
        Self {
            gauge: Some(Scatter {
                sd_nm: gauge.mean().sqrt(),
                dof: gauge.dof,
                source: ScatterSource::GaugeCheck,
            }),
            knuckle: knuckle_part,
            lacing: lacing_part,
            next_lacing: Scatter {
                sd_nm: next_variance.sqrt(),
                // Never less than one: that much the study has measured.
                dof: if dof > 1.0 { dof } else { 1.0 },
                source: ScatterSource::GaugeCheck,
            },
        }
    }
}

/// Variance that a tilt adds to a station mean about the lacing's own.
fn tilt_variance(along: &[f64], tilt_nm: f64) -> f64 {
    let middle = mean(along.iter().copied());
    let width: f64 = along.iter().map(|x| (x - middle) * (x - middle)).sum();
    tilt_nm * tilt_nm * width / along.len().saturating_sub(1).max(1) as f64
}

struct Counts {
    arms: usize,
    lacings: usize,
    knuckles: usize,
    repeats: usize,
}

/// The counts of a table that is balanced and large enough.
fn counts(readings: &[Vec<Vec<Vec<f64>>>]) -> Option<Counts> {
    let first_arm = readings.first()?;
    let first_site = first_arm.first()?;
    let counts = Counts {
        arms: readings.len(),
        lacings: first_arm.len(),
        knuckles: first_site.len(),
        repeats: first_site.first()?.len(),
    };
    let usable = |knuckle: &Vec<f64>| {
        knuckle.len() == counts.repeats && knuckle.iter().all(|value| value.abs() < 1e12)
    };
    let equal = |site: &Vec<Vec<f64>>| site.len() == counts.knuckles && site.iter().all(usable);
    let balanced = |arm: &Vec<Vec<Vec<f64>>>| arm.len() == counts.lacings && arm.iter().all(equal);
    let enough = counts.arms.min(counts.lacings).min(counts.knuckles) >= 2 && counts.repeats >= 1;
    (enough && readings.iter().all(balanced)).then_some(counts)
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
