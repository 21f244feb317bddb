//! What was read from a folder of sessions, kept so that the next start need
//! not read them again: a file a folder in the program's own folder, a line of
//! JSON a session, a list, with its stamp.
//!
//! It may be thrown away at any time. A line that cannot be read, and an index
//! of another format or another folder, count for nothing: their sessions are
//! read again.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use serde::ser::SerializeSeq;
use serde::{Deserialize, Serialize, Serializer};

use crate::press::NutPosition;
use crate::session::{IsoDate, Stands};
use crate::shop::VisitSummary;
use crate::units::{ExactLength, Length, Unit};

use super::disk::{Content, Disk, DiskProblem};
use super::fingerprint::Fingerprint;
use super::in_order::in_order;
use super::real_disk::RealDisk;
use super::replace::replace;
use super::shop_folder::Stamp;

/// The number of this format; raised with every change of what is summed up.
const FORMAT: u32 = 3;

/// Largest index that is read, in bytes.
const MOST_BYTES: u64 = 1 << 30;

/// Lines that one thread reads at a time.
const LINES: usize = 200;

/// The head of an index.
#[derive(Debug, PartialEq, Serialize, Deserialize)]
struct Head {
    shop_index: u32,
    program: String,
    folder: String,
}

impl Head {
    fn of(folder: &Path) -> Self {
        Self {
            shop_index: FORMAT,
            program: env!("CARGO_PKG_VERSION").to_owned(),
            folder: folder.to_string_lossy().into_owned(),
        }
    }
}

/// A struct that is written as a list of its fields, without their names: there
/// are thousands of lines. Serde reads it back from one.
macro_rules! row {
    ($(#[$about:meta])* struct $name:ident { $($(#[$doc:meta])* $field:ident: $kind:ty,)* }) => {
        $(#[$about])*
        #[derive(Debug, Deserialize)]
        struct $name { $($(#[$doc])* $field: $kind,)* }

        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                let mut row = serializer.serialize_seq(None)?;
                $(row.serialize_element(&self.$field)?;)*
                row.end()
            }
        }
    };
}

row! {
/// A line: a session as the press book needs it.
struct Line {
    /// Written, bytes.
    at: (i64, u64),
    file: String,
    id: String,
    inv: bool,
    press: String,
    arms: Vec<i64>,
    when: String,
    day: Option<String>,
    who: String,
    belt: String,
    repaired: String,
    text: String,
    mm: bool,
    step: i64,
    tol: i64,
    /// Whole numerator and denominator, in nanometres.
    found: Option<(i64, i64)>,
    left: Option<(i64, i64)>,
    stands: u8,
    pieces: usize,
    read: usize,
    gauge: String,
    cal: Option<String>,
    minutes: f64,
    turned: Vec<u32>,
    nuts: (Vec<i32>, Vec<i32>),
    travel: Vec<Option<(i32, i32)>>,
    stations: Vec<i64>,
    names: Vec<String>,
    found_nm: Vec<Option<f64>>,
    left_nm: Vec<Option<f64>>,
}
}

const STANDS: [Stands; 5] = [
    Stands::NotLaced,
    Stands::Unread,
    Stands::Open,
    Stands::Outside,
    Stands::Inside,
];

/// Sessions by the names of their files, each with the stamp it was read at.
pub(super) type Indexed = BTreeMap<String, (Stamp, VisitSummary)>;

/// Where the index of a folder is kept, below the program's own folder for
/// them.
pub fn shop_index_path(kept: &Path, folder: &Path) -> PathBuf {
    let hash = Fingerprint::of(folder.as_os_str().as_encoded_bytes()).hash;
    kept.join(format!("{hash:016x}.index"))
}

/// Reads an index, on all cores; empty where there is none for this folder and
/// this version of the program.
pub(super) fn read_index(path: &Path, folder: &Path) -> Indexed {
    let Ok(Content::Bytes(bytes)) = RealDisk.read(path, MOST_BYTES) else {
        return Indexed::new();
    };
    let Ok(text) = std::str::from_utf8(&bytes) else {
        return Indexed::new();
    };
    let mut lines = text.lines();
    let head = lines
        .next()
        .and_then(|line| serde_json::from_str(line).ok());
    if head != Some(Head::of(folder)) {
        return Indexed::new();
    }
    let lines: Vec<&str> = lines.collect();
    let parts: Vec<&[&str]> = lines.chunks(LINES).collect();
    let mut found = Indexed::new();
    let read = |part: &&[&str]| -> Vec<_> {
        let lines = part.iter();
        let read = lines.filter_map(|line| serde_json::from_str::<Line>(line).ok());
        read.filter_map(Line::entry).collect()
    };
    in_order(&parts, read, |_, part| {
        found.extend(part);
        true
    });
    found
}

/// Writes an index.
///
/// # Errors
/// What the disk refused; nothing is lost but time at the next start.
pub(super) fn write_index<'a>(
    path: &Path,
    folder: &Path,
    entries: impl Iterator<Item = (&'a str, Stamp, &'a VisitSummary)>,
) -> Result<(), DiskProblem> {
    let unwritable = |_| DiskProblem::Other(None);
    let mut bytes = serde_json::to_vec(&Head::of(folder)).map_err(unwritable)?;
    for (file, stamp, visit) in entries {
        bytes.push(b'\n');
        serde_json::to_writer(&mut bytes, &Line::of(file, stamp, visit)).map_err(unwritable)?;
    }
    bytes.push(b'\n');
    if let Some(parent) = path.parent() {
        fs::create_dir_all(parent)?;
    }
    Ok(replace(&RealDisk, path, &bytes, Some(path))?)
}

impl Line {
    fn of(file: &str, stamp: Stamp, visit: &VisitSummary) -> Self {
        let nm = |lengths: &[Length]| lengths.iter().map(|length| length.nm()).collect();
        let notches = |nuts: &[NutPosition]| nuts.iter().map(|nut| nut.0).collect();
        let exact = |length: Option<ExactLength>| {
            let (numerator, denominator) = length?.parts();
            Some((numerator.try_into().ok()?, denominator.try_into().ok()?))
        };
        Self {
            at: (stamp.written, stamp.bytes),
            file: file.to_owned(),
            id: visit.id.clone(),
            inv: visit.invented,
            press: visit.press.clone(),
            arms: nm(&visit.arms),
            when: visit.when.clone(),
            day: visit.day.map(|day| day.to_string()),
            who: visit.who.clone(),
            belt: visit.belt.clone(),
            repaired: visit.repaired.clone(),
            text: visit.text.clone(),
            mm: visit.unit == Unit::Millimetre,
            step: visit.step.nm(),
            tol: visit.tolerance.nm(),
            found: exact(visit.found),
            left: exact(visit.left),
            stands: STANDS
                .iter()
                .position(|stands| *stands == visit.stands)
                .unwrap_or_default() as u8,
            pieces: visit.pieces,
            read: visit.read,
            gauge: visit.gauge.clone(),
            cal: visit.calibration_due.map(|day| day.to_string()),
            minutes: visit.minutes,
            turned: visit.turned.clone(),
            nuts: (notches(&visit.nuts.0), notches(&visit.nuts.1)),
            travel: visit.travel_left.clone(),
            stations: nm(&visit.stations),
            names: visit.station_names.clone(),
            found_nm: visit.found_nm.clone(),
            left_nm: visit.left_nm.clone(),
        }
    }

    /// The entry, where the line makes sense.
    fn entry(self) -> Option<(String, (Stamp, VisitSummary))> {
        let lengths = |nm: Vec<i64>| nm.into_iter().map(Length::from_nm).collect();
        let notches = |nuts: Vec<i32>| nuts.into_iter().map(NutPosition).collect();
        let exact = |parts: Option<(i64, i64)>| match parts {
            None => Some(None),
            Some((numerator, denominator)) => {
                ExactLength::from_parts(numerator.into(), denominator.into()).map(Some)
            }
        };
        let stamp = Stamp {
            written: self.at.0,
            bytes: self.at.1,
        };
        let day = |day: Option<String>| match day {
            None => Some(None),
            Some(day) => Some(Some(IsoDate::parse(&day).ok()?)),
        };
        let visit = VisitSummary {
            file: self.file.clone(),
            id: self.id,
            invented: self.inv,
            press: self.press,
            arms: lengths(self.arms),
            when: self.when,
            day: day(self.day)?,
            who: self.who,
            belt: self.belt,
            repaired: self.repaired,
            text: self.text,
            unit: match self.mm {
                true => Unit::Millimetre,
                false => Unit::Inch,
            },
            step: Length::from_nm(self.step),
            tolerance: Length::from_nm(self.tol),
            found: exact(self.found)?,
            left: exact(self.left)?,
            stands: *STANDS.get(usize::from(self.stands))?,
            pieces: self.pieces,
            read: self.read,
            gauge: self.gauge,
            calibration_due: day(self.cal)?,
            minutes: self.minutes,
            turned: self.turned,
            nuts: (notches(self.nuts.0), notches(self.nuts.1)),
            travel_left: self.travel,
            stations: lengths(self.stations),
            station_names: self.names,
            found_nm: self.found_nm,
            left_nm: self.left_nm,
        };
        Some((self.file, (stamp, visit)))
    }
}
