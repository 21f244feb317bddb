//! Which press wants looking at: by when, and whether it gets worse.

use std::cmp::Reverse;
use std::collections::BTreeMap;
use std::sync::Arc;

use crate::session::IsoDate;
use crate::stats::LeastSquares;

use super::book::since_repair;
use super::drift::CONFIDENCE;
use super::upkeep_due::{Due, DueCounts, TaskDue};
use super::visit::Outcome;
use super::{NextCheck, PressBook, VisitSummary, Whose};

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
    pub fn of(visits: &[Arc<VisitSummary>]) -> Option<Self> {
        let found = since_repair(visits).iter().filter_map(|visit| {
            let spread = visit.found.as_ref()?;
            Some((visit.day?.day_number() as f64 / YEAR, spread.value.nm_f64()))
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

/// Why a press wants looking at, the most pressing reason first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Need {
    /// A nut answers otherwise than it did: something may not hold there.
    AnswerChanged,
    /// It was left outside.
    LeftOutside,
    /// It was found outside and the visit was not finished.
    FoundOutside,
    /// Its nuts were turned and no piece was measured after.
    NotMeasuredSince,
    /// Drifting on as it did it is outside by now: nanometres that the two
    /// stations that part fastest have parted since its last visit.
    Drifted(Reverse<i64>),
    /// A check was due by this day.
    CheckDue(IsoDate),
    /// The upkeep's check of the jaws is past its interval: the day of the last
    /// one, none where none is on record.
    Unchecked(Option<IsoDate>),
    /// It gets worse.
    Worse,
    /// At its last visit something is missing or was not measured.
    NotMeasured,
    /// So many other tasks of its upkeep are past their intervals.
    UpkeepLate(Reverse<usize>),
    /// Of so many other tasks nobody noted when they were last done.
    UpkeepUnknown(Reverse<usize>),
    /// Its pieces vary so much that one may be outside at any time.
    EveryVisit,
    /// The next check is due by this day.
    CheckBy(IsoDate),
}

impl Need {
    /// Whether something has to be checked before the press works.
    pub fn asks_check(self) -> bool {
        self <= Self::NotMeasured
    }

    /// Of what stands in its order what has to be checked before the press works,
    /// else the first; and the rest.
    pub fn pressing(needs: &[Self]) -> (&[Self], &[Self]) {
        let pressing = needs.partition_point(|need| need.asks_check());
        needs.split_at(pressing.max(1).min(needs.len()))
    }

    /// Whether it wants looking at before its next visit, not only then.
    pub fn is_now(self) -> bool {
        self < Self::EveryVisit
    }
}

impl PressBook {
    /// Why it wants looking at, the most pressing reason first: by its visits,
    /// and by how its upkeep stands.
    pub fn needs(&self, today: Option<IsoDate>, upkeep: &[&TaskDue]) -> Vec<Need> {
        let mut needs = Vec::new();
        needs.extend(self.changed.as_ref().map(|_| Need::AnswerChanged));
        needs.extend(self.visits.last().and_then(|last| match last.outcome() {
            Outcome::LeftOutside => Some(Need::LeftOutside),
            Outcome::MeasuredOnce => Some(Need::FoundOutside),
            Outcome::NotMeasuredSince => Some(Need::NotMeasuredSince),
            Outcome::NotMeasured | Outcome::Missing => Some(Need::NotMeasured),
            Outcome::InsideAsFound | Outcome::LeftInside => None,
        }));
        if let Some(today) = today {
            needs.extend(self.drifted(today));
            needs.extend(of_upkeep(upkeep, today));
        }
        let next = self.drift.as_ref().ok().map(|drift| drift.next_check);
        let outside = |need: &Need| *need <= Need::FoundOutside;
        needs.extend(match next {
            Some(NextCheck::By(day)) if today.is_some_and(|today| day <= today) => {
                Some(Need::CheckDue(day))
            }
            Some(NextCheck::By(day)) => Some(Need::CheckBy(day)),
            Some(NextCheck::ScatterAlone) if !needs.iter().any(outside) => Some(Need::EveryVisit),
            Some(NextCheck::ScatterAlone | NextCheck::NotWithin(_)) | None => None,
        });
        if Trend::of(&self.visits).is_some_and(|trend| trend.is_worse()) {
            needs.push(Need::Worse);
        }
        needs.sort_unstable();
        // Where a check is due, that there will be others says nothing more.
        if needs.first().is_some_and(|need| need.asks_check()) {
            needs.retain(|need| need.is_now());
        }
        needs
    }

    /// Whether drift alone has taken it outside by a day.
    fn drifted(&self, today: IsoDate) -> Option<Need> {
        let last = self.visits.last()?;
        let (spread, parted) = self.drift.as_ref().ok()?.by(last, today)?;
        let beyond = spread > last.tolerance.nm_f64() && parted > 0.0;
        beyond.then_some(Need::Drifted(Reverse(parted as i64)))
    }

    /// The day of the last visit that has one.
    pub fn last_day(&self) -> Option<IsoDate> {
        self.visits.iter().rev().find_map(|visit| visit.day)
    }

    /// Test pieces and minutes a month over the year before a day, or since
    /// the first visit where that is less; none without a visit in it.
    pub fn a_month(&self, today: IsoDate) -> Option<(f64, f64)> {
        let days = |visit: &Arc<VisitSummary>| {
            let ago = today.day_number() - visit.day?.day_number();
            (0..=YEAR as i64).contains(&ago).then_some(ago)
        };
        let shown = || self.visits.iter().filter(|visit| days(visit).is_some());
        let span = shown().filter_map(days).max()?;
        let a_month = YEAR / 12.0;
        let months = (span as f64 / a_month).max(1.0);
        let pieces: usize = shown().map(|visit| visit.pieces).sum();
        let minutes: f64 = shown().map(|visit| visit.minutes).sum();
        Some((pieces as f64 / months, minutes / months))
    }
}

/// In what order presses are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum PressOrder {
    /// What wants looking at first on top.
    #[default]
    Need,
    /// By name.
    Name,
    /// Who was visited last on top.
    LastVisit,
}

/// What the upkeep of a press adds to why it wants looking at. The check of the
/// jaws is told apart: it is what the other reasons ask for.
fn of_upkeep(upkeep: &[&TaskDue], today: IsoDate) -> Vec<Need> {
    let mut needs = Vec::new();
    // What the visits ask for anyway is no second reason.
    let due = |task: &&TaskDue| task.when(today).is_due() && task.due != Due::MeasureFirst;
    let mut checks = upkeep.iter().filter(|it| due(it) && it.task.is_jaw_check());
    if let Some(check) = checks.next() {
        needs.push(Need::Unchecked(check.last.as_ref().map(|last| last.day)));
    }
    let DueCounts { late, unknown, .. } = DueCounts::of(upkeep.iter().copied(), today);
    needs.extend((late > 0).then_some(Need::UpkeepLate(Reverse(late))));
    needs.extend((unknown > 0).then_some(Need::UpkeepUnknown(Reverse(unknown))));
    needs
}

impl PressOrder {
    /// Puts presses in this order that stand by their need, as [`by_need`] has
    /// them; books stand by name.
    pub fn sort(self, books: &[PressBook], presses: &mut [&(usize, Vec<Need>)]) {
        let last = |at: usize| books.get(at).and_then(PressBook::last_day);
        match self {
            Self::Need => {}
            Self::Name => presses.sort_by_key(|(at, _)| *at),
            Self::LastVisit => presses.sort_by_key(|(at, _)| (Reverse(last(*at)), *at)),
        }
    }
}

/// What every press wants by its visits and the upkeep, the most pressing first:
/// each by its place among the books, which stand by name. Where nothing
/// presses, the longest without a visit is first.
pub fn by_need(
    books: &[PressBook],
    today: Option<IsoDate>,
    upkeep: &[TaskDue],
) -> Vec<(usize, Vec<Need>)> {
    let mut of_press: BTreeMap<&str, Vec<&TaskDue>> = BTreeMap::new();
    for task in upkeep {
        if let Whose::Press(name) = &task.whose {
            of_press.entry(name).or_default().push(task);
        }
    }
    let with_needs = books.iter().enumerate().map(|(at, book)| {
        let upkeep = of_press.get(book.press.as_str());
        let upkeep = upkeep.map_or(&[][..], Vec::as_slice);
        (at, book.needs(today, upkeep))
    });
    let mut all: Vec<(usize, Vec<Need>)> = with_needs.collect();
    // Stable: what is alike stays by name.
    all.sort_by_cached_key(|(at, needs)| {
        let last = books.get(*at).and_then(PressBook::last_day);
        (needs.is_empty(), needs.first().copied(), last)
    });
    all
}
