//! The views, one file each. A view reads the [`Scene`] and pushes actions;
//! it changes nothing but the passing view state.

pub mod ask;
pub mod comparing;
pub mod dialog_room;
pub mod entry;
pub mod explaining;
pub mod forms;
pub mod hint;
pub mod picture;
pub mod practice;
pub mod shop;
pub mod tick_box;
pub mod toast;
pub mod top_bar;
pub mod turning;
pub mod visit;
pub mod wall;
pub mod widgets;

use crate::press::{Notches, NutPosition};
use crate::session::{Advice, IsoDate, NextAct, NextStep, Says, Session, TurnDoubt};
use crate::splice::Shape;
use crate::words::{Figures, Language, Spoken};

use super::action::Action;
use super::history::History;
use super::messages::Message;
use super::outlook::Outlook;
use super::practicing::Practicing;
use super::preferences::Preferences;
use super::shop::ShopDesk;
use super::state::{Preview, ViewState};
use super::theme::Palette;

/// All that a view may read, and where it leaves its wishes.
pub struct Scene<'a> {
    /// The session as it stands.
    pub session: &'a Session,
    /// What is known of the pass on show.
    pub outlook: &'a Outlook,
    /// What was to be expected of earlier passes.
    pub history: &'a History,
    /// How figures are shown.
    pub figures: Figures,
    /// The colours in force.
    pub palette: &'static Palette,
    /// The user's preferences.
    pub preferences: &'a Preferences,
    /// The passing state.
    pub view: &'a mut ViewState,
    /// Today, where the machine knows it.
    pub today: Option<IsoDate>,
    /// Whether new advice is still being worked out.
    pub thinking: bool,
    /// Whether the document has unsaved changes.
    pub unsaved: bool,
    /// The name of the document's file, if it has one.
    pub file_name: Option<String>,
    /// Whether something can be undone and done again.
    pub undo_redo: (bool, bool),
    /// The exercise that the session is the notebook of.
    pub practicing: Option<&'a Practicing>,
    /// What was just said.
    pub said: Option<&'a Message>,
    /// What is known of the shop's folder.
    pub shop: &'a ShopDesk,
    /// What the views ask for.
    pub actions: &'a mut Vec<Action>,
}

impl Scene<'_> {
    /// The language.
    pub fn words(&self) -> Language {
        self.figures.language
    }

    /// Asks for something.
    pub fn ask(&mut self, action: Action) {
        self.actions.push(action);
    }

    /// The turns on show, one per arm.
    pub fn preview(&self) -> Vec<Notches> {
        let arms = self.session.press.arms.len();
        let turns = match &self.view.preview {
            Preview::Chosen(turns) => turns.clone(),
            Preview::Recommended => self.outlook.recommended_turns().unwrap_or_default(),
        };
        turns
            .into_iter()
            .chain(std::iter::repeat(Notches(0)))
            .take(arms)
            .collect()
    }

    /// How things stand, and the one next act.
    pub fn next_step(&self) -> NextStep {
        let turns = self.preview();
        let step = self.outlook.next_step(self.session, &turns, self.thinking);
        if !self.advises_nothing() || step.says == Says::TurnsCannotBe {
            return step;
        }
        // What turns would do is advice too, and what may not be seen is not
        // waited for.
        let turned = turns.iter().any(|turn| turn.0 != 0);
        let foreseen = self.foreseen();
        let mut step = self
            .outlook
            .next_step(self.session, &foreseen, self.thinking);
        if step.act == NextAct::Wait {
            step.act = match turned {
                true => NextAct::GoAndTurn,
                false => NextAct::LaceAgain,
            };
        }
        step
    }

    /// The turns whose effect may be foretold: those on show, none in an exercise
    /// that hides its advice.
    pub fn foreseen(&self) -> Vec<Notches> {
        let mut turns = self.preview();
        if self.advises_nothing() {
            turns.fill(Notches(0));
        }
        turns
    }

    /// The station whose reading is the next act of an exercise: there it is
    /// taken, not typed.
    pub fn read_next(&self, act: &NextAct) -> Option<usize> {
        self.practicing?;
        match act {
            NextAct::LaceFirst(station)
            | NextAct::Measure(station)
            | NextAct::Mend { station, .. } => Some(*station),
            NextAct::MeasureAgain(stations) => stations.first().copied(),
            _ => None,
        }
    }

    /// Whether nuts wait: no turn is tried before what is doubtful is cleared up
    /// and every nut is found.
    pub fn nuts_wait(&self) -> bool {
        !self.outlook.gate.doubtful.is_empty() || !self.session.lost.is_empty()
    }

    /// What is better cleared up before the turns that are the next act; an exercise
    /// has the gauge it has.
    pub fn turn_doubt(&self) -> Option<TurnDoubt> {
        let turns = self.next_step().act == NextAct::GoAndTurn && self.practicing.is_none();
        let pass = self.outlook.pass.filter(|_| turns)?;
        self.session.turn_doubt(pass, self.outlook.shape.as_ref()?)
    }

    /// Whether an exercise is under way whose advice is not on show.
    pub fn advises_nothing(&self) -> bool {
        self.practicing.is_some_and(|it| !it.shows_advice())
    }

    /// Says with `say` how things stand.
    pub fn spoken<T>(&self, step: &NextStep, say: impl FnOnce(&Spoken<'_>) -> T) -> T {
        let turns = self.preview();
        let would: Option<Shape> =
            (step.says == Says::TurnsWould).then(|| self.outlook.shape_after(self.session, &turns));
        let advice = self.outlook.advice();
        let better = advice.and_then(|advice| advice.choice.better_next());
        let better = better.map(|option| {
            let turns = option.turns.iter().copied().map(Notches);
            (turns.collect::<Vec<_>>(), option.forecast.chance)
        });
        say(&Spoken {
            session: self.session,
            gate: &self.outlook.gate,
            shape: would.as_ref().or(self.outlook.shape.as_ref()),
            turns: &turns,
            forecast: self.outlook.forecast(&turns),
            this_piece: advice.and_then(|advice| advice.this_piece),
            next_piece: advice.map(Advice::next_piece),
            better_next: better.as_ref().map(|(turns, chance)| (&turns[..], *chance)),
        })
    }

    /// Whether an example is on show, none of the user's presses.
    pub fn is_example(&self) -> bool {
        self.session.invented && self.practicing.is_none()
    }

    /// Whether an example is on show that nobody has touched yet.
    pub fn untouched_example(&self) -> bool {
        let (can_undo, _) = self.undo_redo;
        self.is_example() && !can_undo && !self.unsaved && self.view.preview == Preview::Recommended
    }

    /// Whether a piece passes and turns are there only for whoever asks.
    pub fn asks_for_no_turns(&self) -> bool {
        let passes = Says::Passes {
            next_is_poor: false,
        };
        self.view.preview == Preview::Recommended && self.next_step().says == passes
    }

    /// Nut positions of the pass on show.
    pub fn nuts(&self) -> &[NutPosition] {
        match self.outlook.pass {
            Some(pass) => self.session.nuts_at(pass),
            None => self.session.nuts_now(),
        }
    }
}
