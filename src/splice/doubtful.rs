//! Readings that cannot be right, or need a second look before anybody turns
//! a nut by them.
//!
//! Everything is held against the robust middle of the piece and of earlier
//! pieces, so that a wrong reading does not taint the sound ones, and every
//! reading has one mark at most.

use crate::codec::as_text;
use crate::units::{
    Length, Rounding, Sign, TypedLength, Unit, decimal_text, decimals_for_step, listed,
};

use super::{Cell, Pooled, Reading, Sample, Scatter};
use crate::stats::median;
use crate::stats::student_critical;

/// A reading that needs a second look.
#[derive(Debug, Clone, PartialEq)]
pub struct Doubtful {
    /// The station, as an index.
    pub station: usize,
    /// The reading among its cells.
    pub repeat: usize,
    /// Why.
    pub why: WhyDoubtful,
    /// What it most likely was meant to be, where that can be told.
    pub likely: Option<TypedLength>,
}

impl Doubtful {
    /// Where it is measured again: its station, and its own place there where
    /// it cannot be right; none where only a further reading can tell.
    pub fn read_again_at(&self) -> (usize, Option<usize>) {
        let own = (self.why != WhyDoubtful::Repeats).then_some(self.repeat);
        (self.station, own)
    }
}

listed! {
    /// Why a reading needs a second look, the plainest reason first.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
    pub enum WhyDoubtful {
        /// What stands in the cell is no thickness.
        Unreadable = "unreadable",
        /// The same digits in the other unit are what the others are.
        OtherUnit = "other unit",
        /// With its decimal point elsewhere it is what the others are.
        DecimalPlace = "decimal place",
        /// No hooked splice is so thick, or so thin.
        Thickness = "thickness",
        /// Far from the rest of its piece, or, where the whole piece is, from the
        /// target, the bare belt and earlier pieces.
        Piece = "piece",
        /// Far from where earlier pieces of the visit were at this station.
        Before = "earlier pieces",
        /// Readings of one place differ by more than the whole tolerance, and by
        /// more than readings of this gauge scatter.
        Repeats = "repeats",
    }
}

as_text!(WhyDoubtful, Name, key);

/// A piece and what its readings are held against. Lengths in nanometres.
#[derive(Debug, Clone, Copy)]
pub struct PieceCheck<'a> {
    /// The cells, a row per station.
    pub rows: &'a [Vec<Cell>],
    /// What splices of this press are about: the middle of earlier pieces of
    /// the visit, else the target; none where neither is known.
    pub usual_nm: Option<f64>,
    /// Unit of a number that stands in a cell without one.
    pub bare: Unit,
    /// The bare belt, where it was measured.
    pub belt_nm: Option<f64>,
    /// How far from the middle of its piece each station was in the piece
    /// before; none where it was not read.
    pub before_nm: &'a [Option<f64>],
    /// How far a station may have moved against its piece since then.
    pub moved_nm: f64,
    /// The repeatability stated for the gauge, if any.
    pub stated: Option<Scatter>,
    /// Step of the gauge.
    pub step: Length,
    /// Tolerance on the spread.
    pub tolerance: Length,
}

/// Largest ratio of two thicknesses of one piece, or of two pieces of one
/// press. A splice is crushed or proud by hundredths; a slip of the point
/// makes 10, of the unit 25.4. Common practice, no source.
const NEAR: f64 = 1.5;

/// Most and least a splice is, in thicknesses of the bare belt. Common
/// practice, no source.
const BELTS: (f64, f64) = (0.5, 4.0);

/// Smallest and largest thickness of a hooked splice, in nanometres: about
/// 0.04 in and 2 in. Common practice, no source.
const PLAUSIBLE_NM: (f64, f64) = (1e6, 5e7);

/// Probability that sound repeats of a whole piece are doubted, where their
/// scatter alone decides.
const ALPHA: f64 = 0.001;

/// Every reading of a piece that needs a second look, by station and repeat.
///
/// Readings that somebody kept although they were doubted are not doubted
/// again, and the others are held against them as well.
///
/// 1. The middle of the piece is the reading within a ratio of 1.5 of which
///    most readings lie; among equals the one nearest to what is usual, then
///    one that is a plausible splice, then the first entered.
/// 2. Where that middle is further than this ratio from what is usual, out of
///    proportion to the bare belt, or no plausible splice, every reading is
///    held against what is usual instead: the whole piece is in doubt.
/// 3. A reading further than the ratio from what it is held against is in
///    doubt. Its likely value is the same digits in the other unit, or with
///    the point up to four places elsewhere, whichever comes nearest. So is
///    that of a length no reading can have.
/// 4. A reading is in doubt when its station's place against the middle of
///    its piece has moved by more than nuts can move it.
/// 5. Readings of one station are in doubt when they differ by more than the
///    tolerance and by more than the Student limit of their scatter, with the
///    probability shared among all readings of the piece.
pub fn doubtful(piece: &PieceCheck<'_>) -> Vec<Doubtful> {
    let mut found = Vec::new();
    let mut entries = Vec::new();
    let mut unreadable = Vec::new();
    for (station, row) in piece.rows.iter().enumerate() {
        for (repeat, cell) in row.iter().enumerate() {
            if let Some(reading) = cell.counting() {
                entries.push(Entry {
                    station,
                    repeat,
                    reading,
                });
            } else if let Cell::Unreadable(text) = cell {
                unreadable.push((station, repeat, text));
            }
        }
    }
    let held_against = piece.held_against(&entries);
    for (station, repeat, text) in unreadable {
        let typed = TypedLength::parse(text, piece.bare, Sign::None).ok();
        let likely = typed.and_then(|typed| piece.likely(&typed, held_against));
        let (why, likely) = likely.map_or((WhyDoubtful::Unreadable, None), |(why, likely)| {
            (why, Some(likely))
        });
        found.push(Doubtful {
            station,
            repeat,
            why,
            likely,
        });
    }
    let mut sound = Vec::new();
    for entry in entries {
        match piece.implausible(&entry, held_against) {
            Some((why, likely)) => found.push(entry.doubted(why, likely)),
            None => sound.push(entry),
        }
    }
    let moved = piece.moved(&sound);
    let apart = piece.apart(&sound);
    for (index, entry) in sound.iter().enumerate() {
        if entry.reading.kept.is_some() {
            continue;
        }
        let why = match (moved.get(index), apart.get(index)) {
            (Some(true), _) => WhyDoubtful::Before,
            (_, Some(true)) => WhyDoubtful::Repeats,
            _ => continue,
        };
        found.push(entry.doubted(why, None));
    }
    found.sort_by_key(|doubt| (doubt.station, doubt.repeat));
    found
}

/// A reading that counts, and where it stands.
#[derive(Debug, Clone, Copy)]
struct Entry<'a> {
    station: usize,
    repeat: usize,
    reading: &'a Reading,
}

impl Entry<'_> {
    fn nm(&self) -> f64 {
        self.reading.typed.length().nm_f64()
    }

    fn doubted(&self, why: WhyDoubtful, likely: Option<TypedLength>) -> Doubtful {
        Doubtful {
            station: self.station,
            repeat: self.repeat,
            why,
            likely,
        }
    }
}

/// What the readings of a piece are held against.
#[derive(Debug, Clone, Copy)]
enum Middle {
    /// A thickness.
    At(f64),
    /// The bare belt: the piece is out of proportion to it.
    Belt(f64),
    /// Any plausible splice: nothing better is known, and the piece is none.
    AnySplice,
}

fn ratio(one: f64, other: f64) -> f64 {
    let (one, other) = (one.max(1.0), other.max(1.0));
    (one / other).max(other / one)
}

fn is_near(one: f64, other: f64) -> bool {
    ratio(one, other) <= NEAR
}

fn is_in_proportion(nm: f64, belt_nm: f64) -> bool {
    (BELTS.0..=BELTS.1).contains(&(nm / belt_nm.max(1.0)))
}

fn is_splice(nm: f64) -> bool {
    (PLAUSIBLE_NM.0..=PLAUSIBLE_NM.1).contains(&nm)
}

impl PieceCheck<'_> {
    fn held_against(&self, entries: &[Entry<'_>]) -> Option<Middle> {
        let middle = self.middle(entries)?;
        if let Some(usual) = self.usual_nm {
            return Some(Middle::At(if is_near(middle, usual) {
                middle
            } else {
                usual
            }));
        }
        if let Some(belt) = self.belt_nm
            && !is_in_proportion(middle, belt)
        {
            return Some(Middle::Belt(belt));
        }
        Some(if is_splice(middle) {
            Middle::At(middle)
        } else {
            Middle::AnySplice
        })
    }

    /// The middle of the piece.
    fn middle(&self, entries: &[Entry<'_>]) -> Option<f64> {
        let mut sorted: Vec<f64> = entries.iter().map(Entry::nm).collect();
        sorted.sort_by(f64::total_cmp);
        // Readings are entered repeat by repeat.
        let first = entries.iter().min_by_key(|at| (at.repeat, at.station))?;
        let neighbours = |nm: f64| {
            let from = sorted.partition_point(|other| other * NEAR < nm);
            let to = sorted.partition_point(|other| *other <= nm * NEAR);
            // Of a thickness below nothing, which a simulation can meet, the
            // near ones are not those between.
            to.saturating_sub(from)
        };
        let rank = |nm: f64| {
            let unusual = self.usual_nm.map_or(0.0, |usual| ratio(nm, usual));
            let late = !is_near(nm, first.nm());
            (neighbours(nm), unusual, !is_splice(nm), late)
        };
        let best = entries
            .iter()
            .map(|entry| (rank(entry.nm()), entry.nm()))
            .min_by(|(a, _), (b, _)| {
                b.0.cmp(&a.0)
                    .then(a.1.total_cmp(&b.1))
                    .then(a.2.cmp(&b.2))
                    .then(a.3.cmp(&b.3))
            })?
            .1;
        median(sorted.into_iter().filter(|nm| is_near(*nm, best)))
    }

    /// Whether so thick a reading may be right.
    fn fits(nm: f64, held_against: Option<Middle>) -> bool {
        match held_against {
            Some(Middle::At(middle)) => is_near(nm, middle),
            Some(Middle::Belt(belt)) => is_in_proportion(nm, belt),
            Some(Middle::AnySplice) | None => is_splice(nm),
        }
    }

    /// Why a reading cannot be right, and what it likely was.
    fn implausible(
        &self,
        entry: &Entry<'_>,
        held_against: Option<Middle>,
    ) -> Option<(WhyDoubtful, Option<TypedLength>)> {
        let nm = entry.nm();
        if entry.reading.kept.is_some() || Self::fits(nm, held_against) {
            return None;
        }
        Some(match self.likely(&entry.reading.typed, held_against) {
            Some((why, likely)) => (why, Some(likely)),
            None if is_splice(nm) => (WhyDoubtful::Piece, None),
            None => (WhyDoubtful::Thickness, None),
        })
    }

    /// What a length that cannot be right likely was, and what slipped.
    fn likely(
        &self,
        typed: &TypedLength,
        held_against: Option<Middle>,
    ) -> Option<(WhyDoubtful, TypedLength)> {
        let off = |nm: f64| match held_against {
            Some(Middle::At(middle) | Middle::Belt(middle)) => ratio(nm, middle),
            Some(Middle::AnySplice) | None => 1.0,
        };
        let other = typed.read_as(typed.unit().other());
        let other = other.map(|likely| (WhyDoubtful::OtherUnit, likely));
        // Three and four are thousandths and their tenths, typed as people
        // say them.
        let shifted = [-1, 1, -2, 2, -3, -4]
            .into_iter()
            .filter_map(|places| Some((WhyDoubtful::DecimalPlace, self.shifted(typed, places)?)));
        other
            .into_iter()
            .chain(shifted)
            .filter(|(_, likely)| Self::fits(likely.length().nm_f64(), held_against))
            .min_by(|(_, a), (_, b)| off(a.length().nm_f64()).total_cmp(&off(b.length().nm_f64())))
    }

    /// A reading with its decimal point so many places further right.
    fn shifted(&self, typed: &TypedLength, places: i32) -> Option<TypedLength> {
        let nm = typed.length().nm_f64() * 10_f64.powi(places);
        // Beyond any press; the cast would saturate.
        if !(1.0..1e12).contains(&nm) {
            return None;
        }
        let unit = typed.unit();
        let shown = decimal_text(
            Length::from_nm(nm.round() as i64),
            unit,
            decimals_for_step(self.step, unit),
            Rounding::Nearest,
        );
        TypedLength::parse(&shown, unit, Sign::None).ok()
    }

    /// Which readings are where nuts cannot have moved them.
    fn moved(&self, sound: &[Entry<'_>]) -> Vec<bool> {
        // Another belt end shifts the whole piece; what stations have in
        // common is taken off.
        let changes: Vec<Option<f64>> = sound
            .iter()
            .map(|entry| {
                let before = self.before_nm.get(entry.station).copied().flatten()?;
                Some(entry.nm() - before)
            })
            .collect();
        let Some(common) = median(changes.iter().flatten().copied()) else {
            return Vec::new();
        };
        changes
            .into_iter()
            .map(|change| change.is_some_and(|change| (change - common).abs() > self.moved_nm))
            .collect()
    }

    /// Which readings differ too much from the others of their station.
    fn apart(&self, sound: &[Entry<'_>]) -> Vec<bool> {
        let stations = self.rows.len();
        let at = |station: usize| {
            let own = sound.iter().filter(move |entry| entry.station == station);
            own.map(|entry| entry.reading.typed.length())
                .collect::<Vec<_>>()
        };
        let readings: Vec<Vec<Length>> = (0..stations).map(at).collect();
        sound
            .iter()
            .map(|entry| {
                let own = readings.get(entry.station).map_or(&[][..], Vec::as_slice);
                let Some(apart_nm) = apart_nm(entry.nm(), own) else {
                    return false;
                };
                apart_nm > self.tolerance.nm_f64()
                    && apart_nm > self.allowed_nm(entry.station, &readings, sound.len())
            })
            .collect()
    }

    /// How far a reading may be from the middle of its station by scatter
    /// alone; the scatter is that of the other stations. Two readings are
    /// held against each other.
    fn allowed_nm(&self, station: usize, readings: &[Vec<Length>], all: usize) -> f64 {
        let others = readings
            .iter()
            .enumerate()
            .filter(|(other, _)| *other != station);
        let pooled = Pooled::of(others.filter_map(|(_, own)| Sample::of(own.iter().copied())));
        let scatter = Scatter::of_gauge(self.stated, pooled, self.step.nm_f64());
        let Some(t) = student_critical(ALPHA / all.max(1) as f64, scatter.dof) else {
            return f64::INFINITY;
        };
        let n = readings.get(station).map_or(0, Vec::len) as f64;
        // The scatter holds the rounding.
        t * scatter.sd_nm * (1.0 + 2.0 / n.max(1.0)).sqrt()
    }
}

/// Distance of a reading of a station from the middle of all there, of two
/// from the other; none where it is alone.
fn apart_nm(nm: f64, own: &[Length]) -> Option<f64> {
    let away = |length: &Length| (length.nm_f64() - nm).abs();
    match own {
        [] | [_] => None,
        [one, other] => Some(away(one).max(away(other))),
        own => {
            let middle = median(own.iter().copied().map(Length::nm_f64))?;
            Some((nm - middle).abs())
        }
    }
}
