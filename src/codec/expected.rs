//! What a text of a file was expected to be and is not.

use serde::de::Error;

/// What a text of a file has to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Expected {
    /// A length that names its unit.
    Length,
    /// A move that names its unit, out or up positive.
    Move,
    /// `in` or `mm`.
    Unit,
    /// A date.
    Date,
    /// One of the names that the field may hold.
    Name,
    /// The name of a step or stage of the visit.
    Step,
}

impl Expected {
    const ALL: [Self; 6] = [
        Self::Length,
        Self::Move,
        Self::Unit,
        Self::Date,
        Self::Name,
        Self::Step,
    ];

    /// The error for a text that is something else. Of all that may be wrong
    /// with a text, serde's reader hands on an unknown variant whole, with its
    /// place: what was found, and out of which list it was to be.
    pub(crate) fn not<E: Error>(self, found: &str) -> E {
        E::unknown_variant(found, self.list())
    }

    /// What an unknown variant was to be, where [`Self::not`] speaks.
    pub(crate) fn of(list: &[&str]) -> Option<Self> {
        Self::ALL.into_iter().find(|one| one.list() == list)
    }

    const fn list(self) -> &'static [&'static str] {
        match self {
            Self::Length => &["a length"],
            Self::Move => &["a move"],
            Self::Unit => &["a unit"],
            Self::Date => &["a date"],
            Self::Name => &["a name"],
            Self::Step => &["a step"],
        }
    }
}

/// Has a type stand in files as a text: what is written, and how it is read,
/// `None` for a text that is none; or by the `key` of each.
macro_rules! as_text {
    ($type:ty, $expected:ident, key) => {
        $crate::codec::as_text!($type, $expected, |value| value.key(), Self::from_key);
    };
    ($type:ty, $expected:ident, |$value:ident| $written:expr, $read:expr) => {
        impl serde::Serialize for $type {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                let $value = self;
                serializer.collect_str(&$written)
            }
        }

        impl<'de> serde::Deserialize<'de> for $type {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let text = <String as serde::Deserialize>::deserialize(deserializer)?;
                let read: fn(&str) -> Option<Self> = $read;
                read(&text).ok_or_else(|| $crate::codec::Expected::$expected.not(&text))
            }
        }
    };
}

pub(crate) use as_text;
