//! The sessions in a folder.

use std::fs::{self, Metadata};
use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};

use serde::{Deserialize, Serialize};

use super::disk::DiskProblem;
use super::{PRACTICE_ENDING, SESSION_ENDING};

/// Folders within folders that are looked into.
const DEEPEST: usize = 8;

/// Every session file in a folder and the folders within it, by name. Hidden
/// folders, and links to folders, are left out; a folder within that may not
/// be read is told beside them.
///
/// # Errors
/// Why the folder itself cannot be read.
pub fn session_files(folder: &Path) -> Result<SessionFiles, DiskProblem> {
    let mut found = SessionFiles::default();
    look_into(folder, 0, &mut found)?;
    Ok(found)
}

/// What a folder holds.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct SessionFiles {
    /// The session files, by name.
    pub files: Vec<PathBuf>,
    /// Practice files, by name: they count nowhere.
    pub practice: Vec<PathBuf>,
    /// Folders within that could not be read, and why.
    pub closed: Vec<(PathBuf, DiskProblem)>,
}

fn look_into(folder: &Path, depth: usize, found: &mut SessionFiles) -> Result<(), DiskProblem> {
    let mut entries = Vec::new();
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        entries.push((entry.file_name(), entry));
    }
    // Names of one folder are told apart faster than whole paths.
    entries.sort_by(|a, b| a.0.cmp(&b.0));
    for (name, entry) in entries {
        let path = entry.path();
        let hidden = name.to_string_lossy().starts_with('.');
        let kind = entry.file_type()?;
        if kind.is_dir() && !hidden {
            if depth == DEEPEST {
                continue;
            }
            if let Err(problem) = look_into(&path, depth + 1, found) {
                found.closed.push((path, problem));
            }
        } else if !hidden {
            let has = |wanted: &str| path.extension().is_some_and(|ending| ending == wanted);
            if has(SESSION_ENDING) {
                found.files.push(path);
            } else if has(PRACTICE_ENDING) {
                found.practice.push(path);
            }
        }
    }
    Ok(())
}

/// What tells whether a file was changed, without reading it: when it was
/// last written, and its size.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stamp {
    /// Nanoseconds from the start of 1970, UTC.
    pub written: i64,
    /// Bytes.
    pub bytes: u64,
}

impl Stamp {
    /// The stamp of a file; none where the system tells no time.
    pub fn of(found: &Metadata) -> Option<Self> {
        let since = found.modified().ok()?.duration_since(UNIX_EPOCH).ok()?;
        Some(Self {
            written: i64::try_from(since.as_nanos()).ok()?,
            bytes: found.len(),
        })
    }

    /// Whether the file was written so shortly before it was looked at that
    /// another change might bear the same stamp: some disks tell time by two
    /// seconds.
    pub fn is_fresh(&self, looked: SystemTime) -> bool {
        const COARSEST: i64 = 2_000_000_000;
        let looked = looked.duration_since(UNIX_EPOCH).unwrap_or_default();
        let looked = i64::try_from(looked.as_nanos()).unwrap_or(i64::MAX);
        self.written > looked.saturating_sub(COARSEST)
    }
}
