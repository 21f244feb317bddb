//! Carries out the one next act that the main button names.

use eframe::egui;

use crate::session::{NextAct, Stage};

use super::App;
use super::action::Action;
use super::commands::Command;

impl App {
    /// Does what the main button says.
    pub(super) fn do_next(&mut self, ctx: &egui::Context, act: &NextAct, now: f64) {
        let action = match act {
            NextAct::LaceFirst => return self.ask_reading(0),
            NextAct::LaceAgain => Action::LaceAgain,
            NextAct::Measure(station) => return self.ask_reading(*station),
            NextAct::Mend { station, repeat } => {
                let doubt = self.outlook().gate.doubt_at(*station, *repeat).cloned();
                let place = doubt.map(|doubt| doubt.read_again_at());
                self.view.wants_focus = match place {
                    Some((station, Some(repeat))) => Some((station, repeat)),
                    Some((station, None)) => return self.ask_reading(station),
                    None => None,
                };
                return;
            }
            NextAct::MeasureAgain(stations) => {
                if let Some(station) = stations.first() {
                    self.ask_reading(*station);
                }
                return;
            }
            NextAct::GoAndTurn => Action::GoAndTurn,
            NextAct::PutBack => Action::PreviewRecommended,
            NextAct::CheckPress => return self.command(ctx, Command::Properties),
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

    /// Puts the keyboard on the next reading of a station.
    fn ask_reading(&mut self, station: usize) {
        let pass = self
            .shown_pass()
            .and_then(|pass| self.session().passes.get(pass));
        let row = pass.and_then(|pass| pass.rows.get(station));
        self.view.wants_focus = Some((station, row.map_or(0, Vec::len)));
    }
}
