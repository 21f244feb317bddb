//! Press files: what is kept of a press from visit to visit.

use std::path::Path;

use ron::ser::PrettyConfig;
use serde::{Deserialize, Serialize};

use crate::session::PressRecord;

use super::damage::{TextPlace, damage};
use super::disk::{Content, Disk, DiskProblem, MOST_BYTES};
use super::fingerprint::Fingerprint;
use super::head::{Head, PRESS, is_press, read_head};
use super::inline::options;
use super::open::{OpenProblem, check_format, session_of};
use super::practice_file::instead;
use super::real_disk::RealDisk;
use super::save::{Expected, SaveProblem, save_bytes_on};
use super::v1::SessionV1;

/// The number of this format.
pub(super) const PRESS_FORMAT: u32 = 1;

/// A press as it stands in its file: the next visit as it would be started,
/// with what earlier visits measured.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PressFileV1 {
    press_format: u32,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    repaired: Option<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    forgotten: Vec<String>,
    next_visit: SessionV1,
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
    match RealDisk.read(path, MOST_BYTES).map_err(DiskProblem::from)? {
        Content::Missing => Err(OpenProblem::Disk(DiskProblem::Missing)),
        Content::Folder => Err(OpenProblem::Folder),
        Content::NotAFile => Err(OpenProblem::NotAFile),
        Content::TooLarge(bytes) => Err(OpenProblem::TooLarge(bytes)),
        Content::Bytes(bytes) => Ok(OpenedPress {
            record: record_from_bytes(&bytes)?,
            fingerprint: Fingerprint::of(&bytes),
        }),
    }
}

fn record_from_bytes(bytes: &[u8]) -> Result<PressRecord, OpenProblem> {
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let readable = bytes.get(..error.valid_up_to()).unwrap_or_default();
        OpenProblem::NotText(TextPlace::after(&String::from_utf8_lossy(readable)))
    })?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if matches!(read_head(text, PRESS), Head::Empty) {
        return Err(OpenProblem::Empty);
    }
    if !is_press(text) {
        return Err(OpenProblem::NoPress(instead(text)));
    }
    check_format(text, PRESS, PRESS_FORMAT)?;
    let file: PressFileV1 = options().from_str(text).map_err(|error| {
        let (place, damage) = damage(text, error);
        OpenProblem::Damaged(place, damage)
    })?;
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
        next_visit: SessionV1::from(&record.next_visit),
    };
    let layout = PrettyConfig::new().new_line("\n");
    let mut text = options()
        .to_string_pretty(&file, layout)
        .map_err(|_| SaveProblem::NoText)?;
    text.push('\n');
    save_bytes_on(&RealDisk, path, text.as_bytes(), expected)
}
