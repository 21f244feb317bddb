//! What stands on one line of a file that is otherwise spread over lines, and
//! how long a list may be.

use std::fmt;
use std::marker::PhantomData;

use ron::extensions::Extensions;
use ron::ser::PrettyConfig;
use serde::de::{Deserialize, Deserializer, IgnoredAny, SeqAccess, Visitor};
use serde::ser::{Error, Serialize, Serializer};

/// The longest list that a sound file holds, in elements.
pub(crate) const MOST_LISTED: usize = 1_000;

/// How files are read and written: optional fields stand bare, without `Some`.
pub(crate) fn options() -> ron::Options {
    ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

/// The text of a file. Lines end alike on every system, so that files compare.
///
/// # Errors
/// A value that cannot be written as text.
pub(crate) fn pretty<T: Serialize>(value: &T) -> ron::Result<String> {
    let mut text = options().to_string_pretty(value, PrettyConfig::new().new_line("\n"))?;
    text.push('\n');
    Ok(text)
}

/// Whether a field is as one that nothing is said about: it is left out.
pub(crate) fn is_usual<T: Default + PartialEq>(value: &T) -> bool {
    *value == T::default()
}

/// Reads a list of a file, and of one longer than anything a file lists only
/// so much that the check of its session finds it too long: a file of nothing
/// but commas takes no memory.
pub(crate) fn bounded<'de, D, T>(deserializer: D) -> Result<Vec<T>, D::Error>
where
    D: Deserializer<'de>,
    T: Deserialize<'de>,
{
    struct Bounded<T>(PhantomData<T>);
    impl<'de, T: Deserialize<'de>> Visitor<'de> for Bounded<T> {
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
    deserializer.deserialize_seq(Bounded(PhantomData))
}

/// A value that the file keeps on one line: an arm, a row of readings, the nut
/// positions. One line per arm and station is what reads and compares well.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Inline<T>(pub T);

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

/// Writes a field on one line.
pub(crate) fn on_one_line<T: Serialize, S: Serializer>(
    value: &T,
    serializer: S,
) -> Result<S::Ok, S::Error> {
    Inline(value).serialize(serializer)
}

/// Writes a field that may be left out on one line; it says `Some`, as it
/// always has.
pub(crate) fn maybe_on_one_line<T: Serialize, S: Serializer>(
    value: &Option<T>,
    serializer: S,
) -> Result<S::Ok, S::Error> {
    value.as_ref().map(Inline).serialize(serializer)
}

/// A list, a line for each of its elements.
pub(crate) mod a_line_each {
    use super::{Inline, Serialize, Serializer};

    pub(crate) use super::bounded as deserialize;

    pub(crate) fn serialize<T: Serialize, S: Serializer>(
        list: &[T],
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(list.iter().map(Inline))
    }
}
