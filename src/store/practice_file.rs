//! Practice files: an exercise as a trainer hands it out, or the work on one.
//!
//! They begin otherwise than sessions and press files, end otherwise, and each
//! is refused where the other is wanted: what was practiced never counts as
//! work in the shop.

use std::path::Path;

use ron::ser::PrettyConfig;
use serde::{Deserialize, Serialize};

use crate::practice::{
    Act, Cure, Exercise, ExerciseProblem, Fault, Help, Level, MOST_PIECES, Practice, Refusal,
};
use crate::session::Session;

use super::damage::{Damage, TextPlace, damage};
use super::disk::MOST_BYTES;
use super::disk::{Content, Disk, DiskProblem};
use super::fingerprint::Fingerprint;
use super::head::{Head, is_press, read_head};
use super::inline::{Inline, options};
use super::length_text::MoveText;
use super::open::{Instead, OpenProblem, SESSION, check_format, session_of};
use super::real_disk::RealDisk;
use super::save::{Expected, SaveProblem, save_bytes_on};
use super::v1::{SessionV1, UnitV1};

/// The ending of practice files, without the dot.
pub const PRACTICE_ENDING: &str = "jawlesson";

/// The word before the format number.
const PRACTICE: &str = "lesson_format";
/// The number of this format.
pub(super) const PRACTICE_FORMAT: u32 = 1;

/// Most acts of one exercise: every piece read as often as can be, with some to
/// spare.
const MOST_ACTS: usize = MOST_PIECES * 1_000;

/// A practice file as it stands on the disk.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PracticeV1 {
    lesson_format: u32,
    number: u64,
    fault: String,
    level: String,
    arms: u32,
    unit: UnitV1,
    help: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    title: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    note: String,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    profile: Vec<MoveText>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    work: Option<WorkV1>,
}

/// The work on the exercise.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct WorkV1 {
    #[serde(default)]
    trainee: String,
    #[serde(default)]
    date: String,
    acts: Inline<Vec<String>>,
    /// What the trainee wrote down, where that was done in the window.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    notebook: Option<SessionV1>,
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

/// What is wrong with a practice file that could be read letter by letter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum UnsoundPractice {
    /// The exercise cannot be.
    Exercise(ExerciseProblem),
    /// An act that cannot have been done, counted from 1.
    Act(usize, Refusal),
    /// More acts than an exercise can have.
    TooManyActs(usize),
}

/// Whether a text begins as a practice file does.
pub(super) fn is_practice(text: &str) -> bool {
    let head = text.trim_start().trim_start_matches('(').trim_start();
    head.starts_with(PRACTICE)
}

/// Opens a practice file.
///
/// # Errors
/// See [`OpenProblem`]; the file stays as it is.
pub fn open_practice(path: &Path) -> Result<OpenedPractice, OpenProblem> {
    match RealDisk.read(path, MOST_BYTES).map_err(DiskProblem::from)? {
        Content::Missing => Err(OpenProblem::Disk(DiskProblem::Missing)),
        Content::Folder => Err(OpenProblem::Folder),
        Content::NotAFile => Err(OpenProblem::NotAFile),
        Content::TooLarge(bytes) => Err(OpenProblem::TooLarge(bytes)),
        Content::Bytes(bytes) => Ok(OpenedPractice {
            file: practice_from_bytes(&bytes)?,
            fingerprint: Fingerprint::of(&bytes),
        }),
    }
}

fn practice_from_bytes(bytes: &[u8]) -> Result<PracticeFile, OpenProblem> {
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let readable = bytes.get(..error.valid_up_to()).unwrap_or_default();
        OpenProblem::NotText(TextPlace::after(&String::from_utf8_lossy(readable)))
    })?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim().is_empty() {
        return Err(OpenProblem::Empty);
    }
    if !is_practice(text) {
        return Err(OpenProblem::NoPractice(instead(text)));
    }
    check_format(text, PRACTICE, PRACTICE_FORMAT)?;
    let file: PracticeV1 = options().from_str(text).map_err(|error| {
        let (place, damage) = damage(text, error);
        OpenProblem::Damaged(place, damage)
    })?;
    read_practice_file(file)
}

/// What a text is where another kind of file was expected.
pub(super) fn instead(text: &str) -> Instead {
    if is_press(text) {
        Instead::Press
    } else if is_practice(text) {
        Instead::Practice
    } else if matches!(read_head(text, SESSION), Head::Format(_)) {
        Instead::Session
    } else {
        Instead::Other
    }
}

fn read_practice_file(file: PracticeV1) -> Result<PracticeFile, OpenProblem> {
    let no_name = |name: &str| {
        let place = TextPlace { line: 1, column: 1 };
        OpenProblem::Damaged(place, Damage::Name(name.to_owned()))
    };
    let exercise = Exercise {
        number: file.number,
        fault: Fault::from_key(&file.fault).ok_or_else(|| no_name(&file.fault))?,
        level: Level::from_key(&file.level).ok_or_else(|| no_name(&file.level))?,
        arms: usize::try_from(file.arms).unwrap_or(usize::MAX),
        unit: file.unit.0,
        help: Help::from_key(&file.help).ok_or_else(|| no_name(&file.help))?,
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
    let acts = work.acts.0;
    if acts.len() > MOST_ACTS {
        return Err(unsound(UnsoundPractice::TooManyActs(acts.len())));
    }
    let mut practice = Practice::begin(exercise, work.trainee, work.date)
        .map_err(|problem| unsound(UnsoundPractice::Exercise(problem)))?;
    for (text, number) in acts.iter().zip(1..) {
        let act = act_of(text).ok_or_else(|| no_name(text))?;
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
            let work = WorkV1 {
                trainee: practice.trainee.clone(),
                date: practice.date.clone(),
                acts: Inline(practice.acts().iter().map(text_of).collect()),
                notebook: notebook.as_deref().map(SessionV1::from),
            };
            (practice.exercise(), Some(work))
        }
    };
    let written = PracticeV1 {
        lesson_format: PRACTICE_FORMAT,
        number: exercise.number,
        fault: exercise.fault.key().to_owned(),
        level: exercise.level.key().to_owned(),
        arms: u32::try_from(exercise.arms).unwrap_or(u32::MAX),
        unit: UnitV1(exercise.unit),
        help: exercise.help.key().to_owned(),
        title: exercise.title.clone(),
        note: exercise.note.clone(),
        profile: exercise.profile.iter().cloned().map(MoveText).collect(),
        work,
    };
    let layout = PrettyConfig::new().new_line("\n");
    let mut text = options()
        .to_string_pretty(&written, layout)
        .map_err(|_| SaveProblem::NoText)?;
    text.push('\n');
    Ok(text)
}

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
