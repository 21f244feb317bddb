//! Random numbers that are the same on every run and machine.
//!
//! All draws of the room come from a PCG generator (O'Neill, "PCG: A family of
//! simple fast space-efficient statistically good algorithms", 2014) with a
//! fixed seed per purpose, so the same session gives the same plan.

use crate::stats::normal_quantile;
use rand_core::Rng as _;
use rand_pcg::Pcg64;

/// What draws are used for; each purpose has a stream of its own, so that a
/// change in one does not disturb the others.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// Shapes of the response for the prior.
    Prior,
    /// What the press and the next piece may be, to compare many plans.
    Outlook,
    /// The same, for the chances of the few that are left: on the draws that
    /// chose it, the best of many looks better than it is.
    Chance,
    /// The thickness of one piece.
    Piece,
    /// Pieces yet to be laced, and what will then be known.
    Ahead,
    /// Pieces that the nuts could cure, for what they leave.
    Remainder,
    /// What further readings and lacings may show.
    Settling,
    /// Simulated presses in tests and benches; the number tells them apart.
    #[allow(dead_code, reason = "for tests and benches")]
    Simulation(u64),
    /// The simulated press of an exercise: its number, the luck it is played
    /// with, and what is drawn (the press, a piece, a reading).
    Practice([u64; 3]),
}

/// A stream of uniform and normal numbers.
#[derive(Debug, Clone)]
pub struct Draws(Pcg64);

impl Draws {
    /// The stream of a purpose, from its beginning.
    pub fn new(purpose: Purpose) -> Self {
        let (seed, stream) = match purpose {
            Purpose::Prior => (0x6a61_7774_7275_6501, 1),
            Purpose::Outlook => (0x6a61_7774_7275_6502, 2),
            Purpose::Chance => (0x6a61_7774_7275_6504, 4),
            Purpose::Piece => (0x6a61_7774_7275_6505, 5),
            Purpose::Ahead => (0x6a61_7774_7275_6506, 6),
            Purpose::Remainder => (0x6a61_7774_7275_6507, 7),
            Purpose::Settling => (0x6a61_7774_7275_6508, 8),
            Purpose::Simulation(number) => (
                0x6a61_7774_7275_6503 ^ (u128::from(number) << 64),
                3 + (u128::from(number) << 3),
            ),
            Purpose::Practice([number, luck, what]) => {
                let press = scattered(number);
                let game = scattered(press ^ luck);
                let drawn = scattered(game ^ what);
                (
                    (u128::from(game) << 64) | u128::from(drawn),
                    u128::from(scattered(drawn)),
                )
            }
        };
        Self(Pcg64::new(seed, stream))
    }

    /// Uniform on the open interval (0, 1): one of 2^52 equally spaced
    /// midpoints, so neither end is ever met.
    pub fn uniform(&mut self) -> f64 {
        let bits = self.0.next_u64() >> 12;
        (bits as f64 + 0.5) / (1u64 << 52) as f64
    }

    /// Uniform between two values.
    #[allow(dead_code, reason = "for tests and benches")]
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.uniform()
    }

    /// Standard normal, by the inverse of its distribution.
    pub fn normal(&mut self) -> f64 {
        normal_quantile(self.uniform()).unwrap_or(0.0)
    }

    /// A whole number below `end` (0 when `end` is 0), by the multiply-shift
    /// method; its bias, below end / 2^64, does not matter here.
    pub fn below(&mut self, end: usize) -> usize {
        ((u128::from(self.0.next_u64()) * end as u128) >> 64) as usize
    }

    /// Puts the values into a random order (Fisher and Yates).
    pub fn shuffle(&mut self, values: &mut [f64]) {
        for last in (1..values.len()).rev() {
            let other = self.below(last + 1);
            values.swap(last, other);
        }
    }
}

/// Spreads a number over all bits: the step of SplitMix64 (Steele, Lea, Flood,
/// OOPSLA 2014), so that neighbouring numbers give streams unlike each other.
fn scattered(number: u64) -> u64 {
    let mut z = number.wrapping_add(0x9E37_79B9_7F4A_7C15);
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}

/// Stratified numbers: `count` joint draws of as many dimensions as are asked
/// for, one dimension after the other.
///
/// A Latin hypercube (McKay, Beckman and Conover, Technometrics 21 (1979)
/// 239): every dimension holds the same `count` scores, one from the middle of
/// each of `count` equal shares of its distribution, in an order of its own. A
/// mean over the draws then has a far smaller error than with independent
/// draws as far as the averaged function is a sum of functions of single
/// dimensions.
#[derive(Debug, Clone)]
pub struct LatinHypercube {
    uniform: Vec<f64>,
    normal: Vec<f64>,
    draws: Draws,
}

impl LatinHypercube {
    /// LatinHypercube for `count` joint draws; the normal scores are scaled to
    /// variance exactly one.
    pub fn new(count: usize, purpose: Purpose) -> Self {
        let uniform: Vec<f64> = (0..count)
            .map(|i| (i as f64 + 0.5) / count as f64)
            .collect();
        let mut normal: Vec<f64> = uniform
            .iter()
            .map(|&p| normal_quantile(p).unwrap_or(0.0))
            .collect();
        let square: f64 = normal.iter().map(|z| z * z).sum();
        // A single draw stands in the middle and has no variance.
        if count > 1 {
            let factor = (count as f64 / square).sqrt();
            normal.iter_mut().for_each(|z| *z *= factor);
        }
        Self {
            uniform,
            normal,
            draws: Draws::new(purpose),
        }
    }

    /// The next dimension, uniform on (0, 1), one value per joint draw.
    pub fn next_uniform(&mut self) -> &[f64] {
        self.draws.shuffle(&mut self.uniform);
        &self.uniform
    }

    /// The next dimension, standard normal, one value per joint draw.
    pub fn next_normal(&mut self) -> &[f64] {
        self.draws.shuffle(&mut self.normal);
        &self.normal
    }
}

/// The normal dimensions of a Latin hypercube, kept: for one purpose and number
/// of draws they are the same every time.
#[derive(Debug, Clone)]
pub struct KeptCube {
    purpose: Purpose,
    count: usize,
    next: LatinHypercube,
    normals: Vec<Vec<f64>>,
    /// The stream after each of them.
    after: Vec<Draws>,
}

impl KeptCube {
    /// For `count` joint draws.
    pub fn new(count: usize, purpose: Purpose) -> Self {
        Self {
            purpose,
            count,
            next: LatinHypercube::new(count, purpose),
            normals: Vec::new(),
            after: Vec::new(),
        }
    }

    /// Whether it is for so many draws of this purpose.
    pub fn is_for(&self, count: usize, purpose: Purpose) -> bool {
        (self.count, self.purpose) == (count, purpose)
    }

    /// The first normal dimensions, one value per joint draw each.
    pub fn normals(&mut self, dimensions: usize) -> &[Vec<f64>] {
        while self.normals.len() < dimensions {
            self.normals.push(self.next.next_normal().to_vec());
            self.after.push(self.next.draws.clone());
        }
        &self.normals[..dimensions]
    }

    /// A uniform dimension that comes after so many normal ones, all of which
    /// have been asked for.
    pub fn uniform_after(&self, dimensions: usize) -> Vec<f64> {
        let mut uniform = self.next.uniform.clone();
        if let Some(draws) = dimensions.checked_sub(1).and_then(|d| self.after.get(d)) {
            draws.clone().shuffle(&mut uniform);
        }
        uniform
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Fixed output: a change here changes every plan.
    #[test]
    fn stream_is_fixed() {
        let mut draws = Draws::new(Purpose::Outlook);
        let first: Vec<u64> = (0..3).map(|_| draws.uniform().to_bits()).collect();
        assert_eq!(first, FIRST_OUTLOOK_BITS);
    }

    const FIRST_OUTLOOK_BITS: [u64; 3] = [
        4_602_933_450_571_317_541,
        4_605_046_126_946_378_983,
        4_594_059_715_364_094_580,
    ];

    #[test]
    fn moments_are_those_of_the_distribution() {
        let mut draws = Draws::new(Purpose::Simulation(7));
        let n = 40_000;
        let values: Vec<f64> = (0..n).map(|_| draws.normal()).collect();
        let mean = values.iter().sum::<f64>() / n as f64;
        let square = values.iter().map(|z| z * z).sum::<f64>() / n as f64;
        // Four standard errors: 1/sqrt n and sqrt(2/n).
        assert!(mean.abs() < 0.02, "{mean}");
        assert!((square - 1.0).abs() < 0.0283, "{square}");
    }

    #[test]
    fn scores_are_balanced_and_dimensions_unrelated() {
        let mut scores = LatinHypercube::new(512, Purpose::Outlook);
        let first = scores.next_normal().to_vec();
        let second = scores.next_normal().to_vec();
        let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>() / 512.0;
        assert!(first.iter().sum::<f64>().abs() < 1e-9);
        assert!((dot(&first, &first) - 1.0).abs() < 1e-12);
        assert!(dot(&first, &second).abs() < 4.0 / 512f64.sqrt());
        assert_ne!(first, second);
    }

    #[test]
    fn empty_and_single() {
        assert!(
            LatinHypercube::new(0, Purpose::Prior)
                .next_normal()
                .is_empty()
        );
        assert!(LatinHypercube::new(1, Purpose::Prior).next_normal()[0].abs() < 1e-15);
        assert_eq!(Draws::new(Purpose::Prior).below(0), 0);
    }
}
