//! An exercise that is about to begin: what was chosen so far.

use crate::practice::{Exercise, Fault, Help, Level};
use crate::units::Unit;

/// What was chosen so far.
#[derive(Debug, Clone, PartialEq)]
pub struct PracticeForm {
    pub number: String,
    pub trainee: String,
    pub fault: Option<Fault>,
    pub level: Option<Level>,
    pub arms: Option<usize>,
    pub help: Help,
    pub title: String,
    pub note: String,
}

impl Default for PracticeForm {
    fn default() -> Self {
        Self {
            number: "1".to_owned(),
            trainee: String::new(),
            fault: None,
            level: None,
            arms: None,
            help: Help::default(),
            title: String::new(),
            note: String::new(),
        }
    }
}

impl PracticeForm {
    /// The exercise, where the number is one.
    pub fn exercise(&self, unit: Unit) -> Option<Exercise> {
        let number = self.number.trim().parse().ok()?;
        let drawn = Exercise::of_number(number, unit);
        let exercise = Exercise {
            fault: self.fault.unwrap_or(drawn.fault),
            level: self.level.unwrap_or(drawn.level),
            arms: self.arms.unwrap_or(drawn.arms),
            help: self.help,
            title: self.title.clone(),
            note: self.note.clone(),
            ..drawn
        };
        exercise.check().ok().map(|()| exercise)
    }
}
