//! What an earlier visit to the press measured.
//!
//! What a session taught is kept as its evidence, nut positions and station
//! means pass by pass, not as what was concluded from it: learning again can
//! then replace it without doubling anything, the file stays readable, and a
//! better method can conclude again.

use serde::{Deserialize, Serialize};

use crate::codec::{a_line_each, is_usual, on_one_line};
use crate::press::{
    CountOutOfBounds, CountQuantity, LengthOutOfBounds, LengthQuantity, NutPosition,
};
use crate::splice::{Profile, Station, StationPlace};
use crate::units::{Length, TypedLength, holds, maybe_move};

use super::{Counted, KnownScatter, Pass, Session};

/// What one visit measured.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PastVisit {
    /// The id of its session.
    pub session: String,
    /// When it was, as the user wrote it.
    #[serde(default)]
    pub when: String,
    /// Positions of the arms from the jaw's left end, as they were then.
    #[serde(serialize_with = "on_one_line")]
    pub arms: Vec<TypedLength>,
    /// Positions of the stations, from the left.
    #[serde(serialize_with = "on_one_line")]
    pub stations: Vec<TypedLength>,
    /// Step of the gauge.
    pub gauge_step: TypedLength,
    /// Repeatability of the gauge, a standard deviation, where it was known.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub repeatability: Option<TypedLength>,
    /// Scatter from lacing to lacing, a standard deviation, where it was known.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub lacing_scatter: Option<TypedLength>,
    /// Its passes, as found first.
    #[serde(with = "a_line_each")]
    pub passes: Vec<PastPass>,
}

/// One test lacing of an earlier visit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PastPass {
    /// Nut positions from flush, one per arm.
    pub nuts: Vec<NutPosition>,
    /// Move of the common handle since the pass before, as thickness at the
    /// splice, outward positive.
    #[serde(default, skip_serializing_if = "is_usual", with = "maybe_move")]
    pub handle: Option<TypedLength>,
    /// Station means; `None` where nothing was read.
    pub means: Vec<Option<PastMean>>,
}

/// The mean of the readings at a station.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PastMean {
    /// The mean, to the nearest nanometre.
    pub mean: Length,
    /// How many readings it is the mean of; at least one.
    pub repeats: u32,
}

/// Why what stands for an earlier visit cannot be one.
#[derive(Debug, Clone, PartialEq)]
pub enum PastVisitProblem {
    /// A length outside its limits.
    Length(LengthOutOfBounds),
    /// A count outside its limits.
    Count(CountOutOfBounds),
    /// Arms or stations that do not follow each other from the left along a
    /// jaw, far enough apart.
    Positions,
    /// A pass with another number of nuts or means than there are arms or
    /// stations.
    WrongCount {
        /// The pass, from zero.
        pass: usize,
        /// What is counted.
        of: Counted,
        /// How many there should be.
        expected: usize,
        /// How many there are.
        found: usize,
    },
}

holds! {
    PastVisitProblem {
        Length(LengthOutOfBounds),
        Count(CountOutOfBounds),
    }
}

impl PastVisit {
    /// How many of its passes were read.
    pub fn read_passes(&self) -> usize {
        let is_read = |pass: &&PastPass| pass.means.iter().any(Option::is_some);
        self.passes.iter().filter(is_read).count()
    }

    /// Checks everything that learning from it counts on.
    ///
    /// # Errors
    /// The first thing found wrong.
    pub fn check(&self) -> Result<(), PastVisitProblem> {
        CountQuantity::Arms.check(self.arms.len() as i64)?;
        let between = self.stations.len().saturating_sub(self.arms.len());
        CountQuantity::StationsBetween.check(between as i64)?;
        CountQuantity::Passes.check(self.passes.len() as i64)?;
        if !(follow_each_other(&self.arms) && follow_each_other(&self.stations)) {
            return Err(PastVisitProblem::Positions);
        }
        LengthQuantity::GaugeStep.check(self.gauge_step.length())?;
        for scatter in [&self.repeatability, &self.lacing_scatter]
            .into_iter()
            .flatten()
        {
            LengthQuantity::Scatter.check(scatter.length())?;
        }
        let mut passes = self.passes.iter().enumerate();
        passes.try_for_each(|(index, pass)| self.check_pass(index, pass))
    }

    fn check_pass(&self, index: usize, pass: &PastPass) -> Result<(), PastVisitProblem> {
        for (of, expected, found) in [
            (Counted::Nuts, self.arms.len(), pass.nuts.len()),
            (Counted::Stations, self.stations.len(), pass.means.len()),
        ] {
            if expected != found {
                return Err(PastVisitProblem::WrongCount {
                    pass: index,
                    of,
                    expected,
                    found,
                });
            }
        }
        for nut in &pass.nuts {
            CountQuantity::NutPosition.check(nut.0.into())?;
        }
        if let Some(handle) = &pass.handle {
            LengthQuantity::HandleMove.check(handle.length())?;
        }
        for mean in pass.means.iter().flatten() {
            LengthQuantity::Reading.check(mean.mean)?;
            // Nought readings have no mean.
            CountQuantity::Repeats.check(i64::from(mean.repeats))?;
            if mean.repeats == 0 {
                return Err(PastVisitProblem::Count(CountOutOfBounds {
                    quantity: CountQuantity::Repeats,
                    found: 0,
                }));
            }
        }
        Ok(())
    }
}

/// Whether positions rise from the jaw's left end by the smallest gap at
/// least.
fn follow_each_other(positions: &[TypedLength]) -> bool {
    let least_gap = LengthQuantity::ArmGap.bounds().least;
    let jaw = LengthQuantity::JawLength.bounds().most;
    let on_a_jaw = |at: &TypedLength| (Length::ZERO..=jaw).contains(&at.length());
    positions.iter().all(on_a_jaw)
        && positions
            .iter()
            .zip(positions.iter().skip(1))
            .all(|(left, right)| right.length().minus(left.length()) >= least_gap)
}

impl Session {
    /// What this session measured, for later visits to the press; `None`
    /// where nothing was read.
    ///
    /// A single pass says nothing about how the press answers. It is kept all
    /// the same: it says which visit was the last and how the press was found.
    pub fn as_past_visit(&self) -> Option<PastVisit> {
        self.last_read_pass()?;
        let sound = self.sound_profiles(self.passes.len());
        let sd = |known: &KnownScatter| known.sd.clone();
        Some(PastVisit {
            session: self.id.clone(),
            when: self.notes.when.clone(),
            arms: self
                .press
                .arms
                .iter()
                .map(|arm| arm.position.clone())
                .collect(),
            stations: self
                .stations
                .iter()
                .filter_map(|station| self.typed_position(station))
                .collect(),
            gauge_step: self.gauge.step.clone(),
            repeatability: self.gauge.repeatability.as_ref().map(sd),
            lacing_scatter: self.lacing_scatter.as_ref().map(sd),
            passes: self.passes.iter().zip(sound).map(past_pass).collect(),
        })
    }
}

impl Session {
    fn typed_position(&self, station: &Station) -> Option<TypedLength> {
        match &station.place {
            StationPlace::Arm(arm) => Some(self.press.arms.get(arm.0)?.position.clone()),
            StationPlace::Between(position) => Some(position.clone()),
        }
    }
}

fn past_pass((pass, sound): (&Pass, Profile)) -> PastPass {
    let means = sound.means.into_iter().map(|mean| {
        let mean = mean.filter(|_| !pass.nut_lost)?;
        Some(PastMean {
            // Readings are below a metre, so the cast is exact.
            mean: Length::from_nm(mean.mean.nm_f64().round() as i64),
            repeats: u32::try_from(mean.repeats).ok()?,
        })
    });
    PastPass {
        nuts: pass.nuts.clone(),
        handle: pass.handle.clone(),
        means: means.collect(),
    }
}
