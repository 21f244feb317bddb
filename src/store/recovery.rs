//! Keeps unsaved work aside while the program runs, and finds what a crashed
//! program left.
//!
//! Every running window has two files in the recovery folder: `ID.running`,
//! locked for as long as the process lives, and `ID.kept`, the work itself.
//! The system lets go of the lock however the process ends, so a file whose
//! lock is free belongs to a window that is gone.

use std::collections::BTreeSet;
use std::fs::{self, File, OpenOptions, TryLockError};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, SystemTime, UNIX_EPOCH};

use serde::{Deserialize, Serialize};

use crate::codec::pretty;
use crate::session::{PassInFile, Session};

use super::disk::{Content, Disk, DiskProblem, MOST_BYTES};
use super::fingerprint::Fingerprint;
use super::open::{OpenProblem, read_unnumbered, session_of};
use super::real_disk::RealDisk;
use super::replace::{random_bits, replace};

const RUNNING: &str = "running";
const STARTING: &str = "starting";
const KEPT: &str = "kept";

/// Work kept aside, as it stands in its file: where it came from, and the
/// session as in a session file.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct KeptFile {
    origin: Option<String>,
    /// Length and hash of the origin as it was opened.
    opened: Option<(u64, u64)>,
    /// Seconds since 1970 began, UTC.
    kept_at: u64,
    session: Session<PassInFile>,
}

/// Where a session came from.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Origin {
    /// Its file, if it has one.
    pub path: Option<PathBuf>,
    /// What the file was when it was opened or last saved.
    pub opened: Option<Fingerprint>,
}

/// Keeps the unsaved work of one window aside, on a thread of its own so that
/// the window never waits for the disk.
#[derive(Debug)]
pub struct Recovery {
    desk: Arc<Desk>,
    running: PathBuf,
    _lock: File,
}

/// What the window and the thread share.
#[derive(Debug, Default)]
struct Desk {
    state: Mutex<State>,
    changed: Condvar,
}

/// How long a window that closes waits for a disk that does not answer.
const PATIENCE: Duration = Duration::from_secs(3);

#[derive(Debug, Default)]
struct State {
    task: Option<Task>,
    at_work: bool,
    stop: bool,
    ended: bool,
    problem: Option<DiskProblem>,
    /// Work of crashed windows that this one goes on with; its own copy of it
    /// comes first.
    taken_up: Vec<Leftover>,
}

#[derive(Debug)]
enum Task {
    Keep(Arc<Session>, Origin),
    Forget,
}

impl Desk {
    fn lock(&self) -> MutexGuard<'_, State> {
        // No code panics while it holds the lock; the state is whole anyway.
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn wait<'a>(&self, state: MutexGuard<'a, State>) -> MutexGuard<'a, State> {
        self.changed
            .wait(state)
            .unwrap_or_else(PoisonError::into_inner)
    }
}

impl Recovery {
    /// Starts keeping work aside in a folder, which is made if need be. `wake`
    /// is called when keeping begins to fail, or works again; see
    /// [`problem`](Self::problem).
    ///
    /// # Errors
    /// What the disk refused. The program can go on without.
    pub fn start(folder: &Path, wake: impl Fn() + Send + 'static) -> Result<Self, DiskProblem> {
        fs::create_dir_all(folder)?;
        RealDisk.sweep(folder);
        let id = format!("{}-{:016x}", std::process::id(), random_bits());
        let file = |ending| folder.join(&id).with_extension(ending);
        let (starting, running, kept) = (file(STARTING), file(RUNNING), file(KEPT));
        // The name by which others look for it appears once it is locked, so
        // that nobody takes a starting window for a crashed one.
        let lock = OpenOptions::new()
            .write(true)
            .create_new(true)
            .open(&starting)?;
        let _ = lock.try_lock();
        fs::rename(&starting, &running)?;
        let desk = Arc::new(Desk::default());
        std::thread::Builder::new().name("recovery".into()).spawn({
            let desk = Arc::clone(&desk);
            move || {
                work(&desk, &kept, wake);
                desk.lock().ended = true;
                desk.changed.notify_all();
            }
        })?;
        Ok(Self {
            desk,
            running,
            _lock: lock,
        })
    }

    /// Keeps this state of the work aside and lets go of the one before.
    /// Returns at once; what follows too fast is skipped.
    pub fn keep(&self, session: Arc<Session>, origin: Origin) {
        self.give(Task::Keep(session, origin));
    }

    /// Keeps the work of a crashed window as this one's own, and removes what
    /// it left once that is done. Until then it stays to be found.
    pub fn take_up(&self, session: Arc<Session>, leftover: Leftover) {
        let origin = leftover.origin.clone();
        self.desk.lock().taken_up.push(leftover);
        self.keep(session, origin);
    }

    /// What the disk refused when work was kept aside last, if it did.
    pub fn problem(&self) -> Option<DiskProblem> {
        self.desk.lock().problem
    }

    /// Lets go of what was kept: everything is saved, or was given up.
    pub fn forget(&self) {
        self.give(Task::Forget);
    }

    fn give(&self, task: Task) {
        self.desk.lock().task = Some(task);
        self.desk.changed.notify_all();
    }

    /// Ends in good order: nothing is left to be found.
    pub fn finish(mut self) {
        self.forget();
        if self.stop() {
            let _ = fs::remove_file(&self.running);
        }
    }

    /// Has the thread end; whether it did. One that a dead disk holds up is
    /// left to the end of the program.
    fn stop(&mut self) -> bool {
        let mut state = self.desk.lock();
        state.stop = true;
        self.desk.changed.notify_all();
        let waited = self
            .desk
            .changed
            .wait_timeout_while(state, PATIENCE, |state| !state.ended);
        let (state, _) = waited.unwrap_or_else(PoisonError::into_inner);
        state.ended
    }
}

impl Drop for Recovery {
    /// Without [`finish`](Self::finish), what was kept stays to be found.
    fn drop(&mut self) {
        self.stop();
    }
}

/// Does what is asked until told to stop; what was asked before that is done.
fn work(desk: &Desk, kept: &Path, wake: impl Fn()) {
    let mut state = desk.lock();
    loop {
        let Some(task) = state.task.take() else {
            if state.stop {
                return;
            }
            state = desk.wait(state);
            continue;
        };
        state.at_work = true;
        drop(state);
        let outcome = match &task {
            Task::Keep(session, origin) => write_kept(kept, session, origin),
            Task::Forget => match fs::remove_file(kept).map_err(DiskProblem::from) {
                Err(DiskProblem::Missing) => Ok(()),
                outcome => outcome,
            },
        };
        let done = outcome.is_ok();
        state = desk.lock();
        state.at_work = false;
        let before = std::mem::replace(&mut state.problem, outcome.err());
        let taken_up = if done {
            std::mem::take(&mut state.taken_up)
        } else {
            Vec::new()
        };
        let news = before != state.problem;
        drop(state);
        for leftover in taken_up {
            let _ = leftover.discard();
        }
        if news {
            wake();
        }
        state = desk.lock();
    }
}

fn write_kept(path: &Path, session: &Session, origin: &Origin) -> Result<(), DiskProblem> {
    let kept_at = SystemTime::now()
        .duration_since(UNIX_EPOCH)
        .map_or(0, |since| since.as_secs());
    let file = KeptFile {
        origin: origin
            .path
            .as_deref()
            .and_then(Path::to_str)
            .map(str::to_owned),
        opened: origin.opened.map(|opened| (opened.bytes, opened.hash)),
        kept_at,
        session: session.to_file(),
    };
    let text = pretty(&file).map_err(|_| DiskProblem::Other(None))?;
    Ok(replace(&RealDisk, path, text.as_bytes(), None)?)
}

/// Work that a window left when it ended without saving. While this is held,
/// no other window is offered it; dropping it leaves it to be found again.
#[derive(Debug)]
pub struct Leftover {
    /// The work, or why it cannot be read; its file then stays where it is.
    pub session: Result<Session, OpenProblem>,
    /// Where the work came from.
    pub origin: Origin,
    /// When it was kept.
    pub kept_at: Option<SystemTime>,
    /// The file it is kept in.
    pub path: PathBuf,
    running: PathBuf,
    _lock: Option<File>,
}

impl Leftover {
    /// Removes it from the disk: it was given up, or is in safe hands.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn discard(self) -> Result<(), DiskProblem> {
        fs::remove_file(&self.path)?;
        let _ = fs::remove_file(&self.running);
        Ok(())
    }
}

/// What crashed windows left in a folder, the newest first. Files of windows
/// that still run are passed over.
pub fn leftovers(folder: &Path) -> Vec<Leftover> {
    let Ok(entries) = fs::read_dir(folder) else {
        return Vec::new();
    };
    let windows: BTreeSet<PathBuf> = entries
        .flatten()
        .map(|entry| entry.path())
        .filter(|path| {
            path.extension()
                .is_some_and(|ending| ending == KEPT || ending == RUNNING)
        })
        .map(|path| path.with_extension(""))
        .collect();
    let mut left: Vec<Leftover> = windows
        .into_iter()
        .filter_map(|window| leftover(&window))
        .collect();
    left.sort_by_key(|leftover| std::cmp::Reverse(leftover.kept_at));
    left
}

fn leftover(window: &Path) -> Option<Leftover> {
    let running = window.with_extension(RUNNING);
    let path = window.with_extension(KEPT);
    let lock = match File::open(&running) {
        Ok(file) => match file.try_lock() {
            Ok(()) => Some(file),
            Err(TryLockError::WouldBlock) => return None,
            // A file system without locks: better offered twice than lost.
            Err(TryLockError::Error(_)) => None,
        },
        Err(_) => None,
    };
    let (session, origin, kept_at) = match RealDisk.read(&path, MOST_BYTES.saturating_mul(2)) {
        Ok(Content::Bytes(bytes)) => read_kept(&bytes),
        Ok(Content::Missing) => {
            // It ended with nothing unsaved but could not tidy up.
            let _ = fs::remove_file(&running);
            return None;
        }
        Ok(_) => (Err(OpenProblem::NotAFile), Origin::default(), None),
        Err(error) => (
            Err(OpenProblem::Disk(error.into())),
            Origin::default(),
            None,
        ),
    };
    Some(Leftover {
        session,
        origin,
        kept_at,
        path,
        running,
        _lock: lock,
    })
}

type Read = (Result<Session, OpenProblem>, Origin, Option<SystemTime>);

fn read_kept(bytes: &[u8]) -> Read {
    let text = String::from_utf8_lossy(bytes);
    let file: KeptFile = match read_unnumbered(&text) {
        Ok(file) => file,
        Err(problem) => return (Err(problem), Origin::default(), None),
    };
    let origin = Origin {
        path: file.origin.map(PathBuf::from),
        opened: file.opened.map(|(bytes, hash)| Fingerprint { bytes, hash }),
    };
    let kept_at = UNIX_EPOCH.checked_add(Duration::from_secs(file.kept_at));
    let session = session_of(file.session);
    (session, origin, kept_at)
}
