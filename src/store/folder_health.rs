//! Whether a folder can be used: for `doctor`.

use std::fs::{self, File, OpenOptions};
use std::path::Path;

use super::disk::{DiskProblem, PART_END, PART_START};
use super::replace::random_bits;

/// How a folder stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FolderHealth {
    /// Whether a file can be made there, written and taken away again.
    pub writable: Result<(), DiskProblem>,
    /// Bytes that this user may still write; none where the system does not
    /// say.
    pub free_bytes: Option<u64>,
}

impl FolderHealth {
    /// Looks at a folder. One that is missing is not made: the nearest above it
    /// is looked at.
    pub fn of(folder: &Path) -> Self {
        let exists = |folder: &&Path| !folder.as_os_str().is_empty() && folder.exists();
        let looked_at = folder.ancestors().find(exists).unwrap_or(Path::new("."));
        Self {
            writable: try_out(looked_at),
            free_bytes: free_bytes(looked_at),
        }
    }
}

fn try_out(folder: &Path) -> Result<(), DiskProblem> {
    let name = format!("{PART_START}{:016x}{PART_END}", random_bits());
    let part = folder.join(name);
    let file: File = OpenOptions::new()
        .write(true)
        .create_new(true)
        .open(&part)?;
    let written = file.sync_all();
    drop(file);
    fs::remove_file(&part)?;
    Ok(written?)
}

#[cfg(unix)]
fn free_bytes(folder: &Path) -> Option<u64> {
    let found = rustix::fs::statvfs(folder).ok()?;
    Some(found.f_bavail.saturating_mul(found.f_frsize))
}

#[cfg(not(unix))]
fn free_bytes(_folder: &Path) -> Option<u64> {
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_folder_is_looked_at_and_left_as_it_was() {
        let folder = tempfile::tempdir().unwrap();
        let missing = folder.path().join("not/yet");
        let health = FolderHealth::of(&missing);
        assert_eq!(health.writable, Ok(()));
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
        if cfg!(unix) {
            // coreutils' `stat -f` reads the same figures.
            let said = std::process::Command::new("stat")
                .args(["-f", "-c", "%a %S"])
                .arg(folder.path())
                .output()
                .unwrap();
            let said = String::from_utf8(said.stdout).unwrap();
            let figures: Vec<u64> = said
                .split_whitespace()
                .map(|n| n.parse().unwrap())
                .collect();
            let (free, theirs) = (health.free_bytes.unwrap(), figures[0] * figures[1]);
            // Others write meanwhile.
            assert!(
                free.abs_diff(theirs) <= theirs / 10 + (1 << 30),
                "{free} {theirs}"
            );
        }
        let file = folder.path().join("file");
        fs::write(&file, "").unwrap();
        assert!(FolderHealth::of(&file).writable.is_err());
    }
}
