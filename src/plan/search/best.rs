//! The best turns so far.

use std::cmp::Ordering;

use super::{EQUAL_SPREAD_NM, SearchProblem, TurnBounds, spread_after};
use crate::plan::turns::{Turns, prefer, touched};

/// Checks and measures whole turns on the problem's own figures.
#[derive(Debug, Clone, Copy)]
pub(super) struct Judge<'a> {
    pub problem: &'a SearchProblem<'a>,
    pub bounds: &'a [TurnBounds],
    /// Spreads this close are equal, in nanometres.
    pub equal_nm: f64,
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
        }
    }

    /// Whether all limits hold.
    pub fn permits(&self, turns: &Turns) -> bool {
        let in_bounds = |(k, b): (&i32, &TurnBounds)| (b.least..=b.most).contains(k);
        self.problem
            .most_nuts
            .is_none_or(|most| touched(turns) <= most)
            && turns.iter().zip(self.bounds).all(in_bounds)
    }

    /// The spread, in nanometres.
    pub fn spread_nm(&self, turns: &Turns) -> f64 {
        spread_after(self.problem.thickness_nm, self.problem.response, turns)
    }
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
