//! Upkeep: tasks that come round on every press, and on every gauge, when they
//! are due, and who did them. Only a shop and the machine's manual know the
//! right intervals; those here are usual ones until the shop sets its own.
//! What nobody recorded is due: that nothing is known of it makes nothing clean
//! or oiled.

use std::collections::{BTreeMap, BTreeSet};
use std::num::NonZeroU32;

use serde::{Deserialize, Serialize};

use crate::codec::is_usual;
use crate::session::{Caution, IsoDate};

use super::{PressBook, counted};

/// After how much a task comes round.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Interval {
    /// So many days.
    Days(NonZeroU32),
    /// So many pieces laced.
    Pieces(NonZeroU32),
}

/// The usual task that a visit with a measured piece does too.
const JAW_CHECK: &str = "jaw-check";

/// The usual task that is done on every gauge, not on every press.
const GAUGE_TASK: &str = "gauge-calibration";

/// What a task is done on.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Whose {
    /// A press, by its name.
    Press(String),
    /// A gauge of the shop, by its name.
    Gauge(String),
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
    /// Intervals of presses, by their names, that differ from the shop's.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub presses: BTreeMap<String, Interval>,
}

/// What the log notes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Noted {
    /// A task was done: its key.
    Done(String),
    /// Nobody knew when a task was last done, its key. Older versions counted
    /// from here; it counts for nothing now.
    Begun(String),
    /// So many pieces were laced in production since this was noted last.
    Laced(NonZeroU32),
}

/// A line of the log. None is ever taken out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Entry {
    /// The press by its name.
    #[serde(default)]
    pub press: String,
    /// The gauge by its name, where the line is about a gauge.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub gauge: String,
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

impl Entry {
    /// A line about a press or a gauge.
    pub fn of(whose: &Whose, noted: Noted, day: IsoDate, who: &str) -> Self {
        let (press, gauge) = match whose {
            Whose::Press(press) => (press.clone(), String::new()),
            Whose::Gauge(gauge) => (String::new(), gauge.clone()),
        };
        Self {
            press,
            gauge,
            noted,
            day,
            who: who.trim().to_owned(),
            taken_back: String::new(),
        }
    }

    /// What it is about.
    pub fn whose(&self) -> Whose {
        match self.gauge.as_str() {
            "" => Whose::Press(self.press.clone()),
            gauge => Whose::Gauge(gauge.to_owned()),
        }
    }

    /// The task it notes, by its key.
    pub fn task(&self) -> Option<&str> {
        match &self.noted {
            Noted::Done(key) | Noted::Begun(key) => Some(key),
            Noted::Laced(_) => None,
        }
    }
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
    /// Add lines to the log, all of them or none.
    Note(Vec<Entry>),
    /// Take lines of the log back, all of them or none: who and when.
    TakeBack(Vec<Entry>, String),
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
    /// The check of the jaws, noted by hand: a measured piece of a visit is one.
    Measured,
    /// A task without words.
    NoWords,
}

impl Task {
    /// A task in the program's words, with an interval that is ours.
    pub fn new(key: &str, every: Interval) -> Self {
        Self {
            key: key.to_owned(),
            words: String::new(),
            every,
            own: false,
            hidden: false,
            presses: BTreeMap::new(),
        }
    }

    /// The task as it comes round at a press.
    pub fn at(&self, press: &str) -> Self {
        let differs = self.presses.get(press);
        Self {
            every: *differs.unwrap_or(&self.every),
            own: self.own || differs.is_some(),
            ..self.clone()
        }
    }

    /// Whether it is done on every gauge, not on every press.
    pub fn is_of_gauge(&self) -> bool {
        self.key == GAUGE_TASK
    }

    /// Whether it is the check of the jaws with a test piece.
    pub fn is_jaw_check(&self) -> bool {
        self.key == JAW_CHECK
    }

    /// What to beware of. Of a task in the shop's words nobody here knows what
    /// it asks for: everything that hands in the press or air may do.
    pub fn cautions(&self) -> &'static [Caution] {
        use Caution::{CompressedAir, Eyes, HandsClear, JawBlocked, MadeSafe, NipPoints};
        match self.key.as_str() {
            key if !self.words.is_empty() || key.is_empty() => &[
                MadeSafe,
                JawBlocked,
                NipPoints,
                CompressedAir,
                Eyes,
                HandsClear,
            ],
            "cover" | GAUGE_TASK => &[],
            "dust" | "clean-jaws" => &[MadeSafe, JawBlocked, CompressedAir, Eyes],
            // A piece is laced under power.
            JAW_CHECK => &[HandsClear, Eyes],
            "oil-slides" | "oil-rods" => &[MadeSafe, JawBlocked],
            "fluid-level" => &[MadeSafe],
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
        vec![
            Task::new("dust", days(1)),
            Task::new("cover", days(1)),
            Task::new("oil-chains", days(30)),
            Task::new("oil-slides", days(7)),
            Task::new("oil-rods", days(90)),
            Task::new("fluid-level", days(30)),
            Task::new("clean-jaws", Interval::Pieces(number(200))),
            Task::new(JAW_CHECK, days(90)),
            Task::new(GAUGE_TASK, days(365)),
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
            UpkeepEdit::Note(entries) => {
                for entry in &entries {
                    if entry.who.trim().is_empty() {
                        return Err(UpkeepRefusal::Nobody);
                    }
                    match entry.task() {
                        Some(JAW_CHECK) => return Err(UpkeepRefusal::Measured),
                        Some(key) => place(&tasks, key).ok_or(UpkeepRefusal::NoSuchTask)?,
                        None => continue,
                    };
                }
                self.log.extend(entries);
                return Ok(());
            }
            UpkeepEdit::TakeBack(entries, by) => {
                let mut log = self.log.clone();
                for entry in entries {
                    let line = log.iter_mut().rfind(|line| **line == entry);
                    line.ok_or(UpkeepRefusal::ChangedMeanwhile)?.taken_back = by.clone();
                }
                self.log = log;
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
                let logged = self.log.iter().filter_map(Entry::task);
                let used: BTreeSet<&str> = logged
                    .chain(tasks.iter().map(|task| task.key.as_str()))
                    .collect();
                let mut keys = (1_u64..).map(|number| format!("own-{number}"));
                let key = keys.find(|key| !used.contains(key.as_str()));
                tasks.push(Task {
                    words: words.trim().to_owned(),
                    own: true,
                    ..Task::new(&key.unwrap_or_default(), every)
                });
            }
        }
        self.own_tasks = tasks;
        Ok(())
    }

    /// The names of the presses that upkeep is kept of: those of the books and
    /// those of the log, by name as people count.
    pub fn presses<'a>(&'a self, books: &'a [PressBook]) -> Vec<&'a str> {
        let books = books.iter().map(|book| book.press.as_str());
        let log = self.log.iter().filter(|entry| entry.gauge.is_empty());
        by_name(books.chain(log.map(|entry| entry.press.as_str())))
    }

    /// The names of the shop's gauges: those of the visits and those of the log.
    /// A gauge without a name cannot be told from another.
    pub fn gauges<'a>(&'a self, books: &'a [PressBook]) -> Vec<&'a str> {
        let visits = books.iter().flat_map(|book| &book.visits);
        let all = visits.map(|visit| visit.gauge.as_str());
        let log = self.log.iter().map(|entry| entry.gauge.as_str());
        by_name(all.chain(log).filter(|gauge| !gauge.is_empty()))
    }
}

/// Names, each once.
fn by_name<'a>(names: impl Iterator<Item = &'a str>) -> Vec<&'a str> {
    let once: BTreeSet<&str> = names.collect();
    let mut names: Vec<&str> = once.into_iter().collect();
    names.sort_by_cached_key(|name| counted(name));
    names
}
