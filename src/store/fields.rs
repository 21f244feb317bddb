//! Files of single fields, such as the preferences: nobody's work hangs on
//! them, and each field is read for itself, so that a damaged one does not
//! take the others with it.

use std::fmt;
use std::fs;
use std::path::{Path, PathBuf};

use ron::value::RawValue;
use serde::de::{DeserializeOwned, Deserializer, MapAccess, Visitor};
use serde::{Deserialize, Serialize};

use crate::codec::{options, pretty};

use super::disk::{Content, Disk, DiskProblem};
use super::real_disk::RealDisk;
use super::replace::replace;

/// Largest file that is read, in bytes.
const MOST_BYTES: u64 = 1024 * 1024;

/// Fields as they were found.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Found<T> {
    /// The fields; the usual ones where they could not be read.
    pub fields: T,
    /// Where a file was put aside that could not be read in whole or in part.
    pub damaged: Option<PathBuf>,
}

/// Reads the fields of a file. Where one cannot be read, its usual value takes
/// its place and a copy of the file is put aside; a file that cannot be read
/// at all is put aside itself.
pub fn load_fields<T: DeserializeOwned + Default>(path: &Path) -> Found<T> {
    let aside = path.with_extension("ron.damaged");
    let (fields, put_aside) = match read(path) {
        None => return Found::default(),
        Some(Ok((fields, false))) => {
            return Found {
                fields,
                damaged: None,
            };
        }
        Some(Ok((fields, true))) => (fields, fs::copy(path, &aside).is_ok()),
        Some(Err(Unreadable)) => (T::default(), fs::rename(path, &aside).is_ok()),
    };
    Found {
        fields,
        damaged: put_aside.then_some(aside),
    }
}

/// Reads what can be read of the fields of a file and touches nothing.
pub fn peek_fields<T: DeserializeOwned + Default>(path: &Path) -> T {
    let fields = read(path).and_then(Result::ok);
    fields.map_or_else(T::default, |(fields, _)| fields)
}

/// Writes fields into a file, whose folder is made if need be.
///
/// # Errors
/// What the disk refused; the old file is then still there.
pub fn save_fields<T: Serialize>(path: &Path, fields: &T) -> Result<(), DiskProblem> {
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder)?;
    }
    let text = pretty(fields).map_err(|_| DiskProblem::Other(None))?;
    let path = RealDisk.follow(path)?;
    Ok(replace(&RealDisk, &path, text.as_bytes(), Some(&path))?)
}

/// A file that does not follow the rules of the format.
struct Unreadable;

/// The fields of a file, and whether any was damaged; none where there is no
/// file to be read.
fn read<T: DeserializeOwned>(path: &Path) -> Option<Result<(T, bool), Unreadable>> {
    let text = match RealDisk.read(path, MOST_BYTES) {
        Ok(Content::Bytes(bytes)) => String::from_utf8(bytes).ok(),
        Ok(Content::Missing) | Err(_) => return None,
        Ok(_) => None,
    };
    Some(text.and_then(|text| sound_fields(&text)).ok_or(Unreadable))
}

fn sound_fields<T: DeserializeOwned>(text: &str) -> Option<(T, bool)> {
    let Fields(fields) = options().from_str(text).ok()?;
    let number = fields.len();
    let alone = |field: &String| options().from_str::<T>(&format!("({field})")).is_ok();
    let sound: Vec<String> = fields.into_iter().filter(alone).collect();
    let damaged = sound.len() < number;
    let fields = options().from_str(&format!("({})", sound.concat())).ok()?;
    Some((fields, damaged))
}

/// The fields of a file one by one, each with its name, as they stand there.
struct Fields(Vec<String>);

struct Name(String);

impl<'de> Deserialize<'de> for Fields {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Each;
        impl<'de> Visitor<'de> for Each {
            type Value = Fields;
            fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
                formatter.write_str("( )")
            }
            fn visit_map<A: MapAccess<'de>>(self, mut file: A) -> Result<Fields, A::Error> {
                let mut fields = Vec::new();
                while let Some(Name(name)) = file.next_key()? {
                    let value: Box<RawValue> = file.next_value()?;
                    fields.push(format!("{name}: {},\n", value.get_ron()));
                }
                Ok(Fields(fields))
            }
        }
        deserializer.deserialize_struct("", &[], Each)
    }
}

impl<'de> Deserialize<'de> for Name {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Word;
        impl Visitor<'_> for Word {
            type Value = Name;
            fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
                formatter.write_str("a name")
            }
            fn visit_str<E>(self, name: &str) -> Result<Name, E> {
                Ok(Name(name.to_owned()))
            }
        }
        deserializer.deserialize_identifier(Word)
    }
}
