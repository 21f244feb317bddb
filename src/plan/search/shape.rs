//! The shape of what is still of interest: an ellipsoid inscribed in the set
//! of continuous turns whose spread is within reach.
//!
//! Its lengths tell the reduction which steps are long and which are short.
//! It is the Dikin ellipsoid at the analytic centre of
//!
//! ```text
//!     m <= (t + B k)_s <= m + r,   low - 1/2 <= k <= high + 1/2
//! ```
//!
//! found by damped Newton steps on the logarithmic barrier (Nesterov and
//! Nemirovskii, Interior-Point Polynomial Algorithms, SIAM 1994). The edge `m`
//! is eliminated. Any shape gives a valid search; a good one a short search.

use super::MOST_ARMS;
use super::model::{Model, PerArm};

/// Turns and the edge of the band, which comes first.
const SIZE: usize = MOST_ARMS + 1;
type Square = [[f64; SIZE]; SIZE];

/// Newton steps: a rough centre is enough.
const MOST_STEPS: usize = 5;

/// One vector per step, in an orthonormal frame, whose length measures the
/// step against the shape. `steps` is a point with the band's lower edge at
/// `edge` and a height of less than `reach`; it is moved to the centre.
pub(super) fn frame(
    model: &Model,
    steps: &mut PerArm,
    edge: f64,
    height: f64,
    reach: f64,
) -> [PerArm; MOST_ARMS] {
    let n = model.arms;
    let mut point = [0.0; SIZE];
    point[0] = edge - 0.5 * (reach - height);
    point[1..].copy_from_slice(steps);
    let mut factor = [[0.0; SIZE]; SIZE];
    for _ in 0..MOST_STEPS {
        let mut gradient = [0.0; SIZE];
        factor = hessian(model, &point, reach, &mut gradient);
        cholesky(&mut factor, n + 1);
        // Forward, then backward: step = -H^-1 gradient.
        let mut step = gradient;
        for i in 0..=n {
            let mut sum = step[i];
            for l in 0..i {
                sum -= factor[i][l] * step[l];
            }
            step[i] = sum / factor[i][i];
        }
        let decrement: f64 = step[..=n].iter().map(|v| v * v).sum::<f64>().sqrt();
        if decrement < 0.3 || !decrement.is_finite() {
            break;
        }
        for i in (0..=n).rev() {
            let mut sum = step[i];
            for l in i + 1..=n {
                sum -= factor[l][i] * step[l];
            }
            step[i] = sum / factor[i][i];
        }
        for (x, d) in point.iter_mut().zip(&step).take(n + 1) {
            *x -= d / (1.0 + decrement);
        }
    }
    steps.copy_from_slice(&point[1..]);
    let mut vectors = [[0.0; MOST_ARMS]; MOST_ARMS];
    for (vector, row) in vectors.iter_mut().zip(&factor[1..]) {
        vector.copy_from_slice(&row[1..]);
    }
    vectors
}

/// Gradient and second derivatives of the barrier.
fn hessian(model: &Model, point: &[f64; SIZE], reach: f64, gradient: &mut [f64; SIZE]) -> Square {
    let n = model.arms;
    let mut square = [[0.0; SIZE]; SIZE];
    let turns = &point[1..];
    let mut add = |edge: f64, slopes: &PerArm, below: f64, above: f64| {
        // Slacks below and above; `slopes` is how the first one grows.
        let least = 1e-6 * (below + above).abs();
        let (below, above) = (1.0 / below.max(least), 1.0 / above.max(least));
        let first = above - below;
        let second = above * above + below * below;
        gradient[0] += first * edge;
        square[0][0] += second * edge * edge;
        for i in 0..n {
            gradient[i + 1] += first * slopes[i];
            let weighted = second * slopes[i];
            square[i + 1][0] += weighted * edge;
            for j in 0..=i {
                square[i + 1][j + 1] += weighted * slopes[j];
            }
        }
    };
    let dot =
        |slopes: &PerArm| -> f64 { slopes.iter().zip(turns).take(n).map(|(a, k)| a * k).sum() };
    for (t, slopes) in model.thickness.iter().zip(&model.by_step) {
        let above_edge = t + dot(slopes) - point[0];
        add(-1.0, slopes, above_edge, reach - above_edge);
    }
    for (i, by_step) in model.turn_by_step.iter().enumerate().take(n) {
        let turn = dot(by_step);
        add(
            0.0,
            by_step,
            turn - model.low[i] + 0.5,
            model.high[i] - turn + 0.5,
        );
    }
    square
}

/// Lower triangular factor, in place; only the lower half is read.
fn cholesky(square: &mut Square, size: usize) {
    for i in 0..size {
        for j in 0..=i {
            let mut sum = square[i][j];
            for l in 0..j {
                sum -= square[i][l] * square[j][l];
            }
            square[i][j] = if i == j {
                sum.max(1e-13 * square[i][i]).max(1e-300).sqrt()
            } else {
                sum / square[j][j]
            };
        }
    }
}
