//! A length in whole nanometres and the two units people use.

use std::fmt;

use crate::codec::as_text;

/// A length in whole nanometres.
///
/// 1 in = 25.4 mm exactly (Federal Register, 1 July 1959), so every decimal of
/// an inch down to 0.000 000 05 in and every 1/64 in is a whole number of
/// nanometres and comparisons are exact: 0.2500 in against 0.2470 in differ
/// by 0.0030 in and by nothing more.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Length(i64);

impl Length {
    /// No length at all.
    pub const ZERO: Self = Self(0);

    /// A length of `nm` nanometres.
    pub const fn from_nm(nm: i64) -> Self {
        Self(nm)
    }

    /// The length in nanometres.
    pub const fn nm(self) -> i64 {
        self.0
    }

    /// The length in nanometres as a float; exact below 9 000 km.
    pub fn nm_f64(self) -> f64 {
        self.0 as f64
    }

    /// The length as a number in `unit`, for drawing and for JSON; the
    /// nearest `f64`.
    pub fn in_unit(self, unit: Unit) -> f64 {
        self.0 as f64 / unit.nm() as f64
    }

    /// Difference, saturating at the ends of the range.
    pub fn minus(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }

    /// Sum, saturating at the ends of the range.
    pub fn plus(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl fmt::Debug for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} nm", self.0)
    }
}

/// The two units a shop reads its gauges in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Unit {
    /// The inch, 25.4 mm exactly.
    Inch,
    /// The millimetre.
    Millimetre,
}

as_text!(Unit, Unit, |unit| unit.mark(), Self::from_mark);

impl Unit {
    /// Nanometres in one unit.
    pub const fn nm(self) -> i64 {
        match self {
            Self::Inch => 25_400_000,
            Self::Millimetre => 1_000_000,
        }
    }

    /// The mark that files and text commands use: `in` or `mm`.
    pub const fn mark(self) -> &'static str {
        match self {
            Self::Inch => "in",
            Self::Millimetre => "mm",
        }
    }

    /// The other unit.
    pub const fn other(self) -> Self {
        match self {
            Self::Inch => Self::Millimetre,
            Self::Millimetre => Self::Inch,
        }
    }

    /// Reads the mark of a unit: `in` or `mm`.
    pub fn from_mark(mark: &str) -> Option<Self> {
        [Self::Inch, Self::Millimetre]
            .into_iter()
            .find(|unit| unit.mark() == mark)
    }
}
