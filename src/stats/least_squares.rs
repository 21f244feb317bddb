//! Weighted least squares with few unknowns.

use super::student_critical;

/// Solution of a weighted least-squares problem.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct LeastSquares {
    /// Coefficients, one per column.
    pub(crate) coefficients: Vec<f64>,
    /// Standard uncertainties of the coefficients for the given standard
    /// uncertainties of the values.
    pub(crate) uncertainties: Vec<f64>,
    /// What each value differs from the fit by.
    pub(crate) residuals: Vec<f64>,
    /// Sum of squares of residual over uncertainty.
    pub(crate) chi_square: f64,
    triangle: Vec<Vec<f64>>,
}

/// A column counts as dependent on those before it when less than this share
/// of its length is left after taking them out of it.
const DEPENDENT: f64 = 1e-9;

impl LeastSquares {
    /// Minimises sum_i ((y_i - sum_k c_k A_ki) / u_i)^2 over c.
    ///
    /// Columns divided by u are made orthonormal one after the other (modified
    /// Gram-Schmidt, each taken out twice; Björck, Numerical Methods for Least
    /// Squares Problems, SIAM 1996, section 2.4), so that A = Q R, R c = Q'y,
    /// and the covariance of c is (R'R)^-1. Nothing is squared on the way and
    /// no digits are lost as in the normal equations.
    ///
    /// `None` when a column depends on those before it, when there are fewer
    /// values than columns, or when anything is not finite. `u` must be
    /// positive and every column as long as `values`.
    pub(crate) fn solve(columns: &[Vec<f64>], values: &[f64], u: &[f64]) -> Option<Self> {
        let unknowns = columns.len();
        if unknowns > values.len() {
            return None;
        }
        let mut basis: Vec<Vec<f64>> = Vec::with_capacity(unknowns);
        // Upper triangle, a row per basis vector.
        let mut triangle: Vec<Vec<f64>> = vec![vec![0.0; unknowns]; unknowns];
        for (index, column) in columns.iter().enumerate() {
            let mut left = divided(column, u);
            let length = dot(&left, &left).sqrt();
            for _ in 0..2 {
                for (direction, row) in basis.iter().zip(&mut triangle) {
                    let along = dot(direction, &left);
                    row[index] += along;
                    take_out(&mut left, direction, along);
                }
            }
            let remaining = dot(&left, &left).sqrt();
            if !remaining.is_finite() || remaining <= DEPENDENT * length || remaining == 0.0 {
                return None;
            }
            triangle[index][index] = remaining;
            basis.push(left.iter().map(|x| x / remaining).collect());
        }
        let mut left = divided(values, u);
        let mut right = vec![0.0; unknowns];
        for _ in 0..2 {
            for (direction, coefficient) in basis.iter().zip(&mut right) {
                let along = dot(direction, &left);
                *coefficient += along;
                take_out(&mut left, direction, along);
            }
        }
        let solved = Self {
            coefficients: back_substituted(&triangle, &right),
            uncertainties: uncertainties(&triangle),
            chi_square: dot(&left, &left),
            residuals: left.iter().zip(u).map(|(x, u)| x * u).collect(),
            triangle,
        };
        let sound = solved.chi_square.is_finite()
            && solved.coefficients.iter().all(|c| c.is_finite())
            && solved.uncertainties.iter().all(|c| c.is_finite());
        sound.then_some(solved)
    }

    /// Mean square of residual over uncertainty with so many degrees of
    /// freedom left; `None` where nothing is left over.
    pub(crate) fn reduced_chi_square(&self) -> Option<f64> {
        let dof = self.residuals.len().checked_sub(self.coefficients.len())?;
        (dof > 0).then(|| self.chi_square / dof as f64)
    }
}

/// What a fit says of one combination of its columns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Foretold {
    /// The fit there.
    pub(crate) value: f64,
    /// Half the width of its confidence interval: the true value of the fit
    /// lies so near.
    pub(crate) certain: f64,
    /// Half the width of the prediction interval: a further value lies so near.
    pub(crate) further: f64,
}

impl LeastSquares {
    /// What the fit says where the columns are `row`, from values whose common
    /// standard deviation s is estimated from the residuals (`u` all 1):
    /// t s sqrt(h) and t s sqrt(1 + h) either side, with h = x'(R'R)^-1 x and t
    /// Student's of the values left over (NIST/SEMATECH e-Handbook, 4.5.1.1 and
    /// 4.5.1.2, from memory). `None` where nothing is left over or the confidence is none.
    pub(crate) fn foretold(&self, row: &[f64], confidence: f64) -> Option<Foretold> {
        self.foretold_within(row, self.student(confidence)?)
    }

    /// Student's t of the values left over.
    pub(crate) fn student(&self, confidence: f64) -> Option<f64> {
        let dof = self.residuals.len().checked_sub(self.coefficients.len())?;
        student_critical(1.0 - confidence, dof as f64)
    }

    /// As [`foretold`](Self::foretold), for that t.
    pub(crate) fn foretold_within(&self, row: &[f64], t: f64) -> Option<Foretold> {
        let variance = self.reduced_chi_square()?;
        let leverage = self.leverage(row);
        Some(Foretold {
            value: dot(row, &self.coefficients),
            certain: t * (variance * leverage).sqrt(),
            further: t * (variance * (1.0 + leverage)).sqrt(),
        })
    }

    /// x'(R'R)^-1 x, the square of the length of z with R'z = x.
    fn leverage(&self, row: &[f64]) -> f64 {
        let mut z: Vec<f64> = Vec::with_capacity(row.len());
        for (column, x) in row.iter().enumerate().take(self.triangle.len()) {
            let known: f64 = z
                .iter()
                .zip(&self.triangle)
                .map(|(z, above)| z * above[column])
                .sum();
            z.push((x - known) / self.triangle[column][column]);
        }
        dot(&z, &z)
    }
}

fn divided(values: &[f64], u: &[f64]) -> Vec<f64> {
    values.iter().zip(u).map(|(x, u)| x / u).collect()
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

fn take_out(from: &mut [f64], direction: &[f64], along: f64) {
    for (x, d) in from.iter_mut().zip(direction) {
        *x -= along * d;
    }
}

fn back_substituted(triangle: &[Vec<f64>], right: &[f64]) -> Vec<f64> {
    let mut solution = right.to_vec();
    for row in (0..solution.len()).rev() {
        let known: f64 = (row + 1..solution.len())
            .map(|column| triangle[row][column] * solution[column])
            .sum();
        solution[row] = (solution[row] - known) / triangle[row][row];
    }
    solution
}

/// Square roots of the diagonal of (R'R)^-1: the lengths of the rows of R^-1.
fn uncertainties(triangle: &[Vec<f64>]) -> Vec<f64> {
    let unknowns = triangle.len();
    let mut squares = vec![0.0; unknowns];
    for unit in 0..unknowns {
        let mut right = vec![0.0; unknowns];
        right[unit] = 1.0;
        for (square, entry) in squares.iter_mut().zip(back_substituted(triangle, &right)) {
            *square += entry * entry;
        }
    }
    squares.into_iter().map(f64::sqrt).collect()
}

#[cfg(test)]
mod nist;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_straight_line_by_hand() {
        // y = 1 + 2x with one value off by 0.6; numpy 2.4:
        // numpy.polyfit([0, 1, 2, 3], [1, 3.6, 5, 7], 1) gives 1.94, 1.24.
        let columns = [vec![1.0; 4], vec![0.0, 1.0, 2.0, 3.0]];
        let fit = LeastSquares::solve(&columns, &[1.0, 3.6, 5.0, 7.0], &[0.5; 4]).unwrap();
        assert!((fit.coefficients[0] - 1.24).abs() < 1e-14);
        assert!((fit.coefficients[1] - 1.94).abs() < 1e-14);
        // u^2 / S_xx = 0.25 / 5.
        assert!((fit.uncertainties[1] - 0.05_f64.sqrt()).abs() < 1e-15);
        assert_eq!(fit.residuals.len(), 4);
    }

    /// Stopping distance in feet over speed in miles an hour, 50 cars of the
    /// 1920s: M. Ezekiel, Methods of Correlation Analysis (Wiley 1930), as R
    /// ships it (`cars`). `predict(lm(dist ~ speed, cars), data.frame(speed =
    /// c(10, 12, 19, 24)), interval = "prediction")` is printed in many
    /// textbooks: at 10, 21.74499 (-9.809601 to 53.29959); at 19 about 57.1 (25.8 to
    /// 88.5). The digits are R's.
    #[test]
    fn a_prediction_interval_agrees_with_a_published_one() {
        let speed = [
            4., 4., 7., 7., 8., 9., 10., 10., 10., 11., 11., 12., 12., 12., 12., 13., 13., 13.,
            13., 14., 14., 14., 14., 15., 15., 15., 16., 16., 17., 17., 17., 18., 18., 18., 18.,
            19., 19., 19., 20., 20., 20., 20., 20., 22., 23., 24., 24., 24., 24., 25.,
        ];
        let distance = [
            2., 10., 4., 22., 16., 10., 18., 26., 34., 17., 28., 14., 20., 24., 28., 26., 34., 34.,
            46., 26., 36., 60., 80., 20., 26., 54., 32., 40., 32., 40., 50., 42., 56., 76., 84.,
            36., 46., 68., 32., 48., 52., 56., 64., 66., 54., 70., 92., 93., 120., 85.,
        ];
        let columns = [vec![1.0; 50], speed.to_vec()];
        let fit = LeastSquares::solve(&columns, &distance, &[1.0; 50]).unwrap();
        let at = fit.foretold(&[1.0, 10.0], 0.95).unwrap();
        assert!((at.value - 21.74499).abs() < 5e-6, "{at:?}");
        assert!((at.value - at.further + 9.809601).abs() < 5e-7, "{at:?}");
        assert!((at.value + at.further - 53.29959).abs() < 5e-6, "{at:?}");
        assert_eq!(fit.foretold(&[1.0, 10.0], 1.0), None);
    }

    #[test]
    fn dependent_columns_are_refused() {
        let columns = [vec![1.0, 1.0], vec![2.0, 2.0]];
        assert_eq!(LeastSquares::solve(&columns, &[0.0, 1.0], &[1.0; 2]), None);
        let columns = [vec![1.0]];
        assert_eq!(LeastSquares::solve(&columns, &[f64::NAN], &[1.0]), None);
    }
}
