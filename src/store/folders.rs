//! Where the program keeps its own files.

use std::path::PathBuf;

/// A folder that people look for files in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UsualFolder {
    /// The user's own.
    Home,
    /// What lies on the desktop.
    Desktop,
    /// Documents.
    Documents,
}

/// The folders for the program's own files, made when something is first
/// written there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Folders {
    /// Work kept aside, for the case of a crash.
    pub recovery: PathBuf,
    /// The preferences.
    pub preferences: PathBuf,
}

impl Folders {
    /// Names one folder for everything: for tests, and for shops that keep the
    /// program on a memory stick.
    pub const VARIABLE: &'static str = "JAWTRUE_DATA_DIR";

    /// The folder for exercises and their record, beside the recovery folder.
    pub fn practice(&self) -> PathBuf {
        self.recovery.with_file_name("practice")
    }

    /// Where indexes of shop folders are kept; they may be thrown away at any
    /// time.
    pub fn shops(&self) -> PathBuf {
        self.recovery.with_file_name("shops")
    }

    /// Where pages are written to be shown and printed.
    pub fn pages(&self) -> PathBuf {
        self.recovery.with_file_name("pages")
    }

    /// The user's documents, or else their home.
    pub fn documents() -> Option<PathBuf> {
        let user = directories::UserDirs::new()?;
        let documents = user.document_dir().filter(|folder| folder.is_dir());
        Some(documents.unwrap_or_else(|| user.home_dir()).to_owned())
    }

    /// The folders that people look in first, as far as this user has them.
    pub fn usual() -> Vec<(UsualFolder, PathBuf)> {
        let Some(user) = directories::UserDirs::new() else {
            return Vec::new();
        };
        let all = [
            (UsualFolder::Documents, user.document_dir()),
            (UsualFolder::Desktop, user.desktop_dir()),
            (UsualFolder::Home, Some(user.home_dir())),
        ];
        let there = all.into_iter().filter_map(|(which, folder)| {
            let folder = folder.filter(|folder| folder.is_dir())?;
            Some((which, folder.to_owned()))
        });
        there.collect()
    }

    /// The folders of this user: below [`VARIABLE`](Self::VARIABLE) where it is
    /// set, otherwise where the system puts such files. `None` for a user
    /// without a home.
    pub fn of_user() -> Option<Self> {
        if let Some(all) = std::env::var_os(Self::VARIABLE).filter(|all| !all.is_empty()) {
            let all = PathBuf::from(all);
            return Some(Self {
                recovery: all.join("recovery"),
                preferences: all,
            });
        }
        let system = directories::ProjectDirs::from("", "", "jawtrue")?;
        Some(Self {
            recovery: system.data_local_dir().join("recovery"),
            preferences: system.config_dir().to_owned(),
        })
    }
}
