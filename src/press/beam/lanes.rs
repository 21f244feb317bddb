//! Numbers side by side, so that many beams are reckoned at once.
//!
//! Each step of a sweep waits for the one before it, and most of the time a
//! processor idles meanwhile. Beams cut alike go through the same steps: taken
//! several at a time, each comes out to the last bit as it does alone, in a
//! fraction of the time.

use std::ops::{Add, Div, Mul, Neg, Sub};

/// A number, or several of which each is reckoned for itself.
pub trait Real:
    Copy
    + Default
    + Add<Output = Self>
    + Sub<Output = Self>
    + Mul<Output = Self>
    + Mul<f64, Output = Self>
    + Div<Output = Self>
    + Neg<Output = Self>
{
    /// How many numbers it is.
    const WIDTH: usize;

    /// From the number in each place.
    fn from_places(at: impl FnMut(usize) -> f64) -> Self;

    /// This over `by`; zero unless `by` is positive.
    #[must_use]
    fn over(self, by: Self) -> Self;

    /// This, and `other` where `test` is zero.
    #[must_use]
    fn where_nonzero(self, test: Self, other: Self) -> Self;

    /// The number in a place; zero beyond the last.
    fn at(self, place: usize) -> f64;

    /// The same number in every place.
    fn of(value: f64) -> Self {
        Self::from_places(|_| value)
    }
}

impl Real for f64 {
    const WIDTH: usize = 1;

    fn from_places(mut at: impl FnMut(usize) -> f64) -> Self {
        at(0)
    }

    fn over(self, by: Self) -> Self {
        if by > 0.0 { self / by } else { 0.0 }
    }

    fn where_nonzero(self, test: Self, other: Self) -> Self {
        if test == 0.0 { other } else { self }
    }

    fn at(self, place: usize) -> f64 {
        if place == 0 { self } else { 0.0 }
    }
}

/// Numbers in one [`Lanes`]: what hides the waiting, and fits the registers.
const LANES: usize = 8;

/// Several numbers side by side.
#[derive(Debug, Clone, Copy, Default)]
pub struct Lanes([f64; LANES]);

impl Lanes {
    #[inline(always)]
    fn with(self, other: Self, of: impl Fn(f64, f64) -> f64) -> Self {
        Self(std::array::from_fn(|place| {
            of(self.0[place], other.0[place])
        }))
    }
}

impl Real for Lanes {
    const WIDTH: usize = LANES;

    #[inline(always)]
    fn from_places(at: impl FnMut(usize) -> f64) -> Self {
        Self(std::array::from_fn(at))
    }

    #[inline(always)]
    fn over(self, by: Self) -> Self {
        self.with(by, f64::over)
    }

    #[inline(always)]
    fn where_nonzero(self, test: Self, other: Self) -> Self {
        Self(std::array::from_fn(|place| {
            self.0[place].where_nonzero(test.0[place], other.0[place])
        }))
    }

    #[inline(always)]
    fn at(self, place: usize) -> f64 {
        self.0.get(place).copied().unwrap_or(0.0)
    }
}

impl Add for Lanes {
    type Output = Self;

    #[inline(always)]
    fn add(self, other: Self) -> Self {
        self.with(other, |a, b| a + b)
    }
}

impl Sub for Lanes {
    type Output = Self;

    #[inline(always)]
    fn sub(self, other: Self) -> Self {
        self.with(other, |a, b| a - b)
    }
}

impl Mul for Lanes {
    type Output = Self;

    #[inline(always)]
    fn mul(self, other: Self) -> Self {
        self.with(other, |a, b| a * b)
    }
}

impl Mul<f64> for Lanes {
    type Output = Self;

    #[inline(always)]
    fn mul(self, other: f64) -> Self {
        Self(self.0.map(|a| a * other))
    }
}

impl Div for Lanes {
    type Output = Self;

    #[inline(always)]
    fn div(self, other: Self) -> Self {
        self.with(other, |a, b| a / b)
    }
}

impl Neg for Lanes {
    type Output = Self;

    #[inline(always)]
    fn neg(self) -> Self {
        Self(self.0.map(|a| -a))
    }
}
