//! Turns of a castle nut and where it stands.

use std::fmt;
use std::ops::{Add, Sub};

use serde::{Deserialize, Serialize};

use super::ArmIndex;

/// A turn of a castle nut in whole notches; out is positive (the jaw opens
/// there and the splice gets thicker), in is negative.
///
/// Where a nut stands is a [`NutPosition`]. Turns add up to a turn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Notches(pub i32);

/// Where a castle nut stands, in whole notches from flush with the rod's end;
/// out is positive.
///
/// A position and a turn make a position, two positions a turn. Sums and
/// differences end at the limits of `i32`. Two positions do not add up:
///
/// ```compile_fail,E0308
/// # use jawtrue::press::NutPosition;
/// let sum = NutPosition(-4) + NutPosition(-3);
/// ```
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct NutPosition(pub i32);

impl Add<Notches> for NutPosition {
    type Output = Self;

    fn add(self, turn: Notches) -> Self {
        Self(self.0.saturating_add(turn.0))
    }
}

impl Sub for NutPosition {
    type Output = Notches;

    fn sub(self, before: Self) -> Notches {
        Notches(self.0.saturating_sub(before.0))
    }
}

impl Add for Notches {
    type Output = Self;

    fn add(self, more: Self) -> Self {
        Self(self.0.saturating_add(more.0))
    }
}

impl Notches {
    /// Turns with their arms in the order in which they are made: outs first,
    /// then ins, each from the operator's left, then the nuts that stay. The
    /// trade prefers out (common practice, no source).
    pub fn outs_first(turns: &[Self]) -> Vec<(ArmIndex, Self)> {
        let mut order: Vec<(ArmIndex, Self)> =
            (0..).map(ArmIndex).zip(turns.iter().copied()).collect();
        order.sort_by_key(|(_, turn)| match turn.0 {
            1.. => 0,
            ..0 => 1,
            0 => 2,
        });
        order
    }
}

impl fmt::Display for Notches {
    /// The bare signed number, as files and text commands write it.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl fmt::Display for NutPosition {
    /// The bare signed number, as files and text commands write it.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// The positions, from flush and both inclusive, between which a nut may
/// stand: where a cotter pin passes and enough thread holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NutLimits {
    /// Furthest in.
    pub most_in: NutPosition,
    /// Furthest out.
    pub most_out: NutPosition,
}

impl NutLimits {
    /// Whether a nut may stand at `position`.
    pub fn allow(&self, position: NutPosition) -> bool {
        self.most_in <= position && position <= self.most_out
    }
}
