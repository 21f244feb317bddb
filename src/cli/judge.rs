//! `judge`: how the last pass of each session stands.

use serde::Serialize;

use crate::session::{Judged, Session};
use crate::splice::Standing;
use crate::words::{Figures, Language};

use super::Console;
use super::figures::figures_of;
use super::many::{Answer, json, over_files};
use super::options::FilesOptions;
use super::table::stations;

#[derive(Serialize)]
struct JudgeLine<'a> {
    file: &'a str,
    unit: &'static str,
    spread: f64,
    tolerance: f64,
    inside: bool,
    thickest: String,
    thinnest: String,
}

/// Judges every file. Answers whether none failed.
pub(super) fn run(options: &FilesOptions, console: &mut Console<'_>) -> bool {
    let language = console.language;
    over_files(options, console, |file, session| {
        judge(file, session, options.json, language)
    })
}

fn judge(file: &str, session: &Session, as_json: bool, language: Language) -> Answer {
    let figures = figures_of(session, language);
    let judged = session
        .last_judged()
        .map_err(|problem| figures.not_judged(session, problem))?;
    if !as_json {
        return Ok(judged_text(Some(file), session, &judged, &figures));
    }
    Ok(json(&JudgeLine {
        file,
        unit: session.unit.mark(),
        spread: judged.spread.value.in_unit(session.unit),
        tolerance: session.tolerance.length().in_unit(session.unit),
        inside: judged.standing != Standing::Outside,
        thickest: session.station_name(judged.spread.thickest),
        thinnest: session.station_name(judged.spread.thinnest),
    }))
}

/// The whole text about a pass: what it is, its readings and the verdict.
pub(super) fn judged_text(
    file: Option<&str>,
    session: &Session,
    judged: &Judged,
    figures: &Figures,
) -> String {
    [
        heading(file, session, judged, figures.language),
        stations(session, judged, figures),
        verdict(session, judged, figures),
    ]
    .join("\n")
}

fn heading(file: Option<&str>, session: &Session, judged: &Judged, words: Language) -> String {
    let laced = session.passes.get(judged.pass).map(|pass| &pass.laced);
    let pass = words.cli_pass_of(judged.pass + 1, session.passes.len());
    let invented = session.invented.then(|| words.invented());
    [
        file,
        Some(session.press.name.as_str()),
        Some(pass.as_str()),
        laced.map(String::as_str),
        invented,
    ]
    .into_iter()
    .flatten()
    .filter(|part| !part.is_empty())
    .collect::<Vec<_>>()
    .join(", ")
}

/// Spread, tolerance and verdict in one or two sentences.
pub(super) fn verdict(session: &Session, judged: &Judged, figures: &Figures) -> String {
    let words = figures.language;
    let tolerance = session.tolerance.length();
    let spread = figures.with_unit(&figures.spread(judged.spread.value, tolerance));
    let limit = figures.limit(tolerance);
    let numbers = words.spread_and_limit(spread, limit);
    let name = |station: usize| session.station_name(station);
    let stands = match judged.standing {
        Standing::Inside => words.stands_inside().to_owned(),
        Standing::InsideSoFar => {
            let unread: Vec<String> = judged.spread.unread.iter().copied().map(name).collect();
            words.stands_inside_so_far(unread.join(", "))
        }
        Standing::Outside => {
            words.stands_outside(name(judged.spread.thickest), name(judged.spread.thinnest))
        }
    };
    format!("{numbers} {stands}")
}
