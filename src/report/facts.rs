//! What a page says of a session: its gate, its advice and the one next act,
//! worked out as everything else works them out.

use crate::plan::{Finding, Forecast};
use crate::press::{ArmIndex, Notches};
use crate::session::{
    Advice, AdviceWorkspace, Gate, InView, NextAct, NextStep, PlanningProblem, PriorShelf, Remark,
    Says, Session, SettledBy, VerdictWorkspace, Verdicts, Whose, Wishes,
};
use crate::splice::{Settling, Shape};
use crate::words::{Figures, Spoken};

/// What stands of a session after its last pass.
#[derive(Debug)]
pub struct Facts {
    /// The gate of the last pass.
    pub gate: Gate,
    /// Advice on it; none where something stands before any.
    pub advice: Option<Advice>,
    /// Why there is none.
    pub problem: Option<PlanningProblem>,
    /// The verdicts on it, where its readings give any.
    pub verdicts: Option<Verdicts>,
    /// How it stands, and what to do next.
    pub step: NextStep,
    /// The turns the pages are about, one per arm.
    pub turns: Vec<Notches>,
    /// What is foretold of the next piece after them.
    pub forecast: Option<Forecast>,
    /// What in the passes should be asked about before anything is turned.
    pub findings: Vec<Finding>,
    /// The shape of the last pass.
    pub shape: Option<Shape>,
}

impl Facts {
    /// Works out what stands of a session. The turns are those somebody chose,
    /// or those that are advised.
    pub fn of(session: &Session, chosen: Option<&[Notches]>, shelf: &PriorShelf) -> Self {
        let gate = session.last_gate();
        let pass = session.passes.len().saturating_sub(1);
        let mut workspace = AdviceWorkspace::default();
        let (advice, problem) = match session.advise(pass, Wishes::default(), shelf, &mut workspace)
        {
            Ok(advice) => (Some(advice), None),
            Err(problem) => (None, Some(problem)),
        };
        let verdicts = gate.pass.and_then(|pass| {
            let confidence = session.acceptance.confidence;
            let mut workspace = VerdictWorkspace::default();
            let verdicts =
                session.verdicts(pass, confidence, SettledBy::Anything, shelf, &mut workspace);
            verdicts.ok()
        });
        let advised = advice.as_ref().map(Advice::turns);
        let turns = chosen
            .map(<[Notches]>::to_vec)
            .or(advised)
            .unwrap_or_else(|| vec![Notches(0); session.press.arms.len()]);
        let forecast = advice
            .as_ref()
            .and_then(|advice| forecast_of(advice, &turns));
        let again: Vec<usize> = match verdicts.as_ref().map(|verdicts| &verdicts.settles_piece) {
            Some(Settling::Readings { again, .. }) => again.iter().map(|at| at.station).collect(),
            _ => Vec::new(),
        };
        let step = session.next_step(&InView {
            gate: &gate,
            advice: advice.as_ref(),
            problem: problem.as_ref(),
            again: &again,
            turns: &turns,
            forecast,
        });
        let findings = advice.as_ref().and_then(|advice| advice.findings().ok());
        // Of turns that somebody chose, the shape that they would leave.
        let would = advice.as_ref().filter(|_| step.says == Says::TurnsWould);
        let shape = match would {
            Some(advice) => {
                let stations = advice.predicted(&turns);
                let sd_nm: Vec<f64> = stations.iter().map(|station| station.sd_nm).collect();
                // This very piece as it would be, as the window draws it.
                let profile = gate.pass.map(|pass| session.sound_profile(pass));
                let turned = || turns.iter().map(|turn| f64::from(turn.0));
                let means_nm: Vec<Option<f64>> = (0..stations.len())
                    .map(|station| {
                        let mean = profile.as_ref()?.mean(station)?.nm_f64();
                        Some(mean + advice.response.change_at(station, turned()))
                    })
                    .collect();
                Some(session.shape_through(&means_nm, &sd_nm))
            }
            None => gate.pass.map(|pass| session.shape_of(pass, Whose::Press)),
        };
        Self {
            gate,
            advice,
            problem,
            verdicts,
            step,
            turns,
            forecast,
            findings: findings.unwrap_or_default(),
            shape,
        }
    }

    /// What is worth saying beside the turns.
    pub fn remarks(&self, session: &Session) -> Vec<Remark> {
        let advice = self.advice.as_ref();
        advice.map_or_else(Vec::new, |advice| {
            advice.remarks(session, &self.turns, &self.findings)
        })
    }

    /// Whether hands may go in with a card of turns: only where turning is the
    /// next act.
    pub fn may_turn(&self) -> bool {
        self.step.act == NextAct::GoAndTurn && self.turns.iter().any(|turn| turn.0 != 0)
    }

    /// The one sentence on how things stand, and the line below it.
    pub fn headline(&self, session: &Session, figures: &Figures) -> (String, String) {
        let better = self.advice.as_ref();
        let better = better.and_then(|advice| advice.choice.better_next());
        let better = better.map(|option| {
            let turns: Vec<Notches> = option.turns.iter().copied().map(Notches).collect();
            (turns, option.forecast.chance)
        });
        let spoken = Spoken {
            session,
            gate: &self.gate,
            shape: self.shape.as_ref(),
            turns: &self.turns,
            forecast: self.forecast,
            this_piece: self.verdicts.as_ref().map(|verdicts| verdicts.piece.chance),
            next_piece: self.verdicts.as_ref().map(|verdicts| verdicts.next_piece),
            better_next: better.as_ref().map(|(turns, chance)| (&turns[..], *chance)),
        };
        (
            figures.headline(&self.step, &spoken),
            figures.below_headline(&self.step, &spoken),
        )
    }

    /// The nuts to turn in the order in which they are turned.
    pub fn nuts_to_turn(&self) -> Vec<(ArmIndex, Notches)> {
        Notches::outs_first(&self.turns)
            .into_iter()
            .filter(|(_, turn)| turn.0 != 0)
            .collect()
    }
}

fn forecast_of(advice: &Advice, turns: &[Notches]) -> Option<Forecast> {
    let notches: Vec<i32> = turns.iter().map(|turn| turn.0).collect();
    let mut options = advice.choice.options.iter();
    match options.find(|option| option.turns == notches) {
        Some(option) => Some(option.forecast),
        None => Some(advice.forecaster().ok()?.forecast(&notches)),
    }
}
