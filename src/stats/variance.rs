//! Analysis of variance for balanced tables.

use crate::stats::f_above;

/// A sum of squares with its degrees of freedom.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Squares {
    /// The sum of squares.
    pub sum: f64,
    /// Its degrees of freedom.
    pub dof: f64,
}

impl Squares {
    /// Sum over degrees of freedom; zero where there are none.
    pub fn mean(&self) -> f64 {
        if self.dof > 0.0 {
            self.sum / self.dof
        } else {
            0.0
        }
    }

    /// Both pooled into one.
    pub fn pooled(&self, other: &Self) -> Self {
        Self {
            sum: self.sum + other.sum,
            dof: self.dof + other.dof,
        }
    }

    /// F of these squares over others and the probability of an F at least
    /// as large where both are but scatter; `None` without scatter below.
    pub fn f_over(&self, below: &Self) -> Option<(f64, f64)> {
        let f = self.mean() / below.mean();
        let chance = f_above(f, self.dof, below.dof)?;
        Some((f, chance))
    }
}

/// A variance estimated as a difference of mean squares. It can come out
/// below zero; then it is reckoned as zero, and says so.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Component {
    /// The estimate as it came out.
    pub raw_variance: f64,
}

impl Component {
    /// (upper mean square - lower mean square) / count.
    pub(crate) fn between(upper: &Squares, lower: &Squares, count: usize) -> Self {
        Self {
            raw_variance: (upper.mean() - lower.mean()) / count.max(1) as f64,
        }
    }

    /// The variance, zero where the estimate was below.
    pub fn variance(&self) -> f64 {
        self.raw_variance.max(0.0)
    }

    /// Its root.
    pub fn sd(&self) -> f64 {
        self.variance().sqrt()
    }

    /// Whether the estimate was below zero and is reckoned as zero.
    pub fn came_out_negative(&self) -> bool {
        self.raw_variance < 0.0
    }
}

/// Two-way crossed analysis of variance with repeats.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoWay {
    /// Between rows.
    pub rows: Squares,
    /// Between columns.
    pub columns: Squares,
    /// Interaction of both.
    pub interaction: Squares,
    /// Within cells.
    pub within: Squares,
}

impl TwoWay {
    /// A balanced table: `cells[row][column]` holds the repeats of one cell.
    /// `None` unless every row has as many columns and every cell as many
    /// repeats, at least one of each, and all are finite.
    pub fn of(cells: &[Vec<Vec<f64>>]) -> Option<Self> {
        let rows = cells.len();
        let columns = cells.first()?.len();
        let repeats = cells.first()?.first()?.len();
        let balanced = cells
            .iter()
            .all(|row| row.len() == columns && row.iter().all(|cell| cell.len() == repeats));
        if !balanced || repeats == 0 {
            return None;
        }
        let flat: Vec<Vec<f64>> = cells.iter().flatten().cloned().collect();
        let flat = from_first(&flat)?;
        let means: Vec<f64> = flat.iter().map(|cell| mean(cell.iter().copied())).collect();
        let row_mean = |row: usize| mean(means.iter().skip(row * columns).take(columns).copied());
        let column_mean = |column| mean(means.iter().skip(column).step_by(columns).copied());
        let row_means: Vec<f64> = (0..rows).map(row_mean).collect();
        let column_means: Vec<f64> = (0..columns).map(column_mean).collect();
        let all = mean(means.iter().copied());
        let spread = |means: &[f64]| means.iter().map(|m| square(m - all)).sum::<f64>();
        let mut interaction = 0.0;
        for (index, cell_mean) in means.iter().enumerate() {
            let expected = row_means[index / columns] + column_means[index % columns] - all;
            interaction += square(cell_mean - expected);
        }
        let within: f64 = flat
            .iter()
            .zip(&means)
            .map(|(cell, mean)| cell.iter().map(|value| square(value - mean)).sum::<f64>())
            .sum();
        let squares = |sum, dof: usize| Squares {
            sum,
            dof: dof as f64,
        };
        Some(Self {
            rows: squares(spread(&row_means) * (columns * repeats) as f64, rows - 1),
            columns: squares(spread(&column_means) * (rows * repeats) as f64, columns - 1),
            interaction: squares(interaction * repeats as f64, (rows - 1) * (columns - 1)),
            within: squares(within, rows * columns * (repeats - 1)),
        })
    }
}

/// All values less the first one; `None` when there is none or one is not
/// finite.
fn from_first(groups: &[Vec<f64>]) -> Option<Vec<Vec<f64>>> {
    let origin = *groups.iter().flatten().next()?;
    let shifted: Vec<Vec<f64>> = groups
        .iter()
        .map(|group| group.iter().map(|value| value - origin).collect())
        .collect();
    let finite = shifted.iter().flatten().all(|value| value.is_finite());
    finite.then_some(shifted)
}

pub(crate) fn mean(values: impl Iterator<Item = f64> + Clone) -> f64 {
    let count = values.clone().count().max(1);
    values.sum::<f64>() / count as f64
}

fn square(x: f64) -> f64 {
    x * x
}
