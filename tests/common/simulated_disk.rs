//! A disk that keeps only what was flushed to it.
//!
//! Names and bytes are written to a cache first. A loss of power keeps, of
//! what was not flushed, an arbitrary part: any of the changes of names since
//! the folder was last flushed, and of an unflushed file any beginning, or as
//! many bytes of rubbish. That is more than real disks do and all that POSIX
//! promises.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

use jawtrue::store::{Content, Disk, DiskFile, Hold};

#[derive(Debug, Default, Clone)]
struct File {
    flushed: Option<Vec<u8>>,
    cached: Vec<u8>,
}

#[derive(Debug, Clone)]
enum Change {
    Name(PathBuf, usize),
    Remove(PathBuf),
    Rename(PathBuf, PathBuf, usize),
}

#[derive(Debug, Default, Clone)]
struct State {
    files: Vec<File>,
    names: BTreeMap<PathBuf, usize>,
    flushed_names: BTreeMap<PathBuf, usize>,
    unflushed: Vec<Change>,
    steps: usize,
    crash_at: Option<usize>,
    fail_at: Option<(usize, ErrorKind)>,
    is_off: bool,
    random: u64,
}

/// The simulated disk.
#[derive(Debug, Default)]
pub struct SimulatedDisk(RefCell<State>);

/// What a loss of power left.
#[derive(Debug)]
pub struct Crash(BTreeMap<PathBuf, Vec<u8>>);

impl Crash {
    /// The bytes under a name.
    pub fn content(&self, path: &Path) -> Option<Vec<u8>> {
        self.0.get(path).cloned()
    }
}

impl State {
    /// SplitMix64 (Steele, Lea, Flood 2014).
    fn random(&mut self) -> u64 {
        self.random = self.random.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.random;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// Counts a step. Answers whether it is carried out; where the power
    /// fails in the middle of it, that is left to chance.
    fn step(&mut self) -> io::Result<()> {
        if self.is_off {
            return Err(ErrorKind::Other.into());
        }
        let step = self.steps;
        self.steps += 1;
        if let Some((_, kind)) = self.fail_at.take_if(|(at, _)| *at == step) {
            return Err(kind.into());
        }
        if self.crash_at == Some(step) {
            self.is_off = true;
            if self.random().is_multiple_of(2) {
                return Err(ErrorKind::Other.into());
            }
        }
        Ok(())
    }

    /// What the caller sees of a step that was carried out.
    fn outcome(&self) -> io::Result<()> {
        if self.is_off {
            Err(ErrorKind::Other.into())
        } else {
            Ok(())
        }
    }

    fn change(&mut self, change: Change) {
        apply(&mut self.names, &change);
        self.unflushed.push(change);
    }

    fn named(&self, path: &Path) -> io::Result<usize> {
        self.names
            .get(path)
            .copied()
            .ok_or_else(|| ErrorKind::NotFound.into())
    }
}

fn apply(names: &mut BTreeMap<PathBuf, usize>, change: &Change) {
    match change {
        Change::Name(path, file) => {
            names.insert(path.clone(), *file);
        }
        Change::Remove(path) => {
            names.remove(path);
        }
        Change::Rename(from, to, file) => {
            names.remove(from);
            names.insert(to.clone(), *file);
        }
    }
}

impl SimulatedDisk {
    /// Puts a flushed file under a name.
    pub fn lay_down(&self, path: &Path, bytes: &[u8]) {
        let mut state = self.0.borrow_mut();
        let file = state.files.len();
        state.files.push(File {
            flushed: Some(bytes.to_vec()),
            cached: bytes.to_vec(),
        });
        state.names.insert(path.to_owned(), file);
        state.flushed_names.insert(path.to_owned(), file);
    }

    /// The power fails at this step, counted from 0.
    pub fn crash_at(&self, step: usize, seed: u64) {
        let mut state = self.0.borrow_mut();
        state.crash_at = Some(step);
        state.random = seed;
    }

    /// The disk refuses this step, once.
    pub fn fail_at(&self, step: usize, kind: ErrorKind) {
        self.0.borrow_mut().fail_at = Some((step, kind));
    }

    /// Steps so far.
    pub fn steps(&self) -> usize {
        self.0.borrow().steps
    }

    /// The bytes under a name, flushed or not.
    pub fn content(&self, path: &Path) -> Option<Vec<u8>> {
        let state = self.0.borrow();
        let file = *state.names.get(path)?;
        Some(state.files[file].cached.clone())
    }

    /// All names.
    pub fn names(&self) -> Vec<PathBuf> {
        self.0.borrow().names.keys().cloned().collect()
    }

    /// What is there when the power comes back.
    pub fn after_crash(&self) -> Crash {
        let mut state = self.0.borrow().clone();
        let mut names = state.flushed_names.clone();
        for change in state.unflushed.clone() {
            if state.random().is_multiple_of(2) {
                apply(&mut names, &change);
            }
        }
        let mut contents = BTreeMap::new();
        for (path, file) in names {
            let File { flushed, cached } = state.files[file].clone();
            let bytes = match flushed {
                Some(bytes) if bytes == cached => bytes,
                _ => match state.random() % 3 {
                    0 => Vec::new(),
                    1 => {
                        let kept = state.random() as usize % (cached.len() + 1);
                        cached[..kept].to_vec()
                    }
                    _ => vec![0; cached.len()],
                },
            };
            contents.insert(path, bytes);
        }
        Crash(contents)
    }
}

struct OpenFile<'a> {
    disk: &'a SimulatedDisk,
    file: usize,
}

impl DiskFile for OpenFile<'_> {
    fn append(&mut self, bytes: &[u8]) -> io::Result<()> {
        let mut state = self.disk.0.borrow_mut();
        let step = state.step();
        // Some of it may be written before the disk refuses or the power
        // fails.
        let written = match step {
            Ok(()) => bytes.len(),
            Err(_) => state.random() as usize % (bytes.len() + 1),
        };
        state.files[self.file]
            .cached
            .extend_from_slice(&bytes[..written]);
        step?;
        state.outcome()
    }

    fn sync(&mut self) -> io::Result<()> {
        let mut state = self.disk.0.borrow_mut();
        state.step()?;
        let file = &mut state.files[self.file];
        file.flushed = Some(file.cached.clone());
        state.outcome()
    }
}

impl Disk for SimulatedDisk {
    fn follow(&self, path: &Path) -> io::Result<PathBuf> {
        Ok(path.to_owned())
    }

    fn read(&self, path: &Path, _most: u64) -> io::Result<Content> {
        self.0.borrow_mut().step()?;
        Ok(match self.content(path) {
            Some(bytes) => Content::Bytes(bytes),
            None => Content::Missing,
        })
    }

    fn create(&self, path: &Path, _like: Option<&Path>) -> io::Result<Box<dyn DiskFile + '_>> {
        let mut state = self.0.borrow_mut();
        state.step()?;
        if state.names.contains_key(path) {
            return Err(ErrorKind::AlreadyExists.into());
        }
        let file = state.files.len();
        state.files.push(File::default());
        state.change(Change::Name(path.to_owned(), file));
        state.outcome()?;
        Ok(Box::new(OpenFile { disk: self, file }))
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        let mut state = self.0.borrow_mut();
        state.step()?;
        let file = state.named(from)?;
        state.change(Change::Rename(from.to_owned(), to.to_owned(), file));
        state.outcome()
    }

    fn rename_to_free(&self, from: &Path, to: &Path) -> io::Result<()> {
        if self.0.borrow().names.contains_key(to) {
            return Err(ErrorKind::AlreadyExists.into());
        }
        self.rename(from, to)
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        let mut state = self.0.borrow_mut();
        state.step()?;
        state.named(path)?;
        state.change(Change::Remove(path.to_owned()));
        state.outcome()
    }

    fn sync_folder(&self, _folder: &Path) -> io::Result<()> {
        let mut state = self.0.borrow_mut();
        state.step()?;
        state.flushed_names = state.names.clone();
        state.unflushed.clear();
        state.outcome()
    }

    fn hold(&self, _path: &Path) -> io::Result<Hold> {
        Ok(Hold::default())
    }

    fn sweep(&self, _folder: &Path) {}
}
