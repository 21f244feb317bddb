//! Keeps a value on one line of a file that is otherwise spread over lines.

use ron::extensions::Extensions;
use ron::ser::PrettyConfig;
use serde::de::{Deserialize, Deserializer};
use serde::ser::{Error, Serialize, Serializer};

/// How session files are read and written: optional fields stand bare, without
/// `Some`.
pub(super) fn options() -> ron::Options {
    ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

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
