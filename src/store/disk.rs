//! The few things the store asks of a disk, so that tests can stand in a disk
//! that fails or loses power at any step.

use std::ffi::OsStr;
use std::fs::File;
use std::io;
use std::path::{Path, PathBuf};

/// What stands under a name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Content {
    /// Nothing.
    Missing,
    /// A file with these bytes.
    Bytes(Vec<u8>),
    /// A file larger than asked for: its size in bytes.
    TooLarge(u64),
    /// A folder.
    Folder,
    /// Something else that is no file: a device, a pipe.
    NotAFile,
}

/// What the store asks of a disk.
pub trait Disk {
    /// The name behind a symbolic link; the path itself when it is none. What
    /// it leads to need not exist.
    ///
    /// # Errors
    /// What the system reports.
    fn follow(&self, path: &Path) -> io::Result<PathBuf>;

    /// Reads a whole file of at most `most` bytes.
    ///
    /// # Errors
    /// What the system reports.
    fn read(&self, path: &Path, most: u64) -> io::Result<Content>;

    /// Makes a file that does not exist yet, with the permissions of another
    /// where that exists.
    ///
    /// # Errors
    /// What the system reports; that a file of this name exists; that the
    /// other file may not be written.
    fn create(&self, path: &Path, like: Option<&Path>) -> io::Result<Box<dyn DiskFile + '_>>;

    /// Gives a file another name at one stroke, taking the place of whatever
    /// had it.
    ///
    /// # Errors
    /// What the system reports.
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()>;

    /// Gives a file another name at one stroke, which must be free.
    ///
    /// # Errors
    /// What the system reports; that a file of this name exists.
    fn rename_to_free(&self, from: &Path, to: &Path) -> io::Result<()>;

    /// Removes a file.
    ///
    /// # Errors
    /// What the system reports.
    fn remove(&self, path: &Path) -> io::Result<()>;

    /// Returns once the names in a folder are as safe as its files.
    ///
    /// # Errors
    /// What the system reports.
    fn sync_folder(&self, folder: &Path) -> io::Result<()>;

    /// Keeps other copies of this program from replacing the file until the
    /// answer is dropped.
    ///
    /// # Errors
    /// What the system reports; that another copy is busy with it.
    fn hold(&self, path: &Path) -> io::Result<Hold>;

    /// Removes files that writing left in a folder long ago, when the program
    /// was killed in the middle.
    fn sweep(&self, folder: &Path);
}

/// A file being written.
pub trait DiskFile {
    /// Appends bytes.
    ///
    /// # Errors
    /// What the system reports, such as a full disk.
    fn append(&mut self, bytes: &[u8]) -> io::Result<()>;

    /// Returns once everything appended would outlast a loss of power.
    ///
    /// # Errors
    /// What the system reports.
    fn sync(&mut self) -> io::Result<()>;
}

/// Keeps a file held until it is dropped.
#[derive(Debug, Default)]
pub struct Hold {
    _file: Option<File>,
}

impl Hold {
    /// Holds by an open, locked file.
    pub(super) fn by(file: File) -> Self {
        Self { _file: Some(file) }
    }
}

/// What a disk refused to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DiskProblem {
    /// There is no such file or folder.
    Missing,
    /// The user may not do this here.
    Denied,
    /// No space is left.
    Full,
    /// The disk can only be read.
    ReadOnly,
    /// A folder stands where a file should.
    Folder,
    /// The name is too long or holds characters the system does not take.
    Name,
    /// Another program is busy with the file.
    Busy,
    /// Something else, with the system's error number where there is one.
    Other(Option<i32>),
}

impl From<io::Error> for DiskProblem {
    fn from(error: io::Error) -> Self {
        use io::ErrorKind as Kind;
        match error.kind() {
            // A name that leads through a file leads nowhere.
            Kind::NotFound | Kind::NotADirectory => Self::Missing,
            Kind::PermissionDenied => Self::Denied,
            Kind::StorageFull | Kind::QuotaExceeded | Kind::FileTooLarge => Self::Full,
            Kind::ReadOnlyFilesystem => Self::ReadOnly,
            Kind::IsADirectory | Kind::DirectoryNotEmpty => Self::Folder,
            Kind::InvalidFilename | Kind::InvalidInput => Self::Name,
            Kind::WouldBlock | Kind::ResourceBusy | Kind::ExecutableFileBusy => Self::Busy,
            _ => Self::Other(error.raw_os_error()),
        }
    }
}

/// Largest session file that is read or written, in bytes: several times a
/// session of two hundred passes with twenty repeats everywhere.
pub const MOST_BYTES: u64 = 16 * 1024 * 1024;

/// The folder a path stands in; `.` for a bare name.
pub(super) fn folder_of(path: &Path) -> PathBuf {
    match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent.to_owned(),
        _ => PathBuf::from("."),
    }
}

/// Beginning and end of the names of files still being written.
pub(super) const PART_START: &str = ".jawtrue-";
pub(super) const PART_END: &str = ".part";

/// Whether this is the name of a file that was still being written.
pub(super) fn is_part_file(name: &OsStr) -> bool {
    name.to_str()
        .is_some_and(|name| name.starts_with(PART_START) && name.ends_with(PART_END))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The numbers of <errno.h> as Linux has them (its page errno(3), from
    /// memory), which the standard library turns into kinds.
    #[cfg(target_os = "linux")]
    #[test]
    fn what_the_system_says_is_told_apart() {
        use DiskProblem as P;
        for (number, problem) in [
            (2, P::Missing),
            (20, P::Missing),
            (1, P::Denied),
            (13, P::Denied),
            (28, P::Full),
            (122, P::Full),
            (27, P::Full),
            (30, P::ReadOnly),
            (21, P::Folder),
            (39, P::Folder),
            (22, P::Name),
            (36, P::Name),
            (11, P::Busy),
            (16, P::Busy),
            (26, P::Busy),
            (5, P::Other(Some(5))),
        ] {
            let found = P::from(io::Error::from_raw_os_error(number));
            assert_eq!(found, problem, "{number}");
        }
    }
}
