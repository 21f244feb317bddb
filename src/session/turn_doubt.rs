//! What is better cleared up before nuts are turned by what was read: asked by
//! everybody who offers turns.

use crate::press::ArmIndex;
use crate::splice::{GaugeFitness, GaugeShare, Pattern, Shape};
use crate::units::Length;

use super::{Session, Stage};

/// Why turns are not yet to be chosen by these readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum TurnDoubt {
    /// The readings of a station lie far apart.
    Repeats {
        /// The station.
        station: usize,
        /// By how much.
        by: Length,
    },
    /// Nobody chose a gauge, and the one it is reckoned with is too coarse.
    NoGauge,
    /// The gauge uses up too much of the tolerance.
    Coarse(GaugeShare),
    /// The piece has a step, which the jaw drive can make, and nobody looked at
    /// the drive this visit.
    Drive {
        /// The arms on either side of the step.
        between: (ArmIndex, ArmIndex),
    },
}

impl TurnDoubt {
    /// Whether measuring clears it up.
    pub fn is_of_readings(&self) -> bool {
        !matches!(self, Self::Drive { .. })
    }
}

impl Session {
    /// The same of the gauge alone.
    pub fn gauge_doubt(&self) -> Option<TurnDoubt> {
        let share = self.gauge_share()?;
        match share.fitness {
            GaugeFitness::TooCoarse if self.gauge.is_chosen() => Some(TurnDoubt::Coarse(share)),
            GaugeFitness::TooCoarse => Some(TurnDoubt::NoGauge),
            GaugeFitness::Serves | GaugeFitness::MayDo => None,
        }
    }

    /// What is doubtful about turns after a pass of this shape. One more reading
    /// costs less than another gauge, a gauge less than opening the drive.
    pub fn turn_doubt(&self, pass: usize, shape: &Shape) -> Option<TurnDoubt> {
        let repeats = self.repeats_apart(pass);
        let repeats = repeats.map(|(station, by)| TurnDoubt::Repeats { station, by });
        repeats
            .or_else(|| self.gauge_doubt())
            .or_else(|| self.drive_doubt(shape))
    }

    fn drive_doubt(&self, shape: &Shape) -> Option<TurnDoubt> {
        match shape.patterns.first()?.pattern {
            Pattern::Step { left, right } if !self.is_ticked_off(Stage::JawDrive) => {
                let between = (left, right);
                Some(TurnDoubt::Drive { between })
            }
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::Edit;
    use crate::session::Whose;
    use crate::session::tests_visit::{apply, lace, press_of_four, read, tick_all};
    use crate::splice::GAUGE_PRESETS;

    fn doubt(session: &Session) -> Option<TurnDoubt> {
        session.turn_doubt(0, &session.shape_of(0, Whose::Piece))
    }

    #[test]
    fn a_gauge_that_nobody_chose_is_not_called_coarse() {
        let mut session = press_of_four();
        lace(&mut session, &[0, 0, 0, 0]);
        read(&mut session, ["0.2500", "0.2440", "0.2510", "0.2525"]);
        assert_eq!(doubt(&session), Some(TurnDoubt::NoGauge));
        session.gauge.call("Digital caliper");
        assert!(matches!(
            doubt(&session),
            Some(TurnDoubt::Coarse(share)) if share.share > 0.3
        ));
        // A micrometer that reads to 0.0001 in does, and nothing is said.
        let fine = GAUGE_PRESETS
            .into_iter()
            .find(|preset| preset.step.nm() == 2_540)
            .unwrap();
        apply(&mut session, Edit::StartFromPreset(fine));
        assert_eq!(doubt(&session), None);
    }

    #[test]
    fn a_step_asks_for_the_jaw_drive_until_it_was_looked_at() {
        let mut session = press_of_four();
        let fine = GAUGE_PRESETS
            .into_iter()
            .find(|preset| preset.step.nm() == 2_540)
            .unwrap();
        apply(&mut session, Edit::StartFromPreset(fine));
        lace(&mut session, &[0, 0, 0, 0]);
        read(&mut session, ["0.2500", "0.2500", "0.2540", "0.2540"]);
        let between = (ArmIndex(1), ArmIndex(2));
        assert_eq!(doubt(&session), Some(TurnDoubt::Drive { between }));
        tick_all(&mut session, Stage::JawDrive);
        assert_eq!(doubt(&session), None);
    }

    #[test]
    fn readings_far_apart_come_first() {
        let mut session = press_of_four();
        session.gauge.call("Digital caliper");
        lace(&mut session, &[0, 0, 0, 0]);
        read(&mut session, ["0.2500", "0.2440", "0.2510", "0.2525"]);
        // 0.002 in apart, more than half of 0.003 in.
        let again = vec![vec!["0.2460".to_owned()]];
        apply(
            &mut session,
            Edit::fill((0, 1, 1), again, crate::units::Unit::Inch),
        );
        let by = Length::from_nm(50_800);
        let apart = Some(TurnDoubt::Repeats { station: 1, by });
        assert_eq!(doubt(&session), apart);
    }
}
