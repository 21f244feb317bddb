//! Works lessons out, on a thread of its own: a piece that shows why whole
//! notches matter is looked for among many.

use std::sync::Arc;
use std::time::Duration;

use eframe::egui::{self, ViewportCommand};

use crate::practice::{Lesson, LessonTopic};
use crate::session::Session;
use crate::units::Unit;

use super::App;
use super::messages::Tone;
use super::state::LessonView;
use super::worker::Worker;

/// What is asked for: a lesson on a press, told in a unit.
type Asked = (LessonTopic, Arc<Session>, Unit);

/// A lesson ready to be shown; none where the press cannot be worked out.
type Ready = Option<Box<LessonView>>;

/// Asks for lessons, and where the last one was left.
#[derive(Debug, Default)]
pub struct Lessons {
    worker: Option<Worker<Asked, Ready>>,
    left_at: Option<(LessonTopic, usize)>,
}

impl App {
    /// Asks for a lesson on the press that is open.
    pub(super) fn ask_lesson(&mut self, ctx: &egui::Context, topic: LessonTopic) {
        let unit = self.figures().unit;
        let worker = self.lessons.worker.get_or_insert_with(|| {
            let work_out = |(topic, session, unit): Asked| -> Ready {
                let lesson = Lesson::new(topic, &session, unit).ok()?;
                Some(Box::new(LessonView::new(lesson)))
            };
            Worker::start(ctx, move |asked, teller| teller.tell(work_out(asked)))
        });
        worker.ask((topic, self.document.shared(), unit));
    }

    /// Shows a lesson once it is worked out: where it was left before its end,
    /// it goes on.
    pub(super) fn take_lesson(&mut self, ctx: &egui::Context, now: f64) {
        let worker = self.lessons.worker.as_mut();
        match worker.and_then(|worker| worker.answer(Duration::ZERO)) {
            None => {}
            Some(Some(mut view)) => {
                self.view.dialog = None;
                let left = self.lessons.left_at.take();
                if let Some((_, step)) = left.filter(|(topic, _)| *topic == view.lesson.topic) {
                    view.go_to(step);
                }
                self.view.lesson = Some(*view);
                ctx.send_viewport_cmd(ViewportCommand::Fullscreen(true));
            }
            Some(None) => {
                let sentence = self.words().lesson_not_computed().to_owned();
                self.say(Tone::Problem, sentence, now);
            }
        }
    }

    /// Ends the lesson on show.
    pub(super) fn end_lesson(&mut self, ctx: &egui::Context) {
        if let Some(view) = self.view.lesson.take() {
            let to_go = view.step + 1 < view.lesson.steps.len();
            self.lessons.left_at = to_go.then_some((view.lesson.topic, view.step));
            if !to_go && !self.view.lessons_seen.contains(&view.lesson.topic) {
                self.view.lessons_seen.push(view.lesson.topic);
            }
        }
        ctx.send_viewport_cmd(ViewportCommand::Fullscreen(false));
    }
}
