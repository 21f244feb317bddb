//! Taking readings arm by arm: where the walk along the jaw stands.

use crate::press::{CountQuantity, LengthQuantity};
use crate::session::{Edit, Session};
use crate::splice::{Cell, Walk, WalkPlace};
use crate::store::parse_gauge_line;
use crate::units::{Length, LengthProblem, Sign, TypedLength, Unit};

use crate::window::gauge_port::GaugePort;

/// Why something typed or sent is not taken as a reading.
#[derive(Debug, Clone, PartialEq)]
pub enum NotTaken {
    /// No length.
    Length(LengthProblem),
    /// A length no splice has.
    OutOfBounds(Length),
    /// A reading for which no arm is left.
    NoPlace,
}

/// Where the walk stands. Readings themselves are in the session at once.
#[derive(Debug, Default)]
pub struct Guided {
    /// The pass being read.
    pub pass: Option<usize>,
    /// Rounds along the jaw; there and back is two.
    pub rounds: usize,
    /// The walk these rounds are of.
    walked: Walk,
    /// Place in the order of the walk.
    pub at: usize,
    /// Places that took a reading, in order, so that taking one back goes back.
    pub taken: Vec<WalkPlace>,
    /// What stands in the field.
    pub typed: String,
    /// What is wrong with what was last typed or sent.
    pub complaint: Option<String>,
    /// Set when the field is to have the keyboard.
    pub wants_keyboard: bool,
    /// The gauge's port, where one is listened to.
    pub port: Option<GaugePort>,
    /// What was last heard of the port.
    pub port_says: Option<String>,
    /// Whether the port is open.
    pub port_open: bool,
}

impl Guided {
    /// Starts at the first place of a pass that is not read.
    pub fn start() -> Self {
        Self {
            wants_keyboard: true,
            ..Self::default()
        }
    }

    /// Follows the session: another pass on show, readings taken back,
    /// stations that are gone.
    pub fn follow(&mut self, session: &Session, pass: Option<usize>) {
        if self.pass != pass || self.rounds == 0 {
            self.pass = pass;
            self.rounds = usual_rounds(session, pass);
            self.taken.clear();
            self.complaint = None;
            self.walked = self.walk(session);
            self.wants_keyboard = true;
            self.at = self.first_unread(session, 0);
        }
        let walk = self.walk(session);
        if self.walked != walk {
            self.walked = walk;
            self.change_rounds(session, 0);
        }
        // Readings taken back: to the earliest of them.
        let undone = |place: &WalkPlace| self.is_unread(session, *place);
        if let Some(first) = self.taken.iter().position(undone) {
            let back_to = self.taken.split_off(first);
            if let Some(place) = back_to.first() {
                self.go_to(session, *place);
            }
        }
        self.at = self.at.min(self.places(session).len());
    }

    /// The way along the jaw.
    pub fn walk(&self, session: &Session) -> Walk {
        let pass = self.pass.and_then(|pass| session.passes.get(pass));
        pass.map_or_else(Walk::default, |pass| pass.walk)
    }

    /// Every place of the walk in order.
    pub fn places(&self, session: &Session) -> Vec<WalkPlace> {
        let walk = self.walk(session);
        walk.places(session.stations.len(), self.rounds).collect()
    }

    /// The place whose reading is due; none at the end.
    pub fn due(&self, session: &Session) -> Option<WalkPlace> {
        self.places(session).get(self.at).copied()
    }

    /// Places from the present one on that are not read, in order.
    pub fn left(&self, session: &Session) -> Vec<WalkPlace> {
        let places = self.places(session).into_iter().skip(self.at);
        places
            .filter(|place| self.is_unread(session, *place))
            .collect()
    }

    /// How many readings a station has.
    pub fn read_at(&self, session: &Session, station: usize) -> usize {
        let pass = self.pass.and_then(|pass| session.passes.get(pass));
        let row = pass.and_then(|pass| pass.rows.get(station));
        row.map_or(0, |row| row.iter().filter_map(Cell::counting).count())
    }

    /// Places before the present one that were left out.
    pub fn left_out(&self, session: &Session) -> Vec<WalkPlace> {
        let places = self.places(session).into_iter().take(self.at);
        places
            .filter(|place| self.is_unread(session, *place) && !self.taken.contains(place))
            .collect()
    }

    /// Takes a text as the reading that is due: answers the edit, and goes on
    /// to the next place that is not read.
    ///
    /// # Errors
    /// Why it is not taken; nothing has moved then.
    pub fn take(&mut self, session: &Session, text: &str, bare: Unit) -> Result<Edit, NotTaken> {
        let text = reading_text(text, bare)?;
        let (Some(pass), Some(place)) = (self.pass, self.due(session)) else {
            return Err(NotTaken::NoPlace);
        };
        self.taken.push(place);
        self.complaint = None;
        self.at = self.first_unread(session, self.at + 1);
        Ok(Edit::enter((pass, place.station, place.repeat), text, bare))
    }

    /// Leaves the place that is due out.
    pub fn skip(&mut self, session: &Session) {
        self.complaint = None;
        self.at = (self.at + 1).min(self.places(session).len());
    }

    /// Goes back to the place before, to read it again.
    pub fn back(&mut self) {
        self.complaint = None;
        self.at = self.at.saturating_sub(1);
    }

    /// Goes to a place, to read it again.
    pub fn go_to(&mut self, session: &Session, to: WalkPlace) {
        let places = self.places(session);
        if let Some(at) = places.iter().position(|place| *place == to) {
            self.at = at;
        }
    }

    /// Goes to the first place that was left out.
    pub fn go_to_left_out(&mut self, session: &Session) {
        self.at = self.first_unread(session, 0);
    }

    /// So many rounds more or fewer; there and back counts as two.
    pub fn change_rounds(&mut self, session: &Session, by: i8) {
        let step = step(self.walk(session));
        let most = usize::try_from(CountQuantity::Repeats.bounds().most).unwrap_or(usize::MAX);
        let rounds = self.rounds.next_multiple_of(step);
        self.rounds = match by {
            1.. => rounds + step,
            0 => rounds,
            _ => rounds.saturating_sub(step),
        }
        .clamp(step, most.max(step));
        if self.at >= self.places(session).len() || by == 0 {
            self.at = self.first_unread(session, 0);
        }
    }

    fn first_unread(&self, session: &Session, from: usize) -> usize {
        let places = self.places(session);
        let found = places
            .iter()
            .skip(from)
            .position(|place| self.is_unread(session, *place));
        found.map_or(places.len(), |found| from + found)
    }

    fn is_unread(&self, session: &Session, place: WalkPlace) -> bool {
        let pass = self.pass.and_then(|pass| session.passes.get(pass));
        pass.is_none_or(|pass| *pass.cell(place.station, place.repeat) == Cell::Empty)
    }
}

/// Rounds that belong together.
fn step(walk: Walk) -> usize {
    match walk {
        Walk::Straight => 1,
        Walk::ThereAndBack => 2,
    }
}

/// As many rounds as the pass has repeats, at least those that belong
/// together.
fn usual_rounds(session: &Session, pass: Option<usize>) -> usize {
    let Some(pass) = pass.and_then(|pass| session.passes.get(pass)) else {
        return 1;
    };
    let read = pass.rows.iter().map(Vec::len).max().unwrap_or(0);
    read.max(1).next_multiple_of(step(pass.walk))
}

/// The reading in a text: a length as people type it, or a line as gauges send
/// it to a keyboard.
fn reading_text(text: &str, bare: Unit) -> Result<String, NotTaken> {
    let found = match TypedLength::parse(text, bare, Sign::None) {
        // A unit nobody knows is a mistake; letters around a number are a
        // gauge's.
        Err(problem @ LengthProblem::NotANumber(_)) => parse_gauge_line(text.as_bytes())
            .ok()
            .flatten()
            .and_then(|line| TypedLength::parse(&line, bare, Sign::None).ok())
            .ok_or(problem),
        other => other,
    };
    let typed = found.map_err(NotTaken::Length)?;
    match LengthQuantity::Reading.check(typed.length()) {
        Ok(_) => Ok(typed.text().to_owned()),
        Err(problem) => Err(NotTaken::OutOfBounds(problem.found)),
    }
}
