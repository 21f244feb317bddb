//! What is better cleared up before nuts are turned by what was read: asked by
//! everybody who offers turns.

use crate::splice::{GaugeFitness, GaugeShare};
use crate::units::Length;

use super::Session;

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

    /// What is doubtful about turns after a pass. One more reading costs less than
    /// another gauge, and is asked for first.
    pub fn turn_doubt(&self, pass: usize) -> Option<TurnDoubt> {
        let repeats = self.repeats_apart(pass);
        let repeats = repeats.map(|(station, by)| TurnDoubt::Repeats { station, by });
        repeats.or_else(|| self.gauge_doubt())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::Edit;
    use crate::session::tests_visit::{apply, lace, press_of_four, read};
    use crate::splice::GAUGE_PRESETS;

    #[test]
    fn a_gauge_that_nobody_chose_is_not_called_coarse() {
        let mut session = press_of_four();
        lace(&mut session, &[0, 0, 0, 0]);
        read(&mut session, ["0.2500", "0.2440", "0.2510", "0.2525"]);
        assert_eq!(session.turn_doubt(0), Some(TurnDoubt::NoGauge));
        session.gauge.call("Digital caliper");
        assert!(matches!(
            session.turn_doubt(0),
            Some(TurnDoubt::Coarse(share)) if share.share > 0.3
        ));
        // A micrometer that reads to 0.0001 in does, and nothing is said.
        let fine = GAUGE_PRESETS
            .into_iter()
            .find(|preset| preset.step.nm() == 2_540)
            .unwrap();
        apply(&mut session, Edit::StartFromPreset(fine));
        assert_eq!(session.turn_doubt(0), None);
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
        let doubt = Some(TurnDoubt::Repeats { station: 1, by });
        assert_eq!(session.turn_doubt(0), doubt);
    }
}
