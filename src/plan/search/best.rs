//! The best turns so far, and what makes turns better than others.

use std::cmp::Ordering;

use super::{EQUAL_SPREAD_NM, MOST_ARMS, SearchProblem, TurnBounds};

/// A change of every nut; unused places are zero.
pub(super) type Turns = [i32; MOST_ARMS];

/// Checks and measures whole turns on the problem's own figures.
#[derive(Debug, Clone, Copy)]
pub(super) struct Judge<'a> {
    pub problem: &'a SearchProblem<'a>,
    pub bounds: &'a [TurnBounds],
    /// Spreads this close are equal, in nanometres.
    pub equal_nm: f64,
    base_nm: f64,
}

impl<'a> Judge<'a> {
    pub fn new(problem: &'a SearchProblem<'a>, bounds: &'a [TurnBounds]) -> Self {
        let response = problem.response;
        let thickness = problem.thickness_nm.iter().copied();
        let base_nm = thickness.clone().fold(f64::INFINITY, f64::min);
        let top_nm = thickness.fold(f64::NEG_INFINITY, f64::max);
        let reach = (0..response.stations())
            .map(|s| {
                let row = response.row(s).iter().zip(bounds);
                row.map(|(b, k)| b.abs() * f64::from(k.least.abs().max(k.most.abs())))
                    .sum()
            })
            .fold(0.0, f64::max);
        Self {
            problem,
            bounds,
            equal_nm: EQUAL_SPREAD_NM.max(1e-13 * (top_nm - base_nm + reach)),
            base_nm,
        }
    }

    /// Whether all limits hold.
    pub fn permits(&self, turns: &Turns) -> bool {
        let nuts = turns.iter().filter(|k| **k != 0).count();
        let in_bounds = |(k, b): (&i32, &TurnBounds)| (b.least..=b.most).contains(k);
        self.problem.most_nuts.is_none_or(|most| nuts <= most)
            && turns.iter().zip(self.bounds).all(in_bounds)
    }

    /// The spread, in nanometres.
    pub fn spread_nm(&self, turns: &Turns) -> f64 {
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        for (s, t) in self.problem.thickness_nm.iter().enumerate() {
            let row = self.problem.response.row(s).iter().zip(turns);
            let change: f64 = row.map(|(b, k)| b * f64::from(*k)).sum();
            let after = (t - self.base_nm) + change;
            low = low.min(after);
            high = high.max(after);
        }
        high - low
    }
}

/// Nuts touched, notches in total, and notches inward net of outward: less is
/// preferred.
pub(super) fn preference(turns: &Turns) -> (usize, i32, i32) {
    let nuts = turns.iter().filter(|k| **k != 0).count();
    let notches = turns.iter().map(|k| k.abs()).sum();
    let outward: i32 = turns.iter().sum();
    (nuts, notches, -outward)
}

/// Which of two turns of equal spread is preferred (less is preferred): by
/// [`preference`]; then, at the first nut from the left that differs, the one
/// that turns less, outward before inward.
fn prefer(a: &Turns, b: &Turns) -> Ordering {
    let by_nut = |turns: &Turns| turns.map(|k| (k.abs(), -k));
    preference(a)
        .cmp(&preference(b))
        .then_with(|| by_nut(a).cmp(&by_nut(b)))
}

/// The best permitted turns so far.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Best {
    /// The turns and their spread in nanometres.
    pub turns: Option<(Turns, f64)>,
    /// Once the smallest spread is known: all turns up to this spread are
    /// equal, and the preferred ones are looked for.
    pub equal_up_to_nm: Option<f64>,
}

impl Best {
    /// Spread that turns must not exceed to be of any interest, in nanometres.
    pub fn threshold_nm(&self, judge: &Judge) -> f64 {
        match (self.equal_up_to_nm, &self.turns) {
            (Some(bar), _) => bar,
            (None, Some((_, spread))) => spread - judge.equal_nm / 2.0,
            (None, None) => f64::INFINITY,
        }
    }

    /// Looks at turns and keeps them if they are better.
    pub fn consider(&mut self, turns: &Turns, judge: &Judge) {
        if !judge.permits(turns) {
            return;
        }
        let spread = judge.spread_nm(turns);
        let better = match (&self.turns, self.equal_up_to_nm) {
            (None, _) => true,
            (Some((best, _)), Some(bar)) => spread <= bar && prefer(turns, best) == Ordering::Less,
            (Some((best, least)), None) => {
                spread < *least || (spread == *least && prefer(turns, best) == Ordering::Less)
            }
        };
        if better {
            self.turns = Some((*turns, spread));
        }
    }
}
