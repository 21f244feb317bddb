//! Practice files: an exercise as a trainer hands it out, or the work on one.
//!
//! They begin otherwise than sessions and press files, end otherwise, and each
//! is refused where the other is wanted: what was practiced never counts as
//! work in the shop.

use std::path::Path;

use serde::{Deserialize, Serialize};

use crate::codec::{as_text, is_usual, on_one_line, pretty};
use crate::practice::{Act, Cure, Exercise, Fault, Help, Level, MOST_PIECES, NutStart, Practice};
use crate::session::{PassInFile, Session};
use crate::units::{TypedMove, Unit};

use super::fingerprint::Fingerprint;
use super::head::{Instead, PRACTICE};
use super::open::{OpenProblem, UnsoundPractice, bytes_of, read, session_of, utf8_text};
use super::real_disk::RealDisk;
use super::save::{Expected, SaveProblem, save_bytes_on};

/// The ending of practice files, without the dot.
pub const PRACTICE_ENDING: &str = "jawlesson";

/// The number of this format.
pub(super) const PRACTICE_FORMAT: u32 = 2;

/// Most acts of one exercise: every piece read as often as can be, with some to
/// spare.
const MOST_ACTS: usize = MOST_PIECES * 1_000;

/// A practice file as it stands on the disk. The first format says nothing of
/// the nuts: they began flush.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct ExerciseInFile {
    lesson_format: u32,
    number: u64,
    fault: Fault,
    level: Level,
    arms: usize,
    unit: Unit,
    help: Help,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    nuts: Option<NutStart>,
    #[serde(default, skip_serializing_if = "is_usual")]
    title: String,
    #[serde(default, skip_serializing_if = "is_usual")]
    note: String,
    #[serde(default, skip_serializing_if = "is_usual")]
    profile: Vec<TypedMove>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    work: Option<WorkInFile>,
}

/// The work on the exercise.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct WorkInFile {
    #[serde(default)]
    trainee: String,
    #[serde(default)]
    date: String,
    #[serde(serialize_with = "on_one_line")]
    acts: Vec<Act>,
    /// What the trainee wrote down, where that was done in the window.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    notebook: Option<Session<PassInFile>>,
}

/// What a practice file holds.
#[derive(Debug, Clone)]
pub enum PracticeFile {
    /// An exercise to be handed out.
    Exercise(Exercise),
    /// The work on one, and what the trainee wrote down in the window.
    Work(Box<Practice>, Option<Box<Session>>),
}

/// A practice file that was read.
#[derive(Debug, Clone)]
pub struct OpenedPractice {
    /// What it holds.
    pub file: PracticeFile,
    /// What the file was when it was read; [`save_practice`] compares with it.
    pub fingerprint: Fingerprint,
}

/// Opens a practice file.
///
/// # Errors
/// See [`OpenProblem`]; the file stays as it is.
pub fn open_practice(path: &Path) -> Result<OpenedPractice, OpenProblem> {
    let bytes = bytes_of(&RealDisk, path)?;
    Ok(OpenedPractice {
        file: practice_from_bytes(&bytes)?,
        fingerprint: Fingerprint::of(&bytes),
    })
}

fn practice_from_bytes(bytes: &[u8]) -> Result<PracticeFile, OpenProblem> {
    let text = utf8_text(bytes)?;
    if text.trim().is_empty() {
        return Err(OpenProblem::Empty);
    }
    match Instead::of(text) {
        Instead::Practice => read_practice_file(read(text, PRACTICE, PRACTICE_FORMAT)?),
        instead => Err(OpenProblem::NoPractice(instead)),
    }
}

fn read_practice_file(file: ExerciseInFile) -> Result<PracticeFile, OpenProblem> {
    let exercise = Exercise {
        number: file.number,
        fault: file.fault,
        level: file.level,
        arms: file.arms,
        unit: file.unit,
        help: file.help,
        // Work goes on from where it began; an exercise that nobody has begun is
        // the same press, begun as all are now.
        nuts: match &file.work {
            Some(_) => file.nuts.unwrap_or(NutStart::Flush),
            None => file.nuts.unwrap_or_default(),
        },
        title: file.title,
        note: file.note,
        profile: file.profile.into_iter().map(|off| off.0).collect(),
    };
    let unsound = OpenProblem::UnsoundPractice;
    exercise
        .check()
        .map_err(|problem| unsound(UnsoundPractice::Exercise(problem)))?;
    let Some(work) = file.work else {
        return Ok(PracticeFile::Exercise(exercise));
    };
    let acts = work.acts;
    if acts.len() > MOST_ACTS {
        return Err(unsound(UnsoundPractice::TooManyActs(acts.len())));
    }
    let mut practice = Practice::begin(exercise, work.trainee, work.date)
        .map_err(|problem| unsound(UnsoundPractice::Exercise(problem)))?;
    for (act, number) in acts.into_iter().zip(1..) {
        practice
            .act(act)
            .map_err(|refusal| unsound(UnsoundPractice::Act(number, refusal)))?;
    }
    let notebook = work.notebook.map(session_of).transpose()?.map(Box::new);
    Ok(PracticeFile::Work(Box::new(practice), notebook))
}

/// Saves a practice file, as safely as a session (see [`super::save`]).
///
/// # Errors
/// See [`SaveProblem`].
pub fn save_practice(
    path: &Path,
    file: &PracticeFile,
    expected: Expected,
) -> Result<Fingerprint, SaveProblem> {
    save_bytes_on(&RealDisk, path, practice_text(file)?.as_bytes(), expected)
}

/// The text of a practice file: the same exercise and work give the same text.
///
/// # Errors
/// [`SaveProblem::Unsound`] for a notebook that could not be opened again.
pub fn practice_text(file: &PracticeFile) -> Result<String, SaveProblem> {
    let (exercise, work) = match file {
        PracticeFile::Exercise(exercise) => (exercise, None),
        PracticeFile::Work(practice, notebook) => {
            if let Some(notebook) = notebook {
                notebook.check().map_err(SaveProblem::Unsound)?;
            }
            let work = WorkInFile {
                trainee: practice.trainee.clone(),
                date: practice.date.clone(),
                acts: practice.acts().to_vec(),
                notebook: notebook.as_deref().map(Session::to_file),
            };
            (practice.exercise(), Some(work))
        }
    };
    let written = ExerciseInFile {
        lesson_format: PRACTICE_FORMAT,
        number: exercise.number,
        fault: exercise.fault,
        level: exercise.level,
        arms: exercise.arms,
        unit: exercise.unit,
        help: exercise.help,
        nuts: Some(exercise.nuts),
        title: exercise.title.clone(),
        note: exercise.note.clone(),
        profile: exercise.profile.iter().cloned().map(TypedMove).collect(),
        work,
    };
    pretty(&written).map_err(|_| SaveProblem::NoText)
}

as_text!(Act, Name, |act| text_of(act), act_of);

/// An act as the file writes it: a word, and what it is about.
fn text_of(act: &Act) -> String {
    let list = |word: &str, turns: &[i32]| {
        let turns: Vec<String> = turns.iter().map(i32::to_string).collect();
        format!("{word} {}", turns.join(" "))
    };
    match act {
        Act::MakeSafe => "make-safe".to_owned(),
        Act::Lace { flipped: false } => "lace".to_owned(),
        Act::Lace { flipped: true } => "lace-flipped".to_owned(),
        Act::ZeroGauge => "zero".to_owned(),
        Act::Read {
            station,
            on_mark: true,
        } => format!("read {station}"),
        Act::Read { station, .. } => format!("read-beside {station}"),
        Act::Guess(turns) => list("guess", turns),
        Act::SeeAdvice => "advice".to_owned(),
        Act::Turn(turns) => list("turn", turns),
        Act::SeeTo(cure) => format!("see-to {}", cure.key()),
        Act::Accept => "accept".to_owned(),
        Act::GiveUp => "give-up".to_owned(),
    }
}

fn act_of(text: &str) -> Option<Act> {
    let (word, rest) = text.split_once(' ').unwrap_or((text, ""));
    let turns = || {
        let numbers = rest.split(' ').map(str::parse);
        numbers.collect::<Result<Vec<i32>, _>>().ok()
    };
    let station = || rest.parse().ok();
    let bare = |act: Act| rest.is_empty().then_some(act);
    match word {
        "make-safe" => bare(Act::MakeSafe),
        "lace" => bare(Act::Lace { flipped: false }),
        "lace-flipped" => bare(Act::Lace { flipped: true }),
        "zero" => bare(Act::ZeroGauge),
        "read" => Some(Act::Read {
            station: station()?,
            on_mark: true,
        }),
        "read-beside" => Some(Act::Read {
            station: station()?,
            on_mark: false,
        }),
        "guess" => Some(Act::Guess(turns()?)),
        "advice" => bare(Act::SeeAdvice),
        "turn" => Some(Act::Turn(turns()?)),
        "see-to" => Some(Act::SeeTo(Cure::from_key(rest)?)),
        "accept" => bare(Act::Accept),
        "give-up" => bare(Act::GiveUp),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_act_is_read_as_it_was_written() {
        let mut acts = vec![
            Act::MakeSafe,
            Act::Lace { flipped: false },
            Act::Lace { flipped: true },
            Act::ZeroGauge,
            Act::Read {
                station: 3,
                on_mark: true,
            },
            Act::Read {
                station: 0,
                on_mark: false,
            },
            Act::Guess(vec![0, -1]),
            Act::SeeAdvice,
            Act::Turn(vec![6, 0, -12]),
            Act::Accept,
            Act::GiveUp,
        ];
        acts.extend(Cure::ALL.map(Act::SeeTo));
        for act in acts {
            assert_eq!(act_of(&text_of(&act)), Some(act));
        }
        for text in [
            "",
            "read",
            "read -1",
            "turn",
            "turn 1,2",
            "lace 1",
            "see-to luck",
            "Lace",
        ] {
            assert_eq!(act_of(text), None, "{text:?}");
        }
    }
}
