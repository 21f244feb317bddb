//! `shop`: what the sessions of a folder say together, press by press.

use std::collections::BTreeMap;
use std::path::PathBuf;

use serde_json::{Value, json};

use crate::session::{IsoDate, PriorShelf, Session};
use crate::shop::{
    Drift, NINETY_FIVE, NextCheck, NoDrift, Outcome, PressBook, Taught, Trend, by_need,
};
use crate::splice::Spread;
use crate::store::{Shop, ShopReader, today};
use crate::units::Unit;
use crate::words::Figures;

use super::many::unread_line;
use super::options::{OptionProblem, options};
use super::sentences::option_problem;
use super::{Console, Done};

options! {
    /// Options of `shop`.
    ShopOptions(folder: Option<PathBuf>) {
        json: Flag = "--json",
    }
}

/// Files and folders of a shop that could not be read, and why.
pub(super) fn unread(shop: &Shop, figures: &Figures) -> Vec<(String, String)> {
    let closed = shop.closed.iter();
    let closed = closed.map(|(name, why)| (name.clone(), figures.language.disk_refusal(*why)));
    let unread = shop.unread.iter();
    let unread = unread.map(|(name, why)| (name.clone(), figures.why_not_opened(why)));
    closed.chain(unread).collect()
}

/// Tells of them.
pub(super) fn tell_unread(unread: &[(String, String)], console: &mut Console<'_>) {
    let words = console.language;
    if !unread.is_empty() {
        console.say("");
        console.say(words.shop_unreadable());
        for (file, why) in unread {
            console.say(&format!("  {}", words.with_path(why.clone(), file)));
        }
    }
}

/// Reads the folder and tells. Answers whether no file failed.
pub(super) fn run(options: &ShopOptions, console: &mut Console<'_>) -> Done {
    let words = console.language;
    let folder = options.folder.as_deref();
    let folder = folder.ok_or_else(|| option_problem(words, &OptionProblem::NoFolder))?;
    let figures = Figures::exact(words, Unit::Inch);
    let mut reader = ShopReader::new(folder, None);
    let mut sessions: BTreeMap<String, Session> = BTreeMap::new();
    reader
        .look_and_hand_on(&mut |_| true, &mut |name, session| {
            sessions.insert(name, session);
        })
        .map_err(|problem| words.with_path(words.disk_refusal(problem), folder.display()))?;
    let mut shop = reader.shop();
    let unread = unread(&shop, &figures);
    let shelf = PriorShelf::default();
    let taught = |book: &PressBook| {
        let visits = book.visits.iter();
        let of_press = visits.filter_map(|visit| sessions.remove(&visit.file));
        Taught::of(&of_press.collect::<Vec<_>>(), &shelf)
            .ok()
            .flatten()
    };
    let taught: Vec<Option<Taught>> = shop.books.iter().map(taught).collect();
    for (book, taught) in shop.books.iter_mut().zip(&taught) {
        book.changed = taught.as_ref().and_then(|taught| taught.changed.clone());
    }
    let books = &shop.books;
    if options.json {
        for (book, taught) in books.iter().zip(&taught) {
            console.say(&line(book, taught.as_ref()).to_string());
        }
        for (file, error) in &unread {
            console.say(&unread_line(file, error));
        }
    } else {
        console.say(&words.shop_summary(books.len(), shop.sessions));
        let today = IsoDate::parse(&today()).ok();
        let upkeep = today.zip(shop.upkeep.as_ref().ok());
        let upkeep = upkeep.map(|(today, upkeep)| upkeep.due_list(books, today));
        let upkeep = upkeep.unwrap_or_default();
        let by_need = by_need(books, today, &upkeep);
        if !by_need.is_empty() {
            let headline = figures.shop_headline(books, &by_need, today);
            console.say(&headline.sentence);
            headline.first.iter().for_each(|first| console.say(first));
        }
        for (book, taught) in books.iter().zip(&taught) {
            console.say("");
            for text in told(book, taught.as_ref(), &figures) {
                console.say(&text);
            }
        }
        if !shop.practice.is_empty() {
            console.say("");
            console.say(&words.shop_practice(shop.practice.join(", ")));
        }
        tell_unread(&unread, console);
    }
    Ok(unread.is_empty())
}

/// A press as text.
fn told(book: &PressBook, taught: Option<&Taught>, figures: &Figures) -> Vec<String> {
    let words = figures.language;
    let last = book.visits.last();
    let figures = Figures {
        unit: last.map_or(figures.unit, |visit| visit.unit),
        ..*figures
    };
    let name = match book.press.as_str() {
        "" => words.unnamed_press(),
        name => name,
    };
    let minutes = figures.decimal(book.minutes(), 0);
    let mut lines = vec![format!(
        "{name}: {}",
        words.book_line(book.visits.len(), book.pieces(), minutes)
    )];
    let people = book.people();
    if !people.is_empty() {
        lines.push(format!("  {}", words.book_people(people.join(", "))));
    }
    for visit in &book.visits {
        let invented = match visit.invented {
            true => format!(" ({})", words.invented()),
            false => String::new(),
        };
        lines.push(format!("  {}{invented}", figures.visit_summary(visit)));
    }
    if let Some(visit) = last {
        let limit = words.book_tolerance(figures.limit(visit.tolerance));
        lines.push(format!("  {limit}"));
    }
    for nut in book.nuts() {
        lines.push(format!("  {}", figures.nut_book(&nut)));
    }
    let station = |station: usize| book.station_name(station);
    for sentence in figures.drift_sentences(book, &station) {
        lines.push(format!("  {sentence}"));
    }
    lines.push(format!(
        "  {}",
        figures.trend_sentence(Trend::of(&book.visits))
    ));
    let taught = taught.map_or_else(
        || vec![words.taught_nothing_yet().to_owned()],
        |taught| figures.taught_sentences(taught),
    );
    lines.extend(taught.iter().map(|sentence| format!("  {sentence}")));
    if !book.copies.is_empty() {
        lines.push(format!("  {}", words.shop_copies(book.copies.join(", "))));
    }
    lines
}

/// A press, for other programs.
fn line(book: &PressBook, taught: Option<&Taught>) -> Value {
    let mm = |spread: Option<Spread>| spread.map(|spread| spread.value.in_unit(Unit::Millimetre));
    let visits = book.visits.iter().map(|visit| {
        json!({
            "file": visit.file,
            "session": visit.id,
            "made_up": visit.invented,
            "when": visit.when,
            "who": visit.who,
            "ended": match visit.outcome() {
                Outcome::NotMeasured => "not-measured",
                Outcome::Missing => "something-missing",
                Outcome::MeasuredOnce => "found-outside-not-finished",
                Outcome::NotMeasuredSince => "last-piece-not-measured",
                Outcome::InsideAsFound => "inside-as-found",
                Outcome::LeftInside => "left-inside",
                Outcome::LeftOutside => "left-outside",
            },
            "found_mm": mm(visit.found),
            "left_mm": mm(visit.left.filter(|_| visit.was_left())),
            "tolerance_mm": visit.tolerance.in_unit(Unit::Millimetre),
            "pieces": visit.pieces,
        })
    });
    let nuts = book.nuts().into_iter().map(|nut| {
        json!({
            "arm": nut.arm.to_string(),
            "at": nut.at,
            "turned": nut.turned,
            "left_out": nut.left.map(|left| left.0),
            "left_in": nut.left.map(|left| left.1),
        })
    });
    let trend = Trend::of(&book.visits);
    json!({
        "press": book.press,
        "visits": visits.collect::<Vec<_>>(),
        "pieces": book.pieces(),
        "minutes": book.minutes(),
        "people": book.people(),
        "nuts": nuts.collect::<Vec<_>>(),
        "drift": book.drift.as_ref().ok().map(drift_line),
        // Changes from visit to visit that say something about drift.
        "changes": match &book.drift {
            Ok(drift) => drift.changes,
            Err(NoDrift::TooFew(changes)) => *changes,
            Err(NoDrift::NoStations) => 0,
        },
        "copies": book.copies,
        // How the spread as found changes a year.
        "trend": trend.map(|trend| pair(trend.a_year_nm, trend.half_nm)),
        "taught": taught.map(taught_line),
    })
}

/// A figure and half the width of its 95 % interval.
fn pair(nm: f64, half_nm: f64) -> Value {
    json!({ "mm": in_mm(nm), "half_mm": in_mm(half_nm) })
}

fn in_mm(nm: f64) -> f64 {
    nm / Unit::Millimetre.nm() as f64
}

/// What the sessions taught.
fn taught_line(taught: &Taught) -> Value {
    let last = taught.answers.last();
    let answers = last.into_iter().flat_map(|last| &last.per_notch_nm);
    let answers = answers.map(|(nm, sd)| pair(*nm, NINETY_FIVE * sd));
    let changed = taught.changed.iter();
    json!({
        "visits": taught.answers.len(),
        "before_repair": taught.before_repair,
        "repaired": taught.record.repaired,
        // What a notch of each nut does at its own arm.
        "per_notch": answers.collect::<Vec<_>>(),
        // Arms that answer otherwise than they did.
        "changed": changed.map(|changed| changed.arm.to_string()).collect::<Vec<_>>(),
        // How much smaller the spread after the first turns was than turning
        // every arm up to the thickest would be expected to leave.
        "gain": taught.gain.map(|gain| pair(gain.nm, gain.half_nm)),
        "gain_visits": taught.gain.map_or(0, |gain| gain.visits),
    })
}

fn drift_line(drift: &Drift) -> Value {
    let stations = drift.stations.iter();
    json!({
        "days": drift.days,
        "stations": stations.clone().map(|at| at.station).collect::<Vec<_>>(),
        "mm_per_day": stations.clone().map(|at| in_mm(at.rate_nm)).collect::<Vec<_>>(),
        // Half the width of the 95 % interval of each.
        "half_mm_per_day": stations.map(|at| in_mm(at.half_nm)).collect::<Vec<_>>(),
        "scatter_mm": in_mm(drift.scatter_nm),
        "next_check": match drift.next_check {
            NextCheck::By(day) => Some(day.to_string()),
            NextCheck::NotWithin(_) | NextCheck::ScatterAlone => None,
        },
        "scatter_alone": drift.next_check == NextCheck::ScatterAlone,
    })
}
