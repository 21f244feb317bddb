//! What is believed of the press's response before the first pass of a session,
//! and its passes as the learning takes them.

use std::sync::Arc;

use crate::plan::{
    FoundAndLeft, Layout, MOST_NOTCHES, MOST_SCATTER_NM, Missed, Model, Noise, PastPiece,
    PlanError, Posterior, ResponsePrior, StationReading, Stiffness, TestPass,
};
use crate::press::{NutPosition, Response};
use crate::units::{Length, TypedLength};

use super::press_record::{place_tolerance, stand_alike};
use super::prior_shelf::{Geometry, PriorShelf};
use super::{PastPass, PastVisit, Session};

/// Where the response that is planned with comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ResponseSource {
    /// It was given outright; nothing is learnt about it.
    Given,
    /// From how jaws answer, and from what the passes taught.
    Posterior,
}

/// An earlier visit that could not be learnt from.
#[derive(Debug, Clone, PartialEq)]
pub struct LeftOut {
    /// The id of its session.
    pub session: String,
    /// When it was, as the user wrote it.
    pub when: String,
    /// Why.
    pub why: WhyLeftOut,
}

/// Why an earlier visit is left out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum WhyLeftOut {
    /// The arms stood elsewhere then, or there were others.
    OtherArms,
    /// No two of its passes were read at stations that there are now.
    OtherStations,
    /// Its figures are beyond any press.
    Beyond(PlanError),
    /// It and the visits after it are more than is reckoned with: more than any
    /// shop measures.
    TooMuch,
}

/// Most work that learning from earlier visits may be, in multiplications: a
/// second or two. A dozen arms and forty stations make 300 passes of it, four
/// arms with a station each far more than a file has room for.
const MOST_WORK: f64 = 4e9;

/// How many visits are left out, the oldest first, so that those after them are
/// no more than [`MOST_WORK`].
fn too_many(work: &[f64]) -> usize {
    let mut sum = 0.0;
    let newest = work.iter().rev().take_while(|work| {
        sum += **work;
        sum <= MOST_WORK
    });
    work.len() - newest.count()
}

/// What is believed before the first pass of a session.
#[derive(Debug, Clone)]
pub(super) struct Belief {
    pub prior: Arc<ResponsePrior>,
    pub along: Vec<f64>,
    pub source: ResponseSource,
    /// Earlier visits learnt from, and their read passes.
    pub visits: usize,
    pub visit_passes: usize,
    pub left_out: Vec<LeftOut>,
    /// How far predictions missed at those visits.
    pub missed: Missed,
}

impl Belief {
    fn before_visits(prior: Arc<ResponsePrior>, along: Vec<f64>, source: ResponseSource) -> Self {
        Self {
            prior,
            along,
            source,
            visits: 0,
            visit_passes: 0,
            left_out: Vec::new(),
            missed: Missed::default(),
        }
    }
}

/// What is believed of the nuts' answers after a visit.
#[derive(Debug, Clone, PartialEq)]
pub struct Answers {
    /// The id of the visit's session.
    pub session: String,
    /// Change at each arm's own station for a notch out of its nut, in
    /// nanometres, and its standard deviation.
    pub per_notch_nm: Vec<(f64, f64)>,
    /// The whole response, its means.
    pub response: Response,
    /// The station at each arm.
    pub own: Vec<usize>,
}

/// What one earlier visit taught.
struct Taught {
    prior: ResponsePrior,
    /// Its passes with any reading.
    passes: usize,
    missed: Missed,
}

/// What is known after some passes of a session.
pub(super) struct Known {
    pub belief: Belief,
    pub passes: Vec<TestPass>,
    pub posterior: Posterior,
}

/// The last belief worked out, and what it rests on.
#[derive(Debug, Default)]
pub(super) struct BeliefMemo(Option<(Geometry, Vec<PastVisit>, Belief)>);

impl Session {
    /// What is believed of the response before the first pass.
    pub(super) fn belief(
        &self,
        shelf: &PriorShelf,
        memo: &mut BeliefMemo,
    ) -> Result<Belief, PlanError> {
        let layout = self.layout()?;
        if let Some(known) = &self.known_response {
            let prior = Arc::new(ResponsePrior::fixed(known.response())?);
            let given = ResponseSource::Given;
            return Ok(Belief::before_visits(prior, layout.along(), given));
        }
        let geometry = self.geometry(layout);
        if let Some((of, earlier, belief)) = &memo.0
            && *of == geometry
            && earlier.iter().eq(self.visits_that_count())
        {
            return Ok(belief.clone());
        }
        let belief = self.belief_after_visits(&geometry, shelf, &mut |_, _| {})?;
        let earlier = self.visits_that_count().cloned().collect();
        memo.0 = Some((geometry, earlier, belief.clone()));
        Ok(belief)
    }

    fn layout(&self) -> Result<Layout, PlanError> {
        Layout::new(
            (0.0, self.press.jaw_length.length().nm_f64()),
            &self.press.arm_positions_nm(),
            &self.station_positions_nm(),
        )
    }

    fn geometry(&self, layout: Layout) -> Geometry {
        Geometry {
            layout,
            effects_nm: self.press.notch_effects_nm(),
            stiffness: self.stiffness(),
        }
    }

    /// What is believed of each nut's answer at its own station after every
    /// earlier visit that taught something, faded until the next, oldest first;
    /// whether the response was given outright does not matter here.
    ///
    /// # Errors
    /// [`PlanError`] when figures are beyond any press.
    pub fn answers_over_visits(&self, shelf: &PriorShelf) -> Result<Vec<Answers>, PlanError> {
        let layout = self.layout()?;
        let own = layout.own_stations();
        let mut all = Vec::new();
        self.belief_after_visits(&self.geometry(layout), shelf, &mut |visit, belief| {
            let prior = &belief.prior;
            let arms = prior.arms();
            let values = own.iter().enumerate().map(|(arm, station)| {
                let place = station * arms + arm;
                let mean = prior.gaussian().mean().get(place).copied();
                (mean.unwrap_or(0.0), prior.gaussian().variance(place).sqrt())
            });
            all.push(Answers {
                session: visit.session.clone(),
                per_notch_nm: values.collect(),
                response: prior.mean(),
                own: own.clone(),
            });
        })?;
        Ok(all)
    }

    /// Responses drawn from what the earlier visits taught, as many as asked for;
    /// the same ones every time.
    ///
    /// # Errors
    /// [`PlanError`] when figures are beyond any press.
    pub fn response_draws(
        &self,
        shelf: &PriorShelf,
        draws: usize,
    ) -> Result<Vec<Response>, PlanError> {
        let belief = self.belief(shelf, &mut BeliefMemo::default())?;
        belief.prior.draws(draws)
    }

    /// What section and rod data say; a sound session has none that make no
    /// sense.
    fn stiffness(&self) -> Stiffness {
        let known = self.jaw_and_rods.as_ref();
        known
            .and_then(|known| known.stiffness(&self.press).ok())
            .unwrap_or(Stiffness::Unknown)
    }

    fn belief_after_visits(
        &self,
        geometry: &Geometry,
        shelf: &PriorShelf,
        after: &mut dyn FnMut(&PastVisit, &Belief),
    ) -> Result<Belief, PlanError> {
        let fresh = shelf.prior(geometry)?;
        let (prior, along) = (Arc::clone(&fresh), geometry.layout.along());
        let mut belief = Belief::before_visits(prior, along, ResponseSource::Posterior);
        // A single pass says nothing about how the press answers.
        let visits = self.visits_that_count();
        let visits: Vec<_> = visits.filter(|visit| visit.read_passes() >= 2).collect();
        // Every reading changes the covariances of all that is unknown.
        let (arms, stations) = (fresh.arms() as f64, fresh.stations() as f64);
        let of_pass = stations * (stations * (arms + 1.0)) * (stations * (arms + 1.0));
        let work = visits
            .iter()
            .map(|visit| visit.read_passes() as f64 * of_pass);
        let too_many = too_many(&work.collect::<Vec<_>>());
        for (index, visit) in visits.into_iter().enumerate() {
            let taught = match index < too_many {
                true => Err(WhyLeftOut::TooMuch),
                false => self.taught_by(visit, &belief, &fresh),
            };
            match taught {
                Ok(taught) => {
                    belief.prior = Arc::new(taught.prior);
                    belief.visits += 1;
                    belief.visit_passes += taught.passes;
                    belief.missed = taught.missed;
                    after(visit, &belief);
                }
                Err(why) => belief.left_out.push(LeftOut {
                    session: visit.session.clone(),
                    when: visit.when.clone(),
                    why,
                }),
            }
        }
        Ok(belief)
    }

    /// Earlier visits that say something about the press as it is: none after a
    /// repair. The session's own evidence may have come back with its press
    /// file.
    fn visits_that_count(&self) -> impl Iterator<Item = &PastVisit> {
        let counts = !self.follows_repair();
        let visits = self.earlier.iter();
        visits.filter(move |visit| counts && visit.session != self.id)
    }

    /// What is believed after a visit, faded until now.
    fn taught_by(
        &self,
        visit: &PastVisit,
        before: &Belief,
        fresh: &ResponsePrior,
    ) -> Result<Taught, WhyLeftOut> {
        let arms = lengths(&visit.arms);
        let own = self.press.arm_positions();
        if !stand_alike(&own, &arms) {
            return Err(WhyLeftOut::OtherArms);
        }
        let stations = lengths(&visit.stations);
        let places = self.places_of(&stations, place_tolerance(&own));
        let notch_nm = mean_effect_nm(&before.prior);
        let mut handle = Handle::default();
        let passes: Vec<TestPass> = visit
            .passes
            .iter()
            .map(|pass| TestPass {
                nuts: positions(&pass.nuts),
                handle: handle.moved(pass.handle.as_ref(), notch_nm),
                readings: places
                    .iter()
                    .map(|place| {
                        let mean = place.and_then(|station| *pass.means.get(station)?)?;
                        Some(StationReading {
                            mean_nm: mean.mean.nm_f64(),
                            repeats: mean.repeats,
                        })
                    })
                    .collect(),
            })
            .collect();
        let is_read = |pass: &&TestPass| pass.readings.iter().any(Option::is_some);
        let read = passes.iter().filter(is_read).count();
        if read < 2 {
            return Err(WhyLeftOut::OtherStations);
        }
        let model = Model {
            prior: &before.prior,
            along: &before.along,
            noise: Noise {
                missed: before.missed,
                ..noise_of_visit(visit)
            },
        };
        let learn = || {
            let posterior = Posterior::from_passes(&model, &passes)?;
            Ok(Taught {
                prior: posterior.taught()?.faded(fresh)?,
                passes: read,
                missed: posterior.missed(),
            })
        };
        learn().map_err(WhyLeftOut::Beyond)
    }

    /// For each station, the one of an earlier visit at the same place.
    fn places_of(&self, stations: &[Length], allowed: Length) -> Vec<Option<usize>> {
        let own = self.stations.iter().map(|at| at.position(&self.press));
        own.map(|own| {
            let distance = |at: &Length| at.minus(own).nm().abs();
            let nearest = (0..).zip(stations).min_by_key(|(_, at)| distance(at));
            nearest
                .filter(|(_, at)| distance(at) <= allowed.nm())
                .map(|(index, _)| index)
        })
        .collect()
    }

    /// The passes up to and including `pass`, as the learning takes them.
    pub(super) fn test_passes(&self, pass: usize, belief: &Belief) -> Vec<TestPass> {
        let notch_nm = mean_effect_nm(&belief.prior);
        let mut handle = Handle::default();
        self.passes
            .iter()
            .zip(self.sound_profiles(pass))
            .map(|(pass, sound)| TestPass {
                nuts: positions(&pass.nuts),
                handle: handle.moved(pass.handle.as_ref(), notch_nm),
                readings: sound
                    .means
                    .iter()
                    .map(|mean| {
                        let mean = mean.filter(|_| !pass.nut_lost)?;
                        Some(StationReading {
                            mean_nm: mean.mean.nm_f64(),
                            repeats: u32::try_from(mean.repeats).ok()?,
                        })
                    })
                    .collect(),
            })
            .collect()
    }

    /// What is known after the passes up to and including `pass`.
    pub(super) fn known_after(
        &self,
        pass: usize,
        shelf: &PriorShelf,
        memo: &mut BeliefMemo,
    ) -> Result<Known, PlanError> {
        let belief = self.belief(shelf, memo)?;
        let passes = self.test_passes(pass, &belief);
        let model = Model {
            prior: &belief.prior,
            along: &belief.along,
            noise: Noise {
                missed: belief.missed,
                ..self.noise()
            },
        };
        let posterior = Posterior::from_passes(&model, &passes)?;
        Ok(Known {
            belief,
            passes,
            posterior,
        })
    }

    /// The scatter of this session's readings and lacings, and how far from
    /// level the press is to be expected: what is known, else what is assumed.
    pub fn noise(&self) -> Noise {
        let (repeatability, lacing) = (self.repeatability(), self.lacing());
        let noise = Noise {
            repeatability_freedom: repeatability.dof,
            lacing_freedom: lacing.dof,
            ..noise(
                self.gauge.step.length(),
                Some(repeatability.sd_nm),
                Some(lacing.sd_nm),
            )
        };
        // Arms that stood elsewhere are another press.
        let own = self.press.arm_positions();
        let alike = |visit: &&PastVisit| stand_alike(&own, &lengths(&visit.arms));
        let visits = self.visits_that_count().filter(alike);
        let visits: Vec<FoundAndLeft> = visits.filter_map(found_and_left).collect();
        noise.with_history(&visits)
    }
}

fn noise_of_visit(visit: &PastVisit) -> Noise {
    let nm = |typed: &Option<TypedLength>| typed.as_ref().map(|typed| typed.length().nm_f64());
    noise(
        visit.gauge_step.length(),
        nm(&visit.repeatability),
        nm(&visit.lacing_scatter),
    )
}

fn lengths(typed: &[TypedLength]) -> Vec<Length> {
    typed.iter().map(TypedLength::length).collect()
}

/// The first and the last piece of a visit.
fn found_and_left(visit: &PastVisit) -> Option<FoundAndLeft> {
    let noise = noise_of_visit(visit);
    let piece = |pass: &PastPass| {
        let means = || pass.means.iter().flatten();
        let repeats = means().map(|mean| mean.repeats).min()?;
        Some(PastPiece {
            means_nm: means().map(|mean| mean.mean.nm_f64()).collect(),
            scatter_variance: noise.station_variance(repeats),
        })
    };
    Some(FoundAndLeft {
        found: visit.passes.iter().find_map(piece)?,
        left: visit.passes.iter().rev().find_map(piece)?,
    })
}

fn noise(step: Length, repeatability_nm: Option<f64>, lacing_nm: Option<f64>) -> Noise {
    let assumed = Noise::assumed(step.nm_f64());
    // Repeats that scatter by centimetres are slips of the keyboard; they are
    // pointed out elsewhere and must not keep the rest from being reckoned.
    let within = |sd_nm: f64| sd_nm.min(MOST_SCATTER_NM);
    Noise {
        repeatability_nm: repeatability_nm.map_or(assumed.repeatability_nm, within),
        lacing_nm: lacing_nm.map_or(assumed.lacing_nm, within),
        ..assumed
    }
}

fn positions(nuts: &[NutPosition]) -> Vec<f64> {
    nuts.iter().map(|nut| nut.0.into()).collect()
}

/// Mean rise of the stations when every nut goes one notch out, as believed.
pub(super) fn mean_effect_nm(prior: &ResponsePrior) -> f64 {
    let sum: f64 = prior.gaussian().mean().iter().sum();
    sum / prior.stations().max(1) as f64
}

/// Where the common handle stands, in notches of every nut.
#[derive(Debug, Default)]
struct Handle(f64);

impl Handle {
    /// After a move, given as thickness. Where turning every nut does not
    /// thicken the splice, or next to nothing, the move is not reckoned with.
    fn moved(&mut self, thickness: Option<&TypedLength>, notch_nm: f64) -> f64 {
        let moved = thickness.map_or(0.0, |move_| move_.length().nm_f64() / notch_nm);
        if notch_nm > 0.0 && (self.0 + moved).abs() <= MOST_NOTCHES / 2.0 {
            self.0 += moved;
        }
        self.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_oldest_visits_are_left_out_where_there_is_too_much() {
        let half = MOST_WORK / 2.0;
        assert_eq!(too_many(&[]), 0);
        assert_eq!(too_many(&[half, half]), 0);
        assert_eq!(too_many(&[1.0, half, half]), 1);
        // What comes before one that is too much is left out too.
        assert_eq!(too_many(&[1.0, half, 1.0, half]), 2);
        // Thirty visits with ten passes, a dozen arms with a station each.
        let usual = 10.0 * 12.0 * (12.0 * 13.0) * (12.0 * 13.0);
        assert_eq!(too_many(&[usual; 30]), 0);
    }
}
