//! What is kept of a press from visit to visit.

use crate::press::{CountQuantity, Press};
use crate::units::{Length, TypedLength};

use super::{PastVisit, Session, SessionProblem};

/// A press as it was last left, with what each visit to it measured.
#[derive(Debug, Clone, PartialEq)]
pub struct PressRecord {
    /// The next visit as it would begin, without id and date: the press, its
    /// nuts and settings as last left, and in `earlier` what each visit
    /// measured, oldest first, each session once.
    pub next_visit: Session,
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
    /// The session was new, and as the press keeps no more visits, the oldest
    /// one went.
    AddedForOldest,
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
    /// The press as a session knows it, with what earlier visits measured; after
    /// a repair, with what this one did.
    pub fn of(session: &Session) -> Self {
        let mut press = session.press.clone();
        use_up_margins(&mut press, session);
        press.drive = press.drive.for_next_visit();
        let mut record = Self {
            next_visit: Session {
                start_nuts: session.nuts_now().to_vec(),
                lost: session.lost.clone(),
                stations: session.stations.clone(),
                tolerance: session.tolerance.clone(),
                gauge: session.gauge.clone(),
                lacing_scatter: session.lacing_scatter.clone(),
                target: session.target.clone(),
                jaw_and_rods: session.jaw_and_rods,
                known_response: session.known_response.clone(),
                earlier: session.earlier.clone(),
                ..Session::new(String::new(), session.unit, press)
            },
            repaired: None,
            forgotten: Vec::new(),
        };
        record.forget_before_repair(session);
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
        let visits = &self.next_visit.earlier;
        let known = self.next_visit.press.arm_positions();
        if !visits.is_empty() && !stand_alike(&known, &session.press.arm_positions()) {
            return Err(LearnProblem::OtherArms);
        }
        if session.last_read_pass().is_none() {
            return Ok(Lesson::NothingRead);
        }
        let known = visits.iter().position(|visit| visit.session == session.id);
        if known.is_none_or(|index| index + 1 == visits.len()) {
            let Self { next_visit, .. } = Self::of(session);
            let before = std::mem::replace(&mut self.next_visit, next_visit);
            self.next_visit.earlier = before.earlier;
        }
        self.forget_before_repair(session);
        let surplus = self.keep(session);
        Ok(match known {
            Some(_) => Lesson::Replaced,
            None if surplus > 0 => Lesson::AddedForOldest,
            None => Lesson::Added,
        })
    }

    /// Lets go of what was measured before a session that follows a repair.
    fn forget_before_repair(&mut self, session: &Session) {
        if !session.follows_repair() {
            return;
        }
        session
            .notes
            .repaired
            .clone_into(self.repaired.get_or_insert_default());
        let visits = &mut self.next_visit.earlier;
        let known = visits.iter().position(|visit| visit.session == session.id);
        let old = visits.drain(..known.unwrap_or(visits.len()));
        self.forgotten.extend(old.map(|visit| visit.session));
    }

    /// The next session on this press: the press as it is known, the nuts as
    /// last left, what earlier visits measured.
    pub fn start_session(&self, id: String, when: String) -> Session {
        let mut session = self.next_visit.clone();
        session.id = id;
        session.notes.when = when;
        session
    }

    /// Checks everything that a session started from it counts on.
    ///
    /// # Errors
    /// The first thing found wrong.
    pub fn check(&self) -> Result<(), SessionProblem> {
        self.next_visit.check()
    }

    /// Keeps what a session measured; how many of the oldest visits went.
    fn keep(&mut self, session: &Session) -> usize {
        let Some(visit) = session.as_past_visit() else {
            return 0;
        };
        let visits = &mut self.next_visit.earlier;
        let same = |kept: &&mut PastVisit| kept.session == visit.session;
        match visits.iter_mut().find(same) {
            Some(kept) => *kept = visit,
            None => visits.push(visit),
        }
        let most = usize::try_from(CountQuantity::EarlierVisits.bounds().most).unwrap_or(0);
        let surplus = visits.len().saturating_sub(most);
        visits.drain(..surplus);
        surplus
    }
}

/// Takes what the nuts went inward in a session off the opening margins, so that
/// the next one, which begins with the nuts where they are now, does not count it
/// as free.
fn use_up_margins(press: &mut Press, session: &Session) {
    let moved = session.nuts_now().iter().zip(&session.start_nuts);
    for (arm, (now, start)) in press.arms.iter_mut().zip(moved) {
        let left = session.press.margin_left(arm, *start, *now);
        if let (Some(margin), Some(left)) = (&mut arm.opening_margin, left)
            && now < start
        {
            *margin = TypedLength::from_length(left.max(Length::ZERO), margin.unit());
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
