//! The shop's folder in the window: which it is, what is known of it, and what
//! is done with it. Reading and watching have a thread of their own.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, channel};
use std::time::SystemTime;

use eframe::egui;

use crate::session::Document;
use crate::shop::{PressBook, Taught, UpkeepEdit};
use crate::store::{self, DiskProblem, Progress, Shop, ShopNews, ShopWatch};

use super::App;
use super::files::Compared;
use super::messages::Tone;
use super::state::Dialog;
use super::state::dialog::{PathFor, Then};
use super::state::shop::{PressKey, ShopPage};
use super::upkeep::UpkeepDesk;

/// What views ask for about the shop's folder.
#[derive(Debug, Clone, PartialEq)]
pub enum ShopWish {
    /// Show the shop.
    Open,
    /// Choose the folder.
    Choose,
    /// Have the folder looked at now.
    LookNow,
    /// Show a page.
    Show(ShopPage),
    /// Start the next visit of a press.
    NextVisit(PressKey),
    /// Open a session by its name within the folder.
    OpenFile(String),
    /// Put a path where it can be pasted from.
    CopyPath(PathBuf),
    /// Have the system show a folder.
    ShowFolder(PathBuf),
    /// Change the upkeep.
    Keep(UpkeepEdit),
}

/// What is known of the shop's folder.
#[derive(Default)]
pub struct ShopDesk {
    watched: Option<(ShopWatch, Receiver<ShopNews>)>,
    /// The folder, where one was chosen.
    pub folder: Option<PathBuf>,
    /// The shop as it was at the last look.
    pub shop: Arc<Shop>,
    /// How far the reading has come, while it lasts.
    pub progress: Option<Progress>,
    /// Why the folder cannot be read now.
    pub closed: Option<DiskProblem>,
    /// Whether it was read once.
    pub read: bool,
    /// When it was read last.
    pub read_at: String,
    /// Its upkeep as of today.
    pub upkeep: Arc<UpkeepDesk>,
}

impl ShopDesk {
    fn start(&mut self, ctx: &egui::Context, folder: PathBuf, index: Option<PathBuf>) {
        let (sender, news) = channel();
        let ctx = ctx.clone();
        let watch = ShopWatch::usual(&folder, index, move |told| {
            let listens = sender.send(told).is_ok();
            ctx.request_repaint();
            listens
        });
        *self = Self {
            watched: Some((watch, news)),
            folder: Some(folder),
            ..Self::default()
        };
    }

    /// Takes what was told; whether the shop is another than before.
    fn take_news(&mut self) -> bool {
        let Some((_, news)) = &self.watched else {
            return false;
        };
        let mut changed = false;
        for told in news.try_iter() {
            match told {
                ShopNews::Reading(progress) => self.progress = Some(progress),
                ShopNews::Shop(shop) => {
                    self.shop = shop;
                    (self.progress, self.closed, self.read) = (None, None, true);
                    self.read_at = store::moment_of(SystemTime::now());
                    changed = true;
                }
                ShopNews::Closed(problem) => self.closed = Some(problem),
            }
        }
        changed
    }

    /// Has the folder looked at now.
    pub fn look_now(&self) {
        if let Some((watch, _)) = &self.watched {
            watch.look_now();
        }
    }

    /// The book of a press.
    pub fn book(&self, press: &PressKey) -> Option<&PressBook> {
        self.shop.books.iter().find(|book| press.is_of(book))
    }

    /// Where a file of the folder stands.
    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.as_deref().unwrap_or(Path::new("")).join(name)
    }
}

impl App {
    /// Reads a folder of sessions from now on, in place of the one before.
    pub fn open_shop(&mut self, ctx: &egui::Context, folder: PathBuf) {
        let folder = std::path::absolute(&folder).unwrap_or(folder);
        self.preferences.shop = Some(folder);
        self.save_preferences();
        self.follow_shop_folder(ctx);
        self.view.shop.open = true;
        self.view.shop.page = ShopPage::Presses;
    }

    /// Has the folder of the preferences read, where it is not already.
    fn follow_shop_folder(&mut self, ctx: &egui::Context) {
        if self.preferences.shop == self.shop.folder {
            return;
        }
        let Some(folder) = self.preferences.shop.clone() else {
            return;
        };
        let index = self.folders.as_ref().map(|folders| folders.shops());
        let index = index.map(|kept| store::shop_index_path(&kept, &folder));
        self.shop.start(ctx, folder, index);
    }

    /// Carries out what a view of the shop asked for.
    pub(super) fn shop_wish(&mut self, ctx: &egui::Context, wish: ShopWish, now: f64) {
        match wish {
            ShopWish::Open => {
                self.view.shop.open = true;
                self.follow_shop_folder(ctx);
                self.ask_what_press_taught();
            }
            ShopWish::Choose => self.ask_for_path(PathFor::Shop),
            ShopWish::LookNow => self.shop.look_now(),
            ShopWish::ShowFolder(folder) => self.files.show_folder(folder),
            ShopWish::CopyPath(path) => {
                ctx.copy_text(path.display().to_string());
                self.say(Tone::Done, self.words().shop_path_copied().to_owned(), now);
            }
            ShopWish::Keep(edit) => self.keep_upkeep(edit),
            ShopWish::Show(page) => {
                self.view.shop.wants_focus = page == ShopPage::Find;
                self.view.shop.page = page;
                self.ask_what_press_taught();
            }
            ShopWish::NextVisit(press) => self.leave(ctx, Then::NextVisitInShop(press), now),
            ShopWish::OpenFile(name) => {
                let path = self.shop.path(&name);
                self.leave(ctx, Then::OpenPath(path), now);
            }
        }
    }

    /// Takes up what the watching thread told.
    pub(super) fn take_shop_news(&mut self) {
        let changed = self.shop.take_news();
        self.list_upkeep(changed.then(|| self.shop.shop.upkeep.clone()));
        if changed {
            self.view.shop.asked = None;
            self.ask_what_press_taught();
        }
    }

    /// Has it worked out what the press on show taught.
    fn ask_what_press_taught(&mut self) {
        if !self.view.shop.open {
            return;
        }
        let ShopPage::Press(press) = self.view.shop.page.clone() else {
            return;
        };
        if self.view.shop.asked.as_ref() == Some(&press) {
            return;
        }
        let Some(paths) = self.files_of(&press) else {
            return;
        };
        self.view.shop.asked = Some(press.clone());
        let shelf = self.shelf();
        self.files.learn_press(press, paths, shelf, false);
    }

    /// The files of a press's visits, oldest first.
    fn files_of(&self, press: &PressKey) -> Option<Vec<PathBuf>> {
        let visits = self.shop.book(press)?.visits.iter();
        Some(visits.map(|visit| self.shop.path(&visit.file)).collect())
    }

    /// Starts the next visit of a press from what its sessions taught.
    pub(super) fn next_visit_in_shop(&mut self, press: PressKey) {
        if let Some(paths) = self.files_of(&press) {
            let shelf = self.shelf();
            self.files.learn_press(press, paths, shelf, true);
        }
    }

    /// What the sessions of a press taught is worked out.
    pub(super) fn press_learnt(
        &mut self,
        press: PressKey,
        taught: Option<Box<Taught>>,
        start: bool,
        now: f64,
    ) {
        if !start {
            self.view.shop.taught = Some((press, taught));
            return;
        }
        let Some(taught) = taught else {
            let sentence = self.words().shop_nothing_taught().to_owned();
            self.say(Tone::Problem, sentence, now);
            return;
        };
        self.begin_next_visit(&taught.record, now);
    }

    /// What differs from a file that somebody else changed is worked out.
    pub(super) fn compared(&mut self, path: &Path, compared: Result<Compared, store::OpenProblem>) {
        let figures = self.figures();
        let Some(Dialog::ChangedOnDisk(form)) = &mut self.view.dialog else {
            return;
        };
        match compared {
            Ok(compared) => {
                form.differences = Some(compared.differences);
                form.who = compared.who;
                form.saved_at = compared.saved_at;
                form.beside = compared.beside;
            }
            Err(problem) => form.unreadable = Some(figures.open_problem(&problem, path)),
        }
    }

    /// Starts the next visit of a press.
    pub(super) fn begin_next_visit(&mut self, record: &crate::session::PressRecord, now: f64) {
        let mut session = record.start_session(store::new_session_id(), store::today());
        session.checklist = self.steps_for_next_visit();
        self.apply_shop_rules(&mut session);
        self.show_document(Document::unsaved(session));
        self.files.forget();
        self.say(Tone::Done, self.words().said_next_visit().to_owned(), now);
    }
}
