//! Shapes of the response, drawn: the jaw as a beam of unknown stiffness.

use super::error::PlanError;
use super::layout::Layout;
use crate::press::{JawBeam, JawLayout, JawStiffness};
use crate::stats::add_scaled;
use crate::stats::{LatinHypercube, Purpose};

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

/// Mean and covariance, over the draws, of the jaw's influence at the stations,
/// scaled so that its mean row sum over the arms is one.
pub(super) struct ShapeMoments {
    /// Station by station and arm by arm.
    pub mean: Vec<f64>,
    /// In the same order; lower triangle only.
    pub covariance: Vec<f64>,
}

impl ShapeMoments {
    pub fn draw(layout: &Layout, stiffness: Stiffness, count: usize) -> Result<Self, PlanError> {
        let arms = layout.arms_nm().len();
        let size = layout.stations_nm().len() * arms;
        let mut hypercube = LatinHypercube::new(count, Purpose::Prior);
        let kappas = kappas(&mut hypercube, stiffness);
        let rhos: Vec<f64> = hypercube
            .next_uniform()
            .iter()
            .map(|u| MOST_RHO * u)
            .collect();
        let rods: Vec<Vec<f64>> = (0..arms)
            .map(|_| {
                let logs = hypercube.next_normal().iter();
                logs.map(|z| libm::exp(ROD_SCATTER * z)).collect()
            })
            .collect();
        // The stations that are asked for, then the arms, for the scale.
        let places = [layout.stations_nm(), layout.arms_nm()].concat();
        let places = JawLayout::new(layout.ends_nm(), layout.arms_nm(), &places)?;
        let mut jaw = JawBeam::new(places, &JawStiffness::even(1.0, 0.0))?;
        let mut shape = vec![0.0; size + arms * arms];
        let mut mean = vec![0.0; size];
        let mut covariance = vec![0.0; size * size];
        let mut rod_factors = vec![0.0; arms];
        for draw in 0..count {
            for (factor, drawn) in rod_factors.iter_mut().zip(&rods) {
                *factor = drawn[draw];
            }
            jaw.stiffen(&JawStiffness {
                kappa: kappas[draw],
                rho: rhos[draw],
                rod_factors: &rod_factors,
                sections: &[],
            })?;
            jaw.influence_into(&mut shape)?;
            let (at_stations, at_arms) = shape.split_at_mut(size);
            // Turning all nuts out opens the jaw everywhere on average, since
            // rods hold it and nothing pulls it further: the sum is positive.
            let scale = arms as f64 / at_arms.iter().sum::<f64>();
            at_stations.iter_mut().for_each(|value| *value *= scale);
            add_scaled(&mut mean, 1.0, at_stations);
            for (a, value) in at_stations.iter().enumerate() {
                let row = &mut covariance[a * size..=a * size + a];
                add_scaled(row, *value, at_stations);
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
