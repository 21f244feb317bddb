//! What is worth saying about a plan beside its turns: one list, for whoever
//! shows it.

use crate::plan::{Finding, POOR, Remainder};
use crate::press::{ArmIndex, Notches};

use super::{Advice, CommonTurn, Reach, Session, SlackStop};

/// Predictions that missed by more than this multiple of the variance are
/// spoken of.
const WORTH_A_WORD: f64 = 1.5;

/// Something worth saying about a plan, cautions first.
#[derive(Debug, Clone, PartialEq)]
pub enum Remark {
    /// Something in the passes is to be asked about.
    Finding(Finding),
    /// A nut without known limits would be turned.
    LimitsUnknown,
    /// The turns will more likely than not take another piece; their chance.
    LikelyMisses(f64),
    /// Nuts stand outside their limits as they are.
    OutsideLimits(Vec<ArmIndex>),
    /// Nuts are left because nothing was read there.
    Held(Vec<ArmIndex>),
    /// The search for the smallest spread was cut short.
    Unproven,
    /// No whole notches do better than the nuts as they stand.
    AsGoodAsItGets,
    /// No whole notches reach the tolerance; the smallest spread they do reach,
    /// in nanometres.
    OutOfReach(f64),
    /// What even turns that need not be whole leave.
    Left(Remainder),
    /// A rod would be slack further out; whether the plans are held to it.
    Slack(SlackStop, bool),
    /// Predictions of this press missed more than they should.
    MissedMore,
    /// What whole notches always reach.
    Reach(Reach),
    /// A turn of all nuts gives back travel.
    CommonTurn(CommonTurn),
}

impl Remark {
    /// Whether it is a caution and not only of interest.
    pub fn is_caution(&self) -> bool {
        matches!(
            self,
            Self::Finding(_)
                | Self::LimitsUnknown
                | Self::LikelyMisses(_)
                | Self::OutsideLimits(_)
                | Self::CommonTurn(_)
        )
    }
}

impl Advice {
    /// What is worth saying when these turns are looked at, with what
    /// [`findings`](Self::findings) found.
    pub fn remarks(
        &self,
        session: &Session,
        turns: &[Notches],
        findings: &[Finding],
    ) -> Vec<Remark> {
        let some = |arms: &Vec<ArmIndex>| (!arms.is_empty()).then(|| arms.clone());
        let unlimited = session.press.arms.iter().any(|arm| arm.limits.is_none());
        let turned = turns.iter().any(|turn| turn.0 != 0);
        let options = self.choice.options.iter();
        let chance = options
            .filter(|option| {
                turns
                    .iter()
                    .map(|turn| turn.0)
                    .eq(option.turns.iter().copied())
            })
            .map(|option| option.forecast.chance)
            .next();
        let misses = chance.filter(|chance| turned && !self.accepted && *chance < POOR);
        let as_good = !self.accepted && self.choice.as_good_as_it_gets;
        let missed_more = self.widening() > WORTH_A_WORD;
        let out_of_reach = self.out_of_reach_nm.filter(|_| self.proven);
        let stops = self.slack_stops(session).into_iter();
        let remarks = findings.iter().copied().map(Remark::Finding);
        remarks
            .chain((unlimited && turned).then_some(Remark::LimitsUnknown))
            .chain(misses.map(Remark::LikelyMisses))
            .chain(some(&self.outside_limits).map(Remark::OutsideLimits))
            .chain(some(&self.held).map(Remark::Held))
            .chain((!self.proven).then_some(Remark::Unproven))
            .chain(as_good.then_some(Remark::AsGoodAsItGets))
            .chain(out_of_reach.map(Remark::OutOfReach))
            .chain(self.remainder.clone().map(Remark::Left))
            .chain(stops.map(|stop| Remark::Slack(stop, self.held_by_slack)))
            .chain(missed_more.then_some(Remark::MissedMore))
            .chain(self.reach.map(Remark::Reach))
            .chain(self.common_turn.clone().map(Remark::CommonTurn))
            .collect()
    }
}
