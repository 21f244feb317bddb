//! Fields that are set from what was typed.

use crate::plan::Minutes;
use crate::session::{Confidence, EditProblem, Field, IsoDate, KnownScatter, Session};
use crate::units::{Sign, TypedLength, Unit};

impl Session {
    pub(super) fn set(&mut self, field: Field, text: &str, bare: Unit) -> Result<(), EditProblem> {
        let text = text.trim();
        let length = || {
            TypedLength::parse(text, bare, Sign::None)
                .map_err(|problem| EditProblem::Length(field, problem))
        };
        let optional = || {
            if text.is_empty() {
                Ok(None)
            } else {
                length().map(Some)
            }
        };
        let known = |sd| KnownScatter { sd, dof: None };
        match field {
            Field::PressName => text.clone_into(&mut self.press.name),
            Field::JawLength => self.press.jaw_length = length()?,
            Field::ArmPosition(arm) => {
                let position = length()?;
                self.arm_mut(arm)?.position = position;
                self.sort_stations();
            }
            Field::NotchEffect(arm) => self.arm_mut(arm)?.notch_effect = length()?,
            Field::NotchEffectOfAll => {
                let effect = length()?;
                for arm in &mut self.press.arms {
                    arm.notch_effect = effect.clone();
                }
            }
            Field::OpeningMargin(arm) => self.arm_mut(arm)?.opening_margin = optional()?,
            Field::NutTravel => self.press.nut_travel = optional()?,
            Field::Tolerance => self.tolerance = length()?,
            Field::GaugeName => self.gauge.call(text),
            Field::GaugeStep => self.gauge.step = length()?,
            Field::GaugeLimit => self.gauge.limit_of_error = optional()?,
            Field::GaugeRepeatability => self.gauge.repeatability = optional()?.map(known),
            Field::LacingScatter => self.lacing_scatter = optional()?.map(known),
            Field::CalibrationDue => {
                self.gauge.calibration_due = if text.is_empty() {
                    None
                } else {
                    Some(IsoDate::parse(text).map_err(EditProblem::Date)?)
                };
            }
            Field::Target => self.target = optional()?,
            Field::Confidence => {
                self.acceptance.confidence = if text.is_empty() {
                    Confidence::default()
                } else {
                    Confidence::parse(text)
                        .ok_or_else(|| EditProblem::Confidence(text.to_owned()))?
                };
            }
            Field::Effort(chore) => {
                let minutes = if text.is_empty() {
                    Some(chore.customary())
                } else {
                    Minutes::parse(text)
                };
                if !minutes.is_some_and(|minutes| self.effort.set(chore, minutes)) {
                    return Err(EditProblem::Minutes(chore, text.to_owned()));
                }
            }
            Field::CoarseGap(arm) => {
                let gap = optional()?;
                self.arm_mut(arm)?;
                self.set_coarse_gap(arm, gap);
            }
            Field::DriveParts => text.clone_into(&mut self.press.drive.parts),
            Field::Who => text.clone_into(&mut self.notes.who),
            Field::When => text.clone_into(&mut self.notes.when),
            Field::Belt => text.clone_into(&mut self.notes.belt),
            Field::Hooks => text.clone_into(&mut self.notes.hooks),
            Field::Notes => text.clone_into(&mut self.notes.notes),
            Field::Repaired => text.clone_into(&mut self.notes.repaired),
        }
        Ok(())
    }
}
