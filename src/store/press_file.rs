//! Press files: what is kept of a press from visit to visit.

use std::path::Path;

use serde::{Deserialize, Serialize};

use crate::codec::{is_usual, pretty};
use crate::session::{PassInFile, PressRecord, Session};

use super::fingerprint::Fingerprint;
use super::head::{Head, Instead, PRESS, read_head};
use super::open::{OpenProblem, bytes_of, read, session_of, utf8_text};
use super::real_disk::RealDisk;
use super::save::{Expected, SaveProblem, save_bytes_on};

/// The number of this format.
pub(super) const PRESS_FORMAT: u32 = 1;

/// A press as it stands in its file: the next visit as it would be started,
/// with what earlier visits measured.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PressFileV1 {
    press_format: u32,
    #[serde(default, skip_serializing_if = "is_usual")]
    repaired: Option<String>,
    #[serde(default, skip_serializing_if = "is_usual")]
    forgotten: Vec<String>,
    next_visit: Session<PassInFile>,
}

/// A press file that was read.
#[derive(Debug, Clone, PartialEq)]
pub struct OpenedPress {
    /// The press.
    pub record: PressRecord,
    /// What the file was when it was read; [`save_press`] compares with it.
    pub fingerprint: Fingerprint,
}

/// Opens a press file.
///
/// # Errors
/// See [`OpenProblem`]; the file stays as it is.
pub fn open_press(path: &Path) -> Result<OpenedPress, OpenProblem> {
    let bytes = bytes_of(&RealDisk, path)?;
    Ok(OpenedPress {
        record: record_from_bytes(&bytes)?,
        fingerprint: Fingerprint::of(&bytes),
    })
}

fn record_from_bytes(bytes: &[u8]) -> Result<PressRecord, OpenProblem> {
    let text = utf8_text(bytes)?;
    if matches!(read_head(text, PRESS), Head::Empty) {
        return Err(OpenProblem::Empty);
    }
    let file: PressFileV1 = match Instead::of(text) {
        Instead::Press => read(text, PRESS, PRESS_FORMAT)?,
        instead => return Err(OpenProblem::NoPress(instead)),
    };
    let next_visit = session_of(file.next_visit)?;
    let mut record = PressRecord::of(&next_visit);
    record.next_visit.earlier = next_visit.earlier;
    record.repaired = file.repaired;
    record.forgotten = file.forgotten;
    Ok(record)
}

/// Saves a press file, as safely as a session (see [`super::save`]).
///
/// # Errors
/// See [`SaveProblem`].
pub fn save_press(
    path: &Path,
    record: &PressRecord,
    expected: Expected,
) -> Result<Fingerprint, SaveProblem> {
    record.check().map_err(SaveProblem::Unsound)?;
    let file = PressFileV1 {
        press_format: PRESS_FORMAT,
        repaired: record.repaired.clone(),
        forgotten: record.forgotten.clone(),
        next_visit: record.next_visit.to_file(),
    };
    let text = pretty(&file).map_err(|_| SaveProblem::NoText)?;
    save_bytes_on(&RealDisk, path, text.as_bytes(), expected)
}
