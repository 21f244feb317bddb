//! What stands between the readings of a pass and a judgement. Verdict,
//! chance, plan, headline, buttons, crew view and text all ask here, and none
//! decides for itself.

use serde::{Deserialize, Serialize};

use crate::splice::{
    Band, Cell, Doubtful, Kept, PieceCheck, Profile, Reading, Spread, StationMean, WhyDoubtful,
    doubtful,
};
use crate::stats::median;
use crate::units::{ExactLength, Length, Unit};

use super::{EditProblem, Pass, Session};

/// What is missing or doubtful in a pass, and what can be said of it already.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Gate {
    /// The pass; none where nothing was laced.
    pub pass: Option<usize>,
    /// Counting stations that are not read, as indices.
    pub missing: Vec<usize>,
    /// Readings that need a second look, unreadable cells among them, by
    /// station and repeat.
    pub doubtful: Vec<Doubtful>,
    /// The spread over the counting stations that were read and hold nothing
    /// doubtful; none where there are fewer than two.
    pub spread: Option<Spread>,
    /// How the piece stands.
    pub stands: Stands,
}

/// How a piece stands by the plain comparison, as far as it can be said.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Stands {
    /// There is no piece.
    #[default]
    NotLaced,
    /// Nothing was read.
    Unread,
    /// It may be inside or outside: something is missing or doubtful.
    Open,
    /// Outside: what was read and is not doubtful shows it.
    Outside,
    /// Inside: every counting station was read and nothing is doubtful.
    Inside,
}

impl Gate {
    /// Whether nothing is missing and nothing doubtful, so that the piece can
    /// be judged and planned for.
    pub fn is_clear(&self) -> bool {
        matches!(self.stands, Stands::Outside | Stands::Inside)
            && self.missing.is_empty()
            && self.doubtful.is_empty()
    }

    /// The doubt about a reading, if there is one.
    pub fn doubt_at(&self, station: usize, repeat: usize) -> Option<&Doubtful> {
        let at = (station, repeat);
        let mut doubts = self.doubtful.iter();
        doubts.find(|doubt| (doubt.station, doubt.repeat) == at)
    }

    /// The unit in which the whole piece was meant, where every one of its
    /// doubtful readings, two or more, looks typed in the other one.
    pub fn whole_piece_unit(&self) -> Option<Unit> {
        let mut likely = self.doubtful.iter().map(|doubt| match doubt.why {
            WhyDoubtful::OtherUnit => doubt.likely.as_ref().map(|likely| likely.unit()),
            _ => None,
        });
        let unit = likely.next()??;
        let alike = likely.all(|other| other == Some(unit));
        (alike && self.doubtful.len() > 1).then_some(unit)
    }
}

/// How far a station may be from where it was in the piece before, against
/// the middle of the piece, when no nut was turned: 0.015 in, many times what
/// lacings and belt ends scatter. Our reading of common practice, no source.
const FAR_FROM_BEFORE_NM: f64 = 381_000.0;

/// How much more than its notch effect a turn may move a station.
const MORE_THAN_EXPECTED: f64 = 1.5;

/// Earlier pieces of the visit that say how thick a splice is.
const EARLIER_PIECES: usize = 5;

impl Session {
    /// What stands between the readings of a pass and a judgement.
    pub fn gate(&self, pass: usize) -> Gate {
        let Some(laced) = self.passes.get(pass) else {
            return Gate::default();
        };
        let doubtful = self.doubts_through(pass).pop().unwrap_or_default();
        let read = laced.profile();
        let missing: Vec<usize> = self
            .counting()
            .filter(|station| read.mean(*station).is_none())
            .filter(|station| !doubtful.iter().any(|doubt| doubt.station == *station))
            .collect();
        let spread = Spread::of(&self.stations, &without(laced, &doubtful));
        let tolerance: ExactLength = self.tolerance.length().into();
        let outside = spread
            .as_ref()
            .is_some_and(|spread| spread.value > tolerance);
        let stands = if outside {
            Stands::Outside
        } else if !doubtful.is_empty() {
            Stands::Open
        } else if !laced.has_readings() {
            Stands::Unread
        } else if missing.is_empty() && spread.is_some() {
            Stands::Inside
        } else {
            Stands::Open
        };
        Gate {
            pass: Some(pass),
            missing,
            doubtful,
            spread,
            stands,
        }
    }

    /// Where the floating tolerance band is laid over a profile (nm), by its
    /// counting stations: see [`Band::over`]. Every picture of a piece, and
    /// every word about which arms of it are outside, asks here.
    pub fn band_over(&self, means_nm: &[Option<f64>]) -> Option<Band> {
        Band::over(
            &self.counting_of(means_nm),
            self.tolerance.length().nm_f64(),
        )
    }

    /// What is known of some means at stations that count.
    fn counting_of(&self, means_nm: &[Option<f64>]) -> Vec<f64> {
        let stations = means_nm.iter().zip(&self.stations);
        let counting = stations.filter(|(_, station)| station.counts);
        counting.filter_map(|(mean, _)| *mean).collect()
    }

    /// The same over a piece and the one that is expected after it: one band where it
    /// can hold both, so that pictures side by side have the same.
    pub fn bands_over(
        &self,
        means_nm: &[Option<f64>],
        after_nm: &[Option<f64>],
    ) -> [Option<Band>; 2] {
        let band = self.band_over(means_nm);
        let [now, after] = [means_nm, after_nm].map(|means| self.counting_of(means));
        let one = band.and_then(|band| band.holding(&now, &after));
        match one {
            Some(one) => [Some(one); 2],
            None => [band, self.band_over(after_nm)],
        }
    }

    /// The same of the last pass.
    pub fn last_gate(&self) -> Gate {
        self.gate(self.passes.len().saturating_sub(1))
    }

    /// The station means of a pass, without the stations at which something
    /// is doubtful.
    pub fn sound_profile(&self, pass: usize) -> Profile {
        let doubts = self.doubts_through(pass).pop();
        self.passes
            .get(pass)
            .zip(doubts)
            .map_or_else(Profile::default, |(laced, doubts)| without(laced, &doubts))
    }

    /// The same of every pass up to and including one.
    pub fn sound_profiles(&self, pass: usize) -> Vec<Profile> {
        self.passes
            .iter()
            .zip(self.doubts_through(pass))
            .map(|(laced, doubts)| without(laced, &doubts))
            .collect()
    }

    /// What is doubtful in every pass up to and including one.
    fn doubts_through(&self, pass: usize) -> Vec<Vec<Doubtful>> {
        let nothing = vec![None; self.stations.len()];
        let mut before: (Vec<Option<f64>>, Option<usize>) = (nothing, None);
        let mut middles: Vec<f64> = Vec::new();
        let mut found = Vec::new();
        for (index, laced) in self.passes.iter().enumerate().take(pass.saturating_add(1)) {
            let usual = middles.iter().rev().take(EARLIER_PIECES).copied();
            let target = self.target.as_ref().map(|target| target.length().nm_f64());
            let doubts = doubtful(&PieceCheck {
                rows: &laced.rows,
                bare: self.unit,
                usual_nm: median(usual).or(target),
                belt_nm: median(lengths_nm(&laced.bare_belt)),
                before_nm: &before.0,
                moved_nm: self.may_have_moved_nm(before.1, index),
                stated: self.gauge.stated_scatter(),
                step: self.gauge.step.length(),
                tolerance: self.tolerance.length(),
            });
            let sound = without(laced, &doubts);
            let means_nm = |mean: &StationMean| mean.mean.nm_f64();
            let means: Vec<Option<f64>> = sound
                .means
                .iter()
                .map(|mean| mean.as_ref().map(means_nm))
                .collect();
            if let Some(middle) = median(means.iter().flatten().copied()) {
                middles.push(middle);
                before = (means, Some(index));
            }
            found.push(doubts);
        }
        found
    }

    /// How far a station may have moved against its piece between two passes.
    fn may_have_moved_nm(&self, from: Option<usize>, to: usize) -> f64 {
        let Some(from) = from else {
            return f64::INFINITY;
        };
        let mut ends = [from, to].into_iter();
        if ends.any(|end| self.passes.get(end).is_some_and(|pass| pass.nut_lost)) {
            return f64::INFINITY;
        }
        let moves = self
            .nuts_at(to)
            .iter()
            .zip(self.nuts_at(from))
            .zip(self.press.notch_effects_nm())
            .map(|((to, from), effect)| f64::from((*to - *from).0) * effect);
        let (least, most) = moves.fold((0.0_f64, 0.0_f64), |(least, most), moved| {
            (least.min(moved), most.max(moved))
        });
        FAR_FROM_BEFORE_NM + MORE_THAN_EXPECTED * (most - least)
    }

    /// Replaces doubtful readings by what they likely were meant to be.
    pub(super) fn take_likely(
        &mut self,
        pass: usize,
        readings: &[(usize, usize)],
    ) -> Result<(), EditProblem> {
        let gate = self.gate(pass);
        for &(station, repeat) in readings {
            let likely = gate
                .doubt_at(station, repeat)
                .and_then(|doubt| doubt.likely.clone());
            let typed = likely.ok_or(EditProblem::NothingThere)?;
            match self.cell_mut(pass, station, repeat)? {
                Cell::Reading(reading) => reading.typed = typed,
                cell => *cell = Cell::Reading(Reading::new(typed)),
            }
        }
        Ok(())
    }

    /// Keeps doubtful readings as right; the doubt stays with them.
    pub(super) fn keep_doubtful(
        &mut self,
        pass: usize,
        readings: &[(usize, usize)],
        by: &str,
    ) -> Result<(), EditProblem> {
        let gate = self.gate(pass);
        for &(station, repeat) in readings {
            let doubt = gate
                .doubt_at(station, repeat)
                .ok_or(EditProblem::NothingThere)?;
            match self.cell_mut(pass, station, repeat)? {
                Cell::Reading(reading) => {
                    reading.kept = Some(Kept {
                        by: by.trim().to_owned(),
                        doubt: doubt.why,
                    });
                }
                _ => return Err(EditProblem::NothingThere),
            }
        }
        Ok(())
    }
}

/// The profile of a pass without the stations at which something is doubtful.
fn without(laced: &Pass, doubts: &[Doubtful]) -> Profile {
    let mut profile = laced.profile();
    for doubt in doubts {
        if let Some(mean) = profile.means.get_mut(doubt.station) {
            *mean = None;
        }
    }
    profile
}

fn lengths_nm(cells: &[Cell]) -> impl Iterator<Item = f64> + '_ {
    let counting = cells.iter().filter_map(Cell::counting);
    counting.map(|reading| Length::nm_f64(reading.typed.length()))
}
