//! Upkeep: tasks that come round, when they are due, and who did them.

use crate::session::{Caution, IsoDate};

/// After how much a task comes round.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Interval {
    /// So many days.
    Days(u32),
    /// So many pieces laced in production, as the shop counts them.
    Pieces(u32),
}

/// Something to be done again and again.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Task {
    /// The name under which files keep it; never shown.
    pub key: String,
    /// What the shop calls it; empty for a usual task in the program's words.
    pub name: String,
    /// After how much it comes round.
    pub interval: Interval,
    /// Whether the interval is the program's and not yet the shop's own: the
    /// machine's manual says more.
    pub usual: bool,
    /// What to beware of.
    pub cautions: Vec<Caution>,
}

/// That a task was done.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UpkeepEntry {
    /// The press by its name.
    pub press: String,
    /// The task's key.
    pub task: String,
    /// The day.
    pub day: IsoDate,
    /// Pieces laced by then, where the shop counts them.
    pub pieces: Option<u32>,
    /// Who.
    pub who: String,
    /// Whatever should be remembered.
    pub note: String,
}

/// How a task stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Due {
    /// It was never noted as done.
    NeverDone,
    /// It is due since this day.
    Since(IsoDate),
    /// It is due on this day.
    On(IsoDate),
    /// It is due: so many pieces more were laced than it may go.
    PiecesOver(u32),
    /// So many pieces are left.
    PiecesLeft(u32),
    /// It goes by pieces, and nobody counts them.
    PiecesUnknown,
}

impl Due {
    /// Whether it waits to be done.
    pub const fn is_due(self) -> bool {
        matches!(self, Self::NeverDone | Self::Since(_) | Self::PiecesOver(_))
    }
}

/// A task of a press and how it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TaskDue {
    /// The press by its name.
    pub press: String,
    /// The task's key.
    pub task: String,
    /// How it stands.
    pub due: Due,
    /// When it was last done, and by whom.
    pub last: Option<UpkeepEntry>,
}

/// The tasks a shop starts with. The intervals are ours (common practice, no
/// source) and marked as usual ones: the machine's manual comes first.
pub fn usual_tasks() -> Vec<Task> {
    use Interval::{Days, Pieces};
    let air = &[Caution::CompressedAir, Caution::Eyes][..];
    let hands = &[Caution::MadeSafe, Caution::NipPoints][..];
    let drive = &[Caution::MadeSafe, Caution::NipPoints, Caution::JawBlocked][..];
    [
        ("dust", Days(1), air),
        ("cover", Days(1), &[][..]),
        ("oil-chains", Days(30), hands),
        ("oil-slides", Days(7), hands),
        ("oil-rods", Days(90), drive),
        ("fluid-level", Days(30), &[Caution::MadeSafe][..]),
        ("clean-jaws", Pieces(200), air),
        ("jaw-check", Days(90), drive),
        ("gauge-calibration", Days(365), &[][..]),
    ]
    .into_iter()
    .map(|(key, interval, cautions)| Task {
        key: key.to_owned(),
        name: String::new(),
        interval,
        usual: true,
        cautions: cautions.to_vec(),
    })
    .collect()
}

/// How every task of every press stands on a day, what is due first. `pieces`
/// says how many pieces a press has laced by now, where that is known.
pub fn due_list(
    tasks: &[Task],
    log: &[UpkeepEntry],
    presses: &[String],
    today: IsoDate,
    pieces: impl Fn(&str) -> Option<u32>,
) -> Vec<TaskDue> {
    let mut list: Vec<TaskDue> = presses
        .iter()
        .flat_map(|press| tasks.iter().map(move |task| (press, task)))
        .map(|(press, task)| {
            let entries = log
                .iter()
                .filter(|entry| entry.press == *press && entry.task == task.key);
            let last = entries.max_by_key(|entry| entry.day);
            TaskDue {
                press: press.clone(),
                task: task.key.clone(),
                due: due(task.interval, last, today, pieces(press)),
                last: last.cloned(),
            }
        })
        .collect();
    list.sort_by_key(|task| match task.due {
        Due::Since(day) => (0, day.day_number()),
        Due::PiecesOver(over) => (1, -i64::from(over)),
        Due::NeverDone => (2, 0),
        Due::On(day) => (3, day.day_number()),
        Due::PiecesLeft(left) => (4, i64::from(left)),
        Due::PiecesUnknown => (5, 0),
    });
    list
}

fn due(interval: Interval, last: Option<&UpkeepEntry>, today: IsoDate, pieces: Option<u32>) -> Due {
    let Some(last) = last else {
        return Due::NeverDone;
    };
    match interval {
        Interval::Days(days) => match last.day.later(i64::from(days)) {
            Some(day) if day <= today => Due::Since(day),
            Some(day) => Due::On(day),
            None => Due::PiecesUnknown,
        },
        Interval::Pieces(most) => match pieces.zip(last.pieces) {
            Some((now, then)) => {
                let since = now.saturating_sub(then);
                match most.checked_sub(since) {
                    Some(left) if left > 0 => Due::PiecesLeft(left),
                    _ => Due::PiecesOver(since - most),
                }
            }
            None => Due::PiecesUnknown,
        },
    }
}
