//! Files: dialogs, opening and saving, all on other threads, so that the
//! window never waits.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant, SystemTime};

use eframe::egui;

use crate::practice::{Debrief, DebriefDesk, Practice};
use crate::session::{Difference, Lesson, PriorShelf, Session};
use crate::shop::{Taught, Upkeep, UpkeepEdit};
use crate::store::{
    self, Expected, Fingerprint, Folders, Listed, OpenProblem, Opened, OpenedPractice, OpenedPress,
    PRACTICE_ENDING, PracticeFile, ReadingsFileProblem, SaveProblem, TeachProblem, UpkeepProblem,
};
use crate::words::Language;

use super::file_names::named;
use super::gauge_port;
use super::printing::{PrintDone, PrintJob};
use super::state::LastVisit;
use super::state::dialog::PathFor;
use super::state::shop::PressKey;
use super::worker::Jobs;

/// Ending of session files.
const ENDING: &str = "jawtrue";

/// Ending of press files.
const PRESS_ENDING: &str = "jawpress";

/// Endings of files of readings.
const READINGS_ENDINGS: [&str; 4] = ["csv", "txt", "tsv", "tab"];

/// A file dialog that answers "none" faster than a hand could has not been
/// shown: this desktop has no dialog service.
const FASTEST_HAND: Duration = Duration::from_millis(150);

/// What came of a job on another thread.
#[derive(Debug)]
pub enum Done {
    /// A path was chosen in a dialog.
    Chosen(PathFor, PathBuf),
    /// The dialog was closed without a choice.
    Cancelled,
    /// The desktop offers no dialogs.
    NoDialogs(PathFor),
    /// What a folder holds; none where it cannot be read.
    Listed(PathBuf, Option<Vec<Listed>>),
    /// A file was opened, or not.
    Opened(PathBuf, Result<Box<Opened>, OpenProblem>),
    /// The session that was on show last was looked into; none where it cannot
    /// be read.
    Peeked(Option<LastVisit>),
    /// A press file was opened for the next visit, or not.
    PressOpened(PathBuf, Result<Box<OpenedPress>, OpenProblem>),
    /// What a session taught was written into a press file, or not.
    Taught(PathBuf, Result<Lesson, TeachProblem>, bool),
    /// A file of readings was read as text, or not.
    ReadingsRead(PathBuf, Result<String, ReadingsFileProblem>),
    /// A practice file was opened, or not.
    PracticeOpened(PathBuf, Result<Box<OpenedPractice>, OpenProblem>),
    /// A practice file was written, or not; what stands in its notebook.
    PracticeSaved(PathBuf, Option<Box<Session>>, Result<(), SaveProblem>),
    /// An exercise was debriefed and recorded, or not.
    Debriefed(Option<Box<Debrief>>, Result<(), (PathBuf, SaveProblem)>),
    /// A document was made and shown, or not.
    Printed(PrintDone),
    /// The system was asked to show a folder; whether it does.
    FolderShown(PathBuf, bool),
    /// A session was saved, or not.
    Saved(PathBuf, Arc<Session>, Result<Fingerprint, SaveProblem>),
    /// A session was saved beside a file, or not: the file, and the name it
    /// went under.
    SavedBeside(
        PathBuf,
        PathBuf,
        Arc<Session>,
        Result<Fingerprint, SaveProblem>,
    ),
    /// One's own state was compared with that of a file that somebody else
    /// changed.
    Compared(PathBuf, Result<Compared, OpenProblem>),
    /// What the sessions of a press of the shop's folder taught, and whether
    /// its next visit is to begin from that.
    PressLearnt(PressKey, Option<Box<Taught>>, bool),
    /// A change of a shop's upkeep was written, or not.
    UpkeepKept(PathBuf, UpkeepEdit, Result<Upkeep, UpkeepProblem>, bool),
    /// The serial ports there are, by name.
    Ports(Vec<String>),
    /// What a helper asks for, as text; none where it could not be asked.
    Doctor(Option<String>),
}

/// What somebody else's state of a file has that one's own has not.
#[derive(Debug)]
pub struct Compared {
    /// What differs.
    pub differences: Vec<Difference>,
    /// Who worked on theirs, as it says.
    pub who: String,
    /// When theirs was saved, where the disk says so.
    pub saved_at: Option<SystemTime>,
    /// The first free name beside it.
    pub beside: Option<String>,
}

/// Where the document belongs, and the jobs under way.
pub struct Files {
    /// The document's file, if it has one.
    pub path: Option<PathBuf>,
    /// What the file was when it was opened or last saved.
    pub fingerprint: Option<Fingerprint>,
    dialogs: bool,
    jobs: Jobs<Done>,
    /// Whoever does an exercise again waits less for its debrief.
    debriefs: Arc<Mutex<DebriefDesk>>,
}

impl Files {
    /// No file yet. Without `dialogs`, paths are always typed.
    pub fn new(ctx: &egui::Context, dialogs: bool) -> Self {
        Self {
            path: None,
            fingerprint: None,
            dialogs,
            jobs: Jobs::new(ctx),
            debriefs: Arc::default(),
        }
    }

    /// The document belongs nowhere yet.
    pub fn forget(&mut self) {
        self.path = None;
        self.fingerprint = None;
    }

    /// The file's name, without its folder.
    pub fn name(&self) -> Option<String> {
        let name = self.path.as_deref()?.file_name()?;
        Some(name.to_string_lossy().into_owned())
    }

    /// The folder that a path is typed from: that of the file on show, else
    /// the user's own.
    pub fn folder(&self) -> PathBuf {
        let of_file = self.path.as_deref().and_then(Path::parent);
        let folder = of_file.map(Path::to_owned).or_else(Folders::documents);
        let folder = folder.unwrap_or_else(|| PathBuf::from("."));
        std::path::absolute(&folder).unwrap_or(folder)
    }

    /// Puts a session on paper in a folder of the program's own, and has the
    /// system show it.
    pub fn print(&self, job: PrintJob) {
        let shows = self.dialogs;
        self.jobs.start(move || Done::Printed(job.done(shows)));
    }

    /// Has the system show a folder.
    pub fn show_folder(&self, folder: PathBuf) {
        let shows = self.dialogs;
        self.jobs.start(move || {
            let shown = shows && viewer::that_detached(&folder).is_ok();
            Done::FolderShown(folder, shown)
        });
    }

    /// Lets the user choose a file.
    pub fn choose(&self, what: PathFor, suggested: String, title: &str) {
        let folder = self
            .path
            .as_deref()
            .and_then(Path::parent)
            .map(Path::to_owned);
        let title = title.to_owned();
        if !self.dialogs {
            self.jobs.start(move || Done::NoDialogs(what));
            return;
        }
        self.jobs.start(move || {
            let mut dialog = rfd::AsyncFileDialog::new()
                .set_title(title)
                .add_filter("Jawtrue", what.endings());
            if let Some(folder) = folder {
                dialog = dialog.set_directory(folder);
            }
            let asked_at = Instant::now();
            let chosen = match what {
                PathFor::Open | PathFor::OpenPress | PathFor::Readings => {
                    pollster::block_on(dialog.pick_file())
                }
                PathFor::Shop => pollster::block_on(dialog.pick_folder()),
                PathFor::SaveAs | PathFor::Teach => {
                    pollster::block_on(dialog.set_file_name(suggested).save_file())
                }
            };
            match chosen {
                Some(file) => Done::Chosen(what, file.path().to_owned()),
                None if asked_at.elapsed() < FASTEST_HAND => Done::NoDialogs(what),
                None => Done::Cancelled,
            }
        });
    }

    /// Looks what a folder holds.
    pub fn look_into(&self, what: PathFor, folder: PathBuf) {
        self.jobs.start(move || {
            let listed = store::folder_list(&folder, what.endings());
            Done::Listed(folder, listed)
        });
    }

    /// Makes a folder and looks into it: one that could not be made cannot be
    /// looked into either.
    pub fn make_folder(&self, what: PathFor, folder: PathBuf) {
        self.jobs.start(move || {
            let made = std::fs::create_dir(&folder);
            let listed = made
                .ok()
                .and_then(|()| store::folder_list(&folder, what.endings()));
            Done::Listed(folder, listed)
        });
    }

    /// Opens a file; a practice file by its ending.
    pub fn open(&self, path: PathBuf) {
        let practice = path
            .extension()
            .is_some_and(|ending| ending.eq_ignore_ascii_case(PRACTICE_ENDING));
        self.jobs.start(move || {
            if practice {
                let opened = store::open_practice(&path).map(Box::new);
                return Done::PracticeOpened(path, opened);
            }
            let opened = store::open(&path).map(Box::new);
            Done::Opened(path, opened)
        });
    }

    /// Looks into the session that was on show last, to say where its work
    /// stands.
    pub fn peek(&self, path: PathBuf) {
        self.jobs.start(move || {
            let opened = store::open(&path).ok();
            Done::Peeked(opened.map(|opened| LastVisit::of(&opened.session)))
        });
    }

    /// Opens a press file for the next visit.
    pub fn open_press(&self, path: PathBuf) {
        self.jobs.start(move || {
            let opened = store::open_press(&path).map(Box::new);
            Done::PressOpened(path, opened)
        });
    }

    /// Reads a file of readings as text.
    pub fn read_readings(&self, path: PathBuf) {
        self.jobs.start(move || {
            let read = store::read_readings_file(&path);
            Done::ReadingsRead(path, read)
        });
    }

    /// Writes what a session taught into a press file.
    pub fn teach(&self, path: PathBuf, session: Arc<Session>) {
        self.jobs.start(move || {
            let comments = store::holds_comments(&path);
            let taught = store::teach(&path, &session);
            Done::Taught(path, taught, comments)
        });
    }

    /// Compares one's own state with that of a file.
    pub fn compare(&self, path: PathBuf, own: Arc<Session>) {
        self.jobs.start(move || {
            let mut names = (2..=MOST_BESIDE).map(|number| beside_name(&path, number));
            let beside = names.find(|name| !name.exists());
            let beside = beside.and_then(|path| Some(path.file_name()?.display().to_string()));
            let compared = store::open(&path).map(|theirs| Compared {
                differences: own.differences(&theirs.session),
                who: theirs.session.notes.who,
                saved_at: path.metadata().and_then(|file| file.modified()).ok(),
                beside,
            });
            Done::Compared(path, compared)
        });
    }

    /// Saves a session beside the file of this name, under the first name that
    /// is free.
    pub fn save_beside(&self, path: PathBuf, session: Arc<Session>) {
        self.jobs.start(move || {
            let mut outcome = Err(SaveProblem::Exists);
            let mut beside = path.clone();
            for number in 2..=MOST_BESIDE {
                beside = beside_name(&path, number);
                outcome = store::save(&beside, &session, Expected::Nothing);
                if outcome != Err(SaveProblem::Exists) {
                    break;
                }
            }
            Done::SavedBeside(path, beside, session, outcome)
        });
    }

    /// Writes a change of a shop's upkeep.
    pub fn keep_upkeep(&self, folder: PathBuf, edit: UpkeepEdit) {
        self.jobs.start(move || {
            let comments = store::holds_comments(&folder.join(store::UPKEEP_FILE));
            let kept = store::keep_upkeep(&folder, &edit);
            Done::UpkeepKept(folder, edit, kept, comments)
        });
    }

    /// Works out what the sessions of a press taught.
    pub fn learn_press(
        &self,
        press: PressKey,
        paths: Vec<PathBuf>,
        shelf: Arc<PriorShelf>,
        start: bool,
    ) {
        self.jobs.start(move || {
            let taught = store::press_taught(&paths, &shelf).map(Box::new);
            Done::PressLearnt(press, taught, start)
        });
    }

    /// Saves a session under a name.
    pub fn save(&self, path: PathBuf, session: Arc<Session>, expected: Expected) {
        self.jobs.start(move || {
            let saved = store::save(&path, &session, expected);
            Done::Saved(path, session, saved)
        });
    }

    /// Writes a practice file, whatever is there: it is this exercise's own.
    pub fn save_practice(&self, path: PathBuf, file: PracticeFile) {
        self.jobs.start(move || {
            let made = path.parent().map_or(Ok(()), std::fs::create_dir_all);
            let saved = match made {
                Ok(()) => store::save_practice(&path, &file, Expected::Anything).map(|_| ()),
                Err(error) => Err(SaveProblem::Disk(error.into())),
            };
            let notebook = match file {
                PracticeFile::Work(_, notebook) => notebook,
                PracticeFile::Exercise(_) => None,
            };
            Done::PracticeSaved(path, notebook, saved)
        });
    }

    /// Has the program itself, in a process of its own that a broken driver may
    /// bring down, write down what a helper asks for.
    pub fn doctor(&self, language: Language) {
        self.jobs.start(move || {
            let asked = std::env::current_exe().and_then(|program| {
                let mut doctor = Command::new(program);
                doctor
                    .args(["doctor", "--language", language.code()])
                    .output()
            });
            let report = asked.ok().filter(|asked| asked.status.success());
            let report = report.map(|asked| String::from_utf8_lossy(&asked.stdout).into_owned());
            Done::Doctor(report)
        });
    }

    /// Debriefs an exercise, and adds a line about it to the record.
    pub fn debrief(&self, practice: Practice, record: Option<PathBuf>) {
        let desk = Arc::clone(&self.debriefs);
        self.jobs.start(move || {
            let mut desk = desk.lock().unwrap_or_else(PoisonError::into_inner);
            let debrief = practice.debrief(&mut desk).ok();
            drop(desk);
            let recorded = match (&debrief, record) {
                (Some(debrief), Some(path)) => store::add_to_record(&path, &practice, debrief)
                    .map_err(|problem| (path, problem)),
                _ => Ok(()),
            };
            Done::Debriefed(debrief.map(Box::new), recorded)
        });
    }

    /// What came of jobs since the last look.
    pub fn done(&self) -> Vec<Done> {
        self.jobs.done()
    }

    /// Looks for serial ports: some systems take their time.
    pub fn look_for_ports(&self) {
        self.jobs.start(|| Done::Ports(gauge_port::ports()));
    }
}

impl PathFor {
    /// The ending of the files it is about.
    pub const fn ending(self) -> &'static str {
        match self {
            Self::Open | Self::SaveAs | Self::Shop => ENDING,
            Self::OpenPress | Self::Teach => PRESS_ENDING,
            Self::Readings => READINGS_ENDINGS[0],
        }
    }

    /// The endings of the files that are offered.
    const fn endings(self) -> &'static [&'static str] {
        match self {
            Self::Open => &[ENDING, PRACTICE_ENDING],
            Self::SaveAs | Self::Shop => &[ENDING],
            Self::OpenPress | Self::Teach => &[PRESS_ENDING],
            Self::Readings => &READINGS_ENDINGS,
        }
    }
}

/// Most files that one name may have beside it.
const MOST_BESIDE: u32 = 1_000;

/// The name of the so-manieth file beside a file: `visit (2).jawtrue`.
fn beside_name(path: &Path, number: u32) -> PathBuf {
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    path.with_file_name(format!("{stem} ({number}).{ENDING}"))
}

/// The path with an ending, where it has none.
pub fn with_ending(path: PathBuf, what: PathFor) -> PathBuf {
    if path.extension().is_none() {
        path.with_extension(what.ending())
    } else {
        path
    }
}

/// A file name for the press of a session.
pub fn suggested_press_name(session: &Session) -> String {
    named(&[&session.press.name], "press", PRESS_ENDING)
}

/// A file name for a session that has none yet.
pub fn suggested_name(session: &Session) -> String {
    named(
        &[&session.press.name, &session.notes.when],
        "session",
        ENDING,
    )
}
