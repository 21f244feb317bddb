//! Sentences about typed lengths.

use crate::units::{LengthProblem, Unit};

use super::Language;

impl Language {
    /// The unit in words.
    /// A unit in the plural.
    pub fn unit_plural(self, unit: Unit) -> &'static str {
        match unit {
            Unit::Inch => self.inches(),
            Unit::Millimetre => self.millimetres(),
        }
    }

    /// What is wrong with a length typed at `place` (a cell, a field or an
    /// option): what was expected, what was found.
    pub fn length_problem(self, place: &str, problem: &LengthProblem, bare: Unit) -> String {
        let example = match bare {
            Unit::Inch => "0.2475",
            Unit::Millimetre => "6.29",
        };
        self.length_problem_like(place, problem, example)
    }

    /// The same with an example of the kind that is asked for.
    pub fn length_problem_like(
        self,
        place: &str,
        problem: &LengthProblem,
        example: &str,
    ) -> String {
        match problem {
            LengthProblem::Empty => self.length_empty(place, example),
            LengthProblem::NotANumber(found) => {
                self.length_not_a_number(place, example, shortened(found))
            }
            LengthProblem::UnknownUnit(unit) => self.length_unknown_unit(place, shortened(unit)),
            LengthProblem::SignNotAllowed => self.length_signed(place, example),
            LengthProblem::FinerThanNanometre => self.length_too_fine(place),
            LengthProblem::ZeroDenominator => self.length_zero_denominator(place),
            LengthProblem::TooLarge => self.length_too_large(place),
        }
    }
}

/// A found text short enough for a sentence.
pub(crate) fn shortened(text: &str) -> String {
    const MOST_CHARS: usize = 40;
    if text.chars().count() <= MOST_CHARS {
        return text.to_owned();
    }
    text.chars().take(MOST_CHARS).chain(['…']).collect()
}

names! {
    /// A unit by its name.
    pub unit_name(Unit) {
        Inch { en: "inch", es: "pulgadas" }
        Millimetre { en: "millimeter", es: "milímetros" }
    }
}

texts! {
    inches { en: "inches", es: "pulgadas" }
    millimetres { en: "millimeters", es: "milímetros" }
    length_empty(place, example) {
        en: "{place}: a length such as {example} is missing.",
        es: "{place}: falta una medida como {example}."
    }
    length_not_a_number(place, example, found) {
        en: "{place}: must be a length such as {example}; “{found}” is not.",
        es: "{place}: debe ser una medida como {example}; «{found}» no lo es."
    }
    length_unknown_unit(place, found) {
        en: "{place}: the unit must be in, thou or mm; “{found}” is not known.",
        es: "{place}: la unidad debe ser in, thou o mm; «{found}» no se conoce."
    }
    length_signed(place, example) {
        en: "{place}: no plus or minus sign here; write a length such as {example}.",
        es: "{place}: aquí va sin signo; escriba una medida como {example}."
    }
    length_too_fine(place) {
        en: "{place}: too many digits (finer than 0.000001 mm). Type fewer.",
        es: "{place}: demasiadas cifras (más fino que 0.000001 mm). Escriba menos."
    }
    length_zero_denominator(place) {
        en: "{place}: the number below the fraction line can't be 0.",
        es: "{place}: el número bajo la raya de la fracción no puede ser 0."
    }
    length_too_large(place) {
        en: "{place}: this number is too large for a length here.",
        es: "{place}: este número es demasiado grande para ser una medida."
    }
}
