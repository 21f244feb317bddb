//! Notches and nut positions.

use std::fmt;

use serde::{Deserialize, Serialize};

use super::ArmIndex;

/// Whole notches of a castle nut; out is positive (the jaw opens there and
/// the splice gets thicker), in is negative.
///
/// As a position it counts from flush with the rod's end; as a turn it is the
/// change of a position.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Notches(pub i32);

impl Notches {
    /// The position after a turn.
    pub fn turned(self, turn: Self) -> Self {
        Self(self.0.saturating_add(turn.0))
    }

    /// The turn that leads here from another position.
    pub fn since(self, before: Self) -> Self {
        Self(self.0.saturating_sub(before.0))
    }

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

/// The positions, from flush and both inclusive, between which a nut may
/// stand: where a cotter pin passes and enough thread holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NutLimits {
    /// Furthest in.
    pub most_in: Notches,
    /// Furthest out.
    pub most_out: Notches,
}

impl NutLimits {
    /// Whether a nut may stand at `position`.
    pub fn allow(&self, position: Notches) -> bool {
        self.most_in <= position && position <= self.most_out
    }
}
