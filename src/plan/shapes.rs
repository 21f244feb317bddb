//! Shapes of the response, drawn: the jaw as a beam of unknown stiffness.

use super::error::PlanError;
use super::layout::Layout;
use crate::press::{JawLayout, JawStiffness};
use crate::stats::add_scaled;
use crate::stats::{LatinHypercube, Purpose};
use std::sync::{Arc, Mutex, PoisonError};

/// Bounds of kappa while nothing is known of jaw and rods.
pub const KAPPA_BOUNDS: (f64, f64) = (3.0, 70.0);
/// Largest rho drawn.
pub const MOST_RHO: f64 = 0.3;
/// Standard deviation of the logarithm of a rod's stiffness.
pub const ROD_SCATTER: f64 = 0.2;
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

/// Sums made side by side, each in the order of the draws.
const ABREAST: usize = 8;
/// Draws that are summed at a time.
const AT_A_TIME: usize = 64;

/// Mean and covariance, over the draws, of the jaw's influence at the stations,
/// scaled so that its mean row sum over the arms is one.
pub(super) struct ShapeMoments {
    /// Station by station and arm by arm.
    pub mean: Vec<f64>,
    /// In the same order; lower triangle only.
    pub covariance: Vec<f64>,
}

/// Stiffnesses drawn, the same for every press with so many arms.
#[derive(Debug)]
struct Drawn {
    stiffness: Stiffness,
    arms: usize,
    kappas: Vec<f64>,
    rhos: Vec<f64>,
    /// Draw by draw, a factor for each rod.
    rods: Vec<f64>,
    /// The draws in the order of how soft the jaw is on the splice.
    order: Vec<usize>,
}

/// What was drawn for priors, kept from press to press and shared by threads.
/// It saves time and changes nothing.
#[derive(Debug, Default)]
pub struct PriorDraws(Mutex<Vec<Arc<Drawn>>>);

/// Most draws kept; of more, the oldest go.
const MOST_KEPT: usize = 8;

impl PriorDraws {
    fn of(&self, arms: usize, stiffness: Stiffness, count: usize) -> Arc<Drawn> {
        // Whoever panicked while holding the lock left nothing half done.
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let found = kept.iter().find(|drawn| {
            (drawn.arms, drawn.stiffness, drawn.kappas.len()) == (arms, stiffness, count)
        });
        if let Some(found) = found {
            return Arc::clone(found);
        }
        let drawn = Arc::new(Drawn::new(arms, stiffness, count));
        if kept.len() >= MOST_KEPT {
            kept.remove(0);
        }
        kept.push(Arc::clone(&drawn));
        drawn
    }
}

impl Drawn {
    fn new(arms: usize, stiffness: Stiffness, count: usize) -> Self {
        let mut hypercube = LatinHypercube::new(count, Purpose::Prior);
        let kappas = kappas(&mut hypercube, stiffness);
        let shares = hypercube.next_uniform().iter();
        let rhos: Vec<f64> = shares.map(|u| MOST_RHO * u).collect();
        let mut rods = vec![0.0; count * arms];
        for arm in 0..arms {
            for (draw, z) in hypercube.next_normal().iter().enumerate() {
                rods[draw * arms + arm] = libm::exp(ROD_SCATTER * z);
            }
        }
        let mut order: Vec<usize> = (0..count).collect();
        let softness = |draw: &usize| kappas[*draw] * rhos[*draw];
        order.sort_by(|a, b| softness(a).total_cmp(&softness(b)));
        Self {
            stiffness,
            arms,
            kappas,
            rhos,
            rods,
            order,
        }
    }

    fn stiffness(&self, draw: usize) -> JawStiffness<'_> {
        JawStiffness {
            rod_factors: &self.rods[draw * self.arms..(draw + 1) * self.arms],
            ..JawStiffness::even(self.kappas[draw], self.rhos[draw])
        }
    }
}

impl ShapeMoments {
    pub fn draw(
        layout: &Layout,
        stiffness: Stiffness,
        count: usize,
        draws: &PriorDraws,
    ) -> Result<Self, PlanError> {
        let arms = layout.arms_nm().len();
        let size = layout.stations_nm().len() * arms;
        let drawn = draws.of(arms, stiffness, count);
        // The stations that are asked for, then the arms without one, for the
        // scale.
        let station_at = |arm: &f64| layout.stations_nm().iter().position(|s| s == arm);
        let mut places = layout.stations_nm().to_vec();
        let at_arms: Vec<usize> = (layout.arms_nm().iter())
            .map(|arm| {
                station_at(arm).unwrap_or_else(|| {
                    places.push(*arm);
                    places.len() - 1
                })
            })
            .collect();
        let jaw = JawLayout::new(layout.ends_nm(), layout.arms_nm(), &places)?;
        let mut shapes = jaw.influences(&drawn.order, |draw| drawn.stiffness(draw))?;
        let width = places.len() * arms;
        let mut mean = vec![0.0; size];
        for shape in shapes.chunks_exact_mut(width) {
            // Turning all nuts out opens the jaw everywhere on average, since
            // rods hold it and nothing pulls it further: the sum is positive.
            let at_arms = at_arms
                .iter()
                .flat_map(|s| &shape[s * arms..(s + 1) * arms]);
            let scale = arms as f64 / at_arms.sum::<f64>();
            shape.iter_mut().for_each(|value| *value *= scale);
            add_scaled(&mut mean, 1.0, shape);
        }
        let mut covariance = vec![0.0; size * size];
        // Some draws at a time, so that they stay at hand.
        for some in shapes.chunks(width * AT_A_TIME) {
            for a in 0..size {
                for begin in (0..=a).step_by(ABREAST) {
                    let end = (begin + ABREAST).min(size);
                    let found = &mut covariance[a * size + begin..a * size + end];
                    let mut sums = [0.0; ABREAST];
                    sums[..end - begin].copy_from_slice(found);
                    for shape in some.chunks_exact(width) {
                        add_scaled(&mut sums, shape[a], &shape[begin..end]);
                    }
                    found.copy_from_slice(&sums[..end - begin]);
                }
            }
        }
        let share = 1.0 / count as f64;
        mean.iter_mut().for_each(|m| *m *= share);
        for a in 0..size {
            for b in 0..=a {
                let product = &mut covariance[a * size + b];
                *product = *product * share - mean[a] * mean[b];
            }
        }
        Ok(Self { mean, covariance })
    }
}

fn kappas(hypercube: &mut LatinHypercube, stiffness: Stiffness) -> Vec<f64> {
    match stiffness {
        Stiffness::Unknown => {
            let (low, high) = (libm::log(KAPPA_BOUNDS.0), libm::log(KAPPA_BOUNDS.1));
            let shares = hypercube.next_uniform().iter();
            shares.map(|u| libm::exp(low + (high - low) * u)).collect()
        }
        Stiffness::About {
            kappa,
            log_deviation,
        } => {
            let scores = hypercube.next_normal().iter();
            scores
                .map(|z| kappa * libm::exp(log_deviation * z))
                .collect()
        }
    }
}
