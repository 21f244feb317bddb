//! Opening and saving: where a document goes, and what came of it.

use std::path::PathBuf;

use eframe::egui;

use crate::session::{Document, Lesson};
use crate::store::{Expected, Folders, SaveProblem};
use crate::words::Language;

use super::App;
use super::files::{self, Done};
use super::messages::Tone;
use super::state::Dialog;
use super::state::dialog::{PathFor, TypedPath};

impl App {
    /// Takes up what came of a job on another thread.
    pub(super) fn file_job_done(&mut self, ctx: &egui::Context, done: Done, now: f64) {
        match done {
            // A dialog of the desktop has asked before it names an existing
            // file.
            Done::Chosen(what, path) => self.use_path(ctx, what, path, Expected::Anything),
            Done::Cancelled => self.after_save = None,
            Done::NoDialogs(what) => {
                let name = match what {
                    PathFor::Open | PathFor::OpenPress | PathFor::Readings | PathFor::Shop => {
                        String::new()
                    }
                    PathFor::SaveAs => files::suggested_name(self.session()),
                    PathFor::Teach => files::suggested_press_name(self.session()),
                };
                let typed = TypedPath {
                    folder: self.files.folder().display().to_string(),
                    name,
                    usual: Folders::usual(),
                    ..TypedPath::default()
                };
                self.view.dialog = Some(Dialog::TypePath(what, typed));
            }
            Done::Listed(folder, listed) => {
                if let Some(Dialog::TypePath(_, path)) = &mut self.view.dialog
                    && path.looked_into == folder
                {
                    path.holds = Some(listed);
                }
            }
            Done::Peeked(last) => self.view.last_visit = last,
            Done::Ports(found) => self.view.ports = Some(found),
            Done::Doctor(Some(report)) => {
                ctx.copy_text(report);
                self.say(Tone::Done, self.words().about_copied().to_owned(), now);
            }
            Done::Doctor(None) => {
                let sentence = self.words().about_not_copied().to_owned();
                self.say(Tone::Problem, sentence, now);
            }
            Done::Printed(printed) => self.printed(printed, now),
            Done::FolderShown(_, true) => {}
            Done::FolderShown(folder, false) => {
                let sentence = self.words().shop_no_folder_window(folder.display());
                self.say(Tone::Problem, sentence, now);
            }
            Done::ReadingsRead(path, read) => self.readings_read(&path, read),
            Done::Opened(path, Ok(opened)) => {
                self.show_document(Document::saved(opened.session));
                self.files.path = Some(path.clone());
                self.files.fingerprint = Some(opened.fingerprint);
                self.remember(&path);
                let name = self.files.name().unwrap_or_default();
                self.say(Tone::Done, self.words().said_opened(name), now);
                self.say_of_comments(opened.comments, now);
            }
            Done::Opened(path, Err(problem)) => {
                let sentence = self.figures().open_problem(&problem, &path);
                self.say(Tone::Problem, sentence, now);
            }
            Done::PressOpened(_, Ok(opened)) => {
                self.begin_next_visit(&opened.record, now);
            }
            Done::PressOpened(path, Err(problem)) => {
                let sentence = self.figures().open_problem(&problem, &path);
                self.say(Tone::Problem, sentence, now);
            }
            Done::Taught(path, Ok(lesson), comments) => {
                let words = self.words();
                let sentence = words.with_path(words.lesson(lesson).to_owned(), path.display());
                self.say(Tone::Done, sentence, now);
                self.say_of_comments(comments && lesson != Lesson::NothingRead, now);
            }
            Done::Taught(path, Err(problem), _) => {
                let sentence = self.figures().teach_problem(&problem, &path);
                self.say(Tone::Problem, sentence, now);
            }
            Done::PracticeOpened(path, Ok(opened)) => {
                self.practice_opened(path, opened.file);
            }
            Done::PracticeOpened(path, Err(problem)) => {
                let sentence = self.figures().open_problem(&problem, &path);
                self.say(Tone::Problem, sentence, now);
            }
            Done::PracticeSaved(path, notebook, saved) => {
                self.practice_saved(&path, notebook.map(|it| *it), saved, now);
                if !self.document.has_unsaved_changes()
                    && let Some(then) = self.after_save.take()
                {
                    self.leave(ctx, then, now);
                }
            }
            Done::Debriefed(debrief, recorded) => self.debriefed(debrief, recorded, now),
            Done::Saved(path, _, outcome) if !self.saving.is_over(&path) => {
                // Saved elsewhere meanwhile: a copy, and no news where it failed.
                if outcome.is_ok() {
                    let sentence = self.words().said_saved_late(path.display());
                    self.say(Tone::Done, sentence, now);
                }
            }
            Done::Saved(path, session, Ok(fingerprint)) => {
                self.files.path = Some(path.clone());
                self.files.fingerprint = Some(fingerprint);
                self.document.mark_saved_as(session);
                self.remember(&path);
                self.forget_if_saved();
                let name = self.files.name().unwrap_or_default();
                let said = match self.session().last_gate().doubtful.len() {
                    0 => self.words().said_saved(name),
                    some => self.words().said_saved_in_doubt(name, some),
                };
                self.say(Tone::Done, said, now);
                if let Some(then) = self.after_save.take() {
                    self.leave(ctx, then, now);
                }
            }
            Done::Saved(path, session, Err(SaveProblem::ChangedOnDisk)) => {
                self.view.dialog = Some(Dialog::ChangedOnDisk(Box::default()));
                self.files.compare(path, session);
            }
            Done::SavedBeside(path, beside, session, outcome) => {
                self.saving.went_beside(&path, &beside);
                self.file_job_done(ctx, Done::Saved(beside, session, outcome), now);
            }
            Done::Compared(path, compared) => self.compared(&path, compared),
            Done::UpkeepKept(folder, edit, kept, comments) => {
                let comments = comments && kept.is_ok();
                self.upkeep_kept(&folder, &edit, kept, now);
                self.say_of_comments(comments, now);
            }
            Done::PressLearnt(press, taught, start) => self.press_learnt(press, taught, start, now),
            Done::Saved(path, _, Err(SaveProblem::Exists)) => {
                self.view.dialog = Some(Dialog::FileExists(path));
            }
            Done::Saved(path, _, Err(problem)) => {
                self.after_save = None;
                if let Some(log) = &self.log {
                    log.note_kind("saving refused", &problem);
                }
                let sentence = self.figures().save_problem(&problem, &path);
                self.say(Tone::Problem, sentence, now);
            }
        }
    }

    /// Saves where the document belongs. `fallback` is what is expected of
    /// the file where it is not known what it was.
    pub(super) fn save(&mut self, fallback: Expected) {
        if self.practicing.is_some() {
            // It has a file of its own and never becomes a session's.
            self.keep_practice();
            return;
        }
        let Some(path) = self.files.path.clone() else {
            self.ask_for_path(PathFor::SaveAs);
            return;
        };
        let expected = match (fallback, self.files.fingerprint) {
            (Expected::Anything, _) => Expected::Anything,
            (_, Some(fingerprint)) => Expected::Unchanged(fingerprint),
            (fallback, None) => fallback,
        };
        self.save_under(path, expected);
    }

    pub(super) fn ask_for_path(&mut self, what: PathFor) {
        if self.practicing.is_some() && matches!(what, PathFor::SaveAs | PathFor::Teach) {
            self.keep_practice();
            return;
        }
        let words = self.words();
        let title = path_title(words, what);
        let suggested = match what {
            PathFor::Teach => files::suggested_press_name(self.session()),
            _ => files::suggested_name(self.session()),
        };
        self.files.choose(what, suggested, title);
    }

    /// Opens or saves under a path; `expected` is what may already be there.
    pub(super) fn use_path(
        &mut self,
        ctx: &egui::Context,
        what: PathFor,
        path: PathBuf,
        expected: Expected,
    ) {
        match what {
            PathFor::Open => self.files.open(path),
            PathFor::OpenPress => self.files.open_press(path),
            PathFor::Readings => self.files.read_readings(path),
            PathFor::Shop => self.open_shop(ctx, path),
            PathFor::Teach => {
                let path = files::with_ending(path, what);
                self.files.teach(path, self.document.shared());
            }
            PathFor::SaveAs => {
                let named = files::with_ending(path.clone(), what);
                // Nobody was asked about the name with the ending added.
                let expected = if named == path {
                    expected
                } else {
                    Expected::Nothing
                };
                self.save_under(named, expected);
            }
        }
    }

    pub(super) fn remember(&mut self, path: &std::path::Path) {
        let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        self.preferences.remember(&path);
        self.save_preferences();
    }

    pub(super) fn forget_if_saved(&mut self) {
        if !self.document.has_unsaved_changes()
            && let Some(recovery) = &self.recovery
        {
            recovery.forget();
        }
    }
}

/// What a path is asked for, as a title.
pub(super) fn path_title(words: Language, what: PathFor) -> &'static str {
    match what {
        PathFor::Open => words.command_open(),
        PathFor::SaveAs => words.command_save_as(),
        PathFor::OpenPress => words.next_visit(),
        PathFor::Readings => words.import_title(),
        PathFor::Teach => words.keep_with_press(),
        PathFor::Shop => words.shop_choose(),
    }
}
