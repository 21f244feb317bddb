//! Paper from the window: a document is made and written on a thread of its
//! own, then the system's viewer shows and prints it.

use std::path::PathBuf;
use std::sync::Arc;
use std::time::SystemTime;

use crate::press::Notches;
use crate::report::{Paper, PdfProblem, Printed, Setting};
use crate::session::{IsoDate, PriorShelf, Session};
use crate::store::{self, DiskProblem};
use crate::words::Figures;

use super::App;
use super::file_names::printed_name;
use super::messages::Tone;
use super::state::Preview;

/// A document to be made.
pub struct PrintJob {
    what: Printed,
    session: Arc<Session>,
    /// The turns that somebody chose; none for those that are advised.
    chosen: Option<Vec<Notches>>,
    figures: Figures,
    folder: PathBuf,
    practice: bool,
    shelf: Arc<PriorShelf>,
}

/// What came of it.
#[derive(Debug)]
pub enum PrintDone {
    /// It is written, and the system's viewer shows it.
    Shown(PathBuf),
    /// It is written; no program here shows it.
    NoViewer(PathBuf),
    /// It could not be made.
    NotMade(PdfProblem),
    /// It could not be written there.
    NotWritten(PathBuf, DiskProblem),
}

impl PrintJob {
    /// Makes the document and has it shown, where it may be.
    pub fn done(self, shows: bool) -> PrintDone {
        let now = SystemTime::now();
        let setting = Setting {
            figures: self.figures,
            paper: Paper::usual(self.figures.unit),
            today: IsoDate::parse(&store::today()).ok(),
            practice: self.practice,
            printed: store::moment_of(now),
        };
        let chosen = self.chosen.as_deref();
        let made = self
            .what
            .document(&self.session, chosen, &setting, &self.shelf);
        let bytes = match made {
            Ok(bytes) => bytes,
            Err(problem) => return PrintDone::NotMade(problem),
        };
        let title = self.what.title(self.figures.language);
        let path = self.folder.join(printed_name(&self.session, title));
        let made = std::fs::create_dir_all(&self.folder).map_err(DiskProblem::from);
        match made.and_then(|()| store::write_out(&path, &bytes)) {
            Err(problem) => PrintDone::NotWritten(path, problem),
            Ok(()) if shows && viewer::that_detached(&path).is_ok() => PrintDone::Shown(path),
            Ok(()) => PrintDone::NoViewer(path),
        }
    }
}

impl App {
    /// Puts the session on paper: the card of the turns on show, or the report.
    pub(super) fn print(&mut self, what: Printed, now: f64) {
        let words = self.words();
        let Some(folders) = &self.folders else {
            self.say(Tone::Problem, words.said_no_folder().to_owned(), now);
            return;
        };
        let chosen = match &self.view.preview {
            Preview::Chosen(_) => Some(self.turns_on_show()),
            Preview::Recommended => None,
        };
        self.files.print(PrintJob {
            what,
            session: self.document.shared(),
            chosen: chosen.filter(|_| what == Printed::TurnCard && self.view.pass.is_none()),
            figures: self.figures(),
            folder: folders.pages(),
            practice: self.practicing.is_some(),
            shelf: self.shelf(),
        });
        self.say(Tone::Done, words.said_printing().to_owned(), now);
    }

    /// Says what came of it.
    pub(super) fn printed(&mut self, done: PrintDone, now: f64) {
        let words = self.words();
        let (tone, sentence) = match done {
            PrintDone::Shown(path) => (Tone::Done, words.said_shown(path.display())),
            PrintDone::NoViewer(path) => (Tone::Problem, words.said_no_viewer(path.display())),
            PrintDone::NotMade(problem) => (Tone::Problem, problem.sentence(words)),
            PrintDone::NotWritten(path, problem) => {
                (Tone::Problem, self.figures().disk_problem(problem, &path))
            }
        };
        self.say(tone, sentence, now);
    }
}
