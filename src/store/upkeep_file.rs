//! The upkeep of a shop in its folder: one plain file that several write.

use std::path::Path;

use serde::{Deserialize, Serialize};

use crate::codec::{a_line_each, is_usual, pretty};
use crate::shop::{Entry, Task, Upkeep, UpkeepEdit, UpkeepRefusal};

use super::disk::DiskProblem;
use super::fingerprint::Fingerprint;
use super::head::UPKEEP;
use super::open::{OpenProblem, bytes_of, read, utf8_text};
use super::real_disk::RealDisk;
use super::save::{Expected, SaveProblem, save_bytes_on, until_saved};

/// The name of the file.
pub const UPKEEP_FILE: &str = "upkeep.ron";

/// The number of this format.
/// In 2, lines may begin the counting of a task, and be about a gauge. In 3, a
/// task may come round otherwise at some presses.
pub(super) const UPKEEP_FORMAT: u32 = 3;

/// The upkeep as it stands in its file.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct UpkeepFile {
    upkeep_format: u32,
    #[serde(
        default,
        skip_serializing_if = "is_usual",
        serialize_with = "a_line_each::serialize"
    )]
    tasks: Vec<Task>,
    #[serde(
        default,
        skip_serializing_if = "is_usual",
        serialize_with = "a_line_each::serialize"
    )]
    log: Vec<Entry>,
}

/// Why the upkeep was not changed. The file that was there is still there,
/// whole, but for [`SaveProblem::NotConfirmed`].
#[derive(Debug, Clone, PartialEq)]
pub enum UpkeepProblem {
    /// The file cannot be read.
    Open(OpenProblem),
    /// The change cannot be made.
    Refused(UpkeepRefusal),
    /// The file cannot be written.
    Save(SaveProblem),
}

/// The upkeep of a shop's folder; that of a folder without the file is the
/// usual one, with nothing noted.
///
/// # Errors
/// See [`OpenProblem`]; the file stays as it is.
pub fn open_upkeep(folder: &Path) -> Result<Upkeep, OpenProblem> {
    opened(folder).map(|(upkeep, _)| upkeep)
}

fn opened(folder: &Path) -> Result<(Upkeep, Expected), OpenProblem> {
    let bytes = match bytes_of(&RealDisk, &folder.join(UPKEEP_FILE)) {
        Err(OpenProblem::Disk(DiskProblem::Missing)) => {
            return Ok((Upkeep::default(), Expected::Nothing));
        }
        read => read?,
    };
    let file: UpkeepFile = read(utf8_text(&bytes)?, UPKEEP, UPKEEP_FORMAT)?;
    let upkeep = Upkeep {
        own_tasks: file.tasks,
        log: file.log,
    };
    Ok((upkeep, Expected::Unchanged(Fingerprint::of(&bytes))))
}

/// Makes a change to the upkeep of a shop's folder and answers what it then is,
/// with what others wrote meanwhile. It is saved as safely as a session (see
/// [`super::save`]).
///
/// # Errors
/// See [`UpkeepProblem`].
pub fn keep_upkeep(folder: &Path, edit: &UpkeepEdit) -> Result<Upkeep, UpkeepProblem> {
    until_saved(
        || keep_once(folder, edit),
        |problem| match problem {
            UpkeepProblem::Save(problem) => Some(problem),
            UpkeepProblem::Open(_) | UpkeepProblem::Refused(_) => None,
        },
    )
}

fn keep_once(folder: &Path, edit: &UpkeepEdit) -> Result<Upkeep, UpkeepProblem> {
    let (mut upkeep, expected) = opened(folder).map_err(UpkeepProblem::Open)?;
    upkeep.apply(edit.clone()).map_err(UpkeepProblem::Refused)?;
    let file = UpkeepFile {
        upkeep_format: UPKEEP_FORMAT,
        tasks: upkeep.own_tasks.clone(),
        log: upkeep.log.clone(),
    };
    let saved = pretty(&file)
        .map_err(|_| SaveProblem::NoText)
        .and_then(|text| {
            let path = folder.join(UPKEEP_FILE);
            save_bytes_on(&RealDisk, &path, text.as_bytes(), expected)
        });
    saved.map_err(UpkeepProblem::Save)?;
    Ok(upkeep)
}
