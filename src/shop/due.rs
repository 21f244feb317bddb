//! Which press wants looking at: by when, and whether it gets worse.

use std::cmp::Ordering;

use crate::session::IsoDate;
use crate::stats::LeastSquares;

use super::book::since_repair;
use super::drift::CONFIDENCE;
use super::{NextCheck, PressBook, VisitSummary};

/// Fewest visits that say whether a press gets worse.
pub const FEWEST_FOUND: usize = 5;

/// Days in a year, on average over the calendar's 400 (ISO 8601).
const YEAR: f64 = 365.2425;

/// How the spread as found changes from visit to visit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trend {
    /// Nanometres a year; growing is positive.
    pub a_year_nm: f64,
    /// Half the width of its interval of 95 % confidence.
    pub half_nm: f64,
}

impl Trend {
    /// The straight line through the spreads as found over the days, by least
    /// squares; none for fewer than [`FEWEST_FOUND`] visits with spread and
    /// day since the last repair. Spreads are no normal scatter, but of one kind from visit to visit;
    /// the interval is by Student's t.
    pub fn of(visits: &[VisitSummary]) -> Option<Self> {
        let found = since_repair(visits).iter().filter_map(|visit| {
            let spread = visit.found.as_ref()?;
            Some((visit.day?.day_number() as f64 / YEAR, spread.nm_f64()))
        });
        let (years, spreads): (Vec<f64>, Vec<f64>) = found.unzip();
        if years.len() < FEWEST_FOUND {
            return None;
        }
        let middle = years.iter().sum::<f64>() / years.len() as f64;
        let about = years.iter().map(|year| year - middle).collect();
        let even = vec![1.0; years.len()];
        let fit = LeastSquares::solve(&[even.clone(), about], &spreads, &even)?;
        let slope = fit.foretold(&[0.0, 1.0], CONFIDENCE)?;
        Some(Self {
            a_year_nm: slope.value,
            half_nm: slope.certain,
        })
    }

    /// Whether the press gets worse, beyond what is uncertain.
    pub fn is_worse(&self) -> bool {
        self.a_year_nm > self.half_nm
    }
}

impl PressBook {
    /// The day by which drift says to check it, where it says one.
    pub fn check_by(&self) -> Option<IsoDate> {
        match self.drift.as_ref().ok()?.next_check {
            NextCheck::By(day) => Some(day),
            NextCheck::NotWithin(_) | NextCheck::ScatterAlone => None,
        }
    }

    /// Whether that day is past or today.
    pub fn is_due(&self, today: IsoDate) -> bool {
        self.check_by().is_some_and(|day| day <= today)
    }
}

/// Presses that want looking at first: by the day of the next check, those
/// without one after them, by name.
pub fn by_need(a: &PressBook, b: &PressBook) -> Ordering {
    let need = |book: &PressBook| (book.check_by().is_none(), book.check_by());
    need(a).cmp(&need(b)).then_with(|| a.press.cmp(&b.press))
}
