//! The press itself.

use serde::{Deserialize, Serialize};

use crate::codec::{a_line_each, is_usual};
use crate::units::{Length, TypedLength, holds};

use super::{
    Arm, ArmIndex, CountOutOfBounds, CountQuantity, JawDrive, LengthOutOfBounds, LengthQuantity,
    NutLimits, NutPosition,
};

/// A lacing press: a jaw on two to twelve arms.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(from = "PressInFile", into = "PressInFile")]
pub struct Press {
    /// What the shop calls it.
    pub name: String,
    /// Length of the jaw.
    pub jaw_length: TypedLength,
    /// The arms from the operator's left.
    pub arms: Vec<Arm>,
    /// Movement of a nut along its rod per notch, where it was measured. It
    /// is what the jaw opening loses; the splice answers with less.
    pub nut_travel: Option<TypedLength>,
    /// What drives the moving jaw.
    pub drive: JawDrive,
    /// Whether rods and nuts have left-hand threads; none until somebody looked at
    /// them on the press.
    pub left_hand_thread: Option<bool>,
}

/// A press as it stands in a file, its drive field by field.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PressInFile {
    #[serde(default)]
    name: String,
    jaw_length: TypedLength,
    #[serde(default, skip_serializing_if = "is_usual")]
    nut_travel: Option<TypedLength>,
    /// Read, never written: in its place stand `drive_parts`.
    #[serde(default, skip_serializing)]
    idler_sprockets: Option<u32>,
    /// Read, never written: in its place stand `drive_parts`.
    #[serde(default, skip_serializing)]
    short_chains: Option<bool>,
    #[serde(default, skip_serializing_if = "is_usual")]
    drive_parts: String,
    #[serde(default, skip_serializing_if = "is_usual")]
    drive_parts_before: String,
    #[serde(default, skip_serializing_if = "is_usual")]
    left_hand_thread: Option<bool>,
    #[serde(with = "a_line_each")]
    arms: Vec<Arm>,
}

impl From<Press> for PressInFile {
    fn from(press: Press) -> Self {
        Self {
            name: press.name,
            jaw_length: press.jaw_length,
            nut_travel: press.nut_travel,
            idler_sprockets: None,
            short_chains: None,
            drive_parts: press.drive.parts,
            drive_parts_before: press.drive.parts_before,
            left_hand_thread: press.left_hand_thread,
            arms: press.arms,
        }
    }
}

impl From<PressInFile> for Press {
    fn from(file: PressInFile) -> Self {
        // Files of before had a count and an answer; they become words, so that
        // nothing noted is lost.
        let idlers = file
            .idler_sprockets
            .map(|count| format!("idler sprockets: {count}"));
        let short_chains = file.short_chains.map(|fitted| {
            let fitted = if fitted { "fitted" } else { "none" };
            format!("short chains: {fitted}")
        });
        let noted = Some(file.drive_parts).filter(|parts| !parts.is_empty());
        let parts: Vec<String> = [noted, idlers, short_chains]
            .into_iter()
            .flatten()
            .collect();
        Self {
            name: file.name,
            jaw_length: file.jaw_length,
            arms: file.arms,
            nut_travel: file.nut_travel,
            drive: JawDrive {
                parts: parts.join("; "),
                parts_before: file.drive_parts_before,
            },
            left_hand_thread: file.left_hand_thread,
        }
    }
}

/// Why a press cannot be as it was described.
#[derive(Debug, Clone, PartialEq)]
pub enum PressProblem {
    /// A length outside its limits.
    Length(LengthOutOfBounds),
    /// A count outside its limits.
    Count(CountOutOfBounds),
    /// A length of one arm outside its limits.
    ArmLength(ArmIndex, LengthOutOfBounds),
    /// An arm outside the jaw: its position and the jaw's length.
    ArmOutsideJaw(ArmIndex, Length, Length),
    /// An arm that does not stand to the right of the one before it by at
    /// least the smallest gap: its position and that of its neighbour.
    ArmsOutOfOrder(ArmIndex, Length, Length),
    /// Nut limits that leave no position: furthest in and furthest out.
    LimitsCrossed(ArmIndex, NutPosition, NutPosition),
}

holds! {
    PressProblem {
        Length(LengthOutOfBounds),
        Count(CountOutOfBounds),
    }
}

impl Press {
    /// A press of which nothing else is known yet.
    pub fn new(
        name: impl Into<String>,
        jaw_length: TypedLength,
        arms: impl IntoIterator<Item = Arm>,
    ) -> Self {
        Self {
            name: name.into(),
            jaw_length,
            arms: arms.into_iter().collect(),
            nut_travel: None,
            drive: JawDrive::default(),
            left_hand_thread: None,
        }
    }

    /// Checks everything about the press that the rest of the program counts
    /// on: 2 to 12 arms in order, inside the jaw, with sound lengths and
    /// limits.
    ///
    /// # Errors
    /// The first thing found wrong, from left to right.
    pub fn check(&self) -> Result<(), PressProblem> {
        let jaw = LengthQuantity::JawLength.check(self.jaw_length.length())?;
        CountQuantity::Arms.check(self.arms.len() as i64)?;
        if let Some(travel) = &self.nut_travel {
            LengthQuantity::NutTravel.check(travel.length())?;
        }
        let mut before: Option<Length> = None;
        for (arm, index) in self.arms.iter().zip((0..).map(ArmIndex)) {
            arm.check(index, jaw)?;
            let position = arm.position.length();
            if let Some(left) = before
                && position.minus(left) < LengthQuantity::ArmGap.bounds().least
            {
                return Err(PressProblem::ArmsOutOfOrder(index, position, left));
            }
            before = Some(position);
        }
        Ok(())
    }

    /// Positions of the arms from the jaw's left end.
    pub fn arm_positions(&self) -> Vec<Length> {
        self.arms.iter().map(|arm| arm.position.length()).collect()
    }

    /// The same in nanometres.
    pub fn arm_positions_nm(&self) -> Vec<f64> {
        self.arm_positions()
            .into_iter()
            .map(Length::nm_f64)
            .collect()
    }

    /// Mean distance of neighbouring arms, in nanometres; none without arms.
    pub fn arm_spacing_nm(&self) -> Option<f64> {
        let positions = self.arm_positions_nm();
        let gaps = positions.len().saturating_sub(1).max(1) as f64;
        let (first, last) = positions.first().zip(positions.last())?;
        Some((last - first) / gaps)
    }

    /// The notch effect at each arm, in nanometres.
    pub fn notch_effects_nm(&self) -> Vec<f64> {
        let effects = self.arms.iter().map(|arm| arm.notch_effect.length());
        effects.map(Length::nm_f64).collect()
    }

    /// The movement of a nut per notch that the opening is reckoned with: the
    /// measured one, or the arm's notch effect where none was measured.
    pub fn travel_per_notch(&self, arm: &Arm) -> Length {
        self.nut_travel
            .as_ref()
            .unwrap_or(&arm.notch_effect)
            .length()
    }

    /// What is left of the opening margin at an arm whose nut started at one
    /// position and stands at another: inward the opening loses the nut's whole
    /// movement. Negative where the jaw would open too little; `None` where no
    /// margin was measured.
    pub fn margin_left(
        &self,
        arm: &Arm,
        start: NutPosition,
        stands: NutPosition,
    ) -> Option<Length> {
        let margin = arm.opening_margin.as_ref()?.length();
        let inward = i64::from((start - stands).0.max(0));
        let travel = self.travel_per_notch(arm).nm();
        Some(margin.minus(Length::from_nm(travel.saturating_mul(inward))))
    }

    /// The arms with their indices.
    pub fn indexed_arms(&self) -> impl Iterator<Item = (ArmIndex, &Arm)> {
        self.arms
            .iter()
            .enumerate()
            .map(|(index, arm)| (ArmIndex(index), arm))
    }
}

impl Arm {
    /// Where the nut may stand: within its limits or, without any, wherever a
    /// nut position may be.
    pub fn may_stand(&self) -> NutLimits {
        let anywhere = CountQuantity::NutPosition.bounds();
        self.limits.unwrap_or(NutLimits {
            most_in: NutPosition(anywhere.least as i32),
            most_out: NutPosition(anywhere.most as i32),
        })
    }

    fn check(&self, index: ArmIndex, jaw: Length) -> Result<(), PressProblem> {
        let position = self.position.length();
        if position < Length::ZERO || position > jaw {
            return Err(PressProblem::ArmOutsideJaw(index, position, jaw));
        }
        let in_arm = |problem| PressProblem::ArmLength(index, problem);
        LengthQuantity::NotchEffect
            .check(self.notch_effect.length())
            .map_err(in_arm)?;
        if let Some(margin) = &self.opening_margin {
            LengthQuantity::OpeningMargin
                .check(margin.length())
                .map_err(in_arm)?;
        }
        if let Some(limits) = self.limits {
            for end in [limits.most_in, limits.most_out] {
                CountQuantity::NutPosition.check(end.0.into())?;
            }
            if limits.most_in > limits.most_out {
                return Err(PressProblem::LimitsCrossed(
                    index,
                    limits.most_in,
                    limits.most_out,
                ));
            }
        }
        Ok(())
    }
}
