//! Many jaws of one layout that differ in stiffness, answered for together.
//!
//! With EI as the unit of rigidity a jaw is a beam on a foundation b = kappa rho
//! and on rods of stiffness kappa r_i. Only b changes the beam itself; rods are
//! few. So the beam is solved on rods that are all alike, of stiffness K, and
//! other rods are put in their place by the Woodbury identity: with P(b) the
//! influence of these rods on the stations, P_a(b) its rows at the arms, and
//! g_i = kappa r_i / (K - kappa r_i),
//!
//! ```text
//! W = P (1 + g - P_a)^-1 g,
//! ```
//!
//! where K, twice the stiffest rod of all, keeps what is inverted positive
//! definite. P is smooth in b, its poles lie at negative foundations: a dozen
//! beams at Chebyshev's points give it for a whole span of b to eleven digits,
//! and a span for which they do not is halved. W loses of them as many as the
//! stiffest rod has more than the softest: two or three in a prior.

use std::f64::consts::PI;

use super::jaw::{JawBeam, JawError, JawLayout, JawStiffness, KAPPA_RANGE};
use super::wide;

/// Jaws that are reckoned side by side.
pub const ABREAST: usize = 8;

/// A number for each of them.
pub type Abreast = [f64; ABREAST];

/// Beams that a span of foundations is solved at.
const NODES: usize = 12;

/// What the last terms may be, of the largest first one.
const SETTLED: f64 = 1e-11;

/// Jaws with as many arms, in the order of how soft they are on the splice.
#[derive(Debug)]
pub struct JawFamily {
    /// Stiffness of the rods that beams are solved on.
    rod: f64,
    groups: Vec<Group>,
    /// cos(pi k (j + 1/2) / NODES), by k and j.
    cosines: [[f64; NODES]; NODES],
}

/// Some jaws side by side; beyond the last jaw it stands once more.
#[derive(Debug)]
struct Group {
    jaws: usize,
    /// kappa rho; the first is the smallest and the last the largest.
    softness: Abreast,
    /// g, arm by arm.
    rods: Vec<Abreast>,
}

impl JawFamily {
    /// Jaws of one section, each with a factor for every one of its rods.
    ///
    /// # Errors
    /// [`JawError`] of a stiffness, a rigid jaw being refused too.
    pub fn new(arms: usize, jaws: &[JawStiffness<'_>]) -> Result<Self, JawError> {
        let mut stiffest: f64 = 0.0;
        for jaw in jaws {
            jaw.check(arms)?;
            if jaw.rod_factors.len() != arms {
                return Err(JawError::RodCount);
            }
            if !KAPPA_RANGE.contains(&jaw.kappa) {
                return Err(JawError::Kappa);
            }
            let factors = jaw.rod_factors.iter();
            stiffest = factors.fold(stiffest, |most, factor| most.max(jaw.kappa * factor));
        }
        let rod = 2.0 * stiffest;
        let mut order: Vec<&JawStiffness<'_>> = jaws.iter().collect();
        order.sort_by(|a, b| (a.kappa * a.rho).total_cmp(&(b.kappa * b.rho)));
        let group = |jaws: &[&JawStiffness<'_>]| {
            let each = |of: &dyn Fn(&JawStiffness<'_>) -> f64| {
                core::array::from_fn(|place| of(jaws[place.min(jaws.len() - 1)]))
            };
            let share = |jaw: &JawStiffness<'_>, arm: usize| {
                let own = jaw.kappa * jaw.rod_factors[arm];
                own / (rod - own)
            };
            Group {
                jaws: jaws.len(),
                softness: each(&|jaw| jaw.kappa * jaw.rho),
                rods: (0..arms).map(|arm| each(&|jaw| share(jaw, arm))).collect(),
            }
        };
        let angle = |k: usize, j: usize| PI * k as f64 * (j as f64 + 0.5) / NODES as f64;
        Ok(Self {
            rod,
            groups: order.chunks(ABREAST).map(group).collect(),
            cosines: core::array::from_fn(|k| core::array::from_fn(|j| libm::cos(angle(k, j)))),
        })
    }
}

impl JawLayout {
    /// Hands on the influence of every jaw of a family: how far it opens at
    /// each station (row) when the nut of each arm (column) moves by one unit,
    /// some jaws side by side, and how many of these there are. `at_arms` is
    /// the station at each arm.
    ///
    /// # Errors
    /// [`JawError::RodCount`] for a family of other presses; those of
    /// [`JawBeam::stiffen`].
    pub fn influences(
        &self,
        family: &JawFamily,
        at_arms: &[usize],
        mut each: impl FnMut(&mut [Abreast], usize),
    ) -> Result<(), JawError> {
        let arms = self.arms();
        let shape = JawStiffness::even(family.rod, 0.0);
        let mut answer = Answer {
            jaw: JawBeam::new(self.clone(), &shape)?,
            rod: family.rod,
            values: vec![0.0; self.stations() * arms],
        };
        let mut terms = vec![vec![0.0; self.stations() * arms]; NODES];
        let mut shapes = vec![[0.0; ABREAST]; self.stations() * arms];
        let mut room = Vec::new();
        let mut spans = vec![family.groups.as_slice()];
        while let Some(span) = spans.pop() {
            let (Some(first), Some(last)) = (span.first(), span.last()) else {
                continue;
            };
            let (low, high) = (first.softness[0], last.softness[ABREAST - 1]);
            // Next to nothing to go by.
            let alone = span.len() == 1 || low >= high;
            let used = match alone {
                true => 0,
                false => answer.expand(low, high, &family.cosines, &mut terms)?,
            };
            if used > NODES - 2 {
                let middle = 0.5 * (low + high);
                let softer = span.partition_point(|group| group.softness[0] < middle);
                let (left, right) = span.split_at(softer.clamp(1, span.len() - 1));
                spans.extend([right, left]);
                continue;
            }
            wide(
                #[inline(always)]
                || {
                    for group in span {
                        if alone {
                            for (place, &softness) in group.softness.iter().enumerate() {
                                let values = answer.at(softness)?.iter();
                                let of_jaw = shapes.iter_mut().zip(values);
                                of_jaw.for_each(|(shape, value)| shape[place] = *value);
                            }
                        } else {
                            let middle = group
                                .softness
                                .map(|b| (2.0 * b - low - high) / (high - low));
                            sum_terms(&terms[..used], middle, &mut shapes);
                        }
                        put_rods(&group.rods, at_arms, &mut shapes, &mut room);
                        each(&mut shapes, group.jaws);
                    }
                    Ok::<(), JawError>(())
                },
            )?;
        }
        Ok(())
    }
}

/// A jaw on rods that are all alike.
struct Answer {
    jaw: JawBeam,
    rod: f64,
    values: Vec<f64>,
}

impl Answer {
    fn at(&mut self, softness: f64) -> Result<&[f64], JawError> {
        let stiffness = JawStiffness::even(self.rod, softness / self.rod);
        self.jaw.stiffen(&stiffness)?;
        self.jaw.influence_into(&mut self.values)?;
        Ok(&self.values)
    }

    /// Chebyshev's series over a span; answers how many of its terms count. It has
    /// settled where the last two do not (Trefethen, Approximation Theory and
    /// Approximation Practice, SIAM 2013, chapters 3 and 8).
    fn expand(
        &mut self,
        low: f64,
        high: f64,
        cosines: &[[f64; NODES]; NODES],
        terms: &mut [Vec<f64>],
    ) -> Result<usize, JawError> {
        terms.iter_mut().for_each(|term| term.fill(0.0));
        for node in 0..NODES {
            let at = 0.5 * (low + high) + 0.5 * (high - low) * cosines[1][node];
            let values = self.at(at)?;
            for (k, term) in terms.iter_mut().enumerate() {
                let half = if k == 0 { 1.0 } else { 2.0 };
                let weight = half / NODES as f64 * cosines[k][node];
                term.iter_mut()
                    .zip(values)
                    .for_each(|(term, value)| *term += weight * value);
            }
        }
        let largest = |term: &Vec<f64>| term.iter().fold(0.0, |most: f64, t| most.max(t.abs()));
        let least = SETTLED * terms.first().map_or(0.0, largest);
        let last = terms.iter().rposition(|term| largest(term) > least);
        Ok(last.map_or(0, |last| last + 1))
    }
}

/// A series at some places of its span, from -1 to 1.
#[inline(always)]
fn sum_terms(terms: &[Vec<f64>], at: Abreast, sums: &mut [Abreast]) {
    let mut chebyshev = [[1.0; ABREAST]; NODES];
    chebyshev[1] = at;
    for k in 2..NODES {
        for place in 0..ABREAST {
            chebyshev[k][place] =
                2.0 * at[place] * chebyshev[k - 1][place] - chebyshev[k - 2][place];
        }
    }
    for (entry, sum) in sums.iter_mut().enumerate() {
        let mut total = [0.0; ABREAST];
        for (term, chebyshev) in terms.iter().zip(&chebyshev) {
            let term = term[entry];
            for place in 0..ABREAST {
                total[place] += term * chebyshev[place];
            }
        }
        *sum = total;
    }
}

/// Puts these rods in the place of rods all alike: P (1 + g - P_a)^-1 g, by
/// Cholesky's factors without roots.
#[inline(always)]
fn put_rods(rods: &[Abreast], at_arms: &[usize], shapes: &mut [Abreast], room: &mut Vec<Abreast>) {
    let n = rods.len();
    room.clear();
    room.resize(n * n, [0.0; ABREAST]);
    for (row, (&station, rods)) in at_arms.iter().zip(rods).enumerate() {
        for column in 0..=row {
            let shape = &shapes[station * n + column];
            let own = if column == row { 1.0 } else { 0.0 };
            room[row * n + column] =
                core::array::from_fn(|place| own * (1.0 + rods[place]) - shape[place]);
        }
    }
    // L D L^T, the diagonal holding 1 / D.
    for row in 0..n {
        for column in 0..row {
            // Not yet divided by D: of this row what stands left of it is.
            let mut value = room[row * n + column];
            for k in 0..column {
                let (a, b) = (room[row * n + k], room[column * n + k]);
                take(&mut value, &a, &b);
            }
            room[row * n + column] = value;
        }
        let mut pivot = room[row * n + row];
        for k in 0..row {
            let whole = room[row * n + k];
            let inverse = room[k * n + k];
            let share = core::array::from_fn(|place| whole[place] * inverse[place]);
            take(&mut pivot, &whole, &share);
            room[row * n + k] = share;
        }
        room[row * n + row] = pivot.map(|pivot| 1.0 / pivot);
    }
    for shape in shapes.chunks_exact_mut(n.max(1)) {
        for row in 0..n {
            let mut value = shape[row];
            for k in 0..row {
                take(&mut value, &room[row * n + k], &shape[k]);
            }
            shape[row] = value;
        }
        for row in (0..n).rev() {
            let inverse = room[row * n + row];
            let mut value = core::array::from_fn(|place| shape[row][place] * inverse[place]);
            for k in row + 1..n {
                take(&mut value, &room[k * n + row], &shape[k]);
            }
            shape[row] = value;
        }
        for (value, rods) in shape.iter_mut().zip(rods) {
            value
                .iter_mut()
                .zip(rods)
                .for_each(|(value, g)| *value *= g);
        }
    }
}

/// Takes a product from a value.
#[inline(always)]
fn take(value: &mut Abreast, a: &Abreast, b: &Abreast) {
    for place in 0..ABREAST {
        value[place] -= a[place] * b[place];
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every jaw as it is alone, over presses with overhangs and stations between
    /// their arms: what a prior draws, and far beyond any press.
    #[test]
    fn many_jaws_answer_as_each_alone() {
        let even: Vec<f64> = (0..4).map(|arm| 3e8 * f64::from(arm)).collect();
        let layouts = [
            ((-1e8, 1e9), even.clone(), even),
            (
                (-9e8, 2.2e9),
                vec![0.0, 2e8, 3e8, 9e8, 1.2e9],
                vec![
                    -9e8, 0.0, 1e8, 2e8, 3e8, 6e8, 9e8, 1.1e9, 1.2e9, 1.9e9, 2.2e9,
                ],
            ),
        ];
        for (ends, arms, stations) in layouts {
            let layout = JawLayout::new(ends, &arms, &stations).unwrap();
            let at = |arm: &f64| stations.iter().position(|station| station == arm);
            let at_arms: Vec<usize> = arms.iter().filter_map(at).collect();
            for (low, high, allowed) in [(3.0, 70.0, 1e-9), (0.01, 1e3, 1e-5), (1e4, 1e7, 1e-7)] {
                let share = |number: usize, step: f64| (number as f64 * step).fract();
                let rods: Vec<f64> = (0..203 * arms.len())
                    .map(|number| 1.8 * share(number, 0.618_034))
                    .collect();
                let jaws: Vec<JawStiffness<'_>> = rods
                    .chunks_exact(arms.len())
                    .enumerate()
                    .map(|(number, rod_factors)| {
                        let up = libm::log(high / low) * share(number, 0.754_878);
                        let rho = 0.3 * share(number, 0.569_84);
                        JawStiffness {
                            rod_factors,
                            ..JawStiffness::even(low * libm::exp(up), rho)
                        }
                    })
                    .collect();
                let family = JawFamily::new(arms.len(), &jaws).unwrap();
                let mut found: Vec<Vec<f64>> = Vec::new();
                layout
                    .influences(&family, &at_arms, |shapes, jaws| {
                        let one = |place| shapes.iter().map(|shape| shape[place]).collect();
                        found.extend((0..jaws).map(one));
                    })
                    .unwrap();
                let mut alone: Vec<(f64, Vec<f64>)> = jaws
                    .iter()
                    .map(|stiffness| {
                        let mut jaw = JawBeam::new(layout.clone(), stiffness).unwrap();
                        let mut influence = vec![0.0; stations.len() * arms.len()];
                        jaw.influence_into(&mut influence).unwrap();
                        (stiffness.kappa * stiffness.rho, influence)
                    })
                    .collect();
                alone.sort_by(|a, b| a.0.total_cmp(&b.0));
                assert_eq!(found.len(), alone.len());
                for ((_, alone), found) in alone.iter().zip(&found) {
                    let largest = alone.iter().fold(1.0, |most: f64, w| most.max(w.abs()));
                    for (alone, found) in alone.iter().zip(found) {
                        let off = (alone - found).abs() / largest;
                        assert!(off < allowed, "kappa {low} to {high}: {off}");
                    }
                }
            }
        }
    }

    #[test]
    fn what_makes_no_sense_is_refused() {
        let jaw = |kappa: f64, rod_factors| {
            let even = JawStiffness::even(kappa, 0.1);
            JawFamily::new(
                2,
                &[JawStiffness {
                    rod_factors,
                    ..even
                }],
            )
        };
        assert!(jaw(10.0, &[1.0, 1.0]).is_ok());
        assert!(jaw(0.0, &[1.0, 1.0]).is_err());
        assert!(jaw(f64::NAN, &[1.0, 1.0]).is_err());
        assert!(jaw(10.0, &[1.0, -1.0]).is_err());
        assert!(jaw(10.0, &[]).is_err());
    }
}
