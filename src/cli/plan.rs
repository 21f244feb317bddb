//! `plan`: the whole-notch turns to make after the last pass of each session.

use std::path::Path;
use std::sync::{Mutex, PoisonError};
use std::time::Instant;

use serde_json::{Value, json};

use crate::plan::{BestAct, OptionKind, PlanOption};
use crate::press::{ArmIndex, Notches, NutPosition};
use crate::session::{
    Advice, AdviceWorkspace, Confidence, Gate, PlanningProblem, PriorShelf, Remark, Session, Whose,
    Wishes,
};
use crate::store::{self, SampleSession};
use crate::units::Unit;
use crate::words::{Figures, Language};

use super::figures::{doubt_lines, figures_of, missing_names, predicted_in, promised_in};
use super::judge::judged_text;
use super::many::{Answer, FilesOptions, over_files, without_nothing};
use super::options::options;
use super::table::aligned;
use super::{Console, Done};

options! {
    /// Options of `plan`.
    PlanOptions(of: FilesOptions) {
        outward_only: Flag = "--outward-only",
        most_nuts: Count = "--most-nuts",
    }
}

/// What planning many sessions shares: priors by geometry, and a workspace for
/// every thread at work.
#[derive(Default)]
struct Planner {
    shelf: PriorShelf,
    idle: Mutex<Vec<AdviceWorkspace>>,
}

/// What was worked out for one session.
struct Planned {
    figures: Figures,
    /// The advice, or what stands before any.
    advice: Result<Advice, Box<Gate>>,
    seconds: f64,
}

impl Planner {
    fn plan(
        &self,
        session: &Session,
        wishes: Wishes,
        language: Language,
    ) -> Result<Planned, String> {
        let figures = figures_of(session, language);
        let idle = || self.idle.lock().unwrap_or_else(PoisonError::into_inner);
        let mut workspace = idle().pop().unwrap_or_default();
        // No pass at all is found by the advice.
        let last = session.passes.len().saturating_sub(1);
        let begun = Instant::now();
        let advice = session.advise(last, wishes, &self.shelf, &mut workspace);
        let seconds = begun.elapsed().as_secs_f64();
        idle().push(workspace);
        let advice = match advice {
            Ok(advice) => Ok(advice),
            Err(PlanningProblem::NotClear(gate)) if gate.pass.is_some() => Err(gate),
            Err(problem) => return Err(figures.planning_problem(session, &problem)),
        };
        Ok(Planned {
            figures,
            advice,
            seconds,
        })
    }
}

/// Plans for every file. Answers whether none failed.
pub(super) fn run(options: &PlanOptions, console: &mut Console<'_>) -> Done {
    let language = console.language;
    let planner = Planner::default();
    let wishes = Wishes {
        most_nuts: options.most_nuts,
        outward_only: options.outward_only,
    };
    Ok(over_files(&options.of, console, |file, session| {
        let own = session.acceptance.confidence;
        let confidence = options.of.confidence.unwrap_or(own);
        let planned = planner.plan(session, wishes, language)?;
        Ok(if options.of.json {
            plan_line(file, session, &planned)
        } else {
            text(Some(file), session, confidence, &planned)
        })
    }))
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
    let answer = (console.language)
        .sample_session(SampleSession::default())
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
    let planned = Planner::default().plan(session, Wishes::default(), language)?;
    Ok(text(
        name.as_deref(),
        session,
        session.acceptance.confidence,
        &planned,
    ))
}

/// Parts of a line that are left out where they say nothing.
const OPTIONAL: [&str; 2] = ["outside_limits", "visits_left_out"];

fn plan_line(file: &str, session: &Session, planned: &Planned) -> String {
    let unit = session.unit;
    let advice = match &planned.advice {
        Ok(advice) => advice,
        Err(gate) => return measure_line(file, session, gate, planned.seconds),
    };
    let act = first_act(session, advice);
    // No turns but with the act of turning: whoever reads the line may make them.
    let leave = advice.choice.options.first();
    let answered = leave.filter(|_| act != BestAct::Turn);
    let answered = answered.unwrap_or(advice.recommended());
    let left_out = advice.learnt_from.left_out.iter();
    let options = advice.choice.options.iter();
    let smallest = json!({
        "turns": advice.smallest.turns.iter().map(|turn| turn.0).collect::<Vec<_>>(),
        "spread": promised_in(&advice.smallest, advice, unit),
        // Written only where the search gave up before it could prove it.
        "proven": (!advice.proven).then_some(false),
    });
    let line = json!({
        "file": file,
        "unit": unit.mark(),
        "action": action_key(act),
        "missing": [],
        "doubtful": [],
        "outside_limits": arm_names(&advice.outside_limits),
        "visits_left_out": left_out.map(|visit| &visit.session).collect::<Vec<_>>(),
        "turns": answered.turns,
        "spread": predicted_in(answered.forecast.median_nm, unit),
        "chance": answered.forecast.chance,
        "options": options.map(|option| option_line(option, unit)).collect::<Vec<_>>(),
        "smallest_spread": without_nothing(smallest, &["proven"]),
        "seconds": planned.seconds,
    });
    without_nothing(line, &OPTIONAL).to_string()
}

/// What to do first. Where single readings alone call the piece outside, and
/// only just, one more of each comes before any turn.
fn first_act(session: &Session, advice: &Advice) -> BestAct {
    match advice.choice.action {
        BestAct::Turn if reads_again(session, advice) => BestAct::MeasureAgain,
        act => act,
    }
}

fn reads_again(session: &Session, advice: &Advice) -> bool {
    let pass = advice.gate.pass;
    pass.is_some_and(|pass| !session.repeat_before_outside(pass).is_empty())
}

/// The answer where something is missing or doubtful: measure, turn nothing.
fn measure_line(file: &str, session: &Session, gate: &Gate, seconds: f64) -> String {
    let spread = gate.spread.as_ref();
    let line = json!({
        "file": file,
        "unit": session.unit.mark(),
        "action": "measure",
        "missing": missing_names(session, gate),
        "doubtful": doubt_lines(session, gate),
        "outside_limits": arm_names(&session.outside_limits(gate.pass.unwrap_or_default())),
        "turns": vec![0; session.press.arms.len()],
        // Of what was read, if that says it.
        "spread": spread.map(|spread| spread.value.in_unit(session.unit)),
        "chance": null,
        "options": [],
        "smallest_spread": null,
        "seconds": seconds,
    });
    without_nothing(line, &OPTIONAL).to_string()
}

fn arm_names(arms: &[ArmIndex]) -> Vec<String> {
    arms.iter().map(ToString::to_string).collect()
}

fn option_line(option: &PlanOption, unit: Unit) -> Value {
    json!({
        "kind": match option.kind {
            OptionKind::Leave => "leave",
            OptionKind::Nuts(_) => "nuts",
            OptionKind::Outward => "outward",
        },
        "turns": option.turns,
        "nuts": option.nuts,
        "spread": predicted_in(option.forecast.median_nm, unit),
        "spread90": predicted_in(option.forecast.p90_nm, unit),
        "chance": option.forecast.chance,
        "pieces": option.pieces,
        "minutes": option.minutes,
    })
}

fn text(
    file: Option<&str>,
    session: &Session,
    confidence: Confidence,
    planned: &Planned,
) -> String {
    let figures = &planned.figures;
    let words = figures.language;
    let advice = match &planned.advice {
        Ok(advice) => advice,
        Err(gate) => {
            let judged = judged_text(file, session, gate, figures);
            return format!("{judged}\n{}", figures.doubt_first(gate));
        }
    };
    let turns = advice.turns();
    let findings = advice.findings().unwrap_or_default();
    let remarks = advice.remarks(session, &turns, &findings);
    let limit = session.tolerance.length();
    let say = |remark: &Remark| figures.plan_remark(remark, limit);
    let mut parts = vec![judged_text(file, session, &advice.gate, figures)];
    if advice.accepted {
        parts.push(words.inside_leave_alone().to_owned());
    } else {
        let turns_now = first_act(session, advice) == BestAct::Turn;
        if let Some(pass) = advice.gate.pass.filter(|_| turns_now)
            && let Some(doubt) = session.turn_doubt(pass, &session.shape_of(pass, Whose::Press))
        {
            parts.push(format!(
                "⚠ {}",
                figures.before_turns_sentence(session, &doubt)
            ));
        }
        // The verdict above asks for the readings.
        if !reads_again(session, advice) {
            parts.push(words.first_action(advice).to_owned());
        }
        // Made safe, and what is doubtful, before any turn.
        parts.push(format!(
            "{} {}",
            words.caution_heading(),
            words.caution_text()
        ));
        parts.extend(remarks.iter().filter(|remark| remark.is_caution()).map(say));
        if turns_now {
            parts.extend(figures.assumed_notch(session, advice));
            let seen = figures.ways(&session.press, &turns);
            parts.push(words.cli_turns(words.out_opens_in_closes(), seen));
            let nuts = session.nuts_at(advice.gate.pass.unwrap_or_default());
            parts.push(turns_table(session, &turns, nuts, figures));
            let forecast = advice.recommended().forecast;
            parts.push(figures.promise(&turns, forecast));
            if forecast.chance >= confidence.share() {
                parts.push(words.plan_is_sure(figures.share(confidence.share())));
            }
        }
        parts.push(options_table(advice, figures));
    }
    let left_out = advice.learnt_from.left_out.iter();
    parts.extend(left_out.map(|visit| words.left_out(visit)));
    let said_already = |remark: &&Remark| !advice.accepted && remark.is_caution();
    parts.extend(
        remarks
            .iter()
            .filter(|remark| !said_already(remark))
            .map(say),
    );
    parts.join("\n")
}

/// The ways to go on: turns, median and 90 % limit of the next piece's spread,
/// chance, further pieces.
fn options_table(advice: &Advice, figures: &Figures) -> String {
    let words = figures.language;
    let spread = |nm: f64| figures.with_unit(&figures.predicted(nm));
    let mut rows: Vec<Vec<String>> = vec![vec![
        words.column_turns().to_owned(),
        words.column_next_piece().to_owned(),
        words.column_ninety().to_owned(),
        words.column_chance().to_owned(),
        words.column_until().to_owned(),
    ]];
    for option in &advice.choice.options {
        let turns: Vec<Notches> = option.turns.iter().copied().map(Notches).collect();
        rows.push(vec![
            figures.turns(&turns),
            spread(option.forecast.median_nm),
            spread(option.forecast.p90_nm),
            figures.chance(option.forecast.chance),
            figures.until_a_piece_passes(option),
        ]);
    }
    aligned(&rows)
}

fn turns_table(
    session: &Session,
    turns: &[Notches],
    nuts: &[NutPosition],
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
                words.from_to(from, *from + *turn)
            };
            let wrench = session.press.wrench_way(*turn);
            let wrench = wrench.map_or("", |way| words.wrench(way)).to_owned();
            vec![arm.to_string(), figures.turn(*turn), wrench, position]
        })
        .collect();
    aligned(&rows)
}

/// What to do first, for other programs.
pub(super) const fn action_key(action: BestAct) -> &'static str {
    match action {
        BestAct::Accept => "accept",
        BestAct::MeasureAgain => "measure",
        BestAct::LaceAgain => "lace",
        BestAct::Turn => "turn",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::store::SampleSession;

    /// What the nuts reach at best is said of a search that ended, and only
    /// where it is more than the limit.
    #[test]
    fn what_the_nuts_reach_is_said_as_far_as_it_is_proven() {
        let language = Language::English;
        let said = |sample: SampleSession, proven: bool| {
            let session = sample.session().unwrap();
            let mut workspace = AdviceWorkspace::default();
            let shelf = PriorShelf::default();
            let wishes = Wishes::default();
            let last = session.passes.len() - 1;
            let mut advice = session
                .advise(last, wishes, &shelf, &mut workspace)
                .unwrap();
            advice.proven = proven;
            let figures = figures_of(&session, language);
            let limit = session.tolerance.length();
            let remarks = advice.remarks(&session, &advice.turns(), &[]);
            let said = remarks
                .iter()
                .map(|remark| figures.plan_remark(remark, limit));
            let notes = said.collect::<Vec<_>>().join(" ");
            let no_notches = notes.contains("can't reach 0.003″");
            (no_notches, notes.contains(language.smallest_unproven()))
        };
        assert_eq!(said(SampleSession::BetweenNotches, true), (true, false));
        assert_eq!(said(SampleSession::BetweenNotches, false), (false, true));
        assert_eq!(said(SampleSession::Pinched, true), (false, false));
    }
}
