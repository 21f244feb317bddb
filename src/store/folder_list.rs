//! What a folder holds, to choose from where the desktop has no dialog for it.

use std::path::Path;

use super::moment::moment_of;

/// A folder or file in a folder.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Listed {
    /// Whether it is a file: folders come first.
    pub file: bool,
    /// Its name.
    pub name: String,
    /// When it was changed, where the disk says so.
    pub changed: String,
}

/// Folders and the files with one of these endings, by name; what is hidden is
/// left out. None where the folder cannot be read.
pub fn folder_list(folder: &Path, endings: &[&str]) -> Option<Vec<Listed>> {
    let entries = std::fs::read_dir(folder).ok()?;
    let listed = entries.flatten().filter_map(|entry| {
        let path = entry.path();
        let about = path.metadata().ok()?;
        let name = entry.file_name().into_string().ok()?;
        let ending = path.extension().unwrap_or_default();
        let fits = endings.iter().any(|one| ending.eq_ignore_ascii_case(one));
        let changed = about.modified().map(moment_of).unwrap_or_default();
        let file = !about.is_dir();
        let shown = !name.starts_with('.') && (fits || !file);
        shown.then_some(Listed {
            file,
            name,
            changed,
        })
    });
    let mut listed: Vec<Listed> = listed.collect();
    listed.sort();
    Some(listed)
}
