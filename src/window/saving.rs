//! Saving that takes longer than it should: a network folder or memory stick
//! that does not answer. The window goes on, and says so.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use eframe::egui;

use crate::store::Expected;

use super::App;
use super::messages::Tone;

/// How long a save may take before it is said, in seconds.
const PATIENCE: f64 = 5.0;

/// The save under way, if there is one.
#[derive(Debug, Default)]
pub(super) struct Saving {
    path: Option<PathBuf>,
    /// When it was first looked at; none before.
    since: Option<f64>,
    said: bool,
}

impl Saving {
    /// Whether what comes back from this path is the save that was asked for
    /// last; it is over then. An earlier one, to a folder that answered late, is
    /// a copy and no longer where the work belongs.
    pub(super) fn is_over(&mut self, path: &Path) -> bool {
        let newest = self.path.as_deref() == Some(path);
        if newest {
            *self = Self::default();
        }
        newest
    }

    /// The save asked for under one name went under another.
    pub(super) fn went_beside(&mut self, path: &Path, beside: &Path) {
        if self.path.as_deref() == Some(path) {
            self.path = Some(beside.to_owned());
        }
    }
}

impl App {
    /// Saves the session under a name.
    pub(super) fn save_under(&mut self, path: PathBuf, expected: Expected) {
        self.saving = Saving {
            path: Some(path.clone()),
            ..Saving::default()
        };
        let session = self.document.shared();
        self.files.save(path, Arc::clone(&session), expected);
    }

    /// Saves beside the file that somebody else changed.
    pub(super) fn save_beside(&mut self) {
        if let Some(path) = self.files.path.clone() {
            self.saving = Saving {
                path: Some(path.clone()),
                ..Saving::default()
            };
            self.files.save_beside(path, self.document.shared());
        }
    }

    /// Says that a save takes its time, once, with a way on.
    pub(super) fn say_of_saving(&mut self, ctx: &egui::Context, now: f64) {
        let Some(path) = self.saving.path.clone().filter(|_| !self.saving.said) else {
            return;
        };
        let since = *self.saving.since.get_or_insert(now);
        let wait = since + PATIENCE - now;
        if wait > 0.0 {
            ctx.request_repaint_after_secs(wait as f32 + 0.01);
            return;
        }
        self.saving.said = true;
        let sentence = self.words().said_save_stalls(path.display());
        self.messages.say(Tone::Problem, sentence, now);
    }
}
