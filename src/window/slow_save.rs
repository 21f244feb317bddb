//! Saving that takes longer than it should: a network folder or memory stick
//! that does not answer. The window goes on, and says so.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use eframe::egui;

use crate::session::{Document, Session};
use crate::store::{Expected, Leftover, moment_of};

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

    /// Opens the work of a crashed window, where it came from.
    pub(super) fn take_up(&mut self, session: Session, leftover: Leftover, now: f64) {
        self.show_document(Document::unsaved(session));
        self.files.path.clone_from(&leftover.origin.path);
        self.files.fingerprint = leftover.origin.opened;
        let when = leftover.kept_at.map(moment_of).unwrap_or_default();
        // It goes on living as this window's own kept work before the old
        // copy is let go.
        if let Some(recovery) = &self.recovery {
            recovery.take_up(self.document.shared(), leftover);
        }
        let sentence = self.words().said_taken_up(when);
        self.messages.say(Tone::Done, sentence, now);
    }

    /// Says, before anything is saved, that comments in the file will be lost.
    pub(super) fn say_of_comments(&mut self, has_comments: bool, now: f64) {
        if has_comments {
            let sentence = self.words().comments_not_kept().to_owned();
            self.messages.say(Tone::Problem, sentence, now);
        }
    }

    /// What a late answer of an earlier save comes to: a copy, and no news where
    /// it failed.
    pub(super) fn saved_late(&mut self, path: &Path, saved: bool, now: f64) {
        if saved {
            let sentence = self.words().said_saved_late(path.display());
            self.messages.say(Tone::Done, sentence, now);
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
