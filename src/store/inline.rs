//! Keeps a value on one line of a file that is otherwise spread over lines.

use std::fmt;
use std::marker::PhantomData;

use ron::extensions::Extensions;
use ron::ser::PrettyConfig;
use serde::de::{Deserialize, Deserializer, IgnoredAny, SeqAccess, Visitor};
use serde::ser::{Error, Serialize, Serializer};

use crate::press::CountQuantity;

/// How session files are read and written: optional fields stand bare, without
/// `Some`.
pub(super) fn options() -> ron::Options {
    ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

/// Reads a list of a file, and of one longer than anything a file lists only
/// so much that the check of its session finds it too long: a file of nothing
/// but commas takes no memory.
pub(super) fn listed<'de, D, T>(deserializer: D) -> Result<Vec<T>, D::Error>
where
    D: Deserializer<'de>,
    T: Deserialize<'de>,
{
    struct Listed<T>(PhantomData<T>);
    impl<'de, T: Deserialize<'de>> Visitor<'de> for Listed<T> {
        type Value = Vec<T>;
        fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
            formatter.write_str("[ ]")
        }
        fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Vec<T>, A::Error> {
            let mut read = Vec::new();
            while read.len() <= MOST_LISTED
                && let Some(element) = list.next_element()?
            {
                read.push(element);
            }
            while list.next_element::<IgnoredAny>()?.is_some() {}
            Ok(read)
        }
    }
    deserializer.deserialize_seq(Listed(PhantomData))
}

/// The longest list that a sound file holds: the repeats at a station.
const MOST_LISTED: usize = CountQuantity::Repeats.bounds().most as usize;

/// A value that the file keeps on one line: an arm, a row of readings, the nut
/// positions. One line per arm and station is what reads and compares well.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Inline<T>(pub T);

impl<T: Serialize> Serialize for Inline<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let one_line = PrettyConfig::new().depth_limit(0);
        let text = options()
            .to_string_pretty(&self.0, one_line)
            .map_err(S::Error::custom)?;
        ron::value::RawValue::from_boxed_ron(text.into())
            .map_err(S::Error::custom)?
            .serialize(serializer)
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Inline<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        T::deserialize(deserializer).map(Self)
    }
}
