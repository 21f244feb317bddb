//! Triangular factors of covariances, kept row by row in one list, and what is
//! solved with them. All sums run in a fixed order.

/// Why a matrix cannot be factored, or observations not be taken in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GaussianError {
    /// Sizes do not belong together, or an index is out of range.
    Shape,
    /// A mean, weight, value or covariance is not finite.
    NotFinite,
    /// The covariance of the observations is not positive definite.
    NotPositive,
}

/// y += a x.
#[inline(always)]
pub(crate) fn add_scaled(y: &mut [f64], a: f64, x: &[f64]) {
    for (y, x) in y.iter_mut().zip(x) {
        *y += a * x;
    }
}

/// Replaces the lower triangle of a symmetric positive definite matrix (n x n,
/// row by row) by its Cholesky factor; the upper triangle is left as it is.
///
/// # Errors
/// [`GaussianError::NotPositive`] when a pivot is not positive.
pub fn cholesky(matrix: &mut [f64], n: usize) -> Result<(), GaussianError> {
    factorise(matrix, n, 0.0)
}

/// As [`cholesky`], for a covariance that may be singular: a pivot below 1e-12
/// of its variance counts as zero, and so does its column (for a positive
/// semidefinite matrix that column is zero but for rounding).
///
/// # Errors
/// [`GaussianError::Shape`] or [`GaussianError::NotFinite`] only.
pub fn cholesky_semidefinite(matrix: &mut [f64], n: usize) -> Result<(), GaussianError> {
    factorise(matrix, n, 1e-12)
}

/// `vanishing` zero asks for positive pivots, otherwise pivots below that
/// share of their variance are replaced by zero.
fn factorise(matrix: &mut [f64], n: usize, vanishing: f64) -> Result<(), GaussianError> {
    if matrix.len() != n * n {
        return Err(GaussianError::Shape);
    }
    for i in 0..n {
        let (above, rest) = matrix.split_at_mut(i * n);
        let row = &mut rest[..n];
        for j in 0..i {
            let other = &above[j * n..j * n + j + 1];
            let sum = row[j] - dot(&row[..j], &other[..j]);
            row[j] = if other[j] > 0.0 { sum / other[j] } else { 0.0 };
        }
        let variance = row[i];
        let pivot = variance - dot(&row[..i], &row[..i]);
        if !pivot.is_finite() {
            return Err(GaussianError::NotFinite);
        }
        if pivot > vanishing * variance.abs() {
            row[i] = pivot.sqrt();
        } else if vanishing > 0.0 {
            row[i] = 0.0;
        } else {
            return Err(GaussianError::NotPositive);
        }
    }
    Ok(())
}

/// Sum of products in four interleaved parts, so that it need not wait for
/// each addition; the order is fixed.
pub(super) fn dot(a: &[f64], b: &[f64]) -> f64 {
    let mut parts = [0.0; 4];
    let (a4, b4) = (a.chunks_exact(4), b.chunks_exact(4));
    let tail: f64 = a4
        .remainder()
        .iter()
        .zip(b4.remainder())
        .map(|(a, b)| a * b)
        .sum();
    for (a, b) in a4.zip(b4) {
        for (part, (a, b)) in parts.iter_mut().zip(a.iter().zip(b)) {
            *part += a * b;
        }
    }
    (parts[0] + parts[1]) + (parts[2] + parts[3]) + tail
}

/// X <- L^-1 X for X with m rows of `width` values.
pub(super) fn solve_lower_rows(factor: &[f64], m: usize, x: &mut [f64], width: usize) {
    for a in 0..m {
        let (above, rest) = x.split_at_mut(a * width);
        let row = &mut rest[..width];
        for b in 0..a {
            add_scaled(row, -factor[a * m + b], &above[b * width..(b + 1) * width]);
        }
        let pivot = factor[a * m + a];
        row.iter_mut().for_each(|v| *v /= pivot);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn singular_covariance_factors() {
        // x, x + y, 2 x with var x = 1, var y = 4.
        let mut matrix = vec![1.0, 0.0, 0.0, 1.0, 5.0, 0.0, 2.0, 2.0, 4.0];
        cholesky_semidefinite(&mut matrix, 3).unwrap();
        assert_eq!(matrix[0], 1.0);
        assert_eq!([matrix[3], matrix[4]], [1.0, 2.0]);
        assert_eq!([matrix[6], matrix[7], matrix[8]], [2.0, 0.0, 0.0]);
        let mut strict = vec![1.0, 1.0, 1.0, 1.0];
        assert_eq!(cholesky(&mut strict, 2), Err(GaussianError::NotPositive));
    }
}
