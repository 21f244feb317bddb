//! What was read from a folder of sessions, kept so that the next start need
//! not read them again: a file a folder in the program's own folder.
//!
//! A line of JSON says what it is, where its parts begin and what their bytes
//! add up to; then come the parts, each a list of sessions with their stamps in
//! the postcard format, and with the first what was learnt of the presses. It may
//! be thrown away at any time. A part that is damaged, and an index of another
//! format or another folder, count for nothing: their sessions are read again.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use serde::{Deserialize, Serialize};

use crate::shop::{ChangedAnswer, VisitSummary};

use super::disk::{Content, Disk, DiskProblem};
use super::fingerprint::Fingerprint;
use super::in_order::in_order;
use super::real_disk::RealDisk;
use super::replace::replace;
use super::shop_folder::Stamp;

/// The number of this format; raised with every change of what is summed up.
const FORMAT: u32 = 5;

/// Largest index that is read, in bytes.
const MOST_BYTES: u64 = 1 << 30;

/// Sessions of a part, which one thread reads at a time.
const IN_A_PART: usize = 200;

/// The head of an index.
#[derive(Debug, Serialize, Deserialize)]
struct Head {
    shop_index: u32,
    program: String,
    folder: String,
    /// Bytes of each part, and their hash.
    parts: Vec<(usize, u64)>,
}

/// A session with the stamp it was read at.
pub(super) type Indexed = (Stamp, Arc<VisitSummary>);

/// By a hash of a press's sessions and their stamps, which of its nuts answers
/// otherwise than it did.
pub(super) type KnownAnswers = BTreeMap<u64, Option<ChangedAnswer>>;

/// Where the index of a folder is kept, below the program's own folder for
/// them.
pub fn shop_index_path(kept: &Path, folder: &Path) -> PathBuf {
    let hash = Fingerprint::of(folder.as_os_str().as_encoded_bytes()).hash;
    kept.join(format!("{hash:016x}.index"))
}

/// Reads an index, on all cores; empty where there is none for this folder and
/// this version of the program.
pub(super) fn read_index(path: &Path, folder: &Path) -> (Vec<Indexed>, KnownAnswers) {
    let mut found = (Vec::new(), KnownAnswers::new());
    let Ok(Content::Bytes(bytes)) = RealDisk.read(path, MOST_BYTES) else {
        return found;
    };
    let Some((head, mut rest)) = bytes
        .iter()
        .position(|byte| *byte == b'\n')
        .and_then(|end| Some((bytes.get(..end)?, bytes.get(end + 1..)?)))
    else {
        return found;
    };
    let Ok(head) = serde_json::from_slice::<Head>(head) else {
        return found;
    };
    let ours = Head::of(folder, Vec::new());
    if (head.shop_index, head.program, head.folder) != (FORMAT, ours.program, ours.folder) {
        return found;
    }
    let mut parts = Vec::new();
    for (length, hash) in head.parts {
        let Some((part, after)) = rest.split_at_checked(length) else {
            break;
        };
        parts.push((part, hash));
        rest = after;
    }
    let read = |(part, hash): &(&[u8], u64)| -> (Vec<(Stamp, VisitSummary)>, KnownAnswers) {
        match Fingerprint::of(part).hash == *hash {
            true => postcard::from_bytes(part).unwrap_or_default(),
            false => Default::default(),
        }
    };
    in_order(&parts, read, |_, (part, answers)| {
        found.1.extend(answers);
        let part = part.into_iter();
        found
            .0
            .extend(part.map(|(stamp, visit)| (stamp, Arc::new(visit))));
        true
    });
    found
}

/// Writes an index.
///
/// # Errors
/// What the disk refused; nothing is lost but time at the next start.
pub(super) fn write_index(
    path: &Path,
    folder: &Path,
    entries: &[(Stamp, &VisitSummary)],
    answers: &KnownAnswers,
) -> Result<(), DiskProblem> {
    let unwritable = DiskProblem::Other(None);
    let none = KnownAnswers::new();
    let with = std::iter::once(answers).chain(std::iter::repeat(&none));
    let parts = entries.chunks(IN_A_PART).zip(with);
    let parts = parts.map(|part| postcard::to_allocvec(&part));
    let parts: Vec<Vec<u8>> = parts.collect::<Result<_, _>>().map_err(|_| unwritable)?;
    let of_part = |part: &Vec<u8>| (part.len(), Fingerprint::of(part).hash);
    let head = Head::of(folder, parts.iter().map(of_part).collect());
    let mut bytes = serde_json::to_vec(&head).map_err(|_| unwritable)?;
    bytes.push(b'\n');
    bytes.extend(parts.into_iter().flatten());
    if let Some(parent) = path.parent() {
        fs::create_dir_all(parent)?;
    }
    Ok(replace(&RealDisk, path, &bytes, Some(path))?)
}

impl Head {
    fn of(folder: &Path, parts: Vec<(usize, u64)>) -> Self {
        Self {
            shop_index: FORMAT,
            program: env!("CARGO_PKG_VERSION").to_owned(),
            folder: folder.to_string_lossy().into_owned(),
            parts,
        }
    }
}
