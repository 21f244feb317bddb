//! A press to show things on: where its jaw, splice, rods and opening stand
//! with the nuts anywhere. Figures come from the jaw as a beam on rods that
//! only pull ([`Session::jaw_on_rods`]) and from the opening rule.

use crate::press::ArmIndex;
use crate::press::beam::BeamError;
use crate::session::{ASSUMED_STRETCH, Session};

/// Opening that is left at every arm of a true press before the hook retainer
/// sticks, in notches of nut travel, where none was measured. Assumed (common
/// practice, no source).
pub const ASSUMED_MARGIN: f64 = 4.5;
/// With less than so many notches of nut travel left, the retainer drags.
/// Assumed (common practice, no source).
pub const DRAGS_BELOW: f64 = 1.0;
/// Farthest a nut can be turned here, either way, in notches.
pub const FARTHEST: i32 = 12;

/// How the hook retainer comes out at an arm.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Retainer {
    /// It slides out.
    Slides,
    /// It drags.
    Drags,
    /// It sticks.
    Sticks,
}

/// Below which share of an even load a rod is called nearly slack. Assumed
/// (common practice, no source).
const NEARLY_SLACK: f64 = 0.4;

/// How a rod carries.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Carries {
    /// Its part of the load.
    Load,
    /// So little that a little further out it is slack.
    Hardly,
    /// Nothing: it is slack.
    Nothing,
}

/// A press that starts out true, but for nuts that stand wrong.
#[derive(Debug, Clone)]
pub struct ShownPress {
    session: Session,
    /// How far each nut stands wrong at position zero, in notches; none on a
    /// true press.
    wrong: Vec<f64>,
    /// Mean change of the splice by that, which says nothing.
    level_nm: f64,
}

/// How everything stands with the nuts at some positions. Lengths in
/// nanometres, against the true press: thicker, and more open, is positive.
#[derive(Debug, Clone, PartialEq)]
pub struct PressState {
    /// Nut positions, in notches.
    pub nuts: Vec<i32>,
    /// Where the arms stand along the jaw.
    pub arms_nm: Vec<f64>,
    /// Length of the jaw.
    pub jaw_nm: f64,
    /// Change of the splice's thickness at each arm.
    pub splice_nm: Vec<f64>,
    /// The same all along the jaw, from end to end, evenly spaced.
    pub along_nm: Vec<f64>,
    /// Share of the squeeze that each rod takes; together 1.
    pub rod_shares: Vec<f64>,
    /// Rods that carry nothing.
    pub slack: Vec<ArmIndex>,
    /// Opening left at each arm before the retainer sticks; below zero it does.
    pub opening_nm: Vec<f64>,
    /// How the retainer comes out at each arm.
    pub retainer: Vec<Retainer>,
}

/// Places along the jaw at which the curve is worked out.
const PLACES: usize = 65;

impl ShownPress {
    /// The press of a session, taken as true as its nuts stand.
    pub fn new(session: &Session) -> Self {
        let mut session = session.clone();
        session.passes.clear();
        let thread = &mut session.press.left_hand_thread;
        thread.get_or_insert_default();
        Self {
            session,
            wrong: Vec::new(),
            level_nm: 0.0,
        }
    }

    /// The same press with nuts that stand wrong by so many notches.
    ///
    /// # Errors
    /// What the beam refused.
    pub(super) fn with_nuts_wrong(mut self, wrong: Vec<f64>) -> Result<Self, BeamError> {
        self.wrong = wrong;
        self.level_nm = 0.0;
        let splice_nm = self.stands(&[])?.splice_nm;
        self.level_nm = splice_nm.iter().sum::<f64>() / splice_nm.len().max(1) as f64;
        Ok(self)
    }

    /// The same press with no nut that stands wrong.
    pub(super) fn as_true(&self) -> Self {
        Self::new(&self.session)
    }

    /// The session it was made from, without its passes.
    pub fn session(&self) -> &Session {
        &self.session
    }

    /// Number of arms.
    pub fn arms(&self) -> usize {
        self.session.press.arms.len()
    }

    /// Movement of each nut by a notch, in nanometres.
    pub fn travel_nm(&self) -> Vec<f64> {
        let press = &self.session.press;
        let travel = press.arms.iter().map(|arm| press.travel_per_notch(arm));
        travel.map(|travel| travel.nm_f64()).collect()
    }

    /// Opening left at each arm with the nuts as they start.
    fn margins_nm(&self) -> Vec<f64> {
        let arms = self.session.press.arms.iter().zip(self.travel_nm());
        arms.map(|(arm, travel)| match &arm.opening_margin {
            Some(margin) => margin.length().nm_f64(),
            None => ASSUMED_MARGIN * travel,
        })
        .collect()
    }

    /// How everything stands with the nuts at these positions; missing ones
    /// count as zero.
    ///
    /// # Errors
    /// What the beam refused; so many slack rods that nothing holds the jaw.
    pub fn stands(&self, nuts: &[i32]) -> Result<PressState, BeamError> {
        let press = &self.session.press;
        let mut nuts = nuts.to_vec();
        nuts.resize(self.arms(), 0);
        let wrong = self.wrong.iter().chain(std::iter::repeat(&0.0));
        let turns = nuts.iter().zip(wrong);
        let turns: Vec<f64> = turns.map(|(nut, wrong)| f64::from(*nut) + wrong).collect();
        let pressed = self.session.jaw_on_rods(&turns, ASSUMED_STRETCH)?;
        let open = self.session.jaw_unloaded(&turns)?;
        let arms_nm = press.arm_positions_nm();
        let jaw_nm = press.jaw_length.length().nm_f64();
        let travels = self.travel_nm();
        let place = |index: usize| jaw_nm * index as f64 / (PLACES - 1) as f64;
        let opening_nm: Vec<f64> = self
            .margins_nm()
            .iter()
            .zip(&travels)
            .zip(turns.iter().zip(&arms_nm))
            .map(|((margin, travel), (turn, at))| {
                // The opening loses the nut's whole movement at its own arm,
                // and beside it what the open jaw is drawn along.
                let own = turn.min(0.0) * travel;
                margin + own.min(open.opens_nm(*at))
            })
            .collect();
        let retainer = opening_nm.iter().zip(&travels);
        let retainer = retainer.map(|(left, travel)| match left / travel {
            sticks if sticks < 0.0 => Retainer::Sticks,
            drags if drags < DRAGS_BELOW => Retainer::Drags,
            _ => Retainer::Slides,
        });
        let loads = pressed.loads();
        let thicker = |at: f64| pressed.opens_nm(at) - self.level_nm;
        Ok(PressState {
            splice_nm: arms_nm.iter().map(|at| thicker(*at)).collect(),
            along_nm: (0..PLACES).map(|index| thicker(place(index))).collect(),
            rod_shares: loads.shares,
            slack: loads.slack,
            retainer: retainer.collect(),
            opening_nm,
            nuts,
            arms_nm,
            jaw_nm,
        })
    }

    /// The fewest notches one way at one arm, in negative, from which something
    /// holds, up to [`FARTHEST`].
    ///
    /// # Errors
    /// See [`stands`](Self::stands).
    pub(super) fn first(
        &self,
        arm: ArmIndex,
        way: i32,
        holds: impl Fn(&PressState) -> bool,
    ) -> Result<Option<i32>, BeamError> {
        for notches in 1..=FARTHEST {
            if holds(&self.stands(&self.only(arm, way * notches))?) {
                return Ok(Some(notches));
            }
        }
        Ok(None)
    }

    /// All nuts at zero but one.
    pub fn only(&self, arm: ArmIndex, notches: i32) -> Vec<i32> {
        let mut nuts = vec![0; self.arms()];
        if let Some(nut) = nuts.get_mut(arm.0) {
            *nut = notches;
        }
        nuts
    }

    /// Tolerance on the spread, in nanometres.
    pub fn tolerance_nm(&self) -> f64 {
        self.session.tolerance.length().nm_f64()
    }
}

impl PressState {
    /// Largest change of the splice at an arm less the smallest.
    pub fn spread_nm(&self) -> f64 {
        super::simulated::spread_nm(&self.splice_nm)
    }

    /// How each rod carries, by the whole percents of its share that are shown.
    pub fn carries(&self) -> Vec<Carries> {
        let even = 1.0 / self.rod_shares.len().max(1) as f64;
        let percents = |share: f64| (100.0 * share).round();
        let of = |share: &f64| match *share {
            nothing if nothing <= 0.0 => Carries::Nothing,
            little if percents(little) <= percents(NEARLY_SLACK * even) => Carries::Hardly,
            _ => Carries::Load,
        };
        self.rod_shares.iter().map(of).collect()
    }
}
