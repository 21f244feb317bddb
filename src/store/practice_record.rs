//! The record of what was practiced: a line per exercise in a CSV file.

use std::path::Path;

use crate::practice::{Debrief, Finish, Practice};

use super::disk::{Content, Disk, DiskProblem};
use super::fingerprint::Fingerprint;
use super::readings_file::MOST_READINGS_BYTES;
use super::real_disk::RealDisk;
use super::save::{Expected, SaveProblem, save_bytes_on};

/// Name of the record in the practice folder.
pub const PRACTICE_RECORD: &str = "practice-record.csv";

/// How often writing is tried when others write to the same record.
const TRIES: usize = 20;

const HEADINGS: [&str; 18] = [
    "date",
    "trainee",
    "exercise",
    "title",
    "fault",
    "level",
    "arms",
    "help",
    "result",
    "pieces",
    "minutes",
    "belt_ends",
    "hooks",
    "minutes_lost",
    "best_pieces",
    "best_minutes",
    "arm_by_arm_pieces",
    "arm_by_arm_minutes",
];

/// The name under which the record keeps how an exercise came out.
pub const fn finish_key(finish: Finish) -> &'static str {
    match finish {
        Finish::JawTrue => "true",
        Finish::InsideByLuck => "inside-by-luck",
        Finish::AcceptedOutside => "accepted-outside",
        Finish::RightlySentAway => "rightly-sent-away",
        Finish::WronglySentAway => "wrongly-sent-away",
        Finish::Unsafe => "unsafe",
        Finish::GivenUp => "given-up",
    }
}

/// Adds a line about an exercise to a record, which is made if it is missing.
/// A line that stands there already is not added again.
///
/// # Errors
/// See [`SaveProblem`]; the record that was there is still there, whole.
pub fn add_to_record(
    path: &Path,
    practice: &Practice,
    debrief: &Debrief,
) -> Result<(), SaveProblem> {
    let row = row(practice, debrief)?;
    for _ in 0..TRIES {
        let content = RealDisk.read(path, MOST_READINGS_BYTES);
        let (there, expected) = match content.map_err(DiskProblem::from)? {
            Content::Missing => (Vec::new(), Expected::Nothing),
            Content::Folder | Content::NotAFile => return Err(SaveProblem::NotAFile),
            Content::TooLarge(_) => return Err(SaveProblem::OtherFileTooLarge),
            Content::Bytes(bytes) => {
                let expected = Expected::Unchanged(Fingerprint::of(&bytes));
                (bytes, expected)
            }
        };
        let mut text = there.clone();
        if text.is_empty() {
            text.extend(line(&HEADINGS.map(str::to_owned))?);
        }
        if !text.ends_with(b"\n") {
            text.push(b'\n');
        }
        if text
            .split_inclusive(|byte| *byte == b'\n')
            .any(|old| old == row)
        {
            return Ok(());
        }
        text.extend(&row);
        match save_bytes_on(&RealDisk, path, &text, expected) {
            // Somebody else was quicker: their line is kept, ours follows it.
            Err(SaveProblem::ChangedOnDisk | SaveProblem::Exists) => {}
            done => return done.map(|_| ()),
        }
    }
    Err(SaveProblem::ChangedOnDisk)
}

fn row(practice: &Practice, debrief: &Debrief) -> Result<Vec<u8>, SaveProblem> {
    let exercise = practice.exercise();
    let one = |number: f64| format!("{number:.1}");
    let lost: f64 = debrief
        .decisions
        .iter()
        .map(|made| made.minutes_lost())
        .sum();
    line(&[
        plain(&practice.date),
        plain(&practice.trainee),
        exercise.number.to_string(),
        plain(&exercise.title),
        exercise.fault.key().to_owned(),
        exercise.level.key().to_owned(),
        exercise.arms.to_string(),
        exercise.help.key().to_owned(),
        finish_key(debrief.result).to_owned(),
        debrief.pieces.to_string(),
        one(debrief.minutes),
        debrief.used.0.to_string(),
        debrief.used.1.to_string(),
        one(lost),
        one(debrief.best.pieces),
        one(debrief.best.minutes),
        one(debrief.arm_by_arm.pieces),
        one(debrief.arm_by_arm.minutes),
    ])
}

/// A text that no spreadsheet takes for a formula.
fn plain(text: &str) -> String {
    let text = text.replace(['\r', '\n'], " ");
    if text.starts_with(['=', '+', '-', '@', '\t']) {
        format!("'{text}")
    } else {
        text
    }
}

fn line(cells: &[String]) -> Result<Vec<u8>, SaveProblem> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer
        .write_record(cells)
        .map_err(|_| SaveProblem::NoText)?;
    writer.into_inner().map_err(|_| SaveProblem::NoText)
}
