//! The profiles of passes: as measured, and as foretold for them.

use crate::window::views::Scene;

/// The name beside a pass's line: `1 as found`, `2`, `3 as left`.
pub fn short_name(scene: &Scene<'_>, pass: usize) -> String {
    let words = scene.words();
    let last = scene.session.passes.len().saturating_sub(1);
    match pass {
        0 => words.side_found(1),
        pass if pass == last => words.side_left(pass + 1),
        pass => (pass + 1).to_string(),
    }
}

/// Station means of a pass, in nanometres.
pub fn means_nm(scene: &Scene<'_>, pass: usize) -> Vec<Option<f64>> {
    let profile = scene.session.passes.get(pass).map(|pass| pass.profile());
    (0..scene.session.stations.len())
        .map(|station| Some(profile.as_ref()?.mean(station)?.nm_f64()))
        .collect()
}

/// Mean over the counting stations that have a value.
pub fn level_nm(scene: &Scene<'_>, means: &[Option<f64>]) -> Option<f64> {
    let counting = scene.session.stations.iter().map(|station| station.counts);
    let (mut sum, mut count) = (0.0, 0.0);
    for (mean, _) in means.iter().zip(counting).filter(|(_, counts)| *counts) {
        if let Some(mean) = mean {
            sum += mean;
            count += 1.0;
        }
    }
    (count > 0.0).then(|| sum / count)
}

/// The profile foretold for a pass, laid at the level at which the piece was
/// measured: no turn says at which level a piece comes out. With the standard
/// deviation of each station.
pub fn foretold_nm(scene: &Scene<'_>, pass: usize) -> Option<(Vec<Option<f64>>, Vec<f64>)> {
    let foresight = scene.history.of(pass)?;
    let measured = means_nm(scene, pass);
    let read = |values: Vec<f64>| -> Vec<Option<f64>> {
        let pairs = values.into_iter().zip(&measured);
        pairs.map(|(value, mean)| mean.map(|_| value)).collect()
    };
    let means = read(foresight.stations.iter().map(|at| at.mean_nm).collect());
    let shift = level_nm(scene, &measured)? - level_nm(scene, &means)?;
    let laid = means.into_iter().map(|mean| Some(mean? + shift)).collect();
    let sd = foresight.stations.iter().map(|at| at.sd_nm).collect();
    Some((laid, sd))
}
