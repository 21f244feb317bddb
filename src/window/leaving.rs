//! Leaving a document for another, or the program, without losing anything.

use eframe::egui::{self, ViewportCommand};

use crate::session::{Document, Session};
use crate::store::{self, SampleSession};
use crate::words::Language;

use super::App;
use super::messages::Tone;
use super::state::dialog::{PathFor, Then};
use super::state::{Dialog, NewSessionForm};

impl App {
    pub(super) fn asked_to_close(&mut self, ctx: &egui::Context) {
        if !ctx.input(|input| input.viewport().close_requested()) || self.may_close {
            return;
        }
        if self.is_turning() {
            ctx.send_viewport_cmd(egui::ViewportCommand::CancelClose);
            self.stop_turning();
        } else if self.document.has_unsaved_changes() {
            ctx.send_viewport_cmd(egui::ViewportCommand::CancelClose);
            self.view.dialog = Some(Dialog::UnsavedWork(Then::Quit));
        }
    }

    pub(super) fn leave(&mut self, ctx: &egui::Context, then: Then, now: f64) {
        if self.is_turning() {
            self.stop_turning();
        } else if self.document.has_unsaved_changes() {
            self.view.dialog = Some(Dialog::UnsavedWork(then));
        } else {
            self.leave_now(ctx, then, now);
        }
    }

    pub(super) fn leave_now(&mut self, ctx: &egui::Context, then: Then, now: f64) {
        self.view.dialog = None;
        match then {
            Then::New => {
                let form = NewSessionForm::new(self.figures().unit);
                self.view.dialog = Some(Dialog::New(Box::new(form)));
            }
            Then::Open => self.ask_for_path(PathFor::Open),
            Then::OpenPress => self.ask_for_path(PathFor::OpenPress),
            Then::OpenPath(path) => self.files.open(path),
            Then::NextVisitOf(path) => self.files.open_press(path),
            Then::NextVisitInShop(press) => self.next_visit_in_shop(press),
            Then::OpenSample(sample) => self.show_sample(sample),
            Then::Practice(exercise, trainee) => {
                self.begin_practice(*exercise, trainee, now);
            }
            Then::Quit => {
                self.may_close = true;
                ctx.send_viewport_cmd(ViewportCommand::Close);
            }
        }
    }

    /// Opens a sample session.
    pub(super) fn show_sample(&mut self, sample: SampleSession) {
        let session = super::start::sample_session(sample, self.words());
        self.show_document(Document::saved(session));
        self.files.forget();
    }

    /// Speaks another language; a sample that nobody has touched comes along.
    pub(super) fn speak(&mut self, language: Language) {
        let was = self.words();
        self.preferences.language = language;
        if self.practicing.is_some() || self.document.has_unsaved_changes() {
            return;
        }
        let on_show = SampleSession::ALL
            .into_iter()
            .find(|&sample| super::start::sample_session(sample, was) == *self.session());
        if let Some(sample) = on_show {
            let session = super::start::sample_session(sample, language);
            self.document = Document::saved(session);
            self.outlook_of = None;
        }
    }

    pub(super) fn start(&mut self, mut session: Session) {
        session.id = store::new_session_id();
        session.notes.when = store::today();
        session.checklist = self.steps_for_next_visit();
        self.apply_shop_rules(&mut session);
        self.view.dialog = None;
        self.show_document(Document::unsaved(session));
        self.files.forget();
        self.preferences.unit = None;
    }

    pub(super) fn take_leftover(&mut self, index: usize, now: f64) {
        if index >= self.leftovers.len() {
            return;
        }
        let leftover = self.leftovers.remove(index);
        let session = match &leftover.session {
            Ok(session) => session.clone(),
            Err(problem) => {
                let sentence = self.figures().open_problem(problem, &leftover.path);
                self.say(Tone::Problem, sentence, now);
                self.close_leftovers();
                return;
            }
        };
        self.show_document(Document::unsaved(session));
        self.files.path.clone_from(&leftover.origin.path);
        self.files.fingerprint = leftover.origin.opened;
        let when = leftover.kept_at.map(store::moment_of).unwrap_or_default();
        // It goes on living as this window's own kept work before the old
        // copy is let go.
        if let Some(recovery) = &self.recovery {
            recovery.take_up(self.document.shared(), leftover);
        }
        self.say(Tone::Done, self.words().said_taken_up(when), now);
        self.view.dialog = None;
    }

    pub(super) fn drop_leftover(&mut self, index: usize, now: f64) {
        if index < self.leftovers.len() {
            let leftover = self.leftovers.remove(index);
            let path = leftover.path.clone();
            if let Err(problem) = leftover.discard() {
                let sentence = self.figures().disk_problem(problem, &path);
                self.say(Tone::Problem, sentence, now);
            }
        }
        self.close_leftovers();
    }

    pub(super) fn close_leftovers(&mut self) {
        if self.leftovers.is_empty() {
            self.view.dialog = None;
        }
    }
}
