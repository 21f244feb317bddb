//! The profile that turns would bring.

use crate::plan::PosteriorProfile;
use crate::press::Notches;

use super::Advice;

/// What is expected at a station.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PredictedStation {
    /// Mean thickness, in nanometres.
    pub mean_nm: f64,
    /// Standard deviation, in nanometres, of the station's deviation from the
    /// mean of the stations that count. What all stations share, the unknown
    /// level of the next piece, concerns no spread and is left out.
    pub sd_nm: f64,
}

impl Advice {
    /// The next piece after `turns` (missing ones count as zero), a value per
    /// station, from all that was learnt: lacing scatter, tilt, the profile's
    /// and the response's uncertainty included.
    pub fn predicted(&self, turns: &[Notches]) -> Vec<PredictedStation> {
        let turns: Vec<f64> = turns.iter().map(|turn| turn.0.into()).collect();
        about_level(&self.posterior.next_piece_after(&turns), &self.counting)
    }
}

/// The stations of a profile, each with its deviation from the mean of the
/// stations `counting`.
pub(super) fn about_level(profile: &PosteriorProfile, counting: &[usize]) -> Vec<PredictedStation> {
    let stations = profile.mean_nm.len();
    let share = 1.0 / counting.len().max(1) as f64;
    let covariance = |a: usize, b: usize| {
        let at = profile.covariance.get(a * stations + b);
        at.copied().unwrap_or(0.0)
    };
    // With the level m the mean over the counting stations, the variance
    // of t_s - m is var t_s - 2 cov(t_s, m) + var m.
    let with_level: Vec<f64> = (0..stations)
        .map(|s| share * counting.iter().map(|&c| covariance(s, c)).sum::<f64>())
        .collect();
    let level_variance = share
        * counting
            .iter()
            .filter_map(|&c| with_level.get(c))
            .sum::<f64>();
    profile
        .mean_nm
        .iter()
        .zip(&with_level)
        .enumerate()
        .map(|(s, (mean_nm, with_level))| {
            let variance = covariance(s, s) - 2.0 * with_level + level_variance;
            PredictedStation {
                mean_nm: *mean_nm,
                sd_nm: variance.max(0.0).sqrt(),
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: with covariance [[4, 1, 0], [1, 9, 2], [0, 2, 16]] and the first
    /// two stations counting, m = (t0 + t1) / 2 and var m = (4 + 2 + 9) / 4 =
    /// 3.75. cov(t0, m) = 2.5, cov(t1, m) = 5, cov(t2, m) = 1, so that var(t - m)
    /// = 4 - 5 + 3.75 = 2.75 at the first, 9 - 10 + 3.75 = 2.75 at the second
    /// (both are half of t0 - t1) and 16 - 2 + 3.75 = 17.75 at the third.
    #[test]
    fn what_all_stations_share_is_left_out() {
        let profile = PosteriorProfile {
            mean_nm: vec![7.0, 8.0, 9.0],
            covariance: vec![4.0, 1.0, 0.0, 1.0, 9.0, 2.0, 0.0, 2.0, 16.0],
        };
        let found = about_level(&profile, &[0, 1]);
        for (station, (mean, variance)) in
            found.iter().zip([(7.0, 2.75), (8.0, 2.75), (9.0, 17.75)])
        {
            assert_eq!(station.mean_nm, mean);
            assert!(
                (station.sd_nm.powi(2) - variance).abs() < 1e-12,
                "{station:?}"
            );
        }
    }
}
