//! The press of an exercise as it really is.
//!
//! Sizes of the faults are assumed (common practice, no source): chosen so that each shows at the
//! gauge of its exercise.

use crate::plan::Layout;
use crate::press::{ArmIndex, JawSection, JawStiffness, NaturalSpline};
use crate::stats::{Draws, Purpose};
use crate::units::Unit;

use super::exercise::{Drawn, Exercise, ExerciseProblem, USUAL_NM};
use super::fault::{Cure, Fault};
use super::simulated::{Scatter, SimulatedPress};

/// Nanometres in an inch.
const INCH_NM: f64 = 25_400_000.0;
/// The usual notch (common practice, no source).
const NOTCH_NM: f64 = 101_600.0;

/// Chains that are not even: the jaw to the right of an arm stands off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chains {
    /// The last arm that is not off.
    pub after: ArmIndex,
    /// How far the others are, thicker positive.
    pub step_nm: f64,
    /// How much that varies from piece to piece, as a standard deviation.
    pub scatter_nm: f64,
}

/// The press, its belt and its gauge, which the trainee does not see.
#[derive(Debug, Clone)]
pub struct Hidden {
    /// The jaw on its rods.
    pub press: SimulatedPress,
    /// How pieces scatter and readings too.
    pub scatter: Scatter,
    /// How much thicker the belt is at the right end than at the left, lying as
    /// in the first piece.
    pub belt_nm: f64,
    /// Chains that are not even.
    pub chains: Option<Chains>,
    /// What is left of the opening at each arm as found.
    pub margins_nm: Vec<f64>,
    /// How far every nut may be turned from where it stands as found; no limit
    /// where none was entered.
    pub window: Option<[i32; 2]>,
    /// What is wrong, and at which arm where it is at one.
    pub faults: Vec<(Fault, Option<ArmIndex>)>,
}

impl Hidden {
    /// The press of an exercise once these have been seen to.
    ///
    /// # Errors
    /// [`ExerciseProblem::Jaw`] where the arms make no jaw.
    pub fn of(exercise: &Exercise, cured: &[Cure]) -> Result<Self, ExerciseProblem> {
        let (jaw, arms, stations) = exercise.layout_nm();
        let mut draws = exercise.draws(Drawn::Press);
        let stiffness = Stiff::drawn(&mut draws, jaw, arms.len());
        let press = stiffness.press(jaw, &arms, &stations)?;
        let effect = match exercise.fault {
            // The notch means nut travel in half the presses and the effect at
            // the splice in the others.
            Fault::Everyday if draws.uniform() < 0.5 => NOTCH_NM,
            _ => NOTCH_NM / press.row_sum(),
        };
        let notches: Vec<f64> = arms
            .iter()
            .map(|_| effect * draws.between(0.93, 1.07))
            .collect();
        let mut rig = Rig {
            count: arms.len(),
            along: press.layout.along(),
            at_arm: press.layout.own_stations(),
            plain: press.with_notches(&notches),
            notches,
            tensions: vec![0.05 * INCH_NM; arms.len()],
            rods: stiffness.rods.clone(),
            hidden_scatter: usual_scatter(exercise.unit),
            off: vec![0.0; stations.len()],
            belt_nm: 0.0,
            chains: None,
            margins: vec![0.05 * INCH_NM; arms.len()],
            window: exercise.nuts.window(),
            faults: Vec::new(),
            factors: vec![1.0; arms.len()],
        };
        rig.lay_background(exercise, &arms, &stations, &mut draws);
        let kinds = match exercise.fault {
            Fault::Mixed => two_of_many(&mut draws),
            fault => vec![fault],
        };
        for fault in kinds {
            let is_cured = fault.cure().is_some_and(|cure| cured.contains(&cure));
            let set_down = !exercise.profile.is_empty();
            rig.lay(fault, (is_cured, set_down), exercise.unit, &mut draws);
        }
        if cured.contains(&Cure::Gauge) {
            rig.hidden_scatter = fine_gauge(rig.hidden_scatter, exercise.unit);
        }
        rig.finish(&stiffness, jaw, &arms, &stations)
    }

    /// Whether this is wrong at this arm.
    pub fn faulty(&self, fault: Fault, arm: ArmIndex) -> bool {
        self.faults.contains(&(fault, Some(arm)))
    }

    /// Mean thickness that the jaws give at every station, chains included, with
    /// the nuts at these positions.
    pub fn jaw_nm(&self, nuts: &[i32]) -> Vec<f64> {
        let mut profile = self.press.profile(nuts);
        if let Some(chains) = self.chains {
            for (thick, right) in profile.iter_mut().zip(self.right_of(chains.after)) {
                *thick += if right { chains.step_nm } else { 0.0 };
            }
        }
        profile
    }

    /// Mean thickness of a piece of this belt.
    pub fn piece_nm(&self, nuts: &[i32], flipped: bool) -> Vec<f64> {
        let lies = if flipped { -1.0 } else { 1.0 };
        let mut profile = self.jaw_nm(nuts);
        for (thick, xi) in profile.iter_mut().zip(self.press.layout.along()) {
            *thick += lies * self.belt_nm * xi;
        }
        profile
    }

    /// Laces a piece: its true thickness at each station. The draws are those
    /// of this luck and this piece, whatever was done before.
    pub fn lace(&self, mean_nm: &[f64], luck: Luck, piece: usize) -> Vec<f64> {
        let mut draws = luck.draws([piece as u64, 0, 0]);
        let mut true_nm = self.press.lace_about(&mut draws, mean_nm, &self.scatter);
        if let Some(chains) = self.chains {
            let more = chains.scatter_nm * draws.normal();
            for (thick, right) in true_nm.iter_mut().zip(self.right_of(chains.after)) {
                *thick += if right { more } else { 0.0 };
            }
        }
        true_nm
    }

    fn right_of(&self, after: ArmIndex) -> impl Iterator<Item = bool> + '_ {
        let arms = self.press.layout.arms_nm();
        let from = arms.get(after.0).copied().unwrap_or_default();
        let stations = self.press.layout.stations_nm().iter();
        stations.map(move |at| *at > from)
    }

    /// Nuts no farther than they may stand.
    pub fn within(&self, nuts: &[i32]) -> Vec<i32> {
        let [least, most] = self.window.unwrap_or([i32::MIN, i32::MAX]);
        nuts.iter().map(|nut| *nut.clamp(&least, &most)).collect()
    }

    /// What is left of the opening at each arm; below zero the retainer sticks.
    pub fn opening_left_nm(&self, nuts: &[i32]) -> Vec<f64> {
        let travels = self.press.notch_nm().iter();
        let margins = self.margins_nm.iter().zip(travels);
        margins
            .zip(nuts)
            .map(|((margin, travel), nut)| margin + f64::from(*nut) * travel)
            .collect()
    }
}

/// Which scatter a game is played with: the exercise's own is number 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Luck {
    /// The exercise's number.
    pub exercise: u64,
    /// Which luck.
    pub number: u64,
}

impl Luck {
    /// The draws of a piece, and of a station and reading of it, from 1.
    pub(super) fn draws(self, [piece, station, reading]: [u64; 3]) -> Draws {
        let what = piece << 40 | station << 20 | reading;
        Draws::new(Purpose::Practice([self.exercise, self.number, what]))
    }
}

/// A jaw and its rods as drawn.
struct Stiff {
    kappa: f64,
    rho: f64,
    sections: [JawSection; 3],
    rods: Vec<f64>,
}

impl Stiff {
    fn drawn(draws: &mut Draws, jaw: f64, arms: usize) -> Self {
        let kappa = libm::exp(draws.between(libm::log(4.0), libm::log(50.0)));
        let rho = draws.between(0.02, 0.25);
        let thick = draws.between(1.0, 3.0);
        let part = |share: f64, rigidity_ratio: f64| JawSection {
            from_nm: share * jaw,
            rigidity_ratio,
        };
        Self {
            kappa,
            rho,
            sections: [
                part(0.0, 1.0 / thick),
                part(draws.between(0.15, 0.3), 1.0),
                part(draws.between(0.7, 0.85), 1.0 / thick),
            ],
            rods: (0..arms).map(|_| draws.between(0.75, 1.3)).collect(),
        }
    }

    fn press(
        &self,
        jaw: f64,
        arms: &[f64],
        stations: &[f64],
    ) -> Result<SimulatedPress, ExerciseProblem> {
        let stiffness = JawStiffness {
            kappa: self.kappa,
            rho: self.rho,
            rod_factors: &self.rods,
            sections: &self.sections,
        };
        let layout = Layout::new((0.0, jaw), arms, stations)?;
        Ok(SimulatedPress::new(layout, &stiffness)?)
    }
}

/// A press being put together.
struct Rig {
    count: usize,
    along: Vec<f64>,
    at_arm: Vec<usize>,
    plain: SimulatedPress,
    notches: Vec<f64>,
    tensions: Vec<f64>,
    rods: Vec<f64>,
    hidden_scatter: Scatter,
    off: Vec<f64>,
    belt_nm: f64,
    chains: Option<Chains>,
    margins: Vec<f64>,
    window: Option<[i32; 2]>,
    faults: Vec<(Fault, Option<ArmIndex>)>,
    factors: Vec<f64>,
}

impl Rig {
    fn lay_background(&mut self, exercise: &Exercise, arms: &[f64], at: &[f64], draws: &mut Draws) {
        let sd = match exercise.fault {
            Fault::Everyday => 0.004 * INCH_NM,
            _ => exercise.level.background_nm(),
        };
        let drawn: Vec<f64> = arms.iter().map(|_| sd * draws.normal()).collect();
        let off = match exercise.set_down_nm() {
            Some(thick) => thick.iter().map(|thick| thick - USUAL_NM).collect(),
            None => drawn,
        };
        if let Ok(spline) = NaturalSpline::new(arms)
            && let Ok(curve) = spline.curve(&off)
        {
            self.off = at.iter().map(|x| curve.at(*x)).collect();
        }
    }

    /// Puts the nut of an arm wrong by so many notches.
    fn put_out(&mut self, arm: usize, notches: f64) {
        let rows = self.plain.response.chunks_exact(self.count.max(1));
        for (off, row) in self.off.iter_mut().zip(rows) {
            *off += notches * row.get(arm).copied().unwrap_or_default();
        }
    }

    fn raise(&mut self, mut by_nm: impl FnMut(usize, f64) -> f64) {
        for (index, (off, xi)) in self.off.iter_mut().zip(&self.along).enumerate() {
            *off += by_nm(index, *xi);
        }
    }

    /// Lays a fault on. What is cured is drawn all the same, so that the rest of
    /// the press stays what it was.
    fn lay(
        &mut self,
        fault: Fault,
        (cured, set_down): (bool, bool),
        unit: Unit,
        draws: &mut Draws,
    ) {
        let arm = draws.below(self.count);
        let size = draws.uniform();
        let sign = if draws.uniform() < 0.5 { -1.0 } else { 1.0 };
        let thou = |least: f64, most: f64| 0.001 * INCH_NM * (least + (most - least) * size);
        let mut at = None;
        match fault {
            // What a trainer sets down is all that is wrong with it.
            Fault::Everyday if set_down => {}
            Fault::Everyday => {
                if draws.below(4) == 0 {
                    at = Some(arm);
                    self.slacken(arm, thou(4.0, 15.0));
                }
            }
            Fault::PinchedArm => {
                at = Some(arm);
                self.put_out(arm, -(2.5 + 2.5 * size));
            }
            Fault::Taper => {
                let slope = sign * thou(8.0, 14.0);
                self.raise(|_, xi| slope * xi);
            }
            Fault::Bow => {
                let height = sign * thou(6.0, 10.0);
                self.raise(|_, xi| height * (1.0 - 4.0 * xi * xi));
            }
            Fault::BeltTwist => {
                if !cured {
                    self.hidden_scatter.tilt_nm = thou(4.0, 6.0);
                }
            }
            Fault::WornStretch => {
                let left = draws.below(self.count.saturating_sub(1));
                at = Some(left);
                let worn = self.at_arm.get(left).map(|station| station + 1);
                let deep = thou(4.5, 7.0);
                self.raise(|index, _| if Some(index) == worn { deep } else { 0.0 });
            }
            Fault::SlackNut => {
                at = Some(arm);
                self.put_out(arm, -(2.5 + 2.0 * size));
                if !cured {
                    // Slack from one to two notches out on.
                    let tension = self.relief(arm) * (1.0 + size);
                    self.slacken(arm, tension);
                }
            }
            Fault::DeadNut => {
                at = Some(arm);
                self.put_out(arm, sign * (1.5 + 1.5 * size));
                if let Some(factor) = self.factors.get_mut(arm).filter(|_| !cured) {
                    *factor = 0.0;
                }
            }
            Fault::PoorGauge => {
                self.put_out(arm, sign * (2.0 + 2.0 * size));
                if !cured {
                    let step = match unit {
                        Unit::Inch => 0.001 * INCH_NM,
                        Unit::Millimetre => 20_000.0,
                    };
                    self.hidden_scatter.step_nm = step;
                    self.hidden_scatter.repeatability_nm = (1.0 + 0.4 * size) * step;
                }
            }
            Fault::ThickBeltSide => {
                if !cured {
                    self.belt_nm = sign * thou(6.0, 9.0);
                }
            }
            Fault::UnevenChains => {
                let after = ArmIndex(draws.below(self.count.saturating_sub(1)));
                at = Some(after.0);
                if !cured {
                    self.chains = Some(Chains {
                        after,
                        step_nm: sign * thou(5.0, 8.0),
                        scatter_nm: thou(1.0, 1.5),
                    });
                }
            }
            Fault::SmallOpening => {
                at = Some(arm);
                self.put_out(arm, 2.5 + 2.0 * size);
                let travel = self.notches.get(arm).copied().unwrap_or(NOTCH_NM);
                // To whole ten-thousandths of an inch: it is given as a length.
                let margin = ((1.2 + 0.6 * size) * travel / 2_540.0).round() * 2_540.0;
                if let Some(place) = self.margins.get_mut(arm) {
                    *place = margin;
                }
            }
            Fault::Mixed => {}
        }
        self.faults.push((fault, at.map(ArmIndex)));
    }

    /// How much less a rod pulls for a notch out at its own nut, as the stretch
    /// that gives the mean rod: T falls by k (u - w).
    fn relief(&self, arm: usize) -> f64 {
        let own = self.at_arm.get(arm).copied().unwrap_or_default();
        let answer = self.plain.response.get(own * self.count + arm);
        let notch = self.notches.get(arm).copied().unwrap_or_default();
        let factor = self.rods.get(arm).copied().unwrap_or(1.0);
        factor * (notch - answer.copied().unwrap_or_default())
    }

    fn slacken(&mut self, arm: usize, tension: f64) {
        if let Some(place) = self.tensions.get_mut(arm) {
            *place = tension;
        }
    }

    fn finish(
        self,
        stiffness: &Stiff,
        jaw: f64,
        arms: &[f64],
        at: &[f64],
    ) -> Result<Hidden, ExerciseProblem> {
        let moves: Vec<f64> = self
            .notches
            .iter()
            .zip(&self.factors)
            .map(|(notch, factor)| notch * factor)
            .collect();
        let mut press = stiffness
            .press(jaw, arms, at)?
            .with_notches(&moves)
            .with_tensions(self.tensions);
        press.start_nm = self.off.iter().map(|off| USUAL_NM + off).collect();
        Ok(Hidden {
            press,
            scatter: self.hidden_scatter,
            belt_nm: self.belt_nm,
            chains: self.chains,
            margins_nm: self.margins,
            window: self.window,
            faults: self.faults,
        })
    }
}

fn two_of_many(draws: &mut Draws) -> Vec<Fault> {
    let mut kinds = vec![
        Fault::PinchedArm,
        Fault::Taper,
        Fault::Bow,
        Fault::SlackNut,
        Fault::DeadNut,
        Fault::PoorGauge,
        Fault::ThickBeltSide,
        Fault::UnevenChains,
    ];
    let first = kinds.swap_remove(draws.below(kinds.len()));
    let second = kinds.swap_remove(draws.below(kinds.len()));
    vec![first, second]
}

/// What pieces and gauges do where nothing is said otherwise (assumed:
/// common practice, no source): the figures of the closed loop in the readme.
pub(super) fn usual_scatter(unit: Unit) -> Scatter {
    let step_nm = match unit {
        Unit::Inch => 0.0005 * INCH_NM,
        Unit::Millimetre => 10_000.0,
    };
    Scatter {
        lacing_nm: 0.0003 * INCH_NM,
        shift_nm: 0.002 * INCH_NM,
        tilt_nm: 0.0005 * INCH_NM,
        repeatability_nm: 0.0004 * INCH_NM,
        step_nm,
    }
}

fn fine_gauge(scatter: Scatter, unit: Unit) -> Scatter {
    let step_nm = match unit {
        Unit::Inch => 0.0001 * INCH_NM,
        Unit::Millimetre => 2_000.0,
    };
    Scatter {
        step_nm,
        repeatability_nm: step_nm,
        ..scatter
    }
}
