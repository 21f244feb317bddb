//! What is believed of a press's response before it has shown any.
//!
//! The jaw is a beam on its rods and on the splice; a shop knows neither the
//! stiffness of the one nor of the other. So the ratios that matter are drawn,
//! the beam is solved for each draw, and mean and covariance of the response
//! over the draws make the normal prior:
//!
//! ```text
//! kappa = k a^3 / EI    log-uniform on [3, 70], or log-normal when known
//! rho   = k_f a / k     uniform on [0, 0.3]
//! rods  k_i / k         log-normal, sd 0.2
//! B[s][i] = effect_i x g x v_i x W[s][i]
//! ```
//!
//! with W the beam's influence at the stations, scaled so that its mean row sum
//! over the arms is one; g log-normal (mean of the logarithm -0.08, sd 0.15),
//! since a nominal notch effect may mean travel at the nut, some of which the
//! rods take; v_i uniform on [0.88, 1.12], nut by nut. Only W needs drawing:
//! g and v_i are independent of it, so their moments enter exactly.

use super::error::{PlanError, Quantity};
use super::layout::Layout;
use super::noise::{FADING, MOST_LENGTH_NM, MOST_STATIONS, PRIOR_DRAWS};
use super::shapes::{PriorDraws, ShapeMoments, Stiffness};
use super::turns::MOST_ARMS;
use crate::press::Response;
use crate::stats::{Gaussian, LatinHypercube, Purpose, cholesky_semidefinite};

/// Mean and standard deviation of the logarithm of the notch effect's ratio to
/// its nominal value.
pub const EFFECT_LOG: (f64, f64) = (-0.08, 0.15);
/// Half width of the uniform scatter of the nuts' effects.
pub const NUT_SCATTER: f64 = 0.12;

/// A normal distribution of the response: what was believed first, and again
/// what has been learnt.
#[derive(Debug, Clone, PartialEq)]
pub struct ResponsePrior {
    stations: usize,
    arms: usize,
    gaussian: Gaussian,
}

/// Longest jaw in mean distances between its arms. A beam is solved in pieces
/// no longer than such a distance, some thousand times: arms 1 mm apart on a jaw
/// of 10 m would take minutes, and are a slip of the keyboard.
const MOST_SPACINGS: f64 = 400.0;

impl ResponsePrior {
    /// The prior of a geometry. `effects_nm` is the nominal notch effect of
    /// each nut in nanometres per notch. Deterministic; worth keeping, since
    /// it costs some thousand beam solutions.
    ///
    /// # Errors
    /// [`PlanError`] for effects or a stiffness that are not positive and
    /// finite, a list of the wrong length, or arms too close together for the
    /// length of their jaw.
    pub fn from_layout(
        layout: &Layout,
        effects_nm: &[f64],
        stiffness: Stiffness,
        draws: &PriorDraws,
    ) -> Result<Self, PlanError> {
        Self::from_draws(layout, effects_nm, stiffness, PRIOR_DRAWS, draws)
    }

    /// As [`Self::from_layout`] with another number of draws.
    pub(super) fn from_draws(
        layout: &Layout,
        effects_nm: &[f64],
        stiffness: Stiffness,
        count: usize,
        draws: &PriorDraws,
    ) -> Result<Self, PlanError> {
        let arms = layout.arms_nm().len();
        let stations = layout.stations_nm().len();
        if effects_nm.len() != arms {
            return Err(PlanError::Shape {
                expected: arms,
                found: effects_nm.len(),
            });
        }
        if !effects_nm.iter().all(|e| *e > 0.0 && *e <= MOST_LENGTH_NM) {
            return Err(PlanError::OutOfRange(Quantity::NotchEffect));
        }
        if layout.jaw_in_spacings() > MOST_SPACINGS {
            return Err(PlanError::Crowded);
        }
        if let Stiffness::About {
            kappa,
            log_deviation,
        } = stiffness
            && !((1e-6..=1e9).contains(&kappa) && (0.0..=3.0).contains(&log_deviation))
        {
            return Err(PlanError::OutOfRange(Quantity::Stiffness));
        }
        let shapes = ShapeMoments::draw(layout, stiffness, count, draws)?;
        let size = stations * arms;
        let (log_mean, log_deviation) = EFFECT_LOG;
        let log_variance = log_deviation * log_deviation;
        let first = libm::exp(log_mean + 0.5 * log_variance);
        let second = libm::exp(2.0 * (log_mean + log_variance));
        let same_nut = 1.0 + NUT_SCATTER * NUT_SCATTER / 3.0;
        let mean: Vec<f64> = (0..size)
            .map(|a| first * effects_nm[a % arms] * shapes.mean[a])
            .collect();
        let mut covariance = vec![0.0; size * size];
        for a in 0..size {
            for b in 0..=a {
                let nuts = if a % arms == b % arms { same_nut } else { 1.0 };
                let product = shapes.covariance[a * size + b] + shapes.mean[a] * shapes.mean[b];
                let effects = effects_nm[a % arms] * effects_nm[b % arms];
                covariance[a * size + b] = second * nuts * effects * product - mean[a] * mean[b];
            }
        }
        Ok(Self {
            stations,
            arms,
            gaussian: Gaussian::new(mean, covariance)?,
        })
    }

    /// A response given outright: nothing is left to learn.
    ///
    /// # Errors
    /// [`PlanError::OutOfRange`] when a value is not finite.
    pub fn fixed(response: &Response) -> Result<Self, PlanError> {
        let size = response.values().len();
        Self::from_parts(
            response.stations(),
            response.arms(),
            response.values().to_vec(),
            vec![0.0; size * size],
        )
    }

    /// From a mean (row by row, a row per station) and a covariance in the
    /// same order, as saved from an earlier visit.
    ///
    /// # Errors
    /// [`PlanError`] for wrong sizes, values that are not finite or too large,
    /// or a negative variance.
    pub fn from_parts(
        stations: usize,
        arms: usize,
        mean_nm: Vec<f64>,
        covariance: Vec<f64>,
    ) -> Result<Self, PlanError> {
        if !(1..=MOST_ARMS).contains(&arms) {
            return Err(PlanError::ArmCount(arms));
        }
        if !(1..=MOST_STATIONS).contains(&stations) {
            return Err(PlanError::StationCount(stations));
        }
        let expected = stations * arms;
        if mean_nm.len() != expected {
            return Err(PlanError::Shape {
                expected,
                found: mean_nm.len(),
            });
        }
        let usable = mean_nm.iter().all(|b| b.abs() <= MOST_LENGTH_NM)
            && covariance
                .iter()
                .all(|c| c.abs() <= MOST_LENGTH_NM * MOST_LENGTH_NM);
        if !usable {
            return Err(PlanError::OutOfRange(Quantity::NotchEffect));
        }
        Ok(Self {
            stations,
            arms,
            gaussian: Gaussian::new(mean_nm, covariance)?,
        })
    }

    /// Number of stations.
    pub fn stations(&self) -> usize {
        self.stations
    }

    /// Number of arms.
    pub fn arms(&self) -> usize {
        self.arms
    }

    /// The distribution, station by station and arm by arm.
    pub fn gaussian(&self) -> &Gaussian {
        &self.gaussian
    }

    /// The mean response.
    pub fn mean(&self) -> Response {
        let values = self.gaussian.mean();
        Response::from_fn(self.stations, self.arms, |s, i| values[s * self.arms + i])
    }

    /// So many responses drawn from it; the same ones every time.
    ///
    /// # Errors
    /// [`PlanError`] for a covariance that is none.
    pub fn draws(&self, draws: usize) -> Result<Vec<Response>, PlanError> {
        let n = self.gaussian.len();
        let mut factor = self.gaussian.covariance().to_vec();
        cholesky_semidefinite(&mut factor, n)?;
        let mut drawn = vec![self.gaussian.mean().to_vec(); draws];
        let mut hypercube = LatinHypercube::new(draws, Purpose::Outlook);
        for column in 0..n {
            for (values, score) in drawn.iter_mut().zip(hypercube.next_normal()) {
                for row in column..n {
                    values[row] += factor[row * n + column] * score;
                }
            }
        }
        let response = |values: Vec<f64>| {
            Response::from_fn(self.stations, self.arms, |s, i| values[s * self.arms + i])
        };
        Ok(drawn.into_iter().map(response).collect())
    }

    /// What is left of a lesson at the next visit: the means stay, of the
    /// covariance the share `FADING` goes back to that of a press of which
    /// nothing is known. No direction stays certain for ever, and none gets less
    /// certain than a fresh press.
    ///
    /// # Errors
    /// [`PlanError`] when the shapes differ.
    pub fn faded(&self, fresh: &Self) -> Result<Self, PlanError> {
        let taught = self.gaussian.covariance().iter();
        let covariance = taught.zip(fresh.gaussian.covariance());
        Self::from_parts(
            self.stations,
            self.arms,
            self.gaussian.mean().to_vec(),
            covariance
                .map(|(taught, fresh)| (1.0 - FADING) * taught + FADING * fresh)
                .collect(),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::super::shapes::{KAPPA_BOUNDS, MOST_RHO, ROD_SCATTER};
    use super::*;
    use crate::press::{JawBeam, JawLayout, JawStiffness};
    use crate::stats::{Draws, Purpose};

    const NOTCH: f64 = 101_600.0;

    fn layout(arms: usize) -> Layout {
        let places: Vec<f64> = (0..arms).map(|i| 300e6 * i as f64).collect();
        let end = places[arms - 1] + 100e6;
        Layout::new((-100e6, end), &places, &places).unwrap()
    }

    fn of(arms: usize, count: usize) -> ResponsePrior {
        let effects = vec![NOTCH; arms];
        ResponsePrior::from_draws(
            &layout(arms),
            &effects,
            Stiffness::Unknown,
            count,
            &PriorDraws::default(),
        )
        .unwrap()
    }

    fn sd(prior: &ResponsePrior, station: usize, arm: usize) -> f64 {
        prior
            .gaussian()
            .variance(station * prior.arms() + arm)
            .sqrt()
    }

    /// Eight times as many draws change neither means nor deviations by more
    /// than a hundredth of a notch effect.
    #[test]
    fn draws_have_converged() {
        for arms in [2, 4, 7] {
            let (usual, many) = (of(arms, PRIOR_DRAWS), of(arms, 8 * PRIOR_DRAWS));
            for s in 0..arms {
                for i in 0..arms {
                    let mean = usual.mean().at(s, i) - many.mean().at(s, i);
                    let sd = sd(&usual, s, i) - sd(&many, s, i);
                    assert!(mean.abs() < 0.005 * NOTCH, "{arms} {s} {i}: mean {mean}");
                    assert!(sd.abs() < 0.005 * NOTCH, "{arms} {s} {i}: {sd}");
                }
            }
        }
    }

    /// Plain draws of everything, effects included, against moments that enter
    /// exactly.
    #[test]
    fn agrees_with_plain_draws() {
        let arms = 3;
        let prior = of(arms, PRIOR_DRAWS);
        let mut draws = Draws::new(Purpose::Simulation(3));
        let places = layout(arms);
        let jaw = JawLayout::new(places.ends_nm(), places.arms_nm(), places.stations_nm()).unwrap();
        let mut jaw = JawBeam::new(jaw, &JawStiffness::even(1.0, 0.0)).unwrap();
        let count = 20_000;
        let mut sum = [0.0; 9];
        let mut squares = [[0.0; 9]; 9];
        for _ in 0..count {
            let (low, high) = KAPPA_BOUNDS;
            let kappa = libm::exp(draws.between(libm::log(low), libm::log(high)));
            let rho = draws.between(0.0, MOST_RHO);
            let rods: Vec<f64> = (0..arms)
                .map(|_| libm::exp(ROD_SCATTER * draws.normal()))
                .collect();
            jaw.stiffen(&JawStiffness {
                kappa,
                rho,
                rod_factors: &rods,
                sections: &[],
            })
            .unwrap();
            let mut b = [0.0; 9];
            jaw.influence_into(&mut b).unwrap();
            let row_sum = b.iter().sum::<f64>() / arms as f64;
            let effect = NOTCH * libm::exp(EFFECT_LOG.0 + EFFECT_LOG.1 * draws.normal());
            let nuts = [0; 3].map(|_| 1.0 + draws.between(-NUT_SCATTER, NUT_SCATTER));
            for (index, b) in b.iter_mut().enumerate() {
                *b *= effect / row_sum * nuts[index % arms];
            }
            for a in 0..9 {
                sum[a] += b[a];
                for c in 0..9 {
                    squares[a][c] += b[a] * b[c];
                }
            }
        }
        let n = f64::from(count);
        for a in 0..9 {
            let mean = prior.gaussian().mean()[a];
            assert!((sum[a] / n - mean).abs() < 0.006 * NOTCH, "{a}");
            for c in 0..9 {
                let covariance = squares[a][c] / n - sum[a] / n * sum[c] / n;
                let expected = prior.gaussian().covariance_row(a)[c];
                let scale = NOTCH * NOTCH;
                assert!((covariance - expected).abs() < 0.002 * scale, "{a} {c}");
            }
        }
    }

    #[test]
    fn section_data_narrow_it_and_effects_scale_it() {
        let about = Stiffness::About {
            kappa: 15.0,
            log_deviation: 0.3,
        };
        let effects = [NOTCH, NOTCH, 2.0 * NOTCH, NOTCH];
        let draws = PriorDraws::default();
        let prior = |stiffness| {
            ResponsePrior::from_layout(&layout(4), &effects, stiffness, &draws).unwrap()
        };
        let (wide, narrow) = (prior(Stiffness::Unknown), prior(about));
        assert!(sd(&narrow, 0, 1) < 0.7 * sd(&wide, 0, 1));
        let ratio = wide.mean().at(1, 2) / wide.mean().at(2, 1);
        assert!((ratio - 2.0).abs() < 0.1, "{ratio}");
    }

    #[test]
    fn odd_input_is_refused() {
        let layout = layout(2);
        let prior = |effects: &[f64], stiffness| {
            ResponsePrior::from_draws(&layout, effects, stiffness, 16, &PriorDraws::default())
        };
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(prior(&[NOTCH, bad], Stiffness::Unknown).is_err());
            let stiffness = Stiffness::About {
                kappa: bad,
                log_deviation: 0.1,
            };
            assert!(prior(&[NOTCH; 2], stiffness).is_err());
        }
        assert!(prior(&[NOTCH; 3], Stiffness::Unknown).is_err());
        assert!(Layout::new((0.0, 1e9), &[1e8], &[1e8]).is_err());
        assert!(Layout::new((0.0, 1e9), &[1e8, 5e8], &[]).is_err());
        assert!(Layout::new((0.0, 1e9), &[1e8, 5e8], &[2e9]).is_err());
        assert!(Layout::new((0.0, 1e9), &[1e8, 1e8 + 1.0], &[1e8]).is_err());
    }
}
