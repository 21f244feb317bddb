//! What the gauge shows of a piece, by how it is read: on the mark or beside it,
//! zeroed or not.

use crate::press::NaturalSpline;

use super::hidden::{Hidden, Luck};

/// How a gauge that was not zeroed reads: off by so much, and creeping by so
/// much from reading to reading, as standard deviations. Assumed (common practice, no source).
const UNZEROED_NM: f64 = 0.0008 * 25.4e6;
const CREEP_NM: f64 = 0.0002 * 25.4e6;
/// A reading beside the mark misses the long leg: it is thinner by so much, give
/// or take so much, and taken this share of an arm distance aside. Assumed (common
/// practice, no source).
const MISSED_LEG_NM: f64 = 0.003 * 25.4e6;
const MISSED_LEG_SCATTER_NM: f64 = 0.0015 * 25.4e6;
const ASIDE: f64 = 0.2;

/// How a reading is taken.
#[derive(Debug, Clone, Copy)]
pub(super) struct Manner {
    /// Whether on the mark.
    pub on_mark: bool,
    /// Whether the gauge was zeroed for this piece.
    pub zeroed: bool,
    /// Readings taken of this piece before.
    pub before: usize,
}

impl Hidden {
    /// What the gauge shows at a station of a piece: the draws are those of
    /// this luck, piece, station and reading, in whatever order they are taken.
    pub(super) fn shown_nm(
        &self,
        true_nm: &[f64],
        luck: Luck,
        [piece, station, reading]: [usize; 3],
        manner: Manner,
    ) -> f64 {
        let place = [piece as u64, station as u64 + 1, reading as u64 + 1];
        let mut draws = luck.draws(place);
        let mut thick = true_nm.get(station).copied().unwrap_or_default();
        if !manner.on_mark {
            thick = self.beside_mark(true_nm, station);
        }
        if !manner.zeroed {
            let mut zero = luck.draws([piece as u64, 0, 1]);
            let off = UNZEROED_NM * zero.normal();
            thick += off + CREEP_NM * zero.normal() * manner.before as f64;
        }
        let mut off_mark = draws.clone();
        if !manner.on_mark {
            let _ = off_mark.normal();
            thick -= MISSED_LEG_NM + MISSED_LEG_SCATTER_NM * off_mark.normal();
        }
        self.scatter.reading_nm(&mut draws, thick)
    }

    fn beside_mark(&self, true_nm: &[f64], station: usize) -> f64 {
        let places = self.press.layout.stations_nm();
        let here = places.get(station).copied().unwrap_or_default();
        let gaps = places.len().saturating_sub(1).max(1) as f64;
        let ends = places.first().zip(places.last());
        let aside = ends.map_or(0.0, |(first, last)| ASIDE * (last - first) / gaps);
        let curve = NaturalSpline::new(places);
        let there = curve
            .as_ref()
            .ok()
            .and_then(|spline| Some(spline.curve(true_nm).ok()?.at(here + aside)));
        there.unwrap_or_else(|| true_nm.get(station).copied().unwrap_or_default())
    }
}
