//! `judge`: how the last pass of each session stands.

use std::sync::{Mutex, PoisonError};

use serde_json::json;

use crate::session::{
    Confidence, Gate, Judgement, PriorShelf, Session, SettledBy, Stands, VerdictWorkspace,
    Verdicts, Whose,
};
use crate::splice::{Settling, Verdict};
use crate::words::{Figures, Language};

use super::figures::{doubt_lines, figures_of, missing_names, predicted_in};
use super::many::{Answer, FilesOptions, over_files};
use super::table::stations;
use super::{Console, Done};

/// What judging many sessions shares: priors by geometry, and a workspace for
/// every thread at work.
#[derive(Default)]
struct Judge {
    shelf: PriorShelf,
    idle: Mutex<Vec<VerdictWorkspace>>,
}

/// Judges every file. Answers whether none failed.
pub(super) fn run(options: &FilesOptions, console: &mut Console<'_>) -> Done {
    let language = console.language;
    let judge = Judge::default();
    Ok(over_files(options, console, |file, session| {
        judge.answer(file, session, options, language)
    }))
}

impl Judge {
    fn answer(
        &self,
        file: &str,
        session: &Session,
        options: &FilesOptions,
        language: Language,
    ) -> Answer {
        let figures = figures_of(session, language);
        let gate = session.last_gate();
        let Some(pass) = gate.pass else {
            return Err(language.no_pass_yet().to_owned());
        };
        let confidence = options.confidence.unwrap_or(session.acceptance.confidence);
        // Figures beyond any press still have their plain comparison.
        let settled_by = match options.json {
            true => SettledBy::Readings,
            false => SettledBy::Anything,
        };
        let verdicts = self.verdicts(session, pass, confidence, settled_by);
        if options.json {
            Ok(judge_line(
                file,
                session,
                &gate,
                confidence,
                verdicts.as_ref(),
            ))
        } else {
            let mut text = judged_text(Some(file), session, &gate, &figures);
            let verdicts = verdicts.iter();
            for sentence in verdicts.flat_map(|v| figures.verdict_sentences(session, &gate, v)) {
                text.push('\n');
                text.push_str(&sentence);
            }
            Ok(text)
        }
    }

    fn verdicts(
        &self,
        session: &Session,
        pass: usize,
        confidence: Confidence,
        settled_by: SettledBy,
    ) -> Option<Verdicts> {
        let idle = || self.idle.lock().unwrap_or_else(PoisonError::into_inner);
        let mut workspace = idle().pop().unwrap_or_default();
        let verdicts = session.verdicts(pass, confidence, settled_by, &self.shelf, &mut workspace);
        idle().push(workspace);
        verdicts.ok()
    }
}

fn judge_line(
    file: &str,
    session: &Session,
    gate: &Gate,
    confidence: Confidence,
    verdicts: Option<&Verdicts>,
) -> String {
    let line = |judgement: Judgement| {
        json!({
            "chance": judgement.chance,
            "verdict": verdict_name(judgement.verdict),
        })
    };
    let piece = verdicts.map(|verdicts| verdicts.piece);
    let chance = piece.map(|piece| piece.chance);
    let inside = gate.stands == Stands::Inside;
    let budgets = session.budgets(gate.pass.unwrap_or_default(), Whose::Piece);
    let spread = gate.spread.as_ref();
    let name = |station: usize| session.station_name(station);
    let measure_again = match verdicts.map(|verdicts| &verdicts.settles_piece) {
        Some(Settling::Readings { again, .. }) => again.as_slice(),
        _ => &[],
    };
    let again = measure_again.iter().map(|again| {
        json!({
            "station": session.station_name(again.station),
            "times": again.times,
        })
    });
    let u = budgets
        .iter()
        .map(|budget| Some(predicted_in(budget.as_ref()?.u_nm, session.unit)));
    json!({
        "file": file,
        "unit": session.unit.mark(),
        // None before two counting stations are read and not doubtful.
        "spread": spread.map(|spread| spread.value.in_unit(session.unit)),
        "tolerance": session.tolerance.length().in_unit(session.unit),
        "inside": inside,
        "thickest": spread.map(|spread| name(spread.thickest)),
        "thinnest": spread.map(|spread| name(spread.thinnest)),
        "accepted": session.acceptance.accepts(inside, chance),
        "chance": chance,
        "verdict": verdict_name(piece.map_or(Verdict::TooClose, |piece| piece.verdict)),
        "confidence": confidence.share(),
        "u": u.collect::<Vec<_>>(),
        "measure_again": again.collect::<Vec<_>>(),
        "piece": piece.map(line),
        "press": verdicts.map(|verdicts| line(verdicts.press)),
        "missing": missing_names(session, gate),
        "doubtful": doubt_lines(session, gate),
        "next_piece": verdicts.map(|verdicts| verdicts.next_piece),
    })
    .to_string()
}

const fn verdict_name(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Inside => "inside",
        Verdict::Outside => "outside",
        Verdict::TooClose => "too close",
    }
}

/// The whole text about a pass: what it is, its readings and the verdict.
pub(super) fn judged_text(
    file: Option<&str>,
    session: &Session,
    gate: &Gate,
    figures: &Figures,
) -> String {
    [
        heading(file, session, gate, figures.language),
        stations(session, gate, figures),
        figures.judged(session, gate),
    ]
    .join("\n")
}

fn heading(file: Option<&str>, session: &Session, gate: &Gate, words: Language) -> String {
    let pass = gate.pass.unwrap_or_default();
    let laced = session.passes.get(pass).map(|pass| &pass.laced);
    let pass = words.cli_pass_of(pass + 1, session.passes.len());
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
