//! Shapes of the response, drawn: the jaw as a beam of unknown stiffness.

use super::error::PlanError;
use super::layout::Layout;
use crate::press::{ABREAST, Abreast, JawError, JawFamily, JawLayout, JawStiffness};
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

/// Groups of jaws whose products are summed at a time.
const AT_A_TIME: usize = 8;

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
    count: usize,
    jaws: JawFamily,
}

/// What was drawn for priors, kept from press to press and shared by threads.
/// It saves time and changes nothing.
#[derive(Debug, Default)]
pub struct PriorDraws(Mutex<Vec<Arc<Drawn>>>);

/// Most draws kept; of more, the oldest go.
const MOST_KEPT: usize = 8;

impl PriorDraws {
    fn of(&self, arms: usize, stiffness: Stiffness, count: usize) -> Result<Arc<Drawn>, JawError> {
        // Whoever panicked while holding the lock left nothing half done.
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let found = kept
            .iter()
            .find(|drawn| (drawn.arms, drawn.stiffness, drawn.count) == (arms, stiffness, count));
        if let Some(found) = found {
            return Ok(Arc::clone(found));
        }
        let drawn = Arc::new(Drawn::new(arms, stiffness, count)?);
        if kept.len() >= MOST_KEPT {
            kept.remove(0);
        }
        kept.push(Arc::clone(&drawn));
        Ok(drawn)
    }
}

impl Drawn {
    fn new(arms: usize, stiffness: Stiffness, count: usize) -> Result<Self, JawError> {
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
        let jaws = rods.chunks_exact(arms.max(1)).zip(kappas.iter().zip(&rhos));
        let jaws: Vec<_> = jaws
            .map(|(rod_factors, (kappa, rho))| JawStiffness {
                rod_factors,
                ..JawStiffness::even(*kappa, *rho)
            })
            .collect();
        Ok(Self {
            stiffness,
            arms,
            count,
            jaws: JawFamily::new(arms, &jaws)?,
        })
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
        let drawn = draws.of(arms, stiffness, count)?;
        let mut sums = Sums::new(size);
        jaw.influences(
            &drawn.jaws,
            &at_arms,
            #[inline(always)]
            |shapes, jaws| {
                // Turning all nuts out opens the jaw everywhere on average, since
                // rods hold it and nothing pulls it further: the sum is positive.
                let mut whole = [0.0; ABREAST];
                let at_arms = at_arms.iter();
                for shape in at_arms.flat_map(|s| &shapes[s * arms..(s + 1) * arms]) {
                    whole.iter_mut().zip(shape).for_each(|(sum, b)| *sum += b);
                }
                let scale = core::array::from_fn(|place| match place < jaws {
                    true => arms as f64 / whole[place],
                    false => 0.0,
                });
                sums.add(&shapes[..size], &scale);
            },
        )?;
        let (mut mean, mut covariance) = sums.of_all();
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

/// Sums of shapes and of their products, some at a time, so that they stay at
/// hand.
struct Sums {
    /// Entry by entry, those not summed yet.
    waiting: Vec<[Abreast; AT_A_TIME]>,
    groups: usize,
    sum: Vec<f64>,
    products: Vec<f64>,
}

impl Sums {
    fn new(size: usize) -> Self {
        Self {
            waiting: vec![[[0.0; ABREAST]; AT_A_TIME]; size],
            groups: 0,
            sum: vec![0.0; size],
            products: vec![0.0; size * size],
        }
    }

    #[inline(always)]
    fn add(&mut self, shapes: &[Abreast], scale: &Abreast) {
        for (waiting, shape) in self.waiting.iter_mut().zip(shapes) {
            waiting[self.groups] = core::array::from_fn(|place| shape[place] * scale[place]);
        }
        self.groups += 1;
        if self.groups == AT_A_TIME {
            self.sum_up();
        }
    }

    #[inline(always)]
    fn sum_up(&mut self) {
        let size = self.waiting.len();
        for (a, shapes) in self.waiting.iter().enumerate() {
            self.sum[a] += shapes.as_flattened().iter().sum::<f64>();
            let products = &mut self.products[a * size..=a * size + a];
            for (product, others) in products.iter_mut().zip(&self.waiting) {
                let mut sums = [0.0; ABREAST];
                for (shape, other) in shapes.iter().zip(others) {
                    for place in 0..ABREAST {
                        sums[place] += shape[place] * other[place];
                    }
                }
                *product += sums.iter().sum::<f64>();
            }
        }
        self.waiting.fill([[0.0; ABREAST]; AT_A_TIME]);
        self.groups = 0;
    }

    /// Both sums; of the products the lower triangle.
    fn of_all(mut self) -> (Vec<f64>, Vec<f64>) {
        self.sum_up();
        (self.sum, self.products)
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
