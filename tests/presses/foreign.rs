//! Presses that owe nothing to the program: neither its beam nor its normal
//! scatter.

use super::{INCH, Law, NOTCH, Press, even_layout, start};
use jawtrue::practice::SimulatedPress;
use jawtrue::press::JawStiffness;
use jawtrue::stats::Draws;

#[path = "../support/presses.rs"]
mod independent;

impl Press {
    /// A jaw between the two ends of what a jaw can be: one that is rigid and
    /// seesaws on its rods (a straight line fitted through the nuts, in closed
    /// form), and one without any stiffness, where each nut moves its own station
    /// alone. Everything that scatters is spread evenly up to a limit.
    pub fn between_rigid_and_slack(draws: &mut Draws, arms: usize, deviation_nm: f64) -> Self {
        let layout = even_layout(arms);
        let rigid = draws.between(0.2, 0.8);
        let at = layout.arms_nm();
        let middle = at.iter().sum::<f64>() / arms as f64;
        let width: f64 = at.iter().map(|x| (x - middle).powi(2)).sum();
        let line =
            |s: usize, i: usize| 1.0 / arms as f64 + (at[s] - middle) * (at[i] - middle) / width;
        let effects: Vec<f64> = (0..arms).map(|_| NOTCH * draws.between(0.8, 1.1)).collect();
        let response = (0..arms * arms).map(|place| {
            let (s, i) = (place / arms, place % arms);
            let own = f64::from(u8::from(s == i));
            effects[i] * ((1.0 - rigid) * own + rigid * line(s, i))
        });
        let response = response.collect();
        Self::linear(draws, arms, deviation_nm, response, Law::Flat)
    }

    /// A jaw by another beam than the program's (dense Hermite cubics, another
    /// jaw end, other rods), with scatter that now and then is far out.
    pub fn of_another_beam(draws: &mut Draws, arms: usize, deviation_nm: f64) -> Self {
        let stations: Vec<f64> = (0..arms).map(|arm| arm as f64 + 0.5).collect();
        let kappa = libm::exp(draws.between(libm::log(3.0), libm::log(70.0)));
        let rho = draws.between(0.0, 0.3);
        let rods: Vec<f64> = (0..arms).map(|_| draws.between(0.6, 1.4)).collect();
        let rows = independent::influence(arms, &stations, kappa, rho, &rods);
        let mean = rows.iter().flatten().sum::<f64>() / arms as f64;
        let common = NOTCH * draws.between(0.75, 1.1) / mean;
        let response = rows.iter().flatten().map(|b| common * b).collect();
        Self::linear(draws, arms, deviation_nm, response, Law::HeavyTails)
    }

    fn linear(
        draws: &mut Draws,
        arms: usize,
        deviation_nm: f64,
        response: Vec<f64>,
        law: Law,
    ) -> Self {
        // The beam of this is never asked: the response is replaced whole.
        let any = JawStiffness {
            kappa: 10.0,
            rho: 0.0,
            rod_factors: &vec![1.0; arms],
            sections: &[],
        };
        let mut simulated = SimulatedPress::new(even_layout(arms), &any).unwrap();
        simulated.start_nm = start(draws, arms, deviation_nm);
        simulated.response = response;
        Self {
            simulated,
            kappa: f64::NAN,
            law,
        }
    }
}

/// A kind of press: drawn with so many arms, so far out of level.
pub type Drawn = fn(&mut Draws, usize, f64) -> Press;

/// Those of the program's beam and scatter, and those of neither.
pub const KINDS: [(Drawn, &str); 4] = [
    (Press::of_the_prior, "of the prior"),
    (Press::of_another_kind, "of another kind"),
    (Press::between_rigid_and_slack, "between rigid and slack"),
    (Press::of_another_beam, "of another beam"),
];

/// How far off level a press is as found, as a standard deviation.
pub const AS_FOUND_NM: f64 = 0.004 * INCH;
