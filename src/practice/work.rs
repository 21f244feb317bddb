//! The work on an exercise: what acts answer, and what they cost.

use crate::plan::Chore;
use crate::press::{MOST_NOTCHES_PER_RELACE, Notches};
use crate::session::{Edit, Session, Stage};
use crate::units::{Length, TypedLength, Unit};

use super::acts::{Act, Came, Ending, Refusal};
use super::exercise::{Exercise, ExerciseProblem};
use super::fault::{Cure, Help};
use super::hidden::{Hidden, Luck};
use super::reading::Manner;

/// Most pieces of an exercise; whoever needs more has to begin again.
pub const MOST_PIECES: usize = 30;
/// Most readings at one station of a piece.
pub const MOST_READINGS: usize = 50;
/// Readings at a station that the minutes of a piece already hold.
pub const READINGS_IN_A_PIECE: usize = 2;
/// Minutes to get a retainer out that sticks. Assumed (common practice, no source).
pub const STUCK_MINUTES: f64 = 15.0;
/// Hooks on each inch of belt. Assumed (common practice, no source).
const HOOKS_PER_INCH: f64 = 4.0;

/// A reading as it was taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Taken {
    /// What the gauge showed.
    pub shown: Length,
    /// Whether on the mark.
    pub on_mark: bool,
    /// Whether the gauge had been zeroed for this piece.
    pub zeroed: bool,
}

/// A laced piece and what was done with it.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// Nut positions it was laced at.
    pub nuts: Vec<i32>,
    /// Which way the belt end lay.
    pub flipped: bool,
    /// What the press gives on average.
    pub mean_nm: Vec<f64>,
    /// What the jaws alone give on average.
    pub jaw_nm: Vec<f64>,
    /// True thickness at each station.
    pub true_nm: Vec<f64>,
    /// Readings at each station.
    pub readings: Vec<Vec<Taken>>,
    /// What had been seen to by then.
    pub cured: Vec<Cure>,
    /// Own guess of the turns, made before advice was seen.
    pub guess: Option<Vec<i32>>,
    /// Whether advice was seen.
    pub advised: bool,
    /// Whether the retainer stuck.
    pub stuck: bool,
    zeroed: bool,
}

impl Piece {
    /// Station means as read; none where not read.
    pub(super) fn means_nm(&self) -> Vec<Option<f64>> {
        let mean = |row: &Vec<Taken>| {
            let sum: f64 = row.iter().map(|taken| taken.shown.nm_f64()).sum();
            (!row.is_empty()).then(|| sum / row.len() as f64)
        };
        self.readings.iter().map(mean).collect()
    }
}

/// Work on an exercise.
#[derive(Debug, Clone)]
pub struct Practice {
    exercise: Exercise,
    /// Who does it.
    pub trainee: String,
    /// When, as the program or the trainer wrote it.
    pub date: String,
    acts: Vec<Act>,
    start: Session,
    hidden: Hidden,
    pieces: Vec<Piece>,
    nuts: Vec<i32>,
    cured: Vec<Cure>,
    made_safe: bool,
    minutes: f64,
    ending: Option<Ending>,
    /// Which luck its pieces have; 0 is the exercise's own.
    luck: u64,
}

impl Practice {
    /// Begins an exercise.
    ///
    /// # Errors
    /// See [`ExerciseProblem`].
    pub fn begin(
        exercise: Exercise,
        trainee: String,
        date: String,
    ) -> Result<Self, ExerciseProblem> {
        let start = exercise.session()?;
        Ok(Self {
            hidden: Hidden::of(&exercise, &[])?,
            nuts: vec![0; exercise.arms],
            exercise,
            trainee,
            date,
            acts: Vec::new(),
            start,
            pieces: Vec::new(),
            cured: Vec::new(),
            made_safe: false,
            minutes: 0.0,
            ending: None,
            luck: 0,
        })
    }

    /// The same work with another luck.
    pub(super) fn with_luck(mut self, luck: u64) -> Self {
        self.luck = luck;
        self
    }

    /// The exercise.
    pub fn exercise(&self) -> &Exercise {
        &self.exercise
    }

    /// Everything done so far.
    pub fn acts(&self) -> &[Act] {
        &self.acts
    }

    /// The pieces laced so far.
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// The press as it really is now.
    pub fn hidden(&self) -> &Hidden {
        &self.hidden
    }

    /// Where the nuts stand.
    pub fn nuts(&self) -> &[i32] {
        &self.nuts
    }

    /// Whether the press is made safe as things stand.
    pub fn is_made_safe(&self) -> bool {
        self.made_safe
    }

    /// The clock: minutes since the exercise began.
    pub fn minutes(&self) -> f64 {
        self.minutes
    }

    /// Full-width belt ends used up.
    pub fn belt_ends(&self) -> usize {
        self.pieces.len()
    }

    /// Hooks used up.
    pub fn hooks(&self) -> usize {
        let inches = self.start.press.jaw_length.length().in_unit(Unit::Inch);
        self.pieces.len() * (inches * HOOKS_PER_INCH).ceil() as usize
    }

    /// How it ended, once it has.
    pub fn ending(&self) -> Option<Ending> {
        self.ending
    }

    /// Whether advice may be seen now.
    ///
    /// # Errors
    /// Why not.
    pub fn may_see_advice(&self) -> Result<(), Refusal> {
        let piece = self.pieces.last().ok_or(Refusal::NoPiece)?;
        match self.exercise.help {
            Help::None => Err(Refusal::NoHelp),
            Help::AfterGuess if piece.guess.is_none() => Err(Refusal::GuessFirst),
            Help::AfterGuess | Help::Full => Ok(()),
        }
    }

    /// Does one thing.
    ///
    /// # Errors
    /// Why it cannot be done; nothing has then happened.
    pub fn act(&mut self, act: Act) -> Result<Came, Refusal> {
        if let Some(ending) = self.ending {
            return Err(Refusal::Over(ending));
        }
        let came = match &act {
            Act::MakeSafe => {
                self.made_safe = true;
                Came::Done
            }
            Act::Lace { flipped } => self.lace(*flipped)?,
            Act::ZeroGauge => {
                self.piece()?.zeroed = true;
                Came::Done
            }
            Act::Read { station, on_mark } => self.read(*station, *on_mark)?,
            Act::Guess(turns) => {
                self.check_turns(turns)?;
                let turns = turns.clone();
                let piece = self.piece()?;
                if !piece.advised {
                    piece.guess = Some(turns);
                }
                Came::Done
            }
            Act::SeeAdvice => {
                self.may_see_advice()?;
                self.piece()?.advised = true;
                Came::Done
            }
            Act::Turn(turns) => {
                self.check_turns(turns)?;
                if !self.made_safe && turns.iter().any(|turn| *turn != 0) {
                    self.end(Ending::Unsafe)
                } else {
                    let nuts = self.nuts.iter_mut().zip(turns);
                    nuts.for_each(|(nut, turn)| *nut += turn);
                    self.minutes += self.start.effort.of_turns(turns);
                    Came::Done
                }
            }
            Act::SeeTo(cure) => self.see_to(*cure),
            Act::Accept => {
                self.piece()?;
                self.end(Ending::Accepted)
            }
            Act::GiveUp => self.end(Ending::GivenUp),
        };
        self.acts.push(act);
        Ok(came)
    }

    fn piece(&mut self) -> Result<&mut Piece, Refusal> {
        self.pieces.last_mut().ok_or(Refusal::NoPiece)
    }

    fn end(&mut self, ending: Ending) -> Came {
        self.ending = Some(ending);
        Came::Ended(ending)
    }

    fn check_turns(&self, turns: &[i32]) -> Result<(), Refusal> {
        if turns.len() != self.exercise.arms {
            return Err(Refusal::PerArm(self.exercise.arms, turns.len()));
        }
        // Twice what the planner turns: a slip of the keyboard, not a turn.
        let most = 2 * MOST_NOTCHES_PER_RELACE;
        match turns
            .iter()
            .find(|turn| turn.unsigned_abs() > most.unsigned_abs())
        {
            Some(turn) => Err(Refusal::TooFar(*turn)),
            None => Ok(()),
        }
    }

    fn lace(&mut self, flipped: bool) -> Result<Came, Refusal> {
        if self.pieces.len() == MOST_PIECES {
            return Err(Refusal::TooMany(MOST_PIECES));
        }
        let mean_nm = self.hidden.piece_nm(&self.nuts, flipped);
        let left = self.hidden.opening_left_nm(&self.nuts);
        let stuck = left.iter().any(|left| *left < 0.0);
        self.minutes += self.start.effort.of(Chore::Piece).value();
        self.minutes += if stuck { STUCK_MINUTES } else { 0.0 };
        let number = self.pieces.len();
        self.pieces.push(Piece {
            nuts: self.nuts.clone(),
            flipped,
            jaw_nm: self.hidden.jaw_nm(&self.nuts),
            true_nm: self.hidden.lace(&mean_nm, self.luck(), number),
            readings: vec![Vec::new(); mean_nm.len()],
            mean_nm,
            cured: self.cured.clone(),
            guess: None,
            advised: false,
            stuck,
            zeroed: false,
        });
        // Lacing restores power.
        self.made_safe = false;
        Ok(if stuck { Came::Stuck } else { Came::Done })
    }

    /// The luck of its pieces.
    fn luck(&self) -> Luck {
        Luck {
            exercise: self.exercise.number,
            number: self.luck,
        }
    }

    fn read(&mut self, station: usize, on_mark: bool) -> Result<Came, Refusal> {
        let piece = self.pieces.last().ok_or(Refusal::NoPiece)?;
        let row = piece.readings.get(station);
        let taken = row.ok_or(Refusal::NoStation(station))?.len();
        if taken == MOST_READINGS {
            return Err(Refusal::TooMany(MOST_READINGS));
        }
        let before: usize = piece.readings.iter().map(Vec::len).sum();
        let manner = Manner {
            on_mark,
            zeroed: piece.zeroed,
            before,
        };
        let number = self.pieces.len() - 1;
        let shown_nm = self.hidden.shown_nm(
            &piece.true_nm,
            self.luck(),
            [number, station, taken],
            manner,
        );
        let reading = Taken {
            shown: Length::from_nm(shown_nm.round() as i64),
            on_mark,
            zeroed: piece.zeroed,
        };
        let stations = piece.readings.len();
        if taken >= READINGS_IN_A_PIECE {
            // Measuring a whole piece again, two readings everywhere, shared
            // out among them.
            let again = self.start.effort.of(Chore::Measuring).value();
            self.minutes += again / (READINGS_IN_A_PIECE * stations) as f64;
        }
        if let Some(row) = self.piece()?.readings.get_mut(station) {
            row.push(reading);
        }
        Ok(Came::Shown(reading.shown))
    }

    fn see_to(&mut self, cure: Cure) -> Came {
        if cure.hands_in_press() && !self.made_safe {
            return self.end(Ending::Unsafe);
        }
        if cure == Cure::Jaw {
            return self.end(Ending::SentAway);
        }
        self.minutes += cure.minutes();
        if !self.cured.contains(&cure) {
            self.cured.push(cure);
        }
        if let Ok(hidden) = Hidden::of(&self.exercise, &self.cured) {
            self.hidden = hidden;
        }
        Came::Done
    }

    /// Zeroes the gauge and takes so many readings everywhere on the last
    /// piece, round by round.
    ///
    /// # Errors
    /// See [`Refusal`].
    pub fn measure(&mut self, repeats: usize) -> Result<(), Refusal> {
        self.act(Act::ZeroGauge)?;
        self.measure_as_it_is(repeats, true)
    }

    /// As [`measure`](Self::measure), without looking at the zero, on the marks
    /// or beside them.
    ///
    /// # Errors
    /// See [`Refusal`].
    pub fn measure_as_it_is(&mut self, repeats: usize, on_mark: bool) -> Result<(), Refusal> {
        for _ in 0..repeats {
            for station in 0..self.start.stations.len() {
                self.act(Act::Read { station, on_mark })?;
            }
        }
        Ok(())
    }

    /// What a trainee who wrote everything down has in the notebook: a session,
    /// a pass per piece, all its readings. Up to a piece, or all of them.
    pub fn notebook(&self, up_to: Option<usize>) -> Session {
        let mut session = self.start.clone();
        session.notes.who.clone_from(&self.trainee);
        session.notes.when.clone_from(&self.date);
        // Whoever hands the press over made it ready.
        for stage in Stage::ALL
            .into_iter()
            .take_while(|stage| *stage != Stage::TestLace)
        {
            session = session.edited(&ticked(&session, stage)).unwrap_or(session);
        }
        let count = up_to.map_or(self.pieces.len(), |last| last + 1);
        let mut before = (vec![0; self.exercise.arms], false);
        for (pass, piece) in self.pieces.iter().take(count).enumerate() {
            let turns = piece.nuts.iter().zip(&before.0);
            let turns = turns.map(|(now, then)| Notches(now - then));
            let typed = |reading: &Taken| {
                TypedLength::from_length(reading.shown, self.exercise.unit)
                    .text()
                    .to_owned()
            };
            let rows = piece.readings.iter();
            let edits = [
                Edit::add_pass(turns, ""),
                Edit::fill(
                    (pass, 0, 0),
                    rows.map(|row| row.iter().map(typed).collect()),
                    self.exercise.unit,
                ),
                Edit::SetFlipped {
                    pass,
                    flipped: piece.flipped != before.1,
                },
            ];
            for edit in edits.into_iter().chain([laced(&session, pass)]) {
                if let Ok(next) = session.edited(&edit) {
                    session = next;
                }
            }
            before = (piece.nuts.clone(), piece.flipped);
        }
        if let Ok(hidden) = Hidden::of(&self.exercise, self.cured_by(count)) {
            let step = Length::from_nm(hidden.scatter.step_nm as i64);
            session.gauge.step = TypedLength::from_length(step, self.exercise.unit);
        }
        session
    }

    fn cured_by(&self, count: usize) -> &[Cure] {
        match count.checked_sub(1).and_then(|last| self.pieces.get(last)) {
            Some(piece) => &piece.cured,
            None => &[],
        }
    }

    /// The notebook up to a piece with every doubtful reading kept: nobody
    /// mistypes here, and whoever looks again reads the same.
    pub fn clear_notebook(&self, up_to: usize) -> Session {
        let session = self.notebook(Some(up_to));
        let doubtful = session.gate(up_to).doubtful;
        if doubtful.is_empty() {
            return session;
        }
        let keep = Edit::KeepDoubtful {
            pass: up_to,
            readings: doubtful.iter().map(|at| (at.station, at.repeat)).collect(),
            by: String::new(),
        };
        session.edited(&keep).unwrap_or(session)
    }
}

/// That a piece is laced, checked off in the notebook: at a simulated press it
/// is so at once.
pub fn laced(notebook: &Session, pass: usize) -> Edit {
    let stage = match pass {
        0 => Stage::TestLace,
        _ => Stage::Relace,
    };
    ticked(notebook, stage)
}

fn ticked(notebook: &Session, stage: Stage) -> Edit {
    Edit::Tick {
        steps: notebook.checklist.steps(stage),
        // Nobody has to sign for what the simulation does.
        who: String::new(),
        when: notebook.notes.when.clone(),
        note: String::new(),
    }
}
