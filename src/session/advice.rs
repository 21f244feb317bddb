//! Advice after a pass: what the press is believed to do, which turns to make
//! and with what chance.

use std::sync::Arc;

use crate::plan::{
    ChangeCheck, Choice, ChoiceWorkspace, FARTHEST_TURN, Finding, Forecaster, Leavings, Model,
    Piece, PlanError, PlanOption, Posterior, PredictiveScratch, Remainder, ResponsePrior,
    SearchWorkspace, Task, TestPass, TurnBounds, choose, findings, remainder,
};
use crate::press::{ArmIndex, Notches, Response};

use super::belief::{Belief, BeliefMemo, Known};
use super::common_turn::CommonTurn;
use super::{
    Gate, LeftOut, Plan, PlanningProblem, PriorShelf, Reach, ResponseSource, Session, SettledBy,
    SlackStop, Stands, Verdicts, Wishes,
};

/// A remainder of the spread below this share of the tolerance is not worth a
/// word.
const WORTH_A_WORD: f64 = 0.25;

/// A smallest spread is above the tolerance from so much: rounding makes less.
const LEAST_EXCESS_NM: f64 = 0.5;

/// Memory for advising, kept from call to call.
#[derive(Debug, Default)]
pub struct AdviceWorkspace {
    choice: ChoiceWorkspace,
    search: SearchWorkspace,
    memo: BeliefMemo,
}

impl AdviceWorkspace {
    /// The last belief worked out.
    pub(super) fn memo(&mut self) -> &mut BeliefMemo {
        &mut self.memo
    }
}

/// What the advice rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct LearntFrom {
    /// Where the response comes from.
    pub source: ResponseSource,
    /// Passes of this session with any reading, up to the one advised on.
    pub passes: usize,
    /// Earlier visits learnt from.
    pub visits: usize,
    /// Their passes with any reading.
    pub visit_passes: usize,
    /// Earlier visits that could not be learnt from.
    pub left_out: Vec<LeftOut>,
}

/// What to do after a pass, and why.
#[derive(Debug, Clone)]
pub struct Advice {
    /// How the pass stands by the plain comparison; clear.
    pub gate: Gate,
    /// Chance that this piece's true spread is inside the tolerance; `None`
    /// when a counting station was not read.
    pub this_piece: Option<f64>,
    /// Whether that is accepted by the shop's rule: nothing is then
    /// recommended to be turned.
    pub accepted: bool,
    /// Chances, options and what to do first.
    pub choice: Choice,
    /// The proven smallest spread of this piece for the response's means,
    /// within the limits and wishes: the optimum where the response is given.
    pub smallest: Plan,
    /// Whether it was proven that no turns leave a smaller spread.
    pub proven: bool,
    /// The smallest spread, in nanometres, where it is above the tolerance and it
    /// is the nuts that reach no further, no wish and no unread arm.
    pub out_of_reach_nm: Option<f64>,
    /// How far each nut may be turned, one per arm, wishes included; what every
    /// option is held to, for whoever checks them.
    #[allow(dead_code, reason = "looked at by tests only")]
    pub bounds: Vec<TurnBounds>,
    /// Arms whose nut is left because nothing was read there.
    pub held: Vec<ArmIndex>,
    /// Arms whose nut stands outside its limits as it is.
    pub outside_limits: Vec<ArmIndex>,
    /// What whole notches always reach, where that can be stated: a given
    /// response of equal, independent nuts.
    pub reach: Option<Reach>,
    /// What even the best turns that need not be whole leave of this piece's
    /// spread, and what stops them; `None` where it is little, or no more than
    /// lacing and gauge scatter, or the piece is accepted.
    pub remainder: Option<Remainder>,
    /// Whether the plans are held to them: only where section and rods are
    /// known, for an assumption forbids no plan.
    pub held_by_slack: bool,
    /// The stations that options and chances are about, as indices: those that
    /// count and were read in this session.
    pub counting: Vec<usize>,
    /// What it rests on.
    pub learnt_from: LearntFrom,
    /// The response as believed: its means, a row per station.
    pub response: Response,
    /// The turn of all nuts that gives back travel, where it runs low.
    pub common_turn: Option<CommonTurn>,
    pub(super) posterior: Posterior,
    /// Where the plans are held to tight rods, what holds them.
    held_at: Vec<SlackStop>,
    piece: Option<Piece>,
    tolerance_nm: f64,
    prior: Arc<ResponsePrior>,
    along: Vec<f64>,
    own_stations: Vec<usize>,
    passes: Vec<TestPass>,
}

impl Session {
    /// Advises after a pass, from the passes up to it and from what earlier
    /// visits measured. Deterministic; the shelf and the workspace save time
    /// and change nothing.
    ///
    /// The response is the given one where there is one; otherwise it is
    /// believed from the geometry and learnt from the passes. Counting stations
    /// that were never read in this session are left out; the nut of an arm at
    /// which this pass was not read is left alone.
    ///
    /// # Errors
    /// See [`PlanningProblem`].
    pub fn advise(
        &self,
        pass: usize,
        wishes: Wishes,
        shelf: &PriorShelf,
        workspace: &mut AdviceWorkspace,
    ) -> Result<Advice, PlanningProblem> {
        // What is missing or doubtful comes before any advice.
        let gate = self.clear_gate(pass)?;
        let Known {
            belief,
            passes,
            posterior,
        } = self.known_after(pass, shelf, &mut workspace.memo)?;
        let response = posterior.response();
        let counting = self.counting_stations(&passes);
        let tolerance_nm = self.tolerance.length().nm_f64();
        let piece = Piece::last(&posterior, &counting, workspace.choice.kept());
        let whole = (piece.as_ref()).filter(|piece| piece.stations().len() == counting.len());
        let this_piece = whole.and_then(|piece| piece.chance_as_read(tolerance_nm));
        let accepted = (self.acceptance).accepts(gate.stands == Stands::Inside, this_piece);
        let held_by_slack =
            belief.source == ResponseSource::Posterior && self.known_kappa().is_some();
        let task = Task {
            posterior: &posterior,
            counting: &counting,
            tolerance_nm,
            bounds: &[],
            accepted,
            most_nuts: wishes.most_nuts,
            effort: self.effort,
        };
        // Where the plans are held to tight rods, each slack rod found bounds
        // the next attempt.
        let mut slack_stops = Vec::new();
        let (searched, bounds, mut choice) = loop {
            let searched =
                self.searched(pass, &response, wishes, &slack_stops, &mut workspace.search)?;
            if held_by_slack && self.tighten(&mut slack_stops, &searched.smallest.turns) {
                continue;
            }
            let bounds = wished_bounds(&searched.bounds, wishes)?;
            let task = Task {
                bounds: &bounds,
                ..task
            };
            let choice = choose(&task, &mut workspace.choice)?;
            if !held_by_slack || !self.tighten(&mut slack_stops, &turns(recommended(&choice))) {
                break (searched, bounds, choice);
            }
        };
        if held_by_slack {
            self.drop_slack(&mut choice);
        }
        let smallest_nm = searched.smallest.spread_nm;
        let free = wishes == Wishes::default() && searched.held.is_empty();
        let out_of_reach = free && !accepted && smallest_nm > tolerance_nm + LEAST_EXCESS_NM;
        Ok(Advice {
            gate,
            out_of_reach_nm: out_of_reach.then_some(smallest_nm),
            this_piece,
            accepted,
            common_turn: match accepted {
                true => None,
                false => self.common_turn(pass, &recommended(&choice).turns, &response),
            },
            remainder: match accepted {
                true => None,
                false => self.remainder(pass, &posterior),
            },
            reach: match belief.source {
                ResponseSource::Given => self.reach(pass, smallest_nm, &response),
                ResponseSource::Posterior => None,
            },
            outside_limits: self.outside_limits(pass),
            choice,
            smallest: searched.smallest,
            proven: searched.proven,
            bounds,
            held: searched.held,
            held_at: slack_stops,
            held_by_slack,
            counting,
            learnt_from: learnt_from(&belief, &passes),
            response,
            posterior,
            piece,
            tolerance_nm,
            prior: belief.prior,
            along: belief.along,
            own_stations: self.own_stations(),
            passes,
        })
    }

    /// Takes up where these turns would make rods slack; whether that is closer
    /// than before. A nut that its limits force further out stays where they
    /// put it.
    fn tighten(&self, stops: &mut Vec<SlackStop>, turns: &[Notches]) -> bool {
        let mut closer = false;
        for new in self.slack_stops(turns) {
            match stops.iter_mut().find(|stop| stop.arm == new.arm) {
                Some(stop) => {
                    closer |= new.most < stop.most;
                    stop.most = stop.most.min(new.most);
                }
                None => {
                    stops.push(new);
                    closer = true;
                }
            }
        }
        closer
    }

    /// Takes the options away that would turn a nut out to where its rod is
    /// slack; leaving the nuts alone and what is recommended stay.
    fn drop_slack(&self, choice: &mut Choice) {
        let recommended = recommended(choice).turns.clone();
        choice.options.retain(|option| {
            option.turns == recommended || self.slack_stops(&turns(option)).is_empty()
        });
        let mut options = choice.options.iter();
        let place = options.position(|option| option.turns == recommended);
        choice.recommended = place.unwrap_or(0);
    }

    /// What the nuts leave of a piece's spread, be the wishes what they may.
    fn remainder(&self, pass: usize, posterior: &Posterior) -> Option<Remainder> {
        let profile = self.passes.get(pass)?.profile();
        let read: Vec<(usize, f64, u32)> = self
            .counting()
            .filter_map(|station| {
                let mean = profile.at(station)?;
                let repeats = u32::try_from(mean.repeats).ok()?;
                Some((station, mean.mean.nm_f64(), repeats))
            })
            .collect();
        remainder(&Leavings {
            posterior,
            stations: &read.iter().map(|read| read.0).collect::<Vec<_>>(),
            thickness_nm: &read.iter().map(|read| read.1).collect::<Vec<_>>(),
            repeats: &read.iter().map(|read| read.2).collect::<Vec<_>>(),
            relace: &self.turn_bounds(pass),
            limits: &self.bounds_where_free(pass, FARTHEST_TURN),
            worth_nm: WORTH_A_WORD * self.tolerance.length().nm_f64(),
        })
    }

    /// Counting stations that were read in any of the passes.
    pub(super) fn counting_stations(&self, passes: &[TestPass]) -> Vec<usize> {
        let is_read = |station: usize| {
            let at = |pass: &TestPass| pass.readings.get(station).is_some_and(Option::is_some);
            passes.iter().any(at)
        };
        self.counting()
            .filter(|station| is_read(*station))
            .collect()
    }

    /// The station at each arm.
    fn own_stations(&self) -> Vec<usize> {
        let arms = self.press.indexed_arms();
        arms.filter_map(|(arm, _)| self.stations.iter().position(|at| at.arm() == Some(arm)))
            .collect()
    }
}

/// The recommended option; [`choose`] always has that of leaving the nuts alone.
fn recommended(choice: &Choice) -> &PlanOption {
    &choice.options[choice.recommended]
}

/// An option's turns, one per arm.
fn turns(option: &PlanOption) -> Vec<Notches> {
    option.turns.iter().copied().map(Notches).collect()
}

/// Bounds with what the user does not want taken off.
fn wished_bounds(
    bounds: &[TurnBounds],
    wishes: Wishes,
) -> Result<Vec<TurnBounds>, PlanningProblem> {
    bounds
        .iter()
        .map(|bound| {
            let least = if wishes.outward_only {
                bound.least.max(0)
            } else {
                bound.least
            };
            if least > bound.most {
                return Err(PlanningProblem::NothingAllowed);
            }
            Ok(TurnBounds { least, ..*bound })
        })
        .collect()
}

fn learnt_from(belief: &Belief, passes: &[TestPass]) -> LearntFrom {
    let is_read = |pass: &&TestPass| pass.readings.iter().any(Option::is_some);
    LearntFrom {
        source: belief.source,
        passes: passes.iter().filter(is_read).count(),
        visits: belief.visits,
        visit_passes: belief.visit_passes,
        left_out: belief.left_out.clone(),
    }
}

impl Advice {
    /// The recommended option: leaving the nuts alone where the pass is
    /// accepted, or where turning gains nothing worth the turning.
    pub fn recommended(&self) -> &PlanOption {
        recommended(&self.choice)
    }

    /// Chance that the next piece is inside the tolerance with the nuts left
    /// as they are, which is always the first option.
    pub fn next_piece(&self) -> f64 {
        self.choice.options[0].forecast.chance
    }

    /// The recommended turns, one per arm.
    pub fn turns(&self) -> Vec<Notches> {
        turns(self.recommended())
    }

    /// Nuts whose rods would be slack further out, as rods are reckoned to be
    /// stretched: those that were not planned further out, where the plans are
    /// held to it, else those that the recommended turns let out further. Empty
    /// where the response was given outright.
    pub fn slack_stops(&self, session: &Session) -> Vec<SlackStop> {
        if self.held_by_slack || self.learnt_from.source == ResponseSource::Given {
            return self.held_at.clone();
        }
        session.slack_stops(&self.turns())
    }

    /// Standard deviation of one value of the response, in nanometres per
    /// notch; zero where it was given.
    pub fn response_sd_nm(&self, station: usize, arm: usize) -> f64 {
        self.posterior.response_deviation(station, arm)
    }

    /// Expected against measured change of every past turn, by passes of the
    /// session and stations.
    pub fn changes(&self) -> &[ChangeCheck] {
        self.posterior.changes()
    }

    /// The variance of what is foretold, as a multiple of what the model gives:
    /// above one where predictions of this press missed more than they should.
    pub fn widening(&self) -> f64 {
        self.posterior.widening()
    }

    /// The verdicts on the pass and what would settle them. Where nothing is
    /// too close to call it takes no longer than a chance; otherwise, with
    /// many stations, it may take a second; what would settle them is given up
    /// once `go_on` says no.
    ///
    /// # Errors
    /// See [`PlanError`]; none for an advice that was given.
    pub fn verdicts(
        &self,
        session: &Session,
        workspace: &mut PredictiveScratch,
        go_on: &dyn Fn() -> bool,
    ) -> Result<Verdicts, PlanError> {
        let confidence = session.acceptance.confidence;
        session.verdicts_from(
            self.gate.pass.unwrap_or_default(),
            confidence,
            SettledBy::Anything,
            (self.piece.as_ref()).ok_or(PlanError::NothingCounts)?,
            &self.posterior,
            &self.counting,
            workspace,
            go_on,
        )
    }

    /// What in the passes should be asked about rather than averaged in: arms
    /// that answer wrong or not at all, miscounted turns, contradictions.
    ///
    /// It tries other turns than the recorded ones pass by pass and takes far
    /// longer than the advice where there are many arms and passes, so it is
    /// worked out only when asked for.
    ///
    /// # Errors
    /// See [`PlanError`]; none for an advice that was given.
    pub fn findings(&self) -> Result<Vec<Finding>, PlanError> {
        let model = Model {
            prior: &self.prior,
            along: &self.along,
            noise: *self.posterior.noise(),
        };
        findings(&model, &self.own_stations, &self.passes)
    }

    /// Median spread, 90 % limit and chance of the next piece for any turns,
    /// for following a nut that is being dragged.
    ///
    /// # Errors
    /// See [`PlanError`]; none for an advice that was given.
    pub fn forecaster(&self) -> Result<Forecaster, PlanError> {
        Forecaster::new(&self.posterior, &self.counting, self.tolerance_nm)
    }
}
