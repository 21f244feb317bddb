//! The sessions in a folder.

use std::fs;
use std::path::{Path, PathBuf};

use super::SESSION_ENDING;
use super::disk::DiskProblem;

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
    found.files.sort();
    Ok(found)
}

/// What a folder holds.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct SessionFiles {
    /// The session files, by name.
    pub files: Vec<PathBuf>,
    /// Folders within that could not be read, and why.
    pub closed: Vec<(PathBuf, DiskProblem)>,
}

fn look_into(folder: &Path, depth: usize, found: &mut SessionFiles) -> Result<(), DiskProblem> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let path = entry.path();
        let hidden = entry.file_name().to_string_lossy().starts_with('.');
        let kind = entry.file_type()?;
        if kind.is_dir() && !hidden {
            if depth == DEEPEST {
                continue;
            }
            if let Err(problem) = look_into(&path, depth + 1, found) {
                found.closed.push((path, problem));
            }
        } else if !hidden
            && path
                .extension()
                .is_some_and(|ending| ending == SESSION_ENDING)
        {
            found.files.push(path);
        }
    }
    Ok(())
}
