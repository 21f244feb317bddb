//! The turn card: one nut at a time, outs first, ticked as they are turned.
//! What it holds and how it moves on; how it looks stands in its view.

use crate::press::{Arm, ArmIndex, CountQuantity, Notches, NutLimits, NutPosition};
use crate::session::Session;
use crate::splice::Cell;
use crate::units::TypedLength;

/// What nuts are turned for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// To even the splice: the next pass follows.
    Splice,
    /// To even the coarse gap.
    CoarseGap,
}

/// Turns about to be made.
#[derive(Debug, Clone, PartialEq)]
pub struct Turning {
    /// What for.
    pub purpose: Purpose,
    /// The turns, one per arm.
    pub turns: Vec<Notches>,
}

/// A nut on the card.
#[derive(Debug, Clone, PartialEq)]
pub struct CardNut {
    /// The arm.
    pub arm: ArmIndex,
    /// Where it stands before.
    pub from: NutPosition,
    /// The turn to make.
    pub planned: Notches,
    /// The turn that is really made once it is ticked.
    pub really: Notches,
    /// What of it is made already: somebody stopped short of the plan, said so
    /// and goes on.
    pub made: Notches,
    /// Whether the count was lost at this nut.
    pub lost: bool,
    /// Whether it is done.
    pub ticked: bool,
    may_stand: NutLimits,
}

impl CardNut {
    /// Whether there is anything to tick.
    pub fn is_turned(&self) -> bool {
        self.planned.0 != 0 || self.really.0 != 0
    }

    /// Whether it was turned otherwise than planned.
    pub fn differs(&self) -> bool {
        self.really != self.planned
    }

    /// Where it stands then.
    pub fn to(&self) -> NutPosition {
        self.from + self.really
    }

    /// Where it stands by what is said so far.
    pub fn now(&self) -> NutPosition {
        self.from + self.so_far()
    }

    /// The turn that is still to make.
    pub fn rest(&self) -> Notches {
        Notches(self.planned.0 - self.so_far().0)
    }

    /// Whether that much would take it past its limit, where no pin passes or too
    /// little thread holds. A nut that stood there before is not held.
    pub fn is_past_limit(&self) -> bool {
        let NutLimits { most_in, most_out } = self.may_stand;
        (self.really.0 > 0 && self.to() > most_out) || (self.really.0 < 0 && self.to() < most_in)
    }

    /// What was turned, as far as anybody knows: after a lost count what is said
    /// to stand alone.
    pub fn known(&self) -> Option<Notches> {
        let said = self.ticked || self.differs();
        let known = said || (!self.lost && self.made.0 != 0);
        known.then(|| self.so_far())
    }

    /// What was turned by what is said so far.
    fn so_far(&self) -> Notches {
        match self.ticked || self.differs() {
            true => self.really,
            false => self.made,
        }
    }
}

/// What the main button of the card does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CardAct {
    /// Notes all that was turned.
    Note,
    /// Ticks the nut at hand.
    Tick,
    /// Goes on to bring the nut at hand to where the plan has it.
    TurnOn(Notches),
    /// Takes the nut at this place to hand.
    Next(usize),
    /// Nothing, before something is answered.
    Wait,
}

/// What is to have the keyboard.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AtHand {
    /// The nut at hand.
    Nut,
    /// The button that notes all of them.
    AllTurned,
}

/// What the turns rest on: while it stands, so do the ticks.
#[derive(Debug, Clone, PartialEq)]
struct Basis {
    turning: Turning,
    passes: usize,
    nuts: Vec<NutPosition>,
    readings: Vec<Vec<Cell>>,
    gaps: Vec<Option<TypedLength>>,
}

impl Basis {
    fn of(session: &Session, turning: &Turning) -> Self {
        let last = session.passes.last();
        Self {
            turning: turning.clone(),
            passes: session.passes.len(),
            nuts: session.nuts_now().to_vec(),
            readings: last.map_or_else(Vec::new, |last| last.rows.clone()),
            gaps: session.checklist.coarse_gap.clone(),
        }
    }
}

/// The card.
#[derive(Debug, Clone, PartialEq)]
pub struct TurnCard {
    /// Whether it is on show, rather than left to come back to.
    pub open: bool,
    /// Whether the current nut was turned otherwise than planned, and how is
    /// being said.
    pub otherwise: bool,
    /// When a nut was last ticked, in seconds of the window's clock.
    pub ticked_at: Option<f64>,
    /// Set when something is to have the keyboard.
    pub wants_focus: Option<AtHand>,
    basis: Basis,
    nuts: Vec<CardNut>,
    at: usize,
}

impl TurnCard {
    /// A card on the nuts as they stand: outs first, then ins, each from the
    /// operator's left, then those that stay.
    pub fn of(session: &Session, turning: Turning) -> Self {
        let basis = Basis::of(session, &turning);
        let mut turns = basis.turning.turns.clone();
        turns.resize(session.press.arms.len(), Notches(0));
        let nuts = Notches::outs_first(&turns)
            .into_iter()
            .map(|(arm, turn)| CardNut {
                arm,
                from: basis.nuts.get(arm.0).copied().unwrap_or_default(),
                planned: turn,
                really: turn,
                made: Notches(0),
                lost: false,
                ticked: false,
                may_stand: session.press.arms.get(arm.0).map_or(
                    NutLimits {
                        most_in: NutPosition(i32::MIN),
                        most_out: NutPosition(i32::MAX),
                    },
                    Arm::may_stand,
                ),
            })
            .collect();
        Self {
            open: true,
            otherwise: false,
            ticked_at: None,
            wants_focus: Some(AtHand::Nut),
            basis,
            nuts,
            at: 0,
        }
    }

    /// Whether it is still about these turns of these nuts after the same
    /// readings.
    pub fn fits(&self, session: &Session, turning: &Turning) -> bool {
        self.basis == Basis::of(session, turning)
    }

    /// The turns it was made for.
    pub fn turning(&self) -> &Turning {
        &self.basis.turning
    }

    /// What the nuts are turned for.
    pub fn purpose(&self) -> Purpose {
        self.basis.turning.purpose
    }

    /// The nuts in the order in which they are turned.
    pub fn nuts(&self) -> &[CardNut] {
        &self.nuts
    }

    /// The place of the nut at hand.
    pub fn at(&self) -> usize {
        self.at
    }

    /// The nut at hand.
    pub fn current(&self) -> Option<&CardNut> {
        self.nuts.get(self.at)
    }

    /// Takes another nut to hand.
    pub fn go_to(&mut self, place: usize) {
        let place = place.min(self.nuts.len().saturating_sub(1));
        if place != self.at {
            self.at = place;
            self.otherwise = false;
        }
        self.wants_focus = Some(AtHand::Nut);
    }

    /// Takes the nut before or after to hand.
    pub fn step(&mut self, by: isize) {
        if let Some(place) = self.at.checked_add_signed(by) {
            self.go_to(place);
        }
    }

    /// Whether it was asked how the nut at hand was really turned, and nothing
    /// was answered.
    pub fn waits_for_answer(&self) -> bool {
        self.otherwise && self.current().is_some_and(|nut| !nut.differs())
    }

    /// Whether it is being said how the nut at hand was really turned.
    pub fn is_told(&self) -> bool {
        let said = |nut: &CardNut| !nut.ticked && nut.differs();
        self.otherwise || self.current().is_some_and(said)
    }

    /// What the main button does: a nut that is not where the plan has it is
    /// brought there first, IN only once no OUT is left; one that is past its
    /// limit is never done.
    pub fn act(&self) -> CardAct {
        if self.is_complete() && self.done().0 > 0 {
            return CardAct::Note;
        }
        let next = self.next_open().map_or(CardAct::Wait, CardAct::Next);
        let Some(nut) = self.current().filter(|nut| nut.is_turned() && !nut.ticked) else {
            return match self.otherwise {
                true => CardAct::Wait,
                false => next,
            };
        };
        if self.waits_for_answer() {
            return CardAct::Wait;
        }
        if self.is_told() && (nut.rest().0 > 0 || !self.outs_left()) {
            return CardAct::TurnOn(nut.rest());
        }
        match nut.is_past_limit() {
            true => next,
            false => CardAct::Tick,
        }
    }

    /// Whether another nut is still to be turned OUT.
    fn outs_left(&self) -> bool {
        let mut others = (0..).zip(&self.nuts).filter(|(place, _)| *place != self.at);
        others.any(|(_, nut)| !nut.ticked && nut.rest().0 > 0)
    }

    /// Goes on from what was said to have been turned at the nut at hand.
    pub fn turn_on(&mut self) {
        if let Some(nut) = self.nuts.get_mut(self.at) {
            nut.made = nut.really;
            nut.really = nut.planned;
        }
        self.otherwise = false;
        self.wants_focus = Some(AtHand::Nut);
    }

    /// Says that the count was lost at the nut at hand.
    pub fn lose_count(&mut self) {
        if let Some(nut) = self.nuts.get_mut(self.at) {
            nut.lost = true;
        }
    }

    /// Ticks the nut at hand, the count of which was lost, where the plan has it.
    pub fn found_in_place(&mut self) {
        if let Some(nut) = self.nuts.get_mut(self.at).filter(|nut| nut.lost) {
            nut.really = nut.planned;
            self.otherwise = false;
            self.tick();
        }
    }

    /// The nuts at which the count was lost.
    pub fn lost(&self) -> impl Iterator<Item = &CardNut> {
        self.nuts.iter().filter(|nut| nut.lost)
    }

    /// Ticks the nut at hand and goes on to the next that is open; a tick that
    /// stands is taken away.
    pub fn tick(&mut self) {
        if self.waits_for_answer() {
            return;
        }
        let may = |nut: &&mut CardNut| nut.is_turned() && (nut.ticked || !nut.is_past_limit());
        let Some(nut) = self.nuts.get_mut(self.at).filter(may) else {
            return;
        };
        nut.ticked = !nut.ticked;
        if nut.ticked {
            self.otherwise = false;
            if let Some(next) = self.next_open() {
                self.go_to(next);
            }
        }
        self.wants_focus = Some(self.at_hand());
    }

    /// What there is to do next.
    pub fn at_hand(&self) -> AtHand {
        if self.is_complete() {
            AtHand::AllTurned
        } else {
            AtHand::Nut
        }
    }

    /// The next nut to turn after the one at hand, or from the first again.
    pub fn next_open(&self) -> Option<usize> {
        let open = |place: &usize| {
            *place != self.at
                && self
                    .nuts
                    .get(*place)
                    .is_some_and(|nut| nut.is_turned() && !nut.ticked)
        };
        let after = (self.at..self.nuts.len()).find(open);
        after.or_else(|| (0..self.at).find(open))
    }

    /// Says that the nut at hand was really turned so many notches more.
    pub fn turned_more(&mut self, by: Notches) {
        let bounds = CountQuantity::NutPosition.bounds();
        if let Some(nut) = self.nuts.get_mut(self.at) {
            let more = nut.really + by;
            if bounds.hold((nut.from + more).0.into()) {
                nut.really = more;
            }
        }
    }

    /// Forgets what was said of the nut at hand: it is not turned yet.
    pub fn not_turned_yet(&mut self) {
        if let Some(nut) = self.nuts.get_mut(self.at) {
            nut.really = nut.planned;
            nut.lost = false;
            nut.ticked &= nut.is_turned();
        }
        self.otherwise = false;
    }

    /// Whether any nut was turned, wholly, in part or by nobody knows how much.
    pub fn any_turned(&self) -> bool {
        let turned = |nut: &CardNut| nut.ticked || nut.lost || nut.so_far().0 != 0;
        self.nuts.iter().any(turned)
    }

    /// How many nuts are done, and how many there are to turn.
    pub fn done(&self) -> (usize, usize) {
        let turned = self.nuts.iter().filter(|nut| nut.is_turned());
        let ticked = turned.clone().filter(|nut| nut.ticked).count();
        (ticked, turned.count())
    }

    /// Whether every nut that is to be turned is done.
    pub fn is_complete(&self) -> bool {
        let (ticked, all) = self.done();
        ticked == all
    }

    /// Whether any nut was turned otherwise than planned.
    pub fn differs(&self) -> bool {
        self.nuts.iter().any(CardNut::differs)
    }

    /// Where every nut stands by what is said, from the operator's left.
    pub fn stand(&self) -> Vec<(ArmIndex, NutPosition)> {
        let mut stand: Vec<_> = self.nuts.iter().map(|nut| (nut.arm, nut.now())).collect();
        stand.sort_by_key(|(arm, _)| arm.0);
        stand
    }

    /// What was really turned so far, one per arm.
    pub fn turned(&self) -> Vec<Notches> {
        let mut turns = vec![Notches(0); self.nuts.len()];
        for nut in &self.nuts {
            if let Some(turn) = turns.get_mut(nut.arm.0) {
                *turn = nut.so_far();
            }
        }
        turns
    }
}

#[cfg(test)]
mod tests;
