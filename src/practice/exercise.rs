//! An exercise: which press, which help. The same exercise gives the same
//! press on every machine.

use crate::plan::PlanError;
use crate::press::{JawError, LengthOutOfBounds, LengthQuantity};
use crate::stats::{Draws, Purpose};
use crate::units::{Length, TypedLength, Unit};

use super::fault::{Fault, Help, Level, NutStart};

/// Fewest and most arms of a press to practice on.
pub const PRACTICE_ARMS: core::ops::RangeInclusive<usize> = 2..=8;

/// An exercise, drawn by its number or set down by a trainer.
#[derive(Debug, Clone, PartialEq)]
pub struct Exercise {
    /// Its number, from 1: what is not set down otherwise follows from it.
    pub number: u64,
    /// What is wrong with the press.
    pub fault: Fault,
    /// How hard it is.
    pub level: Level,
    /// Number of arms.
    pub arms: usize,
    /// Unit of its gauge, its tolerance and its lengths.
    pub unit: Unit,
    /// When advice may be seen.
    pub help: Help,
    /// Where its nuts stand as it begins.
    pub nuts: NutStart,
    /// What a trainer calls it.
    pub title: String,
    /// What a trainer tells those who do it.
    pub note: String,
    /// The splice at each arm as a trainer sets it down, besides the fault:
    /// readings, or how far each arm is off; empty where it is drawn.
    pub profile: Vec<TypedLength>,
}

/// Why an exercise cannot be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ExerciseProblem {
    /// A number of arms outside [`PRACTICE_ARMS`].
    Arms(usize),
    /// A profile that has not one length per arm: arms and lengths.
    Profile(usize, usize),
    /// A length of the profile that makes the splice no splice.
    Length(LengthOutOfBounds),
    /// The number is 0.
    Number,
    /// Arms that make no jaw.
    Jaw,
}

impl From<PlanError> for ExerciseProblem {
    fn from(_: PlanError) -> Self {
        Self::Jaw
    }
}

impl From<JawError> for ExerciseProblem {
    fn from(_: JawError) -> Self {
        Self::Jaw
    }
}

impl From<LengthOutOfBounds> for ExerciseProblem {
    fn from(problem: LengthOutOfBounds) -> Self {
        Self::Length(problem)
    }
}

/// A profile all of whose lengths are longer is one of readings, not of how far
/// arms are off: ten notches.
const MOST_OFF: Length = Length::from_nm(1_016_000);

/// Thickness of a splice that is as it should be: 1/4 in.
pub(super) const USUAL_NM: f64 = 6_350_000.0;

/// What is drawn for an exercise, told apart from pieces and readings.
#[derive(Debug, Clone, Copy)]
pub(super) enum Drawn {
    /// Fault, level and arms of a number.
    Kind,
    /// Where the arms stand.
    Places,
    /// Everything else of the press.
    Press,
}

impl Exercise {
    /// The exercise of a number: the first thirteen are easy and go through the
    /// faults, the next thirteen are harder, all others are hard.
    pub fn of_number(number: u64, unit: Unit) -> Self {
        let kinds = Fault::ALL.len() as u64;
        let level = match number.saturating_sub(1) / kinds {
            0 => Level::Easy,
            1 => Level::Middling,
            _ => Level::Hard,
        };
        let mut draws = Draws::new(Purpose::Practice([number, u64::MAX, Drawn::Kind as u64]));
        let arms = match level {
            Level::Easy => 3 + draws.below(2),
            Level::Middling => 2 + draws.below(5),
            Level::Hard => 4 + draws.below(5),
        };
        let fault = usize::try_from(number % kinds).unwrap_or_default();
        Self {
            number,
            fault: Fault::ALL.get(fault).copied().unwrap_or_default(),
            level,
            arms,
            unit,
            help: Help::default(),
            nuts: NutStart::default(),
            title: String::new(),
            note: String::new(),
            profile: Vec::new(),
        }
    }

    /// The one after it: of the next number, and of the kind set down where that
    /// is not the number's own. The same press for whoever set the press down.
    #[must_use]
    pub fn next(&self) -> Self {
        let number = self.number.saturating_add(1);
        let drawn = Self::of_number(self.number, self.unit);
        let own = (drawn.fault, drawn.level, drawn.arms) == (self.fault, self.level, self.arms);
        let next = match own {
            true => Self::of_number(number, self.unit),
            false => self.clone(),
        };
        Self {
            number,
            help: self.help,
            title: String::new(),
            note: String::new(),
            ..next
        }
    }

    /// The same on a press that a trainer sets down: it has its own arms, and
    /// nothing else is wrong with it unless that is said. Without lengths it
    /// stays as it is.
    #[must_use]
    pub fn on_press(self, profile: Vec<TypedLength>) -> Self {
        if profile.is_empty() {
            return self;
        }
        Self {
            arms: profile.len(),
            fault: Fault::Everyday,
            profile,
            ..self
        }
    }

    /// Checks what the press is made from.
    ///
    /// # Errors
    /// The first thing found wrong.
    pub fn check(&self) -> Result<(), ExerciseProblem> {
        if self.number == 0 {
            return Err(ExerciseProblem::Number);
        }
        if !PRACTICE_ARMS.contains(&self.arms) {
            return Err(ExerciseProblem::Arms(self.arms));
        }
        if !self.profile.is_empty() && self.profile.len() != self.arms {
            return Err(ExerciseProblem::Profile(self.arms, self.profile.len()));
        }
        for set_down in &self.profile {
            let thick = self.level().plus(set_down.length());
            LengthQuantity::Reading.check(thick)?;
        }
        Ok(())
    }

    /// What is added to the lengths of the profile: nothing to readings, the
    /// usual thickness where they say how far each arm is off.
    fn level(&self) -> Length {
        let readings = |set_down: &TypedLength| set_down.length() > MOST_OFF;
        if self.profile.iter().all(readings) {
            Length::ZERO
        } else {
            Length::from_nm(USUAL_NM as i64)
        }
    }

    /// Thickness at each arm as a trainer sets it down; none where it is drawn.
    pub(super) fn set_down_nm(&self) -> Option<Vec<f64>> {
        let level = self.level();
        let thick = self.profile.iter();
        let thick = thick.map(|set_down| level.plus(set_down.length()).nm_f64());
        (!self.profile.is_empty()).then(|| thick.collect())
    }

    pub(super) fn draws(&self, what: Drawn) -> Draws {
        let kind = Fault::ALL.iter().position(|fault| *fault == self.fault);
        let kind = kind.unwrap_or_default() as u64;
        let what = (what as u64) << 16 | kind << 8 | (self.level as u64) << 4 | self.arms as u64;
        Draws::new(Purpose::Practice([self.number, u64::MAX, what]))
    }

    /// A length of about so many arm distances, whole eighths of an inch or
    /// whole fives of a millimetre.
    pub(super) fn places(&self) -> (Length, Vec<Length>) {
        let mut draws = self.draws(Drawn::Places);
        let (mark, spacing, overhang) = match self.unit {
            Unit::Inch => (3_175_000, 96.0, 40),
            Unit::Millimetre => (5_000_000, 60.0, 25),
        };
        let uneven = self.fault == Fault::Everyday || self.level != Level::Easy;
        let mut at: i64 = overhang;
        let mut places = vec![Length::from_nm(at * mark)];
        for _ in 1..self.arms {
            let share = if uneven {
                draws.between(0.8, 1.25)
            } else {
                1.0
            };
            at += (spacing * share).round() as i64;
            places.push(Length::from_nm(at * mark));
        }
        (Length::from_nm((at + overhang) * mark), places)
    }

    /// The layout of jaw, arms and stations in nanometres: both ends, arms,
    /// stations.
    pub(super) fn layout_nm(&self) -> (f64, Vec<f64>, Vec<f64>) {
        let (jaw, places) = self.places();
        let arms: Vec<f64> = places.iter().map(|place| place.nm_f64()).collect();
        let mut stations = Vec::new();
        for (index, at) in places.iter().enumerate() {
            stations.push(at.nm_f64());
            if self.fault == Fault::WornStretch
                && let Some(next) = places.get(index + 1)
            {
                stations.push((at.nm() + next.minus(*at).nm() / 2) as f64);
            }
        }
        (jaw.nm_f64(), arms, stations)
    }
}
