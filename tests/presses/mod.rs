//! Simulated presses for tests and benches.
#![allow(dead_code)]

use jawtrue::plan::{Layout, StationReading, TestPass};
use jawtrue::press::beam::{Beam, BeamSection};
use jawtrue::press::{JawBeam, JawLayout, JawSection, JawStiffness};
use jawtrue::stats::Draws;

pub mod families;

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
    /// How much readings scatter as the gauge shows them, with their rounding.
    pub fn shown_nm(&self) -> f64 {
        (self.repeatability_nm * self.repeatability_nm + self.step_nm * self.step_nm / 12.0).sqrt()
    }
}

/// A simulated press: the thing itself, which no method may look into.
#[derive(Debug, Clone)]
pub struct Press {
    pub layout: Layout,
    /// Profile with all nuts at zero.
    pub start_nm: Vec<f64>,
    /// Answer of each station to each nut, row by row; exact as long as no rod
    /// is slack.
    pub response: Vec<f64>,
    /// Stiffness of the mean rod against the jaw in its middle.
    pub kappa: f64,
    slack: Option<Slack>,
}

/// A press whose rods may go slack: its answer is no longer linear.
#[derive(Debug, Clone)]
struct Slack {
    jaw: HangingJaw,
    tensions_nm: Vec<f64>,
    notch_nm: Vec<f64>,
}

/// A jaw on rods that only pull: with the mean arm spacing as the unit of length
/// and the mean rod's stiffness as that of force per deflection, as in
/// [`JawStiffness`].
#[derive(Debug, Clone)]
struct HangingJaw {
    beam: Beam,
    left_nm: f64,
    spacing_nm: f64,
}

impl HangingJaw {
    fn new((left_nm, right_nm): (f64, f64), arms_nm: &[f64], stiffness: &JawStiffness) -> Self {
        let gaps = (arms_nm.len() - 1) as f64;
        let spacing_nm = (arms_nm[arms_nm.len() - 1] - arms_nm[0]) / gaps;
        let at = |x_nm: f64| (x_nm - left_nm) / spacing_nm;
        let rods = arms_nm
            .iter()
            .map(|x| at(*x))
            .zip(stiffness.rod_factors.iter().copied());
        let rigidity = 1.0 / stiffness.kappa;
        let mut beam = Beam::uniform(0.0, at(right_nm), rigidity)
            .on_springs(rods)
            .on_foundation(stiffness.rho);
        if !stiffness.sections.is_empty() {
            let sections = stiffness.sections.iter();
            beam.sections = sections
                .map(|section| BeamSection {
                    from: at(section.from_nm),
                    rigidity: rigidity * section.rigidity_ratio,
                })
                .collect();
        }
        Self {
            beam,
            left_nm,
            spacing_nm,
        }
    }

    /// How far it opens at some places when its nuts have moved by so much, its
    /// rods stretched by `tensions_nm` before.
    fn opened_nm(&self, tensions_nm: &[f64], movements_nm: &[f64], at_nm: &[f64]) -> Vec<f64> {
        let hung = self.beam.solve_slack(tensions_nm, movements_nm).unwrap();
        let places = at_nm.iter().map(|x| (x - self.left_nm) / self.spacing_nm);
        places.map(|x| hung.deflection.at(x)).collect()
    }
}

/// One laced piece.
pub struct Piece {
    /// True thickness at each station.
    pub true_nm: Vec<f64>,
    /// Means of the readings.
    pub read_nm: Vec<f64>,
}

pub fn spread(profile: &[f64]) -> f64 {
    let high = profile.iter().copied().fold(f64::MIN, f64::max);
    high - profile.iter().copied().fold(f64::MAX, f64::min)
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
        let mut response = influence(&layout, &stiffness);
        let row_sum = response.iter().sum::<f64>() / arms as f64;
        let common = NOTCH * libm::exp(-0.08 + 0.15 * draws.normal()) / row_sum;
        let nuts: Vec<f64> = (0..arms).map(|_| draws.between(0.88, 1.12)).collect();
        for row in response.chunks_exact_mut(arms) {
            row.iter_mut()
                .zip(&nuts)
                .for_each(|(b, v)| *b *= common * v);
        }
        Self {
            start_nm: start(draws, arms, deviation_nm),
            layout,
            response,
            kappa,
            slack: None,
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
        let mut response = influence(&layout, &stiffness);
        let row_sum = response.iter().sum::<f64>() / arms as f64;
        let effect = if draws.uniform() < 0.5 {
            NOTCH
        } else {
            NOTCH / row_sum
        };
        let notch_nm: Vec<f64> = (0..arms)
            .map(|_| effect * draws.between(0.93, 1.07))
            .collect();
        for row in response.chunks_exact_mut(arms) {
            row.iter_mut().zip(&notch_nm).for_each(|(b, v)| *b *= v);
        }
        let weak = draws.below(4 * arms);
        let slack = (weak < arms).then(|| {
            let mut tensions_nm = vec![0.05 * INCH; arms];
            tensions_nm[weak] = draws.between(0.004, 0.015) * INCH;
            Slack {
                jaw: HangingJaw::new((left, right), &positions, &stiffness),
                tensions_nm,
                notch_nm,
            }
        });
        Self {
            start_nm: start(draws, arms, deviation_nm),
            layout,
            response,
            kappa,
            slack,
        }
    }

    pub fn arms(&self) -> usize {
        self.start_nm.len()
    }

    /// Mean profile with the nuts at these positions.
    pub fn profile(&self, nuts: &[i32]) -> Vec<f64> {
        if let Some(slack) = &self.slack {
            let movements: Vec<f64> = nuts
                .iter()
                .zip(&slack.notch_nm)
                .map(|(k, notch)| f64::from(*k) * notch)
                .collect();
            let places = self.layout.stations_nm();
            let opened = slack.jaw.opened_nm(&slack.tensions_nm, &movements, places);
            let stations = opened.iter().zip(&self.start_nm);
            return stations.map(|(opened, start)| start + opened).collect();
        }
        self.start_nm
            .iter()
            .zip(self.response.chunks_exact(self.arms()))
            .map(|(start, row)| {
                let change: f64 = row.iter().zip(nuts).map(|(b, k)| b * f64::from(*k)).sum();
                start + change
            })
            .collect()
    }

    /// Laces a piece: its true thickness at each station.
    pub fn lace(&self, draws: &mut Draws, nuts: &[i32], scatter: &Scatter) -> Vec<f64> {
        let shift = scatter.shift_nm * draws.normal();
        let tilt = scatter.tilt_nm * draws.normal();
        self.profile(nuts)
            .iter()
            .zip(self.layout.along())
            .map(|(mean, xi)| mean + shift + tilt * xi + scatter.lacing_nm * draws.normal())
            .collect()
    }

    /// Laces a piece and reads it: true thicknesses and means of the readings.
    pub fn lace_and_read(&self, draws: &mut Draws, nuts: &[i32], scatter: &Scatter) -> Piece {
        let true_nm = self.lace(draws, nuts, scatter);
        let read_nm = read(draws, &true_nm, scatter);
        Piece { true_nm, read_nm }
    }
}

/// Reads a piece: the mean of the repeats at each station.
pub fn read(draws: &mut Draws, true_nm: &[f64], scatter: &Scatter) -> Vec<f64> {
    true_nm
        .iter()
        .map(|t| {
            let sum: f64 = (0..scatter.repeats)
                .map(|_| {
                    let reading = t + scatter.repeatability_nm * draws.normal();
                    (reading / scatter.step_nm).round() * scatter.step_nm
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

/// Influence of every nut at every station, for movements of the nuts.
fn influence(layout: &Layout, stiffness: &JawStiffness) -> Vec<f64> {
    let arms = layout.arms_nm();
    let (first, last) = (arms[0] - OVERHANG, arms[arms.len() - 1] + OVERHANG);
    let jaw = JawLayout::new((first, last), arms, layout.stations_nm()).unwrap();
    let mut influence = vec![0.0; arms.len() * layout.stations_nm().len()];
    let mut jaw = JawBeam::new(jaw, stiffness).unwrap();
    jaw.influence_into(&mut influence).unwrap();
    influence
}
