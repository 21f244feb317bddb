//! The way from turns on show to turns noted: made safe, the turn card, the
//! next pass. Nothing goes round it.

use crate::press::{ArmIndex, Notches};
use crate::session::{Edit, Hands, Stage};

use super::App;
use super::messages::Tone;
use super::state::Before;
use super::state::turn_card::{Purpose, TurnCard, Turning};
use super::state::{Dialog, Preview};

impl App {
    /// Asks whether the press is made safe before the turns on show are made;
    /// opens a pass where there are none.
    pub(super) fn go_and_turn(&mut self, now: f64) {
        let turns = self.turns_on_show();
        let last = self.session().passes.len().checked_sub(1);
        // What is advised is still being worked out.
        let unknown = self.view.preview == Preview::Recommended
            && self.outlook().recommended_turns().is_none()
            && self.outlook().problem.is_none()
            && self
                .session()
                .passes
                .last()
                .is_some_and(|last| last.has_readings());
        if self.shown_pass() != last {
            let sentence = self.words().turn_from_last_pass().to_owned();
            self.say(Tone::Problem, sentence, now);
        } else if unknown {
            self.say(Tone::Problem, self.words().thinking().to_owned(), now);
        } else if turns.iter().all(|turn| turn.0 == 0) {
            self.open_pass(Vec::new(), now);
        } else if !self.session().lost.is_empty() {
            self.find_nut();
        } else if !self.refuses_turns(now) {
            let purpose = Purpose::Splice;
            self.ask_made_safe(Turning { purpose, turns });
        }
    }

    /// The same before the turns that would even the coarse gap.
    pub(super) fn go_and_turn_gap(&mut self) {
        let turns = self.session().coarse_gap_turns();
        if !self.session().lost.is_empty() {
            return self.find_nut();
        }
        if turns.iter().any(|turn| turn.0 != 0) {
            let purpose = Purpose::CoarseGap;
            self.ask_made_safe(Turning { purpose, turns });
        }
    }

    fn ask_made_safe(&mut self, turning: Turning) {
        let before = Before::Turning(turning);
        self.view.dialog = Some(Dialog::MakeSafe(Box::new(before)));
    }

    /// Goes on to what the press was made safe for.
    pub(super) fn made_safe(&mut self, before: Before, now: f64) {
        if !self.session().is_made_safe_for(before.hands()) {
            return;
        }
        self.view.dialog = None;
        self.view.visit.answered = true;
        match before {
            Before::Hands(stage) => self.hands_go_in(stage),
            Before::Turning(turning) => {
                let here = self.view.visit.stage;
                self.view.visit.made_safe = here.is_some_and(Stage::hands_in_press);
                self.show_turn_card(turning, now);
            }
        }
    }

    fn hands_go_in(&mut self, stage: Stage) {
        self.view.visit.go_to(stage);
        self.view.visit.steps = true;
        self.view.visit.made_safe = true;
        self.view.visit.wants_focus = true;
    }

    fn show_turn_card(&mut self, turning: Turning, now: f64) {
        self.view.readings.cells.now = None;
        let left = self.view.turn_card.take();
        self.view.turn_card = Some(match left {
            Some(mut left) if left.fits(self.session(), &turning) => {
                left.open = true;
                left.wants_focus = Some(left.at_hand());
                left
            }
            left => {
                if let Some(turned) = left.filter(TurnCard::any_turned) {
                    let turns = self.figures().turns(&turned.turned());
                    let sentence = self.words().card_changed(turns);
                    self.say(Tone::Problem, sentence, now);
                }
                TurnCard::of(self.session(), turning)
            }
        });
    }

    /// Notes what the turn card says was turned, all of it or so far.
    pub(super) fn note_turned(&mut self, all: bool, now: f64) {
        let ready =
            |card: &&TurnCard| card.open && card.any_turned() && (card.is_complete() || !all);
        let Some(card) = self.view.turn_card.as_ref().filter(ready) else {
            return;
        };
        let (turning, turns) = (card.turning().clone(), card.turned());
        let lost = self.lost_counts(card, self.session().passes.len());
        self.view.dialog = None;
        if !self.session().is_made_safe_for(Hands::TurnNuts) {
            let sentence = self.words().not_answered_anew().to_owned();
            self.say(Tone::Problem, sentence, now);
            self.ask_made_safe(turning);
            return;
        }
        let noted = match turning.purpose {
            Purpose::Splice => self.open_pass(turns, now),
            Purpose::CoarseGap => self.note_gap_turned(&turns, now),
        };
        if noted {
            self.view.turn_card = None;
        }
        if let Some(lost) = lost.filter(|_| noted) {
            self.edit(&lost, now);
        }
    }

    /// What is noted where a count was lost: with the pass, and that nobody knows
    /// where the nut stands.
    pub(super) fn lost_counts(&self, card: &TurnCard, pass: usize) -> Option<Edit> {
        let figures = self.figures();
        let said = card
            .lost()
            .map(|nut| figures.count_lost(nut.arm, nut.known()));
        let text = said.collect::<Vec<_>>().join(" ");
        let unknown = card.lost().filter(|nut| nut.known().is_none());
        // The nuts of an exercise are where its press has them.
        let unknown = unknown.filter(|_| self.practicing.is_none());
        let unknown: Vec<ArmIndex> = unknown.map(|nut| nut.arm).collect();
        let mut noted = Vec::new();
        if card.purpose() == Purpose::Splice && !text.is_empty() {
            let note = true;
            noted.push(Edit::SetPassText { pass, note, text });
        }
        if !unknown.is_empty() {
            noted.push(Edit::LoseNuts(unknown));
        }
        (!noted.is_empty()).then_some(Edit::Together(noted))
    }

    /// Goes to where a nut is found that nobody knows the place of, once the press
    /// is made safe for it.
    pub(super) fn find_nut(&mut self) {
        if self.session().is_made_safe_for(Hands::TurnNuts) && self.view.visit.answered {
            self.view.dialog = None;
            self.hands_go_in(Stage::Turn);
        } else {
            let before = Before::Hands(Stage::Turn);
            self.view.dialog = Some(Dialog::MakeSafe(Box::new(before)));
        }
    }

    fn note_gap_turned(&mut self, turns: &[Notches], now: f64) -> bool {
        let edit = self.session().coarse_gap_turned(turns);
        let noted = self.edit(&edit, now);
        if noted {
            let sentence = self.figures().turns(turns);
            let sentence = self.words().said_gap_turned(sentence);
            self.say(Tone::Done, sentence, now);
        }
        noted
    }

    /// Whether nuts are ticked on the turn card on show, so that it must be
    /// answered first what becomes of them.
    pub(super) fn is_turning(&self) -> bool {
        let card = self.view.turn_card.as_ref();
        card.is_some_and(|card| card.open && card.any_turned())
    }

    /// Leaves the turn card; asks first where a nut is ticked.
    pub(super) fn stop_turning(&mut self) {
        if self.is_turning() {
            self.view.dialog = Some(Dialog::StopTurning);
        } else {
            self.leave_turn_card();
        }
    }

    /// Leaves the turn card without noting anything.
    pub(super) fn leave_turn_card(&mut self) {
        self.view.dialog = None;
        if let Some(card) = &mut self.view.turn_card {
            card.open = false;
        }
    }

    /// Opens the next pass, the nuts turned so before it is laced; whether it
    /// could be.
    pub(super) fn open_pass(&mut self, turns: Vec<Notches>, now: f64) -> bool {
        let edit = Edit::add_pass(turns.clone(), "");
        let safe = self.session().made_safe_now();
        match self.document.apply(&edit) {
            Ok(_) => {
                self.view.pass = None;
                self.view.preview = Preview::Recommended;
                self.view.readings.cells.now = None;
                self.view.ask_reading(0, 0);
                self.view.visit.go_to(Stage::Measure);
                self.view.visit.steps = false;
                let pass = self.session().passes.len();
                self.say(Tone::Done, self.words().said_next_pass(pass), now);
                self.practice_pass_opened(&turns, safe, now);
                true
            }
            Err(problem) => {
                let sentence = self.figures().edit_problem(&problem);
                self.say(Tone::Problem, sentence, now);
                false
            }
        }
    }
}
