//! The rows of the options: of many candidates, the few worth showing.

use std::collections::BTreeMap;

use super::candidates::Score;
use super::noise::{RANKING_DRAWS, REFINED_PLANS};
use super::outlook::{Forecast, Outlook, OutlookScratch, Turns};
use super::search::MOST_ARMS;

/// Chances that differ by no more count as alike.
pub const ALIKE: f64 = 0.03;
/// A plan must gain so much chance over leaving the nuts alone.
pub const WORTHWHILE: f64 = 0.05;
/// Where even leaving has less than an even chance, a plan is worthwhile too
/// when it takes so large a share of the tolerance off the median spread.
const WORTHWHILE_SPREAD: f64 = 0.25;

/// What a row of the options stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OptionKind {
    /// The nuts stay as they are.
    Leave,
    /// The best that touches so many nuts.
    Nuts(usize),
    /// The best that turns outward only.
    Outward,
    /// The smallest expected spread.
    Smallest,
}

/// A row before its number of test pieces is known.
#[derive(Debug, Clone, Copy)]
pub(super) struct Row {
    pub kind: OptionKind,
    pub turns: Turns,
    pub forecast: Forecast,
}

pub(super) const LEAVE: Turns = [0; MOST_ARMS];

pub(super) fn touched(turns: &Turns) -> usize {
    turns.iter().filter(|k| **k != 0).count()
}

/// Preference among plans of like chance, smaller first: fewest nuts, least
/// difference between the turns of neighbours (a jaw should not be bent
/// zigzag), fewest notches, outward; then the turns themselves, so that no two
/// are equal.
fn preference(turns: &Turns, arms: usize) -> (usize, u64, u64, i64, Turns) {
    let used = &turns[..arms];
    let zigzag = used
        .windows(2)
        .map(|pair| u64::from(pair[0].abs_diff(pair[1])));
    let notches = used.iter().map(|k| u64::from(k.unsigned_abs()));
    let inward = used.iter().map(|k| -i64::from(*k));
    (
        touched(turns),
        zigzag.sum(),
        notches.sum(),
        inward.sum(),
        *turns,
    )
}

/// Candidates judged on [`RANKING_DRAWS`], their chances refined on other
/// draws, by quadrature, when asked for.
pub(super) struct Options<'a> {
    outlook: &'a Outlook,
    scratch: &'a mut OutlookScratch,
    tolerance_nm: f64,
    arms: usize,
    judged: Vec<(Turns, Score)>,
    refined: BTreeMap<Turns, f64>,
}

impl<'a> Options<'a> {
    pub fn new(
        outlook: &'a Outlook,
        scratch: &'a mut OutlookScratch,
        tolerance_nm: f64,
        arms: usize,
        judged: Vec<(Turns, Score)>,
    ) -> Self {
        Self {
            outlook,
            scratch,
            tolerance_nm,
            arms,
            judged,
            refined: BTreeMap::new(),
        }
    }

    /// All rows, leaving the nuts alone first, and the index of the
    /// recommended one. `may_leave` is false when a nut has to move.
    pub fn rows(mut self, may_leave: bool) -> (Vec<Row>, usize) {
        let chosen = self.preferred();
        let mut rows = vec![self.row(OptionKind::Leave, LEAVE)];
        for nuts in 1..=self.arms {
            let turns = match chosen {
                Some(turns) if touched(&turns) == nuts => Some(turns),
                _ => self.best_of(|turns| touched(turns) == nuts),
            };
            rows.extend(turns.map(|turns| self.row(OptionKind::Nuts(nuts), turns)));
        }
        let is_outward = |turns: &Turns| turns.iter().all(|k| *k >= 0);
        let outward = match chosen {
            Some(turns) if is_outward(&turns) => Some(turns),
            _ => self.best_of(is_outward),
        };
        rows.extend(outward.map(|turns| self.row(OptionKind::Outward, turns)));
        let smallest = self
            .plans()
            .min_by(|a, b| a.1.spread_nm.total_cmp(&b.1.spread_nm).then(a.0.cmp(&b.0)));
        if let Some(turns) = smallest.map(|(turns, _)| *turns) {
            rows.push(self.row(OptionKind::Smallest, turns));
        }
        let recommended = chosen
            .and_then(|turns| rows.iter().position(|row| row.turns == turns))
            .filter(|index| !may_leave || self.is_worthwhile(&rows[0], &rows[*index]))
            .unwrap_or(0);
        (rows, recommended)
    }

    /// Plans other than leaving, with their scores.
    fn plans(&self) -> impl Iterator<Item = &(Turns, Score)> {
        self.judged.iter().filter(|(turns, _)| *turns != LEAVE)
    }

    /// Refines the best dozen and takes the preferred among those alike to the
    /// best of them.
    fn preferred(&mut self) -> Option<Turns> {
        let mut plans: Vec<(Turns, Score)> = self.plans().copied().collect();
        plans.sort_by(|a, b| a.1.order(b.1).then(a.0.cmp(&b.0)));
        let (best, score) = *plans.first()?;
        if score.inside == 0 {
            // No chance anywhere: the smallest spread is the way on.
            return Some(best);
        }
        // Counts that the quadrature may still bring within reach of the best.
        let near = (2.0 * ALIKE * RANKING_DRAWS as f64) as u32;
        plans.retain(|(_, s)| s.inside + near >= score.inside);
        let half = REFINED_PLANS.div_ceil(2).min(plans.len());
        let (by_score, rest) = plans.split_at_mut(half);
        rest.sort_by_key(|(turns, _)| preference(turns, self.arms));
        let dozen: Vec<Turns> = by_score
            .iter()
            .chain(rest.iter())
            .take(REFINED_PLANS)
            .map(|(turns, _)| *turns)
            .collect();
        let chances: Vec<f64> = dozen.iter().map(|turns| self.chance(turns)).collect();
        let most = chances.iter().copied().fold(0.0, f64::max);
        // A plan of 1 % is not like one of 3 %: a small chance counts as alike
        // to another within a tenth of it.
        let alike = most - ALIKE.min(0.1 * most);
        dozen
            .into_iter()
            .zip(chances)
            .filter(|(_, chance)| *chance >= alike)
            .map(|(turns, _)| turns)
            .min_by_key(|turns| preference(turns, self.arms))
    }

    /// The best plan of a kind: the largest chance among its refined members
    /// and its best by score.
    fn best_of(&mut self, belongs: impl Fn(&Turns) -> bool) -> Option<Turns> {
        let members = self.plans().filter(|(turns, _)| belongs(turns));
        let (mut best, _) = *members.reduce(|a, b| if b.1.beats(a.1) { b } else { a })?;
        let mut most = self.chance(&best);
        for (turns, chance) in &self.refined {
            if *chance > most && *turns != LEAVE && belongs(turns) {
                (best, most) = (*turns, *chance);
            }
        }
        Some(best)
    }

    fn chance(&mut self, turns: &Turns) -> f64 {
        if let Some(chance) = self.refined.get(turns) {
            return *chance;
        }
        let chance = self
            .outlook
            .next_piece_chance(turns, self.tolerance_nm, self.scratch);
        self.refined.insert(*turns, chance);
        chance
    }

    fn row(&mut self, kind: OptionKind, turns: Turns) -> Row {
        let chance = self.chance(&turns);
        let (median_nm, ninety_nm) = self.outlook.spread_limits(&turns, self.scratch);
        Row {
            kind,
            turns,
            forecast: Forecast {
                median_nm,
                ninety_nm,
                chance,
            },
        }
    }

    fn is_worthwhile(&self, leave: &Row, plan: &Row) -> bool {
        let (leave, plan) = (leave.forecast, plan.forecast);
        let closer = leave.median_nm - plan.median_nm;
        plan.chance >= leave.chance + WORTHWHILE
            || (leave.chance < 0.5
                && plan.chance >= leave.chance
                && closer > WORTHWHILE_SPREAD * self.tolerance_nm)
    }
}
