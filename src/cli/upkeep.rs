//! `upkeep`: what is due at the presses of a folder, and noting it as done.

use std::num::NonZeroU32;
use std::path::PathBuf;

use serde_json::{Value, json};

use crate::session::{Caution, IsoDate};
use crate::shop::{Entry, Interval, Noted, PressBook, TaskDue, Upkeep, UpkeepEdit, When, Whose};
use crate::store::{self, ShopReader, UPKEEP_FILE, UpkeepProblem};
use crate::units::Unit;
use crate::words::{Figures, Language, shortened};

use super::many::unread_line;
use super::options::{OptionProblem, options};
use super::sentences::option_problem;
use super::shop::{tell_unread, unread};
use super::{Console, Done};

options! {
    /// Options of `upkeep`.
    UpkeepOptions(folder: Option<PathBuf>) {
        press: Text = "--press",
        gauge: Text = "--gauge",
        done: Text = "--done",
        on: Text = "--on",
        laced: Count = "--laced",
        who: Text = "--who",
        json: Flag = "--json",
    }
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
    let whose = whose(options, &upkeep, &shop.books, words)?;
    let today = IsoDate::parse(&store::today()).map_err(|_| words.upkeep_no_day().to_owned())?;
    let noted = noted(options, &upkeep, words)?;
    if !noted.is_empty() {
        let file = folder.join(UPKEEP_FILE);
        if store::holds_comments(&file) {
            let sentence = words.comments_not_kept().to_owned();
            console.complain(&words.with_path(sentence, file.display()));
        }
        let needed = |option| problem(OptionProblem::Needed(option));
        let laced = options.laced.is_some();
        let whose = whose
            .as_ref()
            .filter(|whose| !laced || matches!(whose, Whose::Press(_)))
            .ok_or_else(|| needed("--press"))?;
        let who = options.who.as_deref().ok_or_else(|| needed("--who"))?;
        let day = match options.on.as_deref() {
            Some(typed) => {
                let day = IsoDate::parse(typed).ok().filter(|day| *day <= today);
                day.ok_or_else(|| words.upkeep_no_date(shortened(typed)))?
            }
            None => today,
        };
        let entries = noted
            .into_iter()
            .map(|noted| Entry::of(whose, noted, day, who));
        let entries: Vec<Entry> = entries.collect();
        let tasks = upkeep.tasks();
        let lines: Vec<String> = entries
            .iter()
            .map(|entry| words.upkeep_line(entry, &tasks))
            .collect();
        let edit = UpkeepEdit::Note(entries);
        upkeep = store::keep_upkeep(folder, &edit).map_err(|problem| said(&problem))?;
        if !options.json {
            for line in lines {
                console.say(&words.upkeep_noted(line));
            }
        }
    }
    let mut list = upkeep.due_list(&shop.books, today);
    if let Some(whose) = &whose {
        list.retain(|task| task.whose == *whose);
    }
    let unread = unread(&shop, &figures);
    if options.json {
        for task in &list {
            console.say(&line(task, today, words).to_string());
        }
        for (file, error) in &unread {
            console.say(&unread_line(file, error));
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
    let of = |when| list.iter().filter(|task| task.when(today) == when).count();
    let unknown = of(When::NotRecorded);
    console.say(&words.upkeep_heading(today, of(When::Now), unknown, of(When::Soon)));
    console.say(words.cautions_manual_first());
    if list.iter().any(|task| !task.task.own) {
        console.say(words.upkeep_defaults());
    }
    console.say("");
    let mut cautions: Vec<Caution> = Vec::new();
    for task in list {
        let name = words.whose_name(&task.whose);
        let what = words.upkeep_task(&task.task);
        let due = words.upkeep_due(task, today);
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

/// A task of a press or a gauge, for other programs.
fn line(due: &TaskDue, today: IsoDate, words: Language) -> Value {
    let task = &due.task;
    let (every_days, every_pieces) = match task.every {
        Interval::Days(days) => (Some(days.get()), None),
        Interval::Pieces(pieces) => (None, Some(pieces.get())),
    };
    let cautions = task.cautions().iter();
    let (press, gauge) = match &due.whose {
        Whose::Press(press) => (Some(press), None),
        Whose::Gauge(gauge) => (None, Some(gauge)),
    };
    json!({
        "press": press,
        "gauge": gauge,
        "task": task.key,
        "words": words.upkeep_task(task),
        // Past its interval, or never recorded.
        "to_do": due.when(today).is_due(),
        // Whether anything is known of when it was done.
        "recorded": due.when(today) != When::NotRecorded,
        "says": words.upkeep_due(due, today),
        "every_days": every_days,
        "every_pieces": every_pieces,
        "default": !task.own,
        "last_done": due.last.as_ref().map(|last| last.day.to_string()),
        "who": due.last.as_ref().map(|last| &last.who),
        "cautions": cautions.map(|it| words.caution_with_source(*it)).collect::<Vec<_>>(),
    })
}

/// The press or gauge that is meant, where one is named.
fn whose(
    options: &UpkeepOptions,
    upkeep: &Upkeep,
    books: &[PressBook],
    words: Language,
) -> Result<Option<Whose>, String> {
    if let Some(name) = &options.press {
        let presses = upkeep.presses(books);
        if !presses.contains(&name.trim()) {
            let presses = presses.into_iter().map(|name| words.press_name(name));
            let presses: Vec<String> = presses.collect();
            return Err(words.upkeep_no_press(shortened(name), presses.join(", ")));
        }
        return Ok(Some(Whose::Press(name.trim().to_owned())));
    }
    let Some(name) = &options.gauge else {
        return Ok(None);
    };
    let gauges = upkeep.gauges(books);
    if !gauges.contains(&name.trim()) {
        return Err(words.upkeep_no_gauge(shortened(name), gauges.join(", ")));
    }
    Ok(Some(Whose::Gauge(name.trim().to_owned())))
}

/// What is to be noted.
fn noted(options: &UpkeepOptions, upkeep: &Upkeep, words: Language) -> Result<Vec<Noted>, String> {
    let mut all = Vec::new();
    let tasks = upkeep.tasks();
    let known = |key: &str| match tasks
        .iter()
        .any(|task| task.key == key && task.is_of_gauge() == options.gauge.is_some())
    {
        true => Ok(key.to_owned()),
        false => {
            let keys: Vec<&str> = tasks.iter().map(|task| task.key.as_str()).collect();
            Err(words.upkeep_no_task(shortened(key), keys.join(", ")))
        }
    };
    if let Some(key) = &options.done {
        all.push(Noted::Done(known(key)?));
    }
    if let Some(pieces) = options.laced {
        let pieces = u32::try_from(pieces).ok().and_then(NonZeroU32::new);
        let pieces = pieces.ok_or_else(|| words.upkeep_no_number().to_owned())?;
        all.push(Noted::Laced(pieces));
    }
    Ok(all)
}
