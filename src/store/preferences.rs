//! How the user wants to see things, kept apart from any session.

use std::fs;
use std::path::{Path, PathBuf};

use ron::ser::PrettyConfig;
use ron::value::RawValue;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

use crate::plan::Effort;
use crate::session::{Acceptance, Checklist};
use crate::units::Unit;

use super::disk::{Content, Disk, DiskProblem};
use super::inline::{Inline, options};
use super::port_settings::{Kept, PortSettings};
use super::real_disk::RealDisk;
use super::replace::replace;
use crate::store::v1::acceptance::AcceptanceV1;
use crate::store::v1::checklist::ChecklistV1;
use crate::store::v1::effort::EffortV1;

/// Name of the file in the preferences folder.
const FILE_NAME: &str = "preferences.ron";

/// Largest preferences file that is read, in bytes.
const MOST_BYTES: u64 = 1024 * 1024;

/// Most files remembered.
const MOST_RECENT: usize = 8;

/// Smallest and largest zoom of the window.
pub const ZOOM: (f32, f32) = (0.75, 4.0);

/// Smallest and largest window side and corner in points, taken from the file.
const SIDE: (f32, f32) = (200.0, 20_000.0);
const PLACE: (f32, f32) = (-20_000.0, 20_000.0);

/// How the user wants to see things.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Preferences {
    /// Code of the language (`en`, `es`); none to follow the system.
    pub language: Option<String>,
    /// The unit on show; none for the session's own.
    pub unit: Option<Unit>,
    /// Name of the look; none to follow the system.
    pub look: Option<String>,
    /// The user's own zoom of the whole window; none at first, when it follows
    /// the display.
    pub zoom: Option<f32>,
    /// Files opened or saved last, the newest first.
    pub recent: Vec<PathBuf>,
    /// Width and height of the window, in the desktop's points.
    pub window_size: Option<[f32; 2]>,
    /// Left upper corner of the window, in the desktop's points.
    pub window_position: Option<[f32; 2]>,
    /// Whether the window fills the screen.
    pub window_maximized: bool,
    /// The steps that the shop has made its own: added and hidden ones.
    pub steps: Checklist,
    /// How a gauge is listened to over a serial port.
    pub port: Option<PortSettings>,
    /// The shop's rule for accepting a piece.
    pub acceptance: Acceptance,
    /// What the shop reckons the work at.
    pub effort: Effort,
}

/// Preferences as they were found.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Found {
    /// The preferences; those of a new user where they could not be read.
    pub preferences: Preferences,
    /// Where a file was put aside that could not be read in whole or in part.
    pub damaged: Option<PathBuf>,
}

/// Preferences as they stand in their file. A field that is missing or unknown
/// is no damage.
#[derive(Debug, Serialize)]
struct PreferencesFile {
    language: Option<String>,
    unit: Option<String>,
    look: Option<String>,
    zoom: Option<f32>,
    window_size: Option<(f32, f32)>,
    window_position: Option<(f32, f32)>,
    window_maximized: bool,
    recent: Vec<String>,
    #[serde(skip_serializing_if = "ChecklistV1::is_empty")]
    steps: ChecklistV1,
    port: Option<Kept>,
    #[serde(skip_serializing_if = "AcceptanceV1::is_usual")]
    acceptance: Inline<AcceptanceV1>,
    #[serde(skip_serializing_if = "EffortV1::is_usual")]
    effort: Inline<EffortV1>,
}

/// The same field by field, so that a damaged one does not take the others
/// with it.
#[derive(Debug, Default, Deserialize)]
#[serde(default)]
struct Fields {
    language: Option<Box<RawValue>>,
    unit: Option<Box<RawValue>>,
    look: Option<Box<RawValue>>,
    zoom: Option<Box<RawValue>>,
    window_size: Option<Box<RawValue>>,
    window_position: Option<Box<RawValue>>,
    window_maximized: Option<Box<RawValue>>,
    recent: Option<Box<RawValue>>,
    steps: Option<Box<RawValue>>,
    port: Option<Box<RawValue>>,
    acceptance: Option<Box<RawValue>>,
    effort: Option<Box<RawValue>>,
}

/// The fields of a file; none where there is no file to be read.
fn fields_at(path: &Path) -> Option<Result<Fields, Unreadable>> {
    let text = match RealDisk.read(path, MOST_BYTES) {
        Ok(Content::Bytes(bytes)) => String::from_utf8(bytes).ok(),
        Ok(Content::Missing) | Err(_) => return None,
        Ok(_) => None,
    };
    let fields = text.and_then(|text| options().from_str(&text).ok());
    Some(fields.ok_or(Unreadable))
}

/// A file that does not follow the rules of the format.
struct Unreadable;

impl Fields {
    /// The fields, and whether any was damaged.
    fn read(self) -> (PreferencesFile, bool) {
        let mut damaged = false;
        let file = PreferencesFile {
            language: field(self.language, &mut damaged),
            unit: field(self.unit, &mut damaged),
            look: field(self.look, &mut damaged),
            zoom: field(self.zoom, &mut damaged),
            window_size: field(self.window_size, &mut damaged),
            window_position: field(self.window_position, &mut damaged),
            window_maximized: field(self.window_maximized, &mut damaged),
            recent: field(self.recent, &mut damaged),
            steps: field(self.steps, &mut damaged),
            port: field(self.port, &mut damaged),
            acceptance: field(self.acceptance, &mut damaged),
            effort: field(self.effort, &mut damaged),
        };
        (file, damaged)
    }
}

/// One field; its usual value where it is missing or damaged.
fn field<T: DeserializeOwned + Default>(raw: Option<Box<RawValue>>, damaged: &mut bool) -> T {
    let Some(raw) = raw else {
        return T::default();
    };
    options().from_str(raw.get_ron()).unwrap_or_else(|_| {
        *damaged = true;
        T::default()
    })
}

impl Preferences {
    /// Reads the preferences in a folder. Where a field cannot be read, that of
    /// a new user takes its place and a copy of the file is put aside; a file
    /// that cannot be read at all is put aside itself.
    pub fn load(folder: &Path) -> Found {
        let path = folder.join(FILE_NAME);
        let fields = match fields_at(&path) {
            Some(fields) => fields,
            None => return Found::default(),
        };
        let aside = path.with_extension("ron.damaged");
        if let Ok(fields) = fields {
            let (file, damaged) = fields.read();
            let copied = damaged && fs::copy(&path, &aside).is_ok();
            return Found {
                preferences: file.into(),
                damaged: copied.then_some(aside),
            };
        }
        Found {
            preferences: Self::default(),
            damaged: fs::rename(&path, &aside).is_ok().then_some(aside),
        }
    }

    /// Reads what can be read of the preferences in a folder and touches
    /// nothing.
    pub fn peek(folder: &Path) -> Self {
        let fields = fields_at(&folder.join(FILE_NAME));
        fields
            .and_then(Result::ok)
            .map_or_else(Self::default, |fields| fields.read().0.into())
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
}

/// Puts a file at the head of those opened last.
pub fn remember(recent: &mut Vec<PathBuf>, file: &Path) {
    recent.retain(|known| known != file);
    recent.insert(0, file.to_owned());
    recent.truncate(MOST_RECENT);
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
            zoom: file.zoom.and_then(|zoom| sound(zoom, ZOOM)),
            recent: file
                .recent
                .into_iter()
                .take(MOST_RECENT)
                .map(PathBuf::from)
                .collect(),
            window_size: file
                .window_size
                .and_then(|(width, height)| Some([sound(width, SIDE)?, sound(height, SIDE)?])),
            window_position: file
                .window_position
                .and_then(|(left, top)| Some([sound(left, PLACE)?, sound(top, PLACE)?])),
            window_maximized: file.window_maximized,
            steps: file.steps.into_shop_list(),
            port: file.port.map(PortSettings::from_kept),
            acceptance: (&file.acceptance.0).into(),
            effort: (&file.effort.0).into(),
        }
    }
}

impl From<&Preferences> for PreferencesFile {
    fn from(preferences: &Preferences) -> Self {
        Self {
            language: preferences.language.clone(),
            unit: preferences.unit.map(|unit| unit.mark().to_owned()),
            look: preferences.look.clone(),
            zoom: preferences.zoom,
            window_size: preferences
                .window_size
                .map(|[width, height]| (width, height)),
            window_position: preferences.window_position.map(|[left, top]| (left, top)),
            window_maximized: preferences.window_maximized,
            // A path that is no Unicode text cannot stand in a text file; it
            // is forgotten.
            recent: preferences
                .recent
                .iter()
                .filter_map(|path| path.to_str())
                .map(str::to_owned)
                .collect(),
            steps: (&preferences.steps.for_next_visit()).into(),
            port: preferences.port.as_ref().map(PortSettings::to_kept),
            acceptance: Inline(preferences.acceptance.into()),
            effort: Inline(preferences.effort.into()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::Minutes;
    use crate::session::{AcceptedBy, Confidence, OwnStep, Stage, Step, StepId};

    /// A shop's list with something in every part.
    fn list() -> Checklist {
        let own = |text: &str| OwnStep {
            stage: Stage::CloseOut,
            text: text.into(),
        };
        Checklist {
            own: vec![own("Call the \"foreman\""), own("Sweep")],
            hidden: vec![StepId::Own(1), Step::Cleaned.into()],
            ..Checklist::default()
        }
    }

    #[test]
    fn they_come_back_as_they_were() {
        let home = tempfile::tempdir().unwrap();
        let folder = home.path().join("not/yet/there");
        assert_eq!(Preferences::load(&folder), Found::default());
        let mut preferences = Preferences {
            language: Some("es".into()),
            unit: Some(Unit::Millimetre),
            look: Some("dark".into()),
            zoom: Some(1.25),
            recent: Vec::new(),
            window_size: Some([1400.0, 900.5]),
            window_position: Some([-8.0, 31.0]),
            window_maximized: true,
            steps: list(),
            port: Some(PortSettings::default()),
            acceptance: Acceptance {
                by: AcceptedBy::Confidence,
                confidence: Confidence::from_share(0.975).unwrap(),
            },
            effort: Effort {
                piece: Minutes::parse("32.5").unwrap(),
                ..Effort::default()
            },
        };
        for file in ["a", "b", "a"] {
            remember(&mut preferences.recent, Path::new(file));
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
        // One damaged field does not take the others with it.
        let sound = Preferences {
            language: Some("es".into()),
            steps: list(),
            ..Preferences::default()
        };
        sound.save(home.path()).unwrap();
        let text = fs::read_to_string(&path).unwrap();
        for (good, bad) in [
            ("zoom: None", "zoom: \"large\""),
            ("recent: []", "recent: [1, (), \"a\"]"),
            ("unit: None", "unit: (\"in\")"),
        ] {
            let damage = text.replace(good, bad);
            assert_ne!(damage, text);
            fs::write(&path, &damage).unwrap();
            let found = Preferences::load(home.path());
            assert_eq!(found.preferences, sound, "{bad}");
            assert_eq!(fs::read_to_string(found.damaged.unwrap()).unwrap(), damage);
        }
        let unknown = text.replace("\"cleaned\"", "\"jaw polished\"");
        fs::write(&path, unknown).unwrap();
        let found = Preferences::load(home.path());
        assert_eq!(found.preferences.language, sound.language);
        assert!(found.preferences.steps.is_untouched() && found.damaged.is_some());
        // What isolates energy is in sight, whatever the file says.
        let hidden = text.replace("\"cleaned\"", "\"tried\"");
        fs::write(&path, hidden).unwrap();
        let found = Preferences::load(home.path());
        assert_eq!(found.preferences.steps.hidden, [StepId::Own(1)]);
        // Absurd values are no damage, and unknown fields are a newer
        // program's.
        let odd = "(zoom: 1e30, window_size: (NaN, 3), unit: \"furlong\", sound: true)";
        fs::write(&path, odd).unwrap();
        assert_eq!(Preferences::load(home.path()), Found::default());
    }
}
