//! What `practice` answers, for people and for programs.

use std::path::Path;

use serde::Serialize;
use serde_json::{Value, json};

use crate::practice::{Debrief, Decision, Did, Ending, Finish, Practice, Way};
use crate::press::Notches;
use crate::session::{AdviceWorkspace, PriorShelf, Session, Stands, Wishes};
use crate::store;
use crate::units::Unit;
use crate::words::{Figures, Language};

use super::figures::figures_of;
use super::many::without_nothing;
use super::plan::action_key;

/// What is reported.
pub(super) struct Report<'a> {
    pub path: &'a Path,
    pub practice: &'a Practice,
    pub begins: bool,
    pub advised: Option<&'a Advised>,
    pub debrief: Option<&'a Debrief>,
}

/// The program's advice on the last piece; none where it has none.
#[derive(Serialize)]
pub(super) struct Advised {
    /// `accept`, `turn`, `lace` or `measure`; absent where nothing is advised.
    action: Option<&'static str>,
    turns: Vec<i32>,
    chance: Option<f64>,
    minutes: Option<f64>,
}

impl Advised {
    pub fn on(practice: &Practice) -> Self {
        let nothing = Self {
            action: None,
            turns: Vec::new(),
            chance: None,
            minutes: None,
        };
        let Some(last) = practice.pieces().len().checked_sub(1) else {
            return nothing;
        };
        let session = practice.clear_notebook(last);
        let (shelf, mut workspace) = (PriorShelf::default(), AdviceWorkspace::default());
        let Ok(advice) = session.advise(last, Wishes::default(), &shelf, &mut workspace) else {
            return nothing;
        };
        let plan = advice.recommended();
        Self {
            action: Some(action_key(advice.choice.action)),
            turns: plan.turns.clone(),
            chance: Some(plan.forecast.chance),
            minutes: Some(plan.minutes),
        }
    }
}

fn way_line(way: &Way) -> Value {
    json!({
        "pieces": way.pieces,
        "minutes": way.minutes,
        "by_second": way.by_second,
        "passed": way.passed,
    })
}

fn decision_line(decision: &Decision) -> Value {
    let (chosen, best) = (decision.chosen.as_ref(), decision.best.as_ref());
    let (saw_to, ended) = match &decision.did {
        Did::Laced { saw_to, .. } => (saw_to.iter().map(|cure| cure.key()).collect(), None),
        Did::Ended(ending) => (Vec::new(), Some(ending_key(*ending))),
    };
    json!({
        "piece": decision.piece + 1,
        "turns": decision.turns(),
        "saw_to": saw_to,
        "ended": ended,
        "chance": chosen.map(|choice| choice.chance),
        "minutes": chosen.map(|choice| choice.minutes),
        "best_turns": best.map(|choice| &choice.turns),
        "best_chance": best.map(|choice| choice.chance),
        "best_minutes": best.map(|choice| choice.minutes),
        "came_inside": decision.came_inside,
        "best_inside": decision.best_inside,
    })
}

const fn ending_key(ending: Ending) -> &'static str {
    match ending {
        Ending::Accepted => "accepted",
        Ending::SentAway => "sent-away",
        Ending::Unsafe => "unsafe",
        Ending::GivenUp => "given-up",
    }
}

fn in_unit(nm: f64, unit: Unit) -> f64 {
    nm / unit.nm() as f64
}

pub(super) fn json_report(report: &Report<'_>, words: Language) -> String {
    let practice = report.practice;
    let exercise = practice.exercise();
    let unit = exercise.unit;
    let session = practice.notebook(None);
    let last = practice.pieces().last();
    let pass = practice.pieces().len().saturating_sub(1);
    let rows = last
        .map(|piece| piece.readings.as_slice())
        .unwrap_or_default();
    let profile = session.passes.last().map(crate::session::Pass::profile);
    let means = (0..session.stations.len()).map(|station| {
        let mean = profile.as_ref()?.mean(station)?;
        Some(in_unit(mean.nm_f64(), unit))
    });
    let gate = practice.clear_notebook(pass).gate(pass);
    let in_units =
        |profile: &[f64]| -> Vec<f64> { profile.iter().map(|nm| in_unit(*nm, unit)).collect() };
    let readings = rows.iter().map(|row| {
        let shown = row.iter().map(|taken| taken.shown.in_unit(unit));
        shown.collect::<Vec<_>>()
    });
    let spread = gate.spread.as_ref();
    let debrief = report.debrief.map(|debrief| {
        let faults = debrief.faults.iter().map(
            |(fault, arm)| json!({ "fault": fault.key(), "arm": arm.map(|arm| arm.to_string()) }),
        );
        let figures = figures_of(&session, words);
        let remarks = debrief.remarks.iter();
        let decisions = debrief.decisions.iter();
        json!({
            "faults": faults.collect::<Vec<_>>(),
            "result": store::finish_key(debrief.result),
            "pieces": debrief.pieces,
            "minutes": tenths(debrief.minutes),
            // Mean profile of the jaws as found and as left.
            "found": in_units(&debrief.found_nm),
            "left": in_units(&debrief.left_nm),
            "again": way_line(&debrief.again),
            "advised": way_line(&debrief.advised),
            "best": way_line(&debrief.best),
            "arm_by_arm": way_line(&debrief.arm_by_arm),
            "decisions": decisions.map(decision_line).collect::<Vec<_>>(),
            "remarks": remarks.map(|remark| figures.remark(*remark)).collect::<Vec<_>>(),
        })
    });
    let line = json!({
        "file": report.path.to_string_lossy(),
        "practice": true,
        "exercise": exercise.number,
        "title": exercise.title,
        "note": exercise.note,
        "arms": exercise.arms,
        "unit": unit.mark(),
        // From 1.
        "piece": practice.pieces().len(),
        // Where they stand, from flush.
        "nuts": session.nuts_at(pass).iter().map(|nut| nut.0).collect::<Vec<_>>(),
        "flipped": last.is_some_and(|piece| piece.flipped),
        "stations": names(&session),
        "readings": readings.collect::<Vec<_>>(),
        "means": means.collect::<Vec<_>>(),
        "spread": spread.map(|spread| in_unit(spread.value.nm_f64(), unit)),
        "tolerance": session.tolerance.length().in_unit(unit),
        "inside": gate.stands == Stands::Inside,
        "minutes": tenths(practice.minutes()),
        "belt_ends": practice.belt_ends(),
        "hooks": practice.hooks(),
        "stuck": last.is_some_and(|piece| piece.stuck),
        "ended": practice.ending().map(ending_key),
        "advice": report.advised,
        "debrief": debrief,
    });
    without_nothing(line, &["advice", "debrief"]).to_string()
}

fn tenths(minutes: f64) -> f64 {
    (minutes * 10.0).round() / 10.0
}

fn names(session: &Session) -> Vec<String> {
    (0..session.stations.len())
        .map(|station| session.station_name(station))
        .collect()
}

pub(super) fn text_report(report: &Report<'_>, words: Language) -> String {
    let practice = report.practice;
    let exercise = practice.exercise();
    let session = practice.notebook(None);
    let figures = figures_of(&session, words);
    let mut lines = vec![words.practice_mark_long().to_owned()];
    if report.begins {
        let path = report.path.display();
        lines.push(words.practice_began(exercise.number, exercise.arms, path));
        lines.extend(
            [&exercise.title, &exercise.note]
                .into_iter()
                .filter(|t| !t.is_empty())
                .cloned(),
        );
    }
    if let Some(piece) = practice.pieces().last() {
        let number = practice.pieces().len();
        let nuts = session.nuts_at(number.saturating_sub(1)).iter();
        let nuts: Vec<String> = nuts.map(|nut| nut.0.to_string()).collect();
        lines.push(words.practice_piece(number, nuts.join(" ")));
        for (name, row) in names(&session).iter().zip(&piece.readings) {
            let shown: Vec<String> = row
                .iter()
                .map(|taken| figures.reading(taken.shown))
                .collect();
            lines.push(format!("  {name}  {}", shown.join("  ")));
        }
        if piece.stuck {
            lines.push(words.practice_stuck().to_owned());
        }
        lines.push(standing(practice, &session, &figures));
    }
    lines.push(words.practice_used(
        figures.decimal(practice.minutes(), 0),
        practice.belt_ends(),
        practice.hooks(),
    ));
    if let Some(advised) = report.advised {
        lines.push(advice_line(advised, &figures));
    }
    if let Some(ending) = practice.ending() {
        lines.push(words.practice_over(words.ending(ending)));
    }
    if let Some(debrief) = report.debrief {
        lines.push(String::new());
        lines.extend(debrief_lines(debrief, &figures));
    }
    lines.join("\n")
}

fn standing(practice: &Practice, session: &Session, figures: &Figures) -> String {
    let words = figures.language;
    let last = practice.pieces().len().saturating_sub(1);
    let gate = practice.clear_notebook(last).gate(last);
    let stands = match gate.stands {
        Stands::Inside => words.practice_inside(),
        Stands::Outside => words.practice_outside(),
        _ => words.practice_not_read(),
    };
    let limit = session.tolerance.length();
    let spread = gate.spread.map_or_else(
        || "–".to_owned(),
        |spread| figures.with_unit(&figures.spread(&spread, limit)),
    );
    words.practice_spread(spread, figures.limit(limit), stands)
}

fn advice_line(advised: &Advised, figures: &Figures) -> String {
    let words = figures.language;
    match (advised.chance, advised.minutes) {
        (Some(chance), Some(minutes)) => {
            let turns: Vec<Notches> = advised.turns.iter().copied().map(Notches).collect();
            words.practice_advice(
                figures.turns(&turns),
                figures.percentage(chance),
                figures.decimal(minutes, 0),
            )
        }
        _ => words.practice_no_advice().to_owned(),
    }
}

/// The debrief line by line.
fn debrief_lines(debrief: &Debrief, figures: &Figures) -> Vec<String> {
    let words = figures.language;
    let faults = debrief.faults.iter();
    let faults: Vec<String> = faults
        .map(|(fault, arm)| words.fault_at(*fault, *arm))
        .collect();
    let spread = |profile: &[f64]| {
        figures.with_unit(&figures.predicted(crate::practice::spread_nm(profile)))
    };
    let mut lines = vec![
        words.practice_was(faults.join("; ")),
        words.finish(debrief.result).to_owned(),
    ];
    if matches!(debrief.result, Finish::Unsafe | Finish::GivenUp) {
        // Said as an ending, without a capital.
        lines.pop();
    }
    lines.push(figures.cure_known(&debrief.cure));
    lines.push(words.practice_jaws(spread(&debrief.found_nm), spread(&debrief.left_nm)));
    lines.push(words.practice_assumed().to_owned());
    lines.extend(
        debrief
            .decisions
            .iter()
            .map(|decision| figures.decision(decision)),
    );
    lines.push(words.practice_took(debrief.pieces, figures.decimal(debrief.minutes, 0)));
    lines.push(figures.way(words.debrief_again(), &debrief.again));
    lines.push(figures.way(words.debrief_advised(), &debrief.advised));
    lines.push(figures.way(words.debrief_best(), &debrief.best));
    lines.push(figures.way(words.debrief_arm_by_arm(), &debrief.arm_by_arm));
    lines.extend(debrief.remarks.iter().map(|remark| figures.remark(*remark)));
    lines
}
