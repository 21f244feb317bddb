//! What the window shows of a pass: its profile, how the splice answers, and
//! the turns worth making. Computed once per state of the document.

use crate::plan::{SearchProblem, SearchWorkspace, TurnBounds, smallest_spread, spread_after};
use crate::press::{Notches, Response};
use crate::session::Session;
use crate::splice::{Spread, Standing};
use crate::units::TypedLength;

/// What kind of choice a row offers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RowKind {
    /// Leave every nut.
    Leave,
    /// The best with this many nuts touched.
    Nuts(usize),
    /// The best that turns nuts outward only.
    Outward,
    /// The smallest spread that can be had.
    Smallest,
}

/// One way to go on.
#[derive(Debug, Clone, PartialEq)]
pub struct PlanRow {
    /// What kind of choice it is.
    pub kind: RowKind,
    /// Turns, one per arm.
    pub turns: Vec<Notches>,
    /// Predicted spread in nanometres.
    pub spread_nm: f64,
}

/// What the window shows of one pass of one state of the document.
#[derive(Debug, Clone, Default)]
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
    /// Answer of every station to every nut.
    pub response: Option<Response>,
    /// How far each nut may be turned.
    pub bounds: Vec<TurnBounds>,
    /// The ways to go on, leaving the nuts alone first.
    pub rows: Vec<PlanRow>,
    /// Cells that look typed in the wrong unit: station, repeat, and the
    /// reading in the other unit.
    pub slips: Vec<(usize, usize, TypedLength)>,
    /// Standard uncertainty of a reading by the gauge's step alone: step over
    /// the root of twelve (JCGM 100, 4.3.7), in nanometres.
    pub step_u_nm: f64,
    /// Which of them is recommended.
    pub recommended: usize,
}

impl Outlook {
    /// Looks at a pass of a session.
    pub fn of(session: &Session, pass: Option<usize>) -> Self {
        let mut outlook = Self {
            pass,
            arms_nm: session.press.arm_positions_nm(),
            stations_nm: session.station_positions_nm(),
            bounds: session.turn_bounds(pass.unwrap_or(usize::MAX)),
            response: session.independent_response().ok(),
            step_u_nm: session.gauge.step.length().nm_f64() / 12_f64.sqrt(),
            ..Self::default()
        };
        let Some(read) = pass.and_then(|pass| session.passes.get(pass)) else {
            outlook.means_nm = vec![None; session.stations.len()];
            return outlook;
        };
        outlook.slips = pass.map_or_else(Vec::new, |pass| session.slipped_units(pass));
        let profile = read.profile();
        outlook.means_nm = (0..session.stations.len())
            .map(|station| profile.mean(station).map(|mean| mean.nm_f64()))
            .collect();
        outlook.spread = Spread::of(&session.stations, &profile);
        outlook.standing = outlook
            .spread
            .as_ref()
            .map(|spread| spread.standing(session.tolerance.length()));
        outlook.weigh(session);
        outlook
    }

    /// The recommended turns; none when there is nothing to recommend.
    pub fn recommended_turns(&self) -> Option<&[Notches]> {
        self.rows
            .get(self.recommended)
            .map(|row| row.turns.as_slice())
    }

    /// The station means after some turns, in nanometres.
    pub fn means_after(&self, turns: &[Notches]) -> Vec<Option<f64>> {
        self.means_nm
            .iter()
            .enumerate()
            .map(|(station, mean)| {
                let change = self.response.as_ref().map_or(0.0, |response| {
                    response.change_at(station, turns.iter().map(|turn| f64::from(turn.0)))
                });
                mean.map(|mean| mean + change)
            })
            .collect()
    }

    /// The spread over the counting stations after some turns.
    pub fn spread_after(&self, session: &Session, turns: &[Notches]) -> Option<f64> {
        let (low, high) = self
            .means_after(turns)
            .into_iter()
            .zip(&session.stations)
            .filter(|(_, station)| station.counts)
            .filter_map(|(mean, _)| mean)
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), mean| {
                (low.min(mean), high.max(mean))
            });
        (low <= high).then_some(high - low)
    }

    fn weigh(&mut self, session: &Session) {
        let counting: Vec<usize> = (0..session.stations.len())
            .filter(|&station| session.stations.get(station).is_some_and(|at| at.counts))
            .filter(|&station| self.means_nm.get(station).is_some_and(Option::is_some))
            .collect();
        if counting.len() < 2 {
            return;
        }
        let Some(full) = &self.response else { return };
        let thickness: Vec<f64> = counting
            .iter()
            .filter_map(|&station| self.means_nm.get(station).copied().flatten())
            .collect();
        let response = Response::from_fn(counting.len(), full.arms(), |row, arm| {
            counting
                .get(row)
                .map_or(0.0, |&station| full.at(station, arm))
        });
        let arms = full.arms();
        let zero = vec![0; arms];
        let mut rows = vec![row(
            RowKind::Leave,
            &zero,
            spread_after(&thickness, &response, &zero),
        )];
        let mut workspace = SearchWorkspace::default();
        let mut search = |kind, most_nuts, outward_only| {
            let problem = SearchProblem {
                most_nuts,
                outward_only,
                ..SearchProblem::new(&thickness, &response, &self.bounds)
            };
            smallest_spread(&problem, &mut workspace, &|| false)
                .ok()
                .map(|found| row(kind, &found.turns, found.spread_nm))
        };
        let smallest = search(RowKind::Smallest, None, false);
        let smallest_nm = smallest.as_ref().map_or(0.0, |row| row.spread_nm);
        for nuts in 1..=arms {
            let Some(best) = search(RowKind::Nuts(nuts), Some(nuts), false) else {
                break;
            };
            if rows.iter().any(|row| row.turns == best.turns) {
                continue;
            }
            let done = best.spread_nm <= smallest_nm + 1e-6;
            rows.push(best);
            if done {
                break;
            }
        }
        let outward = search(RowKind::Outward, None, true);
        for extra in [outward, smallest].into_iter().flatten() {
            if !rows.iter().any(|row| row.turns == extra.turns) {
                rows.push(extra);
            }
        }
        let inside = self.standing == Some(Standing::Inside);
        self.recommended = if inside {
            0
        } else {
            (0..rows.len())
                .min_by(|&a, &b| {
                    let spread =
                        |index: usize| rows.get(index).map_or(f64::MAX, |row| row.spread_nm);
                    spread(a).total_cmp(&spread(b))
                })
                .unwrap_or(0)
        };
        self.rows = rows;
    }
}

fn row(kind: RowKind, turns: &[i32], spread_nm: f64) -> PlanRow {
    PlanRow {
        kind,
        turns: turns.iter().map(|&turn| Notches(turn)).collect(),
        spread_nm,
    }
}
