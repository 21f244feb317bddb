//! Replaces a file so that an intact one, old or new, stands under its name
//! at every moment.

use std::ffi::OsString;
use std::hash::{BuildHasher, Hasher, RandomState};
use std::io;
use std::path::{Path, PathBuf};

use super::disk::{Disk, PART_END, PART_START, folder_of};
use super::fingerprint::Fingerprint;

/// Ending of the name under which the state before the last save is kept.
const BACKUP_END: &str = ".backup";
/// Bytes of a file's name that every common file system takes.
const MOST_NAME_BYTES: usize = 255;

/// Where the state before the last save is kept: beside the file, its name
/// with `.backup` at the end. A name too long for that loses its end to a
/// number made of all of it.
pub fn backup_path(path: &Path) -> PathBuf {
    let mut name = path.file_name().map_or_else(OsString::new, OsString::from);
    if name.len() > MOST_NAME_BYTES - BACKUP_END.len() {
        let whole = name.to_string_lossy();
        let hash = Fingerprint::of(name.as_encoded_bytes()).hash;
        // A letter takes at most four bytes; what cannot be read became three.
        let most = MOST_NAME_BYTES - BACKUP_END.len() - 20;
        let begins = (0..=most).rev().find_map(|end| whole.get(..end));
        name = format!("{}~{hash:016x}", begins.unwrap_or_default()).into();
    }
    name.push(BACKUP_END);
    path.with_file_name(name)
}

/// Random bits that differ from call to call and from process to process.
pub(super) fn random_bits() -> u64 {
    // The standard library seeds every map with the system's randomness.
    RandomState::new().build_hasher().finish()
}

/// Writes `bytes` under the name `path`, taking the place of what had it, with
/// the permissions of the file `like` where there is one.
///
/// The bytes go to a part file in the same folder and are flushed to disk
/// before the rename, the rename before this returns; so a crash or a loss of
/// power at any moment leaves the old file or the new one. A failure leaves
/// the old one and takes the part file away.
///
/// # Errors
/// What the disk reports.
pub(super) fn replace(
    disk: &dyn Disk,
    path: &Path,
    bytes: &[u8],
    like: Option<&Path>,
) -> io::Result<()> {
    put(disk, path, bytes, like, |part| disk.rename(part, path))
}

/// Writes `bytes` under a name that must be free; otherwise like [`replace`].
///
/// # Errors
/// What the disk reports; `AlreadyExists` when the name is taken.
pub(super) fn put_new(disk: &dyn Disk, path: &Path, bytes: &[u8]) -> io::Result<()> {
    put(disk, path, bytes, None, |part| {
        disk.rename_to_free(part, path)
    })
}

fn put(
    disk: &dyn Disk,
    path: &Path,
    bytes: &[u8],
    like: Option<&Path>,
    name_it: impl FnOnce(&Path) -> io::Result<()>,
) -> io::Result<()> {
    let folder = folder_of(path);
    let part = folder.join(format!(
        "{PART_START}{}-{:016x}{PART_END}",
        std::process::id(),
        random_bits()
    ));
    let written = write_part(disk, &part, bytes, like).and_then(|()| name_it(&part));
    if let Err(error) = written {
        let _ = disk.remove(&part);
        return Err(error);
    }
    disk.sync_folder(&folder)
}

fn write_part(disk: &dyn Disk, part: &Path, bytes: &[u8], like: Option<&Path>) -> io::Result<()> {
    let mut file = disk.create(part, like)?;
    file.append(bytes)?;
    file.sync()
}
