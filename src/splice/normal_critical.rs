//! Critical values of the normal distribution.

/// The z that a standard normal value exceeds in size with probability
/// `alpha`: the root of erfc(z / sqrt 2) = alpha, by bisection (the function
/// falls strictly). Exact to the last digits for 1e-300 <= alpha <= 1; outside
/// it answers the nearest end.
pub(super) fn two_sided_normal(alpha: f64) -> f64 {
    let alpha = if alpha > 0.0 { alpha.min(1.0) } else { 1e-300 };
    let (mut low, mut high) = (0.0_f64, 38.0_f64);
    // Halving 38 sixty-four times is finer than the last digit anywhere.
    for _ in 0..64 {
        let middle = low + (high - low) / 2.0;
        if libm::erfc(middle * core::f64::consts::FRAC_1_SQRT_2) > alpha {
            low = middle;
        } else {
            high = middle;
        }
    }
    low + (high - low) / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;

    /// scipy 1.17: `scipy.stats.norm.isf(alpha / 2)`.
    #[test]
    fn agrees_with_scipy() {
        for (alpha, z) in [
            (0.05, 1.959_963_984_540_054),
            (0.05 / 7.0, 2.690_109_527_158_865_5),
            (0.317_310_507_862_914_15, 1.0),
            (1e-10, 6.466_951_087_240_516),
        ] {
            let found = two_sided_normal(alpha);
            assert!((found - z).abs() < 1e-12, "{alpha}: {found}");
        }
        assert!(two_sided_normal(f64::NAN).is_finite());
    }
}
