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
    /// Positions of the arms, parted by blanks or semicolons.
    pub arms: String,
    /// How many arms, where they stand evenly.
    pub count: String,
    /// Where the first of them stands.
    pub first: String,
    /// From each of them to the next.
    pub spacing: String,
    /// Tolerance on the spread.
    pub tolerance: String,
    /// Notch effect.
    pub notch: String,
    /// Step of the gauge.
    pub step: String,
    /// Nut positions: one for all, or one an arm; empty where nobody knows.
    pub nuts: String,
    /// Why it cannot be started like this.
    pub problem: Option<String>,
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
            arms: String::new(),
            count: "4".to_owned(),
            first: String::new(),
            spacing: String::new(),
            tolerance: String::new(),
            notch: String::new(),
            step: String::new(),
            nuts: String::new(),
            problem: None,
            asked: false,
        };
        form.take_customary();
        form
    }

    /// Fills in what is customary in the unit.
    pub fn take_customary(&mut self) {
        let text = |length| usual_text(length, self.unit);
        self.tolerance = text(customary::tolerance(self.unit));
        // Handed down in inches: converted it would look exact.
        self.notch = usual_text(customary::NOTCH_EFFECT, Unit::Inch);
        self.step = text(customary::gauge_step(self.unit));
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
            parts(&self.arms, &[' ', ';', '\t'])
                .enumerate()
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

    /// Where the nuts of so many arms stand: one position for all, or as many as
    /// were typed; none where nobody knows.
    pub fn nuts(&self, arms: usize, words: Language) -> Result<Vec<NutPosition>, String> {
        let nuts = parts(&self.nuts, &[' ', ',', ';'])
            .map(|text| {
                text.replace('−', "-")
                    .parse()
                    .map(NutPosition)
                    .map_err(|_| words.not_whole_notches(text))
            })
            .collect::<Result<Vec<_>, _>>()?;
        Ok(match nuts[..] {
            [all] => vec![all; arms],
            _ => nuts,
        })
    }

    /// The session this form describes.
    pub fn session(&self, id: String, figures: Figures) -> Result<Session, String> {
        let words = figures.language;
        let notch_effect = self.typed(Field::NotchEffectOfAll, &self.notch, words)?;
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
        let nuts = self.nuts(session.press.arms.len(), words)?;
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

fn parts<'a>(text: &'a str, between: &'a [char]) -> impl Iterator<Item = &'a str> {
    text.split(between).filter(|part| !part.is_empty())
}

/// Positions as numbers alone, in their unit.
pub fn numbers(positions: &[TypedLength]) -> String {
    let numbers: Vec<&str> = positions
        .iter()
        .map(|position| {
            let text = position.text();
            text.strip_suffix(position.unit().mark())
                .map_or(text, str::trim_end)
        })
        .collect();
    numbers.join("  ")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn even(count: &str, first: &str, spacing: &str) -> String {
        let mut form = NewSessionForm::new(Unit::Inch);
        form.length = "60".into();
        (form.count, form.first, form.spacing) = (count.into(), first.into(), spacing.into());
        form.positions(Language::English)
            .map_or_else(|problem| problem, |arms| numbers(&arms))
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
    fn one_nut_position_stands_for_all() {
        let mut form = NewSessionForm::new(Unit::Inch);
        form.length = "60".into();
        form.nuts = "−4".into();
        let figures = Figures {
            language: Language::English,
            unit: Unit::Inch,
            step: Length::from_nm(12_700),
            limit: None,
        };
        let nuts = |form: &NewSessionForm| {
            form.session(String::new(), figures)
                .map(|new| new.start_nuts)
        };
        assert_eq!(nuts(&form), Ok(vec![NutPosition(-4); 4]));
        form.nuts = "-4 -3 -2 -1".into();
        assert_eq!(nuts(&form), Ok([-4, -3, -2, -1].map(NutPosition).to_vec()));
        form.nuts = "-4 -3".into();
        assert!(nuts(&form).is_err());
    }
}
