//! The shop's rule for accepting a piece, in format 1 of session files.

use serde::de::Deserializer;
use serde::ser::Serializer;
use serde::{Deserialize, Serialize};

use crate::session::{Acceptance, AcceptedBy, Confidence};

use crate::store::damage::no_name;
use crate::store::inline::Inline;

/// The rule: what accepts, and the confidence in per cent.
#[derive(Debug, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(in crate::store) struct AcceptanceV1 {
    by: AcceptedByV1,
    confidence: ConfidenceV1,
}

#[derive(Debug, Default)]
struct AcceptedByV1(AcceptedBy);

#[derive(Debug, Default)]
struct ConfidenceV1(Confidence);

impl AcceptanceV1 {
    /// Whether it is what a session without a word about it has.
    pub(in crate::store) fn is_usual(rule: &Inline<Self>) -> bool {
        Acceptance::from(&rule.0) == Acceptance::default()
    }
}

impl From<Acceptance> for AcceptanceV1 {
    fn from(rule: Acceptance) -> Self {
        Self {
            by: AcceptedByV1(rule.by),
            confidence: ConfidenceV1(rule.confidence),
        }
    }
}

impl From<&AcceptanceV1> for Acceptance {
    fn from(file: &AcceptanceV1) -> Self {
        Self {
            by: file.by.0,
            confidence: file.confidence.0,
        }
    }
}

impl AcceptedByV1 {
    const PLAIN: &'static str = "plain comparison";
    const CONFIDENCE: &'static str = "confidence";
}

impl Serialize for AcceptedByV1 {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(match self.0 {
            AcceptedBy::PlainComparison => Self::PLAIN,
            AcceptedBy::Confidence => Self::CONFIDENCE,
        })
    }
}

impl<'de> Deserialize<'de> for AcceptedByV1 {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        match String::deserialize(deserializer)?.as_str() {
            Self::PLAIN => Ok(Self(AcceptedBy::PlainComparison)),
            Self::CONFIDENCE => Ok(Self(AcceptedBy::Confidence)),
            found => Err(no_name(found)),
        }
    }
}

impl Serialize for ConfidenceV1 {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(&format_args!("{}%", self.0))
    }
}

impl<'de> Deserialize<'de> for ConfidenceV1 {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let found = String::deserialize(deserializer)?;
        Confidence::parse(&found)
            .map(Self)
            .ok_or_else(|| no_name(&found))
    }
}
