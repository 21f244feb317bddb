//! An exercise that is about to begin: what was chosen so far.

use crate::practice::{Exercise, ExerciseProblem, Fault, Help, Level};
use crate::units::{LengthProblem, Sign, TypedLength, Unit};

/// A page of the dialog.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum PracticePage {
    /// The lessons.
    #[default]
    Lessons,
    /// An exercise to begin.
    Exercise,
    /// The same to be handed out.
    Trainers,
}

/// What was chosen so far.
#[derive(Debug, Clone, PartialEq)]
pub struct PracticeForm {
    pub page: PracticePage,
    pub number: String,
    /// The unit; that on show until one is chosen.
    pub unit: Option<Unit>,
    pub trainee: String,
    pub fault: Option<Fault>,
    pub level: Option<Level>,
    pub arms: Option<usize>,
    pub help: Help,
    pub title: String,
    pub note: String,
    /// Whether the page for trainers tells the fault.
    pub fault_shown: bool,
    /// A press of the trainer's own: readings, or how far each arm is off.
    pub own: String,
}

/// Why what was chosen makes no exercise.
#[derive(Debug, Clone, PartialEq)]
pub enum NoExercise {
    /// A length of the trainer's own press.
    Length(LengthProblem),
    /// Anything else.
    Problem(ExerciseProblem),
}

impl Default for PracticeForm {
    fn default() -> Self {
        Self {
            page: PracticePage::default(),
            number: "1".to_owned(),
            unit: None,
            trainee: String::new(),
            fault: None,
            level: None,
            arms: None,
            help: Help::default(),
            title: String::new(),
            note: String::new(),
            fault_shown: false,
            own: String::new(),
        }
    }
}

impl PracticeForm {
    /// Whether anything is set down that the number would draw.
    pub fn sets_down(&self) -> bool {
        let chosen = self.fault.is_some() || self.level.is_some() || self.arms.is_some();
        self.has_own_press() || chosen
    }

    /// Whether a press of one's own is typed: it has its own arms and profile.
    pub fn has_own_press(&self) -> bool {
        !self.own.trim().is_empty()
    }

    /// The exercise, in the unit that was chosen or that on show.
    ///
    /// # Errors
    /// Why there is none.
    pub fn exercise(&self, shown: Unit) -> Result<Exercise, NoExercise> {
        let unit = self.unit.unwrap_or(shown);
        let problem = NoExercise::Problem;
        let number = self.number.trim().parse();
        let number = number.map_err(|_| problem(ExerciseProblem::Number))?;
        let profile = self.own_press(unit).map_err(NoExercise::Length)?;
        let drawn = Exercise::of_number(number, unit).on_press(profile);
        let drawn_press = drawn.profile.is_empty();
        let exercise = Exercise {
            fault: self.fault.unwrap_or(drawn.fault),
            level: self.level.filter(|_| drawn_press).unwrap_or(drawn.level),
            arms: self.arms.filter(|_| drawn_press).unwrap_or(drawn.arms),
            help: self.help,
            title: self.title.clone(),
            note: self.note.clone(),
            ..drawn
        };
        exercise.check().map_err(problem)?;
        Ok(exercise)
    }

    /// Lengths between spaces or semicolons; between commas where there is
    /// neither, since a comma may be a decimal one.
    fn own_press(&self, unit: Unit) -> Result<Vec<TypedLength>, LengthProblem> {
        let typed = self.own.trim();
        let parts_by = |c: char| c.is_whitespace() || c == ';';
        let parts: Vec<&str> = if typed.contains(parts_by) {
            typed.split(parts_by).collect()
        } else {
            typed.split(',').collect()
        };
        let parts = parts.into_iter().map(|part| part.trim_matches(','));
        let lengths = parts.filter(|part| !part.is_empty());
        lengths
            .map(|part| TypedLength::parse(part, unit, Sign::Either))
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn own(typed: &str) -> Result<Exercise, NoExercise> {
        let form = PracticeForm {
            own: typed.to_owned(),
            ..PracticeForm::default()
        };
        form.exercise(Unit::Millimetre)
    }

    #[test]
    fn a_press_of_ones_own_is_typed_in_many_ways() {
        let microns = |exercise: Exercise| -> Vec<i64> {
            let lengths = exercise.profile.iter();
            lengths.map(|length| length.length().nm() / 1_000).collect()
        };
        for (typed, expected) in [
            ("6.30 6.35 6.28", vec![6_300, 6_350, 6_280]),
            ("6,30; 6,35;6,28", vec![6_300, 6_350, 6_280]),
            ("6.30, 6.35, 6.28", vec![6_300, 6_350, 6_280]),
            ("6.30,6.35", vec![6_300, 6_350]),
            ("0 +0.1 -0.05", vec![0, 100, -50]),
        ] {
            let exercise = own(typed).unwrap();
            assert_eq!(exercise.arms, expected.len(), "{typed}");
            assert_eq!(exercise.fault, Fault::Everyday);
            assert_eq!(microns(exercise), expected, "{typed}");
        }
        assert!(matches!(own("6.30 six"), Err(NoExercise::Length(_))));
        let one = NoExercise::Problem(ExerciseProblem::Arms(1));
        assert_eq!(own("6.30"), Err(one));
    }
}
