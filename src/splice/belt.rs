//! The bare belt's own thickness.

use crate::units::{ExactLength, Length};

use super::{Profile, Spread, Station};

/// How much the bare belt varies over the stations that count.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BeltVariation {
    /// Largest bare thickness minus smallest.
    pub spread: Spread,
    /// Whether that is as large as the tolerance: then what looks like the
    /// jaw may be the belt.
    pub as_large_as_tolerance: bool,
}

impl BeltVariation {
    /// The variation of bare-belt readings; `None` before two counting
    /// stations are read. Compared exactly; just the tolerance is as large.
    pub fn of(stations: &[Station], belt: &Profile, tolerance: Length) -> Option<Self> {
        let spread = Spread::of(stations, belt)?;
        let as_large_as_tolerance = spread.value >= ExactLength::from(tolerance);
        Some(Self {
            spread,
            as_large_as_tolerance,
        })
    }
}
