//! Practice behind the window: lessons begun and ended, exercises played in the
//! real views, their files and their debrief.
//!
//! The document is then the trainee's notebook: what was really done are the
//! acts of [`Practice`]. It is kept in a practice file of its own and never
//! among the sessions.

use std::path::PathBuf;
use std::sync::Arc;

use eframe::egui;

use crate::practice::{Act, Came, Debrief, Ending, Exercise, LessonTopic, Practice, laced};
use crate::press::Notches;
use crate::session::{Document, Edit, Session};
use crate::store::{self, PRACTICE_ENDING, PracticeFile, SampleSession};
use crate::units::{Length, TypedLength};

use super::App;
use super::messages::Tone;
use super::state::{Dialog, Preview};

/// What is wished for about practice.
#[derive(Debug, Clone, PartialEq)]
pub enum PracticeWish {
    /// Begin a lesson on the press that is open.
    Lesson(LessonTopic),
    /// End the lesson on show.
    EndLesson,
    /// Save an exercise to be handed out.
    HandOut(Box<Exercise>),
    /// Do something in the exercise.
    Act(Act),
    /// Take a reading at a station and write it down.
    Read(usize),
    /// Turn the nuts as they are on show at once, with no question asked.
    TurnNow,
    /// Read beside the marks from now on, or on them.
    Beside(bool),
    /// Lace the next piece with the belt end the other way round, or not.
    Flip(bool),
    /// Begin an exercise in the trainee's name: the same again, or another.
    Again(Box<Exercise>),
    /// Look at what was laced and read, or go back to the debrief.
    LookBack(bool),
    /// Leave practice, back to the example.
    Leave,
}

/// An exercise under way, or over.
#[derive(Debug)]
pub struct Practicing {
    /// The work.
    pub practice: Practice,
    /// Its file.
    pub path: Option<PathBuf>,
    /// Whether readings are taken beside the marks.
    pub beside: bool,
    /// Whether the belt end is laid the other way round for the next piece.
    pub flip_next: bool,
    /// The debrief, once it is worked out.
    pub debrief: Option<Box<Debrief>>,
    /// Whether what was laced and read is looked at, after the end.
    pub looks_back: bool,
    /// Whether the file is being written, and whether it has to be again.
    saving: (bool, bool),
}

impl Practicing {
    fn new(practice: Practice, path: Option<PathBuf>) -> Self {
        Self {
            practice,
            path,
            beside: false,
            flip_next: false,
            debrief: None,
            looks_back: false,
            saving: (false, false),
        }
    }

    /// Whether the debrief is on show.
    pub fn shows_debrief(&self) -> bool {
        self.practice.ending().is_some() && !self.looks_back
    }

    /// Whether advice is on show.
    pub fn shows_advice(&self) -> bool {
        self.practice
            .pieces()
            .last()
            .is_some_and(|piece| piece.advised)
    }
}

impl App {
    /// Carries out a wish about practice.
    pub(super) fn practice_wish(&mut self, ctx: &egui::Context, wish: PracticeWish, now: f64) {
        let practicing = self.practicing.iter_mut();
        match wish {
            PracticeWish::Lesson(topic) => self.ask_lesson(ctx, topic),
            PracticeWish::EndLesson => self.end_lesson(ctx),
            PracticeWish::HandOut(exercise) => self.hand_out(*exercise, now),
            PracticeWish::Act(act) => {
                self.practice_act(act, now);
            }
            PracticeWish::Read(station) => self.take_reading(station, now),
            PracticeWish::TurnNow => {
                if !self.refuses_turns(now) {
                    self.open_pass(self.turns_on_show(), now);
                }
            }
            PracticeWish::Beside(beside) => practicing.for_each(|it| it.beside = beside),
            PracticeWish::Flip(flip) => practicing.for_each(|it| it.flip_next = flip),
            PracticeWish::Again(exercise) => {
                let trainee = self.practicing.as_ref();
                let trainee = trainee.map(|it| it.practice.trainee.clone());
                self.begin_practice(*exercise, trainee.unwrap_or_default(), now);
            }
            PracticeWish::LookBack(back) => practicing.for_each(|it| it.looks_back = back),
            PracticeWish::Leave => self.show_sample(SampleSession::default()),
        }
    }

    /// Begins an exercise: its first piece is laced at once.
    pub(super) fn begin_practice(&mut self, exercise: Exercise, trainee: String, now: f64) {
        let begun = Practice::begin(exercise, trainee, store::today());
        let mut practice = match begun {
            Ok(practice) => practice,
            Err(problem) => {
                let sentence = self.words().exercise_problem(problem);
                self.say(Tone::Problem, sentence, now);
                return;
            }
        };
        if practice.act(Act::Lace { flipped: false }).is_err() {
            return;
        }
        let number = practice.exercise().number;
        let path = self.folders.as_ref().map(|folders| {
            let name = format!(
                "exercise-{number}-{}.{PRACTICE_ENDING}",
                store::new_session_id()
            );
            folders.practice().join(name)
        });
        let notebook = practice.notebook(None);
        self.take_up_practice(practice, notebook, path);
    }

    /// Goes on with an exercise that was opened; of one that was handed out it is
    /// asked first who does it.
    pub(super) fn practice_opened(&mut self, path: PathBuf, file: PracticeFile) {
        match file {
            PracticeFile::Exercise(exercise) => {
                // Not who is named in the session on show: that is somebody
                // else, or invented.
                self.view.dialog = Some(Dialog::HandedOut(Box::new(exercise), String::new()));
            }
            PracticeFile::Work(practice, notebook) => {
                let notebook = notebook.map_or_else(|| practice.notebook(None), |kept| *kept);
                self.take_up_practice(*practice, notebook, Some(path));
            }
        }
    }

    fn take_up_practice(&mut self, practice: Practice, notebook: Session, path: Option<PathBuf>) {
        self.view.dialog = None;
        self.preferences.unit = None;
        self.show_document(Document::saved(notebook));
        self.files.forget();
        let over = practice.ending().is_some();
        self.practicing = Some(Practicing::new(practice, path));
        self.quiet_preview();
        self.view.ask_reading(0, 0);
        if over {
            self.work_out_debrief();
        } else {
            self.keep_practice();
        }
    }

    /// Without advice nothing is recommended: the turns on show start from
    /// none.
    fn quiet_preview(&mut self) {
        let hidden = self
            .practicing
            .as_ref()
            .is_some_and(|it| !it.shows_advice());
        if hidden {
            let arms = self.session().press.arms.len();
            self.view.preview = Preview::Chosen(vec![Notches(0); arms]);
        }
    }

    /// Whether what is advised may be worked out and shown.
    pub(super) fn may_advise(&self) -> bool {
        self.practicing
            .as_ref()
            .is_none_or(Practicing::shows_advice)
    }

    /// Does something in the exercise; what came of it.
    fn practice_act(&mut self, act: Act, now: f64) -> Option<Came> {
        let safe = self.session().made_safe_now();
        let practicing = self.practicing.as_mut()?;
        let practice = &mut practicing.practice;
        // What the notebook ticks off as made safe is so.
        if safe && !practice.is_made_safe() && practice.ending().is_none() {
            let _ = practice.act(Act::MakeSafe);
        }
        let came = practice.act(act.clone());
        let step = practice.hidden().scatter.step_nm;
        match came {
            Ok(came) => {
                self.after_act(&act, came, step, now);
                Some(came)
            }
            Err(refusal) => {
                let sentence = self.words().refusal(refusal);
                self.say(Tone::Problem, sentence, now);
                None
            }
        }
    }

    fn after_act(&mut self, act: &Act, came: Came, step_nm: f64, now: f64) {
        match act {
            Act::SeeAdvice => {
                self.view.preview = Preview::Recommended;
                self.look_again();
            }
            Act::SeeTo(_) => {
                // Another gauge has another step.
                let unit = self.session().unit;
                let step = TypedLength::from_length(Length::from_nm(step_nm as i64), unit);
                if step != self.session().gauge.step {
                    let edit = Edit::Set {
                        field: crate::session::Field::GaugeStep,
                        text: step.text().to_owned(),
                        bare: unit,
                    };
                    self.edit(&edit, now);
                }
            }
            _ => {}
        }
        let words = self.words();
        match came {
            Came::Ended(Ending::Unsafe) => {
                let sentence = words.practice_over(words.ending(Ending::Unsafe));
                self.say(Tone::Problem, sentence, now);
            }
            Came::Stuck => {
                let sentence = words.practice_stuck().to_owned();
                self.say(Tone::Problem, sentence, now);
            }
            Came::Shown(_) | Came::Ended(_) => {}
            Came::Done => {
                let sentence = words.act_name(act);
                self.say(Tone::Done, sentence, now);
            }
        }
        if matches!(came, Came::Ended(_)) {
            self.view.turn_card = None;
            self.work_out_debrief();
        }
        self.keep_practice();
    }

    /// Takes a reading and writes it into the station's first empty cell.
    fn take_reading(&mut self, station: usize, now: f64) {
        let Some(practicing) = &self.practicing else {
            return;
        };
        let act = Act::Read {
            station,
            on_mark: !practicing.beside,
        };
        let Some(Came::Shown(shown)) = self.practice_act(act, now) else {
            return;
        };
        let session = self.session();
        let Some(pass) = session.passes.len().checked_sub(1) else {
            return;
        };
        let row = session
            .passes
            .last()
            .and_then(|last| last.rows.get(station));
        let edit = Edit::Enter {
            pass,
            station,
            repeat: row.map_or(0, Vec::len),
            text: TypedLength::from_length(shown, session.unit)
                .text()
                .to_owned(),
            bare: session.unit,
        };
        self.edit(&edit, now);
        self.keep_practice();
    }

    /// What a pass opened in the notebook means at the press: the nuts are
    /// turned, and the next piece is laced. `safe` is whether the press was made
    /// safe before.
    pub(super) fn practice_pass_opened(&mut self, turns: &[Notches], safe: bool, now: f64) {
        let Some(practicing) = &mut self.practicing else {
            return;
        };
        let practice = &mut practicing.practice;
        if safe && practice.ending().is_none() {
            let _ = practice.act(Act::MakeSafe);
        }
        let mut made: Vec<i32> = turns.iter().map(|turn| turn.0).collect();
        made.resize(practice.exercise().arms, 0);
        let flip = std::mem::take(&mut practicing.flip_next);
        let lies = practice.pieces().last().is_some_and(|piece| piece.flipped);
        if self.practice_act(Act::Turn(made), now) != Some(Came::Done) {
            return;
        }
        let flipped = lies != flip;
        self.practice_act(Act::Lace { flipped }, now);
        let pass = self.session().passes.len().saturating_sub(1);
        let checked_off = laced(self.session(), pass);
        self.edit(&checked_off, now);
        if flip {
            self.edit(
                &Edit::SetFlipped {
                    pass,
                    flipped: true,
                },
                now,
            );
        }
        self.quiet_preview();
    }

    fn hand_out(&mut self, exercise: Exercise, now: f64) {
        let Some(folders) = &self.folders else {
            return;
        };
        let name = format!("hand-out-{}.{PRACTICE_ENDING}", store::new_session_id());
        let path = folders.practice().join(name);
        let sentence = self
            .words()
            .practice_handed_out(exercise.number, path.display());
        self.view.dialog = None;
        self.say(Tone::Done, sentence, now);
        self.files
            .save_practice(path, PracticeFile::Exercise(exercise));
    }

    /// Writes the practice file; once more afterwards when it is being written.
    pub(super) fn keep_practice(&mut self) {
        let notebook = self.session().clone();
        let Some(practicing) = &mut self.practicing else {
            return;
        };
        let Some(path) = practicing.path.clone() else {
            return;
        };
        if practicing.saving.0 {
            practicing.saving.1 = true;
            return;
        }
        practicing.saving = (true, false);
        let work = Box::new(practicing.practice.clone());
        let file = PracticeFile::Work(work, Some(Box::new(notebook)));
        self.files.save_practice(path, file);
    }

    /// Takes up that a practice file was written, or not.
    pub(super) fn practice_saved(
        &mut self,
        path: &std::path::Path,
        notebook: Option<Session>,
        saved: Result<(), store::SaveProblem>,
        now: f64,
    ) {
        match saved {
            Ok(()) => {
                if let Some(notebook) = notebook.filter(|_| self.practicing.is_some()) {
                    self.document.mark_saved_as(Arc::new(notebook));
                }
            }
            Err(problem) => {
                self.after_save = None;
                let sentence = self.figures().save_problem(&problem, path);
                self.say(Tone::Problem, sentence, now);
            }
        }
        let again = self.practicing.as_mut().is_some_and(|practicing| {
            practicing.saving.0 = false;
            std::mem::take(&mut practicing.saving.1)
        });
        if again {
            self.keep_practice();
        }
    }

    fn work_out_debrief(&mut self) {
        if let Some(practicing) = &self.practicing {
            let record = self
                .folders
                .as_ref()
                .map(|folders| folders.practice().join(store::PRACTICE_RECORD));
            self.files.debrief(practicing.practice.clone(), record);
        }
    }

    /// Takes up a debrief.
    pub(super) fn debriefed(
        &mut self,
        debrief: Option<Box<Debrief>>,
        recorded: Result<(), (PathBuf, store::SaveProblem)>,
        now: f64,
    ) {
        if let Some(practicing) = &mut self.practicing {
            practicing.debrief = debrief;
        }
        if let Err((path, problem)) = recorded {
            let sentence = self.figures().save_problem(&problem, &path);
            self.say(Tone::Problem, sentence, now);
        }
    }
}
