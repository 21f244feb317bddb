//! The disk of the machine.

use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, ErrorKind, Read, Write};
use std::path::{Path, PathBuf};
use std::time::Duration;

use super::disk::{Content, Disk, DiskFile, Hold, folder_of, is_part_file};

/// The disk of the machine.
#[derive(Debug, Clone, Copy, Default)]
pub struct RealDisk;

/// Links followed before a chain of them is taken for a ring.
const MOST_LINKS: usize = 40;

/// How often and how long to wait for another copy of the program that is
/// just replacing the same file.
const HOLD_TRIES: u32 = 100;
const HOLD_WAIT: Duration = Duration::from_millis(10);

/// Age at which a part file cannot belong to a running save any more.
const STALE_AFTER: Duration = Duration::from_secs(600);

impl Disk for RealDisk {
    fn follow(&self, path: &Path) -> io::Result<PathBuf> {
        let mut path = path.to_owned();
        for _ in 0..MOST_LINKS {
            match fs::symlink_metadata(&path) {
                Ok(found) if found.is_symlink() => {
                    let target = fs::read_link(&path)?;
                    path = folder_of(&path).join(target);
                }
                Ok(_) => return Ok(path),
                Err(error) if error.kind() == ErrorKind::NotFound => return Ok(path),
                Err(error) => return Err(error),
            }
        }
        Err(ErrorKind::InvalidInput.into())
    }

    fn read(&self, path: &Path, most: u64) -> io::Result<Content> {
        // Asked before opening: opening a pipe would wait for its writer.
        let found = match fs::metadata(path) {
            Ok(found) => found,
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(Content::Missing),
            Err(error) => return Err(error),
        };
        if found.is_dir() {
            return Ok(Content::Folder);
        }
        if !found.is_file() {
            return Ok(Content::NotAFile);
        }
        if found.len() > most {
            return Ok(Content::TooLarge(found.len()));
        }
        // The file may grow while it is read; one byte more than allowed is
        // enough to notice.
        let mut bytes = Vec::new();
        File::open(path)?
            .take(most.saturating_add(1))
            .read_to_end(&mut bytes)?;
        let read = bytes.len() as u64;
        Ok(if read > most {
            Content::TooLarge(read)
        } else {
            Content::Bytes(bytes)
        })
    }

    fn create(&self, path: &Path, like: Option<&Path>) -> io::Result<Box<dyn DiskFile + '_>> {
        let found = like.and_then(|like| fs::metadata(like).ok());
        // A rename asks nothing of the file it replaces: a write-protected one,
        // or another user's in a folder that all may write, would be gone.
        if let (Some(there), Some(metadata)) = (like, &found) {
            if metadata.permissions().readonly() {
                return Err(ErrorKind::PermissionDenied.into());
            }
            OpenOptions::new().append(true).open(there)?;
        }
        let file = OpenOptions::new().write(true).create_new(true).open(path)?;
        if let Some(like) = found {
            if let Err(error) = file.set_permissions(like.permissions()) {
                let _ = fs::remove_file(path);
                return Err(error);
            }
            keep_owner(&file, &like);
        }
        Ok(Box::new(OpenFile(file)))
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        fs::rename(from, to)
    }

    fn rename_to_free(&self, from: &Path, to: &Path) -> io::Result<()> {
        match fs::hard_link(from, to) {
            // The file stands under its name; a second name that cannot be
            // removed does no harm and is swept later.
            Ok(()) => {
                let _ = fs::remove_file(from);
                Ok(())
            }
            Err(error) if error.kind() == ErrorKind::AlreadyExists => Err(error),
            // A file system without hard links, such as that of many memory
            // sticks: look first, then rename. Nothing better exists there.
            Err(_) => match fs::symlink_metadata(to) {
                Err(error) if error.kind() == ErrorKind::NotFound => fs::rename(from, to),
                Ok(_) => Err(ErrorKind::AlreadyExists.into()),
                Err(error) => Err(error),
            },
        }
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        fs::remove_file(path)
    }

    fn sync_folder(&self, folder: &Path) -> io::Result<()> {
        // Only Unix can open a folder to flush it; elsewhere the rename is as
        // safe as the file system makes it.
        if cfg!(unix) {
            match File::open(folder).and_then(|folder| folder.sync_all()) {
                Err(error)
                    if matches!(
                        error.kind(),
                        ErrorKind::Unsupported
                            | ErrorKind::InvalidInput
                            | ErrorKind::PermissionDenied
                    ) =>
                {
                    Ok(())
                }
                outcome => outcome,
            }
        } else {
            Ok(())
        }
    }

    fn hold(&self, path: &Path) -> io::Result<Hold> {
        // Elsewhere a lock would also keep this program from reading the file
        // by a second handle.
        if !cfg!(unix) {
            return Ok(Hold::default());
        }
        let file = match File::open(path) {
            Ok(file) => file,
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(Hold::default()),
            Err(error) => return Err(error),
        };
        for _ in 0..HOLD_TRIES {
            match file.try_lock() {
                Ok(()) => return Ok(Hold::by(file)),
                Err(TryLockError::WouldBlock) => std::thread::sleep(HOLD_WAIT),
                // A file system without locks.
                Err(TryLockError::Error(_)) => return Ok(Hold::default()),
            }
        }
        Err(ErrorKind::WouldBlock.into())
    }

    fn sweep(&self, folder: &Path) {
        let Ok(entries) = fs::read_dir(folder) else {
            return;
        };
        for entry in entries.flatten() {
            let stale = is_part_file(&entry.file_name())
                && entry
                    .metadata()
                    .ok()
                    .filter(fs::Metadata::is_file)
                    .and_then(|found| found.modified().ok())
                    // Dated in the future after the clock was set back: as far
                    // from now as it says.
                    .map(|modified| {
                        modified
                            .elapsed()
                            .unwrap_or_else(|to_come| to_come.duration())
                    })
                    .is_some_and(|age| age > STALE_AFTER);
            if stale {
                let _ = fs::remove_file(entry.path());
            }
        }
    }
}

struct OpenFile(File);

impl DiskFile for OpenFile {
    fn append(&mut self, bytes: &[u8]) -> io::Result<()> {
        self.0.write_all(bytes)
    }

    fn sync(&mut self) -> io::Result<()> {
        self.0.sync_all()
    }
}

/// Keeps the owner of the file that is being replaced, where the system lets
/// us: an administrator who saves a colleague's file must not take it over.
#[cfg(unix)]
fn keep_owner(file: &File, like: &fs::Metadata) {
    use std::os::unix::fs::MetadataExt;
    let _ = std::os::unix::fs::fchown(file, Some(like.uid()), Some(like.gid()));
}

#[cfg(not(unix))]
fn keep_owner(_file: &File, _like: &fs::Metadata) {}

#[cfg(test)]
mod tests {
    use super::*;

    /// A folder takes no second name (link(2): EPERM), as no file does where a
    /// file system has no hard links: the same way is then taken.
    #[cfg(unix)]
    #[test]
    fn without_hard_links_nothing_is_renamed_over() {
        let folder = tempfile::tempdir().unwrap();
        let [from, to] = ["from", "to"].map(|name| folder.path().join(name));
        fs::create_dir(&from).unwrap();
        RealDisk.rename_to_free(&from, &to).unwrap();
        assert!(to.is_dir() && !from.exists());
        fs::create_dir(&from).unwrap();
        let taken = RealDisk.rename_to_free(&from, &to).unwrap_err();
        assert_eq!(taken.kind(), ErrorKind::AlreadyExists);
        assert!(from.is_dir());
    }
}
