//! How the user wants to see things, kept apart from any session.

use std::fs;
use std::path::{Path, PathBuf};

use ron::ser::PrettyConfig;
use serde::{Deserialize, Serialize};

use crate::units::Unit;

use super::disk::{Content, Disk, DiskProblem};
use super::inline::options;
use super::port_settings::{Kept, PortSettings};
use super::real_disk::RealDisk;
use super::replace::replace;

/// Name of the file in the preferences folder.
const FILE_NAME: &str = "preferences.ron";

/// Largest preferences file that is read, in bytes.
const MOST_BYTES: u64 = 1024 * 1024;

/// Most files remembered.
const MOST_RECENT: usize = 12;

/// Smallest and largest zoom, and window side in points, taken from the file.
const ZOOM: (f32, f32) = (0.5, 3.0);
const SIDE: (f32, f32) = (200.0, 20_000.0);

/// How the user wants to see things.
#[derive(Debug, Clone, PartialEq)]
pub struct Preferences {
    /// Code of the language (`en`, `es`); none to follow the system.
    pub language: Option<String>,
    /// The unit on show; none for the session's own.
    pub unit: Option<Unit>,
    /// Name of the look; none to follow the system.
    pub look: Option<String>,
    /// Zoom of the whole window, 1 at first.
    pub zoom: f32,
    /// Files opened or saved last, the newest first.
    pub recent: Vec<PathBuf>,
    /// Width and height of the window in points.
    pub window_size: Option<[f32; 2]>,
    /// How a gauge is listened to over a serial port.
    pub port: Option<PortSettings>,
}

impl Default for Preferences {
    fn default() -> Self {
        Self {
            language: None,
            unit: None,
            look: None,
            zoom: 1.0,
            recent: Vec::new(),
            window_size: None,
            port: None,
        }
    }
}

/// Preferences as they were found.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Found {
    /// The preferences; those of a new user where none could be read.
    pub preferences: Preferences,
    /// Where a file that could not be read was put aside.
    pub damaged: Option<PathBuf>,
}

/// Preferences as they stand in their file. A field that is missing or unknown
/// is no damage: nothing irreplaceable stands here.
#[derive(Debug, Default, Serialize, Deserialize)]
#[serde(default)]
struct PreferencesFile {
    language: Option<String>,
    unit: Option<String>,
    look: Option<String>,
    zoom: Option<f32>,
    window_size: Option<(f32, f32)>,
    recent: Vec<String>,
    port: Option<Kept>,
}

impl Preferences {
    /// Reads the preferences in a folder. A file that cannot be read is put
    /// aside and the preferences of a new user are used.
    pub fn load(folder: &Path) -> Found {
        let path = folder.join(FILE_NAME);
        let text = match RealDisk.read(&path, MOST_BYTES) {
            Ok(Content::Bytes(bytes)) => String::from_utf8(bytes).ok(),
            Ok(Content::Missing) | Err(_) => return Found::default(),
            Ok(_) => None,
        };
        let file = text.and_then(|text| options().from_str::<PreferencesFile>(&text).ok());
        if let Some(file) = file {
            return Found {
                preferences: file.into(),
                damaged: None,
            };
        }
        let aside = path.with_extension("ron.damaged");
        Found {
            preferences: Self::default(),
            damaged: fs::rename(&path, &aside).is_ok().then_some(aside),
        }
    }

    /// Writes the preferences into a folder, which is made if need be.
    ///
    /// # Errors
    /// What the disk refused; the old preferences are then still there.
    pub fn save(&self, folder: &Path) -> Result<(), DiskProblem> {
        fs::create_dir_all(folder)?;
        let layout = PrettyConfig::new().new_line("\n");
        let text = options()
            .to_string_pretty(&PreferencesFile::from(self), layout)
            .map_err(|_| DiskProblem::Other(None))?;
        let path = RealDisk.follow(&folder.join(FILE_NAME))?;
        Ok(replace(&RealDisk, &path, text.as_bytes(), Some(&path))?)
    }

    /// Puts a file at the head of those opened last.
    pub fn remember(&mut self, file: &Path) {
        self.recent.retain(|known| known != file);
        self.recent.insert(0, file.to_owned());
        self.recent.truncate(MOST_RECENT);
    }
}

impl From<PreferencesFile> for Preferences {
    fn from(file: PreferencesFile) -> Self {
        let sound = |value: f32, (least, most): (f32, f32)| {
            Some(value).filter(|value| (least..=most).contains(value))
        };
        Self {
            language: file.language,
            unit: file.unit.as_deref().and_then(Unit::from_mark),
            look: file.look,
            zoom: file.zoom.and_then(|zoom| sound(zoom, ZOOM)).unwrap_or(1.0),
            recent: file
                .recent
                .into_iter()
                .take(MOST_RECENT)
                .map(PathBuf::from)
                .collect(),
            window_size: file
                .window_size
                .and_then(|(width, height)| Some([sound(width, SIDE)?, sound(height, SIDE)?])),
            port: file.port.map(PortSettings::from_kept),
        }
    }
}

impl From<&Preferences> for PreferencesFile {
    fn from(preferences: &Preferences) -> Self {
        Self {
            language: preferences.language.clone(),
            unit: preferences.unit.map(|unit| unit.mark().to_owned()),
            look: preferences.look.clone(),
            zoom: Some(preferences.zoom),
            window_size: preferences
                .window_size
                .map(|[width, height]| (width, height)),
            // A path that is no Unicode text cannot stand in a text file; it
            // is forgotten.
            recent: preferences
                .recent
                .iter()
                .filter_map(|path| path.to_str())
                .map(str::to_owned)
                .collect(),
            port: preferences.port.as_ref().map(PortSettings::to_kept),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn they_come_back_as_they_were() {
        let home = tempfile::tempdir().unwrap();
        let folder = home.path().join("not/yet/there");
        assert_eq!(Preferences::load(&folder), Found::default());
        let mut preferences = Preferences {
            language: Some("es".into()),
            unit: Some(Unit::Millimetre),
            look: Some("dark".into()),
            zoom: 1.25,
            recent: Vec::new(),
            window_size: Some([1400.0, 900.5]),
            port: Some(PortSettings::default()),
        };
        for file in ["a", "b", "a"] {
            preferences.remember(Path::new(file));
        }
        assert_eq!(preferences.recent, ["a", "b"].map(PathBuf::from));
        preferences.save(&folder).unwrap();
        let found = Preferences::load(&folder);
        assert_eq!((found.preferences, found.damaged), (preferences, None));
    }

    #[test]
    fn damage_is_put_aside() {
        let home = tempfile::tempdir().unwrap();
        let path = home.path().join(FILE_NAME);
        for damage in ["(zoom: ", "", "\u{0}", "(zoom: \"large\")"] {
            fs::write(&path, damage).unwrap();
            let found = Preferences::load(home.path());
            assert_eq!(found.preferences, Preferences::default());
            let aside = found.damaged.unwrap();
            assert_eq!(fs::read_to_string(aside).unwrap(), damage);
        }
        // Absurd values are no damage, and unknown fields are a newer
        // program's.
        let odd = "(zoom: 1e30, window_size: (NaN, 3), unit: \"furlong\", sound: true)";
        fs::write(&path, odd).unwrap();
        assert_eq!(Preferences::load(home.path()), Found::default());
    }
}
