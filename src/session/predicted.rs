//! The profile that turns would bring.

use crate::plan::Profile;
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
        about_level(&self.learnt.next_piece_after(&turns), &self.counting)
    }

    /// This very piece as it would be had it been laced after `turns`: its
    /// station means and the response's, in nanometres; `None` where it was not
    /// read. What a preview draws over the readings.
    pub fn preview_nm(&self, turns: &[Notches]) -> Vec<Option<f64>> {
        self.piece_means_nm
            .iter()
            .enumerate()
            .map(|(station, mean)| {
                let turns = turns.iter().map(|turn| f64::from(turn.0));
                mean.map(|mean| mean + self.response.change_at(station, turns))
            })
            .collect()
    }
}

/// The stations of a profile, each with its deviation from the mean of the
/// stations `counting`.
pub(super) fn about_level(profile: &Profile, counting: &[usize]) -> Vec<PredictedStation> {
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
