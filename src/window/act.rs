//! The one place where what views ask for is carried out.

use std::path::PathBuf;
use std::time::SystemTime;

use eframe::egui::{self, ViewportCommand};

use crate::press::{ArmIndex, Notches, NutPosition};
use crate::report::Printed;
use crate::session::{By, Document, Edit, Session, Stage};
use crate::store::{self, Expected, SaveProblem};
use crate::words::Language;

use super::App;
use super::action::Action;
use super::commands::Command;
use super::files::{self, Done};
use super::messages::Tone;
use super::preferences::ZOOM;
use super::shop::ShopWish;
use super::state::dialog::{PathFor, Then};
use super::state::{CrewView, Dialog, NewSessionForm, Pane, Preview, SideView};
use crate::window::views::entry::marks;

/// Zoom of the whole window, least and most, and its step.
const ZOOM_STEP: f32 = 0.125;

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
            Action::Teach => self.ask_for_path(PathFor::Teach),
            Action::Print(what) => self.print(what, now),
            Action::Replace(path) => {
                self.view.dialog = None;
                self.use_path(ctx, PathFor::SaveAs, path, Expected::Anything);
            }
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
            Action::Speak(language) => self.preferences.language = language,
            Action::Wear(look) => {
                self.preferences.look = look;
                look.choose(ctx);
            }
            Action::Zoom(by) => self.zoom(ctx, by),
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
                marks::asked_for(self.session(), &self.view.readings, self.figures().language)
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

    /// Takes up what came of a job on another thread.
    pub(super) fn file_job_done(&mut self, ctx: &egui::Context, done: Done, now: f64) {
        match done {
            // A dialog of the desktop has asked before it names an existing
            // file.
            Done::Chosen(what, path) => self.use_path(ctx, what, path, Expected::Anything),
            Done::Cancelled => self.after_save = None,
            Done::NoDialogs(what) => {
                let name = match what {
                    PathFor::Open | PathFor::OpenPress | PathFor::Readings | PathFor::Shop => {
                        String::new()
                    }
                    PathFor::SaveAs => files::suggested_name(self.session()),
                    PathFor::Teach => files::suggested_press_name(self.session()),
                };
                let path = self.files.folder().join(name).display().to_string();
                self.view.dialog = Some(Dialog::TypePath(what, path));
            }
            Done::Ports(found) => self.view.ports = Some(found),
            Done::Printed(printed) => self.printed(printed, now),
            Done::ReadingsRead(path, read) => self.readings_read(&path, read),
            Done::Opened(path, Ok(opened)) => {
                self.show_document(Document::saved(opened.session));
                self.files.path = Some(path.clone());
                self.files.fingerprint = Some(opened.fingerprint);
                self.remember(&path);
                let name = self.files.name().unwrap_or_default();
                self.say(Tone::Done, self.words().said_opened(name), now);
            }
            Done::Opened(path, Err(problem)) => {
                let sentence = self.figures().open_problem(&problem, &path);
                self.say(Tone::Problem, sentence, now);
            }
            Done::PressOpened(_, Ok(opened)) => {
                self.begin_next_visit(&opened.record, now);
            }
            Done::PressOpened(path, Err(problem)) => {
                let sentence = self.figures().open_problem(&problem, &path);
                self.say(Tone::Problem, sentence, now);
            }
            Done::Taught(path, Ok(lesson)) => {
                let words = self.words();
                let sentence = words.with_path(words.lesson(lesson).to_owned(), path.display());
                self.say(Tone::Done, sentence, now);
            }
            Done::Taught(path, Err(problem)) => {
                let sentence = self.figures().teach_problem(&problem, &path);
                self.say(Tone::Problem, sentence, now);
            }
            Done::PracticeOpened(path, Ok(opened)) => {
                self.practice_opened(path, opened.file);
                self.name_window(ctx);
            }
            Done::PracticeOpened(path, Err(problem)) => {
                let sentence = self.figures().open_problem(&problem, &path);
                self.say(Tone::Problem, sentence, now);
            }
            Done::PracticeSaved(path, notebook, saved) => {
                self.practice_saved(&path, notebook.map(|it| *it), saved, now);
                if !self.document.has_unsaved_changes()
                    && let Some(then) = self.after_save.take()
                {
                    self.leave(ctx, then, now);
                }
            }
            Done::Debriefed(debrief, recorded) => self.debriefed(debrief, recorded, now),
            Done::Saved(path, _, outcome) if !self.saving.is_over(&path) => {
                // Saved elsewhere meanwhile: a copy, and no news where it failed.
                if outcome.is_ok() {
                    let sentence = self.words().said_saved_late(path.display());
                    self.say(Tone::Done, sentence, now);
                }
            }
            Done::Saved(path, session, Ok(fingerprint)) => {
                self.files.path = Some(path.clone());
                self.files.fingerprint = Some(fingerprint);
                self.document.mark_saved_as(session);
                self.remember(&path);
                self.forget_if_saved();
                let name = self.files.name().unwrap_or_default();
                self.say(Tone::Done, self.words().said_saved(name), now);
                if let Some(then) = self.after_save.take() {
                    self.leave(ctx, then, now);
                }
            }
            Done::Saved(path, session, Err(SaveProblem::ChangedOnDisk)) => {
                self.view.dialog = Some(Dialog::ChangedOnDisk(Box::default()));
                self.files.compare(path, session);
            }
            Done::Compared(path, compared) => self.compared(&path, compared),
            Done::UpkeepKept(folder, edit, kept) => self.upkeep_kept(&folder, &edit, kept, now),
            Done::PressLearnt(press, taught, start) => self.press_learnt(press, taught, start, now),
            Done::Saved(path, _, Err(SaveProblem::Exists)) => {
                self.view.dialog = Some(Dialog::FileExists(path));
            }
            Done::Saved(path, _, Err(problem)) => {
                self.after_save = None;
                let sentence = self.figures().save_problem(&problem, &path);
                self.say(Tone::Problem, sentence, now);
            }
        }
    }

    /// Changes the document; whether it could be.
    pub(super) fn edit(&mut self, edit: &Edit, now: f64) -> bool {
        let blank = matches!(edit, Edit::Enter { text, .. } if text.trim().is_empty());
        if blank && self.session().passes.is_empty() {
            return true;
        }
        let opening = self.opening_first_pass(edit);
        let edit = opening.as_ref().unwrap_or(edit);
        match self.changing(|document| document.apply(&noted(edit))) {
            Ok(_) => {
                if opening.is_some() {
                    self.view.visit.go_to(Stage::Measure);
                }
                if matches!(edit, Edit::InsertPass { .. } | Edit::DeletePass { .. }) {
                    self.view.readings.cells.now = None;
                    // Turns that are kept start from a pass by its number.
                    self.view.what_if.kept.clear();
                }
                true
            }
            Err(problem) => {
                let sentence = self.figures().edit_problem(&problem);
                self.say(Tone::Problem, sentence, now);
                false
            }
        }
    }

    /// The first readings of a visit, or how they are taken, open its first
    /// pass: the change that does both. None where there is a pass already.
    fn opening_first_pass(&self, edit: &Edit) -> Option<Edit> {
        let reads = matches!(
            edit,
            Edit::Enter { .. } | Edit::Fill { .. } | Edit::SetWalk { .. }
        );
        let add = Edit::AddPass {
            turns: Vec::new(),
            laced: String::new(),
        };
        (reads && self.session().passes.is_empty()).then(|| Edit::Together(vec![add, edit.clone()]))
    }

    pub(super) fn say(&mut self, tone: Tone, sentence: String, now: f64) {
        self.messages.say(tone, sentence, now);
    }

    pub(super) fn leave(&mut self, ctx: &egui::Context, then: Then, now: f64) {
        if self.is_turning() {
            self.stop_turning();
        } else if self.document.has_unsaved_changes() {
            self.view.dialog = Some(Dialog::UnsavedWork(then));
        } else {
            self.leave_now(ctx, then, now);
        }
    }

    fn leave_now(&mut self, ctx: &egui::Context, then: Then, now: f64) {
        self.view.dialog = None;
        match then {
            Then::New => {
                let form = NewSessionForm::new(self.figures().unit);
                self.view.dialog = Some(Dialog::New(Box::new(form)));
            }
            Then::Open => self.ask_for_path(PathFor::Open),
            Then::OpenPress => self.ask_for_path(PathFor::OpenPress),
            Then::OpenPath(path) => self.files.open(path),
            Then::NextVisitOf(path) => self.files.open_press(path),
            Then::NextVisitInShop(press) => self.next_visit_in_shop(press),
            Then::OpenSample(sample) => {
                self.show_document(Document::saved(super::start::sample_session(sample)));
                self.files.forget();
            }
            Then::Practice(exercise, trainee) => {
                self.begin_practice(*exercise, trainee, now);
                self.name_window(ctx);
            }
            Then::Quit => {
                self.may_close = true;
                ctx.send_viewport_cmd(ViewportCommand::Close);
            }
        }
    }

    fn start(&mut self, mut session: Session) {
        session.id = store::new_session_id();
        session.notes.when = store::today();
        session.checklist = self.steps_for_next_visit();
        self.apply_shop_rules(&mut session);
        self.view.dialog = None;
        self.show_document(Document::unsaved(session));
        self.files.forget();
        self.preferences.unit = None;
        self.view.ask_reading(0, 0);
    }

    /// Saves where the document belongs. `fallback` is what is expected of
    /// the file where it is not known what it was.
    fn save(&mut self, fallback: Expected) {
        if self.practicing.is_some() {
            // It has a file of its own and never becomes a session's.
            self.keep_practice();
            return;
        }
        let Some(path) = self.files.path.clone() else {
            self.ask_for_path(PathFor::SaveAs);
            return;
        };
        let expected = match (fallback, self.files.fingerprint) {
            (Expected::Anything, _) => Expected::Anything,
            (_, Some(fingerprint)) => Expected::Unchanged(fingerprint),
            (fallback, None) => fallback,
        };
        self.save_under(path, expected);
    }

    pub(super) fn ask_for_path(&mut self, what: PathFor) {
        if self.practicing.is_some() && matches!(what, PathFor::SaveAs | PathFor::Teach) {
            self.keep_practice();
            return;
        }
        let words = self.words();
        let title = path_title(words, what);
        let suggested = match what {
            PathFor::Teach => files::suggested_press_name(self.session()),
            _ => files::suggested_name(self.session()),
        };
        self.files.choose(what, suggested, title);
    }

    /// Opens or saves under a path; `expected` is what may already be there.
    fn use_path(&mut self, ctx: &egui::Context, what: PathFor, path: PathBuf, expected: Expected) {
        match what {
            PathFor::Open => self.files.open(path),
            PathFor::OpenPress => self.files.open_press(path),
            PathFor::Readings => self.files.read_readings(path),
            PathFor::Shop => self.open_shop(ctx, path),
            PathFor::Teach => {
                let path = files::with_ending(path, what);
                self.files.teach(path, self.document.shared());
            }
            PathFor::SaveAs => {
                let named = files::with_ending(path.clone(), what);
                // Nobody was asked about the name with the ending added.
                let expected = if named == path {
                    expected
                } else {
                    Expected::Nothing
                };
                self.save_under(named, expected);
            }
        }
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

    fn turn_nut(&mut self, arm: ArmIndex, by: Notches) {
        let mut turns = self.turns_on_show();
        let nuts = match self.shown_pass() {
            Some(pass) => self.session().nuts_at(pass),
            None => self.session().nuts_now(),
        };
        if let (Some(turn), Some(from)) = (turns.get_mut(arm.0), nuts.get(arm.0)) {
            let anywhere = crate::press::CountQuantity::NutPosition.bounds();
            let stands = i64::from((*from + *turn + by).0);
            let stands = stands.clamp(anywhere.least, anywhere.most) as i32;
            *turn = NutPosition(stands) - *from;
        }
        self.view.preview = Preview::Chosen(turns);
    }

    /// The turns on show, one per arm.
    pub(super) fn turns_on_show(&self) -> Vec<Notches> {
        let shown = match &self.view.preview {
            Preview::Chosen(turns) => turns.clone(),
            Preview::Recommended => self.outlook().recommended_turns().unwrap_or_default(),
        };
        let arms = self.session().press.arms.len();
        shown
            .into_iter()
            .chain(std::iter::repeat(Notches(0)))
            .take(arms)
            .collect()
    }

    fn plan_text(&self) -> String {
        let turns = self.turns_on_show();
        let pass = self.shown_pass();
        let nuts = pass.map_or_else(
            || self.session().nuts_now().to_vec(),
            |pass| self.session().nuts_at(pass).to_vec(),
        );
        let forecast = self.outlook().forecast(&turns);
        self.figures()
            .plan_as_text(self.session(), &turns, &nuts, forecast)
    }

    fn zoom(&mut self, ctx: &egui::Context, by: i8) {
        let (least, most) = ZOOM;
        let zoom = if by == 0 {
            1.0
        } else {
            (self.preferences.zoom + f32::from(by) * ZOOM_STEP).clamp(least, most)
        };
        self.preferences.zoom = zoom;
        ctx.set_zoom_factor(zoom);
    }

    fn take_leftover(&mut self, index: usize, now: f64) {
        if index >= self.leftovers.len() {
            return;
        }
        let leftover = self.leftovers.remove(index);
        let session = match &leftover.session {
            Ok(session) => session.clone(),
            Err(problem) => {
                let sentence = self.figures().open_problem(problem, &leftover.path);
                self.say(Tone::Problem, sentence, now);
                self.close_leftovers();
                return;
            }
        };
        self.show_document(Document::unsaved(session));
        self.files.path.clone_from(&leftover.origin.path);
        self.files.fingerprint = leftover.origin.opened;
        let when = leftover.kept_at.map(store::moment_of).unwrap_or_default();
        // It goes on living as this window's own kept work before the old
        // copy is let go.
        if let Some(recovery) = &self.recovery {
            recovery.take_up(self.document.shared(), leftover);
        }
        self.say(Tone::Done, self.words().said_taken_up(when), now);
        self.view.dialog = None;
    }

    fn drop_leftover(&mut self, index: usize, now: f64) {
        if index < self.leftovers.len() {
            let leftover = self.leftovers.remove(index);
            let path = leftover.path.clone();
            if let Err(problem) = leftover.discard() {
                let sentence = self.figures().disk_problem(problem, &path);
                self.say(Tone::Problem, sentence, now);
            }
        }
        self.close_leftovers();
    }

    fn close_leftovers(&mut self) {
        if self.leftovers.is_empty() {
            self.view.dialog = None;
        }
    }

    fn forget_if_saved(&mut self) {
        if !self.document.has_unsaved_changes()
            && let Some(recovery) = &self.recovery
        {
            recovery.forget();
        }
    }

    fn remember(&mut self, path: &std::path::Path) {
        let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        self.preferences.remember(&path);
        self.save_preferences();
    }
}

/// A change with when it is made; who makes it stands in the session's notes.
pub(super) fn noted(edit: &Edit) -> Edit {
    Edit::Noted {
        change: Box::new(edit.clone()),
        by: By {
            who: String::new(),
            when: store::moment_of(SystemTime::now()),
        },
    }
}

/// What a path is asked for, as a title.
pub(super) fn path_title(words: Language, what: PathFor) -> &'static str {
    match what {
        PathFor::Open => words.command_open(),
        PathFor::SaveAs => words.command_save_as(),
        PathFor::OpenPress => words.next_visit(),
        PathFor::Readings => words.command_import(),
        PathFor::Teach => words.keep_with_press(),
        PathFor::Shop => words.shop_choose(),
    }
}
