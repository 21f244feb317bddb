//! The shop's upkeep in the window: how it stands today, and what is written.

use std::path::Path;
use std::sync::Arc;

use crate::session::IsoDate;
use crate::shop::{Month, Need, TaskDue, Upkeep, UpkeepEdit, by_need, months};
use crate::store::{self, OpenProblem, UpkeepProblem};

use super::App;
use super::messages::Tone;

/// What is known of the upkeep.
#[derive(Debug)]
pub struct UpkeepDesk {
    /// As it was last read or written, or why it cannot be read.
    pub kept: Result<Upkeep, OpenProblem>,
    /// What is due on the day, and the day.
    pub list: Vec<TaskDue>,
    /// The presses that it is kept of.
    pub presses: Vec<String>,
    /// Visits whose gauge has no name, so that its calibration cannot be
    /// followed.
    pub gauges_unnamed: usize,
    /// What every press wants, the most pressing first, each by its place among
    /// the books.
    pub by_need: Vec<(usize, Vec<Need>)>,
    /// What the shop laced and worked month by month.
    pub months: Vec<Month>,
    /// The day; none where the machine knows none.
    pub day: Option<IsoDate>,
}

impl Default for UpkeepDesk {
    fn default() -> Self {
        Self {
            kept: Ok(Upkeep::default()),
            list: Vec::new(),
            presses: Vec::new(),
            gauges_unnamed: 0,
            by_need: Vec::new(),
            months: Vec::new(),
            day: None,
        }
    }
}

impl App {
    /// Works out how presses and upkeep stand, where they or the day are others.
    pub(super) fn list_upkeep(&mut self, kept: Option<Result<Upkeep, OpenProblem>>) {
        let day = IsoDate::parse(&store::today()).ok();
        if kept.is_none() && (day == self.shop.upkeep.day || !self.view.shop.open) {
            return;
        }
        let kept = kept.unwrap_or_else(|| self.shop.upkeep.kept.clone());
        let books = &self.shop.shop.books;
        let (list, presses) = match (&kept, day) {
            (Ok(upkeep), Some(day)) => (
                upkeep.due_list(books, day),
                upkeep
                    .presses(books)
                    .into_iter()
                    .map(str::to_owned)
                    .collect(),
            ),
            _ => (Vec::new(), Vec::new()),
        };
        let visits = books.iter().flat_map(|book| &book.visits);
        let gauges_unnamed = visits.filter(|visit| visit.gauge.is_empty()).count();
        self.shop.upkeep = Arc::new(UpkeepDesk {
            by_need: by_need(books, day, &list),
            months: months(books, day),
            kept,
            list,
            presses,
            gauges_unnamed,
            day,
        });
    }

    /// Has a change of the upkeep written.
    pub(super) fn keep_upkeep(&mut self, edit: UpkeepEdit) {
        if let Some(folder) = self.shop.folder.clone()
            && !std::mem::replace(&mut self.view.shop.upkeep.keeping, true)
        {
            self.files.keep_upkeep(folder, edit);
        }
    }

    /// A change of the upkeep is written, or not; what was typed stays until it
    /// is.
    pub(super) fn upkeep_kept(
        &mut self,
        folder: &Path,
        edit: &UpkeepEdit,
        kept: Result<Upkeep, UpkeepProblem>,
        now: f64,
    ) {
        self.view.shop.upkeep.keeping = false;
        match kept {
            Ok(upkeep) => {
                let words = self.words();
                let sentence = match edit {
                    UpkeepEdit::Note(entries) => match entries.as_slice() {
                        [entry] => words.upkeep_noted(words.upkeep_line(entry, &upkeep.tasks())),
                        entries => words.upkeep_noted_many(entries.len()),
                    },
                    UpkeepEdit::TakeBack(entries, _) => words.upkeep_taken_back_many(entries.len()),
                    _ => words.upkeep_saved().to_owned(),
                };
                self.say(Tone::Done, sentence, now);
                let view = &mut self.view.shop.upkeep;
                // A task is moved on from where it now stands.
                if !matches!(edit, UpkeepEdit::Move(..)) {
                    view.form = None;
                }
                view.noted.clear();
                if let UpkeepEdit::Note(entries) = edit {
                    view.laced.clear();
                    view.ticked.clear();
                    view.day = None;
                    view.noted.clone_from(entries);
                }
                if self.shop.folder.as_deref() == Some(folder) {
                    self.list_upkeep(Some(Ok(upkeep)));
                }
            }
            Err(problem) => {
                let sentence = self.figures().upkeep_problem(&problem, folder);
                self.say(Tone::Problem, sentence, now);
            }
        }
        self.shop.look_now();
    }
}
