//! The shop's rule for accepting a piece.

use core::fmt;

use serde::{Deserialize, Serialize};

use crate::codec::as_text;
use crate::units::listed;

listed! {
    /// By what a piece is accepted.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
    pub enum AcceptedBy {
        /// The plain comparison that is customary in the trade: the spread of the
        /// readings is inside the tolerance.
        #[default]
        PlainComparison = "plain comparison",
        /// That, and the chance that the piece really is inside reaches the
        /// confidence.
        Confidence = "confidence",
    }
}

as_text!(AcceptedBy, Name, key);

/// A confidence, as a share in thousandths: above 50 % and at most 99.9 %.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Confidence(u16);

impl Confidence {
    /// The least: at 50 % nothing would be too close to call.
    pub const LEAST: Self = Self(501);
    /// The most.
    pub const MOST: Self = Self(999);

    /// From thousandths; `None` outside the range.
    pub fn from_per_mille(per_mille: u16) -> Option<Self> {
        let confidence = Self(per_mille);
        (Self::LEAST..=Self::MOST)
            .contains(&confidence)
            .then_some(confidence)
    }

    /// From a share between nought and one, rounded to thousandths; `None`
    /// outside the range.
    pub fn from_share(share: f64) -> Option<Self> {
        let per_mille = (share * 1_000.0).round();
        if (0.0..=1_000.0).contains(&per_mille) {
            // A whole number below 65,536, so the cast is exact.
            Self::from_per_mille(per_mille as u16)
        } else {
            None
        }
    }

    /// From a percentage as typed, its mark and a decimal comma allowed.
    pub fn parse(text: &str) -> Option<Self> {
        let text = text.trim().trim_end_matches('%').trim_end();
        let percent: f64 = text.replace(',', ".").parse().ok()?;
        Self::from_share(percent / 100.0)
    }

    /// As a share between nought and one.
    pub fn share(self) -> f64 {
        f64::from(self.0) / 1_000.0
    }
}

/// 95 %, as ISO 14253-1 has it at first.
impl Default for Confidence {
    fn default() -> Self {
        Self(950)
    }
}

/// The percentage without its mark: `95` or `97.5`.
impl fmt::Display for Confidence {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 % 10 {
            0 => write!(f, "{}", self.0 / 10),
            tenth => write!(f, "{}.{tenth}", self.0 / 10),
        }
    }
}

as_text!(
    Confidence,
    Name,
    |confidence| format_args!("{confidence}%"),
    Self::parse
);

/// The shop's rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Acceptance {
    /// What accepts a piece.
    pub by: AcceptedBy,
    /// At what confidence a piece or a press is called inside or outside.
    pub confidence: Confidence,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn percentages_are_read_and_written() {
        for (text, written) in [("95", "95"), (" 97,5 %", "97.5"), ("99.9%", "99.9")] {
            assert_eq!(Confidence::parse(text).unwrap().to_string(), written);
        }
        for text in ["", "50", "100", "0.95", "-95", "NaN", "inf", "many"] {
            assert_eq!(Confidence::parse(text), None, "{text}");
        }
        assert_eq!(Confidence::default().share(), 0.95);
    }
}
