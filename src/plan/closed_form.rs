//! What whole notches reach on a press of equal, independent nuts.
//!
//! Both statements hold when every nut moves its own station by the same notch
//! and no other station, every arm has exactly one counting station at its
//! centre and no others count, and no limit or wish is in the way of a turn.

/// The spread that whole notches reach whatever the readings:
/// `notch (1 - 1/N)`, in the unit of `notch`. Zero for no arms.
///
/// Of `N` gaps around a circle as long as the notch the largest is at least an
/// `N`-th; see [`circular_gap_optimum`]. Reached by readings that lie evenly
/// on the circle, so that no smaller figure holds for all.
pub fn always_reachable(notch: f64, arms: usize) -> f64 {
    match arms {
        0 => 0.0,
        arms => notch - notch / arms as f64,
    }
}

/// The smallest spread of these readings: the notch minus the largest gap
/// between the readings modulo the notch, on a circle as long as the notch.
///
/// Turns leave the readings modulo the notch alone. Where a spread `r` below
/// the notch is reached, all readings modulo the notch lie on an arc of length
/// `r`, and the rest of the circle, `notch - r`, is a gap without readings;
/// and cutting the circle at its largest gap names turns that reach it.
///
/// Exact for whole nanometres. `None` when there is no reading, one is not
/// finite, or the notch is not a positive length.
pub fn circular_gap_optimum(thickness_nm: &[f64], notch_nm: f64) -> Option<f64> {
    let sound = notch_nm > 0.0
        && notch_nm.is_finite()
        && !thickness_nm.is_empty()
        && thickness_nm.iter().all(|t| t.is_finite());
    if !sound {
        return None;
    }
    let thinnest = thickness_nm.iter().copied().fold(f64::INFINITY, f64::min);
    let mut residues: Vec<f64> = thickness_nm
        .iter()
        .map(|t| (t - thinnest) % notch_nm)
        .collect();
    residues.sort_by(f64::total_cmp);
    let around = residues.first().map(|first| first + notch_nm);
    let next = residues.iter().skip(1).copied().chain(around);
    let gaps = residues.iter().zip(next).map(|(left, right)| right - left);
    Some(notch_nm - gaps.fold(0.0, f64::max))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn evenly_spread_readings_are_the_worst() {
        for arms in 1..=12_u32 {
            let notch = f64::from(27_720 * 4);
            let share = notch / f64::from(arms);
            let readings: Vec<f64> = (0..arms).map(|i| f64::from(i) * (share + notch)).collect();
            let reached = circular_gap_optimum(&readings, notch);
            assert_eq!(reached, Some(always_reachable(notch, arms as usize)));
        }
    }

    #[test]
    fn unsound_figures_have_no_optimum() {
        assert_eq!(circular_gap_optimum(&[], 4.0), None);
        assert_eq!(circular_gap_optimum(&[1.0, f64::NAN], 4.0), None);
        assert_eq!(circular_gap_optimum(&[1.0], 0.0), None);
        assert_eq!(circular_gap_optimum(&[1.0], f64::NAN), None);
    }
}
