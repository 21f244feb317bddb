//! The shape of a profile: level, taper, bow and the rest, and the pattern
//! that describes it best.

use crate::press::ArmIndex;

use super::pattern::{self, NamedPattern};
use crate::stats::LeastSquares;
use crate::stats::chi_square_above;

/// A figure with its standard uncertainty, both in nanometres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured {
    /// The figure.
    pub value_nm: f64,
    /// Its standard uncertainty.
    pub u_nm: f64,
}

/// Standard uncertainties a figure named beforehand must exceed to stand out
/// of its own uncertainty: the two-sided 95 % point of the normal
/// distribution.
pub const STANDS_OUT: f64 = 1.959_963_984_540_054;

impl Measured {
    /// The figure in standard uncertainties.
    pub fn z(&self) -> f64 {
        self.value_nm / self.u_nm
    }

    /// Whether the figure stands out of its own uncertainty.
    pub fn stands_out(&self) -> bool {
        self.z().abs() > STANDS_OUT
    }
}

/// An arm's thickness against its neighbours'.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beside {
    /// The arm.
    pub arm: ArmIndex,
    /// Thickness here minus thickness beside it: the straight line between
    /// the neighbours read at either side, or the one neighbour of an end
    /// arm. Positive is proud, negative pinched.
    pub difference: Measured,
}

/// The thickest and the thinnest arm read; the leftmost among equals.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outermost {
    /// The thickest arm.
    pub thickest: ArmIndex,
    /// Its mean.
    pub most_nm: f64,
    /// The thinnest arm.
    pub thinnest: ArmIndex,
    /// Its mean.
    pub least_nm: f64,
}

/// The shape of one profile.
///
/// Level, taper and bow are weighted orthogonal polynomials of degree 0, 1
/// and 2 over the arms (Forsythe, J. Soc. Indust. Appl. Math. 5 (1957) 74);
/// the rest is what is left of the profile after them.
#[derive(Debug, Clone, PartialEq)]
pub struct Shape {
    /// The arms that were read, from the operator's left.
    pub read: Vec<ArmIndex>,
    /// Weighted mean thickness; `None` when nothing was read.
    pub level: Option<Measured>,
    /// Rise of the fitted line from the leftmost arm read to the rightmost;
    /// positive is thicker to the operator's right. Needs two arms.
    pub taper: Option<Measured>,
    /// Height of the fitted parabola halfway between the outermost arms over
    /// the straight line between its ends; positive is thicker in the middle.
    /// Needs three arms.
    pub bow: Option<Measured>,
    /// What level, taper and bow leave over at each arm read; empty below
    /// four arms, where nothing can be left over.
    pub rest_nm: Vec<f64>,
    /// Probability that the uncertainties alone leave a rest as large as
    /// this (chi-square with N - 3 degrees of freedom); `None` below four
    /// arms.
    pub rest_chance: Option<f64>,
    /// The thickest and the thinnest arm; `None` when nothing was read.
    pub outermost: Option<Outermost>,
    /// Every arm read against its neighbours; empty below two arms.
    pub beside: Vec<Beside>,
    /// The patterns that describe the profile, the largest first; empty when
    /// nothing stands out of its uncertainty.
    pub patterns: Vec<NamedPattern>,
    /// Share of the profile's variation that the patterns describe, 0 to 1.
    pub described: f64,
}

/// One arm's mean as the reckoning uses it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Place {
    pub(super) arm: ArmIndex,
    pub(super) position_nm: f64,
    pub(super) mean_nm: f64,
    pub(super) u_nm: f64,
}

/// Smallest uncertainty reckoned with: the grid lengths are kept on. A mean
/// without any uncertainty does not exist.
const LEAST_U_NM: f64 = 1.0;

impl Shape {
    /// The shape of a profile over the arms: position along the jaw, station
    /// mean (`None` where nothing was read) and standard uncertainty of the
    /// mean, all in nanometres and one per arm from the operator's left.
    ///
    /// The uncertainties are taken as independent; a scale error that all
    /// readings share is in none of the differences. Entries that are not
    /// finite count as unread, an uncertainty below a nanometre as one
    /// nanometre, and arms at one and the same position as unread but the
    /// first: the answer is always finite.
    pub fn of(arm_positions_nm: &[f64], means_nm: &[Option<f64>], u_nm: &[f64]) -> Self {
        let places = usable_places(arm_positions_nm, means_nm, u_nm);
        let values: Vec<f64> = places.iter().map(|place| place.mean_nm).collect();
        let u: Vec<f64> = places.iter().map(|place| place.u_nm).collect();
        let along = positions_along(&places);
        let fit = |degree: usize| polynomial(&along, &values, &u, degree);
        // One solve of degree n gives the coefficient of the n-th orthogonal
        // polynomial, since the lower columns have been taken out of it.
        let level = fit(0).map(|(level, _)| level);
        let taper = fit(1).map(|(slope, _)| scaled(slope, 2.0));
        let bow = fit(2).map(|(square, _)| scaled(square, -1.0));
        let rest = fit(2).filter(|_| places.len() > 3).map(|(_, fit)| fit);
        let found = pattern::describe(&places, &along);
        Self {
            read: places.iter().map(|place| place.arm).collect(),
            level,
            taper,
            bow,
            rest_chance: rest
                .as_ref()
                .map(|fit| chi_square_above(fit.chi_square, places.len() - 3)),
            rest_nm: rest.map_or_else(Vec::new, |fit| fit.residuals),
            outermost: outermost(&places),
            beside: (0..places.len())
                .filter_map(|index| beside(&places, index, &[]))
                .collect(),
            patterns: found.patterns,
            described: found.described,
        }
    }

    /// The pattern that says most about the profile.
    pub fn headline(&self) -> Option<&NamedPattern> {
        self.patterns.first()
    }

    /// Whether the patterns describe less than half of the variation, so that
    /// no one of them is how the profile looks.
    pub fn is_irregular(&self) -> bool {
        !self.patterns.is_empty() && self.described < 0.5
    }

    /// Largest rest minus smallest; `None` below four arms.
    pub fn rest_range_nm(&self) -> Option<f64> {
        let most = self.rest_nm.iter().copied().reduce(f64::max)?;
        let least = self.rest_nm.iter().copied().reduce(f64::min)?;
        Some(most - least)
    }

    /// Whether the rest is larger than the uncertainties leave in one profile
    /// of twenty.
    pub fn rest_stands_out(&self) -> bool {
        self.rest_chance.is_some_and(|chance| chance < 0.05)
    }

    /// The arm's difference from its neighbours.
    pub fn beside(&self, arm: ArmIndex) -> Option<Measured> {
        self.beside
            .iter()
            .find(|beside| beside.arm == arm)
            .map(|beside| beside.difference)
    }
}

fn usable_places(positions: &[f64], means: &[Option<f64>], u: &[f64]) -> Vec<Place> {
    let mut places: Vec<Place> = Vec::with_capacity(means.len());
    for (index, ((&position_nm, mean), &u_nm)) in positions.iter().zip(means).zip(u).enumerate() {
        let Some(mean_nm) = *mean else { continue };
        // Beyond a kilometre no sum of squares below keeps its digits.
        let usable = [position_nm, mean_nm, u_nm]
            .iter()
            .all(|x| x.is_finite() && x.abs() < 1e12);
        let in_order = places
            .last()
            .is_none_or(|before| before.position_nm + 1.0 <= position_nm);
        if usable && in_order {
            places.push(Place {
                arm: ArmIndex(index),
                position_nm,
                mean_nm,
                u_nm: u_nm.max(LEAST_U_NM),
            });
        }
    }
    places
}

/// Positions from -1 at the leftmost arm read to 1 at the rightmost.
fn positions_along(places: &[Place]) -> Vec<f64> {
    let first = places.first().map_or(0.0, |place| place.position_nm);
    let last = places.last().map_or(0.0, |place| place.position_nm);
    let half = (last - first) / 2.0;
    places
        .iter()
        .map(|place| {
            if half > 0.0 {
                (place.position_nm - first) / half - 1.0
            } else {
                0.0
            }
        })
        .collect()
}

/// The leading coefficient of the best polynomial of a degree, and the fit.
fn polynomial(
    along: &[f64],
    values: &[f64],
    u: &[f64],
    degree: usize,
) -> Option<(Measured, LeastSquares)> {
    let columns: Vec<Vec<f64>> = (0..=degree)
        .map(|power| {
            let power = |x: &f64| (0..power).fold(1.0, |product, _| product * x);
            along.iter().map(power).collect()
        })
        .collect();
    let fit = LeastSquares::solve(&columns, values, u)?;
    let leading = Measured {
        value_nm: *fit.coefficients.last()?,
        u_nm: *fit.uncertainties.last()?,
    };
    Some((leading, fit))
}

fn scaled(measured: Measured, by: f64) -> Measured {
    Measured {
        value_nm: measured.value_nm * by,
        u_nm: measured.u_nm * by.abs(),
    }
}

/// The difference of the arm at `index` from the line between its nearest
/// neighbours at either side, passing over the arms in `passed_over`; from the
/// nearest one where there is one side only.
pub(super) fn beside(places: &[Place], index: usize, passed_over: &[usize]) -> Option<Beside> {
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
    Some(Beside {
        arm: here.arm,
        difference: Measured {
            value_nm: here.mean_nm - beside_nm,
            u_nm: (square(here.u_nm) + variance).sqrt(),
        },
    })
}

fn outermost(places: &[Place]) -> Option<Outermost> {
    let first = places.first()?;
    let (thickest, thinnest) = places.iter().fold((first, first), |(most, least), next| {
        let more = if next.mean_nm > most.mean_nm {
            next
        } else {
            most
        };
        let less = if next.mean_nm < least.mean_nm {
            next
        } else {
            least
        };
        (more, less)
    });
    Some(Outermost {
        thickest: thickest.arm,
        most_nm: thickest.mean_nm,
        thinnest: thinnest.arm,
        least_nm: thinnest.mean_nm,
    })
}

fn square(x: f64) -> f64 {
    x * x
}
