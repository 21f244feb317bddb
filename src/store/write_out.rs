//! Writes what is made from sessions: pages, pictures, tables.

use std::path::Path;

use super::disk::{Disk, DiskProblem};
use super::real_disk::RealDisk;
use super::replace::replace;

/// Writes a file that can be made again at any time, in place of what stands
/// under its name: the old one or the new one stands there at every moment.
///
/// # Errors
/// What the disk refused.
pub fn write_out(path: &Path, bytes: &[u8]) -> Result<(), DiskProblem> {
    let disk = RealDisk;
    let path = disk.follow(path)?;
    if path.is_dir() {
        return Err(DiskProblem::Folder);
    }
    Ok(replace(&disk, &path, bytes, None)?)
}
