//! The coarse gap: is it even, is it about 1/8 in, and what would mend it.

use crate::press::{ArmIndex, Notches, customary};
use crate::units::{ExactLength, Length, TypedLength};

use crate::session::{Edit, Field, Session};

/// How the mean of the coarse gap stands against the customary 1/8 in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GapLevel {
    /// About that: within [`customary::COARSE_GAP_LEEWAY`].
    About,
    /// Wider.
    Wide,
    /// Narrower.
    Narrow,
}

/// What turning one nut would do for the coarse gap.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NutWould {
    /// The arm.
    pub arm: ArmIndex,
    /// The turn that brings it to its fellows.
    pub turn: Notches,
    /// Whether the nut may stand there.
    pub allowed: bool,
}

/// The coarse gap over the arms that were measured.
///
/// Whole notches are reckoned with the movement of the nut itself
/// ([`crate::press::Press::travel_per_notch`]), since nothing is laced.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CoarseGap {
    /// Mean of the gap.
    pub mean: ExactLength,
    /// Widest minus narrowest.
    pub spread: Length,
    /// The widest arm; the leftmost among equals.
    pub widest: ArmIndex,
    /// The narrowest arm; the leftmost among equals.
    pub narrowest: ArmIndex,
    /// Arms that were not measured.
    pub unread: Vec<ArmIndex>,
    /// Whether the spread is within [`customary::COARSE_GAP_EVEN`].
    pub even: bool,
    /// How the mean stands.
    pub level: GapLevel,
    /// Where it is not even: the turns that bring every arm that stands out to
    /// the one in the middle. An arm stands out when it is more than half of
    /// [`customary::COARSE_GAP_EVEN`] away from it.
    pub nuts: Vec<NutWould>,
    /// Where the mean, once those nuts are turned, is not about 1/8 in: how
    /// far the common handle must move the jaw, opening positive.
    pub handle: Option<Length>,
}

impl Session {
    /// The coarse gap at an arm, where it was measured.
    pub fn coarse_gap_at(&self, arm: ArmIndex) -> Option<&TypedLength> {
        self.checklist.coarse_gap.get(arm.0)?.as_ref()
    }

    /// How the coarse gap stands; none before two arms are measured.
    pub fn coarse_gap(&self) -> Option<CoarseGap> {
        let arms = || (0..self.press.arms.len()).map(ArmIndex);
        let read: Vec<(ArmIndex, Length)> = arms()
            .filter_map(|arm| Some((arm, self.coarse_gap_at(arm)?.length())))
            .collect();
        if read.len() < 2 {
            return None;
        }
        // Of equals, `min_by_key` takes the first and `max_by_key` the last.
        let (narrowest, least) = *read.iter().min_by_key(|(_, gap)| *gap)?;
        let (widest, most) = *read.iter().rev().max_by_key(|(_, gap)| *gap)?;
        let spread = most.minus(least);
        let even = spread <= customary::COARSE_GAP_EVEN;
        let mean = ExactLength::mean(read.iter().map(|(_, gap)| *gap))?;
        let nuts = if even {
            Vec::new()
        } else {
            self.nuts_to_the_middle(&read)
        };
        let turned = |arm| {
            let nut = nuts.iter().find(|nut| nut.arm == arm && nut.allowed);
            nut.map_or(0, |nut| {
                i64::from(nut.turn.0) * self.travel_nm(arm).unwrap_or(0)
            })
        };
        let then = ExactLength::mean(
            read.iter()
                .map(|(arm, gap)| Length::from_nm(gap.nm() + turned(*arm))),
        )?;
        let off = customary::COARSE_GAP.nm() - then.nm_f64().round() as i64;
        Some(CoarseGap {
            mean,
            spread,
            widest,
            narrowest,
            unread: arms()
                .filter(|arm| self.coarse_gap_at(*arm).is_none())
                .collect(),
            even,
            level: level(mean),
            handle: (level(then) != GapLevel::About).then_some(Length::from_nm(off)),
            nuts,
        })
    }

    /// Turns that bring every nut to the arm in the middle of the row from
    /// narrow to wide: a single odd arm is mended by its own nut alone. Of two
    /// in the middle the wider serves, so that nuts rather go out.
    fn nuts_to_the_middle(&self, read: &[(ArmIndex, Length)]) -> Vec<NutWould> {
        let mut gaps: Vec<i64> = read.iter().map(|(_, gap)| gap.nm()).collect();
        gaps.sort_unstable();
        let Some(&middle) = gaps.get(gaps.len() / 2) else {
            return Vec::new();
        };
        read.iter()
            .filter(|(_, gap)| 2 * (gap.nm() - middle).abs() > customary::COARSE_GAP_EVEN.nm())
            .filter_map(|&(arm, gap)| {
                let travel = self.travel_nm(arm)?;
                // The nearest whole notch; half-way goes out.
                let turn = (2 * (middle - gap.nm()) + travel).div_euclid(2 * travel);
                let turn = Notches(i32::try_from(turn).ok()?);
                let position = *self.nuts_now().get(arm.0)? + turn;
                let may_stand = self.press.arms.get(arm.0)?.may_stand();
                Some(NutWould {
                    arm,
                    turn,
                    allowed: may_stand.allow(position),
                })
            })
            .filter(|nut| nut.turn.0 != 0)
            .collect()
    }

    /// The turns that would even the coarse gap, one per arm; those that a
    /// limit forbids are left out.
    pub fn coarse_gap_turns(&self) -> Vec<Notches> {
        let mut turns = vec![Notches(0); self.press.arms.len()];
        let gap = self.coarse_gap();
        for nut in gap.iter().flat_map(|gap| &gap.nuts) {
            if let Some(turn) = turns.get_mut(nut.arm.0).filter(|_| nut.allowed) {
                *turn = nut.turn;
            }
        }
        turns
    }

    /// The change that records turns made for the coarse gap, as one.
    ///
    /// Before the first pass, and before the last one is read, they belong to
    /// where its nuts stand; a piece that was read was laced before them, so
    /// another pass follows it. The gap at a turned arm has to be measured
    /// again: what was measured there goes.
    pub fn coarse_gap_turned(&self, turns: &[Notches]) -> Edit {
        let arms = (0..self.press.arms.len()).map(ArmIndex);
        let turned = arms.zip(turns).filter(|(_, turn)| turn.0 != 0);
        let forget = turned
            .clone()
            .map(|(arm, _)| Edit::set(Field::CoarseGap(arm), "", self.unit));
        let was_read = self.passes.last().is_some_and(|last| last.has_readings());
        let mut edits: Vec<Edit> = if was_read {
            vec![Edit::add_pass(turns.to_vec(), "")]
        } else {
            let pass = self.passes.len().checked_sub(1);
            let nuts = self.nuts_now();
            let stands = |arm: ArmIndex| nuts.get(arm.0).copied().unwrap_or_default();
            turned
                .map(|(arm, turn)| Edit::set_nut(pass, arm, stands(arm) + *turn))
                .collect()
        };
        edits.extend(forget);
        Edit::Together(edits)
    }

    /// Movement of a nut per notch, in nanometres, never below 1.
    fn travel_nm(&self, arm: ArmIndex) -> Option<i64> {
        let arm = self.press.arms.get(arm.0)?;
        Some(self.press.travel_per_notch(arm).nm().max(1))
    }
}

fn level(mean: ExactLength) -> GapLevel {
    let leeway = customary::COARSE_GAP_LEEWAY.into();
    let above = mean.minus(customary::COARSE_GAP.into());
    let below = ExactLength::from(customary::COARSE_GAP).minus(mean);
    if above > leeway {
        GapLevel::Wide
    } else if below > leeway {
        GapLevel::Narrow
    } else {
        GapLevel::About
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::press::{NutLimits, NutPosition};
    use crate::session::tests_visit::*;
    use crate::session::{Edit, Field};
    use crate::units::Unit;

    fn gaps(texts: [&str; 4]) -> Session {
        let mut session = press_of_four();
        for (arm, text) in texts.into_iter().enumerate() {
            let edit = Edit::set(Field::CoarseGap(ArmIndex(arm)), text, Unit::Inch);
            apply(&mut session, edit);
        }
        session
    }

    fn turns(gap: &CoarseGap) -> Vec<(usize, i32)> {
        gap.nuts.iter().map(|nut| (nut.arm.0, nut.turn.0)).collect()
    }

    #[test]
    fn even_and_about_an_eighth_needs_nothing() {
        let gap = gaps(["1/8", "0.127", "0.125", "1/8"]).coarse_gap().unwrap();
        assert!(gap.even);
        assert_eq!(gap.level, GapLevel::About);
        assert_eq!((gap.nuts.len(), gap.handle), (0, None));
        assert_eq!((gap.widest, gap.narrowest), (ArmIndex(1), ArmIndex(0)));
        assert_eq!(gaps(["1/8", "", "", ""]).coarse_gap(), None);
    }

    #[test]
    fn one_odd_arm_is_its_own_nuts_to_mend() {
        // B is narrow by 0.032 in: eight notches of 0.004 in.
        let gap = gaps(["0.125", "0.093", "0.125", "0.125"])
            .coarse_gap()
            .unwrap();
        assert!(!gap.even);
        assert_eq!(gap.spread, Length::from_nm(812_800));
        assert_eq!(turns(&gap), [(1, 8)]);
        assert_eq!(gap.handle, None);
        // Fellows a notch away are not worth a turn at this stage.
        let gap = gaps(["0.125", "0.093", "0.121", "0.129"])
            .coarse_gap()
            .unwrap();
        assert_eq!(turns(&gap), [(1, 8)]);
    }

    #[test]
    fn even_but_wide_is_the_handles_to_mend() {
        let gap = gaps(["0.185", "0.185", "0.185", ""]).coarse_gap().unwrap();
        assert_eq!((gap.even, gap.level), (true, GapLevel::Wide));
        // 0.125 - 0.185 = -0.060 in: the jaw closes.
        assert_eq!(gap.handle, Some(Length::from_nm(-1_524_000)));
        assert_eq!(gap.unread, [ArmIndex(3)]);
    }

    #[test]
    fn the_handle_is_reckoned_after_the_nuts() {
        // One arm far out pulls the mean away; its nut alone mends both.
        let gap = gaps(["0.125", "0.125", "0.125", "0.325"])
            .coarse_gap()
            .unwrap();
        assert_eq!(gap.level, GapLevel::Wide);
        assert_eq!(turns(&gap), [(3, -50)]);
        assert_eq!(gap.handle, None);
    }

    #[test]
    fn turns_made_are_recorded_where_they_belong() {
        let uneven = ["0.125", "0.093", "0.125", "0.125"];
        let mut session = gaps(uneven);
        let turns = session.coarse_gap_turns();
        assert_eq!(turns, [0, 8, 0, 0].map(Notches));
        // Before the first pass: where the nuts start.
        let edit = session.coarse_gap_turned(&turns);
        apply(&mut session, edit);
        assert_eq!(session.start_nuts, [0, 8, 0, 0].map(NutPosition));
        assert_eq!(session.coarse_gap_at(ArmIndex(1)), None, "measure again");
        assert!(session.coarse_gap_at(ArmIndex(0)).is_some());
        assert_eq!(session.coarse_gap_turns(), [0; 4].map(Notches));
        // On a pass that is not read yet: where its nuts stand.
        lace(&mut session, &[1, 0, 0, 0]);
        let edit = session.coarse_gap_turned(&[0, 0, -2, 0].map(Notches));
        apply(&mut session, edit);
        assert_eq!(session.passes.len(), 1);
        assert_eq!(session.nuts_now(), [1, 8, -2, 0].map(NutPosition));
        assert_eq!(session.start_nuts, [0, 8, 0, 0].map(NutPosition));
        // A piece that was read was laced before them.
        read(&mut session, ["0.2500", "0.2450", "0.2505", "0.2525"]);
        let edit = session.coarse_gap_turned(&[0, 0, 2, 0].map(Notches));
        apply(&mut session, edit);
        assert_eq!(session.passes.len(), 2);
        assert_eq!(session.nuts_at(0), [1, 8, -2, 0].map(NutPosition));
        assert_eq!(session.nuts_now(), [1, 8, 0, 0].map(NutPosition));
    }

    #[test]
    fn a_nut_keeps_to_its_limits() {
        let mut session = gaps(["0.125", "0.093", "0.125", "0.125"]);
        let limits = Some(NutLimits {
            most_in: NutPosition(-12),
            most_out: NutPosition(4),
        });
        apply(&mut session, Edit::SetLimits { arm: None, limits });
        let gap = session.coarse_gap().unwrap();
        assert_eq!(turns(&gap), [(1, 8)]);
        assert!(!gap.nuts[0].allowed);
        assert_eq!(session.coarse_gap_turns(), [0; 4].map(Notches));
    }
}
