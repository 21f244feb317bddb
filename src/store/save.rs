//! Saves session files.

use std::io::ErrorKind;
use std::path::Path;

use crate::codec::pretty;
use crate::session::{Session, SessionProblem};

use super::disk::{Content, Disk, DiskProblem, Hold, MOST_BYTES, folder_of};
use super::fingerprint::Fingerprint;
use super::real_disk::RealDisk;
use super::replace::{backup_path, put_new, replace};

/// What is expected under the name that a session is saved under.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Expected {
    /// No file yet; an existing one is never replaced.
    Nothing,
    /// The file as it was opened or last saved. Gone is as good: saving makes
    /// it again.
    Unchanged(Fingerprint),
    /// Anything: the user has agreed to replace what is there.
    Anything,
}

/// Why a session was not saved. The file that was there is still there, whole,
/// but for [`SaveProblem::NotConfirmed`].
#[derive(Debug, Clone, PartialEq)]
pub enum SaveProblem {
    /// The disk refused.
    Disk(DiskProblem),
    /// The file has the new state, but the disk did not confirm that it would
    /// outlast a loss of power.
    NotConfirmed(DiskProblem),
    /// A file of this name exists and nobody agreed to replace it.
    Exists,
    /// Somebody else changed the file since it was opened.
    ChangedOnDisk,
    /// A folder or a device has this name.
    NotAFile,
    /// The file that is there is too large to be a session; it is not
    /// replaced.
    OtherFileTooLarge,
    /// The session is too large for a file: bytes it would take.
    TooLarge(u64),
    /// The session is not sound and could not be opened again.
    Unsound(SessionProblem),
    /// The session cannot be written as text.
    NoText,
}

/// Times to begin anew when another program wrote the file meanwhile.
const TRIES: usize = 50;

impl SaveProblem {
    /// Whether somebody else came first: what they wrote can be read and the
    /// change made to that.
    fn is_overtaken(&self) -> bool {
        let busy = Self::Disk(DiskProblem::Busy);
        matches!(self, Self::ChangedOnDisk | Self::Exists) || *self == busy
    }
}

/// Reads, changes and saves a file, again from the start while somebody else
/// came first; `saved` finds the refusal to save in a problem.
pub(super) fn until_saved<T, P>(
    once: impl Fn() -> Result<T, P>,
    saved: fn(&P) -> Option<&SaveProblem>,
) -> Result<T, P> {
    for _ in 1..TRIES {
        match once() {
            Err(problem) if saved(&problem).is_some_and(SaveProblem::is_overtaken) => {}
            outcome => return outcome,
        }
    }
    once()
}

impl From<DiskProblem> for SaveProblem {
    fn from(problem: DiskProblem) -> Self {
        Self::Disk(problem)
    }
}

/// The text of a session's file: the same session gives the same text.
///
/// # Errors
/// [`SaveProblem::Unsound`] for a session that could not be opened again.
pub fn session_text(session: &Session) -> Result<String, SaveProblem> {
    session.check().map_err(SaveProblem::Unsound)?;
    pretty(&session.to_file()).map_err(|_| SaveProblem::NoText)
}

/// Saves a session under a name and keeps the state that was there beside it
/// (see [`backup_path`]). At every moment an intact file, old or new, stands
/// under the name, whatever happens to the program or the power.
///
/// # Errors
/// See [`SaveProblem`].
pub fn save(
    path: &Path,
    session: &Session,
    expected: Expected,
) -> Result<Fingerprint, SaveProblem> {
    save_on(&RealDisk, path, session, expected)
}

/// Saves a session on a given disk; see [`save`].
///
/// # Errors
/// See [`SaveProblem`].
pub fn save_on(
    disk: &dyn Disk,
    path: &Path,
    session: &Session,
    expected: Expected,
) -> Result<Fingerprint, SaveProblem> {
    save_bytes_on(disk, path, session_text(session)?.as_bytes(), expected)
}

/// Saves the bytes of a file, a session's or a press's, on a given disk.
pub(super) fn save_bytes_on(
    disk: &dyn Disk,
    path: &Path,
    bytes: &[u8],
    expected: Expected,
) -> Result<Fingerprint, SaveProblem> {
    if bytes.len() as u64 > MOST_BYTES {
        return Err(SaveProblem::TooLarge(bytes.len() as u64));
    }
    let path = disk.follow(path).map_err(DiskProblem::from)?;
    disk.sweep(&folder_of(&path));
    let _hold = match expected {
        Expected::Nothing => Hold::default(),
        Expected::Unchanged(_) | Expected::Anything => {
            disk.hold(&path).map_err(DiskProblem::from)?
        }
    };
    match disk.read(&path, MOST_BYTES).map_err(DiskProblem::from)? {
        Content::Folder | Content::NotAFile => return Err(SaveProblem::NotAFile),
        Content::TooLarge(_) => return Err(SaveProblem::OtherFileTooLarge),
        Content::Missing => match put_new(disk, &path, bytes) {
            Ok(()) => {}
            // It appeared between the look and the rename.
            Err(error) if error.kind() == ErrorKind::AlreadyExists => {
                return Err(match expected {
                    Expected::Nothing => SaveProblem::Exists,
                    Expected::Unchanged(_) | Expected::Anything => SaveProblem::ChangedOnDisk,
                });
            }
            Err(error) => return Err(refused(disk, &path, bytes, error)),
        },
        Content::Bytes(there) => {
            match expected {
                Expected::Nothing => return Err(SaveProblem::Exists),
                // What is to be written may stand there already, after a save
                // that succeeded but could not say so.
                Expected::Unchanged(opened)
                    if Fingerprint::of(&there) != opened && there != bytes =>
                {
                    return Err(SaveProblem::ChangedOnDisk);
                }
                Expected::Unchanged(_) | Expected::Anything => {}
            }
            let outcome = if there == bytes {
                disk.sync_folder(&folder_of(&path))
            } else {
                replace(disk, &backup_path(&path), &there, Some(&path))
                    .and_then(|()| replace(disk, &path, bytes, Some(&path)))
            };
            outcome.map_err(|error| refused(disk, &path, bytes, error))?;
        }
    }
    Ok(Fingerprint::of(bytes))
}

/// What a refusal left: the old file, or the new one unconfirmed. To be told
/// that a pass was not saved, and record it once more, would double it.
fn refused(disk: &dyn Disk, path: &Path, bytes: &[u8], error: std::io::Error) -> SaveProblem {
    let problem = DiskProblem::from(error);
    match disk.read(path, MOST_BYTES) {
        Ok(Content::Bytes(there)) if there == bytes => SaveProblem::NotConfirmed(problem),
        _ => SaveProblem::Disk(problem),
    }
}
