//! What is believed of a press's response before it has shown any.
//!
//! The jaw is a beam on its rods and on the splice; a shop knows neither the
//! stiffness of the one nor of the other. So the ratios that matter are drawn,
//! the beam is solved for each draw, and mean and covariance of the response
//! over the draws make a normal prior. The response is far from linear in
//! kappa, so the draws are parted into classes of like kappa, each with a
//! normal distribution of its own: a mixture. Inside a class all learning stays
//! exact, and the passes themselves tell which class it is.
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

use super::draws::{Purpose, Strata};
use super::error::{PlanError, Quantity};
use super::gaussian::{Gaussian, Observations, add_scaled};
use super::noise::{MOST_LENGTH_NM, MOST_STATIONS, PRIOR_DRAWS};
use super::search::MOST_ARMS;
use super::shape_beam::influence;
use crate::press::Response;

/// Bounds of kappa while nothing is known of jaw and rods.
pub const KAPPA_BOUNDS: (f64, f64) = (3.0, 70.0);
/// Largest rho drawn.
pub const MOST_RHO: f64 = 0.3;
/// Standard deviation of the logarithm of a rod's stiffness.
pub const ROD_SCATTER: f64 = 0.2;
/// Mean and standard deviation of the logarithm of the notch effect's ratio to
/// its nominal value.
pub const EFFECT_LOG: (f64, f64) = (-0.08, 0.15);
/// Half width of the uniform scatter of the nuts' effects.
pub const NUT_SCATTER: f64 = 0.12;

/// Most classes of stiffness.
pub const MOST_CLASSES: usize = 6;

/// Where arms and stations stand along the jaw, in nanometres from any origin.
#[derive(Debug, Clone, PartialEq)]
pub struct Layout {
    arms_nm: Vec<f64>,
    stations_nm: Vec<f64>,
    jaw_nm: (f64, f64),
}

impl Layout {
    /// Arms from the operator's left, stations in any order, both ends of the
    /// jaw.
    ///
    /// # Errors
    /// [`PlanError`] when there are too few or too many arms or stations, arms
    /// are out of order or closer than a millimetre, something lies off the
    /// jaw, or a position is not finite.
    pub fn new(
        arms_nm: Vec<f64>,
        stations_nm: Vec<f64>,
        jaw_nm: (f64, f64),
    ) -> Result<Self, PlanError> {
        if !(1..=MOST_ARMS).contains(&arms_nm.len()) {
            return Err(PlanError::ArmCount(arms_nm.len()));
        }
        if !(1..=MOST_STATIONS).contains(&stations_nm.len()) {
            return Err(PlanError::StationCount(stations_nm.len()));
        }
        let places = || arms_nm.iter().chain(&stations_nm);
        let all_finite = places()
            .chain([&jaw_nm.0, &jaw_nm.1])
            .all(|x| x.abs() <= MOST_LENGTH_NM);
        if !all_finite {
            return Err(PlanError::OutOfRange(Quantity::Position));
        }
        for (i, pair) in arms_nm.windows(2).enumerate() {
            if pair[1] - pair[0] < 1e6 {
                return Err(PlanError::ArmsOutOfOrder { arm: i + 1 });
            }
        }
        if places().any(|x| *x < jaw_nm.0 || jaw_nm.1 < *x) || jaw_nm.0 >= jaw_nm.1 {
            return Err(PlanError::OffTheJaw);
        }
        Ok(Self {
            arms_nm,
            stations_nm,
            jaw_nm,
        })
    }

    /// Arm positions.
    pub fn arms_nm(&self) -> &[f64] {
        &self.arms_nm
    }

    /// Station positions.
    pub fn stations_nm(&self) -> &[f64] {
        &self.stations_nm
    }

    /// Place of each station along the jaw, from -1/2 at its left end to 1/2.
    pub fn along(&self) -> Vec<f64> {
        let (left, right) = self.jaw_nm;
        self.stations_nm
            .iter()
            .map(|x| (x - left) / (right - left) - 0.5)
            .collect()
    }

    /// The station nearest to each arm.
    pub fn own_stations(&self) -> Vec<usize> {
        self.arms_nm
            .iter()
            .map(|arm| {
                let distance = |s: &usize| (self.stations_nm[*s] - arm).abs();
                (0..self.stations_nm.len())
                    .min_by(|a, b| distance(a).total_cmp(&distance(b)))
                    .unwrap_or(0)
            })
            .collect()
    }
}

/// What is known of kappa, the stiffness of a rod against the jaw's.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Stiffness {
    /// Nothing: log-uniform over [`KAPPA_BOUNDS`].
    Unknown,
    /// From section and rod data: log-normal about `kappa`.
    About {
        /// Median.
        kappa: f64,
        /// Standard deviation of the logarithm.
        log_deviation: f64,
    },
}

/// What is believed of the response, first or after what has been learnt: a
/// mixture of normal distributions, one for each class of stiffness.
#[derive(Debug, Clone, PartialEq)]
pub struct ResponsePrior {
    stations: usize,
    arms: usize,
    classes: Vec<StiffnessClass>,
}

/// One part of the mixture.
#[derive(Debug, Clone, PartialEq)]
pub struct StiffnessClass {
    /// Its probability; those of all classes sum to one.
    pub weight: f64,
    /// The response in this class, station by station and arm by arm, in
    /// nanometres per notch.
    pub response: Gaussian,
}

impl ResponsePrior {
    /// The prior of a geometry. `effects_nm` is the nominal notch effect of
    /// each nut in nanometres per notch. Deterministic; worth keeping, since
    /// it costs some thousand beam solutions.
    ///
    /// # Errors
    /// [`PlanError`] for effects or a stiffness that are not positive and
    /// finite, or a list of the wrong length.
    pub fn from_layout(
        layout: &Layout,
        effects_nm: &[f64],
        stiffness: Stiffness,
    ) -> Result<Self, PlanError> {
        Self::from_draws(layout, effects_nm, stiffness, PRIOR_DRAWS)
    }

    /// As [`Self::from_layout`] with another number of draws.
    pub(super) fn from_draws(
        layout: &Layout,
        effects_nm: &[f64],
        stiffness: Stiffness,
        count: usize,
    ) -> Result<Self, PlanError> {
        let arms = layout.arms_nm.len();
        let stations = layout.stations_nm.len();
        if effects_nm.len() != arms {
            return Err(PlanError::Shape {
                expected: arms,
                found: effects_nm.len(),
            });
        }
        if !effects_nm.iter().all(|e| *e > 0.0 && *e <= MOST_LENGTH_NM) {
            return Err(PlanError::OutOfRange(Quantity::NotchEffect));
        }
        if let Stiffness::About {
            kappa,
            log_deviation,
        } = stiffness
            && !((1e-6..=1e9).contains(&kappa) && (0.0..=3.0).contains(&log_deviation))
        {
            return Err(PlanError::OutOfRange(Quantity::Stiffness));
        }
        let classes = ShapeMoments::of_classes(layout, stiffness, count)
            .into_iter()
            .map(|(weight, shapes)| {
                let response = shapes.response(effects_nm)?;
                Ok(StiffnessClass { weight, response })
            })
            .collect::<Result<_, PlanError>>()?;
        Ok(Self {
            stations,
            arms,
            classes,
        })
    }

    /// A response given outright: nothing is left to learn.
    ///
    /// # Errors
    /// [`PlanError::OutOfRange`] when a value is not finite.
    pub fn fixed(response: &Response) -> Result<Self, PlanError> {
        let size = response.values().len();
        let certain = Gaussian::new(response.values().to_vec(), vec![0.0; size * size])?;
        Self::from_classes(
            response.stations(),
            response.arms(),
            vec![StiffnessClass {
                weight: 1.0,
                response: certain,
            }],
        )
    }

    /// From the parts of the mixture, as kept from an earlier visit; weights
    /// are brought to a sum of one.
    ///
    /// # Errors
    /// [`PlanError`] for wrong sizes, values that are not finite or too large,
    /// or weights without a positive sum.
    pub fn from_classes(
        stations: usize,
        arms: usize,
        mut classes: Vec<StiffnessClass>,
    ) -> Result<Self, PlanError> {
        if !(1..=MOST_ARMS).contains(&arms) {
            return Err(PlanError::ArmCount(arms));
        }
        if !(1..=MOST_STATIONS).contains(&stations) {
            return Err(PlanError::StationCount(stations));
        }
        let expected = stations * arms;
        for class in &classes {
            let found = class.response.len();
            if found != expected {
                return Err(PlanError::Shape { expected, found });
            }
            let mut mean = class.response.mean().iter();
            let mut covariance = class.response.covariance().iter();
            let usable = mean.all(|b| b.abs() <= MOST_LENGTH_NM)
                && covariance.all(|c| c.abs() <= MOST_LENGTH_NM * MOST_LENGTH_NM);
            if !usable {
                return Err(PlanError::OutOfRange(Quantity::NotchEffect));
            }
        }
        let sum: f64 = classes.iter().map(|class| class.weight).sum();
        let all_shares = classes.iter().all(|class| class.weight >= 0.0);
        if !(all_shares && sum > 0.0 && sum.is_finite()) {
            return Err(PlanError::OutOfRange(Quantity::Share));
        }
        classes.iter_mut().for_each(|class| class.weight /= sum);
        Ok(Self {
            stations,
            arms,
            classes,
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

    /// The parts of the mixture.
    pub fn classes(&self) -> &[StiffnessClass] {
        &self.classes
    }

    /// The mean response.
    pub fn mean(&self) -> Response {
        Response::from_fn(self.stations, self.arms, |s, i| {
            self.moments(s * self.arms + i).0
        })
    }

    /// Standard deviation of one value, in nanometres per notch; zero outside
    /// the matrix.
    pub fn deviation(&self, station: usize, arm: usize) -> f64 {
        if station >= self.stations || arm >= self.arms {
            return 0.0;
        }
        self.moments(station * self.arms + arm).1.sqrt()
    }

    /// Mean and variance of one value over the whole mixture.
    fn moments(&self, index: usize) -> (f64, f64) {
        let parts = self.classes.iter().map(|class| {
            let variance = class.response.variance(index);
            (class.weight, class.response.mean()[index], variance)
        });
        mixture_moments(parts)
    }

    /// Takes in an effect measured at one nut: turning `arm` one notch out
    /// raised `station` by `effect_nm`, known to `deviation_nm` (zero fixes
    /// it). What it says of the other values through their covariance is
    /// learnt too.
    ///
    /// # Errors
    /// [`PlanError`] for an index outside the matrix or values that are not
    /// finite.
    pub fn with_measured_effect(
        mut self,
        station: usize,
        arm: usize,
        effect_nm: f64,
        deviation_nm: f64,
    ) -> Result<Self, PlanError> {
        if station >= self.stations {
            return Err(PlanError::StationCount(station + 1));
        }
        if arm >= self.arms {
            return Err(PlanError::ArmCount(arm + 1));
        }
        if !(effect_nm.abs() <= MOST_LENGTH_NM && (0.0..=MOST_LENGTH_NM).contains(&deviation_nm)) {
            return Err(PlanError::OutOfRange(Quantity::NotchEffect));
        }
        let index = station * self.arms + arm;
        let mut log_weights = Vec::with_capacity(self.classes.len());
        for class in &mut self.classes {
            // A value already certain cannot be learnt, nor tell classes apart.
            let mut log_density = 0.0;
            if class.response.variance(index) + deviation_nm * deviation_nm > 0.0 {
                let surprise = class.response.observe(&Observations {
                    rows: vec![vec![(index, 1.0)]],
                    values: vec![effect_nm],
                    noise: vec![deviation_nm * deviation_nm],
                })?;
                log_density = surprise.log_density;
            }
            log_weights.push(libm::log(class.weight) + log_density);
        }
        let weights = normalised(&log_weights);
        for (class, weight) in self.classes.iter_mut().zip(weights) {
            class.weight = weight;
        }
        Ok(self)
    }

    /// What was learnt, widened for the time between visits: `share` of the
    /// covariance of `first` is added, class by class, and `share` of its
    /// weights mixed in, so that no direction stays certain and none becomes
    /// less certain than in a fresh press by more than that share.
    ///
    /// # Errors
    /// [`PlanError`] when the shapes differ or the share is outside [0, 1].
    pub fn widened(&self, first: &Self, share: f64) -> Result<Self, PlanError> {
        for (expected, found) in [
            (self.stations, first.stations),
            (self.arms, first.arms),
            (self.classes.len(), first.classes.len()),
        ] {
            if expected != found {
                return Err(PlanError::Shape { expected, found });
            }
        }
        if !(0.0..=1.0).contains(&share) {
            return Err(PlanError::OutOfRange(Quantity::Share));
        }
        let pairs = self.classes.iter().zip(&first.classes);
        let classes = pairs.map(|(learnt, first)| {
            let covariances = learnt.response.covariance().iter();
            let covariance = covariances
                .zip(first.response.covariance())
                .map(|(learnt, first)| learnt + share * first)
                .collect();
            Ok(StiffnessClass {
                weight: (1.0 - share) * learnt.weight + share * first.weight,
                response: Gaussian::new(learnt.response.mean().to_vec(), covariance)?,
            })
        });
        let classes = classes.collect::<Result<_, PlanError>>()?;
        Self::from_classes(self.stations, self.arms, classes)
    }
}

/// Mean and variance of a mixture of (weight, mean, variance).
pub(super) fn mixture_moments(parts: impl Iterator<Item = (f64, f64, f64)> + Clone) -> (f64, f64) {
    let mean: f64 = parts.clone().map(|(weight, mean, _)| weight * mean).sum();
    let variance = parts
        .map(|(weight, m, variance)| weight * (variance + (m - mean) * (m - mean)))
        .sum();
    (mean, variance)
}

/// Weights of sum one from their logarithms, the largest of which is finite.
pub(super) fn normalised(log_weights: &[f64]) -> Vec<f64> {
    let most = log_weights
        .iter()
        .copied()
        .fold(f64::NEG_INFINITY, f64::max);
    let weights: Vec<f64> = log_weights.iter().map(|w| libm::exp(w - most)).collect();
    let sum: f64 = weights.iter().sum();
    weights.iter().map(|w| w / sum).collect()
}

/// Mean and covariance of the beam's scaled influence over the draws of a
/// class.
struct ShapeMoments {
    arms: usize,
    mean: Vec<f64>,
    /// Lower triangle only.
    covariance: Vec<f64>,
}

impl ShapeMoments {
    /// Classes of like kappa, softest rods first, with their weights.
    fn of_classes(layout: &Layout, stiffness: Stiffness, count: usize) -> Vec<(f64, Self)> {
        let arms = layout.arms_nm.len();
        let size = layout.stations_nm.len() * arms;
        let mut strata = Strata::new(count, Purpose::Prior);
        let kappas = kappas(&mut strata, stiffness);
        let rhos: Vec<f64> = strata.next_uniform().iter().map(|u| MOST_RHO * u).collect();
        let rods: Vec<Vec<f64>> = (0..arms)
            .map(|_| {
                let logs = strata.next_normal().iter();
                logs.map(|z| libm::exp(ROD_SCATTER * z)).collect()
            })
            .collect();
        let places: Vec<f64> = layout
            .stations_nm
            .iter()
            .chain(&layout.arms_nm)
            .copied()
            .collect();
        let mut order: Vec<usize> = (0..count).collect();
        order.sort_by(|a, b| kappas[*a].total_cmp(&kappas[*b]));
        let per_class = count.div_ceil(class_count(stiffness)).max(1);
        let mut rod = vec![0.0; arms];
        let mut classes = Vec::new();
        for members in order.chunks(per_class) {
            let mut mean = vec![0.0; size];
            let mut covariance = vec![0.0; size * size];
            let mut used = 0.0;
            for &draw in members {
                for (rod, drawn) in rod.iter_mut().zip(&rods) {
                    *rod = drawn[draw];
                }
                let Some(shape) = influence(
                    &layout.arms_nm,
                    &places,
                    layout.jaw_nm,
                    kappas[draw],
                    rhos[draw],
                    &rod,
                ) else {
                    continue;
                };
                let (at_stations, at_arms) = shape.split_at(size);
                let row_sum = at_arms.iter().sum::<f64>() / arms as f64;
                if !(row_sum > 0.0) {
                    continue;
                }
                used += 1.0;
                let scale = 1.0 / row_sum;
                for (a, value) in at_stations.iter().enumerate() {
                    let value = value * scale;
                    mean[a] += value;
                    add_scaled(
                        &mut covariance[a * size..=a * size + a],
                        value * scale,
                        at_stations,
                    );
                }
            }
            if used == 0.0 {
                continue;
            }
            mean.iter_mut().for_each(|m| *m /= used);
            for a in 0..size {
                for b in 0..=a {
                    let product = &mut covariance[a * size + b];
                    *product = *product / used - mean[a] * mean[b];
                }
            }
            let moments = Self {
                arms,
                mean,
                covariance,
            };
            classes.push((used / count as f64, moments));
        }
        classes
    }

    /// The response: shape times the nuts' effects, whose common and single
    /// scatter are independent of it.
    fn response(&self, effects_nm: &[f64]) -> Result<Gaussian, PlanError> {
        let (log_mean, log_deviation) = EFFECT_LOG;
        let log_variance = log_deviation * log_deviation;
        let first = libm::exp(log_mean + 0.5 * log_variance);
        let second = libm::exp(2.0 * (log_mean + log_variance));
        let same_nut = 1.0 + NUT_SCATTER * NUT_SCATTER / 3.0;
        let size = self.mean.len();
        let arm = |a: usize| a % self.arms;
        let mean: Vec<f64> = (0..size)
            .map(|a| first * effects_nm[arm(a)] * self.mean[a])
            .collect();
        let mut covariance = vec![0.0; size * size];
        for a in 0..size {
            for b in 0..=a {
                let nuts = if arm(a) == arm(b) { same_nut } else { 1.0 };
                let product = self.covariance[a * size + b] + self.mean[a] * self.mean[b];
                let effects = effects_nm[arm(a)] * effects_nm[arm(b)];
                covariance[a * size + b] = second * nuts * effects * product - mean[a] * mean[b];
            }
        }
        Ok(Gaussian::new(mean, covariance)?)
    }
}

/// Classes so narrow that the response is nearly linear in the logarithm of
/// kappa inside each: about half a unit wide.
fn class_count(stiffness: Stiffness) -> usize {
    match stiffness {
        Stiffness::Unknown => MOST_CLASSES,
        // A normal of this deviation is about as wide as a uniform of sqrt 12
        // times as much.
        Stiffness::About { log_deviation, .. } => {
            ((log_deviation * 7.0) as usize + 1).min(MOST_CLASSES)
        }
    }
}

fn kappas(strata: &mut Strata, stiffness: Stiffness) -> Vec<f64> {
    match stiffness {
        Stiffness::Unknown => {
            let (low, high) = (libm::log(KAPPA_BOUNDS.0), libm::log(KAPPA_BOUNDS.1));
            let shares = strata.next_uniform().iter();
            shares.map(|u| libm::exp(low + (high - low) * u)).collect()
        }
        Stiffness::About {
            kappa,
            log_deviation,
        } => {
            let scores = strata.next_normal().iter();
            scores
                .map(|z| kappa * libm::exp(log_deviation * z))
                .collect()
        }
    }
}
