//! How the user wants to see things, kept apart from every document.

use std::path::{Path, PathBuf};

use eframe::egui;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::codec::{is_usual, on_one_line};
use crate::plan::Effort;
use crate::session::{Acceptance, Checklist};
use crate::store::{self, Folders, Found};
use crate::units::Unit;
use crate::words::Language;

use super::App;
use super::messages::{Messages, Tone};
use super::place::WindowPlace;
use super::theme::Look;

/// Name of the file in the preferences folder.
const FILE_NAME: &str = "preferences.ron";

/// Most files remembered.
const MOST_RECENT: usize = 8;

/// Smallest and largest zoom of the window.
pub(super) const ZOOM: (f32, f32) = (0.75, 4.0);

/// Smallest and largest window side and corner in points, taken from the file.
const SIDE: (f32, f32) = (200.0, 20_000.0);
const CORNER: (f32, f32) = (-20_000.0, 20_000.0);

/// How the user wants to see things, as it stands in its file. A field that is
/// missing, unknown or absurd is no damage.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Preferences {
    /// Language of every word; the system's at first.
    #[serde(serialize_with = "write_language", deserialize_with = "read_language")]
    pub language: Language,
    /// The unit on show; none means the session's own.
    #[serde(deserialize_with = "read_unit")]
    pub unit: Option<Unit>,
    /// Colours.
    #[serde(serialize_with = "write_look", deserialize_with = "read_look")]
    pub look: Look,
    /// The user's own zoom of the whole window; none follows the display.
    #[serde(deserialize_with = "read_zoom")]
    pub zoom: Option<f32>,
    /// Width and height of the window, in the desktop's points.
    #[serde(deserialize_with = "read_size")]
    pub window_size: Option<[f32; 2]>,
    /// Left upper corner of the window, in the desktop's points.
    #[serde(deserialize_with = "read_corner")]
    pub window_position: Option<[f32; 2]>,
    /// Whether the window fills the screen.
    pub window_maximized: bool,
    /// Files opened or saved last, newest first.
    #[serde(serialize_with = "write_recent", deserialize_with = "read_recent")]
    pub recent: Vec<PathBuf>,
    /// The steps that the shop has made its own: added and hidden ones.
    #[serde(skip_serializing_if = "is_usual", deserialize_with = "read_steps")]
    pub steps: Checklist,
    /// How a gauge is listened to over a serial port.
    pub port: Option<store::PortSettings>,
    /// The shop's rule for accepting a piece.
    #[serde(skip_serializing_if = "is_usual", serialize_with = "on_one_line")]
    pub acceptance: Acceptance,
    /// What the shop reckons the work at.
    #[serde(skip_serializing_if = "is_usual", serialize_with = "on_one_line")]
    pub effort: Effort,
    /// The folder with the shop's sessions.
    #[serde(
        skip_serializing_if = "Option::is_none",
        serialize_with = "write_folder"
    )]
    pub shop: Option<PathBuf>,
}

impl Default for Preferences {
    fn default() -> Self {
        Self {
            language: system_language(),
            unit: None,
            look: Look::default(),
            zoom: None,
            window_size: None,
            window_position: None,
            window_maximized: false,
            recent: Vec::new(),
            steps: Checklist::default(),
            port: None,
            acceptance: Acceptance::default(),
            effort: Effort::default(),
            shop: None,
        }
    }
}

impl Preferences {
    /// Reads the preferences in a folder, and says which file was put aside
    /// because something in it could not be read.
    pub fn load(folder: &Path) -> Found<Self> {
        store::load_fields(&folder.join(FILE_NAME))
    }

    /// Reads what can be read of the preferences in a folder and touches
    /// nothing.
    pub(super) fn peek(folder: &Path) -> Self {
        store::peek_fields(&folder.join(FILE_NAME))
    }

    /// Those of the user; without folders, those of a new one.
    pub(super) fn of_user(folders: Option<&Folders>, messages: &mut Messages) -> Self {
        let found = folders.map(|folders| Self::load(&folders.preferences));
        let found = found.unwrap_or_default();
        if let Some(path) = found.damaged {
            let language = found.fields.language;
            let sentence = language.said_preferences_damaged(path.display());
            messages.say(Tone::Problem, sentence, 0.0);
        }
        found.fields
    }

    /// Puts a file at the head of those opened last.
    pub(super) fn remember(&mut self, file: &Path) {
        self.recent.retain(|known| known != file);
        self.recent.insert(0, file.to_owned());
        self.recent.truncate(MOST_RECENT);
    }

    /// Where the window stood.
    pub(super) fn place(&self) -> WindowPlace {
        WindowPlace {
            size: self.window_size,
            position: self.window_position,
            maximized: self.window_maximized,
        }
    }

    /// Notes where the window stands now.
    pub(super) fn note_place(&mut self, ctx: &egui::Context) {
        let mut place = self.place();
        place.note(ctx);
        self.window_size = place.size;
        self.window_position = place.position;
        self.window_maximized = place.maximized;
    }

    fn save(&self, folder: &Path) -> Result<(), store::DiskProblem> {
        store::save_fields(&folder.join(FILE_NAME), self)
    }
}

impl App {
    /// Writes the preferences. They are a convenience: where they cannot be
    /// written, nothing is lost and nobody is troubled.
    pub(super) fn save_preferences(&self) {
        if let Some(folders) = &self.folders {
            let _ = self.preferences.save(&folders.preferences);
        }
    }
}

fn system_language() -> Language {
    Language::of_system(|name| std::env::var(name).ok())
}

// Serde hands fields over by reference.
#[expect(clippy::trivially_copy_pass_by_ref)]
fn write_language<S: Serializer>(language: &Language, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(language.code())
}

fn read_language<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Language, D::Error> {
    let code = Option::<String>::deserialize(deserializer)?;
    Ok(code.map_or_else(system_language, |code| Language::from_locale(&code)))
}

fn read_unit<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<Unit>, D::Error> {
    let mark = Option::<String>::deserialize(deserializer)?;
    Ok(mark.and_then(|mark| Unit::from_mark(&mark)))
}

#[expect(clippy::trivially_copy_pass_by_ref)]
fn write_look<S: Serializer>(look: &Look, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(look.key())
}

fn read_look<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Look, D::Error> {
    let key = Option::<String>::deserialize(deserializer)?;
    Ok(key.and_then(|key| Look::from_key(&key)).unwrap_or_default())
}

fn is_within((least, most): (f32, f32), value: f32) -> bool {
    (least..=most).contains(&value)
}

fn read_zoom<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<f32>, D::Error> {
    let zoom = Option::<f32>::deserialize(deserializer)?;
    Ok(zoom.filter(|&zoom| is_within(ZOOM, zoom)))
}

type Pair = Option<[f32; 2]>;

fn read_size<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Pair, D::Error> {
    let size = Pair::deserialize(deserializer)?;
    Ok(size.filter(|size| size.iter().all(|&side| is_within(SIDE, side))))
}

fn read_corner<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Pair, D::Error> {
    let corner = Pair::deserialize(deserializer)?;
    Ok(corner.filter(|corner| corner.iter().all(|&at| is_within(CORNER, at))))
}

/// A name that is no text is not remembered.
/// A name that is no text is not kept.
fn write_folder<S: Serializer>(folder: &Option<PathBuf>, serializer: S) -> Result<S::Ok, S::Error> {
    folder
        .as_deref()
        .and_then(Path::to_str)
        .serialize(serializer)
}

fn write_recent<S: Serializer>(recent: &[PathBuf], serializer: S) -> Result<S::Ok, S::Error> {
    let names: Vec<&str> = recent.iter().filter_map(|path| path.to_str()).collect();
    names.serialize(serializer)
}

fn read_recent<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Vec<PathBuf>, D::Error> {
    let mut recent = Vec::<PathBuf>::deserialize(deserializer)?;
    recent.truncate(MOST_RECENT);
    Ok(recent)
}

/// What cannot be in a shop's list is left out.
fn read_steps<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Checklist, D::Error> {
    let list = Checklist::deserialize(deserializer)?;
    Ok(Checklist::of_shop(list.own, &list.hidden))
}

#[cfg(test)]
mod tests {
    use std::fs;

    use super::*;
    use crate::plan::Minutes;
    use crate::session::{AcceptedBy, Confidence, OwnStep, Stage, Step, StepId};
    use crate::store::PortSettings;

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
            language: Language::Spanish,
            unit: Some(Unit::Millimetre),
            look: Look::Dark,
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
            shop: Some(PathBuf::from("/shop")),
        };
        for file in ["a", "b", "a"] {
            preferences.remember(Path::new(file));
        }
        assert_eq!(preferences.recent, ["a", "b"].map(PathBuf::from));
        preferences.save(&folder).unwrap();
        let found = Preferences::load(&folder);
        assert_eq!((found.fields, found.damaged), (preferences, None));
    }

    #[test]
    fn damage_is_put_aside() {
        let home = tempfile::tempdir().unwrap();
        let path = home.path().join(FILE_NAME);
        for damage in ["(zoom: ", "", "\u{0}", "(zoom: \"large\")"] {
            fs::write(&path, damage).unwrap();
            let found = Preferences::load(home.path());
            assert_eq!(found.fields, Preferences::default());
            let aside = found.damaged.unwrap();
            assert_eq!(fs::read_to_string(aside).unwrap(), damage);
        }
        // One damaged field does not take the others with it.
        let sound = Preferences {
            language: Language::Spanish,
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
            assert_eq!(found.fields, sound, "{bad}");
            assert_eq!(fs::read_to_string(found.damaged.unwrap()).unwrap(), damage);
        }
        let unknown = text.replace("\"cleaned\"", "\"jaw polished\"");
        fs::write(&path, unknown).unwrap();
        let found = Preferences::load(home.path());
        assert_eq!(found.fields.language, sound.language);
        assert!(found.fields.steps.is_untouched() && found.damaged.is_some());
        // What isolates energy is in sight, whatever the file says.
        let hidden = text.replace("\"cleaned\"", "\"tried\"");
        fs::write(&path, hidden).unwrap();
        let found = Preferences::load(home.path());
        assert_eq!(found.fields.steps.hidden, [StepId::Own(1)]);
        // Absurd values are no damage, and unknown fields are a newer
        // program's.
        let odd = "(zoom: 1e30, window_size: (NaN, 3), unit: \"furlong\", sound: true)";
        fs::write(&path, odd).unwrap();
        assert_eq!(Preferences::load(home.path()), Found::default());
    }
}
