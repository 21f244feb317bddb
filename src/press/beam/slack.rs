//! Rods that can only pull.
//!
//! The stationary jaw hangs on its rods. The force that presses the splice
//! pushes the jaw away, in the direction of +w, and the rods hold it in
//! tension. Turning a nut out by u lets the jaw go; as the jaw follows by w,
//! the tension T of the rod and the force k (u - w) of its spring on the beam
//! are
//!
//! ```text
//! T = preload - k (u - w).
//! ```
//!
//! Where T would fall below zero the nut lifts off its seat: the rod is
//! slack, its tension stays 0, and turning its nut further out does nothing.
//! What the jaw then sees is no spring, and the force by which the rod had
//! held it before the turn, now missing: +preload.

use super::{Beam, BeamError, Deflection, PointLoad};

/// Which share of the largest tension counts as none at all.
const NOTHING: f64 = 1.0e-12;

/// A beam hanging on rods that only pull.
#[derive(Debug, Clone, PartialEq)]
pub struct SlackSolution {
    /// The beam; slack rods exert no force on it.
    pub deflection: Deflection,
    /// Tension of each rod; 0 when it is slack.
    pub tensions: Vec<f64>,
    /// For each slack rod, at which share of the movements (0 to 1) it went
    /// slack, once and for all.
    pub slack_from: Vec<Option<f64>>,
}

impl Beam {
    /// Deflection for movements of the springs' seats when springs are rods
    /// that only pull, with these tensions (`preloads`, one per spring, not
    /// negative) before anything moves.
    ///
    /// Movements and the beam's point loads are applied gradually, from none
    /// to all. Tensions change along straight lines until a rod goes slack or
    /// is drawn tight again; there the beam is solved anew without or with
    /// that rod. The tensions reached do not depend on the path, since the
    /// energy is convex.
    ///
    /// Every step passes one such change, the leftmost rod first when several
    /// fall together. Ten changes per rod, and two more, are far more than
    /// any press makes; beyond that the search is given up.
    ///
    /// # Errors
    /// [`BeamError::Preload`] or any error of factoring and solving;
    /// [`BeamError::Loose`] when so many rods go slack that nothing
    /// holds the beam; [`BeamError::Unsettled`] when the search is given up.
    pub fn solve_slack(
        &self,
        preloads: &[f64],
        movements: &[f64],
    ) -> Result<SlackSolution, BeamError> {
        self.check_preloads(preloads)?;
        self.factor()?.check_movements(movements)?;

        let rods = self.springs.len();
        let mut slack_from = vec![None; rods];
        let mut share = 0.0;
        for _ in 0..10 * rods + 2 {
            match self.next_change(preloads, movements, &slack_from, share)? {
                Some((rod, at)) => {
                    share = at;
                    slack_from[rod] = match slack_from[rod] {
                        None => Some(at),
                        Some(_) => None,
                    };
                }
                None => return self.solve_without(preloads, movements, slack_from),
            }
        }
        Err(BeamError::Unsettled)
    }

    fn check_preloads(&self, preloads: &[f64]) -> Result<(), BeamError> {
        if preloads.len() != self.springs.len() {
            return Err(BeamError::MovementCount);
        }
        for (spring, (&preload, rod)) in preloads.iter().zip(&self.springs).enumerate() {
            let in_range = (0.0..=1.0e18).contains(&preload);
            if !in_range || (rod.stiffness == 0.0 && preload > 0.0) {
                return Err(BeamError::Preload(spring));
            }
        }
        Ok(())
    }

    /// The next rod to go slack or tight after `share` of the movements, and
    /// at which share it does.
    fn next_change(
        &self,
        preloads: &[f64],
        movements: &[f64],
        slack_from: &[Option<f64>],
        share: f64,
    ) -> Result<Option<(usize, f64)>, BeamError> {
        // Tensions are `start + share * rise`; those of slack rods are what
        // they would be if the nut pushed, never above zero.
        let mut start = self.without(slack_from, preloads);
        start.loads.drain(..self.loads.len());
        let start = start.factor()?.solve(&vec![0.0; movements.len()])?;
        let rise = self
            .without(slack_from, &vec![0.0; movements.len()])
            .factor()?
            .solve(movements)?;

        let sizes = self.springs.iter().zip(movements).zip(preloads);
        let largest = sizes
            .map(|((spring, u), preload)| preload + spring.stiffness * u.abs())
            .chain(self.loads.iter().map(|load| load.force.abs()))
            .fold(0.0, f64::max);

        let mut next: Option<(usize, f64)> = None;
        for (rod, spring) in self.springs.iter().enumerate() {
            if spring.stiffness == 0.0 {
                continue;
            }
            let slack = slack_from[rod].is_some();
            let (at_start, rising) = if slack {
                let (x, k) = (spring.position, spring.stiffness);
                (
                    preloads[rod] + k * start.at(x),
                    k * (rise.at(x) - movements[rod]),
                )
            } else {
                (
                    preloads[rod] - start.spring_forces()[rod],
                    -rise.spring_forces()[rod],
                )
            };
            let towards_change = if slack { rising } else { -rising };
            if towards_change <= NOTHING * largest {
                continue;
            }
            let at = (-at_start / rising).max(share);
            if at < 1.0 && next.is_none_or(|(_, soonest)| at < soonest) {
                next = Some((rod, at));
            }
        }
        Ok(next)
    }

    /// The beam without its slack rods and the preloads that these held.
    fn without(&self, slack_from: &[Option<f64>], preloads: &[f64]) -> Self {
        let mut beam = self.clone();
        for ((spring, slack), preload) in beam.springs.iter_mut().zip(slack_from).zip(preloads) {
            if slack.is_some() {
                spring.stiffness = 0.0;
                beam.loads.push(PointLoad {
                    position: spring.position,
                    force: *preload,
                });
            }
        }
        beam
    }

    fn solve_without(
        &self,
        preloads: &[f64],
        movements: &[f64],
        slack_from: Vec<Option<f64>>,
    ) -> Result<SlackSolution, BeamError> {
        let deflection = self
            .without(&slack_from, preloads)
            .factor()?
            .solve(movements)?;
        let forces = deflection.spring_forces().iter().zip(preloads);
        let tensions = forces
            .zip(&slack_from)
            .map(|((force, preload), slack)| match slack {
                Some(_) => 0.0,
                None => (preload - force).max(0.0),
            })
            .collect();
        Ok(SlackSolution {
            deflection,
            tensions,
            slack_from,
        })
    }
}
