//! A simulated press: a jaw on rods, nuts that move it, pieces that scatter.
//!
//! The jaw is the beam of [`crate::press`]; where tensions are given its rods
//! only pull and may go slack, and the answer to the nuts is no longer linear.

use crate::plan::{Layout, SearchProblem, SearchWorkspace, TurnBounds, smallest_spread};
use crate::press::{JawBeam, JawError, JawLayout, JawStiffness, Response};
use crate::stats::Draws;

/// How pieces scatter and how a gauge reads them; standard deviations in
/// nanometres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scatter {
    /// One lacing to the next at one place.
    pub lacing_nm: f64,
    /// Shift of a whole piece against the next.
    pub shift_nm: f64,
    /// Tilt of a piece against the next, from one end of the jaw to the other.
    pub tilt_nm: f64,
    /// Of readings before they are rounded to the step.
    pub repeatability_nm: f64,
    /// Step of the gauge (not a standard deviation).
    pub step_nm: f64,
}

impl Scatter {
    /// One reading of a place that is truly so thick, in whole steps.
    pub fn reading_nm(&self, draws: &mut Draws, true_nm: f64) -> f64 {
        let reading = true_nm + self.repeatability_nm * draws.normal();
        (reading / self.step_nm).round() * self.step_nm
    }
}

/// The press itself, which no method may look into.
#[derive(Debug, Clone)]
pub struct SimulatedPress {
    /// Where its arms and the stations stand.
    pub layout: Layout,
    /// Mean thickness at every station with all nuts at zero.
    pub start_nm: Vec<f64>,
    /// Answer of each station to a notch at each nut, row by row; exact as long
    /// as no rod is slack.
    pub response: Vec<f64>,
    jaw: JawBeam,
    notch_nm: Vec<f64>,
    tensions_nm: Option<Vec<f64>>,
}

/// Largest less smallest.
pub fn spread_nm(profile: &[f64]) -> f64 {
    let high = profile.iter().copied().fold(f64::MIN, f64::max);
    high - profile.iter().copied().fold(f64::MAX, f64::min)
}

impl SimulatedPress {
    /// A level press of this stiffness, its nuts moving by a nanometre a notch
    /// and its rods tight whatever happens, until they are told otherwise.
    ///
    /// # Errors
    /// Any [`JawError`] of the stiffness.
    pub fn new(layout: Layout, stiffness: &JawStiffness<'_>) -> Result<Self, JawError> {
        let (arms, stations) = (layout.arms_nm(), layout.stations_nm());
        let places = JawLayout::new(layout.ends_nm(), arms, stations)?;
        let mut jaw = JawBeam::new(places, stiffness)?;
        let mut response = vec![0.0; arms.len() * stations.len()];
        jaw.influence_into(&mut response)?;
        Ok(Self {
            start_nm: vec![0.0; stations.len()],
            notch_nm: vec![1.0; arms.len()],
            layout,
            response,
            jaw,
            tensions_nm: None,
        })
    }

    /// The same press, each nut moving by so many times as much a notch.
    #[must_use]
    pub fn with_notches(mut self, factors: &[f64]) -> Self {
        let arms = self.arms();
        for row in self.response.chunks_exact_mut(arms) {
            row.iter_mut().zip(factors).for_each(|(b, v)| *b *= v);
        }
        let notches = self.notch_nm.iter_mut();
        notches.zip(factors).for_each(|(notch, v)| *notch *= v);
        self
    }

    /// The same press with rods that only pull, stretched by so much with the
    /// nuts at zero.
    #[must_use]
    pub fn with_tensions(mut self, tensions_nm: Vec<f64>) -> Self {
        self.tensions_nm = Some(tensions_nm);
        self
    }

    /// Number of arms.
    pub fn arms(&self) -> usize {
        self.layout.arms_nm().len()
    }

    /// Mean over the stations of what a notch at every nut does.
    pub fn row_sum(&self) -> f64 {
        self.response.iter().sum::<f64>() / self.start_nm.len() as f64
    }

    /// Movement of each nut by a notch.
    pub fn notch_nm(&self) -> &[f64] {
        &self.notch_nm
    }

    /// Mean profile with the nuts at these positions. Where so many rods are
    /// slack that nothing holds the jaw, it stands as if all still pulled.
    pub fn profile(&self, nuts: &[i32]) -> Vec<f64> {
        if let Some(tensions) = &self.tensions_nm
            && let Ok(slack_solution) = self.jaw.solve_slack(tensions, &self.movements(nuts))
        {
            let places = self.layout.stations_nm().iter();
            return places
                .zip(&self.start_nm)
                .map(|(x, start)| start + slack_solution.curve.at(*x))
                .collect();
        }
        let rows = self.response.chunks_exact(self.arms().max(1));
        self.start_nm
            .iter()
            .zip(rows)
            .map(|(start, row)| {
                let change: f64 = row.iter().zip(nuts).map(|(b, k)| b * f64::from(*k)).sum();
                start + change
            })
            .collect()
    }

    fn movements(&self, nuts: &[i32]) -> Vec<f64> {
        let nuts = nuts.iter().zip(&self.notch_nm);
        nuts.map(|(k, notch)| f64::from(*k) * notch).collect()
    }

    /// Laces a piece about a mean profile: its true thickness at each station.
    pub fn lace_about(&self, draws: &mut Draws, mean_nm: &[f64], scatter: &Scatter) -> Vec<f64> {
        let shift = scatter.shift_nm * draws.normal();
        let tilt = scatter.tilt_nm * draws.normal();
        mean_nm
            .iter()
            .zip(self.layout.along())
            .map(|(mean, xi)| mean + shift + tilt * xi + scatter.lacing_nm * draws.normal())
            .collect()
    }

    /// Turns within these bounds after which the mean profile's spread is
    /// smallest: the optimum of the linear answer, proven by the search, then
    /// turns of one and two nuts on the true answer as long as they help, in
    /// case a rod is slack. `None` where the bounds leave nothing.
    pub fn best_turns(
        &self,
        nuts: &[i32],
        bounds: &[TurnBounds],
        workspace: &mut SearchWorkspace,
    ) -> Option<Vec<i32>> {
        let arms = self.arms();
        let answer = |s: usize, i: usize| self.response.get(s * arms + i).copied();
        let response = Response::from_fn(self.start_nm.len(), arms, |s, i| {
            answer(s, i).unwrap_or_default()
        });
        let profile = self.profile(nuts);
        let problem = SearchProblem::new(&profile, &response, bounds);
        let mut best = smallest_spread(&problem, workspace).ok()?.turns;
        if self.tensions_nm.is_none() {
            return Some(best);
        }
        let after = |turns: &[i32]| {
            let nuts: Vec<i32> = nuts.iter().zip(turns).map(|(n, k)| n + k).collect();
            spread_nm(&self.profile(&nuts))
        };
        let mut smallest = after(&best);
        loop {
            let here = best.clone();
            for (i, by) in (0..arms).flat_map(|i| [(i, -1), (i, 1)]) {
                for (j, more) in (i..arms).flat_map(|j| [(j, -1), (j, 0), (j, 1)]) {
                    let mut turns = here.clone();
                    turns[i] += by;
                    turns[j] += more;
                    let mut held = turns.iter().zip(bounds);
                    if !held.all(|(k, bound)| (bound.least..=bound.most).contains(k)) {
                        continue;
                    }
                    let found = after(&turns);
                    if found < smallest {
                        (best, smallest) = (turns, found);
                    }
                }
            }
            if best == here {
                return Some(best);
            }
        }
    }
}
