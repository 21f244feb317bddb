//! What was to be expected of each pass before it was laced, to be laid beside
//! what it then measured.

use crate::plan::{Forecast, Forecaster, Model, Posterior, StationReading, TestPass};

use super::predicted::about_level;
use super::{AdviceWorkspace, PlanningProblem, PredictedStation, PriorShelf, Session};

/// What was to be expected of a pass.
#[derive(Debug, Clone, PartialEq)]
pub struct Foresight {
    /// A station each. The standard deviation holds what the piece may be and
    /// how well it is then read, the level of the piece left out; a station
    /// that was not read is taken as read once.
    pub stations: Vec<PredictedStation>,
    /// Spread and chance, over the counting stations that were read in this
    /// pass, or in an earlier one where this is not read yet.
    pub forecast: Forecast,
}

impl Session {
    /// What was to be expected of every pass from the passes before it, its
    /// recorded turns and handle moves, and earlier visits; a value per pass.
    /// `None` for a pass before which nothing was read: as found, there was
    /// nothing to expect.
    ///
    /// It does not look ahead: a pass says nothing about itself or about those
    /// before it. Deterministic; the shelf and the workspace save time and
    /// change nothing.
    ///
    /// # Errors
    /// [`PlanningProblem::Learning`] when figures are beyond any press.
    pub fn foresights(
        &self,
        shelf: &PriorShelf,
        workspace: &mut AdviceWorkspace,
    ) -> Result<Vec<Option<Foresight>>, PlanningProblem> {
        let Some(last) = self.passes.len().checked_sub(1) else {
            return Ok(Vec::new());
        };
        let belief = self.belief(shelf, workspace.memo())?;
        let passes = self.test_passes(last, &belief);
        let model = Model {
            prior: &belief.prior,
            along: &belief.along,
            noise: self.noise(),
        };
        let is_read = |pass: &TestPass| pass.readings.iter().any(Option::is_some);
        let Some(first) = passes.iter().position(is_read) else {
            return Ok(vec![None; passes.len()]);
        };
        let mut posterior = Posterior::from_passes(&model, &passes[..=first])?;
        let mut read: Vec<bool> = passes[first].readings.iter().map(Option::is_some).collect();
        let mut found = vec![None; first + 1];
        for (pass, laced) in passes.iter().zip(&self.passes).skip(first + 1) {
            // Where a nut stood nobody knows what to expect.
            found.push(match laced.nut_lost {
                true => None,
                false => self.foresight(&posterior, pass, &read)?,
            });
            posterior.observe(pass)?;
            for (read, reading) in read.iter_mut().zip(&pass.readings) {
                *read |= reading.is_some();
            }
        }
        Ok(found)
    }

    /// What was to be expected of a pass after what was learnt before it; none
    /// where no counting station is in question.
    fn foresight(
        &self,
        before: &Posterior,
        pass: &TestPass,
        read_before: &[bool],
    ) -> Result<Option<Foresight>, PlanningProblem> {
        let read_now = pass.readings.iter().any(Option::is_some);
        let in_question = |station: &usize| match read_now {
            true => pass.readings.get(*station).is_some_and(Option::is_some),
            false => read_before.get(*station).copied().unwrap_or(false),
        };
        let counting: Vec<usize> = self.counting().filter(in_question).collect();
        if counting.is_empty() {
            return Ok(None);
        }
        // The nuts and the handle as they then stood, nothing read.
        let mut posterior = before.clone();
        posterior.observe(&TestPass {
            readings: vec![None; pass.readings.len()],
            ..pass.clone()
        })?;
        let mut stations = about_level(&posterior.next_piece_after(&[]), &counting);
        for (station, reading) in stations.iter_mut().zip(&pass.readings) {
            let repeats = reading.map_or(1, |StationReading { repeats, .. }| repeats);
            let reading_variance = before.noise().reading_variance(repeats);
            let variance = station.sd_nm * station.sd_nm + reading_variance;
            station.sd_nm = variance.sqrt();
        }
        let tolerance_nm = self.tolerance.length().nm_f64();
        let mut forecaster = Forecaster::new(&posterior, &counting, tolerance_nm)?;
        Ok(Some(Foresight {
            stations,
            forecast: forecaster.forecast(&[]),
        }))
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests_visit::*;
    use super::*;
    use crate::press::Notches;
    use crate::session::{Edit, Wishes};
    use crate::units::Unit;

    fn read(session: &mut Session, pass: usize, readings: [&str; 4]) {
        for (station, text) in readings.into_iter().enumerate() {
            let edit = Edit::enter((pass, station, 0), text, Unit::Inch);
            apply(session, edit);
        }
    }

    fn foresights(session: &Session) -> Vec<Option<Foresight>> {
        session
            .foresights(&PriorShelf::default(), &mut AdviceWorkspace::default())
            .unwrap()
    }

    #[test]
    fn it_is_what_the_advice_before_the_pass_said() {
        let mut session = press_of_four();
        lace(&mut session, &[]);
        assert_eq!(foresights(&session), [None]);
        read(&mut session, 0, ["0.2500", "0.2440", "0.2500", "0.2500"]);
        let advice = session
            .advise(
                0,
                Wishes::default(),
                &PriorShelf::default(),
                &mut AdviceWorkspace::default(),
            )
            .unwrap();
        let turns = [Notches(0), Notches(2), Notches(0), Notches(-1)];
        let said = advice.predicted(&turns);
        let forecast = advice.forecaster().unwrap().forecast(&[0, 2, 0, -1]);
        lace(&mut session, &[0, 2, 0, -1]);
        let unread = foresights(&session)[1].clone().unwrap();
        read(&mut session, 1, ["0.2500", "0.2500", "0.2500", "0.2460"]);
        let found = foresights(&session);
        let foresight = found[1].clone().unwrap();
        assert_eq!(unread, foresight);
        for (said, found) in said.iter().zip(&foresight.stations) {
            assert!(
                (said.mean_nm - found.mean_nm).abs() < 1e-6,
                "{said:?} {found:?}"
            );
            // How well it is read comes on top.
            assert!(said.sd_nm < found.sd_nm);
        }
        assert!((forecast.chance - foresight.forecast.chance).abs() < 1e-9);
        assert!((forecast.median_nm - foresight.forecast.median_nm).abs() < 1e-6);
        // What comes later changes nothing about what was expected.
        lace(&mut session, &[1]);
        read(&mut session, 2, ["0.2540", "0.2500", "0.2500", "0.2470"]);
        assert_eq!(foresights(&session)[..2], found[..]);
    }

    #[test]
    fn every_station_read_so_far_is_looked_at() {
        let mut session = press_of_four();
        lace(&mut session, &[]);
        read(&mut session, 0, ["0.2500", "0.2500", "", ""]);
        lace(&mut session, &[]);
        read(&mut session, 1, ["0.2500", "0.2500", "0.2600", ""]);
        lace(&mut session, &[]);
        let forecast = |session: &Session| foresights(session)[2].clone().unwrap().forecast;
        let unread = forecast(&session);
        // A, B and C were read, C ten thousandths off: that is what is seen.
        assert!(
            (unread.median_nm / 254_000.0 - 1.0).abs() < 0.2,
            "{unread:?}"
        );
        read(&mut session, 2, ["0.2500", "0.2500", "0.2600", ""]);
        assert_eq!(forecast(&session), unread);
        // Read at A and B alone, C says nothing about this piece.
        read(&mut session, 2, ["0.2500", "0.2500", "", ""]);
        assert!(forecast(&session).median_nm < 100_000.0);
    }

    #[test]
    fn nothing_read_before_means_nothing_expected() {
        let mut session = press_of_four();
        assert!(foresights(&session).is_empty());
        lace(&mut session, &[]);
        lace(&mut session, &[1]);
        read(&mut session, 1, ["0.2500", "0.2500", "0.2500", "0.2460"]);
        assert_eq!(foresights(&session), [None, None]);
    }
}
