//! The rows of the options: of many candidates, those that nothing beats.

use std::collections::BTreeMap;

use super::candidates::better_first;
use super::effort::Effort;
use super::noise::{DESTINATIONS, RANKING_DRAWS, REFINED_PLANS};
use super::outlook::{Forecast, PredictiveDraws, PredictiveScratch};
use super::ranking::Score;
use super::turns::{LEAVE, Turns, is_outward, prefer, touched};

/// A plan is worth a word beside leaving the nuts alone from so much more
/// chance.
pub const WORTHWHILE: f64 = 0.05;
/// A row has to gain so much chance to stand beside one of fewer nuts, or of
/// outward turns only: less cannot be told in per cent.
const TELLING: f64 = 0.01;
/// Where the best plan has less chance than this, the smallest spread is the
/// way on, and stands among the rows.
const HARDLY_ANY: f64 = 0.05;

/// What a row of the options stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OptionKind {
    /// The nuts stay as they are.
    Leave,
    /// So many nuts are turned, some of them in.
    Nuts(usize),
    /// All turns are outward.
    Outward,
}

/// A row before what follows it is known.
#[derive(Debug, Clone, Copy)]
pub(super) struct Row {
    pub turns: Turns,
    pub forecast: Forecast,
}

impl Row {
    pub fn kind(&self) -> OptionKind {
        match touched(&self.turns) {
            0 => OptionKind::Leave,
            _ if is_outward(&self.turns) => OptionKind::Outward,
            nuts => OptionKind::Nuts(nuts),
        }
    }

    /// Whether a row need not be shown beside this one.
    fn beats(&self, other: &Self) -> bool {
        let (nuts, others) = (touched(&self.turns), touched(&other.turns));
        let (inward, other_inward) = (!is_outward(&self.turns), !is_outward(&other.turns));
        self.turns != other.turns
            && nuts <= others
            && (other_inward || !inward)
            && self.forecast.chance > other.forecast.chance - TELLING
            && (nuts < others || (!inward && other_inward) || self.is_likelier(other))
    }

    fn is_likelier(&self, other: &Self) -> bool {
        let by_chance = self.forecast.chance.total_cmp(&other.forecast.chance);
        by_chance
            .then_with(|| prefer(&other.turns, &self.turns))
            .is_gt()
    }
}

/// The rows found.
pub(super) struct Rows {
    /// Leaving the nuts alone first, then by nuts and chance.
    pub rows: Vec<Row>,
    /// Where no plan has a chance worth the name: the row of the smallest
    /// spread, which is the way on.
    pub way_on: Option<usize>,
    /// The best of all plans, leaving included: where a plan made anew may
    /// lead.
    pub destinations: Vec<Turns>,
}

/// Candidates judged on [`RANKING_DRAWS`], their chances refined on other
/// draws, by quadrature, when asked for.
pub(super) struct Options<'a> {
    outlook: &'a PredictiveDraws,
    scratch: &'a mut PredictiveScratch,
    tolerance_nm: f64,
    arms: usize,
    effort: Effort,
    judged: Vec<(Turns, Score)>,
    refined: BTreeMap<Turns, f64>,
}

impl<'a> Options<'a> {
    pub fn new(
        outlook: &'a PredictiveDraws,
        scratch: &'a mut PredictiveScratch,
        tolerance_nm: f64,
        arms: usize,
        effort: Effort,
        judged: Vec<(Turns, Score)>,
    ) -> Self {
        Self {
            outlook,
            scratch,
            tolerance_nm,
            arms,
            effort,
            judged,
            refined: BTreeMap::new(),
        }
    }

    /// The rows. `may_leave` is false when a nut has to move: leaving then
    /// beats nothing.
    pub fn rows(mut self, may_leave: bool) -> Rows {
        let mut best: Vec<(Turns, Score)> = self.judged.clone();
        best.sort_by(better_first);
        let nearest = best.iter().find(|(turns, _)| *turns != LEAVE);
        let nearest = nearest.map(|(turns, _)| *turns);

        let mut found: Vec<Turns> = Vec::new();
        let mut others: Vec<(Turns, f64)> = Vec::new();
        if may_leave {
            others.push((LEAVE, self.chance(&LEAVE)));
        }
        for nuts in 1..=self.arms {
            for outward in [true, false] {
                // What one of fewer nuts, outward too where these are, has in any
                // case, no plan of the kind need be shown beside it.
                let enough = others
                    .iter()
                    .filter(|(turns, _)| touched(turns) < nuts && (is_outward(turns) || !outward));
                let enough = enough.map(|other| other.1).fold(0.0, f64::max);
                let of_kind =
                    |turns: &Turns| touched(turns) == nuts && is_outward(turns) == outward;
                if let Some(turns) = self.foremost(of_kind, enough) {
                    found.push(turns);
                    others.push((turns, self.chance(&turns)));
                }
            }
        }
        found.extend(nearest.filter(|turns| !found.contains(turns)));
        let mut rows = vec![self.row(LEAVE)];
        rows.extend(found.into_iter().map(|turns| self.row(turns)));

        let most = rows.iter().skip(usize::from(!may_leave));
        let most = most.map(|row| row.forecast.chance).fold(0.0, f64::max);
        let way_on = nearest.filter(|_| most < HARDLY_ANY);
        let shown: Vec<bool> = rows
            .iter()
            .enumerate()
            .map(|(index, row)| {
                let others = rows.iter().skip(usize::from(!may_leave));
                index == 0 || Some(row.turns) == way_on || !{ others }.any(|o| o.beats(row))
            })
            .collect();
        let mut shown = shown.into_iter();
        rows.retain(|_| shown.next().unwrap_or(false));
        rows[1..].sort_by(|a, b| {
            let by_nuts = touched(&a.turns).cmp(&touched(&b.turns));
            by_nuts.then(a.forecast.chance.total_cmp(&b.forecast.chance))
        });
        let way_on = way_on.and_then(|turns| rows.iter().position(|row| row.turns == turns));
        let mut destinations: Vec<Turns> = best.iter().map(|(turns, _)| *turns).collect();
        destinations.truncate(DESTINATIONS);
        Rows {
            rows,
            way_on,
            destinations,
        }
    }

    /// The plan of a kind that is worth most: its chance, by quadrature, less
    /// what its turns take, in pieces; of those that look best by the count. None
    /// where none of these has more chance than `enough`.
    fn foremost(&mut self, of_kind: impl Fn(&Turns) -> bool, enough: f64) -> Option<Turns> {
        let (effort, piece) = (self.effort, self.effort.piece.value());
        let worth = |chance: f64, turns: &Turns| chance - effort.of_turns(turns) / piece;
        let counted = |score: Score| f64::from(score.inside) / RANKING_DRAWS as f64;
        let members = self.judged.iter().filter(|(turns, _)| of_kind(turns));
        let mut members: Vec<(f64, (Turns, Score))> = members
            .map(|judged| (worth(counted(judged.1), &judged.0), *judged))
            .collect();
        members.sort_by(|a, b| b.0.total_cmp(&a.0).then_with(|| better_first(&a.1, &b.1)));
        members.truncate(REFINED_PLANS);
        // No less than the chances, without an integral.
        let at_most: Vec<(f64, Turns)> = members
            .into_iter()
            .map(|(_, (turns, _))| (self.chance_at_most(&turns), turns))
            .collect();
        if at_most.iter().all(|(chance, _)| *chance <= enough) {
            return None;
        }
        let mut best: Option<(f64, Turns)> = None;
        for (at_most, turns) in at_most {
            let least = best.map_or(f64::NEG_INFINITY, |(worth, _)| worth);
            if worth(at_most, &turns) > least {
                let found = worth(self.chance(&turns), &turns);
                if found > least {
                    best = Some((found, turns));
                }
            }
        }
        best.map(|(_, turns)| turns)
    }

    fn chance_at_most(&mut self, turns: &Turns) -> f64 {
        self.outlook
            .next_piece_chance_at_most(turns, self.tolerance_nm, &mut self.scratch.kept)
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

    fn row(&mut self, turns: Turns) -> Row {
        let chance = self.chance(&turns);
        let (median_nm, p90_nm) = self.outlook.spread_limits(&turns, self.scratch);
        Row {
            turns,
            forecast: Forecast {
                median_nm,
                p90_nm,
                chance,
            },
        }
    }
}
