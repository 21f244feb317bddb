//! `practice`: exercises on a simulated press, from piece to piece.

use std::path::{Path, PathBuf};

use crate::practice::{
    Act, Came, Cure, DebriefDesk, Ending, Exercise, Fault, Help, Level, NutStart, Practice,
    READINGS_IN_A_PIECE, Refusal,
};
use crate::store::{self, Expected, PracticeFile};
use crate::units::{Sign, TypedLength, Unit};
use crate::words::{Figures, Language, shortened};

use super::options::{OptionProblem, Options, notches_per_arm, options, whole_number};
use super::practice_report::{Report, json_report, text_report};
use super::sentences::option_problem;
use super::{Console, Done};

options! {
    /// Options of `practice`.
    PracticeOptions(file: Option<PathBuf>) {
        exercise: Text = "--exercise",
        /// A practice file with an exercise that was handed out.
        from: Text = "--from",
        arms: Text = "--arms",
        fault: Text = "--fault",
        level: Text = "--level",
        unit: Text = "--unit",
        assist: Text = "--assist",
        profile: Text = "--profile",
        title: Text = "--title",
        note: Text = "--note",
        who: Text = "--who",
        when: Text = "--when",
        hand_out: Flag = "--hand-out",
        guess: Text = "--guess",
        advice: Flag = "--advice",
        see_to: Text = "--see-to",
        turned: Text = "--turned",
        flip: Flag = "--flip",
        repeats: Text = "--repeats",
        careless: Text = "--careless",
        accept: Flag = "--accept",
        reveal: Flag = "--reveal",
        record: Text = "--record",
        json: Flag = "--json",
    }
}

/// What goes with the beginning of an exercise only.
const BEGINS: [&str; 11] = [
    "--arms",
    "--fault",
    "--level",
    "--unit",
    "--assist",
    "--profile",
    "--title",
    "--note",
    "--who",
    "--when",
    "--hand-out",
];

/// Runs it.
pub(super) fn run(options: &PracticeOptions, console: &mut Console<'_>) -> Done {
    let begins = options.exercise.is_some() || options.from.is_some();
    if let Some(path) = options.file.as_deref().filter(|_| !begins)
        && store::holds_comments(path)
    {
        let sentence = console.language.comments_not_kept().to_owned();
        console.complain(&console.language.with_path(sentence, path.display()));
    }
    let said = practice(options, console.language)?;
    console.say(&said);
    Ok(true)
}

/// How a piece is read and the press made safe.
#[derive(Debug, Clone, Copy)]
struct Manner {
    safe: bool,
    zero: bool,
    on_mark: bool,
    repeats: usize,
}

fn practice(options: &PracticeOptions, words: Language) -> Result<String, String> {
    let said = |problem: OptionProblem| option_problem(words, &problem);
    let figures = Figures::exact(words, Unit::Inch);
    let manner = manner(options).map_err(said)?;
    let begins = options.exercise.is_some() || options.from.is_some();
    let (path, mut practice, notebook, expected) = if begins {
        let (exercise, path) = exercise(options, words)?;
        if options.hand_out {
            let lesson = PracticeFile::Exercise(exercise.clone());
            store::save_practice(&path, &lesson, Expected::Nothing)
                .map_err(|problem| figures.save_problem(&problem, &path))?;
            return Ok(words.practice_handed_out(exercise.number, path.display()));
        }
        let who = options.who.clone().unwrap_or_default();
        let when = options.when.clone().unwrap_or_else(store::today);
        let practice = Practice::begin(exercise, who, when)
            .map_err(|problem| words.exercise_problem(problem))?;
        (path, practice, None, Expected::Nothing)
    } else {
        if let Some(option) = options.given(&BEGINS) {
            return Err(words.option_only_begins(option));
        }
        let path = options.file.clone();
        let path = path.ok_or_else(|| said(OptionProblem::Needed("--exercise")))?;
        let opened =
            store::open_practice(&path).map_err(|problem| figures.open_problem(&problem, &path))?;
        match opened.file {
            PracticeFile::Work(practice, notebook) => (
                path,
                *practice,
                notebook,
                Expected::Unchanged(opened.fingerprint),
            ),
            PracticeFile::Exercise(_) => return Err(said(OptionProblem::Needed("--from"))),
        }
    };
    let refused = |refusal: Refusal| words.refusal(refusal);
    if begins {
        practice
            .act(Act::Lace { flipped: false })
            .map_err(refused)?;
        measure(&mut practice, manner).map_err(refused)?;
    }
    let advised = go_on(&mut practice, options, manner, words)?;
    let debrief = if options.reveal {
        if practice.ending().is_none() {
            practice.act(Act::GiveUp).map_err(refused)?;
        }
        let debrief = practice
            .debrief(&mut DebriefDesk::default())
            .map_err(|problem| words.exercise_problem(problem))?;
        Some(debrief)
    } else {
        None
    };
    let lesson = PracticeFile::Work(Box::new(practice.clone()), notebook);
    store::save_practice(&path, &lesson, expected)
        .map_err(|problem| figures.save_problem(&problem, &path))?;
    if let (Some(record), Some(debrief)) = (&options.record, &debrief) {
        let record = Path::new(record);
        store::add_to_record(record, &practice, debrief)
            .map_err(|problem| figures.save_problem(&problem, record))?;
    }
    let report = Report {
        path: &path,
        practice: &practice,
        begins,
        advised: advised.as_ref(),
        debrief: debrief.as_ref(),
    };
    Ok(if options.json {
        json_report(&report, words)
    } else {
        text_report(&report, words)
    })
}

fn measure(practice: &mut Practice, manner: Manner) -> Result<(), Refusal> {
    if manner.zero {
        practice.act(Act::ZeroGauge)?;
    }
    practice.measure_as_it_is(manner.repeats, manner.on_mark)
}

/// Carries out what the options ask for, in their fixed order; answers the
/// advice that was asked for.
fn go_on(
    practice: &mut Practice,
    options: &PracticeOptions,
    manner: Manner,
    words: Language,
) -> Result<Option<super::practice_report::Advised>, String> {
    let said = |problem: OptionProblem| option_problem(words, &problem);
    let refused = |refusal: Refusal| words.refusal(refusal);
    let arms = practice.exercise().arms;
    let turns = |option: &'static str, found: &str| {
        notches_per_arm(option, found, arms, i32::from).map_err(said)
    };
    if let Some(guess) = &options.guess {
        let guess = turns("--guess", guess)?;
        practice.act(Act::Guess(guess)).map_err(refused)?;
    }
    let mut advised = None;
    if options.advice {
        practice.act(Act::SeeAdvice).map_err(refused)?;
        advised = Some(super::practice_report::Advised::on(practice));
    }
    if let Some(what) = &options.see_to {
        let cure = named(
            "--see-to",
            what,
            words,
            Cure::from_key,
            &Cure::ALL.map(Cure::key),
        )?;
        if cure.hands_in_press() && manner.safe {
            practice.act(Act::MakeSafe).map_err(refused)?;
        }
        practice.act(Act::SeeTo(cure)).map_err(refused)?;
    }
    if let Some(turned) = &options.turned {
        let turned = turns("--turned", turned)?;
        if let Some(ending) = practice.ending() {
            return Err(refused(Refusal::Over(ending)));
        }
        if manner.safe {
            practice.act(Act::MakeSafe).map_err(refused)?;
        }
        let came = practice.act(Act::Turn(turned)).map_err(refused)?;
        if came != Came::Ended(Ending::Unsafe) {
            let lies = practice.pieces().last().is_some_and(|piece| piece.flipped);
            let flipped = lies != options.flip;
            practice.act(Act::Lace { flipped }).map_err(refused)?;
            measure(practice, manner).map_err(refused)?;
        }
    }
    if options.accept {
        practice.act(Act::Accept).map_err(refused)?;
    }
    Ok(advised)
}

fn manner(options: &PracticeOptions) -> Result<Manner, OptionProblem> {
    let mut manner = Manner {
        safe: true,
        zero: true,
        on_mark: true,
        repeats: READINGS_IN_A_PIECE,
    };
    if let Some(found) = &options.repeats {
        let repeats = whole_number("--repeats", found)?;
        manner.repeats = usize::try_from(repeats)
            .map_err(|_| OptionProblem::Negative("--repeats", found.clone()))?;
    }
    for part in options.careless.iter().flat_map(|list| list.split(',')) {
        match part.trim() {
            "safe" => manner.safe = false,
            "zero" => manner.zero = false,
            "place" => manner.on_mark = false,
            found => return Err(OptionProblem::Extra(found.to_owned())),
        }
    }
    Ok(manner)
}

/// The exercise to begin, and where its state goes.
fn exercise(options: &PracticeOptions, words: Language) -> Result<(Exercise, PathBuf), String> {
    let said = |problem: OptionProblem| option_problem(words, &problem);
    if let Some(from) = &options.from {
        let from = Path::new(from);
        let opened = store::open_practice(from)
            .map_err(|problem| Figures::exact(words, Unit::Inch).open_problem(&problem, from))?;
        let exercise = match opened.file {
            PracticeFile::Exercise(exercise) => exercise,
            // Begun anew, as all are now.
            PracticeFile::Work(practice, _) => Exercise {
                nuts: NutStart::default(),
                ..practice.exercise().clone()
            },
        };
        let path = options.file.clone();
        let path = path.ok_or_else(|| said(OptionProblem::NoFile))?;
        return Ok((exercise, path));
    }
    let begin = options;
    let found = options.exercise.clone().unwrap_or_default();
    let number: u64 = found
        .trim()
        .parse()
        .map_err(|_| said(OptionProblem::Whole("--exercise", found)))?;
    let unit = match begin.unit.as_deref() {
        None => Unit::Inch,
        Some(found) => {
            Unit::from_mark(found).ok_or_else(|| said(OptionProblem::Unit(found.to_owned())))?
        }
    };
    let mut exercise = Exercise::of_number(number, unit);
    choose(&mut exercise, begin, words)?;
    exercise
        .check()
        .map_err(|problem| words.exercise_problem(problem))?;
    let path = options
        .file
        .clone()
        .unwrap_or_else(|| format!("practice-{number}.{}", store::PRACTICE_ENDING).into());
    Ok((exercise, path))
}

/// What is set down otherwise than the number says.
fn choose(exercise: &mut Exercise, begin: &PracticeOptions, words: Language) -> Result<(), String> {
    let said = |problem: OptionProblem| option_problem(words, &problem);
    if let Some(profile) = &begin.profile {
        let unit = exercise.unit;
        let lengths = profile.split(',').zip(1..).map(|(part, number)| {
            TypedLength::parse(part, unit, Sign::Either)
                .map_err(|problem| said(OptionProblem::Length("--profile", number, problem, unit)))
        });
        *exercise = exercise
            .clone()
            .on_press(lengths.collect::<Result<_, _>>()?);
    }
    if let Some(arms) = &begin.arms {
        let found = whole_number("--arms", arms).map_err(said)?;
        exercise.arms = usize::try_from(found)
            .map_err(|_| said(OptionProblem::Negative("--arms", arms.clone())))?;
    }
    if let Some(fault) = &begin.fault {
        let names = Fault::ALL.map(Fault::key);
        exercise.fault = named("--fault", fault, words, Fault::from_key, &names)?;
    }
    if let Some(level) = &begin.level {
        let names = Level::ALL.map(Level::key);
        exercise.level = named("--level", level, words, Level::from_key, &names)?;
    }
    if let Some(help) = &begin.assist {
        let names = Help::ALL.map(Help::key);
        exercise.help = named("--assist", help, words, Help::from_key, &names)?;
    }
    exercise.title = begin.title.clone().unwrap_or_default();
    exercise.note = begin.note.clone().unwrap_or_default();
    Ok(())
}

fn named<T>(
    option: &str,
    found: &str,
    words: Language,
    of: impl Fn(&str) -> Option<T>,
    names: &[&str],
) -> Result<T, String> {
    of(found.trim()).ok_or_else(|| words.option_name(option, names.join(", "), shortened(found)))
}
