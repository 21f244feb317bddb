//! Carries out the one next act that the main button names.

use eframe::egui;

use crate::practice::Act;
use crate::session::{Edit, NextAct, Says, Stage};

use super::App;
use super::action::Action;
use super::commands::Command;
use super::practicing::PracticeWish;

impl App {
    /// Does what the main button says.
    pub(super) fn do_next(&mut self, ctx: &egui::Context, act: &NextAct, now: f64) {
        let action = match act {
            NextAct::LaceFirst(station) => return self.ask_reading(*station),
            NextAct::LaceAgain => Action::LaceAgain,
            NextAct::Measure(station) => return self.ask_reading(*station),
            NextAct::Mend { station, repeat } => {
                let gate = &self.outlook().gate;
                let doubt = gate.doubt_at(*station, *repeat).cloned();
                let whole = gate.whole_piece_unit().is_some();
                let of = gate
                    .doubtful
                    .iter()
                    .filter(|at| whole || (at.station, at.repeat) == (*station, *repeat));
                let readings = of.map(|at| (at.station, at.repeat)).collect();
                if let (Some(pass), Some(_)) = (
                    gate.pass,
                    doubt.as_ref().and_then(|doubt| doubt.likely.as_ref()),
                ) {
                    let edit = Edit::TakeLikely { pass, readings };
                    return self.act(ctx, Action::Edit(edit), now);
                }
                let place = doubt.map(|doubt| doubt.read_again_at());
                match place {
                    Some((station, Some(repeat))) => self.view.ask_reading(station, repeat),
                    Some((station, None)) => self.ask_reading(station),
                    None => {}
                }
                return;
            }
            NextAct::MeasureAgain(stations) => {
                if let Some(station) = stations.first() {
                    self.ask_reading(*station);
                }
                return;
            }
            NextAct::FindNut(_) => return self.find_nut(),
            NextAct::GoAndTurn => Action::GoAndTurn,
            NextAct::PutBack => Action::PreviewRecommended,
            NextAct::CheckPress => return self.command(ctx, Command::Properties),
            NextAct::CloseOut if self.practicing.is_some() => {
                Action::Practice(PracticeWish::Act(Act::Accept))
            }
            NextAct::CloseOut => {
                self.view.visit.go_to(Stage::CloseOut);
                return;
            }
            NextAct::KeepWithPress => Action::Teach,
            NextAct::ShowLast => Action::ShowPass(None),
            NextAct::Wait => return,
        };
        self.act(ctx, action, now);
    }

    /// What the shortcut for turning does: what the main button says, and turns
    /// where that would have a reading taken again first.
    pub(super) fn turn_or_next(&self) -> Action {
        let turns = self.turns_on_show();
        let step = self
            .outlook()
            .next_step(self.session(), &turns, self.is_thinking());
        match (step.says, step.act) {
            // It is refused in words.
            (Says::TurnsCannotBe, _)
            | (_, NextAct::GoAndTurn | NextAct::MeasureAgain(_) | NextAct::Wait) => {
                Action::GoAndTurn
            }
            (_, NextAct::PutBack) => Action::Complain(self.words().would_do_harm().to_owned()),
            (_, act) => Action::Next(act),
        }
    }

    /// Puts the keyboard on the next reading of a station.
    fn ask_reading(&mut self, station: usize) {
        let pass = self
            .shown_pass()
            .and_then(|pass| self.session().passes.get(pass));
        let row = pass.and_then(|pass| pass.rows.get(station));
        let repeat = row.map_or(0, Vec::len);
        self.view.ask_reading(station, repeat);
    }
}
