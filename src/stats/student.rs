//! Student's t and the F distribution, by way of the incomplete beta function.

/// Relative size at which a factor no longer changes the product.
const SMALL: f64 = 1e-16;

/// Most terms of the fraction; it converges in about sqrt(max(a, b)) terms.
const MOST_TERMS: usize = 10_000;

/// Most steps to a critical value; half a dozen are usual.
const MOST_STEPS: usize = 1_000;

/// Degrees of freedom from which the normal distribution stands in: there the
/// two differ by less than one part in ten million.
const PRACTICALLY_NORMAL: f64 = 1e7;

/// I_x(a, b), the regularised incomplete beta function for a, b > 0, with
/// `x` and `1 - x` given apart so that neither loses its digits.
///
/// Continued fraction of DLMF 8.17.22 by Lentz's method, on the side of the
/// mean where it converges fast (I_x(a, b) = 1 - I_{1-x}(b, a)). Absolute
/// error below 1e-12 for a, b up to 1e4.
fn incomplete_beta(a: f64, b: f64, x: f64, rest: f64) -> f64 {
    if x <= 0.0 {
        return 0.0;
    }
    if rest <= 0.0 {
        return 1.0;
    }
    let log_front = libm::lgamma(a + b) - libm::lgamma(a) - libm::lgamma(b)
        + a * libm::log(x)
        + b * libm::log(rest);
    let front = libm::exp(log_front);
    let share = if x < (a + 1.0) / (a + b + 2.0) {
        front * fraction(a, b, x) / a
    } else {
        1.0 - front * fraction(b, a, rest) / b
    };
    share.clamp(0.0, 1.0)
}

fn fraction(a: f64, b: f64, x: f64) -> f64 {
    const TINY: f64 = 1e-300;
    let away_from_zero = |value: f64| if value.abs() < TINY { TINY } else { value };
    let mut c = 1.0;
    let mut d = 1.0 / away_from_zero(1.0 - (a + b) * x / (a + 1.0));
    let mut product = d;
    for m in 1..MOST_TERMS {
        let m = m as f64;
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        let mut factor = 1.0;
        for numerator in [even, odd] {
            d = 1.0 / away_from_zero(1.0 + numerator * d);
            c = away_from_zero(1.0 + numerator / c);
            factor = c * d;
            product *= factor;
        }
        if (factor - 1.0).abs() <= SMALL {
            break;
        }
    }
    product
}

/// Probability that Student's t with `dof` degrees of dof is at least
/// `t` in size: I_x(freedom / 2, 1 / 2) with x = freedom / (dof + t^2).
/// `dof` must be positive; infinite means the normal distribution.
pub(crate) fn student_two_sided(t: f64, dof: f64) -> f64 {
    let t = t.abs();
    if dof >= PRACTICALLY_NORMAL {
        return libm::erfc(t * core::f64::consts::FRAC_1_SQRT_2);
    }
    let square = t * t;
    if square == f64::INFINITY {
        return 0.0;
    }
    let whole = dof + square;
    incomplete_beta(dof / 2.0, 0.5, dof / whole, square / whole)
}

/// Density of the size of Student's t at `t`; see [`student_two_sided`].
fn size_density(t: f64, dof: f64) -> f64 {
    use core::f64::consts::{LN_2, PI};
    let log = if dof >= PRACTICALLY_NORMAL {
        -0.5 * (libm::log(2.0 * PI) + t * t)
    } else {
        libm::lgamma(0.5 * (dof + 1.0))
            - libm::lgamma(0.5 * dof)
            - 0.5 * (libm::log(dof * PI) + (dof + 1.0) * libm::log1p(t * t / dof))
    };
    libm::exp(log + LN_2)
}

/// The t that Student's t with `dof` degrees of freedom exceeds in size with
/// probability `alpha`, by Newton's method on the logarithms of t and of
/// `student_two_sided`: that curve falls ever steeper, so that every step
/// but the first comes from the same side and none passes the root. Relative
/// error below 1e-11 for alpha from 1e-9 to 1.
///
/// `None` unless 0 < alpha <= 1 and `dof` > 0, or where t is beyond 1e150.
pub fn student_critical(alpha: f64, dof: f64) -> Option<f64> {
    let usable = alpha > 0.0 && alpha <= 1.0 && dof > 0.0;
    if !usable {
        return None;
    }
    if alpha >= 1.0 {
        return Some(0.0);
    }
    let mut t = 2.0;
    for _ in 0..MOST_STEPS {
        let tail = student_two_sided(t, dof);
        let slope = t * size_density(t, dof) / tail;
        let step = if slope > 0.0 && slope.is_finite() {
            (libm::log(tail) - libm::log(alpha)) / slope
        } else {
            // The first step went beyond where anything is left.
            -1.0
        };
        t *= libm::exp(step);
        if t > 1e150 {
            return None;
        }
        // The error left goes by the square of the last step.
        if step.abs() < 1e-8 {
            break;
        }
    }
    Some(t)
}

/// Probability that an F value with `above` degrees of dof over the line
/// and `below` under it is at or above `f`: I_x(below / 2, above / 2) with
/// x = below / (below + above f). `None` unless all are usable numbers.
pub fn f_above(f: f64, above: f64, below: f64) -> Option<f64> {
    let finite = |dof: f64| dof > 0.0 && dof.is_finite();
    if f.is_nan() || !finite(above) || !finite(below) {
        return None;
    }
    if f <= 0.0 {
        return Some(1.0);
    }
    if f == f64::INFINITY {
        return Some(0.0);
    }
    let whole = below + above * f;
    let (x, rest) = (below / whole, above * f / whole);
    Some(incomplete_beta(below / 2.0, above / 2.0, x, rest))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// scipy 1.17: `scipy.stats.t.isf(alpha / 2, dof)`.
    #[test]
    fn student_agrees_with_scipy() {
        for (alpha, dof, t) in [
            (0.05, 1.0, 12.706204736174705),
            (0.05, 2.5, 3.5746548420036834),
            (0.05, 18.0, 2.1009220402410387),
            (0.008333333333333333, 1.0, 76.39000931113605),
            (2.5e-05, 998.0, 4.234693954943269),
            (1e-09, 3.0, 1301.6371672916928),
            (0.5, 7.0, 0.7111417780817866),
            (0.05, 9999.0, 1.9602012636213577),
            (0.05, f64::INFINITY, 1.9599639845400547),
        ] {
            let found = student_critical(alpha, dof).unwrap();
            assert!((found / t - 1.0).abs() < 1e-11, "{alpha} {dof}: {found}");
        }
        for (alpha, dof) in [(0.0, 3.0), (0.05, 0.0), (f64::NAN, 1.0), (0.05, f64::NAN)] {
            assert_eq!(student_critical(alpha, dof), None);
        }
    }

    /// With two degrees of freedom, in closed form; with no end of them,
    /// Python's `-statistics.NormalDist().inv_cdf(0.5e-9)`.
    #[test]
    fn student_is_right_far_out_and_close_in() {
        for alpha in [1e-9_f64, 1e-4, 0.3, 0.9] {
            let exact = (1.0 - alpha) * libm::sqrt(2.0 / (alpha * (2.0 - alpha)));
            let found = student_critical(alpha, 2.0).unwrap();
            assert!((found / exact - 1.0).abs() < 1e-11, "{alpha}: {found}");
        }
        let far = student_critical(1e-9, f64::INFINITY).unwrap();
        assert!((far / 6.1094102048693975 - 1.0).abs() < 1e-11, "{far}");
        assert_eq!(student_critical(1.0, 5.0), Some(0.0));
        let (least, overshot) = (
            student_critical(1e-300, 0.1),
            student_critical(1.5e-179, 2.0),
        );
        assert_eq!(least, None);
        assert!((overshot.unwrap() / libm::sqrt(1.0 / 1.5e-179) - 1.0).abs() < 1e-11);
    }

    /// scipy 1.17: `scipy.stats.f.sf(f, above, below)`.
    #[test]
    fn f_agrees_with_scipy() {
        for (f, above, below, expected) in [
            (1.18046237440255, 4.0, 20.0, 0.34944749340219294),
            (0.434, 18.0, 60.0, 0.9740208028890078),
            (3.5, 2.0, 6.0, 0.09831588529813383),
            (1.0, 1.0, 1.0, 0.5000000000000001),
            (0.01, 5.0, 5.0, 0.9999475708664215),
            (40.0, 9.0, 18.0, 4.377338132765095e-10),
        ] {
            let found = f_above(f, above, below).unwrap();
            assert!((found - expected).abs() < 1e-12, "{f}: {found}");
        }
        assert_eq!(f_above(1.0, 0.0, 1.0), None);
    }
}
