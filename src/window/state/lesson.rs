//! A lesson while it is on show.

use crate::practice::{FARTHEST, Lesson, LessonStep, PressState};
use crate::session::Session;

/// The passing state of a lesson.
#[derive(Debug)]
pub struct LessonView {
    pub lesson: Lesson,
    pub step: usize,
    /// Nuts turned by hand at this step.
    pub by_hand: Option<Vec<i32>>,
    /// How everything stands; none where it cannot be worked out.
    pub state: Option<PressState>,
    /// How it stood before, and how often that changed: it moves from there.
    pub last: Option<PressState>,
    pub changes: u32,
    /// The profile to compare with, all along the jaw; empty for none.
    pub before_nm: Vec<f64>,
    /// The largest change of the splice that is drawn, in nanometres: the scale
    /// stays from step to step, but for steps that all show little.
    pub widest_nm: f64,
    /// The one before the last change.
    pub was_widest_nm: f64,
    /// That of all steps, and of those that show little.
    scales_nm: [f64; 2],
}

/// Share of the lesson's largest change below which steps show little.
const LITTLE: f64 = 0.3;

fn widest(along_nm: &[f64]) -> f64 {
    let all = along_nm.iter().map(|change| change.abs());
    all.fold(0.0, f64::max)
}

impl LessonView {
    /// A lesson at its first step.
    pub fn new(lesson: Lesson) -> Self {
        let widths = lesson.steps.iter().filter_map(|step| {
            let now = lesson.shown.stands(&step.nuts).ok()?;
            let before = step.before.as_ref();
            let before = before.and_then(|nuts| lesson.shown.stands(nuts).ok());
            let before = before.map_or(0.0, |before| widest(&before.along_nm));
            Some(widest(&now.along_nm).max(before))
        });
        let widths: Vec<f64> = widths.collect();
        let all_nm = widths.iter().copied().fold(0.0, f64::max);
        let little = widths
            .iter()
            .copied()
            .filter(|wide| *wide < LITTLE * all_nm);
        let tolerance = lesson.shown.tolerance_nm();
        let little_nm = little.fold(tolerance, f64::max);
        let mut view = Self {
            lesson,
            step: 0,
            by_hand: None,
            state: None,
            last: None,
            changes: 0,
            before_nm: Vec::new(),
            widest_nm: all_nm,
            was_widest_nm: all_nm,
            scales_nm: [all_nm.max(tolerance), little_nm],
        };
        view.work_out();
        view.was_widest_nm = view.widest_nm;
        view
    }

    pub fn step(&self) -> Option<&LessonStep> {
        self.lesson.steps.get(self.step)
    }

    pub fn nuts(&self) -> Vec<i32> {
        let of_step = || {
            self.step()
                .map(|step| step.nuts.clone())
                .unwrap_or_default()
        };
        self.by_hand.clone().unwrap_or_else(of_step)
    }

    pub fn work_out(&mut self) {
        let nuts = self.nuts();
        let state = self.lesson.shown.stands(&nuts).ok();
        if state != self.state {
            self.changes += 1;
            self.last = std::mem::replace(&mut self.state, state);
        }
        let before = self.step().and_then(|step| step.before.as_ref());
        let before = before.and_then(|nuts| self.lesson.shown.stands(nuts).ok());
        self.before_nm = before.map(|before| before.along_nm).unwrap_or_default();
        let now = self.state.as_ref().map_or(0.0, |now| widest(&now.along_nm));
        let [all_nm, little_nm] = self.scales_nm;
        let little = little_nm < LITTLE * all_nm && now.max(widest(&self.before_nm)) <= little_nm;
        self.was_widest_nm = self.widest_nm;
        self.widest_nm = if little { little_nm } else { all_nm };
    }

    pub fn go(&mut self, by: isize) {
        self.go_to(self.step.saturating_add_signed(by));
    }

    /// Goes to a step, or to the last one where there is none.
    pub fn go_to(&mut self, step: usize) {
        self.step = step.min(self.lesson.steps.len().saturating_sub(1));
        self.by_hand = None;
        self.work_out();
    }

    pub fn turn(&mut self, arm: usize, by: i32) {
        let mut nuts = self.nuts();
        if let Some(nut) = nuts.get_mut(arm) {
            *nut = (*nut + by).clamp(-FARTHEST, FARTHEST);
        }
        self.by_hand = Some(nuts);
        self.work_out();
    }

    pub fn session(&self) -> &Session {
        self.lesson.shown.session()
    }
}
