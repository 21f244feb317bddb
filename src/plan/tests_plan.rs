//! What the tests of this room share.

use super::{
    Layout, Model, Noise, Posterior, PriorDraws, ResponsePrior, StationReading, Stiffness, TestPass,
};

/// What pieces teach of a press of three arms, with a step of a tenth of a
/// thousandth: where the nuts stood, the means read at the arms in nanometres,
/// and how often each was read.
pub(super) fn three_arms(pieces: &[([f64; 3], [f64; 3], u32)]) -> Posterior {
    let positions = [0.0, 3e8, 7e8];
    let layout = Layout::new((-1.5e8, 8.5e8), &positions, &positions).unwrap();
    let draws = PriorDraws::default();
    let prior =
        ResponsePrior::from_layout(&layout, &[101_600.0; 3], Stiffness::Unknown, &draws).unwrap();
    let passes = pieces.iter().map(|(nuts, means_nm, repeats)| {
        let (nuts, repeats) = (nuts.to_vec(), *repeats);
        let reading = |mean_nm| Some(StationReading { mean_nm, repeats });
        TestPass {
            nuts,
            handle: 0.0,
            readings: means_nm.map(reading).to_vec(),
        }
    });
    let model = Model {
        prior: &prior,
        along: &layout.along(),
        noise: Noise::assumed(2_540.0),
    };
    Posterior::from_passes(&model, &passes.collect::<Vec<_>>()).unwrap()
}
