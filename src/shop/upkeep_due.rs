//! When tasks are due: from the log of the upkeep and the visits, task by task
//! of every press and gauge.

use std::collections::BTreeMap;

use crate::session::IsoDate;

use super::upkeep::{Entry, Interval, Noted, Task, Upkeep, Whose};
use super::{PressBook, VisitSummary};

/// Days beyond which an interval is not counted: a hundred years.
const MOST_DAYS: u32 = 36_525;

/// Days ahead that count as soon.
const SOON: i64 = 7;

/// Share of an interval of pieces that counts as soon, one in so many.
const SOON_SHARE: u64 = 10;

/// How a task stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Due {
    /// By its visits the press wants a piece measured before it works.
    MeasureFirst,
    /// It is due since this day.
    Since(IsoDate),
    /// It is due: so many pieces were laced since, as many as it may go or more.
    PiecesOver(u64),
    /// It was never noted as done.
    NeverDone,
    /// It goes by pieces, and the shop never noted those it laced in production;
    /// the test pieces that the sessions know.
    Uncounted(u64),
    /// It is due on this day.
    On(IsoDate),
    /// So many pieces are left; pieces laced in production are noted up to this
    /// day.
    PiecesLeft(u64, IsoDate),
}

/// When a task wants doing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum When {
    /// It is past its interval.
    Now,
    /// It was never recorded: nothing is known of it, so it is due.
    NotRecorded,
    /// Within a week, or the last tenth of its pieces.
    Soon,
    /// Later, or nobody can say: pieces laced in production are not noted.
    Later,
}

impl When {
    /// Whether it is to be done now.
    pub fn is_due(self) -> bool {
        matches!(self, Self::Now | Self::NotRecorded)
    }
}

impl Due {
    /// What stands first: what is due longest, then what nobody knows, then
    /// what is doubtful.
    fn order(self) -> (u8, i64) {
        let pieces = |pieces: u64| i64::try_from(pieces).unwrap_or(i64::MAX);
        match self {
            Self::MeasureFirst => (0, i64::MIN),
            Self::Since(day) => (0, day.day_number()),
            Self::PiecesOver(laced) => (1, -pieces(laced)),
            Self::NeverDone => (2, 0),
            Self::On(day) => (3, day.day_number()),
            Self::PiecesLeft(left, _) => (4, pieces(left)),
            Self::Uncounted(laced) => (5, -pieces(laced)),
        }
    }
}

/// A task of a press or a gauge and how it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TaskDue {
    /// What it is done on.
    pub whose: Whose,
    /// The task.
    pub task: Task,
    /// How it stands.
    pub due: Due,
    /// The line of the log that says when it was last done, or what a visit says
    /// in its place.
    pub last: Option<Entry>,
    /// The day of the visit that it goes by: one that says until when a gauge's
    /// calibration holds, or one whose last piece was measured, which is a check
    /// of the jaws.
    pub said_on: Option<IsoDate>,
}

impl TaskDue {
    /// When it wants doing, as of a day.
    pub fn when(&self, today: IsoDate) -> When {
        match self.due {
            Due::MeasureFirst | Due::Since(_) | Due::PiecesOver(_) => When::Now,
            Due::NeverDone => When::NotRecorded,
            Due::On(day) if day.day_number() - today.day_number() <= SOON => When::Soon,
            Due::PiecesLeft(left, _) if self.is_nearly_over(left) => When::Soon,
            Due::On(_) | Due::PiecesLeft(..) | Due::Uncounted(_) => When::Later,
        }
    }

    fn is_nearly_over(&self, left: u64) -> bool {
        let Interval::Pieces(every) = self.task.every else {
            return false;
        };
        left.saturating_mul(SOON_SHARE) <= u64::from(every.get())
    }
}

/// How many tasks want doing. Each is counted once, so that a shop's counts are
/// the sum of its presses': what checks the jaws and what gauges ask for stand
/// apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct DueCounts {
    /// Checks of the jaws that are due.
    pub checks: usize,
    /// Other tasks of presses past their interval.
    pub late: usize,
    /// Other tasks of presses that were never noted.
    pub unknown: usize,
    /// Tasks of gauges that are due.
    pub gauges: usize,
    /// What is due soon.
    pub soon: usize,
}

impl DueCounts {
    /// Counts tasks as they stand on a day.
    pub fn of<'a>(tasks: impl IntoIterator<Item = &'a TaskDue>, today: IsoDate) -> Self {
        let mut counts = Self::default();
        for task in tasks {
            let count = match task.when(today) {
                When::Later => continue,
                When::Soon => &mut counts.soon,
                _ if task.task.is_jaw_check() => &mut counts.checks,
                _ if matches!(task.whose, Whose::Gauge(_)) => &mut counts.gauges,
                When::Now => &mut counts.late,
                When::NotRecorded => &mut counts.unknown,
            };
            *count += 1;
        }
        counts
    }
}

impl Upkeep {
    /// How every task in sight stands on a day at every press and gauge, what is
    /// due first on top. Pieces are those of the visits and those noted in the
    /// log, since the task was done; visits of that same day count too, so that
    /// it is due rather early than late, and visits without a day count nowhere.
    /// Lines of the log of a later day than today do not count yet. A gauge's
    /// calibration holds as long as its last visit says, unless it was noted
    /// anew since; a visit whose last piece was measured checked the jaws.
    pub fn due_list(&self, books: &[PressBook], today: IsoDate) -> Vec<TaskDue> {
        let mut done: BTreeMap<(Whose, &str), (usize, &Entry)> = BTreeMap::new();
        let mut laced: BTreeMap<&str, Vec<(IsoDate, usize, u64)>> = BTreeMap::new();
        let counts = |entry: &&Entry| entry.taken_back.is_empty() && entry.day <= today;
        for (index, entry) in self.log.iter().enumerate().filter(|(_, it)| counts(it)) {
            match &entry.noted {
                Noted::Begun(_) => {}
                Noted::Done(key) => {
                    let key = (entry.whose(), key.as_str());
                    let last = done.entry(key).or_insert((index, entry));
                    if last.1.day <= entry.day {
                        *last = (index, entry);
                    }
                }
                // Presses lace, not gauges.
                Noted::Laced(_) if !entry.gauge.is_empty() => {}
                Noted::Laced(pieces) => {
                    let all = laced.entry(&entry.press).or_default();
                    all.push((entry.day, index, u64::from(pieces.get())));
                }
            }
        }
        let mut visits: BTreeMap<&str, Vec<(IsoDate, u64)>> = BTreeMap::new();
        for book in books {
            let of_press = visits.entry(&book.press).or_default();
            let days = book.visits.iter();
            of_press.extend(days.filter_map(|visit| Some((visit.day?, visit.pieces as u64))));
        }
        let said = calibrations(books);
        let checked = checks(books, today);
        let asks = |book: &&PressBook| {
            let needs = book.needs(Some(today), &[]);
            needs.iter().any(|need| need.asks_check())
        };
        let asked: Vec<&str> = books
            .iter()
            .filter(asks)
            .map(|book| book.press.as_str())
            .collect();
        let tasks = self.tasks();
        let presses = self.presses(books).into_iter();
        let gauges = self.gauges(books).into_iter();
        let all = presses
            .map(|press| (Whose::Press(press.to_owned()), press, false))
            .chain(gauges.map(|gauge| (Whose::Gauge(gauge.to_owned()), gauge, true)));
        let mut list = Vec::new();
        for (whose, name, is_gauge) in all {
            let of = |all: &'_ BTreeMap<&str, Vec<(IsoDate, u64)>>| {
                all.get(name).filter(|_| !is_gauge).cloned()
            };
            let visits = of(&visits).unwrap_or_default();
            let laced = laced.get(name).filter(|_| !is_gauge);
            let laced = laced.map_or(&[][..], Vec::as_slice);
            let in_sight = tasks.iter().filter(|task| !task.hidden);
            let of_kind = in_sight.filter(|task| task.is_of_gauge() == is_gauge);
            for task in of_kind.map(|task| task.at(name)) {
                let noted = done.get(&(whose.clone(), task.key.as_str()));
                let mut last = noted.map(|(line, entry)| (*line, (*entry).clone()));
                let check = checked.get(name).filter(|_| task.is_jaw_check());
                let newer = |on: IsoDate| last.as_ref().is_none_or(|last| last.1.day <= on);
                let check = check.filter(|visit| visit.day.is_some_and(newer));
                let mut said_on = check.and_then(|visit| visit.day);
                if let Some((visit, day)) = check.zip(said_on) {
                    let noted = Noted::Done(task.key.clone());
                    last = Some((usize::MAX, Entry::of(&whose, noted, day, &visit.who)));
                }
                let said = said.get(name).filter(|_| is_gauge);
                let newer = |on: IsoDate| last.as_ref().is_none_or(|last| last.1.day <= on);
                let said = said.filter(|said| newer(said.on));
                if let Some(said) = said {
                    (last, said_on) = (None, Some(said.on));
                }
                let due = match (said, &last) {
                    (Some(said), _) if said.until < today => Due::Since(said.until),
                    (Some(said), _) => Due::On(said.until),
                    (None, Some((line, last))) => {
                        due(task.every, (*line, last), today, laced, &visits)
                    }
                    (None, None) => Due::NeverDone,
                };
                let mut stands = TaskDue {
                    whose: whose.clone(),
                    task,
                    due,
                    last: last.map(|(_, entry)| entry),
                    said_on,
                };
                let first = stands.task.is_jaw_check() && asked.contains(&name);
                if first && !stands.when(today).is_due() {
                    stands.due = Due::MeasureFirst;
                }
                list.push(stands);
            }
        }
        list.sort_by_key(|task| task.due.order());
        list
    }
}

/// The newest visit to each press, up to a day, whose last piece was measured.
fn checks(books: &[PressBook], today: IsoDate) -> BTreeMap<&str, &VisitSummary> {
    let mut all: BTreeMap<&str, &VisitSummary> = BTreeMap::new();
    for visit in books.iter().flat_map(|book| &book.visits) {
        if visit.checks_jaws() && visit.day.is_some_and(|day| day <= today) {
            let newest = all.entry(&visit.press).or_insert(visit);
            if newest.day < visit.day {
                *newest = visit;
            }
        }
    }
    all
}

/// What a visit says of a gauge's calibration.
struct Said {
    on: IsoDate,
    until: IsoDate,
}

/// What the newest visit that says anything says of each gauge.
fn calibrations(books: &[PressBook]) -> BTreeMap<&str, Said> {
    let mut all: BTreeMap<&str, Said> = BTreeMap::new();
    for visit in books.iter().flat_map(|book| &book.visits) {
        let (Some(on), Some(until)) = (visit.day, visit.calibration_due) else {
            continue;
        };
        let said = all.entry(&visit.gauge).or_insert(Said { on, until });
        if (said.on, said.until) < (on, until) {
            *said = Said { on, until };
        }
    }
    all
}

/// How a task stands that was last done by a line of the log.
fn due(
    every: Interval,
    (index, last): (usize, &Entry),
    today: IsoDate,
    laced: &[(IsoDate, usize, u64)],
    visits: &[(IsoDate, u64)],
) -> Due {
    let most = match every {
        Interval::Days(days) => {
            let day = last.day.later(i64::from(days.get().min(MOST_DAYS)));
            return match day {
                Some(day) if day <= today => Due::Since(day),
                Some(day) => Due::On(day),
                // Beyond the calendar: the log is of a day that cannot be.
                None => Due::NeverDone,
            };
        }
        Interval::Pieces(most) => u64::from(most.get()),
    };
    let noted = laced
        .iter()
        .filter(|(day, line, _)| (*day, *line) > (last.day, index))
        .map(|(.., pieces)| *pieces);
    let tested = visits
        .iter()
        .filter(|(day, _)| (last.day..=today).contains(day))
        .map(|(_, pieces)| *pieces);
    let since: u64 = noted.chain(tested).sum();
    match laced.iter().map(|(day, ..)| *day).max() {
        _ if since >= most => Due::PiecesOver(since),
        None => Due::Uncounted(since),
        Some(counted) => Due::PiecesLeft(most - since, counted),
    }
}
