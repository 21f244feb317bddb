//! What is to be said first of a pass and what is to be done next: one
//! decision, so that headline, main button, crew view and text agree.

use crate::plan::{BestAct, Forecast, POOR, VERY_POOR};
use crate::press::{ArmIndex, Notches};

use super::{Advice, Gate, PlanningProblem, Session, Stage, Stands};

/// What stands before whoever decides.
#[derive(Debug, Clone, Copy)]
pub struct InView<'a> {
    /// The gate of the pass on show.
    pub gate: &'a Gate,
    /// Advice on it; none while it is being worked out or where there is none.
    pub advice: Option<&'a Advice>,
    /// Why there is no advice.
    pub problem: Option<&'a PlanningProblem>,
    /// Stations that are worth another reading before anything is turned.
    pub again: &'a [usize],
    /// The turns on show.
    pub turns: &'a [Notches],
    /// What is foretold of the next piece after them.
    pub forecast: Option<Forecast>,
}

/// How things stand, and the one next act.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NextStep {
    /// What is said first.
    pub says: Says,
    /// What is done next.
    pub act: NextAct,
}

/// What is said first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Says {
    /// Nobody knows where a nut stands.
    NutsLost,
    /// No test piece was laced.
    NothingLaced,
    /// The test piece is not measured.
    Unread {
        /// Another was before it: this one is still to be laced.
        turned: bool,
    },
    /// A reading needs a second look.
    Doubtful,
    /// Counting stations are not read.
    Missing {
        /// What was read already shows that the piece is outside.
        outside: bool,
    },
    /// Fewer than two stations count: nothing can be compared.
    NothingToCompare,
    /// The turns on show cannot be made: past the limits of a nut.
    TurnsCannotBe,
    /// What the turns on show would do.
    TurnsWould,
    /// The piece passes.
    Passes {
        /// The next piece would more likely fail than pass.
        next_is_poor: bool,
    },
    /// Inside by the plain comparison, and not as sure as the shop asks for.
    NotSureEnough,
    /// So far outside that no turns bring it noticeably nearer: a reading is
    /// likelier wrong than the jaw.
    BeyondNuts,
    /// Outside, by single readings and only just: one more reading there costs
    /// less than a piece.
    OutsideJust,
    /// Outside.
    Outside,
}

/// What is done next.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NextAct {
    /// Lace a piece, then read it, this station first.
    LaceFirst(usize),
    /// Read this station.
    Measure(usize),
    /// Look at a doubtful reading again.
    Mend {
        /// The station.
        station: usize,
        /// The reading.
        repeat: usize,
    },
    /// Read these stations once more.
    MeasureAgain(Vec<usize>),
    /// Make the press safe and find this nut, whose count was lost.
    FindNut(ArmIndex),
    /// Make the press safe and turn what is on show.
    GoAndTurn,
    /// Put the nuts on show back to what is advised.
    PutBack,
    /// Lace another piece with the nuts as they are.
    LaceAgain,
    /// Check the limits and stations of the press.
    CheckPress,
    /// Pins in, clear, file: close the visit out.
    CloseOut,
    /// The visit is closed out: keep with the press what it taught.
    KeepWithPress,
    /// Go to the last pass: only from there things go on.
    ShowLast,
    /// Wait until the advice is worked out.
    Wait,
}

/// Chance that turns somebody chose may lose against leaving the nuts alone
/// before it is proposed to put them back; and that they must gain where the
/// piece passes as it is.
const LOSES: f64 = 0.05;

/// Share of the spread that turns may leave and still be worth making, where
/// they have no chance.
const HARDLY: f64 = 0.9;

impl Session {
    /// How a pass stands and what is to be done next. What is missing or
    /// doubtful comes first, then what the turns on show would do, then the
    /// verdict and the advice.
    pub fn next_step(&self, view: &InView<'_>) -> NextStep {
        let (says, act) = self.decide(view);
        let shows_last = view
            .gate
            .pass
            .is_none_or(|pass| pass + 1 == self.passes.len());
        NextStep {
            says,
            act: if shows_last { act } else { NextAct::ShowLast },
        }
    }

    fn decide(&self, view: &InView<'_>) -> (Says, NextAct) {
        let gate = view.gate;
        if let Some(doubt) = gate.doubtful.first() {
            let (station, repeat) = (doubt.station, doubt.repeat);
            return (Says::Doubtful, NextAct::Mend { station, repeat });
        }
        // What is laced already is measured all the same, and a piece that passes
        // needs no turn.
        let turned = view.turns.iter().any(|turn| turn.0 != 0);
        let waits = match gate.stands {
            Stands::NotLaced | Stands::Unread => true,
            Stands::Open => false,
            Stands::Outside => gate.missing.is_empty(),
            Stands::Inside => turned,
        };
        if let Some(arm) = self.lost.first().filter(|_| waits) {
            return (Says::NutsLost, NextAct::FindNut(*arm));
        }
        if gate.stands == Stands::NotLaced {
            return (Says::NothingLaced, NextAct::LaceFirst(0));
        }
        if let Some(station) = gate.missing.first() {
            let outside = gate.stands == Stands::Outside;
            if gate.stands == Stands::Unread {
                let laced = self.is_laced();
                let turned = !laced && gate.pass.is_some_and(|pass| pass > 0);
                let act = match laced {
                    true => NextAct::Measure(*station),
                    false => NextAct::LaceFirst(*station),
                };
                return (Says::Unread { turned }, act);
            }
            return (Says::Missing { outside }, NextAct::Measure(*station));
        }
        if !gate.is_clear() {
            return (Says::NothingToCompare, NextAct::CheckPress);
        }
        self.with_turns(view)
            .unwrap_or_else(|| self.as_it_stands(view))
    }

    /// What somebody chose to show in place of what is advised; none where it is
    /// that.
    fn with_turns(&self, view: &InView<'_>) -> Option<(Says, NextAct)> {
        let turned = view.turns.iter().any(|turn| turn.0 != 0);
        let advised = view
            .advice
            .is_some_and(|advice| advice.turns() == view.turns);
        if advised || (!turned && view.advice.is_none()) {
            return None;
        }
        if !turned {
            // Somebody chose to leave the nuts as they are.
            let (says, act) = self.as_it_stands(view);
            let leaves = act == NextAct::GoAndTurn;
            return Some((says, if leaves { NextAct::LaceAgain } else { act }));
        }
        let pass = view.gate.pass?;
        if !self.turn_troubles(pass, view.turns).is_empty() {
            return Some((Says::TurnsCannotBe, NextAct::PutBack));
        }
        let leave = view.advice.and_then(|advice| advice.choice.options.first());
        let Some((leave, forecast)) = leave.zip(view.forecast) else {
            return Some((Says::TurnsWould, NextAct::Wait));
        };
        let loses = forecast.chance < leave.forecast.chance - LOSES
            || (forecast.chance < leave.forecast.chance
                && forecast.median_nm > leave.forecast.median_nm);
        // Hardly a chance, where what is advised has a fair one.
        let advised = view.advice.map(|advice| advice.recommended().forecast);
        let hopeless =
            forecast.chance < VERY_POOR && advised.is_some_and(|advised| advised.chance >= POOR);
        // A piece that passes is not turned for nothing.
        let passes = view.advice.is_some_and(|advice| advice.accepted);
        let gains = forecast.chance >= leave.forecast.chance + LOSES;
        let act = if loses || hopeless || (passes && !gains) {
            NextAct::PutBack
        } else {
            NextAct::GoAndTurn
        };
        Some((Says::TurnsWould, act))
    }

    fn as_it_stands(&self, view: &InView<'_>) -> (Says, NextAct) {
        let inside = view.gate.stands == Stands::Inside;
        let Some(advice) = view.advice else {
            let says = if inside {
                Says::Passes {
                    next_is_poor: false,
                }
            } else {
                Says::Outside
            };
            let act = match view.problem {
                Some(_) if inside => self.closing(),
                Some(_) => NextAct::CheckPress,
                None => NextAct::Wait,
            };
            return (says, act);
        };
        if advice.accepted {
            let next_is_poor = advice.next_piece() < POOR;
            return (Says::Passes { next_is_poor }, self.closing());
        }
        let once_more = view.gate.pass.map(|pass| self.repeat_before_outside(pass));
        let once_more = once_more.unwrap_or_default();
        if !once_more.is_empty() {
            return (Says::OutsideJust, NextAct::MeasureAgain(once_more));
        }
        let recommended = &advice.recommended().forecast;
        let leave = advice.choice.options.first().map(|leave| leave.forecast);
        let hardly = leave.is_some_and(|leave| recommended.median_nm > HARDLY * leave.median_nm);
        if !inside && hardly && recommended.chance < LOSES && advice.choice.action == BestAct::Turn
        {
            return (
                Says::BeyondNuts,
                NextAct::MeasureAgain(self.worth_reading_again(view)),
            );
        }
        let says = if inside {
            Says::NotSureEnough
        } else {
            Says::Outside
        };
        let act = match advice.choice.action {
            BestAct::Turn => NextAct::GoAndTurn,
            BestAct::MeasureAgain => NextAct::MeasureAgain(self.worth_reading_again(view)),
            BestAct::LaceAgain | BestAct::Accept => NextAct::LaceAgain,
        };
        (says, act)
    }

    fn closing(&self) -> NextAct {
        if self.current_stage() == Some(Stage::CloseOut) {
            NextAct::CloseOut
        } else {
            NextAct::KeepWithPress
        }
    }

    /// The stations to read once more: those that would settle the verdict,
    /// else the two that make the spread.
    fn worth_reading_again(&self, view: &InView<'_>) -> Vec<usize> {
        if !view.again.is_empty() {
            return view.again.to_vec();
        }
        let spread = view.gate.spread.as_ref();
        let mut ends: Vec<usize> =
            spread.map_or_else(Vec::new, |spread| vec![spread.thinnest, spread.thickest]);
        ends.sort_unstable();
        ends
    }
}
