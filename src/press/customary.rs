//! What the trade customarily works with. Common practice, no source.

use crate::units::{Length, Unit};

/// Rise of the splice per notch of one castle nut out: 0.004 in.
pub const NOTCH_EFFECT: Length = Length::from_nm(101_600);

/// Even gap along the whole jaw at full stroke after the coarse reset: about
/// 1/8 in.
pub const COARSE_GAP: Length = Length::from_nm(3_175_000);

/// How far the mean coarse gap may be from [`COARSE_GAP`] and still be "about"
/// that: 1/32 in. Our reading of the word; no source.
pub const COARSE_GAP_LEEWAY: Length = Length::from_nm(793_750);

/// Spread of the coarse gap that still counts as even: 1/64 in, the finest
/// division of a shop rule. Our reading of the word; no source.
pub const COARSE_GAP_EVEN: Length = Length::from_nm(396_875);

/// Tolerance on the spread: 0.003 in, or 0.1 mm as the metric figure in use.
/// They are not the same: 0.1 mm is 31 % looser.
pub const fn tolerance(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::from_nm(76_200),
        Unit::Millimetre => Length::from_nm(100_000),
    }
}

/// Step of the gauge at hand: 0.0005 in or 0.01 mm.
pub const fn gauge_step(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::from_nm(12_700),
        Unit::Millimetre => Length::from_nm(10_000),
    }
}
