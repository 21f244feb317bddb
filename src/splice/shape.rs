//! The shape of a profile: its level, and the patterns that describe it best.

use crate::press::ArmIndex;

use super::measured::Measured;
use super::pattern::{self, NamedPattern, Place};
use crate::stats::LeastSquares;

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
#[derive(Debug, Clone, PartialEq)]
pub struct Shape {
    /// The arms that were read, from the operator's left.
    pub read: Vec<ArmIndex>,
    /// Weighted mean thickness; `None` when nothing was read.
    pub level: Option<Measured>,
    /// The thickest and the thinnest arm; `None` when nothing was read.
    pub outermost: Option<Outermost>,
    /// The patterns that describe the profile, the largest first; empty when
    /// nothing stands out of its uncertainty.
    pub patterns: Vec<NamedPattern>,
    /// Share of the profile's variation that the patterns describe, 0 to 1.
    pub described: f64,
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
        let level = LeastSquares::solve(&[vec![1.0; values.len()]], &values, &u).and_then(|fit| {
            Some(Measured {
                value_nm: *fit.coefficients.first()?,
                u_nm: *fit.uncertainties.first()?,
            })
        });
        let found = pattern::describe(&places, &along);
        Self {
            read: places.iter().map(|place| place.arm).collect(),
            level,
            outermost: outermost(&places),
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
