//! Simulated presses for tests and benches.
#![allow(dead_code)]

use jawtrue::plan::{
    Effort, Layout, Model, Noise, PlanError, Posterior, PriorDraws, ResponsePrior, StationReading,
    Stiffness, Task, TestPass, TurnBounds,
};
use jawtrue::practice::{self, SimulatedPress};
use jawtrue::press::{JawSection, JawStiffness, Response};
use jawtrue::stats::Draws;

pub use practice::spread_nm as spread;

pub mod families;
pub mod foreign;

/// An inch, in nanometres.
pub const INCH: f64 = 25.4e6;
/// The usual notch effect: common practice, no source.
pub const NOTCH: f64 = 0.004 * INCH;
/// The usual tolerance: common practice, no source.
pub const TOLERANCE: f64 = 0.003 * INCH;
/// Arm spacing of an even press.
const SPACING: f64 = 300e6;
/// Jaw beyond its outermost arms.
const OVERHANG: f64 = 120e6;

/// Arms evenly spaced, stations at the arms.
pub fn even_layout(arms: usize) -> Layout {
    let positions: Vec<f64> = (0..arms).map(|i| SPACING * i as f64).collect();
    layout_of(&positions)
}

/// Stations at the arms.
pub fn layout_of(positions: &[f64]) -> Layout {
    let last = positions.last().copied().unwrap_or(0.0);
    Layout::new((-OVERHANG, last + OVERHANG), positions, positions).unwrap()
}

/// What is believed of an even press before its first pass.
pub fn prior(arms: usize) -> ResponsePrior {
    let (effects, draws) = (vec![NOTCH; arms], PriorDraws::default());
    ResponsePrior::from_layout(&even_layout(arms), &effects, Stiffness::Unknown, &draws).unwrap()
}

/// A press whose nuts are known to move their own arm by a notch and no other.
pub fn independent(arms: usize) -> ResponsePrior {
    let own = |s, i| if s == i { NOTCH } else { 0.0 };
    ResponsePrior::fixed(&Response::from_fn(arms, arms, own)).unwrap()
}

/// What passes of an even press teach.
pub fn learn(
    prior: &ResponsePrior,
    noise: Noise,
    passes: &[TestPass],
) -> Result<Posterior, PlanError> {
    let along = even_layout(prior.arms()).along();
    let model = Model {
        prior,
        along: &along,
        noise,
    };
    Posterior::from_passes(&model, passes)
}

/// The same of passes that are sound.
pub fn learnt(prior: &ResponsePrior, noise: Noise, passes: &[TestPass]) -> Posterior {
    learn(prior, noise, passes).unwrap()
}

/// The usual task: nothing accepted yet, any number of nuts, the usual minutes.
pub fn task<'a>(
    posterior: &'a Posterior,
    counting: &'a [usize],
    bounds: &'a [TurnBounds],
) -> Task<'a> {
    Task {
        posterior,
        counting,
        tolerance_nm: TOLERANCE,
        bounds,
        accepted: false,
        most_nuts: None,
        effort: Effort::default(),
    }
}

/// Nuts that may go six notches either way.
pub fn free(arms: usize) -> Vec<TurnBounds> {
    vec![TurnBounds { least: -6, most: 6 }; arms]
}

/// A caliper of half a thousandth in a steady hand.
pub const CALIPER: Scatter = Scatter {
    lacing_nm: 0.0003 * INCH,
    repeatability_nm: 0.00025 * INCH,
    step_nm: 0.0005 * INCH,
    repeats: 2,
    shift_nm: 0.002 * INCH,
    tilt_nm: 0.0007 * INCH,
};

/// How pieces scatter and how they are read; standard deviations in nanometres.
#[derive(Debug, Clone, Copy)]
pub struct Scatter {
    pub lacing_nm: f64,
    /// Of readings before they are rounded to the step.
    pub repeatability_nm: f64,
    pub step_nm: f64,
    pub repeats: u32,
    pub shift_nm: f64,
    pub tilt_nm: f64,
}

impl Scatter {
    /// Without the repeats.
    pub fn of_pieces(&self) -> practice::Scatter {
        practice::Scatter {
            lacing_nm: self.lacing_nm,
            shift_nm: self.shift_nm,
            tilt_nm: self.tilt_nm,
            repeatability_nm: self.repeatability_nm,
            step_nm: self.step_nm,
        }
    }

    /// How much readings scatter as the gauge shows them, with their rounding.
    pub fn shown_nm(&self) -> f64 {
        (self.repeatability_nm * self.repeatability_nm + self.step_nm * self.step_nm / 12.0).sqrt()
    }
}

/// A simulated press of a family unlike those of the exercises.
#[derive(Debug, Clone)]
pub struct Press {
    simulated: SimulatedPress,
    /// Stiffness of the mean rod against the jaw in its middle.
    pub kappa: f64,
    law: Law,
}

/// How everything that scatters is distributed; each with a variance of one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Law {
    /// As the program reckons.
    Normal,
    /// Evenly up to the square root of three either way, and never beyond.
    Flat,
    /// Student's t at five degrees of freedom: now and then far out.
    HeavyTails,
}

impl Law {
    fn draw(self, draws: &mut Draws) -> f64 {
        match self {
            Self::Normal => draws.normal(),
            Self::Flat => 3_f64.sqrt() * draws.between(-1.0, 1.0),
            Self::HeavyTails => {
                let squares: f64 = (0..5).map(|_| draws.normal().powi(2)).sum();
                draws.normal() * (3.0 / squares).sqrt()
            }
        }
    }
}

impl std::ops::Deref for Press {
    type Target = SimulatedPress;

    fn deref(&self) -> &SimulatedPress {
        &self.simulated
    }
}

impl std::ops::DerefMut for Press {
    fn deref_mut(&mut self) -> &mut SimulatedPress {
        &mut self.simulated
    }
}

/// One laced piece.
pub struct Piece {
    /// True thickness at each station.
    pub true_nm: Vec<f64>,
    /// Means of the readings.
    pub read_nm: Vec<f64>,
}

impl Press {
    /// A press of the family that the prior is made of, evenly spaced, with
    /// as-found deviations of the given scatter.
    pub fn of_the_prior(draws: &mut Draws, arms: usize, deviation_nm: f64) -> Self {
        let layout = even_layout(arms);
        let kappa = libm::exp(draws.between(libm::log(3.0), libm::log(70.0)));
        let rho = draws.between(0.0, 0.3);
        let rods: Vec<f64> = (0..arms).map(|_| libm::exp(0.2 * draws.normal())).collect();
        let stiffness = JawStiffness {
            kappa,
            rho,
            rod_factors: &rods,
            sections: &[],
        };
        let simulated = SimulatedPress::new(layout, &stiffness).unwrap();
        let row_sum = simulated.row_sum();
        let common = NOTCH * libm::exp(-0.08 + 0.15 * draws.normal()) / row_sum;
        let nuts: Vec<f64> = (0..arms)
            .map(|_| common * draws.between(0.88, 1.12))
            .collect();
        let mut simulated = simulated.with_notches(&nuts);
        simulated.start_nm = start(draws, arms, deviation_nm);
        Self {
            simulated,
            kappa,
            law: Law::Normal,
        }
    }

    /// A press of another family: the jaw thicker in the middle, arms unevenly
    /// spaced, the notch meaning nut travel in half the presses and the effect
    /// at the splice in the others, nuts and rods a little uneven, and in one
    /// press in four a rod with little tension, which goes slack when its nut
    /// is turned out far.
    pub fn of_another_kind(draws: &mut Draws, arms: usize, deviation_nm: f64) -> Self {
        let mut positions = vec![0.0];
        for _ in 1..arms {
            let last = positions[positions.len() - 1];
            positions.push(last + SPACING * draws.between(0.8, 1.25));
        }
        let layout = layout_of(&positions);
        let (left, right) = (-OVERHANG, positions[arms - 1] + OVERHANG);
        let kappa = libm::exp(draws.between(libm::log(4.0), libm::log(50.0)));
        let rho = draws.between(0.02, 0.25);
        let thick = draws.between(1.0, 3.0);
        let part = |share: f64, rigidity_ratio: f64| JawSection {
            from_nm: left + share * (right - left),
            rigidity_ratio,
        };
        let sections = [
            part(0.0, 1.0 / thick),
            part(draws.between(0.15, 0.3), 1.0),
            part(draws.between(0.7, 0.85), 1.0 / thick),
        ];
        let rods: Vec<f64> = (0..arms).map(|_| draws.between(0.75, 1.3)).collect();
        let stiffness = JawStiffness {
            kappa,
            rho,
            rod_factors: &rods,
            sections: &sections,
        };
        let simulated = SimulatedPress::new(layout, &stiffness).unwrap();
        let row_sum = simulated.row_sum();
        let effect = if draws.uniform() < 0.5 {
            NOTCH
        } else {
            NOTCH / row_sum
        };
        let notch_nm: Vec<f64> = (0..arms)
            .map(|_| effect * draws.between(0.93, 1.07))
            .collect();
        let mut simulated = simulated.with_notches(&notch_nm);
        let weak = draws.below(4 * arms);
        if weak < arms {
            let mut tensions_nm = vec![0.05 * INCH; arms];
            tensions_nm[weak] = draws.between(0.004, 0.015) * INCH;
            simulated = simulated.with_tensions(tensions_nm);
        }
        simulated.start_nm = start(draws, arms, deviation_nm);
        Self {
            simulated,
            kappa,
            law: Law::Normal,
        }
    }

    /// Laces a piece: its true thickness at each station.
    pub fn lace(&self, draws: &mut Draws, nuts: &[i32], scatter: &Scatter) -> Vec<f64> {
        if self.law == Law::Normal {
            return self.simulated.lace_about(
                draws,
                &self.simulated.profile(nuts),
                &scatter.of_pieces(),
            );
        }
        let shift = scatter.shift_nm * self.law.draw(draws);
        let tilt = scatter.tilt_nm * self.law.draw(draws);
        self.profile(nuts)
            .iter()
            .zip(self.layout.along())
            .map(|(mean, xi)| mean + shift + tilt * xi + scatter.lacing_nm * self.law.draw(draws))
            .collect()
    }

    /// Laces a piece and reads it: true thicknesses and means of the readings.
    pub fn lace_and_read(&self, draws: &mut Draws, nuts: &[i32], scatter: &Scatter) -> Piece {
        let true_nm = self.lace(draws, nuts, scatter);
        let read_nm = read_by(self.law, draws, &true_nm, scatter);
        Piece { true_nm, read_nm }
    }
}

/// Reads a piece: the mean of the repeats at each station.
pub fn read(draws: &mut Draws, true_nm: &[f64], scatter: &Scatter) -> Vec<f64> {
    read_by(Law::Normal, draws, true_nm, scatter)
}

fn read_by(law: Law, draws: &mut Draws, true_nm: &[f64], scatter: &Scatter) -> Vec<f64> {
    true_nm
        .iter()
        .map(|t| {
            let sum: f64 = (0..scatter.repeats)
                .map(|_| match law {
                    Law::Normal => scatter.of_pieces().reading_nm(draws, *t),
                    law => {
                        let reading = t + scatter.repeatability_nm * law.draw(draws);
                        (reading / scatter.step_nm).round() * scatter.step_nm
                    }
                })
                .sum();
            sum / f64::from(scatter.repeats)
        })
        .collect()
}

/// A pass with every station read.
pub fn pass(nuts: &[i32], read_nm: &[f64], repeats: u32) -> TestPass {
    TestPass {
        nuts: nuts.iter().map(|k| f64::from(*k)).collect(),
        handle: 0.0,
        readings: read_nm
            .iter()
            .map(|&mean_nm| Some(StationReading { mean_nm, repeats }))
            .collect(),
    }
}

fn start(draws: &mut Draws, arms: usize, deviation_nm: f64) -> Vec<f64> {
    (0..arms)
        .map(|_| 0.25 * INCH + deviation_nm * draws.normal())
        .collect()
}
