//! What is kept of a press from visit to visit.

use crate::press::{CountQuantity, Notches, Press};
use crate::splice::Station;
use crate::units::{Length, TypedLength, Unit};

use super::{Gauge, JawAndRods, KnownResponse, KnownScatter, PastVisit, Session, SessionProblem};

/// A press as it was last left, with what each visit to it measured.
#[derive(Debug, Clone, PartialEq)]
pub struct PressRecord {
    /// The press.
    pub press: Press,
    /// Nut positions as last left, one per arm.
    pub nuts: Vec<Notches>,
    /// The unit its sessions are kept in.
    pub unit: Unit,
    /// Stations as last used.
    pub stations: Vec<Station>,
    /// Tolerance as last used.
    pub tolerance: TypedLength,
    /// Gauge as last used.
    pub gauge: Gauge,
    /// Scatter from lacing to lacing, where it is known.
    pub lacing_scatter: Option<KnownScatter>,
    /// Target thickness as last used.
    pub target: Option<TypedLength>,
    /// Section of the jaw and size of the rods, where they are known.
    pub jaw_and_rods: Option<JawAndRods>,
    /// A response given outright.
    pub known_response: Option<KnownResponse>,
    /// What each visit measured, oldest first, each session once.
    pub visits: Vec<PastVisit>,
    /// The last repair, as the user wrote it.
    pub repaired: Option<String>,
    /// Sessions from before the repair, never to be learnt from again.
    pub forgotten: Vec<String>,
}

/// What learning from a session did.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lesson {
    /// The session was new.
    Added,
    /// What was kept of this session was replaced.
    Replaced,
    /// Nothing was read in it; nothing changed.
    NothingRead,
}

/// Why nothing is learnt from a session.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LearnProblem {
    /// Its arms stand elsewhere: another press.
    OtherArms,
    /// It was before the last repair.
    BeforeRepair,
    /// It is made up.
    Invented,
}

impl PressRecord {
    /// The press as a session knows it, with what earlier visits measured.
    pub fn of(session: &Session) -> Self {
        let mut record = Self {
            press: session.press.clone(),
            nuts: session.nuts_now().to_vec(),
            unit: session.unit,
            stations: session.stations.clone(),
            tolerance: session.tolerance.clone(),
            gauge: session.gauge.clone(),
            lacing_scatter: session.lacing_scatter.clone(),
            target: session.target.clone(),
            jaw_and_rods: session.jaw_and_rods,
            known_response: session.known_response.clone(),
            visits: session.earlier.clone(),
            repaired: None,
            forgotten: Vec::new(),
        };
        record.use_up_margins(session);
        record.keep(session);
        record
    }

    /// Learns from a session. What is kept of the same session is replaced in
    /// its place. Press, nuts and settings are taken from the session unless
    /// the press was visited again since. Of more visits than the press can
    /// keep, the oldest go.
    ///
    /// # Errors
    /// Why nothing is learnt; the record stays as it was.
    pub fn learn(&mut self, session: &Session) -> Result<Lesson, LearnProblem> {
        if session.invented {
            return Err(LearnProblem::Invented);
        }
        if self.forgotten.contains(&session.id) {
            return Err(LearnProblem::BeforeRepair);
        }
        let arms = |press: &Press| -> Vec<Length> {
            press.arms.iter().map(|arm| arm.position.length()).collect()
        };
        if !self.visits.is_empty() && !stand_alike(&arms(&self.press), &arms(&session.press)) {
            return Err(LearnProblem::OtherArms);
        }
        if session.last_read_pass().is_none() {
            return Ok(Lesson::NothingRead);
        }
        let known = self
            .visits
            .iter()
            .position(|visit| visit.session == session.id);
        if known.is_none_or(|index| index + 1 == self.visits.len()) {
            let before = std::mem::replace(self, Self::of(session));
            self.visits = before.visits;
            self.repaired = before.repaired;
            self.forgotten = before.forgotten;
        }
        self.keep(session);
        Ok(match known {
            Some(_) => Lesson::Replaced,
            None => Lesson::Added,
        })
    }

    /// The next session on this press: the press as it is known, the nuts as
    /// last left, what earlier visits measured.
    pub fn start_session(&self, id: String, when: String) -> Session {
        let mut session = Session::new(id, self.unit, self.press.clone());
        session.start_nuts.clone_from(&self.nuts);
        session.stations.clone_from(&self.stations);
        session.tolerance.clone_from(&self.tolerance);
        session.gauge.clone_from(&self.gauge);
        session.lacing_scatter.clone_from(&self.lacing_scatter);
        session.target.clone_from(&self.target);
        session.jaw_and_rods = self.jaw_and_rods;
        session.known_response.clone_from(&self.known_response);
        session.earlier.clone_from(&self.visits);
        session.notes.when = when;
        session
    }

    /// Checks everything that a session started from it counts on.
    ///
    /// # Errors
    /// The first thing found wrong.
    pub fn check(&self) -> Result<(), SessionProblem> {
        self.start_session(String::new(), String::new()).check()
    }

    fn keep(&mut self, session: &Session) {
        let Some(visit) = session.as_past_visit() else {
            return;
        };
        let same = |kept: &&mut PastVisit| kept.session == visit.session;
        match self.visits.iter_mut().find(same) {
            Some(kept) => *kept = visit,
            None => self.visits.push(visit),
        }
        let most = usize::try_from(CountQuantity::EarlierVisits.bounds().most).unwrap_or(0);
        let surplus = self.visits.len().saturating_sub(most);
        self.visits.drain(..surplus);
    }

    /// Takes what the nuts went inward in a session off the opening margins,
    /// so that the next one, which begins with the nuts where they are now,
    /// does not count it as free.
    fn use_up_margins(&mut self, session: &Session) {
        let moved = session.nuts_now().iter().zip(&session.start_nuts);
        for (arm, (now, start)) in self.press.arms.iter_mut().zip(moved) {
            let inward = i64::from(start.since(*now).0.max(0));
            let travel = session.press.travel_per_notch(arm).nm();
            if let Some(margin) = &mut arm.opening_margin
                && inward > 0
            {
                let left = margin.length().nm() - inward * travel;
                *margin = TypedLength::from_length(Length::from_nm(left.max(0)), margin.unit());
            }
        }
    }
}

/// Whether arms stand where they stood: as many, none further off than
/// [`place_tolerance`].
pub(super) fn stand_alike(arms: &[Length], others: &[Length]) -> bool {
    let allowed = place_tolerance(arms);
    arms.len() == others.len()
        && arms
            .iter()
            .zip(others)
            .all(|(arm, other)| arm.minus(*other).nm().abs() <= allowed.nm())
}

/// How far two positions may differ and still mean the same place: a
/// twentieth of the arms' mean distance. What that changes in the response is
/// small against what is uncertain of it, so a corrected length does not make
/// another press.
pub(super) fn place_tolerance(arms: &[Length]) -> Length {
    let (Some(first), Some(last)) = (arms.first(), arms.last()) else {
        return Length::ZERO;
    };
    let gaps = i64::try_from(arms.len()).unwrap_or(i64::MAX) - 1;
    Length::from_nm(last.minus(*first).nm() / gaps.max(1) / 20)
}
