//! Upkeep: tasks that come round on every press, when they are due, and who did
//! them. Only a shop and the machine's manual know the right intervals; those
//! here are usual ones until the shop sets its own.

use std::collections::{BTreeMap, BTreeSet};
use std::num::NonZeroU32;

use serde::{Deserialize, Serialize};

use crate::codec::is_usual;
use crate::session::{Caution, IsoDate};

use super::PressBook;

/// Days beyond which an interval is not counted: a hundred years.
const MOST_DAYS: u32 = 36_525;

/// After how much a task comes round.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Interval {
    /// So many days.
    Days(NonZeroU32),
    /// So many pieces laced.
    Pieces(NonZeroU32),
}

/// Something to be done again and again on every press.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Task {
    /// The name under which the log keeps it.
    pub key: String,
    /// What the shop calls it; empty for a usual task in the program's words.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub words: String,
    /// After how much it comes round.
    pub every: Interval,
    /// Whether the shop set the interval itself; otherwise it is the program's
    /// default, and the machine's manual knows better.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub own: bool,
    /// Whether the shop does without it.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub hidden: bool,
}

/// What the log notes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Noted {
    /// A task was done: its key.
    Done(String),
    /// So many pieces were laced in production since this was noted last.
    Laced(NonZeroU32),
}

/// A line of the log. None is ever taken out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Entry {
    /// The press by its name.
    pub press: String,
    /// What was noted.
    pub noted: Noted,
    /// The day.
    pub day: IsoDate,
    /// Who.
    pub who: String,
    /// Who took it back, and when, where it was a mistake: it no longer counts.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub taken_back: String,
}

/// The upkeep of a shop.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Upkeep {
    /// The shop's tasks in its order; empty while it goes by the usual ones.
    pub own_tasks: Vec<Task>,
    /// What was noted, in the order of noting.
    pub log: Vec<Entry>,
}

/// A change of the upkeep. Each can be made to a state that somebody else has
/// changed meanwhile, so that neither's work is lost.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum UpkeepEdit {
    /// Add a line to the log.
    Note(Entry),
    /// Take a line of the log back, who and when.
    TakeBack(Entry, String),
    /// Put a task in the place of one that was so.
    Change(Task, Task),
    /// Put a task so many places further down; up is negative.
    Move(String, isize),
    /// Add a task of the shop's own: its words and interval.
    Add(String, Interval),
}

/// Why a change cannot be made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UpkeepRefusal {
    /// Somebody else changed the same thing meanwhile.
    ChangedMeanwhile,
    /// There is no such task.
    NoSuchTask,
    /// A line of the log that does not say who.
    Nobody,
    /// A task without words.
    NoWords,
}

/// How a task stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Due {
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

impl Due {
    /// Whether it waits to be done, or nobody can say.
    pub const fn wants_doing(self) -> bool {
        !matches!(self, Self::On(_) | Self::PiecesLeft(..))
    }

    /// What stands first: what is due longest, then what is doubtful.
    fn order(self) -> (u8, i64) {
        let pieces = |pieces: u64| i64::try_from(pieces).unwrap_or(i64::MAX);
        match self {
            Self::Since(day) => (0, day.day_number()),
            Self::PiecesOver(laced) => (1, -pieces(laced)),
            Self::NeverDone => (2, 0),
            Self::Uncounted(laced) => (3, -pieces(laced)),
            Self::On(day) => (4, day.day_number()),
            Self::PiecesLeft(left, _) => (5, pieces(left)),
        }
    }
}

/// A task of a press and how it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TaskDue {
    /// The press by its name.
    pub press: String,
    /// The task.
    pub task: Task,
    /// How it stands.
    pub due: Due,
    /// The line of the log that says when it was last done.
    pub last: Option<Entry>,
}

impl Task {
    /// What to beware of. Of a task in the shop's words nobody here knows what
    /// it asks for: everything that hands in the press or air may do.
    pub fn cautions(&self) -> &'static [Caution] {
        use Caution::{CompressedAir, Eyes, HandsClear, JawBlocked, MadeSafe, NipPoints};
        match self.key.as_str() {
            _ if !self.words.is_empty() => &[
                MadeSafe,
                JawBlocked,
                NipPoints,
                CompressedAir,
                Eyes,
                HandsClear,
            ],
            "cover" | "gauge-calibration" => &[],
            "dust" | "clean-jaws" => &[MadeSafe, JawBlocked, CompressedAir, Eyes],
            "jaw-check" => &[MadeSafe, HandsClear, Eyes],
            _ => &[MadeSafe, JawBlocked, NipPoints],
        }
    }
}

impl Upkeep {
    /// The shop's tasks in its order, hidden ones among them: the usual ones,
    /// whose intervals are ours (common practice, no source), until it changes
    /// any.
    pub fn tasks(&self) -> Vec<Task> {
        if !self.own_tasks.is_empty() {
            return self.own_tasks.clone();
        }
        let number = |number| NonZeroU32::new(number).unwrap_or(NonZeroU32::MIN);
        let days = |days| Interval::Days(number(days));
        let task = |key: &str, every| Task {
            key: key.to_owned(),
            words: String::new(),
            every,
            own: false,
            hidden: false,
        };
        vec![
            task("dust", days(1)),
            task("cover", days(1)),
            task("oil-chains", days(30)),
            task("oil-slides", days(7)),
            task("oil-rods", days(90)),
            task("fluid-level", days(30)),
            task("clean-jaws", Interval::Pieces(number(200))),
            task("jaw-check", days(90)),
            task("gauge-calibration", days(365)),
        ]
    }

    /// Makes a change.
    ///
    /// # Errors
    /// See [`UpkeepRefusal`]; nothing is then changed.
    pub fn apply(&mut self, edit: UpkeepEdit) -> Result<(), UpkeepRefusal> {
        let mut tasks = self.tasks();
        let place = |tasks: &[Task], key: &str| tasks.iter().position(|task| task.key == key);
        match edit {
            UpkeepEdit::Note(entry) => {
                if entry.who.trim().is_empty() {
                    return Err(UpkeepRefusal::Nobody);
                }
                if let Noted::Done(key) = &entry.noted {
                    place(&tasks, key).ok_or(UpkeepRefusal::NoSuchTask)?;
                }
                self.log.push(entry);
                return Ok(());
            }
            UpkeepEdit::TakeBack(entry, by) => {
                let line = self.log.iter_mut().rfind(|line| **line == entry);
                line.ok_or(UpkeepRefusal::ChangedMeanwhile)?.taken_back = by;
                return Ok(());
            }
            UpkeepEdit::Change(was, task) => {
                let stands = tasks.iter_mut().find(|stands| stands.key == was.key);
                let stands = stands.ok_or(UpkeepRefusal::NoSuchTask)?;
                if *stands != was {
                    return Err(UpkeepRefusal::ChangedMeanwhile);
                }
                *stands = task;
            }
            UpkeepEdit::Move(key, by) => {
                let from = place(&tasks, &key).ok_or(UpkeepRefusal::NoSuchTask)?;
                let to = from.saturating_add_signed(by).min(tasks.len() - 1);
                let task = tasks.remove(from);
                tasks.insert(to, task);
            }
            UpkeepEdit::Add(words, every) => {
                if words.trim().is_empty() {
                    return Err(UpkeepRefusal::NoWords);
                }
                // Lines of the log keep their task though it was taken out of
                // the file by hand.
                let logged = self.log.iter().filter_map(|entry| match &entry.noted {
                    Noted::Done(key) => Some(key.as_str()),
                    Noted::Laced(_) => None,
                });
                let used: BTreeSet<&str> = logged
                    .chain(tasks.iter().map(|task| task.key.as_str()))
                    .collect();
                let mut keys = (1_u64..).map(|number| format!("own-{number}"));
                let key = keys.find(|key| !used.contains(key.as_str()));
                tasks.push(Task {
                    key: key.unwrap_or_default(),
                    words: words.trim().to_owned(),
                    every,
                    own: true,
                    hidden: false,
                });
            }
        }
        self.own_tasks = tasks;
        Ok(())
    }

    /// The names of the presses that upkeep is kept of: those of the books and
    /// those of the log, by name.
    pub fn presses<'a>(&'a self, books: &'a [PressBook]) -> BTreeSet<&'a str> {
        let books = books.iter().map(|book| book.press.as_str());
        books
            .chain(self.log.iter().map(|entry| entry.press.as_str()))
            .collect()
    }

    /// How every task in sight stands on a day at every press, what is due first
    /// on top. Pieces are those of the visits and those noted in the log, since
    /// the task was done; visits of that same day count too, so that it is due
    /// rather early than late, and visits without a day count nowhere. Lines of
    /// the log of a later day than today do not count yet.
    pub fn due_list(&self, books: &[PressBook], today: IsoDate) -> Vec<TaskDue> {
        let mut done: BTreeMap<(&str, &str), (usize, &Entry)> = BTreeMap::new();
        let mut laced: BTreeMap<&str, Vec<(IsoDate, usize, u64)>> = BTreeMap::new();
        let counts = |entry: &&Entry| entry.taken_back.is_empty() && entry.day <= today;
        for (index, entry) in self.log.iter().enumerate().filter(|(_, it)| counts(it)) {
            match &entry.noted {
                Noted::Done(key) => {
                    let last = done.entry((&entry.press, key)).or_insert((index, entry));
                    if last.1.day <= entry.day {
                        *last = (index, entry);
                    }
                }
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
        let mut list = Vec::new();
        let tasks = self.tasks();
        for press in self.presses(books) {
            let laced = laced.get(press).map_or(&[][..], Vec::as_slice);
            let visits = visits.get(press).map_or(&[][..], Vec::as_slice);
            for task in tasks.iter().filter(|task| !task.hidden) {
                let last = done.get(&(press, task.key.as_str())).copied();
                let due = last.map_or(Due::NeverDone, |last| {
                    due(task.every, last, today, laced, visits)
                });
                list.push(TaskDue {
                    press: press.to_owned(),
                    task: task.clone(),
                    due,
                    last: last.map(|(_, entry)| entry.clone()),
                });
            }
        }
        list.sort_by_key(|task| task.due.order());
        list
    }
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
