//! Sums side by side in registers as wide as the processor has them.
//!
//! The program is built for every processor of its kind, and most of them have
//! registers twice as wide as the oldest. What is worked out in here is compiled
//! for several and runs as the one that is there takes it. It comes to the same
//! bits on all: what stands side by side is not added up in another order, and
//! no product is fused with a sum.

use fearless_simd::{Level, dispatch};

/// Does some work in the widest registers. What it calls has to be inlined, as
/// the work itself: `wide(#[inline(always)] || ...)`.
#[inline(always)]
pub(crate) fn wide<T>(work: impl FnOnce() -> T) -> T {
    dispatch!(Level::new(), _ => work())
}
