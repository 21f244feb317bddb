//! `plan`: the whole-notch turns to make after the last pass of each session.

use std::path::Path;

use serde::Serialize;

use crate::press::Notches;
use crate::session::{Plan, Planning, Session, Wishes};
use crate::store::{self, Sample};
use crate::units::{Length, Unit};
use crate::words::{Figures, Language};

use super::Console;
use super::figures::{figures_of, promised_in};
use super::judge::judged_text;
use super::many::{Answer, json, over_files};
use super::options::PlanOptions;
use super::table::aligned;

#[derive(Serialize)]
struct PlanLine<'a> {
    file: &'a str,
    unit: &'static str,
    turns: Vec<i32>,
    spread: f64,
    smallest_spread: SmallestSpread,
}

#[derive(Serialize)]
struct SmallestSpread {
    turns: Vec<i32>,
    spread: f64,
}

/// Plans for every file. Answers whether none failed.
pub(super) fn run(options: &PlanOptions, console: &mut Console<'_>) -> bool {
    let language = console.language;
    over_files(&options.of, console, |file, session| {
        let (figures, planning) = planned(session, options.wishes, language)?;
        Ok(if options.of.json {
            plan_line(file, session, &planning)
        } else {
            text(Some(file), session, options.wishes, &planning, &figures)
        })
    })
}

/// Judge and plan of one file as text. Answers whether it was done.
pub(super) fn run_on_file(file: &Path, console: &mut Console<'_>) -> bool {
    let answer = match store::open(file) {
        Ok(opened) => planned_text(Some(file), &opened.session, console.language),
        Err(problem) => Err(Figures::exact(console.language, Unit::Inch).why_not_opened(&problem)),
    };
    match answer {
        Ok(text) => {
            console.say(&text);
            true
        }
        Err(sentence) => {
            let sentence = console.language.with_path(sentence, file.display());
            console.complain(&sentence);
            false
        }
    }
}

/// Judge and plan of the built-in sample as text. Answers whether it was done.
pub(super) fn run_on_sample(console: &mut Console<'_>) -> bool {
    let figures = Figures::exact(console.language, Unit::Inch);
    let answer = Sample::default()
        .session()
        .map_err(|problem| figures.why_not_opened(&problem))
        .and_then(|session| planned_text(None, &session, console.language));
    match &answer {
        Ok(text) => console.say(text),
        Err(sentence) => console.complain(sentence),
    }
    answer.is_ok()
}

fn planned_text(file: Option<&Path>, session: &Session, language: Language) -> Answer {
    let name = file.map(Path::to_string_lossy);
    let (figures, planning) = planned(session, Wishes::default(), language)?;
    let wishes = Wishes::default();
    Ok(text(name.as_deref(), session, wishes, &planning, &figures))
}

fn planned(
    session: &Session,
    wishes: Wishes,
    language: Language,
) -> Result<(Figures, Planning), String> {
    let figures = figures_of(session, language);
    // No pass at all is found by the planning.
    let last = session.passes.len().saturating_sub(1);
    let planning = session
        .plan(last, wishes)
        .map_err(|problem| figures.planning_problem(session, &problem))?;
    Ok((figures, planning))
}

fn numbers(plan: &Plan) -> Vec<i32> {
    plan.turns.iter().map(|turn| turn.0).collect()
}

fn plan_line(file: &str, session: &Session, planning: &Planning) -> String {
    let unit = session.unit;
    json(&PlanLine {
        file,
        unit: unit.mark(),
        turns: numbers(&planning.recommended),
        spread: promised_in(&planning.recommended, planning, unit),
        smallest_spread: SmallestSpread {
            turns: numbers(&planning.smallest),
            spread: promised_in(&planning.smallest, planning, unit),
        },
    })
}

fn text(
    file: Option<&str>,
    session: &Session,
    wishes: Wishes,
    planning: &Planning,
    figures: &Figures,
) -> String {
    let words = figures.language;
    let mut parts = vec![judged_text(file, session, &planning.judged, figures)];
    let plan = &planning.recommended;
    let inside = planning.judged.spread.value <= session.tolerance.length().into();
    let promised = |plan: &Plan| figures.with_unit(&figures.predicted(plan.spread_nm));
    if inside {
        parts.push(words.inside_leave_alone().to_owned());
    } else if plan.leaves_all() {
        parts.push(words.cli_no_better_turns().to_owned());
    } else {
        parts.push(words.cli_turns(words.out_opens_in_closes()));
        let nuts = session.nuts_at(planning.judged.pass);
        parts.push(turns_table(session, &plan.turns, nuts, figures));
        parts.push(words.turns_should_bring(figures.turns(&plan.turns), promised(plan)));
    }
    let limit = session.tolerance.length();
    // Said only of what the nuts can do, not of what the user lets them.
    let free = wishes == Wishes::default();
    let free = free && planning.held.is_empty();
    if free && !inside && planning.smallest.spread_nm > limit.nm_f64() + 0.5 {
        parts
            .push(words.no_whole_notches_reach(promised(&planning.smallest), figures.limit(limit)));
    }
    if let Some(reach) = &planning.reach {
        // Rounded up: what is promised must be kept.
        let always = Length::from_nm(reach.always.nm_f64().ceil() as i64);
        parts.push(words.cli_reach(reach.arms, figures.plain(always)));
    }
    for arm in &planning.held {
        parts.push(words.cli_held(arm));
    }
    for arm in &planning.outside_limits {
        parts.push(words.cli_stands_outside_limits(arm));
    }
    if !plan.leaves_all() {
        parts.push(format!(
            "{} {}",
            words.caution_heading(),
            words.caution_text()
        ));
    }
    parts.join("\n")
}

fn turns_table(
    session: &Session,
    turns: &[Notches],
    nuts: &[Notches],
    figures: &Figures,
) -> String {
    let words = figures.language;
    let rows: Vec<Vec<String>> = session
        .press
        .indexed_arms()
        .zip(turns.iter().zip(nuts))
        .map(|((arm, _), (turn, from))| {
            let position = if turn.0 == 0 {
                words.stays_at(from)
            } else {
                words.from_to(from, from.turned(*turn))
            };
            vec![arm.to_string(), figures.turn(*turn), position]
        })
        .collect();
    aligned(&rows)
}
