//! Starting a session: what is typed into its form, and the session it makes.

use crate::press::{Arm, ArmIndex, CountQuantity, NutPosition, Press, PressProblem, customary};
use crate::session::{Field, Session};
use crate::units::{Length, Sign, TypedLength, Unit};
use crate::words::{Figures, Language, example};

/// What was typed so far.
#[derive(Debug, Clone, PartialEq)]
pub struct NewSessionForm {
    /// Unit of the session.
    pub unit: Unit,
    /// Name of the press.
    pub name: String,
    /// Length of the jaw.
    pub length: String,
    /// Whether the arms are told one by one.
    pub one_by_one: bool,
    /// Positions of the arms, one by one.
    pub arms: Vec<String>,
    /// How many arms, where they stand evenly.
    pub count: String,
    /// Where the first of them stands.
    pub first: String,
    /// From each of them to the next.
    pub spacing: String,
    /// Tolerance on the spread.
    pub tolerance: String,
    /// Notch effect; empty where nobody measured it, and then the customary one.
    pub notch: String,
    /// Step of the gauge.
    pub step: String,
    /// Where each nut stands, in notches; all empty where nobody knows.
    pub nuts: Vec<String>,
    /// Whether the first field had the keyboard.
    pub asked: bool,
}

impl NewSessionForm {
    /// A form to begin with.
    pub fn new(unit: Unit) -> Self {
        let mut form = Self {
            unit,
            name: String::new(),
            length: String::new(),
            one_by_one: false,
            arms: Vec::new(),
            count: "4".to_owned(),
            first: String::new(),
            spacing: String::new(),
            tolerance: String::new(),
            notch: String::new(),
            step: String::new(),
            nuts: Vec::new(),
            asked: false,
        };
        form.take_customary();
        form
    }

    /// Fills in what is customary in the unit. The tolerance stays that in inches
    /// until another is chosen: the metric figure in use is looser.
    pub fn take_customary(&mut self) {
        self.tolerance = usual_text(customary::tolerance(Unit::Inch), Unit::Inch);
        self.step = usual_text(customary::gauge_step(self.unit), self.unit);
    }

    /// How many arms it says there are, as far as a press may have.
    pub fn arms_typed(&self) -> usize {
        let most = CountQuantity::Arms.bounds().most;
        let count = self.count.trim().parse::<i64>().unwrap_or_default();
        usize::try_from(count.clamp(0, most)).unwrap_or_default()
    }

    /// Makes room for what is told of each arm. What was typed for arms that are no
    /// more is kept.
    pub fn take_up_arms(&mut self) {
        let arms = self.arms_typed();
        for texts in [&mut self.arms, &mut self.nuts] {
            texts.resize(texts.len().max(arms), String::new());
        }
    }

    fn typed(&self, field: Field, text: &str, words: Language) -> Result<TypedLength, String> {
        self.typed_at(&words.field(field), field, text, words)
    }

    fn typed_at(
        &self,
        place: &str,
        field: Field,
        text: &str,
        words: Language,
    ) -> Result<TypedLength, String> {
        TypedLength::parse(text, self.unit, Sign::None).map_err(|problem| {
            words.length_problem_like(place, &problem, example(field, self.unit))
        })
    }

    /// The length of the jaw.
    pub fn jaw(&self, words: Language) -> Result<TypedLength, String> {
        self.typed(Field::JawLength, &self.length, words)
    }

    /// Where the arms are.
    pub fn positions(&self, words: Language) -> Result<Vec<TypedLength>, String> {
        if self.one_by_one {
            let typed = self.arms.iter().take(self.arms_typed()).enumerate();
            typed
                .map(|(index, text)| self.typed(Field::ArmPosition(ArmIndex(index)), text, words))
                .collect()
        } else {
            self.evenly(words)
        }
    }

    /// Arms evenly from the first on. Without a spacing the last stands as far
    /// from the right end as the first from the left; without a first place
    /// the row of them stands in the middle; without both each has as much
    /// of the jaw as any other.
    fn evenly(&self, words: Language) -> Result<Vec<TypedLength>, String> {
        let jaw = i128::from(self.jaw(words)?.length().nm());
        let bounds = CountQuantity::Arms.bounds();
        let count = self.count.trim().parse::<i64>();
        let count = count
            .ok()
            .filter(|count| (bounds.least..=bounds.most).contains(count))
            .ok_or_else(|| words.count_of_arms_expected(bounds.least, bounds.most, &self.count))?;
        let given = |place: &str, text: &str| match text.trim() {
            "" => Ok(None),
            text => self
                .typed_at(place, Field::JawLength, text, words)
                .map(|typed| Some(i128::from(typed.length().nm()))),
        };
        let first = given(words.first_arm_at(), &self.first)?;
        let spacing = given(words.arm_spacing(), &self.spacing)?;
        let arms = i128::from(count);
        let gaps = (arms - 1).max(1);
        // Positions as (start + arm * step) / of, so that none is rounded
        // twice.
        let (start, step, of) = match (first, spacing) {
            (Some(first), Some(spacing)) => (first, spacing, 1),
            (Some(first), None) => (first * gaps, jaw - 2 * first, gaps),
            (None, Some(spacing)) => (jaw - gaps * spacing, 2 * spacing, 2),
            (None, None) => (jaw, 2 * jaw, 2 * arms),
        };
        Ok((0..arms)
            .map(|arm| self.rounded((start + arm * step) / of))
            .collect())
    }

    /// A position; to the hundredth of a millimetre where it would take many
    /// digits otherwise.
    fn rounded(&self, nm: i128) -> TypedLength {
        let nm = i64::try_from(nm).unwrap_or(i64::MAX);
        let exact = TypedLength::from_length(Length::from_nm(nm), self.unit);
        if exact.text().len() <= 9 {
            exact
        } else {
            TypedLength::from_length(Length::from_nm(nm / 10_000 * 10_000), self.unit)
        }
    }

    /// Where the nuts stand; none where nobody knows.
    fn nuts(&self, words: Language) -> Result<Vec<NutPosition>, String> {
        let typed: Vec<&str> = self.nuts.iter().map(|text| text.trim()).collect();
        let typed = typed.get(..self.arms_typed()).unwrap_or(&typed);
        let known = typed.iter().filter(|text| !text.is_empty());
        match known.count() {
            0 => return Ok(Vec::new()),
            some if some < typed.len() => return Err(words.nuts_of_arms(some, typed.len())),
            _ => {}
        }
        let position = |text: &&str| {
            let number = text.replace('−', "-").parse();
            number
                .map(NutPosition)
                .map_err(|_| words.not_whole_notches(text))
        };
        typed.iter().map(position).collect()
    }

    /// The session this form describes.
    pub fn session(&self, id: String, figures: Figures) -> Result<Session, String> {
        let words = figures.language;
        let notch_effect = match self.notch.trim() {
            "" => TypedLength::from_length(customary::NOTCH_EFFECT, self.unit),
            typed => self.typed(Field::NotchEffectOfAll, typed, words)?,
        };
        let arm = |position| Arm::new(position, notch_effect.clone());
        let press = Press::new(
            self.name.trim().to_owned(),
            self.jaw(words)?,
            self.positions(words)?.into_iter().map(arm),
        );
        let mut own = figures;
        own.unit = self.unit;
        press
            .check()
            .map_err(|problem: PressProblem| own.press_problem(&problem))?;
        let mut session = Session::new(id, self.unit, press);
        session.tolerance = self.typed(Field::Tolerance, &self.tolerance, words)?;
        session.gauge.step = self.typed(Field::GaugeStep, &self.step, words)?;
        let nuts = self.nuts(words)?;
        if nuts.is_empty() {
            // No position is made up: the record says from what they count.
            session.notes.notes = words.nuts_not_known().to_owned();
        } else {
            session.start_nuts = nuts;
        }
        session
            .check()
            .map_err(|problem| own.session_problem(&problem))?;
        Ok(session)
    }
}

/// A customary length as a field shows it: inches by their mark, so that "1
/// in" never means a turn.
pub fn usual_text(length: Length, unit: Unit) -> String {
    let usual = TypedLength::from_length(length, unit);
    Figures::exact(Language::English, unit).typed(&usual)
}

/// A position as a number alone, in its unit.
pub fn number(position: &TypedLength) -> String {
    let text = position.text();
    let number = text.strip_suffix(position.unit().mark());
    number.map_or(text, str::trim_end).to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn even(count: &str, first: &str, spacing: &str) -> String {
        let mut form = NewSessionForm::new(Unit::Inch);
        form.length = "60".into();
        (form.count, form.first, form.spacing) = (count.into(), first.into(), spacing.into());
        form.positions(Language::English).map_or_else(
            |problem| problem,
            |arms| {
                let numbers: Vec<String> = arms.iter().map(number).collect();
                numbers.join("  ")
            },
        )
    }

    #[test]
    fn arms_stand_evenly_from_what_is_given() {
        assert_eq!(even("5", "6", "12"), "6  18  30  42  54");
        assert_eq!(even("5", "6", ""), "6  18  30  42  54");
        assert_eq!(even("5", "", "12"), "6  18  30  42  54");
        assert_eq!(even("5", "", ""), "6  18  30  42  54");
        assert_eq!(even("2", "10", ""), "10  50");
        assert!(even("five", "", "").contains("five"));
    }

    #[test]
    fn nuts_are_told_for_every_arm_or_for_none() {
        let mut form = NewSessionForm::new(Unit::Inch);
        form.length = "60".into();
        let figures = Figures::exact(Language::English, Unit::Inch);
        let nuts = |form: &NewSessionForm| {
            form.session(String::new(), figures)
                .map(|new| new.start_nuts)
        };
        assert_eq!(nuts(&form), Ok(vec![NutPosition(0); 4]), "not known");
        form.nuts = ["−4", "-3", "0", " 1 "].map(String::from).into();
        assert_eq!(nuts(&form), Ok([-4, -3, 0, 1].map(NutPosition).to_vec()));
        form.nuts[2].clear();
        assert!(nuts(&form).is_err());
    }

    #[test]
    fn a_notch_that_nobody_measured_is_the_customary_one() {
        let mut form = NewSessionForm::new(Unit::Millimetre);
        form.length = "1500".into();
        let figures = Figures::exact(Language::English, Unit::Millimetre);
        let notch = |form: &NewSessionForm| {
            let new = form.session(String::new(), figures).unwrap();
            new.press.arms[0].notch_effect.length()
        };
        assert_eq!(form.notch, "");
        assert_eq!(notch(&form), customary::NOTCH_EFFECT);
        form.notch = "0.09".into();
        assert_eq!(notch(&form), Length::from_nm(90_000));
    }

    #[test]
    fn choosing_millimetres_loosens_nothing() {
        let mut form = NewSessionForm::new(Unit::Inch);
        let inch = form.tolerance.clone();
        form.unit = Unit::Millimetre;
        form.take_customary();
        assert_eq!(form.tolerance, inch);
    }
}
