//! The flip test: the same belt end laced, then laced the other way round.

use super::measured::Measured;

/// Farthest two stations may be from mirror places of each other, in
/// nanometres: 2 mm, about half a knuckle (common practice, no
/// source).
const MIRROR_NM: f64 = 2_000_000.0;

/// One lacing of the flip test at one station, in nanometres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlipStation {
    /// Position along the jaw.
    pub position_nm: f64,
    /// Mean as first laced and its uncertainty, lacing scatter included.
    pub first: Option<Measured>,
    /// Mean with the belt end the other way round.
    pub flipped: Option<Measured>,
}

/// The odd part of the belt's own thickness at a pair of mirror stations.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OddPart {
    /// The station left of the middle.
    pub left: usize,
    /// Its mirror station.
    pub right: usize,
    /// How much the belt, as first laced, is thicker at the right station
    /// than its even part there; at the left it is as much thinner. The two
    /// stations differ by twice this.
    pub odd: Measured,
    /// Change of the whole piece between the two lacings, second minus first,
    /// as this pair sees it; pairs that disagree beyond their uncertainty
    /// show that more than the belt has changed.
    pub shift: Measured,
}

/// What a flip test tells.
///
/// With the jaw's profile J, the belt's thickness b about the middle and a
/// shift o of each lacing, y_1(x) = J(x) + b(x) + o_1 and y_2(x) = J(x) +
/// b(-x) + o_2. Half the difference is the odd part of b and half the
/// difference of the shifts; half the sum is J and the even part of b, which
/// lies the same way however the belt is laced: no flip tells it from the jaw.
/// Source: reversal methods, Evans, Hocken, Estler, CIRP Annals
/// 45/2 (1996) 617 (from memory).
#[derive(Debug, Clone, PartialEq)]
pub struct FlipTest {
    /// Pairs of mirror stations, from the outside in.
    pub pairs: Vec<OddPart>,
    /// Stations without a mirror station, or not read in both lacings: there
    /// the odd part stays unknown. A station in the very middle is not among
    /// them: its odd part is nothing.
    pub unpaired: Vec<usize>,
}

/// Why a flip test tells nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FlipProblem {
    /// No two stations read in both lacings lie as mirrors of each other
    /// about the middle of the belt.
    NoMirrorStations,
    /// A position or a mean that is no number.
    NotANumber,
}

impl FlipTest {
    /// Reckons the flip test of one belt end whose middle lay at `middle_nm`
    /// both times, with no nut turned in between.
    ///
    /// # Errors
    /// See [`FlipProblem`].
    pub fn of(stations: &[FlipStation], middle_nm: f64) -> Result<Self, FlipProblem> {
        let finite = |mean: Option<Measured>| {
            mean.is_none_or(|mean| mean.value_nm.is_finite() && mean.u_nm.is_finite())
        };
        let sound = stations.iter().all(|station| {
            station.position_nm.is_finite() && finite(station.first) && finite(station.flipped)
        });
        if !sound || !middle_nm.is_finite() {
            return Err(FlipProblem::NotANumber);
        }
        let mut pairs = Vec::new();
        let mut unpaired = Vec::new();
        for (index, station) in stations.iter().enumerate() {
            let mirrored = 2.0 * middle_nm - station.position_nm;
            let Some((mirror, other)) = nearest(stations, mirrored) else {
                unpaired.push(index);
                continue;
            };
            let (Some(here), Some(there)) = (difference(station), difference(other)) else {
                unpaired.push(index);
                continue;
            };
            if index < mirror {
                pairs.push(odd_part(index, here, mirror, there));
            }
        }
        if pairs.is_empty() {
            return Err(FlipProblem::NoMirrorStations);
        }
        Ok(Self { pairs, unpaired })
    }
}

/// The station nearest a place, if it is near enough.
fn nearest(stations: &[FlipStation], place_nm: f64) -> Option<(usize, &FlipStation)> {
    let away = |station: &FlipStation| (station.position_nm - place_nm).abs();
    stations
        .iter()
        .enumerate()
        .filter(|(_, station)| away(station) <= MIRROR_NM)
        .reduce(|best, next| {
            if away(next.1) < away(best.1) {
                next
            } else {
                best
            }
        })
}

/// First lacing minus flipped.
fn difference(station: &FlipStation) -> Option<Measured> {
    let (first, flipped) = (station.first?, station.flipped?);
    Some(Measured {
        value_nm: first.value_nm - flipped.value_nm,
        u_nm: (first.u_nm * first.u_nm + flipped.u_nm * flipped.u_nm).sqrt(),
    })
}

/// d(x) = 2 b_odd(x) + o_1 - o_2, so that d(right) - d(left) = 4 b_odd(right)
/// and d(right) + d(left) = 2 (o_1 - o_2).
fn odd_part(left: usize, at_left: Measured, right: usize, at_right: Measured) -> OddPart {
    let u = (at_left.u_nm * at_left.u_nm + at_right.u_nm * at_right.u_nm).sqrt();
    OddPart {
        left,
        right,
        odd: Measured {
            value_nm: (at_right.value_nm - at_left.value_nm) / 4.0,
            u_nm: u / 4.0,
        },
        shift: Measured {
            value_nm: -(at_right.value_nm + at_left.value_nm) / 2.0,
            u_nm: u / 2.0,
        },
    }
}
