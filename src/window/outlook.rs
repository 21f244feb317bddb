//! What the window shows of a pass: its profile, how the splice answers, and
//! the turns worth making. Made once per state of the document.

use crate::plan::{Forecast, PlanOption, TurnBounds};
use crate::press::{ArmIndex, Notches, Response};
use crate::session::{
    ASSUMED_STRETCH, Advice, Gate, InView, NextStep, PlanningProblem, PredictedStation, RodLoads,
    Session, StageState, Verdicts, Whose,
};
use crate::splice::{Settling, Shape};

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
    /// Station means in nanometres; `None` where nothing was read or something
    /// is doubtful.
    pub means_nm: Vec<Option<f64>>,
    /// What is missing or doubtful in it, and how it stands.
    pub gate: Gate,
    /// The visit as a path.
    pub path: Vec<StageState>,
    /// How far each nut may be turned.
    pub bounds: Vec<TurnBounds>,
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
    slack_solution: Option<(Vec<Notches>, Option<RodLoads>)>,
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
            gate: session.gate(pass.unwrap_or(usize::MAX)),
            path: session.visit_path(),
            arms_nm: session.press.arm_positions_nm(),
            stations_nm: session.station_positions_nm(),
            widest_nm: widest_nm(session),
            bounds: session.turn_bounds(pass.unwrap_or(usize::MAX)),
            independent: session.independent_response().ok(),
            means_nm: vec![None; session.stations.len()],
            u_nm: vec![None; session.stations.len()],
            ..Self::default()
        };
        let Some(pass) = pass.filter(|pass| *pass < session.passes.len()) else {
            return outlook;
        };
        outlook.trust = Trust::of(session, pass);
        let profile = session.sound_profile(pass);
        outlook.means_nm = (0..session.stations.len())
            .map(|station| profile.mean(station).map(|mean| mean.nm_f64()))
            .collect();
        outlook.u_nm = session
            .budgets(pass, Whose::Piece)
            .iter()
            .map(|budget| budget.as_ref().map(|budget| budget.u_nm))
            .collect();
        outlook.shape = Some(session.shape_of(pass, Whose::Press));
        outlook
    }

    /// Takes up the advice that was worked out for it.
    pub fn accept(&mut self, answer: Answer) {
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

    /// The shape that turns would leave, over the arms.
    pub fn shape_after(&self, session: &Session, turns: &[Notches]) -> Shape {
        let sd_nm = self.predicted_sd_nm(turns).unwrap_or_default();
        session.shape_through(&self.means_after(turns), &sd_nm)
    }

    /// How things stand with these turns on show, and the one next act.
    pub fn next_step(&self, session: &Session, turns: &[Notches], thinking: bool) -> NextStep {
        session.next_step(&InView {
            gate: &self.gate,
            advice: self.advice().filter(|_| !thinking),
            problem: self.problem.as_ref(),
            again: &self.again(),
            turns,
            forecast: self.forecast(turns),
        })
    }

    /// Stations whose further readings would settle the verdict on the piece.
    fn again(&self) -> Vec<usize> {
        match self
            .verdicts
            .as_ref()
            .map(|verdicts| &verdicts.settles_piece)
        {
            Some(Settling::Readings { again, .. }) => again.iter().map(|at| at.station).collect(),
            _ => Vec::new(),
        }
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

    /// The recommended turns with one nut a notch further or less far, within its
    /// limits, where they are none of the rows; whether it is further.
    pub fn close_by(&self) -> Vec<(Vec<Notches>, ArmIndex, bool)> {
        let turns = self.recommended_turns().unwrap_or_default();
        let turned = turns.iter().enumerate().filter(|(_, turn)| turn.0 != 0);
        let close = turned.flat_map(|(arm, turn)| {
            let further = turn.0.signum();
            [(further, true), (-further, false)].map(|(by, more)| {
                let mut close = turns.clone();
                if let Some(nut) = close.get_mut(arm) {
                    nut.0 += by;
                }
                (close, ArmIndex(arm), more)
            })
        });
        let allowed = |turns: &[Notches]| {
            let pairs = turns.iter().zip(&self.bounds);
            let mut pairs = pairs.map(|(turn, nut)| (nut.least..=nut.most).contains(&turn.0));
            pairs.all(|fits| fits)
        };
        let is_a_row = |turns: &[Notches]| {
            let mut rows = self.rows().iter();
            rows.any(|row| {
                row.turns
                    .iter()
                    .copied()
                    .eq(turns.iter().map(|turn| turn.0))
            })
        };
        let close = close.filter(|(turns, ..)| allowed(turns) && !is_a_row(turns));
        close.collect()
    }

    /// Reckons how the rods would share the load; what was reckoned for the
    /// same turns is kept.
    pub fn share_loads(&mut self, session: &Session, turns: &[Notches]) {
        let known = self.slack_solution.as_ref();
        if known.is_none_or(|(of, _)| of != turns) {
            let loads = session.rod_loads(turns, ASSUMED_STRETCH).ok();
            self.slack_solution = Some((turns.to_vec(), loads));
        }
    }

    /// How the rods would share the load after the turns on show.
    pub fn rods(&self) -> Option<&RodLoads> {
        self.slack_solution.as_ref()?.1.as_ref()
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
    let profiles = session.sound_profiles(session.passes.len());
    let spreads = profiles.iter().map(|profile| {
        let means = profile.means.iter().flatten();
        let (low, high) = means.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), mean| {
            let nm = mean.mean.nm_f64();
            (low.min(nm), high.max(nm))
        });
        high - low
    });
    spreads.fold(0.0, f64::max)
}
