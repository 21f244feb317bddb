//! What the window shows of a pass: its profile, how the splice answers, and
//! the turns worth making. Made once per state of the document.

use crate::plan::{Forecast, PlanOption, TurnBounds};
use crate::press::{Notches, Response};
use crate::session::{
    ASSUMED_STRETCH, Advice, Doubt, PlanningProblem, PredictedStation, RodLoads, Session, Verdicts,
    Whose,
};
use crate::splice::{Shape, Spread, Standing};
use crate::units::TypedLength;

use super::advisor::{Advised, Answer};
use super::trust::Trust;

/// What the window shows of one pass of one state of the document.
#[derive(Debug, Default)]
pub struct Outlook {
    /// The pass, if there is one.
    pub pass: Option<usize>,
    /// Positions of the arms, in nanometres from the jaw's left end.
    pub arms_nm: Vec<f64>,
    /// Positions of the stations.
    pub stations_nm: Vec<f64>,
    /// Station means in nanometres; `None` where nothing was read.
    pub means_nm: Vec<Option<f64>>,
    /// The spread over the counting stations.
    pub spread: Option<Spread>,
    /// How it stands by the plain comparison.
    pub standing: Option<Standing>,
    /// How far each nut may be turned.
    pub bounds: Vec<TurnBounds>,
    /// Cells that look typed in the wrong unit: station, repeat, and the
    /// reading in the other unit.
    pub slips: Vec<(usize, usize, TypedLength)>,
    /// Cells that look mistyped in any way.
    pub doubts: Vec<(usize, usize, Doubt)>,
    /// Standard uncertainty of each station's mean by the gauge, in
    /// nanometres; `None` where nothing was read.
    pub u_nm: Vec<Option<f64>>,
    /// Advice on this pass, once it is worked out.
    pub advised: Option<Box<Advised>>,
    /// Why there is none.
    pub problem: Option<PlanningProblem>,
    /// The largest spread of any pass, in nanometres: the jaws of every pass
    /// are drawn to one scale, or a true press would look as bent as before.
    pub widest_nm: f64,
    /// The shape of the pass over the arms; none before anything is read.
    pub shape: Option<Shape>,
    /// The verdicts on this pass, once they are worked out.
    pub verdicts: Option<Box<Verdicts>>,
    /// How far the readings can be trusted.
    pub trust: Trust,
    independent: Option<Response>,
    foretold: Option<Foretold>,
    /// What was foretold for turns that are kept.
    remembered: Vec<(Vec<Notches>, Forecast)>,
    /// How the rods would share the load after some turns, reckoned once.
    hanging: Option<(Vec<Notches>, Option<RodLoads>)>,
}

/// What is foretold for some turns.
#[derive(Debug)]
struct Foretold {
    turns: Vec<Notches>,
    forecast: Forecast,
    stations: Vec<PredictedStation>,
}

impl Outlook {
    /// Looks at a pass of a session, without advice.
    pub fn of(session: &Session, pass: Option<usize>) -> Self {
        let mut outlook = Self {
            pass,
            arms_nm: session.press.arm_positions_nm(),
            stations_nm: session.station_positions_nm(),
            widest_nm: widest_nm(session),
            bounds: session.turn_bounds(pass.unwrap_or(usize::MAX)),
            independent: session.independent_response().ok(),
            means_nm: vec![None; session.stations.len()],
            u_nm: vec![None; session.stations.len()],
            ..Self::default()
        };
        let Some((pass, read)) = pass.and_then(|pass| Some((pass, session.passes.get(pass)?)))
        else {
            return outlook;
        };
        outlook.doubts = session.doubts(pass);
        outlook.slips = session.slipped_units(pass);
        outlook.trust = Trust::of(session, pass);
        let profile = read.profile();
        outlook.means_nm = (0..session.stations.len())
            .map(|station| profile.mean(station).map(|mean| mean.nm_f64()))
            .collect();
        outlook.u_nm = session
            .budgets(pass, Whose::Piece)
            .iter()
            .map(|budget| budget.as_ref().map(|budget| budget.u_nm))
            .collect();
        outlook.shape = Some(session.shape_of(pass, Whose::Press));
        outlook.spread = Spread::of(&session.stations, &profile);
        outlook.standing = outlook
            .spread
            .as_ref()
            .map(|spread| spread.standing(session.tolerance.length()));
        outlook
    }

    /// Takes up the advice that was worked out for it.
    pub fn take_up(&mut self, answer: Answer) {
        match answer {
            Ok(advised) => {
                self.problem = None;
                self.advised = Some(advised);
            }
            Err(problem) => {
                self.problem = Some(problem);
                self.advised = None;
            }
        }
        self.foretold = None;
        self.remembered.clear();
    }

    /// The advice, once it is worked out.
    pub fn advice(&self) -> Option<&Advice> {
        self.advised.as_deref().map(|advised| &advised.advice)
    }

    /// The ways to go on, leaving the nuts alone first.
    pub fn rows(&self) -> &[PlanOption] {
        self.advice().map_or(&[], |advice| &advice.choice.options)
    }

    /// The recommended turns; none when nothing can be said yet.
    pub fn recommended_turns(&self) -> Option<Vec<Notches>> {
        self.advice().map(Advice::turns)
    }

    /// The answer of every station to every nut: as learnt, else as if the
    /// nuts were independent.
    pub fn response(&self) -> Option<&Response> {
        self.advice()
            .map(|advice| &advice.response)
            .or(self.independent.as_ref())
    }

    /// The station means after some turns, in nanometres.
    pub fn means_after(&self, turns: &[Notches]) -> Vec<Option<f64>> {
        self.means_nm
            .iter()
            .enumerate()
            .map(|(station, mean)| {
                let change = self.response().map_or(0.0, |response| {
                    response.change_at(station, turns.iter().map(|turn| f64::from(turn.0)))
                });
                mean.map(|mean| mean + change)
            })
            .collect()
    }

    /// Foretells the next piece after some turns; what was foretold for the
    /// same turns is kept.
    pub fn foretell(&mut self, turns: &[Notches]) {
        if self
            .foretold
            .as_ref()
            .is_some_and(|foretold| foretold.turns == turns)
        {
            return;
        }
        self.foretold = self.advised.as_mut().and_then(|advised| {
            let notches: Vec<i32> = turns.iter().map(|turn| turn.0).collect();
            Some(Foretold {
                turns: turns.to_vec(),
                forecast: advised.forecaster.as_mut()?.forecast(&notches),
                stations: advised.advice.predicted(turns),
            })
        });
    }

    /// Foretells turns that are kept to be compared, each once.
    pub fn remember<'a>(&mut self, kept: impl Iterator<Item = &'a [Notches]>) {
        for turns in kept {
            if self.forecast(turns).is_some() {
                continue;
            }
            let forecaster = self
                .advised
                .as_mut()
                .and_then(|advised| advised.forecaster.as_mut());
            let Some(forecaster) = forecaster else {
                return;
            };
            let notches: Vec<i32> = turns.iter().map(|turn| turn.0).collect();
            let forecast = forecaster.forecast(&notches);
            self.remembered.push((turns.to_vec(), forecast));
        }
    }

    /// Reckons how the rods would share the load; what was reckoned for the
    /// same turns is kept.
    pub fn hang(&mut self, session: &Session, turns: &[Notches]) {
        let known = self.hanging.as_ref();
        if known.is_none_or(|(of, _)| of != turns) {
            let loads = session.rod_loads(turns, ASSUMED_STRETCH).ok();
            self.hanging = Some((turns.to_vec(), loads));
        }
    }

    /// How the rods would share the load after the turns on show.
    pub fn rods(&self) -> Option<&RodLoads> {
        self.hanging.as_ref()?.1.as_ref()
    }

    /// Standard deviation of every station of the next piece after these
    /// turns, in nanometres, where it was foretold.
    pub fn predicted_sd_nm(&self, turns: &[Notches]) -> Option<Vec<f64>> {
        let foretold = self
            .foretold
            .as_ref()
            .filter(|foretold| foretold.turns == turns)?;
        Some(
            foretold
                .stations
                .iter()
                .map(|station| station.sd_nm)
                .collect(),
        )
    }

    /// What was foretold for these turns.
    pub fn forecast(&self, turns: &[Notches]) -> Option<Forecast> {
        let row = self.rows().iter().find(|row| {
            row.turns
                .iter()
                .copied()
                .eq(turns.iter().map(|turn| turn.0))
        });
        row.map(|row| row.forecast)
            .or_else(|| {
                let foretold = self.foretold.as_ref();
                foretold
                    .filter(|foretold| foretold.turns == turns)
                    .map(|foretold| foretold.forecast)
            })
            .or_else(|| {
                let kept = self.remembered.iter().find(|(of, _)| of == turns);
                kept.map(|(_, forecast)| *forecast)
            })
    }
}

/// The largest difference of station means within a pass.
fn widest_nm(session: &Session) -> f64 {
    let spreads = session.passes.iter().map(|pass| {
        let profile = pass.profile();
        let means = profile.means.iter().flatten();
        let (low, high) = means.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), mean| {
            let nm = mean.mean.nm_f64();
            (low.min(nm), high.max(nm))
        });
        high - low
    });
    spreads.fold(0.0, f64::max)
}
