//! The one place where what views ask for is carried out.

use eframe::egui::{self, ViewportCommand};

use crate::report::Printed;
use crate::session::Document;
use crate::store::Expected;

use super::App;
use super::action::Action;
use super::commands::Command;
use super::messages::Tone;
use super::shop::ShopWish;
use super::state::dialog::{PathFor, Then};
use super::state::{CrewView, Dialog, Pane, Preview, SideView};
use crate::window::views::entry::marks;

impl App {
    /// Carries out what a view asked for.
    pub(super) fn act(&mut self, ctx: &egui::Context, action: Action, now: f64) {
        if self.goes_round_practice(&action) {
            let sentence = self.words().practice_by_acts().to_owned();
            self.say(Tone::Problem, sentence, now);
            return;
        }
        match action {
            Action::Edit(edit) => {
                self.edit(&edit, now);
            }
            Action::Undo => self.changing(Document::undo),
            Action::Redo => self.changing(Document::redo),
            Action::Leave(then) => self.leave(ctx, then, now),
            Action::LeaveNow(then) => self.leave_now(ctx, then, now),
            Action::SaveThen(then) => {
                self.view.dialog = None;
                self.after_save = Some(then);
                self.save(Expected::Nothing);
            }
            Action::Start(session) => self.start(*session),
            Action::Save => self.save(Expected::Nothing),
            Action::SaveOver => {
                self.view.dialog = None;
                self.save(Expected::Anything);
            }
            Action::SaveBeside => {
                self.view.dialog = None;
                self.save_beside();
            }
            Action::SaveAs => self.ask_for_path(PathFor::SaveAs),
            Action::Teach if self.practicing.is_none() => {
                self.view.dialog = Some(Dialog::Teach);
            }
            Action::Teach | Action::ChoosePressFile => {
                self.view.dialog = None;
                self.ask_for_path(PathFor::Teach);
            }
            Action::Print(what) => self.print(what, now),
            Action::Replace(path) => {
                self.view.dialog = None;
                self.use_path(ctx, PathFor::SaveAs, path, Expected::Anything);
            }
            Action::LookInto(what, folder) => self.files.look_into(what, folder),
            Action::MakeFolder(what, folder) => self.files.make_folder(what, folder),
            Action::UsePath(what, path) => {
                self.view.dialog = None;
                self.use_path(ctx, what, path, Expected::Nothing);
            }
            Action::ShowPass(pass) => {
                self.view.pass = pass.filter(|&pass| pass + 1 < self.session().passes.len());
                self.view.preview = Preview::Recommended;
                self.view.readings.cells.now = None;
            }
            Action::SideBySide => {
                let side = SideView::of(self.session());
                self.view.side.get_or_insert(side);
            }
            Action::CrewView => {
                self.view.crew = Some(CrewView::default());
                ctx.send_viewport_cmd(ViewportCommand::Fullscreen(true));
            }
            Action::KeepPreview => self.keep_preview(now),
            Action::DropPreview(index) => self.drop_preview(index),
            Action::TurnNut(arm, by) => self.turn_nut(arm, by),
            Action::Preview(turns) => self.view.preview = Preview::Chosen(turns),
            Action::PreviewRecommended => self.view.preview = Preview::Recommended,
            Action::GoAndTurn => self.go_and_turn(now),
            Action::GoAndTurnGap => self.go_and_turn_gap(),
            Action::MadeSafe(before) => self.made_safe(before, now),
            Action::AllTurned => self.note_turned(true, now),
            Action::NoteTurnedSoFar => self.note_turned(false, now),
            Action::StopTurning => self.stop_turning(),
            Action::LeaveTurnCard => self.leave_turn_card(),
            Action::LaceAgain => {
                self.open_pass(Vec::new(), now);
            }
            Action::Next(act) => self.do_next(ctx, &act, now),
            Action::CopyDoctor => self.files.doctor(self.words()),
            Action::CopyPlan => {
                ctx.copy_text(self.plan_text());
                self.say(Tone::Done, self.words().said_copied().to_owned(), now);
            }
            Action::Copy(text) => {
                ctx.copy_text(text);
                self.say(Tone::Done, self.words().said_copied_text().to_owned(), now);
            }
            Action::ShowUnit(unit) => {
                self.view.readings.cells.now = None;
                self.preferences.unit = (unit != self.session().unit).then_some(unit);
            }
            Action::Speak(language) => self.speak(language),
            Action::Wear(look) => {
                self.preferences.look = look;
                look.choose(ctx);
            }
            Action::Zoom(by) => self.zoom(ctx, by),
            Action::DismissMessage => self.messages.dismiss(),
            Action::AskImport => self.ask_import(),
            Action::ChooseReadings => self.ask_for_path(PathFor::Readings),
            Action::Import(edit, pass) => self.import(&edit, pass, now),
            Action::Guide => self.guide(ctx),
            Action::LookForPorts => self.files.look_for_ports(),
            Action::UsePort(settings) => self.use_port(ctx, settings),
            Action::Complain(sentence) => self.say(Tone::Problem, sentence, now),
            Action::Show(dialog) => self.view.dialog = Some(*dialog),
            Action::Close => self.close(ctx),
            Action::TakeLeftover(index) => self.take_leftover(index, now),
            Action::DropLeftover(index) => self.drop_leftover(index, now),
            Action::Practice(wish) => self.practice_wish(ctx, wish, now),
            Action::Shop(wish) => self.shop_wish(ctx, wish, now),
        }
    }

    /// Carries out a command given by shortcut.
    pub(super) fn command(&mut self, ctx: &egui::Context, command: Command) {
        let now = ctx.input(|input| input.time);
        let last = self.session().passes.len().saturating_sub(1);
        let shown = self.shown_pass().unwrap_or(0);
        let action = match command {
            Command::New => Action::Leave(Then::New),
            Command::Open => Action::Leave(Then::Open),
            Command::Save => Action::Save,
            Command::SaveAs => Action::SaveAs,
            Command::Undo => Action::Undo,
            Command::Redo => Action::Redo,
            Command::OtherUnit => Action::ShowUnit(self.figures().unit.other()),
            Command::PrintCard => Action::Print(Printed::TurnCard),
            Command::PrintReport => Action::Print(Printed::Report),
            Command::Properties => Action::Show(Box::new(Dialog::Properties(Box::default()))),
            Command::Gauge => Action::Show(Box::new(Dialog::Gauge(Box::default()))),
            Command::GoToReadings => {
                self.view.ask_reading(0, 0);
                return;
            }
            Command::GoToNuts => {
                self.view.nut_wants_focus = true;
                return;
            }
            Command::GoToPlan => {
                self.view.plan_wants_focus = true;
                return;
            }
            Command::ShowRecommended => Action::PreviewRecommended,
            Command::GoAndTurn => self.turn_or_next(),
            Command::EarlierStage => {
                self.view.visit.step_by(-1);
                return;
            }
            Command::LaterStage => {
                self.view.visit.step_by(1);
                return;
            }
            Command::StepsOrPicture => {
                self.view.visit.switch();
                self.view.pane = Pane::Middle;
                return;
            }
            Command::SideBySide if self.view.side.is_some() => Action::Close,
            Command::SideBySide => Action::SideBySide,
            Command::CrewView if self.view.crew.is_some() => Action::Close,
            Command::CrewView => Action::CrewView,
            Command::KeepPreview => Action::KeepPreview,
            Command::Strike => {
                marks::asked_for(self.session(), &self.view, self.figures().language)
            }
            Command::CopyPlan => Action::CopyPlan,
            Command::EarlierPass => Action::ShowPass(Some(shown.saturating_sub(1))),
            Command::LaterPass => Action::ShowPass(Some((shown + 1).min(last))),
            Command::Import => Action::AskImport,
            Command::Guided if self.view.guided.is_some() => Action::Close,
            Command::Guided => Action::Guide,
            Command::ZoomIn => Action::Zoom(1),
            Command::ZoomOut => Action::Zoom(-1),
            Command::ZoomNormal => Action::Zoom(0),
            Command::Help => Action::Show(Box::new(Dialog::Help)),
            Command::Practice => Action::Show(Box::new(Dialog::Practice(Box::default()))),
            Command::Shop if self.view.shop.open => Action::Close,
            Command::Shop => Action::Shop(ShopWish::Open),
            Command::Messages => Action::Show(Box::new(Dialog::Messages)),
            Command::Quit => Action::Leave(Then::Quit),
        };
        self.act(ctx, action, now);
    }

    pub(super) fn say(&mut self, tone: Tone, sentence: String, now: f64) {
        self.messages.say(tone, sentence, now);
    }

    /// Closes what stands in front.
    fn close(&mut self, ctx: &egui::Context) {
        let view = &mut self.view;
        if view.dialog.take().is_some() {
            self.after_save = None;
        } else if view.crew.take().is_some() {
            ctx.send_viewport_cmd(ViewportCommand::Fullscreen(false));
        } else if view.shop.open {
            view.shop.leave();
        } else if view.side.take().is_none() {
            view.guided = None;
        }
    }
}
