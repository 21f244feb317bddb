//! Opens session files.

use std::path::Path;

use serde::de::DeserializeOwned;

use crate::codec::options;
use crate::practice::{ExerciseProblem, Refusal};
use crate::session::{FORMAT, PassInFile, Session, Unsound};

use super::comments::has_comments;
use super::damage::{Damage, TextPlace, damage};
use super::disk::{Content, Disk, DiskProblem, MOST_BYTES};
use super::fingerprint::Fingerprint;
use super::head::{Head, Instead, SESSION, read_head};
use super::real_disk::RealDisk;

/// A session file that was read.
#[derive(Debug, Clone, PartialEq)]
pub struct Opened {
    /// The session.
    pub session: Session,
    /// What the file was when it was read; [`super::save`] compares with it.
    pub fingerprint: Fingerprint,
    /// Whether a person typed comments into the file. Saving cannot keep them;
    /// they stay in the state before, beside the file.
    pub comments: bool,
}

/// Why a file cannot be opened. The file stays as it is.
#[derive(Debug, Clone, PartialEq)]
pub enum OpenProblem {
    /// The disk refused.
    Disk(DiskProblem),
    /// The name is that of a folder.
    Folder,
    /// The name is that of a device or a pipe.
    NotAFile,
    /// The file is larger than [`MOST_BYTES`]: its size.
    TooLarge(u64),
    /// Nothing stands in the file.
    Empty,
    /// The file is something else.
    OtherKind(OtherKind),
    /// The file is no press file where one was expected.
    NoPress(Instead),
    /// The file is no practice file where one was expected.
    NoPractice(Instead),
    /// A practice file can be read, but what it describes cannot be.
    UnsoundPractice(UnsoundPractice),
    /// The file begins like a session but is no UTF-8 text from a place on.
    NotText(TextPlace),
    /// The file has a format that only a newer version reads: its number.
    NewerFormat(u64),
    /// The file is damaged: where, and what was found.
    Damaged(TextPlace, Damage),
    /// The file can be read, but what it describes cannot be.
    Unsound(Unsound),
}

/// What is wrong with a practice file that could be read letter by letter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum UnsoundPractice {
    /// The exercise cannot be.
    Exercise(ExerciseProblem),
    /// An act that cannot have been done, counted from 1.
    Act(usize, Refusal),
    /// More acts than an exercise can have.
    TooManyActs(usize),
}

/// What a file is that is no session.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OtherKind {
    /// A picture.
    Picture,
    /// A PDF document.
    Pdf,
    /// A packed file: a ZIP archive, a spreadsheet, a text document.
    Packed,
    /// Text in UTF-16, as some editors save it.
    Utf16,
    /// Lines with commas, semicolons or tabs, as a spreadsheet saves them.
    Table,
    /// Other text.
    Text,
    /// A press file, where a session was expected.
    Press,
    /// A practice file, where a session was expected.
    Practice,
    /// No text at all.
    Binary,
}

impl From<DiskProblem> for OpenProblem {
    fn from(problem: DiskProblem) -> Self {
        Self::Disk(problem)
    }
}

/// Opens a session file.
///
/// # Errors
/// See [`OpenProblem`].
pub fn open(path: &Path) -> Result<Opened, OpenProblem> {
    open_on(&RealDisk, path)
}

/// Opens a session file on a given disk.
///
/// # Errors
/// See [`OpenProblem`].
pub fn open_on(disk: &dyn Disk, path: &Path) -> Result<Opened, OpenProblem> {
    let bytes = bytes_of(disk, path)?;
    Ok(Opened {
        session: session_from_bytes(&bytes)?,
        fingerprint: Fingerprint::of(&bytes),
        // What was read is text.
        comments: has_comments(&String::from_utf8_lossy(&bytes)),
    })
}

/// Whether a person typed comments into a file, which saving cannot keep; they
/// stay in the state before, beside the file.
pub fn holds_comments(path: &Path) -> bool {
    bytes_of(&RealDisk, path).is_ok_and(|bytes| has_comments(&String::from_utf8_lossy(&bytes)))
}

/// What stands in a file that can be opened.
pub(super) fn bytes_of(disk: &dyn Disk, path: &Path) -> Result<Vec<u8>, OpenProblem> {
    match disk.read(path, MOST_BYTES).map_err(DiskProblem::from)? {
        Content::Missing => Err(OpenProblem::Disk(DiskProblem::Missing)),
        Content::Folder => Err(OpenProblem::Folder),
        Content::NotAFile => Err(OpenProblem::NotAFile),
        Content::TooLarge(bytes) => Err(OpenProblem::TooLarge(bytes)),
        Content::Bytes(bytes) => Ok(bytes),
    }
}

fn session_from_bytes(bytes: &[u8]) -> Result<Session, OpenProblem> {
    match std::str::from_utf8(bytes) {
        Ok(text) => session_from_text(text),
        Err(error) => {
            let readable = bytes.get(..error.valid_up_to()).unwrap_or_default();
            let readable = std::str::from_utf8(readable).unwrap_or_default();
            Err(match read_head(without_mark(readable), SESSION) {
                Head::Empty | Head::OtherKind => OpenProblem::OtherKind(kind_of_binary(bytes)),
                Head::NoFormat(_) | Head::Format(_) => {
                    OpenProblem::NotText(TextPlace::after(readable))
                }
            })
        }
    }
}

/// Reads a session from the text of its file.
///
/// # Errors
/// See [`OpenProblem`].
pub fn session_from_text(text: &str) -> Result<Session, OpenProblem> {
    let text = without_mark(text);
    match Instead::of(text) {
        Instead::Press => return Err(OpenProblem::OtherKind(OtherKind::Press)),
        Instead::Practice => return Err(OpenProblem::OtherKind(OtherKind::Practice)),
        Instead::Session | Instead::Other => {}
    }
    session_of(read(text, SESSION, FORMAT)?)
}

/// Reads a file from its text, which is to begin with `word` and a format
/// number that this version knows.
pub(super) fn read<T: DeserializeOwned>(
    text: &str,
    word: &str,
    newest: u32,
) -> Result<T, OpenProblem> {
    check_format(text, word, newest)?;
    read_unnumbered(text)
}

/// Reads a file from its text.
pub(super) fn read_unnumbered<T: DeserializeOwned>(text: &str) -> Result<T, OpenProblem> {
    options().from_str(text).map_err(|error| {
        let (place, damage) = damage(text, error);
        OpenProblem::Damaged(place, damage)
    })
}

/// The text of a press or practice file.
pub(super) fn utf8_text(bytes: &[u8]) -> Result<&str, OpenProblem> {
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let readable = bytes.get(..error.valid_up_to()).unwrap_or_default();
        OpenProblem::NotText(TextPlace::after(&String::from_utf8_lossy(readable)))
    })?;
    Ok(without_mark(text))
}

/// The session that a file holds, itself or within a file of another kind.
pub(super) fn session_of(file: Session<PassInFile>) -> Result<Session, OpenProblem> {
    if file.format > FORMAT {
        return Err(OpenProblem::NewerFormat(file.format.into()));
    }
    Session::from_file(file).map_err(OpenProblem::Unsound)
}

/// Checks that a text begins with a format number that this version reads.
fn check_format(text: &str, word: &str, newest: u32) -> Result<(), OpenProblem> {
    let no_format = |before: &str| {
        let place = TextPlace::after(before);
        Err(OpenProblem::Damaged(place, Damage::NoFormat))
    };
    match read_head(text, word) {
        Head::Empty => Err(OpenProblem::Empty),
        Head::OtherKind => Err(OpenProblem::OtherKind(kind_of_text(text))),
        Head::NoFormat(at) => no_format(text.get(..at).unwrap_or_default()),
        Head::Format(found) if found > u64::from(newest) => Err(OpenProblem::NewerFormat(found)),
        // No version ever wrote a format 0.
        Head::Format(0) => no_format("("),
        Head::Format(_) => Ok(()),
    }
}

/// The text without the byte order mark that some editors put first.
fn without_mark(text: &str) -> &str {
    text.strip_prefix('\u{feff}').unwrap_or(text)
}

fn kind_of_binary(bytes: &[u8]) -> OtherKind {
    const HEADS: [(&[u8], OtherKind); 11] = [
        (b"\x89PNG", OtherKind::Picture),
        (b"\xff\xd8\xff", OtherKind::Picture),
        (b"GIF8", OtherKind::Picture),
        (b"BM", OtherKind::Picture),
        (b"II*\0", OtherKind::Picture),
        (b"MM\0*", OtherKind::Picture),
        (b"%PDF", OtherKind::Pdf),
        (b"PK\x03\x04", OtherKind::Packed),
        (b"\x1f\x8b", OtherKind::Packed),
        (b"\xff\xfe", OtherKind::Utf16),
        (b"\xfe\xff", OtherKind::Utf16),
    ];
    HEADS
        .iter()
        .find(|(head, _)| bytes.starts_with(head))
        .map_or(OtherKind::Binary, |(_, kind)| *kind)
}

fn kind_of_text(text: &str) -> OtherKind {
    // A few kinds of binary file happen to be valid UTF-8 when short.
    let binary = kind_of_binary(text.as_bytes());
    if binary != OtherKind::Binary {
        return binary;
    }
    if text.contains('\0') {
        return OtherKind::Binary;
    }
    let first = text.trim_start().lines().next().unwrap_or_default();
    if first.contains([',', ';', '\t']) {
        OtherKind::Table
    } else {
        OtherKind::Text
    }
}
