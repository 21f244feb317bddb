//! Whole turns of every nut, and which of equally good ones are preferred.

use std::cmp::Ordering;

/// Most arms that are planned for.
pub const MOST_ARMS: usize = crate::press::MAX_ARMS;

/// A turn of every nut in notches, out positive; places beyond the press's arms
/// are zero.
pub(super) type Turns = [i32; MOST_ARMS];

/// The nuts stay as they are.
pub(super) const LEAVE: Turns = [0; MOST_ARMS];

/// Turns given nut by nut; missing ones are zero, those beyond the last arm are
/// left out.
pub(super) fn to_turns(turns: &[i32]) -> Turns {
    std::array::from_fn(|arm| turns.get(arm).copied().unwrap_or(0))
}

/// Nuts turned.
pub(super) fn touched(turns: &Turns) -> usize {
    turns.iter().filter(|k| **k != 0).count()
}

/// Whether no nut is turned in.
pub(super) fn is_outward(turns: &Turns) -> bool {
    turns.iter().all(|k| *k >= 0)
}

/// Turns less each common turn of all nuts that leaves one of them alone: a
/// turn of all nuts alike evens next to nothing.
pub(super) fn without_common(turns: &Turns, arms: usize) -> impl Iterator<Item = Turns> {
    turns[..arms].iter().map(move |common| {
        let mut less = *turns;
        less[..arms].iter_mut().for_each(|k| *k -= common);
        less
    })
}

/// Which of two equally good turns is preferred (less is preferred): by
/// [`preference`]; then, at the first nut from the left that differs, the one
/// that turns less, outward before inward.
pub(super) fn prefer(a: &Turns, b: &Turns) -> Ordering {
    preference(a)
        .cmp(&preference(b))
        .then_with(|| by_nut(a).cmp(&by_nut(b)))
}

/// Nuts touched, notches in total, and notches inward net of outward: less is
/// preferred.
pub(super) fn preference(turns: &Turns) -> (usize, i32, i32) {
    let notches = turns.iter().map(|k| k.abs()).sum();
    let outward: i32 = turns.iter().sum();
    (touched(turns), notches, -outward)
}

/// Nut by nut what decides where [`preference`] leaves the choice open.
pub(super) fn by_nut(turns: &Turns) -> [(i32, i32); MOST_ARMS] {
    turns.map(|k| (k.abs(), -k))
}
