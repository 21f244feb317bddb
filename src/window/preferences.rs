//! How the user wants to see things, kept apart from every document.

use std::path::PathBuf;

use crate::plan::Effort;
use crate::session::{Acceptance, Checklist};
use crate::store::{self, Folders};
use crate::units::Unit;
use crate::words::Language;

use super::App;
use super::messages::{Messages, Tone};
use super::place::WindowPlace;
use super::theme::Look;

/// How the user wants to see things.
#[derive(Debug, Clone, PartialEq)]
pub struct Preferences {
    /// Language of every word.
    pub language: Language,
    /// Colours.
    pub look: Look,
    /// The unit on show; none means the session's own.
    pub unit: Option<Unit>,
    /// The user's own zoom of the whole window; none follows the display.
    pub zoom: Option<f32>,
    /// Files opened or saved last, newest first.
    pub recent: Vec<PathBuf>,
    /// Where the window stands.
    pub place: WindowPlace,
    /// The steps that the shop has made its own.
    pub steps: Checklist,
    /// How a gauge is listened to over a serial port.
    pub port: Option<store::PortSettings>,
    /// The shop's rule for accepting a piece.
    pub acceptance: Acceptance,
    /// What the shop reckons the work at.
    pub effort: Effort,
}

impl Preferences {
    /// Reads the preferences; without folders, or for a new user, those that
    /// the system's language suggests.
    pub fn load(folders: Option<&Folders>, messages: &mut Messages) -> Self {
        let found = folders.map(|folders| store::Preferences::load(&folders.preferences));
        let found = found.unwrap_or_default();
        let kept = found.preferences;
        let place = WindowPlace::of(&kept);
        let language = kept
            .language
            .as_deref()
            .map_or_else(system_language, Language::from_locale);
        if let Some(path) = found.damaged {
            let sentence = language.said_preferences_damaged(path.display());
            messages.say(Tone::Problem, sentence, 0.0);
        }
        Self {
            language,
            look: kept
                .look
                .as_deref()
                .and_then(Look::from_key)
                .unwrap_or_default(),
            unit: kept.unit,
            zoom: kept.zoom,
            recent: kept.recent,
            place,
            steps: kept.steps,
            port: kept.port,
            acceptance: kept.acceptance,
            effort: kept.effort,
        }
    }

    fn to_keep(&self) -> store::Preferences {
        store::Preferences {
            language: Some(self.language.code().to_owned()),
            unit: self.unit,
            look: Some(self.look.key().to_owned()),
            zoom: self.zoom,
            recent: self.recent.clone(),
            window_size: self.place.size,
            window_position: self.place.position,
            window_maximized: self.place.maximized,
            steps: self.steps.clone(),
            port: self.port.clone(),
            acceptance: self.acceptance,
            effort: self.effort,
        }
    }
}

impl App {
    /// Writes the preferences. They are a convenience: where they cannot be
    /// written, nothing is lost and nobody is troubled.
    pub(super) fn save_preferences(&self) {
        if let Some(folders) = &self.folders {
            let _ = self.preferences.to_keep().save(&folders.preferences);
        }
    }
}

fn system_language() -> Language {
    ["LC_ALL", "LC_MESSAGES", "LANG"]
        .iter()
        .find_map(|name| std::env::var(name).ok().filter(|value| !value.is_empty()))
        .map_or_else(Language::default, |locale| Language::from_locale(&locale))
}
