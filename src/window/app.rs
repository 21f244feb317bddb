//! The window's state, and what happens in a frame.

use std::path::PathBuf;
use std::sync::{Arc, PoisonError};

use eframe::egui::{self, CentralPanel, Frame, Ui};

use crate::press::Notches;
use crate::session::{Document, IsoDate, PriorShelf, Session};
use crate::store::{self, Folders, Leftover, Recovery, SampleSession};
use crate::words::{Figures, Language};

use super::action::Action;
use super::advisor::{Advisor, Told};
use super::commands::{Command, longest_first};
use super::files::Files;
use super::history::History;
use super::messages::{Messages, Tone};
use super::outlook::Outlook;
use super::pacing;
use super::preferences::Preferences;
use super::shop::ShopDesk;
use super::start::Surroundings;
use super::state::shop::ShopView;
use super::state::{Dialog, ViewState};
use super::theme::{self, GAP, Palette};
use super::views::{self, Scene};

/// Frames after which the window is where it belongs: the zoom is not in force
/// in the first, and the desktop takes its time.
const PLACED: u8 = 4;

/// Frames after which the renderer is taken to work.
const PROVEN: u64 = 2;

/// The window.
pub struct App {
    pub(super) document: Document,
    pub(super) view: ViewState,
    pub(super) preferences: Preferences,
    pub(super) files: Files,
    pub(super) messages: Messages,
    pub(super) folders: Option<Folders>,
    pub(super) recovery: Option<Recovery>,
    pub(super) leftovers: Vec<Leftover>,
    pub(super) after_save: Option<super::state::dialog::Then>,
    pub(super) may_close: bool,
    /// The exercise that the document is the notebook of.
    pub(super) practicing: Option<super::practicing::Practicing>,
    /// What the desktop was told that the window is called.
    pub(super) titled: String,
    /// What is known of the shop's folder.
    pub(super) shop: ShopDesk,
    /// Frames in which the window was brought into sight.
    placed: u8,
    pub(super) listening: super::gauge_port::Listening,
    outlook: Outlook,
    advisor: Advisor,
    history: History,
    pub(super) lessons: super::lessons::Lessons,
    /// What is believed of geometries, for both threads.
    shelf: Arc<PriorShelf>,
    /// What had the keyboard last, brought into sight.
    in_sight: super::in_sight::InSight,
    /// Input that waits for the next frame.
    waiting_input: Vec<egui::Event>,
    pub(super) outlook_of: Option<(u64, Option<usize>)>,
    /// The revision, and the turns ticked and not noted, that are kept aside.
    pub(super) kept: (u64, Vec<Notches>),
    pub(super) kept_at: Option<f64>,
    /// What was said last about keeping aside.
    pub(super) kept_problem: Option<store::DiskProblem>,
    /// The save under way.
    pub(super) saving: super::saving::Saving,
    /// What to tell of the renderer once it has shown a frame.
    unproven: Option<super::start::SharedMemory>,
    pub(super) log: Option<store::Log>,
}

impl App {
    /// A window on a file, or on the built-in sample, in its user's own
    /// surroundings.
    pub fn new(ctx: &egui::Context, file: Option<PathBuf>) -> Self {
        Self::within(ctx, file, Surroundings::of_user())
    }

    /// The same in given surroundings.
    pub fn within(ctx: &egui::Context, file: Option<PathBuf>, surroundings: Surroundings) -> Self {
        let Surroundings { folders, dialogs } = surroundings;
        theme::install_fonts(ctx);
        ctx.add_plugin(super::input::Habits);
        ctx.options_mut(|options| {
            options.quit_shortcuts.clear();
            // Where the desktop reports no theme: shops are bright.
            options.fallback_theme = egui::Theme::Light;
            // The program has its own commands for zooming.
            options.zoom_with_keyboard = false;
        });
        let mut messages = Messages::default();
        let preferences = Preferences::of_user(folders.as_ref(), &mut messages);
        preferences.look.choose(ctx);
        if let Some(zoom) = preferences.zoom {
            ctx.set_zoom_factor(zoom);
        }
        let log = folders
            .as_ref()
            .map(|folders| store::Log::start(&folders.preferences));
        let recovery = folders.as_ref().and_then(|folders| {
            let ctx = ctx.clone();
            Recovery::start(&folders.recovery, move || ctx.request_repaint()).ok()
        });
        if recovery.is_none() && folders.is_some() {
            messages.say(
                Tone::Problem,
                preferences.language.said_recovery_off().to_owned(),
                0.0,
            );
        }
        let leftovers = folders
            .as_ref()
            .map_or_else(Vec::new, |folders| store::leftovers(&folders.recovery));
        let shelf = Arc::new(PriorShelf::default());
        let sample = super::start::sample_session(SampleSession::default(), preferences.language);
        let mut app = Self {
            document: Document::saved(sample),
            view: ViewState::default(),
            preferences,
            files: Files::new(ctx, dialogs),
            messages,
            folders,
            recovery,
            leftovers,
            after_save: None,
            may_close: false,
            practicing: None,
            titled: String::new(),
            shop: ShopDesk::default(),
            placed: 0,
            listening: super::gauge_port::Listening::default(),
            outlook: Outlook::default(),
            advisor: Advisor::new(ctx, Arc::clone(&shelf)),
            history: History::default(),
            lessons: super::lessons::Lessons::default(),
            shelf,
            in_sight: super::in_sight::InSight::default(),
            waiting_input: Vec::new(),
            outlook_of: None,
            kept: (0, Vec::new()),
            kept_at: None,
            kept_problem: None,
            saving: super::saving::Saving::default(),
            unproven: None,
            log,
        };
        if !app.leftovers.is_empty() {
            app.view.dialog = Some(Dialog::Leftovers);
        } else if file.is_none() && !app.preferences.recent.is_empty() {
            app.view.dialog = Some(Dialog::Welcome);
            if let Some(last) = app.preferences.recent.first() {
                app.files.peek(last.clone());
            }
        }
        if let Some(file) = file {
            app.files.open(file);
        }
        app
    }

    /// Notes how the window is drawn, and tells the memory of renderers once a
    /// frame was shown.
    pub(super) fn draws_with(
        &mut self,
        renderer: store::Renderer,
        memory: Option<super::start::SharedMemory>,
    ) {
        self.unproven = memory;
        self.note_in_log(format!(
            "started {} with {}",
            env!("CARGO_PKG_VERSION"),
            renderer.name()
        ));
    }

    /// A frame was shown: the renderer works. Told on a thread of its own, for
    /// it is written to a disk.
    fn prove_renderer(&mut self, ctx: &egui::Context) {
        if ctx.cumulative_frame_nr() < PROVEN {
            return;
        }
        if let Some(memory) = self.unproven.take() {
            std::thread::spawn(move || {
                let mut memory = memory.lock().unwrap_or_else(PoisonError::into_inner);
                memory.it_works();
            });
        }
    }

    /// Notes something for whoever helps from afar.
    pub(super) fn note_in_log(&self, what: String) {
        if let Some(log) = &self.log {
            log.note(what);
        }
    }

    /// The session as it stands.
    pub fn session(&self) -> &Session {
        self.document.session()
    }

    /// How figures are shown.
    pub(super) fn figures(&self) -> Figures {
        Figures {
            language: self.preferences.language,
            unit: self.preferences.unit.unwrap_or(self.session().unit),
            step: self.session().gauge.step.length(),
            limit: Some(self.session().tolerance.length()),
        }
    }

    /// What is believed of geometries.
    pub(super) fn shelf(&self) -> Arc<PriorShelf> {
        Arc::clone(&self.shelf)
    }

    /// The language.
    pub(super) fn words(&self) -> Language {
        self.preferences.language
    }

    /// What is known of the pass on show.
    pub(super) fn outlook(&self) -> &Outlook {
        &self.outlook
    }

    /// Whether new advice is still being worked out.
    pub(super) fn is_thinking(&self) -> bool {
        self.advisor.is_thinking()
    }

    /// The pass on show.
    pub(super) fn shown_pass(&self) -> Option<usize> {
        let last = self.session().passes.len().checked_sub(1)?;
        Some(self.view.pass.unwrap_or(last).min(last))
    }

    /// Puts another document in front.
    pub(super) fn show_document(&mut self, document: Document) {
        self.document = document;
        self.practicing = None;
        self.view = ViewState {
            dialog: self.view.dialog.take(),
            keyboard: std::mem::take(&mut self.view.keyboard),
            lessons_seen: std::mem::take(&mut self.view.lessons_seen),
            gauge_check: std::mem::take(&mut self.view.gauge_check),
            shop: ShopView {
                open: false,
                ..std::mem::take(&mut self.view.shop)
            },
            ..ViewState::default()
        };
        self.history.forget();
        self.outlook_of = None;
        self.kept = (0, Vec::new());
        if let Some(recovery) = &self.recovery {
            recovery.forget();
        }
    }

    /// Brings what is known of the pass on show up to date.
    pub(super) fn refresh(&mut self) {
        let key = (self.document.revision(), self.shown_pass());
        if self.outlook_of != Some(key) {
            let before = self.outlook.advised.take();
            let verdicts = self.outlook.verdicts.take();
            self.outlook = Outlook::of(self.document.session(), key.1);
            let same_press = self.outlook_of.is_some_and(|(_, pass)| pass == key.1);
            if let Some(pass) = key.1.filter(|_| self.may_advise()) {
                self.advisor.ask(self.document.shared(), pass);
                // The last advice stays on show for the moment it takes to
                // work out the new one, unless it was about something else.
                let fits = before.filter(|advised| {
                    same_press
                        && advised.advice.response.stations() == self.outlook.stations_nm.len()
                        && advised.advice.response.arms() == self.outlook.arms_nm.len()
                        && self.outlook.gate.is_clear()
                });
                // So do the verdicts.
                self.outlook.verdicts = verdicts.filter(|_| fits.is_some());
                self.outlook.advised = fits;
            }
            self.outlook_of = Some(key);
        }
        let may_advise = self.may_advise();
        while let Some(told) = self.advisor.told() {
            match told {
                _ if !may_advise => {}
                Told::Answer(answer) => self.outlook.accept(answer),
                Told::Verdicts(verdicts) => self.outlook.verdicts = verdicts,
            }
        }
        let turns = self.turns_on_show();
        self.outlook.foretell(&turns);
        self.outlook.share_loads(self.document.session(), &turns);
        let kept = self.view.what_if.of(key.1, turns.len());
        let kept: Vec<&[Notches]> = kept.map(|(_, kept)| &kept.turns[..]).collect();
        self.outlook.remember(kept.into_iter());
        if self.view.more {
            let close = self.outlook.close_by();
            let close = close.iter().map(|(turns, ..)| &turns[..]);
            self.outlook.remember(close);
        }
    }

    /// Has everything known of the pass on show worked out anew.
    pub(super) fn look_again(&mut self) {
        self.outlook_of = None;
    }

    /// Follows what was to be expected of the passes while they are on show.
    fn follow_history(&mut self, ctx: &egui::Context) {
        if self.view.side.is_some() {
            let document = &self.document;
            self.history
                .follow(ctx, &self.shelf, document.revision(), || document.shared());
        }
    }

    /// Takes commands given by shortcut.
    fn shortcuts(&mut self, ctx: &egui::Context) {
        if self.view.dialog.is_some() {
            return;
        }
        for (command, modifiers, key) in longest_first() {
            let shortcut = egui::KeyboardShortcut::new(modifiers, key);
            // In a text field, undo is the field's own.
            let own = matches!(command, Command::Undo | Command::Redo)
                && ctx.text_edit_focused()
                && (!self.view.readings.cells.is_going_on()
                    || self.view.readings.cells.is_touched())
                && !self.view.guided.as_ref().is_some_and(|guided| {
                    // Nothing is typed yet: the last reading is meant.
                    views::entry::guided::has_keyboard(ctx) && guided.typed.is_empty()
                });
            if !own && ctx.input_mut(|input| input.consume_shortcut(&shortcut)) {
                if !self.view.is_turning() || command.beside_turn_card() {
                    self.command(ctx, command);
                }
                return;
            }
        }
    }

    fn scene<'a>(
        &'a mut self,
        palette: &'static Palette,
        actions: &'a mut Vec<Action>,
        now: f64,
    ) -> (Scene<'a>, &'a Messages, &'a [Leftover]) {
        let figures = self.figures();
        let scene = Scene {
            session: self.document.session(),
            outlook: &self.outlook,
            history: &self.history,
            figures,
            palette,
            preferences: &self.preferences,
            today: IsoDate::parse(&store::today()).ok(),
            thinking: self.advisor.is_thinking(),
            unsaved: self.document.has_unsaved_changes(),
            file_name: self.files.name(),
            undo_redo: match self.practicing {
                // What is done at a press is done.
                Some(_) => (false, false),
                None => (self.document.can_undo(), self.document.can_redo()),
            },
            practicing: self.practicing.as_ref(),
            said: self.messages.in_sight(now),
            shop: &self.shop,
            view: &mut self.view,
            actions,
        };
        (scene, &self.messages, &self.leftovers)
    }
}

impl eframe::App for App {
    fn logic(&mut self, ctx: &egui::Context, _frame: &mut eframe::Frame) {
        let now = ctx.input(|input| input.time);
        self.prove_renderer(ctx);
        if self.placed < PLACED {
            self.placed += u8::from(self.preferences.place().bring_into_sight(ctx));
        }
        self.preferences.note_place(ctx);
        self.follow_zoom(ctx);
        for done in self.files.done() {
            self.file_job_done(ctx, done, now);
        }
        self.take_shop_news();
        self.take_dropped(ctx, now);
        self.asked_to_close(ctx);
        self.shortcuts(ctx);
        self.refresh();
        self.follow_history(ctx);
        self.take_lesson(ctx, now);
        self.keep_aside(ctx, now);
        self.say_of_saving(ctx, now);
        self.follow_title(ctx);
    }

    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        let ctx = ui.ctx().clone();
        let now = ctx.input(|input| input.time);
        self.in_sight.bring(&ctx);
        let palette = self.preferences.look.palette(&ctx);
        let mut actions = Vec::new();
        let (mut scene, messages, leftovers) = self.scene(palette, &mut actions, now);
        let marked = scene.practicing.is_some() || scene.view.lesson.is_some();
        let over = scene
            .practicing
            .is_some_and(super::practicing::Practicing::shows_debrief);
        let whole = scene.view.is_turning()
            || scene.view.crew.is_some()
            || scene.view.lesson.is_some()
            || scene.view.shop.open
            || over;
        if marked {
            views::practice::strip::room(ui, palette);
        }
        views::practice::strip::show(ui, &mut scene);
        if scene.view.lesson.is_some() || over {
            let screen = Frame::new().fill(palette.card).inner_margin(2.0 * GAP);
            CentralPanel::default().frame(screen).show(ui, |ui| {
                if scene.view.lesson.is_some() {
                    views::practice::lesson::show(ui, &mut scene);
                } else {
                    views::practice::debrief::show(ui, &mut scene);
                }
            });
        } else if scene.view.shop.open && !scene.view.is_turning() {
            views::toast::strip(ui, &mut scene);
            views::shop::show(ui, &mut scene);
        } else if whole && !scene.view.is_turning() {
            let screen = Frame::new().fill(palette.card).inner_margin(GAP);
            CentralPanel::default()
                .frame(screen)
                .show(ui, |ui| match scene.view.side {
                    Some(_) => views::comparing::side_wall::show(ui, &mut scene),
                    None => views::picture::crew::show(ui, &mut scene),
                });
        } else {
            super::layout::show(ui, &mut scene);
        }
        views::ask::show(&ctx, &mut scene, messages, leftovers);
        if marked {
            views::practice::strip::frame(&ctx, palette);
        }
        super::dropped::show_hovered(&ctx, scene.words(), palette, scene.unsaved);
        // Small print has no place before the crew; it can be found again.
        if !whole || scene.view.shop.open {
            views::toast::over(&ctx, &mut scene);
        }
        super::focus_ring::show(&ctx, palette);
        // A screen reader says which window it is in.
        ctx.accesskit_node_builder(egui::accesskit_root_id(), |node| node.set_label("Jawtrue"));
        if let Some(wait) = self.messages.changes_in(now) {
            ctx.request_repaint_after(wait);
        }
        let any = !actions.is_empty();
        for action in actions {
            self.act(&ctx, action, now);
        }
        if any {
            // What was asked for shows within the next frame.
            self.refresh();
            ctx.request_repaint();
        }
        if self.in_sight.is_due(&ctx) {
            ctx.request_repaint();
        }
    }

    fn raw_input_hook(&mut self, ctx: &egui::Context, input: &mut egui::RawInput) {
        let mut events = std::mem::take(&mut self.waiting_input);
        events.append(&mut input.events);
        (input.events, self.waiting_input) = pacing::part_after_step(events);
        if !self.waiting_input.is_empty() {
            ctx.request_repaint();
        }
    }

    fn on_exit(&mut self, _gl: Option<&eframe::glow::Context>) {
        self.save_preferences();
        // What is ticked on the turn card and not noted is offered next time.
        let turned = self.practicing.is_none() && !self.turned_so_far().is_empty();
        if let Some(recovery) = self.recovery.take().filter(|_| !turned) {
            recovery.finish();
        }
    }
}
