//! The jaw of a press as a beam on its rods and the splice.
//!
//! Only ratios matter for how the jaw answers to its nuts. With the mean arm
//! spacing a as the unit of length and the mean rod's stiffness k as that of
//! force per deflection, they are
//!
//! ```text
//! kappa = k a^3 / EI,    rho = k_f a / k,
//! ```
//!
//! and each rod's own stiffness over the mean one. kappa = 0 is a rigid jaw,
//! a large kappa a thin one; rho tells how hard belt and hooks push back.
//!
//! **Signs.** Out is positive: a nut turned out lets the jaw go at its arm, the
//! jaw opens there, the splice gets thicker. Movements of nuts and of the
//! jaw are in nanometres.

use super::arm_positions::{ArmPositionsError, MAX_POSITION_NM, check_arm_positions};
use super::beam::{Beam, BeamError, BeamSection, Deflection, FactoredBeam};
use crate::units::holds;
use std::ops::RangeInclusive;

/// Range of kappa, besides 0 for a rigid jaw.
pub const KAPPA_RANGE: RangeInclusive<f64> = 1.0e-9..=1.0e12;

/// Range of rho, besides 0 for no splice.
pub const RHO_RANGE: RangeInclusive<f64> = 1.0e-12..=1.0e3;

/// Range of one rod's stiffness over the mean one, besides 0 for a slack
/// rod; and of a section's rigidity over the one that kappa is meant for.
pub const STIFFNESS_RATIO_RANGE: RangeInclusive<f64> = 1.0e-6..=1.0e6;

/// Why a jaw is refused or cannot answer. Arms, stations and sections are
/// counted from 0 at the operator's left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum JawError {
    /// The arm positions are refused.
    Arms(ArmPositionsError),
    /// The jaw's ends are not numbers in order within [`MAX_POSITION_NM`].
    Ends,
    /// This arm stands outside the jaw.
    ArmOutside(usize),
    /// This station is outside the jaw or not a number.
    StationOutside(usize),
    /// kappa is neither 0 nor in [`KAPPA_RANGE`].
    Kappa,
    /// rho is neither 0 nor in [`RHO_RANGE`].
    Rho,
    /// There is neither one rod factor per arm nor none at all.
    RodCount,
    /// The rod factor of this arm is neither 0 nor in [`STIFFNESS_RATIO_RANGE`].
    RodFactor(usize),
    /// The rigidity ratio of this section is not in [`STIFFNESS_RATIO_RANGE`].
    SectionRatio(usize),
    /// The beam itself cannot be solved; its springs are the arms.
    Beam(BeamError),
}

holds! {
    JawError {
        Arms(ArmPositionsError),
        Beam(BeamError),
    }
}

/// Where the jaw's ends, its arms and the stations are.
#[derive(Debug, Clone, PartialEq)]
pub struct JawLayout {
    left_end_nm: f64,
    spacing_nm: f64,
    /// Right end, arms and stations in units of the mean arm spacing from the
    /// left end.
    length: f64,
    arms: Vec<f64>,
    stations: Vec<f64>,
}

impl JawLayout {
    /// Takes positions along the jaw in nanometres; stations in any order, as
    /// many as there are.
    ///
    /// # Errors
    /// [`JawError::Arms`], [`JawError::Ends`], [`JawError::ArmOutside`] or
    /// [`JawError::StationOutside`].
    pub fn new(
        ends_nm: (f64, f64),
        arms_nm: &[f64],
        stations_nm: &[f64],
    ) -> Result<Self, JawError> {
        check_arm_positions(arms_nm)?;
        let (left_nm, right_nm) = ends_nm;
        let in_range = |x: f64| x.abs() <= MAX_POSITION_NM;
        if !in_range(left_nm) || !in_range(right_nm) || left_nm >= right_nm {
            return Err(JawError::Ends);
        }
        let outside = |x: &f64| !(left_nm..=right_nm).contains(x);
        if let Some(arm) = arms_nm.iter().position(outside) {
            return Err(JawError::ArmOutside(arm));
        }
        if let Some(station) = stations_nm.iter().position(outside) {
            return Err(JawError::StationOutside(station));
        }
        // Two arms at least have been checked to stand in order.
        let spacing_nm = (arms_nm[arms_nm.len() - 1] - arms_nm[0]) / (arms_nm.len() - 1) as f64;
        let scaled = |x: &f64| (x - left_nm) / spacing_nm;
        Ok(Self {
            left_end_nm: left_nm,
            spacing_nm,
            length: scaled(&right_nm),
            arms: arms_nm.iter().map(scaled).collect(),
            stations: stations_nm.iter().map(scaled).collect(),
        })
    }

    /// Number of arms.
    pub fn arms(&self) -> usize {
        self.arms.len()
    }

    /// Number of stations.
    pub(super) fn stations(&self) -> usize {
        self.stations.len()
    }

    fn scaled(&self, x_nm: f64) -> f64 {
        (x_nm - self.left_end_nm) / self.spacing_nm
    }

    /// The jaw on rods all alike.
    fn beam(&self) -> Beam {
        let rods = self.arms.iter().map(|&x| (x, 1.0));
        Beam::uniform(0.0, self.length, 1.0).on_springs(rods)
    }
}

/// A part of the jaw whose section differs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JawSection {
    /// Where it begins, in nanometres along the jaw; the first one begins at
    /// the left end, whatever stands here.
    pub from_nm: f64,
    /// Its rigidity EI over the one in kappa.
    pub rigidity_ratio: f64,
}

/// The ratios that tell how the jaw answers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JawStiffness<'a> {
    /// k a^3 / EI, from rigid (0) to thin.
    pub kappa: f64,
    /// k_f a / k, from no splice (0) to a hard one.
    pub rho: f64,
    /// Each rod's stiffness over the mean one, 0 when it is slack; empty when
    /// all are alike.
    pub rod_factors: &'a [f64],
    /// Sections from the left; empty when the jaw has one section.
    pub sections: &'a [JawSection],
}

impl JawStiffness<'_> {
    /// Gives a beam of this layout this stiffness.
    fn lay_on(&self, layout: &JawLayout, beam: &mut Beam) {
        // k and a are the units, so EI = 1 / kappa and k_f = rho; 1 / 0 is
        // the infinite rigidity of a rigid jaw.
        let rigidity = 1.0 / self.kappa.abs();
        beam.foundation = self.rho;
        beam.sections.clear();
        if self.sections.is_empty() {
            beam.sections.push(BeamSection {
                from: 0.0,
                rigidity,
            });
        }
        for section in self.sections {
            beam.sections.push(BeamSection {
                from: layout.scaled(section.from_nm),
                rigidity: rigidity * section.rigidity_ratio,
            });
        }
        let factors = self.rod_factors.iter().copied();
        let alike = std::iter::repeat(1.0);
        for (rod, factor) in beam.springs.iter_mut().zip(factors.chain(alike)) {
            rod.stiffness = factor;
        }
    }

    /// One section and rods that are all alike.
    pub fn even(kappa: f64, rho: f64) -> Self {
        Self {
            kappa,
            rho,
            rod_factors: &[],
            sections: &[],
        }
    }

    pub(super) fn check(&self, arms: usize) -> Result<(), JawError> {
        let (kappa, rho) = (self.kappa, self.rho);
        if kappa != 0.0 && !KAPPA_RANGE.contains(&kappa) {
            return Err(JawError::Kappa);
        }
        if rho != 0.0 && !RHO_RANGE.contains(&rho) {
            return Err(JawError::Rho);
        }
        if !self.rod_factors.is_empty() && self.rod_factors.len() != arms {
            return Err(JawError::RodCount);
        }
        for (arm, &factor) in self.rod_factors.iter().enumerate() {
            if factor != 0.0 && !STIFFNESS_RATIO_RANGE.contains(&factor) {
                return Err(JawError::RodFactor(arm));
            }
        }
        for (section, &JawSection { rigidity_ratio, .. }) in self.sections.iter().enumerate() {
            if !STIFFNESS_RATIO_RANGE.contains(&rigidity_ratio) {
                return Err(JawError::SectionRatio(section));
            }
        }
        Ok(())
    }
}

/// A jaw of known stiffness, ready to answer.
///
/// It owns the room it works in: giving it another stiffness and asking for
/// its influence allocates nothing (unless it needs many more pieces than
/// before).
#[derive(Debug, Clone)]
pub struct JawBeam {
    layout: JawLayout,
    beam: Beam,
    factored: FactoredBeam,
}

impl JawBeam {
    /// A jaw of this layout and stiffness.
    ///
    /// # Errors
    /// Any [`JawError`] of the stiffness.
    pub fn new(layout: JawLayout, stiffness: &JawStiffness<'_>) -> Result<Self, JawError> {
        let beam = layout.beam();
        let mut jaw = Self {
            factored: beam.factor()?,
            beam,
            layout,
        };
        jaw.stiffen(stiffness)?;
        Ok(jaw)
    }

    /// Gives the jaw another stiffness.
    ///
    /// # Errors
    /// Any [`JawError`] of the stiffness; the jaw then answers as before.
    pub fn stiffen(&mut self, stiffness: &JawStiffness<'_>) -> Result<(), JawError> {
        stiffness.check(self.layout.arms())?;
        stiffness.lay_on(&self.layout, &mut self.beam);
        self.factored.refactor(&self.beam)?;
        Ok(())
    }

    /// Writes the influence matrix: how far the jaw opens at each station
    /// (row) when the nut of each arm (column) moves by one unit.
    ///
    /// # Errors
    /// [`BeamError::MatrixSize`] when `out` has not stations x arms values.
    pub fn influence_into(&mut self, out: &mut [f64]) -> Result<(), JawError> {
        Ok(self.factored.influence_into(&self.layout.stations, out)?)
    }

    /// The same when rods only pull: `tensions_nm` are their tensions before
    /// the nuts move, as the stretch in nanometres that such a tension
    /// gives the mean rod.
    ///
    /// # Errors
    /// Those of [`Beam::solve_slack`].
    pub fn solve_slack(
        &self,
        tensions_nm: &[f64],
        movements_nm: &[f64],
    ) -> Result<JawOnSlackRods, JawError> {
        let slack_solution = self.beam.solve_slack(tensions_nm, movements_nm)?;
        Ok(JawOnSlackRods {
            curve: self.curve(slack_solution.deflection),
            tensions_nm: slack_solution.tensions,
            slack_from: slack_solution.slack_from,
        })
    }

    fn curve(&self, deflection: Deflection) -> JawCurve {
        JawCurve {
            left_end_nm: self.layout.left_end_nm,
            spacing_nm: self.layout.spacing_nm,
            deflection,
        }
    }
}

/// How far the jaw opens along its length.
#[derive(Debug, Clone, PartialEq)]
pub struct JawCurve {
    left_end_nm: f64,
    spacing_nm: f64,
    deflection: Deflection,
}

impl JawCurve {
    /// How far the jaw opens at a position along it, both in nanometres;
    /// straight on beyond the ends, see [`Deflection::at`].
    pub fn at(&self, x_nm: f64) -> f64 {
        self.deflection
            .at((x_nm - self.left_end_nm) / self.spacing_nm)
    }
}

/// A jaw on rods that only pull.
#[derive(Debug, Clone, PartialEq)]
pub struct JawOnSlackRods {
    /// How far the jaw opens.
    pub curve: JawCurve,
    /// Tension of each rod, as the stretch in nanometres that it gives the
    /// mean rod; 0 when it is slack.
    pub tensions_nm: Vec<f64>,
    /// For each slack rod, at which share of the movements it went slack:
    /// the rest of its nut's movement does nothing.
    pub slack_from: Vec<Option<f64>>,
}
