//! Turns for a pass: hands its readings, the response and the limits of the
//! nuts to the search, and what the search finds back.
//!
//! Nothing here depends on where the response comes from.

use crate::plan::{
    FARTHEST_TURN, PlanError, SearchError, SearchProblem, SearchWorkspace, TurnBounds,
    smallest_spread,
};
use crate::press::{
    ArmIndex, MOST_NOTCHES_PER_RELACE, NaturalSpline, Notches, Response, SplineError,
};
use crate::units::{ExactLength, holds};

use super::{Gate, Session, SlackStop};

/// What the user asks of a plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Wishes {
    /// At most so many nuts are turned.
    pub most_nuts: Option<usize>,
    /// Nuts are turned outward only.
    pub outward_only: bool,
}

/// Turns for all arms and the spread they promise.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// Turns, one per arm.
    pub turns: Vec<Notches>,
    /// Spread over the counting stations that were read, in nanometres.
    pub spread_nm: f64,
}

impl Plan {
    /// Whether every nut is left as it is.
    pub fn leaves_all(&self) -> bool {
        self.turns.iter().all(|turn| turn.0 == 0)
    }
}

/// What the exact search makes of a piece.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Searched {
    /// The smallest spread that the limits and wishes allow.
    pub smallest: Plan,
    /// Whether it was proven that no turns leave a smaller spread. Only
    /// limits and readings far from any press's leave it open.
    pub proven: bool,
    /// How far each nut may be turned, one per arm, wishes aside.
    pub bounds: Vec<TurnBounds>,
    /// Arms whose nut is left because nothing was read there.
    pub held: Vec<ArmIndex>,
}

/// Why there is no plan.
#[derive(Debug, Clone, PartialEq)]
pub enum PlanningProblem {
    /// Something is missing or doubtful: there are no turns before it is
    /// settled.
    NotClear(Box<Gate>),
    /// Nobody knows where these nuts stand: they are found first.
    NutsLost(Vec<ArmIndex>),
    /// The limits of this nut and the opening margin leave it no position.
    NoTurnAllowed(ArmIndex),
    /// No turns satisfy all limits and wishes together.
    NothingAllowed,
    /// The response has other numbers of stations and arms than the session.
    OtherShape,
    /// The search refused the figures.
    Search(SearchError),
    /// Learning or choosing refused the figures.
    Learning(PlanError),
}

holds! { PlanningProblem { Learning(PlanError) } }

impl From<SearchError> for PlanningProblem {
    fn from(problem: SearchError) -> Self {
        match problem {
            SearchError::NothingAllowed => Self::NothingAllowed,
            problem => Self::Search(problem),
        }
    }
}

impl Session {
    /// The answer of every station (rows) to independent nuts: each raises the
    /// splice at its own arm by its notch effect, and the jaw between is the
    /// natural spline through the arms.
    ///
    /// # Errors
    /// What the spline refused; never for a session that is sound.
    pub fn independent_response(&self) -> Result<Response, SplineError> {
        let spline = NaturalSpline::new(&self.press.arm_positions_nm())?;
        let weights: Vec<Vec<f64>> = self
            .station_positions_nm()
            .iter()
            .map(|&position| spline.weights_at(position))
            .collect();
        let effects = self.press.notch_effects_nm();
        let weight = |station: usize, arm: usize| weights.get(station)?.get(arm).copied();
        let effect = |arm: usize| effects.get(arm).copied();
        Ok(Response::from_fn(
            weights.len(),
            effects.len(),
            |station, arm| {
                weight(station, arm)
                    .zip(effect(arm))
                    .map_or(0.0, |(weight, effect)| weight * effect)
            },
        ))
    }

    /// How far each nut may be turned after a pass, one per arm, in notches.
    ///
    /// A nut with limits may go anywhere between them; one without, at most
    /// [`MOST_NOTCHES_PER_RELACE`], and never beyond what a nut position may
    /// be. Inward the opening margin holds it too:
    /// the opening loses the nut's whole movement. When the margin was
    /// measured is not recorded, so what the nut has gone inward since the
    /// session began is taken off it. Limits and margin that leave nothing
    /// give bounds with `least` above `most`.
    pub fn turn_bounds(&self, pass: usize) -> Vec<TurnBounds> {
        self.bounds_where_free(pass, MOST_NOTCHES_PER_RELACE)
    }

    /// As [`turn_bounds`](Self::turn_bounds), with another most in one re-lace
    /// where there are no limits.
    pub(super) fn bounds_where_free(&self, pass: usize, most: i32) -> Vec<TurnBounds> {
        self.press
            .arms
            .iter()
            .zip(self.nuts_at(pass))
            .zip(&self.start_nuts)
            .map(|((arm, now), start)| {
                let may_stand = arm.may_stand();
                let mut bounds = TurnBounds {
                    least: (may_stand.most_in - *now).0,
                    most: (may_stand.most_out - *now).0,
                };
                if arm.limits.is_none() {
                    bounds.least = bounds.least.max(-most);
                    bounds.most = bounds.most.min(most);
                }
                if let Some(left) = self.press.margin_left(arm, *start, *now) {
                    let travel = self.press.travel_per_notch(arm).nm().max(1);
                    let whole = i32::try_from(left.nm().div_euclid(travel));
                    let inward = whole.unwrap_or(FARTHEST_TURN).clamp(0, FARTHEST_TURN);
                    bounds.least = bounds.least.max(-inward);
                }
                bounds
            })
            .collect()
    }

    /// The turns with the smallest spread of a piece, for a response of every
    /// station (rows) to every nut (columns), turning no nut out to where its
    /// rod would be slack.
    ///
    /// Counting stations that were not read are left out; the nut of an arm at
    /// which nothing was read is left alone.
    pub(super) fn searched(
        &self,
        pass: usize,
        response: &Response,
        wishes: Wishes,
        slack: &[SlackStop],
        workspace: &mut SearchWorkspace,
    ) -> Result<Searched, PlanningProblem> {
        if (response.stations(), response.arms()) != (self.stations.len(), self.press.arms.len()) {
            return Err(PlanningProblem::OtherShape);
        }
        let held = self.unread_arms(pass);
        let mut bounds = self.turn_bounds(pass);
        for (bound, (arm, _)) in bounds.iter_mut().zip(self.press.indexed_arms()) {
            if held.contains(&arm) {
                *bound = TurnBounds { least: 0, most: 0 };
            } else if bound.least > bound.most {
                return Err(PlanningProblem::NoTurnAllowed(arm));
            }
        }
        for stop in slack {
            if let Some(bound) = bounds.get_mut(stop.arm.0) {
                bound.most = bound.most.min(stop.most.0).max(bound.least);
            }
        }
        let (thickness_nm, counting) = self.counting_rows(pass, response);
        let problem = SearchProblem {
            most_nuts: wishes.most_nuts,
            outward_only: wishes.outward_only,
            ..SearchProblem::new(&thickness_nm, &counting, &bounds)
        };
        let found = smallest_spread(&problem, workspace)?;
        Ok(Searched {
            smallest: Plan {
                turns: found.turns.into_iter().map(Notches).collect(),
                spread_nm: found.spread_nm,
            },
            proven: found.proven,
            bounds,
            held,
        })
    }

    /// Arms whose nut stands outside its limits at a pass.
    pub fn outside_limits(&self, pass: usize) -> Vec<ArmIndex> {
        let arms = self.press.indexed_arms().zip(self.nuts_at(pass));
        arms.filter(|((_, arm), nut)| arm.limits.is_some_and(|limits| !limits.allow(**nut)))
            .map(|((arm, _), _)| arm)
            .collect()
    }

    /// The gate of a pass, where it is clear.
    pub(super) fn clear_gate(&self, pass: usize) -> Result<Gate, PlanningProblem> {
        let gate = self.gate(pass);
        if pass + 1 == self.passes.len() && !self.lost.is_empty() {
            Err(PlanningProblem::NutsLost(self.lost.clone()))
        } else if gate.is_clear() {
            Ok(gate)
        } else {
            Err(PlanningProblem::NotClear(Box::new(gate)))
        }
    }

    /// Arms whose own station has no reading in a pass.
    fn unread_arms(&self, pass: usize) -> Vec<ArmIndex> {
        let profile = self.passes.get(pass).map(super::Pass::profile);
        self.stations
            .iter()
            .enumerate()
            .filter(|(station, _)| {
                profile
                    .as_ref()
                    .is_none_or(|profile| profile.mean(*station).is_none())
            })
            .filter_map(|(_, at)| at.arm())
            .collect()
    }

    /// Thickness above the thinnest, in nanometres, and response of the
    /// counting stations that were read. The difference is taken exactly, so
    /// that whole nanometres stay whole.
    pub(super) fn counting_rows(&self, pass: usize, response: &Response) -> (Vec<f64>, Response) {
        let profile = self.passes.get(pass).map(super::Pass::profile);
        let read: Vec<(usize, ExactLength)> = self
            .counting()
            .filter_map(|station| Some((station, profile.as_ref()?.mean(station)?)))
            .collect();
        let thinnest = read.iter().map(|(_, mean)| *mean).min();
        let thickness_nm = read
            .iter()
            .map(|(_, mean)| thinnest.map_or(0.0, |thinnest| mean.minus(thinnest).nm_f64()))
            .collect();
        let stations: Vec<usize> = read.iter().map(|(station, _)| *station).collect();
        (thickness_nm, response.of_stations(&stations))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::press::{Arm, NutLimits, NutPosition, Press};
    use crate::session::{Document, Edit, Field};
    use crate::units::{Length, Sign, TypedLength, Unit};

    fn typed(text: &str) -> TypedLength {
        TypedLength::parse(text, Unit::Inch, Sign::None).unwrap()
    }

    /// A press of arms 12 in apart with one pass of these readings.
    fn session(readings: &[&str], changes: &[Edit]) -> Session {
        let arm = |index: usize| Arm::new(typed(&format!("{}", 6 + 12 * index)), typed("0.004"));
        let press = Press::new(
            "",
            typed(&format!("{}", 12 * readings.len())),
            (0..readings.len()).map(arm),
        );
        let mut document = Document::unsaved(Session::new(String::new(), Unit::Inch, press));
        let rows = readings.iter().map(|text| vec![(*text).to_owned()]);
        let first = [
            Edit::add_pass([], ""),
            Edit::fill((0, 0, 0), rows, Unit::Inch),
        ];
        for edit in first.iter().chain(changes) {
            document.apply(edit).unwrap();
        }
        document.session().clone()
    }

    fn limits(arm: usize, most_in: i32, most_out: i32) -> Edit {
        Edit::SetLimits {
            arm: Some(ArmIndex(arm)),
            limits: Some(NutLimits {
                most_in: NutPosition(most_in),
                most_out: NutPosition(most_out),
            }),
        }
    }

    fn set(field: Field, text: &str) -> Edit {
        Edit::set(field, text, Unit::Inch)
    }

    fn search(session: &Session) -> Result<Searched, PlanningProblem> {
        let response = session.independent_response().unwrap();
        let mut workspace = SearchWorkspace::default();
        session.searched(0, &response, Wishes::default(), &[], &mut workspace)
    }

    fn check(readings: &[&str], changes: &[Edit], turns: &[i32], spread_in: f64) -> Searched {
        let found = search(&session(readings, changes)).unwrap();
        let found_turns: Vec<i32> = found.smallest.turns.iter().map(|t| t.0).collect();
        assert_eq!(found_turns, turns, "{readings:?} {changes:?}");
        let found_in = found.smallest.spread_nm / 25.4e6;
        assert!((found_in - spread_in).abs() < 1e-12, "{found_in}");
        found
    }

    #[test]
    fn the_reach_is_stated_only_where_it_holds() {
        let readings = ["0.2500", "0.2440", "0.2510", "0.2525"];
        let reach = |changes: &[Edit], turns: &[i32], spread_in: f64| {
            let smallest = check(&readings, changes, turns, spread_in).smallest;
            let session = session(&readings, changes);
            let response = session.independent_response().unwrap();
            session.reach(0, smallest.spread_nm, &response)
        };
        // 0.004 in x (1 - 1/4) = 0.003 in.
        let free = reach(&[], &[0, 2, 0, 0], 0.0025).unwrap();
        assert_eq!(free.always, Length::from_nm(76_200).into());
        let tight =
            [(0, 0), (1, 1), (2, 0), (3, 0)].map(|(arm, most_out)| limits(arm, 0, most_out));
        assert_eq!(reach(&tight, &[0, 1, 0, 0], 0.0045), None);
        let unequal = set(Field::NotchEffect(ArmIndex(1)), "0.0041");
        assert_eq!(reach(&[unequal], &[0, 2, 0, 0], 0.0025), None);
    }

    #[test]
    fn an_unread_arm_is_left_alone() {
        // It does not count, or the gate would not be clear.
        let not_counting = Edit::SetCounts {
            station: 1,
            counts: false,
        };
        let readings = ["0.2500", "", "0.2420"];
        let found = check(&readings, &[not_counting], &[0, 0, 2], 0.0);
        assert_eq!(found.held, [ArmIndex(1)]);
    }

    #[test]
    fn no_nut_is_turned_beyond_what_a_position_may_be() {
        // B is thin by 0.0320 in, eight notches of 0.004 in; from 198 it may go
        // out by two only, to 200. The rest is left to A: in by six.
        let at = |notches: i32| Edit::set_nut(Some(0), ArmIndex(1), NutPosition(notches));
        let far = check(&["0.2820", "0.2500"], &[at(198)], &[-6, 2], 0.0);
        assert_eq!((far.bounds[1].least, far.bounds[1].most), (-6, 2));
        let far = check(&["0.2500", "0.2820"], &[at(-198)], &[6, -2], 0.0);
        assert_eq!((far.bounds[1].least, far.bounds[1].most), (-2, 6));
    }

    #[test]
    fn the_opening_margin_holds_nuts() {
        // Thick at A by two notches: both in at A, or both out at B.
        let outward = check(&["0.258", "0.250"], &[], &[0, 2], 0.0);
        assert_eq!(outward.bounds[0].least, -MOST_NOTCHES_PER_RELACE);
        let no_out = limits(1, -6, 0);
        check(
            &["0.258", "0.250"],
            std::slice::from_ref(&no_out),
            &[-2, 0],
            0.0,
        );
        let margin = set(Field::OpeningMargin(ArmIndex(0)), "0.0079");
        check(
            &["0.258", "0.250"],
            &[no_out.clone(), margin],
            &[-1, 0],
            0.004,
        );
        // A nut travel larger than the effect at the splice uses more of it.
        let margin = set(Field::OpeningMargin(ArmIndex(0)), "0.012");
        let travel = set(Field::NutTravel, "0.010");
        check(
            &["0.258", "0.250"],
            &[no_out, margin, travel],
            &[-1, 0],
            0.004,
        );
    }

    #[test]
    fn limits_that_leave_nothing_are_said() {
        let margin = set(Field::OpeningMargin(ArmIndex(0)), "0.001");
        let session = session(&["0.258", "0.250"], &[limits(0, -12, -3), margin]);
        assert_eq!(
            search(&session),
            Err(PlanningProblem::NoTurnAllowed(ArmIndex(0)))
        );
    }
}
