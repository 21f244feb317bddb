//! Reads the sessions of a folder and keeps what was read current: a look
//! reads what is new or was changed since the look before, on all cores, and
//! lets go of what is gone. No file is ever changed.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::SystemTime;

use crate::session::{PriorShelf, Session};
use crate::shop::{PressBook, Upkeep, VisitSummary, press_books};

use super::disk::DiskProblem;
use super::fingerprint::Fingerprint;
use super::in_order::in_order;
use super::open::{OpenProblem, OtherKind, open};
use super::shop_folder::{Stamp, session_files};
use super::shop_index::{KnownAnswers, read_index, write_index};
use super::shop_taught::press_taught;
use super::upkeep_file::open_upkeep;

/// A shop as it was at a look.
#[derive(Debug, Clone, PartialEq)]
pub struct Shop {
    /// The folder.
    pub folder: PathBuf,
    /// The presses, by name.
    pub books: Vec<PressBook>,
    /// Sessions that were read, copies among them.
    pub sessions: usize,
    /// Files that could not be read, by name, and why; they are left as they
    /// are.
    pub unread: Vec<(String, OpenProblem)>,
    /// Practice files, by name; they count nowhere.
    pub practice: Vec<String>,
    /// Folders within that could not be read, and why.
    pub closed: Vec<(String, DiskProblem)>,
    /// Its upkeep, or why the file of it could not be read.
    pub upkeep: Result<Upkeep, OpenProblem>,
}

impl Default for Shop {
    fn default() -> Self {
        Self {
            folder: PathBuf::new(),
            books: Vec::new(),
            sessions: 0,
            unread: Vec::new(),
            practice: Vec::new(),
            closed: Vec::new(),
            upkeep: Ok(Upkeep::default()),
        }
    }
}

/// How far a look has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Progress {
    /// Files read.
    pub read: usize,
    /// Files to be read.
    pub of: usize,
}

/// What came of a look.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Look {
    /// Everything is as it was at the look before.
    Same,
    /// Something is new, changed or gone.
    Changed,
    /// It was broken off.
    BrokenOff,
}

/// Files whose stamps one thread looks at at a time.
const STAMPED: usize = 500;

/// What stands in a file.
#[derive(Debug, PartialEq)]
enum Entry {
    Visit(Arc<VisitSummary>),
    Unread(OpenProblem),
    Practice,
}

/// Reads a folder again and again.
#[derive(Debug)]
pub struct ShopReader {
    folder: PathBuf,
    index: Option<PathBuf>,
    /// By name within the folder; a stamp only where it can be relied on.
    known: BTreeMap<String, (Option<Stamp>, Entry)>,
    answers: KnownAnswers,
    practice: Vec<String>,
    closed: Vec<(String, DiskProblem)>,
    upkeep: Result<Upkeep, OpenProblem>,
    looked: bool,
}

impl ShopReader {
    /// Nothing is read yet, but for the index where one is named.
    pub fn new(folder: &Path, index: Option<PathBuf>) -> Self {
        let indexed = index.as_deref().map(|index| read_index(index, folder));
        let (indexed, answers) = indexed.unwrap_or_default();
        let known = indexed.into_iter().map(|(stamp, visit)| {
            let file = visit.file.clone();
            (file, (Some(stamp), Entry::Visit(visit)))
        });
        Self {
            folder: folder.to_owned(),
            index,
            known: known.collect(),
            answers,
            practice: Vec::new(),
            closed: Vec::new(),
            upkeep: Ok(Upkeep::default()),
            looked: false,
        }
    }

    /// Looks for what is new, changed or gone, until `go_on` says no; it hears
    /// how far the look has come.
    ///
    /// # Errors
    /// Why the folder cannot be read; what was known stays known.
    pub fn look(&mut self, go_on: &mut dyn FnMut(Progress) -> bool) -> Result<Look, DiskProblem> {
        self.look_and_hand_on(go_on, &mut |_, _| {})
    }

    /// The same; `taken` gets every session that is read, with the name of its
    /// file, so that nobody has to read it again.
    ///
    /// # Errors
    /// See [`ShopReader::look`].
    pub fn look_and_hand_on(
        &mut self,
        go_on: &mut dyn FnMut(Progress) -> bool,
        taken: &mut dyn FnMut(String, Session),
    ) -> Result<Look, DiskProblem> {
        let found = session_files(&self.folder)?;
        let names = |paths: &[PathBuf]| -> Vec<String> {
            paths.iter().map(|path| self.name(path)).collect()
        };
        let practice = names(&found.practice);
        let closed = found.closed.iter();
        let closed: Vec<(String, DiskProblem)> =
            closed.map(|(path, why)| (self.name(path), *why)).collect();
        let upkeep = open_upkeep(&self.folder);
        let mut changed =
            practice != self.practice || closed != self.closed || upkeep != self.upkeep;
        (self.practice, self.closed, self.upkeep) = (practice, closed, upkeep);

        let mut to_read = Vec::new();
        let mut still = BTreeMap::new();
        let of_files = |paths: &&[PathBuf]| -> Vec<(String, Option<Stamp>)> {
            let paths = paths.iter();
            paths.map(|path| (self.name(path), stamp(path))).collect()
        };
        let parts: Vec<&[PathBuf]> = found.files.chunks(STAMPED).collect();
        let mut there = Vec::with_capacity(found.files.len());
        in_order(&parts, of_files, |_, part| {
            there.extend(part);
            true
        });
        let before = self.known.len();
        for (path, (name, stamp)) in found.files.iter().zip(there) {
            let known = self.known.remove(&name);
            if stamp.is_none() || known.as_ref().and_then(|(known, _)| *known) != stamp {
                to_read.push((path.clone(), name.clone()));
            }
            still.extend(known.map(|known| (name, known)));
        }
        changed |= before != still.len();
        self.known = still;

        let of = to_read.len();
        let mut read = 0;
        let mut broken_off = !go_on(Progress { read, of });
        if !broken_off {
            in_order(&to_read, read_entry, |index, (stamp, entry, session)| {
                if let Some((_, name)) = to_read.get(index) {
                    if let Some(session) = session {
                        taken(name.clone(), session);
                    }
                    let new = self.known.insert(name.clone(), (stamp, entry));
                    let now = self.known.get(name);
                    changed |= new.as_ref().map(|(_, entry)| entry) != now.map(|(_, entry)| entry);
                }
                read += 1;
                broken_off = !go_on(Progress { read, of });
                !broken_off
            });
        }
        if broken_off {
            return Ok(Look::BrokenOff);
        }
        if of > 0 || changed {
            self.keep();
        }
        let first = !std::mem::replace(&mut self.looked, true);
        Ok(match changed || first {
            true => Look::Changed,
            false => Look::Same,
        })
    }

    /// Writes the index, where one is named.
    fn keep(&self) {
        if let Some(index) = &self.index {
            let kept = self.known.values().filter_map(|(stamp, entry)| {
                let Entry::Visit(visit) = entry else {
                    return None;
                };
                Some(((*stamp)?, &**visit))
            });
            let kept: Vec<_> = kept.collect();
            // A convenience: without it the next start takes longer.
            let _ = write_index(index, &self.folder, &kept, &self.answers);
        }
    }

    /// Works out of each press that is not known yet whether a nut answers
    /// otherwise than it did, until `go_on` says no; answers whether any does
    /// that was not known before. It takes the sessions themselves.
    pub fn learn(
        &mut self,
        books: &[PressBook],
        shelf: &PriorShelf,
        go_on: &mut dyn FnMut() -> bool,
    ) -> bool {
        let mut answers = KnownAnswers::new();
        let (mut learned, mut news) = (false, false);
        for book in books {
            let key = self.of_files(book);
            let known = self.answers.remove(&key);
            learned |= known.is_none();
            let changed = match known {
                Some(changed) => changed,
                None if go_on() => {
                    let paths = book.visits.iter().map(|it| self.folder.join(&it.file));
                    let taught = press_taught(&paths.collect::<Vec<_>>(), shelf);
                    let changed = taught.and_then(|taught| taught.changed);
                    news |= changed.is_some();
                    changed
                }
                None => continue,
            };
            answers.insert(key, changed);
        }
        self.answers = answers;
        if learned {
            self.keep();
        }
        news
    }

    /// A hash of a press's files and their stamps.
    fn of_files(&self, book: &PressBook) -> u64 {
        let mut bytes = Vec::new();
        for visit in &book.visits {
            let stamp = self.known.get(&visit.file).and_then(|(stamp, _)| *stamp);
            let (written, size) = stamp.map_or((0, 0), |it| (it.written, it.bytes));
            bytes.extend(visit.file.as_bytes());
            bytes.extend(written.to_le_bytes());
            bytes.extend(size.to_le_bytes());
        }
        Fingerprint::of(&bytes).hash
    }

    /// The name of a file within the folder.
    fn name(&self, path: &Path) -> String {
        let name = path.strip_prefix(&self.folder).unwrap_or(path);
        name.to_string_lossy().replace('\\', "/")
    }

    /// What is known now.
    pub fn shop(&self) -> Shop {
        let mut shop = Shop {
            folder: self.folder.clone(),
            practice: self.practice.clone(),
            closed: self.closed.clone(),
            upkeep: self.upkeep.clone(),
            ..Shop::default()
        };
        let mut visits = Vec::new();
        for (name, (_, entry)) in &self.known {
            match entry {
                Entry::Visit(visit) => visits.push(Arc::clone(visit)),
                Entry::Unread(problem) => shop.unread.push((name.clone(), problem.clone())),
                Entry::Practice => shop.practice.push(name.clone()),
            }
        }
        shop.sessions = visits.len();
        shop.books = press_books(visits);
        for book in &mut shop.books {
            book.changed = self.answers.get(&self.of_files(book)).cloned().flatten();
        }
        shop
    }
}

/// The stamp that a file bears now.
fn stamp(path: &Path) -> Option<Stamp> {
    Stamp::of(&fs::metadata(path).ok()?)
}

/// Reads one file, with the stamp it bore before it was read; none where the
/// next change might bear the same.
fn read_entry((path, name): &(PathBuf, String)) -> (Option<Stamp>, Entry, Option<Session>) {
    let looked = SystemTime::now();
    let stamp = stamp(path);
    let (entry, session) = match open(path) {
        Ok(opened) => {
            let visit = VisitSummary::of(&opened.session, name.clone());
            (Entry::Visit(Arc::new(visit)), Some(opened.session))
        }
        Err(OpenProblem::OtherKind(OtherKind::Practice)) => (Entry::Practice, None),
        Err(problem) => (Entry::Unread(problem), None),
    };
    let stamp = stamp.filter(|stamp| !stamp.is_fresh(looked));
    (stamp, entry, session)
}
