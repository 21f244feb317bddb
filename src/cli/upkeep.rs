//! `upkeep`: what is due at the presses of a folder, and noting it as done.

use std::num::NonZeroU32;
use std::path::PathBuf;

use serde::Serialize;

use crate::session::{Caution, IsoDate};
use crate::shop::{Entry, Interval, Noted, TaskDue, Upkeep, UpkeepEdit};
use crate::store::{self, ShopReader, UPKEEP_FILE, UpkeepProblem};
use crate::units::Unit;
use crate::words::{Figures, Language, shortened};

use super::many::json;
use super::options::{Files, OptionProblem, Options, Slot};
use super::sentences::option_problem;
use super::shop::{Unread, tell_unread, unread};
use super::{Console, Done};

/// Options of `upkeep`.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct UpkeepOptions {
    folder: Option<PathBuf>,
    press: Option<String>,
    done: Option<String>,
    laced: Option<usize>,
    who: Option<String>,
    json: bool,
}

impl Options for UpkeepOptions {
    fn files(&mut self) -> Files<'_> {
        Files::One(&mut self.folder)
    }

    fn slot(&mut self, option: &str) -> Option<Slot<'_>> {
        Some(match option {
            "--press" => Slot::Text(&mut self.press),
            "--done" => Slot::Text(&mut self.done),
            "--laced" => Slot::Count("--laced", &mut self.laced),
            "--who" => Slot::Text(&mut self.who),
            "--json" => Slot::Flag(&mut self.json),
            _ => return None,
        })
    }
}

/// A task of a press, for other programs.
#[derive(Serialize)]
struct DueLine<'a> {
    press: &'a str,
    task: &'a str,
    words: &'a str,
    to_do: bool,
    says: String,
    every_days: Option<u32>,
    every_pieces: Option<u32>,
    default: bool,
    last_done: Option<String>,
    who: Option<&'a str>,
    cautions: Vec<String>,
}

/// Notes what is to be noted, and tells what is due. Answers whether no file
/// failed.
pub(super) fn run(options: &UpkeepOptions, console: &mut Console<'_>) -> Done {
    let words = console.language;
    let problem = |problem| option_problem(words, &problem);
    let folder = options.folder.as_deref();
    let folder = folder.ok_or_else(|| problem(OptionProblem::NoFolder))?;
    let figures = Figures::exact(words, Unit::Inch);
    let mut reader = ShopReader::new(folder, None);
    reader
        .look(&mut |_| true)
        .map_err(|problem| words.with_path(words.disk_refusal(problem), folder.display()))?;
    let shop = reader.shop();
    let said = |problem: &UpkeepProblem| figures.upkeep_problem(problem, folder);
    let upkeep = shop.upkeep.clone();
    let mut upkeep = upkeep.map_err(|problem| said(&UpkeepProblem::Open(problem)))?;
    if let Some(name) = &options.press
        && !upkeep.presses(&shop.books).contains(name.trim())
    {
        let presses = upkeep.presses(&shop.books).into_iter();
        let presses: Vec<String> = presses.map(|name| words.press_name(name)).collect();
        return Err(words.upkeep_no_press(shortened(name), presses.join(", ")));
    }
    let today = IsoDate::parse(&store::today()).map_err(|_| words.upkeep_no_day().to_owned())?;
    let all = noted(options, &upkeep, words)?;
    let file = folder.join(UPKEEP_FILE);
    if !all.is_empty() && store::holds_comments(&file) {
        let sentence = words.comments_not_kept().to_owned();
        console.complain(&words.with_path(sentence, file.display()));
    }
    for noted in all {
        let needed = |text: &Option<String>, option| {
            text.as_deref()
                .map(|text| text.trim().to_owned())
                .ok_or_else(|| problem(OptionProblem::Needed(option)))
        };
        let entry = Entry {
            press: needed(&options.press, "--press")?,
            noted,
            day: today,
            who: needed(&options.who, "--who")?,
            taken_back: String::new(),
        };
        let line = words.upkeep_line(&entry, &upkeep.tasks());
        let edit = UpkeepEdit::Note(entry);
        upkeep = store::keep_upkeep(folder, &edit).map_err(|problem| said(&problem))?;
        if !options.json {
            console.say(&words.upkeep_noted(line));
        }
    }
    let mut list = upkeep.due_list(&shop.books, today);
    if let Some(press) = &options.press {
        list.retain(|task| task.press == press.trim());
    }
    let unread = unread(&shop, &figures);
    if options.json {
        for task in &list {
            console.say(&json(&line(task, words)));
        }
        for (file, error) in &unread {
            console.say(&json(&Unread { file, error }));
        }
    } else {
        tell(&list, today, console);
        tell_unread(&unread, console);
    }
    Ok(unread.is_empty())
}

/// The list as text.
fn tell(list: &[TaskDue], today: IsoDate, console: &mut Console<'_>) {
    let words = console.language;
    let to_do = list.iter().filter(|task| task.due.wants_doing()).count();
    console.say(&words.upkeep_heading(today, to_do));
    console.say(words.cautions_manual_first());
    if list.iter().any(|task| !task.task.own) {
        console.say(words.upkeep_defaults());
    }
    console.say("");
    let mut cautions: Vec<Caution> = Vec::new();
    for task in list {
        let name = words.press_name(&task.press);
        let what = words.upkeep_task(&task.task);
        let due = words.upkeep_due(task.due);
        console.say(&format!("{name}: {what} [{}]: {due}", task.task.key));
        console.say(&format!("  {}", words.upkeep_last(task)));
        for caution in task.task.cautions() {
            if !cautions.contains(caution) {
                cautions.push(*caution);
            }
        }
    }
    console.say("");
    console.say(words.cautions_title());
    for caution in cautions {
        console.say(&format!("  {}", words.caution_with_source(caution)));
    }
}

fn line(due: &TaskDue, words: Language) -> DueLine<'_> {
    let task = &due.task;
    let (every_days, every_pieces) = match task.every {
        Interval::Days(days) => (Some(days.get()), None),
        Interval::Pieces(pieces) => (None, Some(pieces.get())),
    };
    let cautions = task.cautions().iter();
    DueLine {
        press: &due.press,
        task: &task.key,
        words: words.upkeep_task(task),
        to_do: due.due.wants_doing(),
        says: words.upkeep_due(due.due),
        every_days,
        every_pieces,
        default: !task.own,
        last_done: due.last.as_ref().map(|last| last.day.to_string()),
        who: due.last.as_ref().map(|last| last.who.as_str()),
        cautions: cautions.map(|it| words.caution_with_source(*it)).collect(),
    }
}

/// What is to be noted.
fn noted(options: &UpkeepOptions, upkeep: &Upkeep, words: Language) -> Result<Vec<Noted>, String> {
    let mut all = Vec::new();
    if let Some(key) = &options.done {
        let tasks = upkeep.tasks();
        if !tasks.iter().any(|task| task.key == *key) {
            let keys: Vec<&str> = tasks.iter().map(|task| task.key.as_str()).collect();
            return Err(words.upkeep_no_task(shortened(key), keys.join(", ")));
        }
        all.push(Noted::Done(key.clone()));
    }
    if let Some(pieces) = options.laced {
        let pieces = u32::try_from(pieces).ok().and_then(NonZeroU32::new);
        let pieces = pieces.ok_or_else(|| words.upkeep_no_number().to_owned())?;
        all.push(Noted::Laced(pieces));
    }
    Ok(all)
}
