//! What a session taught, written into a press file.

use std::path::Path;

use crate::session::{LearnProblem, Lesson, PressRecord, Session};

use super::disk::DiskProblem;
use super::open::OpenProblem;
use super::press_file::{open_press, save_press};
use super::save::{Expected, SaveProblem, until_saved};

/// Why nothing was written. The press file that was there is still there,
/// whole.
#[derive(Debug, Clone, PartialEq)]
pub enum TeachProblem {
    /// The press file cannot be read.
    Open(OpenProblem),
    /// Nothing may be learnt from this session.
    Learn(LearnProblem),
    /// The press file cannot be written.
    Save(SaveProblem),
}

/// Writes what a session taught into a press file, which is made if it is
/// missing. Teaching the same session again replaces what was kept of it; what
/// another program taught meanwhile stays.
///
/// # Errors
/// See [`TeachProblem`].
pub fn teach(press: &Path, session: &Session) -> Result<Lesson, TeachProblem> {
    until_saved(
        || teach_once(press, session),
        |problem| match problem {
            TeachProblem::Save(problem) => Some(problem),
            TeachProblem::Open(_) | TeachProblem::Learn(_) => None,
        },
    )
}

fn teach_once(press: &Path, session: &Session) -> Result<Lesson, TeachProblem> {
    let (mut record, expected) = match open_press(press) {
        Ok(opened) => (opened.record, Expected::Unchanged(opened.fingerprint)),
        Err(OpenProblem::Disk(DiskProblem::Missing)) => {
            let mut fresh = PressRecord::of(session);
            let visits = &mut fresh.next_visit.earlier;
            visits.retain(|visit| visit.session != session.id);
            (fresh, Expected::Nothing)
        }
        Err(problem) => return Err(TeachProblem::Open(problem)),
    };
    let lesson = record.learn(session).map_err(TeachProblem::Learn)?;
    if lesson == Lesson::NothingRead {
        return Ok(lesson);
    }
    save_press(press, &record, expected).map_err(TeachProblem::Save)?;
    Ok(lesson)
}
