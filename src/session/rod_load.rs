//! How the rods would share the lacing force after turns, and which would go
//! slack.
//!
//! What a press's rods carry is measured nowhere in the shop, so this is a
//! reckoning for comparison and no measurement: the splice presses evenly along
//! the jaw as the nuts stand now, and the rods are then stretched by a given
//! length in the mean. The turns are laid on top by the beam that hangs on rods
//! which only pull ([`Beam::hang`]).

use crate::plan::{KAPPA_BOUNDS, MOST_RHO, Stiffness};
use crate::press::beam::{Beam, BeamError, SlackSolution};
use crate::press::{ArmIndex, Notches};

use super::Session;

/// Mean stretch of the rods under the lacing force, in notches of nut travel,
/// where nobody says otherwise. Assumed, no source: a steel rod of 24 mm and
/// 400 mm long under 50 kN stretches by 0.22 mm, a little over two notches of
/// 0.004 in.
pub const ASSUMED_STRETCH: f64 = 2.0;

/// Most stretch that is reckoned with, in notches.
const MOST_STRETCH: f64 = 1.0e4;

/// Places along the jaw at which the even pressing is laid on.
const PRESSING: usize = 64;

/// A nut that turns no further than this without its rod going slack, as the
/// other nuts are turned with it: further out it does nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SlackStop {
    /// The arm.
    pub arm: ArmIndex,
    /// Whole notches out that it may be turned at most.
    pub most: Notches,
}

/// How the rods share the load.
#[derive(Debug, Clone, PartialEq)]
pub struct RodLoads {
    /// Share of the whole load on each arm's rod, adding up to 1; all zero where
    /// no rod carries anything.
    pub shares: Vec<f64>,
    /// Rods that carry nothing: turning their nuts further out does nothing.
    pub slack: Vec<ArmIndex>,
}

/// The jaw on its rods after turns.
#[derive(Debug, Clone)]
pub struct JawOnRods {
    slack_solution: SlackSolution,
    spacing_nm: f64,
}

impl JawOnRods {
    /// How far the jaw opens at a place along it, in nanometres, against where
    /// it stood before the turns.
    pub fn opens_nm(&self, at_nm: f64) -> f64 {
        self.slack_solution.deflection.at(at_nm / self.spacing_nm)
    }

    /// How the rods share the load.
    pub fn loads(&self) -> RodLoads {
        let slack_solution = &self.slack_solution;
        let carried: f64 = slack_solution.tensions.iter().sum();
        let share = |tension: &f64| {
            if carried > 0.0 {
                tension / carried
            } else {
                0.0
            }
        };
        RodLoads {
            shares: slack_solution.tensions.iter().map(share).collect(),
            slack: (0..)
                .map(ArmIndex)
                .zip(&slack_solution.slack_from)
                .filter(|(_, slack)| slack.is_some())
                .map(|(arm, _)| arm)
                .collect(),
        }
    }
}

impl Session {
    /// The jaw on its rods after `turns` in notches, parts of them too (missing
    /// ones count as zero), pressed on the splice, the rods
    /// stretched by `stretch` notches in the mean; see
    /// [`rod_loads`](Self::rod_loads).
    ///
    /// # Errors
    /// What the beam refused; so many slack rods that nothing holds the jaw.
    pub fn jaw_on_rods(&self, turns: &[f64], stretch: f64) -> Result<JawOnRods, BeamError> {
        self.on_rods(turns, stretch, MOST_RHO / 2.0)
    }

    /// The open jaw after such `turns`, nothing pressing on it, as if no rod could
    /// go slack.
    ///
    /// # Errors
    /// What the beam refused.
    pub fn jaw_unloaded(&self, turns: &[f64]) -> Result<JawOnRods, BeamError> {
        self.on_rods(turns, MOST_STRETCH, 0.0)
    }

    /// How the rods would share the load after `turns` (missing ones count as
    /// zero), were they stretched by `stretch` notches in the mean now.
    ///
    /// The jaw's stiffness is that of its section and rods where they are known,
    /// else the middle of what is believed of any press (the geometric mean of
    /// kappa, the mean of rho). A stretch that is no positive number is taken as
    /// [`ASSUMED_STRETCH`].
    ///
    /// # Errors
    /// What the beam refused; so many slack rods that nothing holds the jaw.
    pub fn rod_loads(&self, turns: &[Notches], stretch: f64) -> Result<RodLoads, BeamError> {
        Ok(self.jaw_on_rods(&notches(turns), stretch)?.loads())
    }

    /// The nuts that these turns let out so far that their rods would be slack,
    /// the rods stretched as assumed ([`ASSUMED_STRETCH`]): up to where each
    /// turns with its rod tight while all turn alike. None where it cannot be
    /// reckoned.
    pub fn slack_stops(&self, turns: &[Notches]) -> Vec<SlackStop> {
        let jaw = self.jaw_on_rods(&notches(turns), ASSUMED_STRETCH);
        let Ok(JawOnRods { slack_solution, .. }) = jaw else {
            return Vec::new();
        };
        let arms = (0..)
            .map(ArmIndex)
            .zip(turns.iter().zip(&slack_solution.slack_from));
        arms.filter_map(|(arm, (turn, slack_from))| {
            let most = ((*slack_from)? * f64::from(turn.0)).floor() as i32;
            (turn.0 > most).then_some(SlackStop {
                arm,
                most: Notches(most),
            })
        })
        .collect()
    }

    /// kappa, the stiffness of a rod against the jaw's, by section and rods;
    /// `None` where they are not known or say nothing.
    pub(super) fn known_kappa(&self) -> Option<f64> {
        match self.jaw_and_rods.as_ref()?.stiffness(&self.press).ok()? {
            Stiffness::About { kappa, .. } => Some(kappa),
            Stiffness::Unknown => None,
        }
    }

    fn on_rods(
        &self,
        turns: &[f64],
        stretch: f64,
        foundation: f64,
    ) -> Result<JawOnRods, BeamError> {
        let positions = self.press.arm_positions_nm();
        let arms = positions.len();
        let jaw = self.press.jaw_length.length().nm_f64();
        let spacing = self.press.arm_spacing_nm().unwrap_or(jaw);
        let (low, high) = KAPPA_BOUNDS;
        let kappa = self.known_kappa().unwrap_or((low * high).sqrt());
        // Lengths in units of the arms' distance and rods of stiffness 1: only
        // ratios matter.
        let length = jaw / spacing;
        let springs = positions.iter().map(|at| (at / spacing, 1.0));
        let beam = Beam::uniform(0.0, length, 1.0 / kappa).on_springs(springs);

        let mut pressed = beam.clone();
        for place in 0..PRESSING {
            let at = length * (place as f64 + 0.5) / PRESSING as f64;
            pressed = pressed.loaded(at, 1.0);
        }
        let even = pressed.factor()?.solve(&vec![0.0; arms])?;
        // The load pushes the jaw away; the rods pull it back.
        let pulls: Vec<f64> = even.spring_forces().iter().map(|f| (-f).max(0.0)).collect();
        let all: f64 = pulls.iter().sum();

        let travels = self.press.arms.iter();
        let travels: Vec<f64> = travels
            .map(|arm| self.press.travel_per_notch(arm).nm_f64())
            .collect();
        let mean_travel = travels.iter().sum::<f64>() / arms.max(1) as f64;
        let stretch = if stretch > 0.0 && stretch <= MOST_STRETCH {
            stretch
        } else {
            ASSUMED_STRETCH
        };
        let preloads: Vec<f64> = pulls
            .iter()
            .map(|pull| pull / all * stretch * mean_travel * arms as f64)
            .collect();
        let movements: Vec<f64> = turns
            .iter()
            .copied()
            .chain(std::iter::repeat(0.0))
            .zip(&travels)
            .map(|(turn, travel)| turn * travel)
            .collect();
        let slack_solution = beam
            .on_foundation(foundation)
            .solve_slack(&preloads, &movements)?;
        Ok(JawOnRods {
            slack_solution,
            spacing_nm: spacing,
        })
    }
}

fn notches(turns: &[Notches]) -> Vec<f64> {
    turns.iter().map(|turn| f64::from(turn.0)).collect()
}

#[cfg(test)]
mod tests {
    use super::super::tests_visit::*;
    use super::*;

    fn loads(turns: &[i32], stretch: f64) -> RodLoads {
        let turns: Vec<Notches> = turns.iter().copied().map(Notches).collect();
        press_of_four().rod_loads(&turns, stretch).unwrap()
    }

    #[test]
    fn left_alone_the_rods_share_as_they_stand() {
        let even = loads(&[], 2.0);
        assert!(even.slack.is_empty());
        assert!((even.shares.iter().sum::<f64>() - 1.0).abs() < 1e-12);
        // Arms at 6, 18, 30, 42 of 48: alike from both ends, and each with its
        // quarter of the jaw, but for the beam that carries on.
        assert!((even.shares[0] - even.shares[3]).abs() < 1e-9);
        assert!((even.shares[1] - even.shares[2]).abs() < 1e-9);
        assert!(
            even.shares.iter().all(|share| (share - 0.25).abs() < 0.03),
            "{even:?}"
        );
    }

    #[test]
    fn a_nut_let_out_unloads_its_rod_until_it_is_slack() {
        let even = loads(&[], 2.0);
        let mut before = even.shares[1];
        for out in 1..4 {
            let turned = loads(&[0, out], 2.0);
            assert!(turned.shares[1] < before, "{turned:?}");
            assert!(turned.shares[0] > even.shares[0]);
            assert!((turned.shares.iter().sum::<f64>() - 1.0).abs() < 1e-12);
            before = turned.shares[1];
        }
        let far = loads(&[0, 30], 2.0);
        assert_eq!(far.slack, [ArmIndex(1)]);
        assert_eq!(far.shares[1], 0.0);
        // Beyond that nothing changes.
        let farther = loads(&[0, 60], 2.0);
        for (far, farther) in far.shares.iter().zip(&farther.shares) {
            assert!((far - farther).abs() < 1e-9);
        }
        // Nuts of which no turn is told stand still.
        assert_eq!(loads(&[0, 2], 2.0), loads(&[0, 2, 0, 0], 2.0));
        // Rods stretched further bear more.
        assert!(loads(&[0, 30], 200.0).slack.is_empty());
    }

    #[test]
    fn a_nut_stops_where_its_rod_goes_slack() {
        let turns = |turns: &[i32]| turns.iter().copied().map(Notches).collect::<Vec<_>>();
        let session = press_of_four();
        let far = session.slack_stops(&turns(&[0, 12]));
        let [stop] = far[..] else { panic!("{far:?}") };
        assert_eq!(stop.arm, ArmIndex(1));
        // Tight at the stop, slack a notch further, wherever it was sought from.
        let most = stop.most.0;
        assert!((1..12).contains(&most), "{most}");
        assert!(loads(&[0, most], ASSUMED_STRETCH).slack.is_empty());
        assert_eq!(loads(&[0, most + 1], ASSUMED_STRETCH).slack, [ArmIndex(1)]);
        assert_eq!(session.slack_stops(&turns(&[0, most + 1])), far);
        assert!(session.slack_stops(&turns(&[0, most])).is_empty());
        // Turned in, no rod goes slack at its own nut.
        assert!(
            session
                .slack_stops(&turns(&[0, -12]))
                .iter()
                .all(|stop| stop.arm.0 != 1)
        );
    }

    #[test]
    fn no_stretch_is_too_odd() {
        let assumed = loads(&[1, 0, -1], ASSUMED_STRETCH);
        for odd in [f64::NAN, f64::INFINITY, 0.0, -3.0] {
            assert_eq!(loads(&[1, 0, -1], odd), assumed);
        }
    }
}
