//! What the work costs, in minutes as a shop counts them.

use core::fmt;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::codec::as_text;
use crate::press::Bounds;
use crate::units::listed;

/// A time, in tenths of a minute.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Minutes(u16);

impl Minutes {
    /// From whole minutes or a decimal fraction as typed, a decimal comma
    /// allowed, rounded to tenths; `None` for what is no time.
    pub fn parse(text: &str) -> Option<Self> {
        let minutes: f64 = text.trim().replace(',', ".").parse().ok()?;
        let tenths = (minutes * 10.0).round();
        // A whole number that fits, so the cast is exact.
        (0.0..=f64::from(u16::MAX))
            .contains(&tenths)
            .then_some(Self(tenths as u16))
    }

    /// As minutes.
    pub fn value(self) -> f64 {
        f64::from(self.0) / 10.0
    }
}

/// The number without a mark: `20` or `0.5`.
impl fmt::Display for Minutes {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 % 10 {
            0 => write!(f, "{}", self.0 / 10),
            tenth => write!(f, "{}.{tenth}", self.0 / 10),
        }
    }
}

as_text!(
    Minutes,
    Name,
    |minutes| format_args!("{minutes} min"),
    |text| { Self::parse(text.trim().trim_end_matches("min")) }
);

listed! {
    /// What takes time.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
    pub enum Chore {
        /// Lacing and measuring a test piece.
        Piece,
        /// Turning a nut.
        Nut,
        /// Turning a nut in, on top of turning it: a nut far in keeps the jaws from
        /// opening enough to take the retainer out.
        Inward,
        /// Measuring the last piece again.
        Measuring,
    }
}

impl Chore {
    /// What the trade reckons with (common practice, no source), and the least
    /// and most a shop may set. They keep slips of the keyboard out; what a
    /// piece or a measuring costs is never nothing.
    const fn row(self) -> (u16, u16, u16) {
        match self {
            Self::Piece => (200, 10, 6_000),
            Self::Nut => (10, 0, 600),
            Self::Inward => (10, 0, 600),
            Self::Measuring => (20, 1, 600),
        }
    }

    /// What the trade reckons with.
    pub const fn customary(self) -> Minutes {
        Minutes(self.row().0)
    }

    /// The least and most a shop may set.
    pub const fn bounds(self) -> Bounds<Minutes> {
        let (_, least, most) = self.row();
        Bounds {
            least: Minutes(least),
            most: Minutes(most),
        }
    }
}

/// What the shop reckons the work at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields, default)]
pub struct Effort {
    /// Lacing and measuring a test piece.
    pub piece: Minutes,
    /// Turning a nut.
    pub nut: Minutes,
    /// Turning a nut in, on top of that.
    pub inward: Minutes,
    /// Measuring the last piece again.
    pub measuring: Minutes,
}

impl Default for Effort {
    fn default() -> Self {
        Self {
            piece: Chore::Piece.customary(),
            nut: Chore::Nut.customary(),
            inward: Chore::Inward.customary(),
            measuring: Chore::Measuring.customary(),
        }
    }
}

impl Serialize for Effort {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Self::serialize(self, serializer)
    }
}

/// What is outside its bounds is as the trade has it: a file written by hand
/// cannot make a plan that never ends.
impl<'de> Deserialize<'de> for Effort {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let written = Self::deserialize(deserializer)?;
        let mut effort = Self::default();
        for chore in Chore::ALL {
            let _ = effort.set(chore, written.of(chore));
        }
        Ok(effort)
    }
}

impl Effort {
    /// What one task is reckoned at.
    pub fn of(&self, task: Chore) -> Minutes {
        match task {
            Chore::Piece => self.piece,
            Chore::Nut => self.nut,
            Chore::Inward => self.inward,
            Chore::Measuring => self.measuring,
        }
    }

    /// Reckons one task at so much. Answers whether that is within its bounds;
    /// otherwise nothing changes.
    #[must_use]
    pub fn set(&mut self, task: Chore, minutes: Minutes) -> bool {
        let allowed = task.bounds().hold(minutes);
        if allowed {
            *match task {
                Chore::Piece => &mut self.piece,
                Chore::Nut => &mut self.nut,
                Chore::Inward => &mut self.inward,
                Chore::Measuring => &mut self.measuring,
            } = minutes;
        }
        allowed
    }

    /// Minutes that turns take.
    pub fn of_turns(&self, turns: &[i32]) -> f64 {
        let one = |turn: &i32| match turn {
            0 => 0.0,
            ..0 => self.nut.value() + self.inward.value(),
            _ => self.nut.value(),
        };
        turns.iter().map(one).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn minutes_are_read_and_written() {
        for (text, written) in [("20", "20"), (" 0,5", "0.5"), ("2.04", "2"), ("0", "0")] {
            assert_eq!(
                Minutes::parse(text).map(|m| m.to_string()),
                Some(written.into())
            );
        }
        for text in ["", "-1", "7000", "NaN", "inf", "soon"] {
            assert_eq!(Minutes::parse(text), None, "{text}");
        }
    }

    #[test]
    fn turns_take_a_minute_a_nut_and_one_more_inward() {
        let effort = Effort::default();
        assert_eq!(effort.of_turns(&[0, 3, -1, 1]), 1.0 + 2.0 + 1.0);
        for task in Chore::ALL {
            assert!(task.bounds().hold(effort.of(task)), "{task:?}");
        }
        let mut effort = effort;
        assert!(!effort.set(Chore::Piece, Minutes(0)));
        assert!(effort.set(Chore::Nut, Minutes(25)));
        assert_eq!(effort.of_turns(&[2, 0, -3]), 2.5 + 3.5);
    }
}
