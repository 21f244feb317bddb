//! Finds the simplest pattern that describes a profile.

use crate::press::ArmIndex;

use super::measured::Measured;
use crate::stats::LeastSquares;
use crate::stats::normal_quantile;

/// A pattern a new hand can see in a profile.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pattern {
    /// One arm thinner than the splice beside it (negative) or thicker.
    Arm(ArmIndex),
    /// Thicker from left to right (positive) or from right to left.
    Taper,
    /// Thicker in the middle (positive) or at the ends.
    Bow,
    /// The thickness steps up (positive) or down from one arm to the next and
    /// stays there; two arms or more at either side.
    Step {
        /// The last arm before the step.
        left: ArmIndex,
        /// The first arm after it.
        right: ArmIndex,
    },
}

/// A pattern that stands out, and its size.
///
/// The size of an arm is its difference from the line between its neighbours
/// that are not named themselves; of a taper the rise from the leftmost arm
/// read to the rightmost; of a bow the height in the middle over the line
/// between its ends; of a step its height. Taper, bow and step are the best
/// fit beside the other named patterns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NamedPattern {
    /// What it is.
    pub pattern: Pattern,
    /// Its signed size.
    pub size: Measured,
}

/// What was found.
pub(super) struct Description {
    pub(super) patterns: Vec<NamedPattern>,
    pub(super) described: f64,
}

/// A description that leaves less than this share of the variation is good
/// enough: a further pattern would not help anybody to see the profile.
const ENOUGH_DESCRIBED: f64 = 0.85;

/// Most patterns named at once; more is no description.
const MOST_PATTERNS: usize = 2;

/// Chance, over everything looked at, of naming a pattern where there is only
/// scatter.
const FALSE_ALARM: f64 = 0.05;

/// One arm's mean as the reckoning uses it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Place {
    pub(super) arm: ArmIndex,
    pub(super) position_nm: f64,
    pub(super) mean_nm: f64,
    pub(super) u_nm: f64,
}

/// A pattern's column of the fit: what one nanometre of it adds at each arm.
struct Candidate {
    pattern: Pattern,
    column: Vec<f64>,
}

/// Describes a profile with as few patterns as will do.
///
/// Every pattern, then every pair, is fitted together with a level by
/// weighted least squares; the best fit of each size is kept when every
/// pattern in it stands out. The smallest description that leaves less than
/// 15 % of the (weighted) variation about the level, or leaves only what the
/// uncertainties explain (mean square of rest over uncertainty at most 1), is
/// the answer; without one, the largest that was found.
///
/// To stand out, a size must exceed the two-sided normal critical value of
/// 5 % shared among all the patterns looked at (Bonferroni), so that scatter
/// alone is given a name in at most 5 % of profiles.
///
/// `along` holds the places' positions from -1 to 1.
pub(super) fn describe(places: &[Place], along: &[f64]) -> Description {
    let values: Vec<f64> = places.iter().map(|place| place.mean_nm).collect();
    let u: Vec<f64> = places.iter().map(|place| place.u_nm).collect();
    let candidates = candidates(places, along);
    // Half of each candidate's share of false alarms in either tail.
    let tail = FALSE_ALARM / 2.0 / candidates.len().max(1) as f64;
    let critical = normal_quantile(tail).map_or(f64::INFINITY, f64::abs);
    let mut best = Description {
        patterns: Vec::new(),
        described: 0.0,
    };
    let Some(level_only) = LeastSquares::solve(&[vec![1.0; values.len()]], &values, &u) else {
        return best;
    };
    for set in best_sets(&candidates, &values, &u) {
        let Some(named) = named(places, &set, critical) else {
            continue;
        };
        best = Description {
            patterns: named,
            described: (1.0 - set.fit.chi_square / level_only.chi_square).clamp(0.0, 1.0),
        };
        let only_scatter_left = set.fit.reduced_chi_square().is_none_or(|left| left <= 1.0);
        if best.described >= ENOUGH_DESCRIBED || only_scatter_left {
            break;
        }
    }
    best
}

fn candidates(places: &[Place], along: &[f64]) -> Vec<Candidate> {
    let count = places.len();
    let mut candidates = Vec::new();
    let mut add = |pattern, column| candidates.push(Candidate { pattern, column });
    // With two arms an odd arm, a step and a taper are one and the same; with
    // three, a bow is an odd arm in the middle. The plainest word is kept.
    if count >= 3 {
        for (index, place) in places.iter().enumerate() {
            let column = (0..count).map(|at| f64::from(u8::from(at == index)));
            add(Pattern::Arm(place.arm), column.collect());
        }
    }
    if count >= 2 {
        add(Pattern::Taper, along.iter().map(|x| x / 2.0).collect());
    }
    if count >= 4 {
        add(Pattern::Bow, along.iter().map(|x| 1.0 - x * x).collect());
    }
    for (index, pair) in places.windows(2).enumerate() {
        if let [left, right] = pair
            && index >= 1
            && index + 3 <= count
        {
            let column = (0..count).map(|at| f64::from(u8::from(at > index)));
            let (left, right) = (left.arm, right.arm);
            add(Pattern::Step { left, right }, column.collect());
        }
    }
    candidates
}

/// A set of candidates with its fit; the level is the fit's first column.
struct FittedSet<'a> {
    members: Vec<&'a Candidate>,
    fit: LeastSquares,
}

/// The best single pattern and the best pair, in that order.
fn best_sets<'a>(candidates: &'a [Candidate], values: &[f64], u: &[f64]) -> Vec<FittedSet<'a>> {
    let level = vec![1.0; values.len()];
    let fitted = |members: Vec<&'a Candidate>| {
        let columns: Vec<Vec<f64>> = std::iter::once(level.clone())
            .chain(members.iter().map(|member| member.column.clone()))
            .collect();
        LeastSquares::solve(&columns, values, u).map(|fit| FittedSet { members, fit })
    };
    let singles = candidates.iter().map(|one| vec![one]);
    let pairs = candidates.iter().enumerate().flat_map(|(index, one)| {
        let later = candidates.iter().skip(index + 1);
        later.map(move |other| vec![one, other])
    });
    let mut sets = Vec::with_capacity(MOST_PATTERNS);
    sets.extend(best_of(singles.filter_map(fitted)));
    // A pair leaves nothing over on three arms and would describe anything.
    if values.len() >= 4 {
        sets.extend(best_of(pairs.filter_map(fitted)));
    }
    sets
}

/// The best fit; the first among equals within rounding.
fn best_of<'a>(sets: impl Iterator<Item = FittedSet<'a>>) -> Option<FittedSet<'a>> {
    sets.reduce(|best, next| {
        if next.fit.chi_square < best.fit.chi_square * (1.0 - 1e-9) - 1e-9 {
            next
        } else {
            best
        }
    })
}

/// The set's patterns with their sizes, the one that stands out most first;
/// `None` when one does not stand out.
fn named(places: &[Place], set: &FittedSet<'_>, critical: f64) -> Option<Vec<NamedPattern>> {
    let arms: Vec<usize> = set
        .members
        .iter()
        .filter_map(|member| match member.pattern {
            Pattern::Arm(arm) => places.iter().position(|place| place.arm == arm),
            _ => None,
        })
        .collect();
    let mut named = Vec::with_capacity(set.members.len());
    let fitted = set.fit.coefficients.iter().zip(&set.fit.uncertainties);
    for (member, (&value_nm, &u_nm)) in set.members.iter().zip(fitted.skip(1)) {
        let in_fit = Measured { value_nm, u_nm };
        let size = match member.pattern {
            Pattern::Arm(arm) => {
                let index = places.iter().position(|place| place.arm == arm)?;
                beside(places, index, &arms)?
            }
            _ => in_fit,
        };
        // The word must be true of both: of the fit, and of the difference
        // that is shown.
        let agrees = in_fit.value_nm * size.value_nm > 0.0;
        if !agrees || in_fit.z().abs() <= critical || !size.stands_out() {
            return None;
        }
        named.push((
            in_fit.z().abs(),
            NamedPattern {
                pattern: member.pattern,
                size,
            },
        ));
    }
    named.sort_by(|a, b| b.0.total_cmp(&a.0));
    Some(named.into_iter().map(|(_, pattern)| pattern).collect())
}

/// The difference of the arm at `index` from the line between its nearest
/// neighbours at either side, passing over the arms in `passed_over`; from the
/// nearest one where there is one side only.
fn beside(places: &[Place], index: usize, passed_over: &[usize]) -> Option<Measured> {
    let here = places.get(index)?;
    let counts = |at: &usize| !passed_over.contains(at);
    let left = (0..index).rev().find(counts).and_then(|at| places.get(at));
    let right = (index + 1..places.len())
        .find(counts)
        .and_then(|at| places.get(at));
    let (beside_nm, variance) = match (left, right) {
        (Some(left), Some(right)) => {
            let share =
                (here.position_nm - left.position_nm) / (right.position_nm - left.position_nm);
            (
                left.mean_nm * (1.0 - share) + right.mean_nm * share,
                square(left.u_nm * (1.0 - share)) + square(right.u_nm * share),
            )
        }
        (Some(only), None) | (None, Some(only)) => (only.mean_nm, square(only.u_nm)),
        (None, None) => return None,
    };
    Some(Measured {
        value_nm: here.mean_nm - beside_nm,
        u_nm: (square(here.u_nm) + variance).sqrt(),
    })
}

fn square(x: f64) -> f64 {
    x * x
}
