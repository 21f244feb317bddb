//! Lattice reduction: short and nearly orthogonal steps in place of single
//! notches.

use super::MOST_ARMS;
use super::model::{PerArm, WholePerArm};

/// Lovasz factor: how much shorter a swap has to make a vector.
const LOVASZ: f64 = 0.99;

/// Swaps after which the basis is taken as it stands. Any basis is valid: a
/// poor one only makes the search longer.
const MOST_ROUNDS: usize = 3000;

/// Coefficients beyond this would no longer be exact in `f64` sums.
const LARGEST_WHOLE: i64 = 1 << 22;

/// A unimodular basis and its inverse.
#[derive(Debug, Clone, Copy)]
pub(super) struct Basis {
    /// The vectors of the basis.
    pub vectors: [WholePerArm; MOST_ARMS],
    /// Rows of the inverse.
    pub inverse: [WholePerArm; MOST_ARMS],
    /// How far each vector leans along each later one, once reduced.
    lean: [PerArm; MOST_ARMS],
}

impl Basis {
    /// A basis yet to be reduced.
    pub fn new(vectors: &[WholePerArm; MOST_ARMS], inverse: &[WholePerArm; MOST_ARMS]) -> Self {
        Self {
            vectors: *vectors,
            inverse: *inverse,
            lean: [[0.0; MOST_ARMS]; MOST_ARMS],
        }
    }

    /// Whole turns near the given ones: step by step the nearest value,
    /// each error passed on to the steps still to come (Babai,
    /// Combinatorica 6, 1986).
    pub fn round(&self, turns: &PerArm, n: usize) -> WholePerArm {
        let mut steps = [0.0; MOST_ARMS];
        for (step, row) in steps.iter_mut().zip(&self.inverse).take(n) {
            *step = row.iter().zip(turns).map(|(v, k)| *v as f64 * k).sum();
        }
        let mut rounded = [0; MOST_ARMS];
        for i in 0..n {
            let step = steps[i].round().clamp(-1e9, 1e9);
            let error = steps[i] - step;
            for (later, lean) in steps.iter_mut().zip(&self.lean[i]).take(n).skip(i + 1) {
                *later += error * lean;
            }
            for (turn, u) in rounded.iter_mut().zip(&self.vectors[i]) {
                *turn += step as i64 * u;
            }
        }
        rounded
    }
}

/// Lenstra, Lenstra and Lovasz (Math. Ann. 261, 1982) in floating point, on
/// `n` vectors given by their coordinates in an orthonormal frame. The whole
/// numbers are exact, so rounding can spoil the quality of the basis, never
/// its validity. The vectors come out longest last direction first, the order
/// in which they are to be searched.
pub(super) fn reduce(frame: &[PerArm; MOST_ARMS], basis: &Basis, n: usize) -> Basis {
    let mut w = *frame;
    let Basis {
        mut vectors,
        mut inverse,
        ..
    } = *basis;
    let mut star = [[0.0; MOST_ARMS]; MOST_ARMS];
    let mut norm = [0.0; MOST_ARMS];
    let mut mu = [[0.0; MOST_ARMS]; MOST_ARMS];
    orthogonalise(0, n, &w, &mut star, &mut norm, &mut mu);
    let mut k = 1;
    let mut rounds = 0;
    while k < n && rounds < MOST_ROUNDS {
        rounds += 1;
        orthogonalise(k, n, &w, &mut star, &mut norm, &mut mu);
        for j in (0..k).rev() {
            let q = mu[k][j].round();
            if q == 0.0 {
                continue;
            }
            if !(q.abs() < 1e9) || !subtract(&mut vectors, &mut inverse, k, j, q as i64) {
                rounds = MOST_ROUNDS;
                break;
            }
            let (wj, muj) = (w[j], mu[j]);
            for (a, b) in w[k].iter_mut().zip(&wj) {
                *a -= q * b;
            }
            for (a, b) in mu[k].iter_mut().zip(&muj).take(j) {
                *a -= q * b;
            }
            mu[k][j] -= q;
        }
        let projected = norm[k] + mu[k][k - 1] * mu[k][k - 1] * norm[k - 1];
        if projected >= LOVASZ * norm[k - 1] {
            k += 1;
        } else {
            w.swap(k, k - 1);
            vectors.swap(k, k - 1);
            inverse.swap(k, k - 1);
            k -= 1;
            orthogonalise(k, n, &w, &mut star, &mut norm, &mut mu);
            k = k.max(1);
        }
    }
    vectors[..n].reverse();
    inverse[..n].reverse();
    let mut lean = [[0.0; MOST_ARMS]; MOST_ARMS];
    for i in 0..n {
        for j in 0..i {
            lean[n - 1 - i][n - 1 - j] = mu[i][j];
        }
    }
    Basis {
        vectors,
        inverse,
        lean,
    }
}

/// Gram-Schmidt of vector `k`, of `n` coordinates, against the ones before it.
fn orthogonalise(
    k: usize,
    n: usize,
    w: &[PerArm; MOST_ARMS],
    star: &mut [PerArm; MOST_ARMS],
    norm: &mut PerArm,
    mu: &mut [PerArm; MOST_ARMS],
) {
    let mut rest = w[k];
    for j in 0..k {
        let m = if norm[j] > 0.0 {
            dot(&rest[..n], &star[j][..n]) / norm[j]
        } else {
            0.0
        };
        for (a, b) in rest[..n].iter_mut().zip(&star[j]) {
            *a -= m * b;
        }
        mu[k][j] = m;
    }
    norm[k] = dot(&rest[..n], &rest[..n]);
    star[k] = rest;
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// `vectors[k] -= q vectors[j]`, and the same in the inverse. False, with
/// nothing changed, when the figures would grow too large.
fn subtract(
    vectors: &mut [WholePerArm; MOST_ARMS],
    inverse: &mut [WholePerArm; MOST_ARMS],
    k: usize,
    j: usize,
    q: i64,
) -> bool {
    let (vj, ik) = (vectors[j], inverse[k]);
    let fits = |a: i64, b: i64| (a + q.abs() * b.abs()) < LARGEST_WHOLE;
    let small = vectors[k].iter().zip(&vj).all(|(a, b)| fits(a.abs(), *b))
        && inverse[j].iter().zip(&ik).all(|(a, b)| fits(a.abs(), *b));
    if small {
        for (a, b) in vectors[k].iter_mut().zip(&vj) {
            *a -= q * b;
        }
        for (a, b) in inverse[j].iter_mut().zip(&ik) {
            *a += q * b;
        }
    }
    small
}
